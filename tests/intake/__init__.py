"""Foreign files read into plans: drawings written here and by several other programs, broken and huge ones."""
