"""The log book: whose system it is, who answers for it, and rows for every visit, alarm, fault, test and change."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.documents.sources import RECORDS
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.sheets.setting.ruled import Ruled, blanks, ruled_table

_ROWS = 36  # at least; more stand until the sheet is full
_ROUTINE = (
    ("Every month", "Arm, open a door, hear the siren briefly with everybody warned; read the keypad for faults"),
    (
        "Every half year",
        "Walk test of every motion detector, each contact opened, glass-break test by the maker's tester",
    ),
    ("Every year", "Battery under load with its date, voltage at the farthest device, all settings against the record"),
    ("When rooms change", "New curtains, furniture, pets or windows: check the coverage on the plan again"),
)


def log_book_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """The first page's particulars, the routine, and rows to write in."""
    job = order.job
    yield from setter.heading("Log book")
    yield from setter.paragraph(
        f"System: {job.plan}, {job.address or 'address ________________'}. Record as of revision {job.revision}. Kept "
        "beside the can; every visit, alarm, fault, test and change is written down, with day and name."
    )
    yield from blanks(
        setter,
        ("Owner", "User responsible", "Installer, telephone", "Receiving centre, telephone", "Maintained by", "Since"),
        2,
    )
    yield from setter.heading("Routine")
    rows = [Ruled((when, what, ""), 0.0) for when, what in _ROUTINE]
    yield from ruled_table(setter, ("When", "What", "Agreed, by whom"), (24, 100, 40), rows)
    yield setter.space(1.0)
    yield from setter.paragraph(
        "Intervals: common practice, no source; the maker's instructions, the contract and the insurer decide.",
        quiet=True,
    )
    yield from setter.paragraph(f"{RECORDS}; contents of entries from memory of common forms.", quiet=True)
    yield from setter.heading("Entries")
    heads = ("Date, time", "Who", "Visit, alarm, fault, test or change", "Zone", "What was done", "Signed")
    yield from ruled_table(setter, heads, (22, 24, 56, 12, 56, 24), [Ruled(("",) * 6) for _ in range(_ROWS)])
