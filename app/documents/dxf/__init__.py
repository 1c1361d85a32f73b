"""The plan as a DXF drawing for other drafting programs: layers, blocks with attributes, real size in model space."""
