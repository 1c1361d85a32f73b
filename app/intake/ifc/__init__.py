"""IFC files: walls, openings, spaces and storeys of a building model (needs the extra ``[ifc]``)."""
