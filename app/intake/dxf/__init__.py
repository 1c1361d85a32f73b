"""DXF files: opened with limits, unfolded into plain strokes, their layers told and drawn."""
