"""Plans that come from elsewhere: a foreign file (DXF, IFC) read into a plan, with a report of all that was not read."""
