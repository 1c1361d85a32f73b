"""The tables of a change sheet: every change by its number, then what they do to coverage, cable and findings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from app.drawing.lengths import drawn_length
from app.drawing.sheets.changes.sides import Side
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.review.comparison.answer import Comparison
from app.review.comparison.changes import Change
from app.review.comparison.wording import change_words

Answer = Mapping[str, Any]
_STATUS = {"covered": "covered", "partial": "partly covered", "uncovered": "not covered"}
_SEVERITY = {"must": "MUST", "should": "SHOULD", "note": "NOTE"}


def change_blocks(comparison: Comparison, old: Side, new: Side, setter: Setter) -> Iterator[Block]:
    """Which revisions are compared, and the table of the changes, level by level."""
    yield from setter.heading("Changes")
    yield from setter.paragraph(f"{_capital(new.name)}, compared with {old.name}.", bold=True)
    for side in (old, new):
        if side.words:
            yield from setter.paragraph(side.words, tag=side.mark)
    yield from setter.paragraph(_sum_words(comparison))
    names = {level.id: level.name for house in (comparison.old, comparison.new) for level in house.plan.levels}
    shown_on = list(dict.fromkeys(change.shown_on for change in comparison.changes))
    for level in shown_on:
        rows = [change for change in comparison.changes if change.shown_on == level]
        if len(shown_on) > 1:
            title = names.get(level or "", "") if level else "In the whole plan"
            yield from setter.paragraph(title, bold=True)
        yield from _changes(rows, comparison.new.plan.units, setter)


def _sum_words(comparison: Comparison) -> str:
    count = len(comparison.changes)
    if not count:
        return "Nothing differs between them."
    return f"{count} change{'s' if count > 1 else ''}: {comparison.answer['words']}."


def _changes(changes: Sequence[Change], units: str, setter: Setter) -> Iterator[Block]:
    rows = [
        Row(
            (
                Cell(str(change.number), bold=True),
                Cell(_capital(change.name)),
                Cell(_capital(change_words(change, units))),
            )
        )
        for change in changes
    ]
    yield from _table(("No.", "What", "How it differs"), (8, 30, 62), rows, setter)


def _table(heads: Sequence[str], shares: Sequence[float], rows: Sequence[Row], setter: Setter) -> Iterator[Block]:
    """A table with space after it, before the words that follow."""
    yield from setter.table(heads, shares, rows)
    yield setter.space(1.6)


def coverage_blocks(comparison: Comparison, setter: Setter) -> Iterator[Block]:
    """What the changes do to coverage and findings."""
    answer, units = comparison.answer, comparison.new.plan.units
    yield from setter.heading("What that does to coverage")
    totals = answer["coverage"]
    yield from setter.paragraph(
        "Panes covered by one detector: "
        f"{totals['covered']['from']} of {totals['panes']['from']} before, "
        f"{totals['covered']['to']} of {totals['panes']['to']} now."
    )
    rows = [
        Row((Cell(pane["id"], bold=True), Cell(_proof(pane["from"], units)), Cell(_proof(pane["to"], units))))
        for pane in answer["panes"]
    ]
    if rows:
        yield from _table(("Pane", "Was", "Is"), (26, 37, 37), rows, setter)
    else:
        yield from setter.paragraph("No pane's proof changed.")
    for key, words in (("new", "New finding"), ("gone", "No longer found")):
        for finding in answer["findings"][key]:
            said = f"{words}: {finding['message']}"
            yield from setter.paragraph(said, tag=_SEVERITY[finding["severity"]])
    if not any(answer["findings"].values()):
        yield from setter.paragraph("No finding came or went.")


def cable_blocks(order: Order, comparison: Comparison, setter: Setter) -> Iterator[Block]:
    """What the changes do to cable, boxes, zones and battery."""
    answer = comparison.answer
    yield from setter.heading("What that does to cable")
    if answer["cable"]:
        rows = [
            Row(
                (
                    Cell(row["cable"], bold=True),
                    Cell(_both(row["pulls"], str)),
                    *(Cell(_both(row[key], order.run)) for key in ("cut_ft", "bought_ft")),
                )
            )
            for row in answer["cable"]
        ]
        yield from _table(("Cable", "Pulls", "To cut", "To buy"), (22, 22, 28, 28), rows, setter)
    else:
        yield from setter.paragraph("Lengths of cable are as they were.")
    yield from _boxes(order, answer["boxes"], setter)
    yield from _pulls(order, answer["pulls"], setter)
    zones = answer["zones"]
    if zones["from"] != zones["to"]:
        yield from setter.paragraph(f"Zones: {zones['from']} before, {zones['to']} now.")
    for battery in answer["battery"]:
        amount = _both(battery["with_margin_ah"], lambda value: f"{value:.2f}")
        size = _both(battery["size_ah"], lambda value: f"{value:g}")
        yield from setter.paragraph(
            f"Battery of {battery['can']}: {amount} Ah asked with its margin, {size} Ah to fit."
        )


def _boxes(order: Order, boxes: Sequence[Answer], setter: Setter) -> Iterator[Block]:
    if not boxes:
        yield from setter.paragraph("The same boxes of cable are to be bought.")
        return
    rows = [
        Row((Cell(box["cable"], bold=True), Cell(order.run(box["size_ft"])), Cell(f"{box['from']} → {box['to']}")))
        for box in boxes
    ]
    yield from _table(("Cable", "Box", "How many"), (34, 33, 33), rows, setter)


def _pulls(order: Order, pulls: Sequence[Answer], setter: Setter) -> Iterator[Block]:
    if not pulls:
        return
    rows = [
        Row((Cell(pull["label"], bold=True), Cell(_cut(order, pull["from"])), Cell(_cut(order, pull["to"]))))
        for pull in pulls
    ]
    yield from _table(("Pull", "Was", "Is"), (34, 33, 33), rows, setter)


def _cut(order: Order, pull: Answer | None) -> str:
    if pull is None:
        return "—"
    return f"{pull['cable']}, {'no way to a can' if pull['cut_ft'] is None else order.run(pull['cut_ft'])}"


def _proof(pane: Answer | None, units: str) -> str:
    if pane is None:
        return "—"
    if pane["device"] is None or pane["status"] == "uncovered":
        return _STATUS[pane["status"]]
    share = f" {pane['fraction']:.0%}" if pane["status"] == "partial" else ""
    far = drawn_length(pane["farthest_ft"], units)
    return f"{_STATUS[pane['status']]}{share} by {pane['device']}, {far}"


def _both(pair: Answer, say: Any) -> str:
    before, after = ("—" if value is None else say(value) for value in (pair["from"], pair["to"]))
    return after if before == after else f"{before} → {after}"


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
