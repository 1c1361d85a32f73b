"""The tags that proposed devices bear on drawings and schedules: GB-1, WC-2, after the trade's abbreviations.

They go on from those that the designer has given; what a device is called in the file, its id, is another matter.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import count

from app.plan.devices import DEVICE_KIND
from app.plan.model import Plan
from app.proposal.proposals import Proposal


def labelled(plan: Plan, proposals: Iterable[Proposal]) -> list[Proposal]:
    """The proposals with a label each, none of which another device of the plan bears."""
    taken = {name for level in plan.levels for device in level.devices for name in (device.id, device.label)}
    numbers: dict[str, Iterable[int]] = {}
    result = []
    for proposal in proposals:
        abbreviation = DEVICE_KIND[proposal.device.kind].abbreviation
        tags = (f"{abbreviation}-{number}" for number in numbers.setdefault(abbreviation, count(1)))
        label = next(tag for tag in tags if tag not in taken)
        result.append(replace(proposal, device=proposal.device.model_copy(update={"label": label})))
    return result
