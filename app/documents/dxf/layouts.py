"""A layout in paper space for each level: the level in a viewport at a stated scale, and a line that says what it is.

Whoever opens the drawing can plot it at once; the sheets of the printed set, with their schedules, are another thing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.layout import Paperspace

from app.documents.dxf import layers
from app.documents.dxf.ground import STYLE, Ground, plain
from app.documents.plan_answers import CONFIDENTIAL, Edition, PlanAnswers
from app.drawing.sheets.paper.papers import PAPERS, Paper
from app.drawing.sheets.paper.scales import USUAL, Scale
from app.review.house import Storey

AROUND = 6.0  # ft about a level that its viewport shows: reaches are cut, words beside walls are not
_MARGIN, _FOOT, _LINE = 10.0, 16.0, 3.0  # mm: about the viewport, beneath it, height of lettering
_INCH = 25.4
_PAPERS = {"imperial": ("letter", "tabloid", "arch_c", "arch_d"), "metric": ("a4", "a3", "a2", "a1")}
_FORBIDDEN = str.maketrans(dict.fromkeys("<>/\\\":;?*|,=`'", "-"))


@dataclass(frozen=True)
class Setting:
    """The smallest paper that shows a level at the largest scale that any paper can."""

    paper: Paper
    scale: Scale


def setting_for(size: tuple[float, float], units: str) -> Setting:
    """How a level of a size in feet is set; one too large for every paper gets the largest at the smallest scale."""
    papers = [PAPERS[key] for key in _PAPERS[units]]
    for scale in USUAL[units]:
        for paper in papers:
            room = (paper.width - 2 * _MARGIN, paper.height - 2 * _MARGIN - _FOOT)
            if all(feet * scale.mm_per_foot <= length for feet, length in zip(size, room, strict=True)):
                return Setting(paper, scale)
    return Setting(papers[-1], USUAL[units][-1])


def add_layout(
    document: Drawing,
    ground: Ground,
    storey: Storey,
    extent: tuple[float, float, float, float],
    answers: PlanAnswers,
    edition: Edition,
) -> Setting:
    """Add the layout of a level that is drawn on ``ground``; ``extent`` is its west, south, east and north in feet."""
    west, south, east, north = extent
    units = answers.units
    setting = setting_for((east - west + 2 * AROUND, north - south + 2 * AROUND), units)
    layout = document.layouts.new(_name(document, storey.level.name))
    # Paper space is in the paper's own unit, as the model is in the building's.
    per_mm = 1.0 if units == "metric" else 1 / _INCH
    paper = setting.paper
    layout.page_setup(
        (paper.width * per_mm, paper.height * per_mm),
        units="mm" if units == "metric" else "inch",
        scale=(1, 1),
        name=paper.name,
        device="",
    )
    wide, high = (paper.width - 2 * _MARGIN) * per_mm, (paper.height - 2 * _MARGIN - _FOOT) * per_mm
    centre = (_MARGIN * per_mm + wide / 2, (_MARGIN + _FOOT) * per_mm + high / 2)
    middle = ground.at(((west + east) / 2, (south + north) / 2))
    window = layout.add_viewport(centre, (wide, high), middle, high * setting.scale.ratio)
    window.dxf.layer = layers.WINDOW.name
    lines = (
        f"{storey.level.name}: {answers.plan.name}",
        f"{setting.scale.words} on {paper.name}. {edition.words}. {CONFIDENTIAL}. Verify on site.",
    )
    _write(layout, lines, per_mm)
    return setting


def _write(layout: Paperspace, lines: Sequence[str], per_mm: float) -> None:
    for number, line in enumerate(lines):
        at = (_MARGIN * per_mm, (_MARGIN + _FOOT - 6.0 - 6.0 * number) * per_mm)
        height = _LINE * per_mm * (1.3 if number == 0 else 0.8)
        text = layout.add_text(plain(line), height=height, dxfattribs={"layer": layers.TITLE.name, "style": STYLE})
        text.set_placement(at, align=TextEntityAlignment.LEFT)


def _name(document: Drawing, level: str) -> str:
    """A layout's name that the format allows and no other layout has."""
    wanted = " ".join(level.translate(_FORBIDDEN).split())[:100] or "Level"
    taken = {name.lower() for name in document.layouts.names()}
    number, name = 1, wanted
    while name.lower() in taken:
        number += 1
        name = f"{wanted} {number}"
    return name
