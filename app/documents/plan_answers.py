"""Everything that is worked out of one plan for files that leave: check, cable and protection, each once, when asked.

Also the words about the job that such a file carries: which revision, saved when.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any

from app.plan.model import Plan
from app.review.check import check_house
from app.review.house import House, Storey
from app.review.protection import protection
from app.wiring.answer import wiring_answer

Answer = Mapping[str, Any]
CONFIDENTIAL = "Confidential: shows where detectors are"


@dataclass(frozen=True)
class Edition:
    """Which state of a plan a file shows: its revision and the moment it was saved, as the caller says them."""

    revision: str
    saved_at: str

    @property
    def words(self) -> str:
        """Both in one line."""
        return f"Revision {self.revision}, {self.saved_at[:16].replace('T', ' ')} UTC"


class PlanAnswers:
    """The answers about one house; ``check`` gives its check where that may be worked out already."""

    def __init__(self, house: House, check: Callable[[], Answer] | None = None) -> None:
        self.house = house
        self._check = check

    @classmethod
    def of(cls, plan: Plan) -> PlanAnswers:
        """For a plan of which nothing is worked out yet."""
        return cls(House(plan))

    @property
    def plan(self) -> Plan:
        """The plan."""
        return self.house.plan

    @property
    def units(self) -> str:
        """The plan's units."""
        return self.plan.units

    @cached_property
    def check(self) -> Answer:
        """The object of ``check --json``."""
        return check_house(self.house) if self._check is None else self._check()

    @cached_property
    def wiring(self) -> Answer:
        """The object of ``pulls --json``."""
        return wiring_answer(self.house.wiring)

    @cached_property
    def protection(self) -> Answer:
        """Arming states, entry paths, ways in and sound."""
        return protection(self.house)

    @cached_property
    def room_names(self) -> dict[str, str]:
        """What people call each room, by its id."""
        return {
            room.id: room.name.strip() or room.use.replace("_", " ")
            for storey in self.house
            for room in storey.level.rooms
        }

    def room_name(self, room: str | None) -> str:
        """What people call a room, or nothing where there is none."""
        return self.room_names.get(room or "", "")

    def storey(self, level: str) -> Storey:
        """The storey of a level's id."""
        return self.house.storeys[level]

    def of_level(self, family: str, level: str) -> list[Answer]:
        """The check's answers of a family for one level."""
        return [answer for answer in self.check[family] if answer["level"] == level]
