"""Where devices could go: the first pass."""
