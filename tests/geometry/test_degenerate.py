"""Input that no designer means and every designer draws: an answer or a finding, never an exception or a warning."""

import copy
import math
import warnings

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.houses import moved

CORNERS = [(0, 0), (16, 0), (16, 12), (0, 12)]


def den(*, walls=(), openings=(), fixtures=(), devices=(), rooms=(("den", (8, 6)),), **level):
    shell = [{"id": f"w{k}", "a": list(CORNERS[k]), "b": list(CORNERS[(k + 1) % 4])} for k in range(4)]
    window = {"id": "win", "wall": "w0", "kind": "window", "offset": 6, "width": 4, "sill": 2, "head": 6, "panes": 2}
    one = {"id": "one", "name": "One", "walls": [*shell, *walls], "openings": [window, *openings]}
    one |= {"fixtures": list(fixtures), "devices": list(devices)} | level
    one["rooms"] = [{"id": name, "name": name, "at": list(at)} for name, at in rooms]
    return {"format": "studbay-plan/1", "name": "Den", "levels": [one]}


def sane(plan):
    """The answer to a plan, warnings being errors, its numbers in bounds; also turned, as rounding then differs."""
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        answers = [check_plan(plan_from(other)) for other in (plan, moved(plan, turn=29.0, shift=(3.3, 7.7)))]
    for answer in answers:
        for pane in answer["panes"]:
            assert all(0 < share <= 1 for share in pane["fractions"].values())
            assert pane["why"]
        for room in answer["rooms"]:
            assert room["area_sqft"] >= 0
            assert 0 <= room["motion_fraction"] <= 1
        assert all(math.isfinite(motion["area_sqft"]) and motion["area_sqft"] >= 0 for motion in answer["motions"])
    straight, turned = answers
    assert straight["summary"] == turned["summary"]
    return straight


def shares(answer):
    return [pane["fractions"].get("gb", 0.0) for pane in answer["panes"] if pane["opening"] == "win"]


def gb(x, y, **more):
    return {"id": "gb", "kind": "glass_break", "at": [x, y]} | more


def box(x, y, wide, deep, **more):
    corners = [[x, y], [x + wide, y], [x + wide, y + deep], [x, y + deep]]
    return {"id": f"box{x:g}", "kind": "obstruction", "polygon": corners} | more


def wall(name, a, b, **more):
    return {"id": name, "a": list(a), "b": list(b)} | more


PILLAR = box(4, 4, 2, 2)
PLACES = {
    "on a wall line": (gb(16, 6), [0, 0]),
    "on the pane's wall line, beside it": (gb(2, 0), [0, 0]),
    "on the pane": (gb(8, 0, height=4), [0, 0]),
    "at a wall's end": (gb(0, 0), [0, 0]),
    "in the shell's inside corner": (gb(0.1875, 0.1875), [1, 1]),
    "on a wall's face": (gb(0.1875, 6), [1, 1]),
    "in a solid": (gb(5, 5), [0, 0]),
    "on a solid's face": (gb(5, 4, height=8), [1, 1]),
    "on a solid's corner": (gb(6, 4, height=8), [1, 1]),
    "above the ceiling": (gb(8, 6, height=9.5), None),
    "on the floor": (gb(8, 6, height=0), [1, 1]),
    "at the sill": (gb(8, 6, height=2), [1, 1]),
    "far outside": (gb(900, 900), [0, 0]),
    "a hair before the pane": (gb(8, 1e-9, height=4), [0, 0]),
}


@pytest.mark.parametrize("place", PLACES)
def test_a_detector(place):
    device, expected = PLACES[place]
    answer = sane(den(devices=[device], fixtures=[PILLAR]))
    if expected is not None:
        assert shares(answer) == pytest.approx(expected, abs=1e-5)
    if place in ("on a wall line", "at a wall's end", "in a solid", "on the pane's wall line, beside it"):
        assert any("gb" in finding["things"] for finding in answer["findings"])


@pytest.mark.parametrize("place", PLACES)
def test_a_motion(place):
    device = PLACES[place][0]
    motion = {"id": "md", "kind": "motion", "facing": 45.0, "at": device["at"]}
    sane(den(devices=[motion | ({"height": device["height"]} if "height" in device else {})], fixtures=[PILLAR]))


WALLS = {
    "duplicate": [wall("x", (0, 0), (16, 0))],
    "overlapping": [wall("x", (4, 0), (20, 0))],
    "collinear, end to end": [wall("x", (16, 0), (24, 0))],
    "reversed": [wall("x", (16, 12), (16, 0))],
    "crossing": [wall("x", (4, -4), (4, 16)), wall("y", (-4, 9), (20, 9))],
    "crossing at a point of three": [wall("x", (2, 2), (6, 6)), wall("y", (2, 6), (6, 2)), wall("z", (4, 1), (4, 7))],
    "nearly parallel": [wall("x", (0, 11.9), (16, 11.9001))],
    "shortest": [wall("x", (3, 3), (3.01, 3))],
    "hardly joined": [wall("x", (8, 12), (8, 6.0)), wall("y", (8.009, 6.0), (16, 6))],
    "free": [wall("x", (5, 9), (9, 9))],
    "thicker than long": [wall("x", (5, 9), (5.5, 9), thickness=6)],
    "thin as paper": [wall("x", (0, 9), (16, 9), thickness=1e-6)],
    "fills the room": [wall("x", (0, 6), (16, 6), thickness=14)],
    "higher than the ceiling": [wall("x", (0, 9), (16, 9), height=40)],
    "of no height to speak of": [wall("x", (0, 9), (16, 9), height=0.001)],
}


@pytest.mark.parametrize("kind", WALLS)
def test_walls(kind):
    devices = [gb(8, 8.1), {"id": "md", "kind": "motion", "at": [0.3, 11.0], "facing": 315}]
    sane(den(walls=WALLS[kind], devices=devices))


def test_walls_that_close_no_room():
    plan = den(devices=[gb(8, 6), {"id": "md", "kind": "motion", "at": [8, 6], "facing": 0}])
    del plan["levels"][0]["walls"][2]
    answer = sane(plan)
    assert answer["rooms"][0]["area_sqft"] == 0
    assert answer["motions"][0]["area_sqft"] == 0
    assert shares(answer) == [1, 1]
    assert any({"den", "one"} & set(finding["things"]) for finding in answer["findings"])


def test_a_plan_of_nothing():
    sane({"format": "studbay-plan/1", "name": "Nothing", "levels": [{"id": "one", "name": "One"}]})


OPENINGS = {
    "fills its wall": {"id": "o", "wall": "w1", "kind": "window", "offset": 0, "width": 12, "sill": 0, "head": 9},
    "cased, fills its wall": {"id": "o", "wall": "w1", "kind": "cased", "offset": 0, "width": 12, "head": 9},
    "cased, above its wall": {"id": "o", "wall": "w1", "kind": "cased", "offset": 2, "width": 3, "head": 30},
    "a slit": {"id": "o", "wall": "w1", "kind": "window", "offset": 2, "width": 1e-6, "head": 1e-6},
    "a hundred lites": {"id": "o", "wall": "w1", "kind": "window", "offset": 0, "width": 12, "panes": 100},
    "above the ceiling": {"id": "o", "wall": "w1", "kind": "window", "offset": 2, "width": 3, "sill": 20, "head": 30},
    "a transom over a door": {"id": "o", "wall": "w1", "kind": "door", "offset": 2, "width": 3, "glazed": True},
}


@pytest.mark.parametrize("kind", OPENINGS)
def test_openings(kind):
    more = [{"id": "t", "wall": "w1", "kind": "window", "offset": 2, "width": 3, "sill": 7, "head": 8}]
    openings = [OPENINGS[kind], *(more if kind.startswith("a transom") else [])]
    sane(den(openings=openings, devices=[gb(8, 6), {"id": "md", "kind": "motion", "at": [8, 6], "facing": 0}]))


OBSTRUCTIONS = {
    "across the pane": box(7, -0.5, 2, 1),
    "with a face in the pane's plane": box(7, 0, 2, 1),
    "around the detector": box(6, 4, 4, 4),
    "around the detector, low": box(6, 4, 4, 4, top=3),
    "a hood over the detector": box(6, 4, 4, 4, base=8.5),
    "as thin as paper": box(7, 2, 2, 1e-5),
    "higher than the ceiling": box(7, 2, 2, 1, top=50),
    "a thing of no height": box(7, 2, 2, 1, base=4, top=4.0001),
    "around the house": box(-5, -5, 30, 30, top=2),
}


@pytest.mark.parametrize("kind", OBSTRUCTIONS)
def test_obstructions(kind):
    devices = [gb(8, 6), {"id": "md", "kind": "motion", "at": [0.3, 0.3], "facing": 45}]
    sane(den(fixtures=[OBSTRUCTIONS[kind]], devices=devices))


def test_an_obstruction_across_the_pane_hides_what_it_covers():
    # It stands through the wall's plane from 7 to 9 ft of a pane from 6 to 10 ft: the middle half is hidden at least.
    told = shares(sane(den(fixtures=[box(7, -0.5, 2, 1)], devices=[gb(8, 6)])))
    assert told == pytest.approx([told[0], told[0]], abs=1e-6)
    assert told[0] < 0.5


GRID = st.integers(0, 8).map(lambda step: step * 2.0)
SPOT = st.tuples(GRID, GRID)
LINE = st.tuples(SPOT, SPOT).filter(lambda line: line[0] != line[1])


@settings(max_examples=40, deadline=None)
@given(
    lines=st.lists(LINE, min_size=1, max_size=9),
    spots=st.lists(SPOT, min_size=1, max_size=4),
    boxes=st.lists(st.tuples(SPOT, st.sampled_from([2.0, 4.0])), max_size=2),
    heights=st.sampled_from([0.0, 3.0, 7.0, 9.0, 12.0]),
    turn=st.sampled_from([0.0, 90.0, 37.0]),
)
def test_walls_and_devices_on_one_grid(lines, spots, boxes, heights, turn):
    """Everything falls on everything else: ends on lines, devices on walls and corners, walls over walls."""
    walls = [wall(f"w{k}", *line, height=[None, 4.0][k % 5 == 4]) for k, line in enumerate(lines)]
    length = math.dist(*lines[0])
    openings = [
        {"id": "o", "wall": "w0", "kind": "window", "offset": length / 4, "width": length / 2, "sill": 1, "head": 7},
        {"id": "p", "wall": f"w{len(lines) - 1}", "kind": "cased", "offset": 0, "width": 0.5},
    ]
    devices = [gb(*at, height=heights) | {"id": f"g{k}"} for k, at in enumerate(spots)]
    devices += [{"id": f"m{k}", "kind": "motion", "at": list(at), "facing": 45.0 * k} for k, at in enumerate(spots)]
    level = {"id": "one", "name": "One", "walls": walls, "openings": openings[: 1 if len(lines) == 1 else 2]}
    level["fixtures"] = [box(*at, wide, 2.0, top=5.0) | {"id": f"b{k}"} for k, (at, wide) in enumerate(boxes)]
    level["devices"] = devices
    level["rooms"] = [{"id": f"r{k}", "name": "Room", "at": list(at)} for k, at in enumerate(spots)]
    plan = {"format": "studbay-plan/1", "name": "Grid", "levels": [level]}
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        answer = check_plan(plan_from(moved(plan, turn=turn)))
    assert all(0 <= share <= 1 for pane in answer["panes"] for share in pane["fractions"].values())


@pytest.mark.parametrize("away", [0.0, 0.019, 0.021])
def test_a_wall_is_no_blocker_within_a_fiftieth_of_a_foot_of_the_panes_line(away):
    """Contract §3: 0.02 ft. A wall before the glass, thin and parallel, hides it only when it stands farther off."""
    plan = den(walls=[wall("liner", (5, away), (11, away), thickness=0.01)], devices=[gb(8, 6)])
    assert shares(sane(plan)) == ([1, 1] if away <= 0.02 else [0, 0])


def test_the_plan_given_is_not_changed():
    plan = den(devices=[gb(8, 6)])
    before = copy.deepcopy(plan)
    check_plan(plan_from(plan))
    assert plan == before
