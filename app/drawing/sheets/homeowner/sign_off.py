"""The homeowner's word on the plan: what is agreed to, in one paragraph, and lines to sign on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from app.drawing.lettering import lettered
from app.drawing.maker import SVG
from app.drawing.palette import INK
from app.drawing.sheets.homeowner.choices import choices_of
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.view import Spot
from app.drawing.weights import FINE


def sign_off_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """What is signed, and the lines."""
    yield from setter.heading("Agreed")
    # What is signed stands over the lines, on one sheet.
    yield from (replace(line, keep=True) for line in setter.paragraph(_said(order)))
    yield signature_lines(setter, ("Homeowner", "Designer"))


def _said(order: Order) -> str:
    count = len(choices_of(order))
    words = f"I have seen revision {order.job.revision} of {order.job.plan}, its plans and these notes"
    words += ", and what stay and away do and do not protect"
    if count:
        words += f"; {count} {'choice is' if count == 1 else 'choices are'} still to be made"
    return (
        f"{words}. Smoke and carbon monoxide alarms, mains work and what the code asks are for licensed others. "
        "A change to the plan after this is a new revision."
    )


def signature_lines(setter: Setter, names: tuple[str, ...]) -> Block:
    """A line to sign on for each name, with one for the date."""
    step = 11.0 * setter.factor

    def draw(at: Spot) -> Iterator[Any]:
        for number, name in enumerate(names):
            y = at[1] + step * (number + 0.75)
            split = at[0] + setter.width * 0.68
            for start, end, word in ((at[0], split - 4, name), (split, at[0] + setter.width, "Date")):
                yield SVG.line((start, y), (end, y), stroke=INK, stroke_width=FINE)
                yield lettered(word, (start, y + 3.2 * setter.factor), setter.size * 0.92)

    return Block(step * len(names) + 3.0 * setter.factor, draw)
