"""The routes, a module for each thing that is asked for."""
