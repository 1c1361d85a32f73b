"""The house itself, drawn in millimetres of paper: walls, openings, fixtures, rooms, dimensions, devices and proof."""
