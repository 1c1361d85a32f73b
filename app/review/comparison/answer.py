"""The whole comparison of two plans as a JSON value: what ``compare --json`` prints and HTTP gives."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from functools import cached_property
from typing import Any

import shapely

from app.review.check import check_house
from app.review.comparison.changes import WHATS, Change
from app.review.comparison.effects import effects
from app.review.comparison.pairing import pair
from app.review.comparison.plans import compare_plans
from app.review.comparison.wording import change_words, count_words
from app.review.house import House
from app.wiring.answer import wiring_answer

Answer = dict[str, Any]


class Comparison:
    """An old and a new house compared; each answer is worked out once, when first asked for.

    ``check`` gives the new house's check where somebody keeps it.
    """

    def __init__(self, old: House, new: House, check: Callable[[], Mapping[str, Any]] | None = None) -> None:
        self.old = old
        self.new = new
        self._check = check

    @cached_property
    def changes(self) -> tuple[Change, ...]:
        """Every change; quick, nothing is proved for it."""
        return compare_plans(self.old.plan, self.new.plan)

    @cached_property
    def checks(self) -> tuple[Mapping[str, Any], Mapping[str, Any]]:
        """The check of the old and of the new house."""
        return check_house(self.old), check_house(self.new) if self._check is None else self._check()

    @cached_property
    def answer(self) -> Answer:
        """The whole comparison as a JSON value."""
        units = self.new.plan.units
        before, after = self.checks
        wirings = [wiring_answer(house.wiring) for house in (self.old, self.new)]
        return {
            "plan": self.new.plan.name,
            "units": units,
            "changes": [change_value(change, units) for change in self.changes],
            "summary": summary(self.changes),
            "words": count_words(self.changes),
            "levels": _by_level(self.old, self.new, self.changes),
            **effects(pair(self.old.plan, self.new.plan), (before, wirings[0]), (after, wirings[1])),
        }


def summary(changes: tuple[Change, ...]) -> dict[str, int]:
    """How many changes there are in all and of each sort."""
    counts = Counter(change.what for change in changes)
    return {"changes": len(changes)} | {what: counts[what] for what in WHATS}


def change_value(change: Change, units: str) -> Answer:
    """One change as a JSON value; its places are lists of points in feet."""
    return {
        "number": change.number,
        "what": change.what,
        "family": change.family,
        "id": change.id,
        "was_id": change.was_id,
        "name": change.name,
        "level": change.level,
        "was_level": change.was_level,
        "words": change_words(change, units),
        "fields": [
            {"field": field.field, "words": field.words, "from": field.old, "to": field.new} for field in change.fields
        ],
        "moved_ft": round(max((move.feet for move in change.moves), default=0.0), 6),
        "moves": [[list(move.start), list(move.end)] for move in change.moves],
        "carries": list(change.carries),
        "place": None if change.shape is None else _points(change.shape),
        "was_place": None if change.was_shape is None else _points(change.was_shape),
    }


def _points(shape: Any) -> list[list[float]]:
    found: list[list[float]] = shapely.get_coordinates(shape).round(6).tolist()
    return found


def _by_level(old: House, new: House, changes: tuple[Change, ...]) -> list[Answer]:
    """Each level of either plan with the numbers of the changes that it shows."""
    names = {level.id: level.name for plan in (old.plan, new.plan) for level in plan.levels}
    order = [*(level.id for level in new.plan.levels), *(level.id for level in old.plan.levels)]
    return [
        {
            "id": level,
            "name": names[level],
            "changes": [change.number for change in changes if change.shown_on == level],
        }
        for level in dict.fromkeys(order)
    ]
