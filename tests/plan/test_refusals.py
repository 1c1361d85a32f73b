"""Every refusal of contract §2: it names its place, says how to mend it, and all of a file's faults come at once."""

import json
import math

import pytest

from app.plan.faults import PlanRefused
from app.plan.reading import plan_from, plan_value, read_plan, read_plan_file
from tests.plan.a_plan import a_plan

INFINITE = [math.nan, math.inf, -math.inf]


def put(plan, path, value):
    """Set a value at a path such as ("levels", 0, "walls", 3, "b")."""
    *way, last = path
    holder = plan
    for step in way:
        holder = holder[step]
    if isinstance(holder, list) and last == len(holder):
        holder.append(value)
    else:
        holder[last] = value


def faults_of(plan):
    with pytest.raises(PlanRefused) as refused:
        plan_from(plan)
    return {fault.at: fault.message for fault in refused.value.faults}


GROUND = ("levels", 0)
WALL, OPENING, FIXTURE, DEVICE = (
    (*GROUND, "walls", 3),
    (*GROUND, "openings", 0),
    (*GROUND, "fixtures", 0),
    (
        *GROUND,
        "devices",
        1,
    ),
)

# path to spoil, value, place named, a word of the message
SPOILS = [
    *[((*WALL, "b"), [value, 0], "levels[0].walls[3].b[0]", "finite") for value in INFINITE],
    *[((*OPENING, "width"), value, "levels[0].openings[0].width", "finite") for value in INFINITE],
    *[((*DEVICE, "height"), value, "levels[0].devices[1].height", "finite") for value in INFINITE],
    ((*WALL, "b"), [10_000.5, 0], "levels[0].walls[3].b[0]", "at most 10000"),
    ((*WALL, "a"), [0, -10_001], "levels[0].walls[3].a[1]", "at least -10000"),
    ((*DEVICE, "at"), [1e300, 0], "levels[0].devices[1].at[0]", "at most"),
    ((*WALL, "b"), [0, 11.995], "levels[0].walls[3].b", "0.01"),
    ((*WALL, "b"), [0], "levels[0].walls[3].b[1]", "missing"),
    ((*WALL, "b"), [0, 0, 0], "levels[0].walls[3].b", "at most 2"),
    ((*WALL, "b"), ["0", 0], "levels[0].walls[3].b[0]", "number"),
    ((*WALL, "b"), [True, 0], "levels[0].walls[3].b[0]", "number"),
    ((*WALL, "thickness"), 0, "levels[0].walls[3].thickness", "more than 0"),
    ((*WALL, "height"), -1, "levels[0].walls[3].height", "more than 0"),
    ((*OPENING, "offset"), 17, "levels[0].openings[0].offset", "lower offset or width"),
    ((*OPENING, "offset"), -0.5, "levels[0].openings[0].offset", "at least 0"),
    ((*OPENING, "offset"), 7.5, "levels[0].openings[1].offset", "overlaps win"),
    ((*OPENING, "head"), 2.5, "levels[0].openings[0].head", "above sill"),
    ((*OPENING, "head"), 1, "levels[0].openings[0].head", "above sill"),
    ((*OPENING, "wall"), "attic", "levels[0].openings[0].wall", "no wall attic"),
    ((*OPENING, "kind"), "skylight", "levels[0].openings[0].kind", "window"),
    ((*OPENING, "panes"), 0, "levels[0].openings[0].panes", "at least 1"),
    ((*OPENING, "panes"), 1.5, "levels[0].openings[0].panes", "whole"),
    ((*DEVICE, "serves"), ["gate"], "levels[0].devices[1].serves[0]", "no opening gate"),
    ((*DEVICE, "kind"), "laser", "levels[0].devices[1].kind", "door_contact"),
    ((*DEVICE, "view_angle"), 361, "levels[0].devices[1].view_angle", "at most 360"),
    (("risers", 0, "to"), "roof", "risers[0].to", "no level roof"),
    (("risers", 0, "from"), "roof", "risers[0].from", "no level roof"),
    ((*FIXTURE, "polygon"), [[0, 0], [2, 2], [2, 0], [0, 2]], "levels[0].fixtures[0].polygon", "simple polygon"),
    ((*FIXTURE, "polygon"), [[0, 0], [2, 2], [4, 4]], "levels[0].fixtures[0].polygon", ""),
    ((*FIXTURE, "polygon"), [[0, 0], [2, 2]], "levels[0].fixtures[0].polygon", "at least 3"),
    ((*FIXTURE, "polygon"), [[1, 1], [1, 1], [1, 1]], "levels[0].fixtures[0].polygon", ""),
    ((*WALL, "id"), "south", "levels[0].walls[3].id", "stands already at levels[0].walls[0]"),
    ((*DEVICE, "id"), "ground", "levels[0].devices[1].id", "stands already at levels[0]"),
    (("risers", 0, "id"), "gb", "risers[0].id", "stands already"),
    ((*WALL, "id"), "no spaces", "levels[0].walls[3].id", "1 to 40"),
    ((*WALL, "id"), "", "levels[0].walls[3].id", "1 to 40"),
    ((*WALL, "id"), "x" * 41, "levels[0].walls[3].id", "1 to 40"),
    ((*WALL, "id"), 7, "levels[0].walls[3].id", "text"),
    ((*WALL, "colour"), "red", "levels[0].walls[3].colour", "not a key"),
    (("colour",), "red", "colour", "not a key"),
    (("name",), "", "name", "empty"),
    (("name",), "n" * 121, "name", "120"),
    (("site", "notes"), "n" * 2001, "site.notes", "2000"),
    (("name",), "bell\x07", "name", "control"),
    (("units",), "cubits", "units", "imperial"),
    (("levels",), [], "levels", "at least 1"),
    (("levels",), None, "levels", "list"),
    (("practice", "glass.range"), 500, "practice.glass.range", "between"),
    (("practice", "glass.rnage"), 12, "practice.glass.rnage", "glass.range"),
    (("format",), "studbay-plan/2", "format", "studbay-plan/1"),
]


@pytest.mark.parametrize(("path", "value", "at", "word"), SPOILS)
def test_a_spoiled_plan_names_the_place(path, value, at, word):
    plan = a_plan()
    put(plan, path, value)
    faults = faults_of(plan)
    assert at in faults, faults
    assert word in faults[at]
    assert "\n" not in faults[at]


def test_the_plan_is_right_before_it_is_spoiled():
    plan = plan_from(a_plan())
    assert plan_from(plan_value(plan)) == plan


def test_all_faults_come_at_once():
    plan = a_plan()
    put(plan, (*OPENING, "wall"), "attic")
    put(plan, (*DEVICE, "serves"), ["gate"])
    put(plan, ("risers", 0, "to"), "roof")
    put(plan, (*FIXTURE, "polygon"), [[0, 0], [2, 2], [2, 0], [0, 2]])
    put(plan, ("practice", "doors.taken_as"), "ajar")
    assert set(faults_of(plan)) == {
        "levels[0].openings[0].wall",
        "levels[0].devices[1].serves[0]",
        "risers[0].to",
        "levels[0].fixtures[0].polygon",
        "practice.doors.taken_as",
    }


def test_all_faults_of_shape_come_at_once():
    plan = a_plan()
    put(plan, (*WALL, "b"), [math.nan, 20_000])
    put(plan, (*OPENING, "kind"), "hole")
    put(plan, ("levels", 1, "ceiling"), 0)
    del plan["name"]
    at = set(faults_of(plan))
    assert at >= {"levels[0].walls[3].b[0]", "levels[0].walls[3].b[1]", "levels[0].openings[0].kind"}
    assert at >= {"levels[1].ceiling", "name"}


def test_things_a_plan_may_say_at_the_edge():
    plan = a_plan()
    put(plan, (*WALL, "b"), [0, 11.99])  # 0.01 ft long
    put(plan, (*OPENING, "offset"), 6)  # runs to 10, where the door begins
    put(plan, (*GROUND, "openings", 2), {"id": "top", "wall": "south", "kind": "window"} | TRANSOM)
    put(plan, (*GROUND, "openings", 3), {"id": "all", "wall": "east", "kind": "cased", "offset": 0, "width": 12})
    put(plan, ("levels", 1, "walls"), [{"id": "far", "a": [-10_000, 10_000], "b": [10_000, -10_000]}])
    put(plan, ("name",), "n" * 120)
    put(plan, (*FIXTURE, "id"), "x" * 40)
    plan_from(plan)


def test_faults_of_shape_and_of_integrity_come_at_once():
    plan = a_plan()
    put(plan, (*GROUND, "walls", 0, "colour"), "red")  # the wall that the openings lie in
    put(plan, (*GROUND, "fixtures", 0, "top"), "high")
    put(plan, (*GROUND, "fixtures", 1, "id"), "den")
    put(plan, (*GROUND, "walls", 2, "b"), [20, 12])
    put(plan, ("site", "telephone"), "1")
    put(plan, ("risers", 0, "to"), "roof")
    put(plan, ("practice", "doors.taken_as"), "ajar")
    faults = faults_of(plan)
    assert set(faults) == {
        "levels[0].walls[0].colour",
        "levels[0].fixtures[0].top",
        "site.telephone",
        "levels[0].rooms[0].id",
        "levels[0].walls[2].b",
        "risers[0].to",
        "practice.doors.taken_as",
    }
    assert "levels[0].fixtures[1]" in faults["levels[0].rooms[0].id"]


@pytest.mark.parametrize("levels", [[3], "x", {}, [{}], None, [{"id": "a", "name": "A", "walls": "none"}]])
def test_levels_that_are_none_are_told_alone(levels):
    plan = a_plan() | {"levels": levels}
    del plan["risers"]
    assert all(at.startswith("levels") for at in faults_of(plan))


def test_what_a_part_left_out_was_named_by_is_not_told_missing():
    plan = a_plan()
    put(plan, (*GROUND, "walls"), "none")
    put(plan, (*GROUND, "openings", 0, "kind"), "hole")
    put(plan, (*DEVICE, "serves"), ["win"])
    assert set(faults_of(plan)) == {"levels[0].walls", "levels[0].openings[0].kind"}


def test_a_whole_number_with_a_point_and_a_null_list_of_served_openings_are_read():
    plan = a_plan()
    put(plan, (*OPENING, "panes"), 2.0)
    put(plan, (*DEVICE, "serves"), None)
    read = plan_value(plan_from(plan))["levels"][0]
    assert (read["openings"][0]["panes"], read["devices"][1]["serves"]) == (2, [])
    put(plan, (*OPENING, "panes"), 2.5)
    assert faults_of(plan) == {"levels[0].openings[0].panes": "must be a whole number"}


TRANSOM = {"offset": 10, "width": 3, "sill": 6.667, "head": 8}


def test_fifty_thousand_things_and_one_more():
    plan = a_plan()
    things = 2 + 1 + 4 + 2 + 2 + 1 + 3
    beds = [{"id": f"bed{k}", "kind": "bed", "at": [0, 0]} for k in range(50_000 - things)]
    plan["levels"][1]["fixtures"] = beds
    assert plan_from(plan).count_of_things() == 50_000
    beds.append({"id": "one-more", "kind": "bed", "at": [0, 0]})
    assert "50,000" in faults_of(plan)["levels"]


def test_twenty_levels_and_one_more():
    plan = a_plan()
    plan["levels"] += [{"id": f"l{k}", "name": "Level"} for k in range(18)]
    plan_from(plan)
    plan["levels"].append({"id": "l18", "name": "Level"})
    assert "at most 20" in faults_of(plan)["levels"]


BYTES = [
    (b"", "line 1"),
    (b"{", "line 1"),
    (b"\xff\xfe", "byte 0"),
    (b"null", ""),
    (b"[]", ""),
    (b'{"format": 1}', "format"),
    (b'{"name": "a"}', "format"),
    (b'{"format": "studbay-plan/1", "format": "studbay-plan/1"}', "format"),
    (b"[" * 200_000, ""),
    (b'{"format": "studbay-plan/1", "name": ' + b"9" * 6000 + b"}", ""),
]


@pytest.mark.parametrize(("source", "at"), BYTES, ids=range(len(BYTES)))
def test_bytes_that_are_no_plan(source, at):
    with pytest.raises(PlanRefused) as refused:
        read_plan(source)
    assert refused.value.faults[0].at.startswith(at)
    assert refused.value.faults[0].message


def test_a_file_over_16_mib(tmp_path):
    right = json.dumps(a_plan()).encode()
    assert read_plan(right + b" " * (16 * 2**20 - len(right)))
    with pytest.raises(PlanRefused) as refused:
        read_plan(right + b" " * (16 * 2**20 - len(right) + 1))
    assert refused.value.too_large
    assert "16 MiB" in str(refused.value)


def test_a_file_that_is_not_there(tmp_path):
    with pytest.raises(PlanRefused, match="cannot be read"):
        read_plan_file(tmp_path / "none.json")


def test_json_that_says_nan_is_refused_with_its_place():
    source = json.dumps(a_plan()).replace("[20, 12]", "[NaN, 12]", 1).encode()
    with pytest.raises(PlanRefused, match=r"levels\[0\]\.walls\[1\]\.b\[0\]"):
        read_plan(source)


def test_a_hundred_thousand_faults_are_told_in_part():
    plan = a_plan()
    plan["levels"][1]["walls"] = [{"id": f"w{k}", "a": [0, 0], "b": [0, 0]} for k in range(2000)]
    faults = faults_of(plan)
    assert len(faults) == 101
    assert "1900 more" in faults[""]
