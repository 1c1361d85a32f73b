"""Rules on cable runs, power, batteries and zones: those that ``app.wiring`` judges, registered beside the others.

A plan without a can is told once, by ``can.none``, so the wiring's own word on it is left out.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.review.findings import Said, rule
from app.review.house import House
from app.wiring.judgements import WIRING_RULES, WiringRule

_TOLD_BY_CAN_NONE = "cable.no_can"


def _register(wired: WiringRule) -> None:
    @rule(wired.name, wired.severity, words=wired.words, mend=wired.mend, source=wired.source)
    def judge(house: House) -> Iterator[Said]:
        """Whatever the wiring's judge of the same name finds."""
        for things, message in wired.judge(house.wiring):
            yield Said(things, message)


for _wired in WIRING_RULES:
    if _wired.name != _TOLD_BY_CAN_NONE:
        _register(_wired)
