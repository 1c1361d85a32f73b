"""What is left of a plan file without the parts that have the wrong shape, judged all the same.

So a wall that is text and an id that stands twice are told together, each at its place in the file as it was sent.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable
from typing import Any

from pydantic import ValidationError

from app.plan.faults import Fault
from app.plan.integrity import integrity_faults
from app.plan.model import Plan

Loc = tuple[int | str, ...]

_MEMBER = re.compile(r"\b(levels\[\d+\]\.\w+|risers)\[(\d+)\]")
# references that lead nowhere only because the part they name may have been left out
_LEADS_TO = ((re.compile(r"\.wall$"), ".walls"), (re.compile(r"\.serves\[\d+\]$"), ".openings"))


def faults_of_sound_parts(value: dict[str, Any], wrong: Iterable[Loc]) -> list[Fault]:
    """The integrity faults among the parts that hold none of the ``wrong`` places; none where too little is left."""
    places = set(wrong)
    if any(_leaves_no_plan(place) for place in places):
        return []
    rest = _Rest(value, places)
    try:
        plan = Plan.model_validate(rest.value)
    except ValidationError:
        return []
    return [rest.at_home(fault) for fault in integrity_faults(plan) if not rest.may_have_caused(fault)]


def _leaves_no_plan(place: Loc) -> bool:
    """Whether the fault is one of the levels as a whole, or of what all of a level leans on."""
    return place in ((), ("levels",)) or (
        place[0] == "levels" and (len(place) == 2 or place[2] in ("id", "name", "ceiling"))
    )


class _Rest:
    """A plan value without its wrong parts; it knows where each member of its lists stood."""

    def __init__(self, value: dict[str, Any], places: set[Loc]) -> None:
        self._wrong = {place[:4] if place[0] == "levels" else place[:2] for place in places}
        self._gone: dict[Loc, set[int | str]] = defaultdict(set)
        for place in self._wrong:
            self._gone[place[:-1]].add(place[-1])
        self._homes: dict[str, list[int]] = {}  # by list: where each member that is kept stood
        whole = {key: member for key, member in value.items() if key != "levels"}
        self.value = {"name": "unnamed"} | self._sound(whole, ())
        self.value["levels"] = [self._sound(level, ("levels", index)) for index, level in enumerate(value["levels"])]

    def _sound(self, holder: dict[str, Any], at: Loc) -> dict[str, Any]:
        kept = {}
        for key, member in holder.items():
            here = (*at, key)
            gone = self._gone.get(here, set())
            if here in self._wrong or (gone and not isinstance(member, list)):
                self._homes[_name(here)] = []
            elif gone:
                self._homes[_name(here)] = homes = [index for index in range(len(member)) if index not in gone]
                kept[key] = [member[index] for index in homes]
            else:
                kept[key] = member
        return kept

    def may_have_caused(self, fault: Fault) -> bool:
        """Whether the fault is of a reference to a part that may only have been left out."""
        return any(
            leads.search(fault.at) and any(name.endswith(family) for name in self._homes) for leads, family in _LEADS_TO
        )

    def at_home(self, fault: Fault) -> Fault:
        """The fault with its places counted as in the file that was sent."""

        def counted(match: re.Match[str]) -> str:
            homes, index = self._homes.get(match[1]), int(match[2])
            return match[0] if homes is None else f"{match[1]}[{homes[index]}]"

        return Fault(_MEMBER.sub(counted, fault.at), _MEMBER.sub(counted, fault.message))


def _name(place: Loc) -> str:
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in place).lstrip(".")
