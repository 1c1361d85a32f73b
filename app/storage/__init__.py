"""Keeps plans and their revisions."""
