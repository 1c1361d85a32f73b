"""The handover sheet: what is shown, given and agreed at the end of the job, and the certificate of completion."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.documents.sources import NO_CLAIM, RECORDS, TRAINING
from app.drawing.sheets.homeowner.findings import accepted_and_open
from app.drawing.sheets.homeowner.sign_off import signature_lines
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.sheets.setting.ruled import blanks, ticked, writing_lines

_SHOWN = (
    "Arming stay and away, disarming, the entry delay and what to do when it is running out",
    "What stay does not watch, and the gaps that the plan names",
    "Silencing a false alarm, and whom to call",
    "Changing codes; the installer's code is not left with the user and the user's not with the installer",
    "Testing: how and how often, and telling the receiving centre first",
    "Mains failure: what still works, for how long",
    "Sirens are loud enough to harm hearing; nobody stands beside one",
)
_GIVEN = (
    "Written instructions for use",
    "As-fitted record and plans, marked confidential",
    "Log book, with its first entry",
    "Test sheets, filled in and signed",
    "Spec sheets and warranties; words of window and door manufacturers",
    "Photographs of the walls before they were closed",
    "Permit and licence numbers; the city's alarm registration where there is one",
)


def handover_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """Boxes to tick, what stays open, and the certificate."""
    yield from setter.heading("Handover: shown and tried")
    for item in (*_of_this_house(order), *_SHOWN):
        yield from ticked(setter, item)
    yield from setter.heading("Handover: given")
    for item in _GIVEN:
        yield from ticked(setter, item)
    yield from setter.heading("Still open at handover")
    for words in _still_open(order):
        yield from ticked(setter, words)
    yield from writing_lines(setter, 2)
    yield from setter.heading("Certificate of completion")
    yield from setter.paragraph(
        f"The system at {order.job.address or '________________'} was fitted by the as-fitted record, tested by the "
        "test sheets, shown to the user and handed over. Smoke and carbon monoxide alarms and mains work were done and "
        "are answered for by licensed others."
    )
    yield from blanks(setter, ("Installer, licence", "Permit", "Maintenance from", "Next visit"), 2)
    yield signature_lines(setter, ("Customer", "For the installer"))
    yield from setter.paragraph(f"{RECORDS}. {TRAINING}. {NO_CLAIM}", quiet=True)


def _of_this_house(order: Order) -> Iterator[str]:
    """What there is to be shown in this house, by its own names."""
    for kind, words in (("keypad", "Keypads"), ("siren", "Sirens"), ("can", "Can, battery and its date")):
        found = [f"{storey.name(device.id)} in {order.place(storey, device)}" for storey, device in order.devices(kind)]
        if found:
            yield f"{words}: {', '.join(found)}"


def _still_open(order: Order) -> Iterator[str]:
    """Findings not mended, and those accepted, so that nobody hands over in silence."""
    accepted, still = accepted_and_open(order)
    grave = [finding["message"] for finding in still if finding["severity"] != "note"]
    yield from grave or ("No finding that must or should be mended was open on the plan.",)
    yield from (finding["message"] for finding in accepted)
