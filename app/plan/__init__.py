"""What a plan says: models, units, practice values, reading and writing. Knows nothing of space or of HTTP."""
