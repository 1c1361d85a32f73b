"""The commands, one module each: ``ARGUMENTS`` say what it takes, ``run`` does it and gives the exit code."""
