"""What the documents stand for, in a few figures: circuits, devices, what is protected, what is open."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.cover.figures import Figure
from app.drawing.sheets.order import Order

READING = (
    "Survey and proposal come before the work; the customer signs the proposal.",
    "As-fitted record and tests are filled in during the work, by hand, with a name to each.",
    "Handover sheet and certificate close the job; the log book stays beside the can.",
    "Blanks are for the person responsible. Nothing is claimed by a form that is not filled in.",
)


def key_figures(order: Order) -> Iterator[Figure]:
    """The figures."""
    summary, devices = order.check["summary"], order.devices()
    yield Figure(str(len(devices)), "devices on the plan")
    yield Figure(str(len(order.wiring["zones"])), "circuits at the can")
    if summary["panes"]:
        yield Figure(f"{summary['covered']} of {summary['panes']}", "panes of glass are heard whole by one detector")
    yield Figure(str(summary["must"] + summary["should"]), "findings open that must or should be mended")
