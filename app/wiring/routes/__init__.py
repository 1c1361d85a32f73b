"""Routes: the ways that home runs take, over the ceiling or in the walls."""
