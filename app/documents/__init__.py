"""Sets and tables that leave the screen."""
