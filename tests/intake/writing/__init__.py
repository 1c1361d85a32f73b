"""How the drawings of these tests are written: by this module from plans, and by other libraries (see each script)."""
