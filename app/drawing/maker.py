"""SVG elements by svgwrite without its validator, which takes three times as long and refuses ``data-`` attributes."""

from __future__ import annotations

from typing import Any
from xml.etree import ElementTree

import svgwrite

SVG = svgwrite.Drawing(debug=False)  # a maker of elements alone: nothing is ever added to it


def as_text(part: Any) -> str:
    """An element as text; svgwrite's own ``tostring`` goes by bytes and takes a third longer."""
    return ElementTree.tostring(part.get_xml(), encoding="unicode")
