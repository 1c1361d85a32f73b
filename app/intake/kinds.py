"""Which kind of foreign file some bytes are, by how they begin; everything else is refused with what to do instead."""

from __future__ import annotations

import re
from typing import Literal

from app.intake.refused import DrawingRefused

LARGEST_DRAWING = 32 * 2**20  # bytes

Kind = Literal["dxf", "ifc"]

_BINARY_DXF = b"AutoCAD Binary DXF"  # the sentinel that the format's published reference gives
_OTHERS = (
    (re.compile(rb"AC10\d\d"), "is a DWG file, which is not read; save it as DXF (ASCII, any release)"),
    (re.compile(rb"%PDF"), "is a PDF; lay it under a plan as a picture to trace, or ask for the DXF"),
    (re.compile(rb"\x89PNG|\xff\xd8\xff|GIF8|RIFF....WEBP|BM", re.S), "is a picture; lay it under a plan to trace it"),
    (re.compile(rb"PK\x03\x04|\x1f\x8b|7z\xbc\xaf|Rar!"), "is packed; unpack it and give the DXF or IFC file inside"),
    (re.compile(rb"\s*<"), "is XML or HTML; give a DXF, or an IFC file in its STEP text form (.ifc)"),
    (re.compile(rb"\s*\{"), "is JSON; a plan file is opened from the list of plans"),
)


def kind_of(source: bytes) -> Kind:
    """The kind of a file; raises ``DrawingRefused`` where it is none that is read, or over 32 MiB."""
    if len(source) > LARGEST_DRAWING:
        limit = LARGEST_DRAWING // 2**20
        raise DrawingRefused(f"the file is over {limit} MiB; save only the floor plan's layers", too_large=True)
    if not source.strip():
        raise DrawingRefused("the file is empty; choose a DXF or IFC file")
    start = source[:4096]
    if start.startswith(_BINARY_DXF):
        return "dxf"
    for pattern, words in _OTHERS:
        if pattern.match(start):
            raise DrawingRefused(f"the file {words}")
    if re.match(rb"\s*ISO-10303-21\s*;", start.removeprefix(b"\xef\xbb\xbf")):
        if re.search(rb"FILE_SCHEMA\s*\(\s*\(\s*'IFC", source[:65536], re.I):
            return "ifc"
        raise DrawingRefused("the file is a STEP file of another trade; give one whose FILE_SCHEMA is IFC")
    if re.search(rb"(?m)^[ \t]*0[ \t]*\r?\n[ \t]*SECTION", start) or b"\nSECTION" in start.replace(b"\r", b"\n"):
        return "dxf"
    raise DrawingRefused("the file is neither DXF nor IFC; save the drawing as DXF (ASCII, any release)")
