"""The blocks: a symbol for each kind of device, riser and fixture, and windows and doors that stretch to their size.

A device's block is drawn at its size in the drawing. An opening's is one unit wide: windows, sliding and overhead doors
and cased openings are one unit deep too (an insertion's scales are the width and the wall's thickness), swinging doors
keep their shape (both scales are the width).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ezdxf.document import Drawing
from ezdxf.layouts.blocklayout import BlockLayout

from app.documents.dxf.ground import STYLE
from app.plan.devices import DEVICE_KINDS, Shape

SYMBOL = 0.34  # ft: half width, 2.2 mm on paper at 1/4" to the foot
LETTER = 0.36  # ft: height of a device's label, 0.09 in at that scale
DEVICE_TAGS = ("LABEL", "ID", "KIND", "HEIGHT", "CABLE", "ROOM", "NOTE")
OPENING_TAGS = ("ID", "KIND", "WIDTH", "SILL", "HEAD", "PROTECTED-BY")
RISER = "STUDBAY-RISER"
FIXTURES: Mapping[str, str] = {"light_switch": "S", "chime": "CH", "supply_register": "R", "outlet": "O"}
_LEAF = 0.05  # of a leaf's width
_NO_WEDGE = "-UNTURNED"


def device_block(kind: str, turned: bool = True) -> str:
    """The name of a kind's block; a motion detector that faces nowhere has one without its wedge."""
    name = f"STUDBAY-{kind.replace('_', '-').upper()}"
    return name if turned or kind != "motion" else name + _NO_WEDGE


def fixture_block(kind: str) -> str:
    """The name of the block of a point fixture."""
    return f"STUDBAY-{kind.replace('_', '-').upper()}"


def window_block(lites: int) -> str:
    """The name of the block of a window of so many lites."""
    return f"STUDBAY-WINDOW-{lites}"


def slide_block(panels: int) -> str:
    """The name of the block of a sliding door of so many panels."""
    return f"STUDBAY-DOOR-SLIDE-{panels}"


SWING, PAIR, OVERHEAD, CASED = (f"STUDBAY-{name}" for name in ("DOOR", "DOOR-PAIR", "DOOR-OVERHEAD", "CASED-OPENING"))


def add_symbol_blocks(document: Drawing, per_foot: float) -> None:
    """The blocks of devices, fixtures and risers; ``per_foot`` is drawing units a foot."""
    size = SYMBOL * per_foot
    for kind in DEVICE_KINDS:
        for turned in (True, False):
            name = device_block(kind.kind, turned)
            if name not in document.blocks:
                block = document.blocks.new(name, dxfattribs={"description": kind.name})
                for shape in kind.symbol:
                    _shape(block, shape, size)
                if kind.kind == "motion" and turned:
                    for y in (-1, 1):
                        block.add_line((0.5 * size, 0.5 * y * size), (1.25 * size, 1.25 * y * size))
                _tags(block, DEVICE_TAGS, LETTER * per_foot, size)
    for fixture, letters in FIXTURES.items():
        block = document.blocks.new(fixture_block(fixture))
        block.add_circle((0, 0), 0.7 * size)
        height = 0.75 * size / len(letters) ** 0.5
        text = block.add_text(letters, height=height, dxfattribs={"style": STYLE})
        text.dxf.halign, text.dxf.valign, text.dxf.align_point = 1, 2, (0, 0)
    riser = document.blocks.new(RISER)
    riser.add_circle((0, 0), 0.7 * size)
    for y in (-1, 1):
        riser.add_line((-0.5 * size, -0.5 * y * size), (0.5 * size, 0.5 * y * size))
    _tags(riser, ("ID",), LETTER * per_foot, size)


def _shape(block: BlockLayout, shape: Shape, size: float) -> None:
    """One shape of a symbol's table, filled where its name ends so."""
    name, numbers = str(shape[0]), [float(number) * size for number in shape[1:]]
    points = list(zip(numbers[::2], numbers[1::2], strict=False))
    match name.rstrip("!"):
        case "circle":
            block.add_circle(points[0], numbers[2])
        case "arc":
            block.add_arc(points[0], numbers[2], float(shape[4]), float(shape[5]))
        case "line":
            block.add_line(points[0], points[1])
        case _:
            block.add_lwpolyline(points, close=True)
    if name.endswith("!"):
        fill = block.add_hatch(color=256)
        if name == "circle!":
            fill.paths.add_edge_path().add_arc(points[0], numbers[2], 0, 360)
        else:
            fill.paths.add_polyline_path(points, is_closed=True)


def _tags(block: BlockLayout, tags: tuple[str, ...], height: float, aside: float) -> None:
    """The attributes that an insertion is asked for; only a label is seen."""
    for number, tag in enumerate(tags):
        attribute = block.add_attdef(
            tag, (1.4 * aside, -height / 2 - number * 1.5 * height), dxfattribs={"height": height, "style": STYLE}
        )
        attribute.is_invisible = tag != "LABEL"


def add_opening_block(document: Drawing, name: str, parts: int, letter: float) -> None:
    """The block of an opening, once in a document: ``parts`` are the lites or panels that its name counts."""
    if name in document.blocks:
        return
    block = document.blocks.new(name)
    if name == window_block(parts):
        _window(block, parts)
    elif name == slide_block(parts):
        _slide(block, parts)
    elif name == SWING:
        _leaf(block, 0.0, 1.0)
    elif name == PAIR:
        _leaf(block, 0.0, 0.5)
        _leaf(block, 1.0, -0.5)
    elif name == OVERHEAD:
        block.add_lwpolyline([(0, -0.25), (1, -0.25), (1, 0.25), (0, 0.25)], close=True)
    else:
        _faces(block, "DASHED")
    _tags(block, OPENING_TAGS, letter, 0.0)


def _faces(block: BlockLayout, line: str = "BYLAYER") -> None:
    for y in (-0.5, 0.5):
        block.add_line((0, y), (1, y), dxfattribs={"linetype": line})


def _window(block: BlockLayout, lites: int) -> None:
    """Both faces of the wall, two glazing lines, and a line at each joint of lites."""
    _faces(block)
    for y in (-0.12, 0.12):
        block.add_line((0, y), (1, y))
    for x in (0.0, *(lite / lites for lite in range(1, lites)), 1.0):
        block.add_line((x, -0.5), (x, 0.5))


def _slide(block: BlockLayout, panels: int) -> None:
    """Panels one behind another, each lapping its neighbour."""
    _faces(block)
    lap = 0.02
    for panel in range(panels):
        low, high = max(0.0, panel / panels - lap), min(1.0, (panel + 1) / panels + lap)
        y = 0.0 if panel % 2 else -0.3
        block.add_lwpolyline([(low, y), (high, y), (high, y + 0.3), (low, y + 0.3)], close=True)


def _leaf(block: BlockLayout, hinge: float, width: float) -> None:
    """A leaf open at right angles and its arc; a negative ``width`` swings the other way."""
    thick, tip = _LEAF * width, abs(width)
    block.add_lwpolyline([(hinge, 0), (hinge, tip), (hinge + thick, tip), (hinge + thick, 0)], close=True)
    start, end = (0, 90) if width > 0 else (90, 180)
    block.add_arc((hinge, 0), tip, start, end)


def text_style(document: Drawing) -> Any:
    """The style of all lettering: a common sans-serif that has the scripts people's names are written in."""
    return document.styles.add(STYLE, font="arial.ttf")
