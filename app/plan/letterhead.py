"""A designer's letterhead and habits of print: words alone, no picture, kept beside the plan and printed on its sheets.

The plan's format is fixed, so nothing of this stands in the plan.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Annotated

from pydantic import AfterValidator, StringConstraints

from app.plan.model import Part


def _one_line(text: str) -> str:
    if any(not letter.isprintable() for letter in text):
        raise ValueError("has a line break or a letter that does not show; take it out")
    return text


Line = Annotated[str, StringConstraints(strict=True, strip_whitespace=True, max_length=120), AfterValidator(_one_line)]
Choice = Annotated[str, StringConstraints(strict=True, pattern=r"^[a-z0-9_./-]{0,20}$")]


class Letterhead(Part):
    """What a company prints of itself; every line may be empty."""

    company: Line = ""
    designer: Line = ""
    address: Line = ""
    phone: Line = ""
    license: Line = ""
    words: Line = ""

    def lines(self) -> Iterator[str]:
        """What is printed, line by line, the company first; the designer stands in the title block already."""
        for line in (self.company, self.address, self.phone):
            if line:
                yield line
        if self.license:
            yield f"License {self.license}"
        if self.words:
            yield self.words


class PrintHabit(Part):
    """The set, paper and scale that a designer prints with unless others are chosen; empty: the program's usual."""

    set: Choice = ""
    paper: Choice = ""
    scale: Choice = ""


class Stationery(Part):
    """Letterhead and print habit together, as a plan has them."""

    letterhead: Letterhead = Letterhead()
    habit: PrintHabit = PrintHabit()
