"""What was built beside what was designed: every difference told, nothing where it is as drawn."""

from __future__ import annotations

from typing import Any

import pytest

from app.plan.as_built import as_built_from
from app.review.as_built import BuiltDevice, as_built_answer, built_devices
from app.review.house import House
from app.wiring.answer import wiring_answer
from tests.review.comparison.edits import house, plan


def built(**entry: Any) -> BuiltDevice:
    home = House(plan(house()))
    record = as_built_from({"format": "studbay-as-built/1", "entries": [{"device": "L1-m0"} | entry]})
    return next(one for one in built_devices(home, wiring_answer(home.wiring), record) if one.id == "L1-m0")


def told(**entry: Any) -> list[tuple[str, str, str]]:
    return [(each.field, each.designed, each.built) for each in built(**entry).differences]


def test_as_designed_differs_in_nothing() -> None:
    one = built(as_designed=True)
    assert one.differences == ()
    assert told(height=7.02, cable_ft=one.cut_ft, at=[1.03, 19.0], zone=f"Zone {one.zone}") == []


def test_every_difference_is_told_with_both_values() -> None:
    cut = built().cut_ft
    assert cut is not None
    assert told(height=7.5, at=[1, 17], cable_ft=cut + 12, zone="40") == [
        ("at", "as drawn", "2'-0\" south of it"),
        ("height", "7'-0\"", "7'-6\""),
        ("cable_ft", f"cut for {cut:g} ft", f"{cut + 12:g} ft pulled, 12 ft more"),
        ("zone", str(built().zone), "40"),
    ]


def test_a_shorter_run_is_less() -> None:
    cut = built().cut_ft
    assert cut is not None
    assert told(cable_ft=cut - 5)[0][2] == f"{cut - 5:g} ft pulled, 5 ft less"


def test_every_device_has_a_line_and_so_has_an_entry_whose_device_is_gone() -> None:
    home = House(plan(house()))
    record = as_built_from({"format": "studbay-as-built/1", "entries": [{"device": "gone", "note": "was here"}]})
    lines = as_built_answer(home, wiring_answer(home.wiring), record)
    assert len(lines) == 10
    assert [line["recorded"] for line in lines] == [False] * 9 + [True]
    assert (lines[-1]["device"], lines[-1]["level"]) == ("gone", None)


@pytest.mark.parametrize("day", ["2026-12-01", None])
def test_a_day_is_a_date_alone(day: str | None) -> None:
    record = as_built_from({"format": "studbay-as-built/1", "entries": [{"device": "x", "on": day}]})
    assert str(record.entries[0].on) == str(day)
