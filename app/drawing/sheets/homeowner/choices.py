"""Choices still to be made, worked out from the plan: what is open, what is taken meanwhile, room for the answer.

A choice is open when nobody has said otherwise: a design value left at its default that a household should decide, a
thing whose kind or cable is not chosen, a word that others must give, a part of the job that the plan leaves blank.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.sheets.setting.ruled import Ruled, ruled_table
from app.plan.devices import DEVICE_KIND, cable_of, height_of
from app.review.accepted import remark
from app.wiring.electric.battery import BASES


@dataclass(frozen=True)
class Choice:
    """``about`` names it, ``question`` asks it, ``meanwhile`` says what the plan takes until it is answered."""

    about: str
    question: str
    meanwhile: str


def choices_of(order: Order) -> list[Choice]:
    """Every choice that the plan leaves open, in the order in which a designer asks them."""
    return [choice for asking in _ASKED for choice in asking(order)]


def choice_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """The choices as a table with room for the answer."""
    yield from setter.heading("Choices still to be made")
    choices = choices_of(order)
    if not choices:
        yield from setter.paragraph("None: everything that this plan asks has been decided.")
        return
    rows = [Ruled((f"{choice.about}: {choice.question}", choice.meanwhile, "")) for choice in choices]
    yield from ruled_table(setter, ("What is to be settled", "Meanwhile", "Settled as"), (42, 30, 28), rows)


def _site(order: Order) -> Iterator[Choice]:
    """What the title block lacks."""
    site = order.house.plan.site
    lacking = [word for word in ("client", "address", "designer") if not getattr(site, word).strip()]
    if lacking:
        yield Choice("The job", f"who or where is the {', '.join(lacking)}?", "left blank on every sheet")


def _undecided(order: Order) -> Iterator[Choice]:
    """Devices of no listed kind, and those that need a cable and have none."""
    for storey, device in order.devices():
        name, where = storey.name(device.id), order.place(storey, device)
        cable = cable_of(device, storey.practice)
        if device.kind == "other":
            said = remark(device)
            asked = f"what is it to be ({said})?" if said else "what is it to be?"
            yield Choice(name, asked, f"{cable or 'no cable'} to {where}; no coverage is claimed for it")
        elif cable is None and not DEVICE_KIND[device.kind].located_by_others and device.kind != "can":
            yield Choice(name, "which cable does it get?", f"nothing is pulled to {where}")


def _findings(order: Order) -> Iterator[Choice]:
    """What the check says should be mended, which somebody may also accept with a reason."""
    counts = {severity: order.check["summary"][severity] for severity in ("must", "should")}
    open_ones = [f"{count} that {severity} be mended" for severity, count in counts.items() if count]
    if open_ones:
        yield Choice("Findings", "mend each, or accept it with a reason and a name?", " and ".join(open_ones))


def _reach(order: Order) -> Iterator[Choice]:
    """Whether keypads are to be within reach from a chair, where nobody has said so."""
    practice = order.house.practice
    keypads = order.devices("keypad")
    if keypads and practice.is_default("keypad.reach_required"):
        highest = max(height_of(device, storey.level, practice) for storey, device in keypads)
        reach = practice.number("keypad.reach")
        if highest > reach:
            yield Choice(
                "Keypads",
                f"does anybody need them within reach from a chair, at {order.length(reach)} or lower?",
                f"hung at {order.length(highest)} (ADA 308 asks 48 in where it binds; a private house is seldom bound)",
            )


def _sirens(order: Order) -> Iterator[Choice]:
    """How loud, and whether anything sounds outside."""
    practice = order.house.practice
    sirens = order.devices("siren")
    if not sirens:
        yield Choice("Sirens", "what sounds the alarm, and where?", "none is on the plan")
    elif practice.is_default("siren.rated"):
        rated = f"{practice.number('siren.rated'):g} dBA at 10 ft"
        yield Choice("Sirens", "which, how loud, and is one wanted outdoors?", f"{len(sirens)} taken at {rated}")


def _standby(order: Order) -> Iterator[Choice]:
    """How long the battery carries the system, and which panel charges it."""
    practice = order.house.practice
    if practice.is_default("battery.basis"):
        basis = BASES[practice.text("battery.basis")]
        yield Choice(
            "Battery",
            "how long must it carry the system without mains?",
            f"{basis.standby_hours:g} h and {basis.alarm_minutes:g} min of alarm ({basis.source})",
        )
    if practice.is_default("battery.charger_limit") and order.devices("can"):
        yield Choice(
            "Panel",
            "which one, how many inputs, what current, what battery does it charge?",
            f"{practice.number('zone.inputs'):g} inputs, {practice.number('power.auxiliary_limit'):g} mA, "
            "round numbers until its listing is at hand",
        )


def _delays(order: Order) -> Iterator[Choice]:
    practice = order.house.practice
    if practice.is_default("entry.delay") and order.devices("keypad"):
        yield Choice(
            "Entry delay",
            "how long from the door to the code?",
            f"{practice.number('entry.delay'):g} s; UL ceiling for homes 45 s",
        )


def _pets(order: Order) -> Iterator[Choice]:
    motions = order.devices("motion")
    if motions:
        yield Choice(
            "Animals",
            "do any roam the house when it is armed away?",
            f"none do; {', '.join(storey.name(device.id) for storey, device in motions)} would see them",
        )


def _windows(order: Order) -> Iterator[Choice]:
    """The windows whose manufacturer must say whether they may be drilled."""
    waiting = [storey.name(device.id) for storey, device in order.devices("window_contact") if not remark(device)]
    if waiting:
        count = f"{len(waiting)} window contact{'s' if len(waiting) > 1 else ''}"
        yield Choice(
            "Windows",
            f"does the manufacturer allow a contact in or on the frame ({count})?",
            "nothing is drilled; surface contacts",
        )


def _smoke(order: Order) -> Iterator[Choice]:
    """Who places smoke and CO alarms, which no plan of this kind does."""
    shown = len(order.devices("smoke"))
    yield Choice(
        "Smoke and CO",
        "which licensed person sets number and place, and are any wired to the panel?",
        f"{shown} recorded as placed by others" if shown else "none is recorded here",
    )


def _called(order: Order) -> Iterator[Choice]:
    """Who is told of an alarm: a plan says nothing of it."""
    if order.devices():
        yield Choice(
            "Who is called", "a monitoring centre, a neighbour, yourselves; by which line?", "not on this plan"
        )


_ASKED: tuple[Callable[[Order], Iterator[Choice]], ...] = (
    _site,
    _findings,
    _undecided,
    _reach,
    _sirens,
    _delays,
    _pets,
    _windows,
    _standby,
    _smoke,
    _called,
)
