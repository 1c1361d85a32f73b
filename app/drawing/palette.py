"""Colours of every drawing, from the Okabe–Ito set, each named by what it says; none of them says it alone.

Every use stands beside a hatch, a line style, a mark or a word, so that a grey print says the same.
"""

from __future__ import annotations

INK = "#000"
COVERED = "#009E73"
MISSED = "#D55E00"
REACH = "#0072B2"
SEEN_FLOOR = "#56B4E9"
QUIET = "#6B6B6B"
PAPER = "#fff"
