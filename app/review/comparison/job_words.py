"""What a plan says beside its things: its name, its units, the words about the job, and the design values it sets."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from app.plan.measures import length_text
from app.plan.model import Plan
from app.plan.practice import DESIGN_VALUES, DesignValue, Practice
from app.review.comparison.changes import Change, FieldChange

_SITE = ("client", "address", "designer", "notes")


def job_changes(old: Plan, new: Plan) -> Iterator[Change]:
    """The change of the plan's own words, if any, then one for each design value that differs."""
    pairs = [("name", old.name, new.name), ("units", old.units, new.units)]
    pairs += [(key, getattr(old.site, key), getattr(new.site, key)) for key in _SITE]
    fields = tuple(FieldChange(key, key, one or "nothing", two or "nothing") for key, one, two in pairs if one != two)
    if fields:
        yield Change("changed", "plan", "plan", "plan", "the plan's words", fields=fields)
    for value in DESIGN_VALUES:
        before, after = (_in_force(value, plan.practice_in_force) for plan in (old, new))
        if before != after:
            said = (_said(value, each, new.units) for each in (before, after))
            fields = (FieldChange(value.key, "set to", *said),)
            yield Change("changed", "practice", value.key, value.key, f"practice: {value.words}", fields=fields)


def _in_force(value: DesignValue, practice: Practice) -> Any:
    match value.kind:
        case "number":
            return practice.number(value.key)
        case "numbers":
            return practice.numbers(value.key)
        case _:
            return practice.text(value.key)


def _said(value: DesignValue, given: Any, units: str) -> str:
    if value.kind == "number":
        return length_text(given, units) if value.unit == "ft" else f"{given:g} {value.unit}".strip()
    if value.kind == "numbers":
        return f"{', '.join(f'{number:g}' for number in given)} {value.unit}".strip()
    return str(given) or "nothing"
