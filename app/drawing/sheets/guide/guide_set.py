"""The quick guide as a set of one sheet: places and what each gets, cables, and what holds for every run."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from app.drawing.sheets.guide.places import Place, places_of
from app.drawing.sheets.guide.rules_of_hand import connecting, minding, running
from app.drawing.sheets.homeowner.devices import device_sign
from app.drawing.sheets.order import Order
from app.drawing.sheets.paper.frame import Sheet
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.columns import Section, roomy_sheets
from app.drawing.sheets.setting.flow import Block

TITLE = "Quick guide: what to wire to each kind of place"
_FIRST = 801  # sheet types 7 and 8 are the user's own (UDS Module 1)


def guide_set(order: Order) -> list[Sheet]:
    """One sheet; it names no house's detectors, so that it may be handed out."""
    contents = Section(TITLE, lambda setter: _contents(order, setter))
    return [replace(sheet, public=True) for sheet in roomy_sheets([contents], order.paper, _FIRST)]


def _contents(order: Order, setter: Setter) -> Iterator[Block]:
    yield from _places(order, setter)
    yield from _rules(order, setter)


def _places(order: Order, setter: Setter) -> Iterator[Block]:
    places = list(places_of(order.house.practice, order.house.plan.units))
    yield from setter.heading("What to wire to each kind of place")
    yield from setter.table(
        ("Place", "Device", "Cable", "AFF"), (36, 38, 13, 13), [_row(place, setter) for place in places]
    )
    if any(place.own for place in places):
        yield from setter.paragraph("• set for this plan; otherwise the usual practice.", quiet=True)
    yield from setter.heading("Cable by kind")
    cables = dict.fromkeys(place.cable for place in places if place.kind.cable_key)
    for cable in cables:
        kinds = [place.kind.name.lower() for place in places if place.cable == cable and place.kind.cable_key]
        yield from setter.paragraph(", ".join(kinds), tag=cable)


def _row(place: Place, setter: Setter) -> Row:
    mark = " •" if place.own else ""
    cells = (
        Cell(place.where, bold=True),
        Cell(place.kind.name, device_sign(place.kind.kind, setter)),
        Cell(f"{place.cable}{mark}"),
        Cell(place.height),
    )
    return Row(cells, (place.how,))


def _rules(order: Order, setter: Setter) -> Iterator[Block]:
    practice, units = order.house.practice, order.house.plan.units
    yield from _sentences("Running and cutting", running(practice, units), setter)
    yield from _sentences("Connecting", connecting(practice), setter)
    yield from _sentences("Mind", minding(), setter)


def _sentences(title: str, sentences: Iterable[tuple[str, str]], setter: Setter) -> Iterator[Block]:
    yield from setter.heading(title)
    for words, source in sentences:
        yield from setter.paragraph(f"{words} ({source})")
