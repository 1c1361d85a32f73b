"""What the first pass proposes: devices with the reason for each, to be taken one by one or all together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from app.plan.model import Device, Plan
from app.review.house import Storey

_UNDER_CEILING = 0.25  # ft

PREFIXES = {
    "can": "can",
    "keypad": "kp",
    "door_contact": "dc",
    "window_contact": "wc",
    "overhead_door_contact": "od",
    "motion": "md",
    "glass_break": "gb",
    "siren": "sr",
    "riser": "rs",
}


@dataclass(frozen=True)
class Proposal:
    """One device for a level, and why it is proposed; ``covers`` names the panes that a glass break is there for."""

    level: str
    device: Device
    reason: str
    covers: tuple[str, ...] = ()


class Numbering:
    """Ids for proposed things, ``gb-1`` and on, that nothing else in the plan has."""

    def __init__(self, plan: Plan) -> None:
        self._taken = set(_ids(plan))
        self._last = dict.fromkeys(PREFIXES, 0)

    def next(self, kind: str) -> str:
        """The next free id for a device of a kind, or a riser."""
        while True:
            self._last[kind] += 1
            name = f"{PREFIXES[kind]}-{self._last[kind]}"
            if name not in self._taken:
                self._taken.add(name)
                return name


def _ids(plan: Plan) -> Iterable[str]:
    for level in plan.levels:
        yield level.id
        for _, thing in level.things():
            yield thing.id
    for riser in plan.risers:
        yield riser.id


def sentence(words: str) -> str:
    """Words with a capital to begin with, the rest (ids, names) as it is."""
    return words[:1].upper() + words[1:]


def below_ceiling(storey: Storey, usual: float) -> float | None:
    """None where a device's usual height fits under the ceiling, else a height just below it, in feet."""
    return None if usual <= storey.level.ceiling - _UNDER_CEILING else max(0.0, storey.level.ceiling - _UNDER_CEILING)
