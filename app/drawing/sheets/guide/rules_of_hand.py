"""What holds for every run, in short sentences with their sources; numbers are those of the practice in force."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.lengths import drawn_length
from app.plan.practice import DESIGN_VALUE, Practice

_COMMON = "common practice, no source"


def running(practice: Practice, units: str) -> Iterator[tuple[str, str]]:
    """Sentences on running and cutting cable, each with its source."""
    device, can = (drawn_length(practice.number(key), units) for key in ("cable.slack_at_device", "cable.slack_at_can"))
    power = practice.number("cable.from_power")
    apart = f"{power * 25.4:.0f} mm" if units == "metric" else f"{power:g} in"
    yield "Every device its own run, home to the can, before the drywall.", "ANSI/TIA/EIA-570-A-1 (2002)"
    yield (
        f"Cut: measured and {practice.number('cable.waste'):.0%}, {device} at the device, {can} at the can; one piece, "
        "no splice in the wall.",
        _COMMON,
    )
    yield f"{apart} from power that runs alongside; cross it at right angles.", DESIGN_VALUE["cable.from_power"].source
    yield "Never in one box, raceway or cable with power.", "NEC 725.136(A)"
    yield "Label both ends; photograph every wall before it is closed.", "alarm association code of practice"
    yield "Holes in studs: edge 1 1/4 in or more from the face, or a steel plate.", "NEC 300.4(A)(1)"
    yield "Seal every hole through plates, floors, the garage wall, rated assemblies.", "NEC 300.21, IRC R302.11"


def connecting(practice: Practice) -> Iterator[tuple[str, str]]:
    """Sentences on zones and resistors, each with its source."""
    most = practice.number("zone.most_contacts")
    yield "No looping at openings; contacts are joined at the can only.", _COMMON
    yield (
        f"At most {most:g} window contacts share a zone, of one floor and side; doors never.",
        DESIGN_VALUE["zone.most_contacts"].source,
    )
    yield "Each motion and each glass-break detector a zone of its own.", DESIGN_VALUE["zone.most_contacts"].source
    yield (
        f"Resistor, {practice.number('zone.eol_ohms'):g} Ω, at the last device, never in the can.",
        DESIGN_VALUE["zone.eol_ohms"].source,
    )


def minding() -> Iterator[tuple[str, str]]:
    """Sentences of caution, each with its source."""
    yield "Before any hole: size and depth from the sensor's own spec sheet.", _COMMON
    yield "Nothing may narrow a bedroom window's clear opening or keep it from opening.", "IRC R310.2"
    yield "Mains, structure and smoke alarms are for licensed others; local code governs.", "the adopted code"
    yield "Sirens harm hearing near by: warn people, wear protection.", "NIOSH"
