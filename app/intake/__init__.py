"""Plans from elsewhere: a foreign file (DXF, IFC) read into a plan, with an account of what was not read."""
