"""The as-built record, ``studbay-as-built/1``: what a crew really built of each device, in a file beside the plan.

The plan's format is fixed, so nothing of this stands in it; a device's id links the two.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, ValidationError

from app.plan.faults import Fault, PlanRefused
from app.plan.model import Distance, Height, Id, Label, Note, Part, Point
from app.plan.reading import faults_of, json_value

AS_BUILT = "studbay-as-built/1"
MOST_ENTRIES = 20_000


def _day(value: Any) -> Any:
    """A date is written as a date alone: pydantic would take a number for seconds."""
    if value is not None and not isinstance(value, (str, date)):
        raise ValueError('write a date as "2026-11-12"')
    return value


class BuiltEntry(Part):
    """What was built of one device; what is null was built as designed, or was not recorded.

    ``as_designed`` says that somebody looked: whatever is null is as the plan has it. ``cable_ft`` is the run really
    pulled, in feet; ``zone`` and ``terminal`` are as marked in the can.
    """

    device: Id
    as_designed: Annotated[bool, Field(strict=True)] = False
    at: Point | None = None
    height: Height | None = None
    cable_ft: Distance | None = None
    zone: Label = ""
    terminal: Label = ""
    note: Note = ""
    on: Annotated[date | None, BeforeValidator(_day)] = None
    by: Label = ""


class AsBuilt(Part):
    """A whole record; ``plan`` is the plan's name, for people."""

    format: Literal["studbay-as-built/1"]
    plan: Label = ""
    entries: Annotated[tuple[BuiltEntry, ...], Field(max_length=MOST_ENTRIES)] = ()

    @property
    def by_device(self) -> Mapping[str, BuiltEntry]:
        """The entries by their devices' ids."""
        return {entry.device: entry for entry in self.entries}


NOTHING_BUILT = AsBuilt(format="studbay-as-built/1")


def read_as_built(source: bytes) -> AsBuilt:
    """The record that a file's bytes say; raises ``PlanRefused`` with every fault found."""
    return as_built_from(json_value(source))


def as_built_from(value: Any) -> AsBuilt:
    """The record that a JSON value says; raises ``PlanRefused`` with every fault found."""
    if not isinstance(value, dict) or value.get("format") != AS_BUILT:
        raise PlanRefused([Fault("format", f'an as-built record is a JSON object with "format": "{AS_BUILT}"')])
    try:
        record = AsBuilt.model_validate(value)
    except ValidationError as error:
        raise PlanRefused(faults_of(error)) from None
    seen: set[str] = set()
    twice = []
    for index, entry in enumerate(record.entries):
        if entry.device in seen:
            twice.append(Fault(f"entries[{index}].device", f"{entry.device} has an entry already; keep one of them"))
        seen.add(entry.device)
    if twice:
        raise PlanRefused(twice)
    return record


def as_built_value(record: AsBuilt) -> dict[str, Any]:
    """The record as a JSON value, each default written out."""
    value: dict[str, Any] = record.model_dump(mode="json")
    return value
