"""The four line weights of a sheet, in millimetres of paper.

From the ISO pen series of √2 steps; wall outlines 0.50, glazing, devices and wiring 0.35, text and dimensions 0.25,
hatches and furniture 0.18 (US NCS names them wide, medium, thin and fine; from memory).
"""

from __future__ import annotations

CUT = 0.50
MEDIUM = 0.35
THIN = 0.25
FINE = 0.18
