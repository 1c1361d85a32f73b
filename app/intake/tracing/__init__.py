"""From strokes to a house: faces paired into walls, walls joined, gaps and symbols made openings, rooms named."""
