"""Findings accepted with a reason and a name, kept in the plan's own notes so that they travel and print with it.

A line of ``site.notes`` reads ``accepted motion.not_in_corner M2: chimney in the corner - J. Ash``; in the ``note`` of
a device the things may be left out, as it speaks of itself. An accepted finding stays in sight as a note.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from app.plan.model import Device, Plan

_LINE = re.compile(
    r"^\s*accepted\s+(?P<rule>[a-z_]+\.[a-z_0-9]+)(?P<things>(?:[\s,]+[A-Za-z0-9._/-]+)*)\s*:\s*(?P<reason>.*\S)"
    r"\s+[-–—]\s+(?P<name>\S.*?)\s*$",
    re.IGNORECASE,
)
_FOR_THE_PROGRAM = re.compile(r"^\s*(accepted\s+[a-z_]+\.|cable\s+via\b)", re.IGNORECASE)


@dataclass(frozen=True)
class Acceptance:
    """Who accepted which rule's findings on which things, and why."""

    rule: str
    things: frozenset[str]
    reason: str
    name: str

    @property
    def words(self) -> str:
        """How a finding says that it is accepted."""
        return f"Accepted by {self.name}: {self.reason}"

    def covers(self, rule: str, things: tuple[str, ...]) -> bool:
        """Whether it speaks of a finding: the same rule, and every thing named in it is of that finding.

        One that names nothing speaks only of a finding on nothing, such as a missing siren, and never of a whole rule.
        """
        return rule == self.rule and (self.things <= set(things) if self.things else not things)


def remark(device: Device) -> str:
    """What a device's note says to people: the note without its lines on acceptance and on way-points."""
    lines = (device.note or "").splitlines()
    return "\n".join(line for line in lines if not _FOR_THE_PROGRAM.match(line)).strip()


def acceptances(plan: Plan) -> tuple[Acceptance, ...]:
    """Every acceptance that a plan's notes hold, the site's first."""
    found = list(_read(plan.site.notes, frozenset()))
    for level in plan.levels:
        for device in level.devices:
            if device.note:
                found += _read(device.note, frozenset((device.id,)))
    return tuple(found)


def _read(notes: str, speaker: frozenset[str]) -> Iterator[Acceptance]:
    for line in notes.splitlines():
        if (said := _LINE.match(line)) is not None:
            named = frozenset(re.split(r"[\s,]+", said["things"].strip())) - {""}
            yield Acceptance(said["rule"].lower(), named or speaker, said["reason"], said["name"])
