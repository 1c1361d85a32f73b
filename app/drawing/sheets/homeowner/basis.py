"""What the plan was judged by: the design values of its proof with their sources, and every one set for this plan."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.lengths import drawn_length
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.plan.practice import DESIGN_VALUES, DesignValue
from app.review.house import House

PROOF = ("glass.range", "glass.required_fraction", "doors.taken_as", "motion.range", "motion.view_angle")
OWN = "Set for this plan."


def basis_blocks(house: House, setter: Setter) -> Iterator[Block]:
    """The design values of the proof, and those that this plan sets otherwise."""
    rows = []
    for value in DESIGN_VALUES:
        own = not house.practice.is_default(value.key)
        if own or value.key in PROOF:
            rows.append(
                Row((Cell(value.words), Cell(_said(house, value), bold=own), Cell(OWN if own else value.source)))
            )
    yield from setter.heading("Judged by")
    yield from setter.table(("Design value", "Here", "Source"), (46, 16, 40), rows)


def _said(house: House, value: DesignValue) -> str:
    """The value in force as people say it."""
    practice, units = house.practice, house.plan.units
    if value.kind == "numbers":
        return ", ".join(f"{member:g}" for member in practice.numbers(value.key)) + f" {value.unit}"
    if value.kind != "number":
        return practice.text(value.key).replace("_", " ")
    number = practice.number(value.key)
    if value.unit == "ft":
        return drawn_length(number, units)
    if value.unit == "share":
        return f"{number:.0%}"
    return f"{number:g}{'' if value.unit == '°' else ' '}{value.unit}"
