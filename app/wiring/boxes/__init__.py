"""Boxes: which lengths of cable to buy, and which pull comes from which."""
