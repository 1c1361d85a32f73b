"""What a check found: what is to be mended, and what somebody has accepted, with the reason and the name."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.order import Answer, Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block

_SEVERITY = {"must": "MUST", "should": "SHOULD", "note": "NOTE"}


def finding_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """Every finding, the gravest first; accepted ones under a heading of their own."""
    accepted, still = accepted_and_open(order)
    yield from setter.heading("Findings to mend")
    if not still:
        yield from setter.paragraph("None: every rule that was checked is met or accepted.")
    for finding in still:
        yield from setter.paragraph(finding["message"], tag=_SEVERITY[finding["severity"]])
    if accepted:
        yield from setter.heading("Accepted as it is")
        for finding in accepted:
            yield from setter.paragraph(finding["message"], tag="AGREED")


def accepted_and_open(order: Order) -> tuple[list[Answer], list[Answer]]:
    """The findings that a note of the plan accepts, and the others."""
    accepted: list[Answer] = []
    still: list[Answer] = []
    for finding in order.check["findings"]:
        covered = any(one.covers(finding["rule"], tuple(finding["things"])) for one in order.house.acceptances)
        (accepted if covered else still).append(finding)
    return accepted, still
