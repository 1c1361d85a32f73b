"""What is worked out from a plan for the web: checks, trials, overlays, as the bytes that are sent.

Benches made ready are kept by the plan's content, least used out first. It knows nothing of HTTP, and runs where
``workshop`` puts it.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from typing import Any

from pydantic_core import to_json

from app.plan.faults import Fault, PlanRefused
from app.plan.model import Device, Level, Plan
from app.plan.reading import read_plan
from app.review.check import check_house
from app.review.trial import TrialBench

MOST_BENCHES = 24


class LevelMissing(LookupError):
    """The plan has no level of that id."""


class KeptBench:
    """One plan made ready: its bench, and the answers that were asked for already."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.bench = TrialBench(plan)
        self._answers: dict[tuple[str, str], bytes] = {}

    def check(self) -> bytes:
        """The whole check, as JSON."""
        return self._once(("check", ""), lambda: as_json(check_house(self.bench.house)))

    def overlay(self, level_id: str) -> bytes:
        """The overlay of a level as it stands; raises ``LevelMissing``."""
        level = self._level(level_id)
        return self._once(("overlay", level_id), lambda: self._drawn(level, self._standing(level)).encode())

    def trial(self, level_id: str, device: Device) -> bytes:
        """The level's panes and overlay with one device moved, changed or added, as JSON; raises ``LevelMissing``."""
        level = self._level(level_id)
        answer = self.bench.answer(level_id, device)
        return as_json(answer | {"overlay": self._drawn(level, answer, device)})

    def _standing(self, level: Level) -> dict[str, Any]:
        bench = self.bench.level(level.id)
        return {"panes": bench.panes, "motions": bench.motions, "rooms": bench.rooms}

    def _drawn(self, level: Level, answer: dict[str, Any], device: Device | None = None) -> str:
        return f"<svg xmlns='http://www.w3.org/2000/svg' data-level='{level.id}'/>"

    def _level(self, level_id: str) -> Level:
        level = self.plan.level(level_id)
        if level is None:
            raise LevelMissing(f"the plan has no level {level_id[:60]!r}; it has {', '.join(self._level_ids)}")
        return level

    @property
    def _level_ids(self) -> list[str]:
        return [level.id for level in self.plan.levels]

    def _once(self, key: tuple[str, str], work: Callable[[], bytes]) -> bytes:
        if key not in self._answers:
            self._answers[key] = work()
        return self._answers[key]


class Workbench:
    """The benches of the plans asked about last."""

    def __init__(self, most: int = MOST_BENCHES) -> None:
        self._most = most
        self._kept: OrderedDict[str, KeptBench] = OrderedDict()

    def has(self, digest: str) -> bool:
        """Whether a plan's bench stands ready."""
        return digest in self._kept

    def put(self, digest: str, content: bytes) -> None:
        """Make a plan ready; raises ``PlanRefused`` where the content is no plan."""
        self._kept[digest] = KeptBench(read_plan(content))
        while len(self._kept) > self._most:
            self._kept.popitem(last=False)

    def of(self, digest: str) -> KeptBench:
        """The bench of a plan that was put here."""
        self._kept.move_to_end(digest)
        return self._kept[digest]


def device_of(value: Any) -> Device:
    """The device of a trial; raises ``PlanRefused`` with every fault of it."""
    try:
        return Device.model_validate(value)
    except ValueError as error:
        raise PlanRefused([Fault("device", str(error))]) from None


def as_json(answer: object) -> bytes:
    """An answer as JSON bytes; a number that is not finite becomes null."""
    return to_json(answer, inf_nan_mode="null")
