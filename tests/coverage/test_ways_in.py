"""Ways in: walks of true feet, checked against networkx on the same graph, and who notices them when."""

import math
import random

import networkx as nx
import pytest
import shapely

from app.coverage.motion import ground_of
from app.coverage.walks import STAIR_SLOPE, Goal, WalkGraph
from app.plan.reading import plan_from
from app.review.house import House
from app.review.protection import protection
from tests.benchmarks.wings import wings_plan
from tests.review.sound_house import SoundHouse


def house_of(value):
    return House(plan_from(value))


def answer(house):
    return protection(house_of(house.value))


def way(house, opening, goal):
    return next(one for one in answer(house)["ways_in"] if (one["opening"], one["goal"]) == (opening, goal))


def furnished(number):
    """Two wings of rooms with furniture at random, from a number."""
    chance = random.Random(number)
    value = wings_plan(1, 4)
    level = value["levels"][0]
    for index in range(12):
        x, y = chance.uniform(0, 50), chance.uniform(0, 20)
        width, depth = chance.uniform(0.5, 5), chance.uniform(0.5, 5)
        corners = [[x, y], [x + width, y], [x + width + chance.uniform(-0.4, 2), y + depth], [x, y + depth]]
        level["fixtures"].append(
            {"id": f"x{index}", "kind": "obstruction", "polygon": corners, "top": chance.choice([0.5, 2.5, 6])}
        )
    return value


@pytest.mark.parametrize("number", range(8))
def test_nearest_goals_agree_with_networkx_on_the_same_graph(number):
    house = house_of(furnished(number))
    bedrooms, hearts = house.goals
    goals = [goal.name for goal in (*bedrooms, *hearts)]
    found = house.walks.nearest(goals, 3)
    graph = nx.DiGraph()
    for here, there, feet in house.walks.edges():
        graph.add_edge(here, there, weight=feet)
    told = 0
    for opening in house.storeys["L1"].exterior:
        node = house.walks.node_of_opening(opening.id)
        away = nx.single_source_dijkstra_path_length(graph, node) if node in graph else {}
        reference = sorted(feet for other, feet in away.items() if other[0] == "goal" and other[1] in goals)[:3]
        mine = found.goals(opening.id)
        assert [feet for feet, _ in mine] == pytest.approx(reference, abs=1e-9)
        for feet, goal in mine:
            walk = found.walk(opening.id, goal)
            length = sum(shapely.length(shapely.LineString(leg.corners)) for leg in walk.legs if len(leg.corners) > 1)
            assert length == pytest.approx(feet, abs=1e-9)
            told += 1
    assert told > 10


@pytest.mark.parametrize("number", range(4))
def test_walks_stay_on_the_floor_and_in_the_openings(number):
    house = house_of(furnished(number))
    scene = house.storeys["L1"].scene
    goals = [goal.name for goal in house.goals[0]]
    found = house.walks.nearest(goals, 2)
    walls = shapely.union_all(
        [
            shapely.LineString([wall.a, wall.b]).buffer(wall.thickness / 2, cap_style="flat")
            for wall in scene.level.walls
        ]
    )
    holes = shapely.union_all(
        [
            shapely.LineString(
                [
                    scene.level.wall_by_id[one.wall].along(one.offset),
                    scene.level.wall_by_id[one.wall].along(one.end),
                ]
            ).buffer(0.3, cap_style="flat")
            for one in scene.level.openings
        ]
    )
    floor = shapely.union_all(ground_of(scene, 1.0).floors)
    blocked = shapely.difference(walls, holes)
    furniture = shapely.difference(scene.faces.building, shapely.union_all([floor, walls]))
    for opening in house.storeys["L1"].exterior:
        for _, goal in found.goals(opening.id):
            for leg in found.walk(opening.id, goal).legs:
                line = shapely.LineString(leg.corners) if len(leg.corners) > 1 else shapely.Point(leg.corners[0])
                assert shapely.intersection(line, blocked).length < 1e-2
                assert shapely.intersection(line, furniture.buffer(-1e-3)).length < 1e-2


def test_straight_walk_through_a_doorway_is_the_distance():
    assert way(SoundHouse(), "W1", "great")["feet"] == pytest.approx(8, abs=1e-3)
    worked = math.dist((6.5, 0), (16, 5.5)) + math.dist((16, 5.5), (24, 8))
    assert way(SoundHouse(), "D1", "great")["feet"] == pytest.approx(worked, abs=1e-3)


def test_walk_goes_around_furniture_that_stands_in_the_way():
    """A counter of 4 ft across the straight way: over its corner at (28, 11) by Pythagoras twice."""
    counter = [[27, 5], [28, 5], [28, 11], [27, 11]]
    house = SoundHouse().add("fixtures", id="counter", kind="obstruction", polygon=counter, top=3)
    worked = math.dist((32, 8), (28, 11)) + 1 + math.dist((27, 11), (24, 8))
    south = math.dist((32, 8), (28, 5)) + 1 + math.dist((27, 5), (24, 8))
    assert way(house, "W1", "great")["feet"] == pytest.approx(min(worked, south), abs=1e-3)
    low = house.change("counter", top=0.5)
    assert way(low, "W1", "great")["feet"] == pytest.approx(8, abs=1e-3)


def test_nobody_walks_through_a_fixed_leaf_a_slit_or_an_inner_window():
    for spoiled in (
        {"kind": "window", "sill": 3},
        {"kind": "door", "leaf": "fixed"},
        {"kind": "cased", "width": 0.9},
    ):
        ways = answer(SoundHouse().change("D2", **spoiled))["ways_in"]
        assert not [one for one in ways if (one["opening"], one["goal"]) == ("D1", "great")]


def test_opening_that_leads_to_no_goal_is_named():
    assert answer(SoundHouse().drop("D2"))["no_way"] == []
    (told,) = answer(SoundHouse().drop("D2", "D3"))["no_way"]
    assert told["opening"] == "D1"


def test_sidelight_is_too_narrow_to_climb_through_but_not_for_an_arm():
    house = SoundHouse().add("openings", id="SL", wall="s", kind="window", offset=8.1, width=0.9, operable=False)
    (told,) = answer(house)["no_way"]
    assert told["opening"] == "SL"
    assert "lock" in told["words"]


def test_people_climb_in_over_a_tub_but_not_over_a_tall_cabinet():
    tub = {"id": "tub", "kind": "obstruction", "polygon": [[29.2, 5], [31.75, 5], [31.75, 11], [29.2, 11]], "top": 1.8}
    house = SoundHouse().add("fixtures", **tub)
    assert way(house, "W1", "great")["feet"] == pytest.approx(8, abs=1e-3)
    tall = house.change("tub", top=6)
    assert [told["opening"] for told in answer(tall)["no_way"]] == ["W1"]


def test_stairs_link_rooms_that_lie_over_each_other():
    house = SoundHouse().upper().change("study", use="stairs").change("loft", use="bedroom")
    level = house.value["levels"][1]
    level["walls"] += [
        {"id": "u8", "a": [20, 18], "b": [32, 18]},
        {"id": "u9", "a": [20, 18], "b": [20, 24]},
    ]
    level["openings"].append({"id": "U1", "wall": "u8", "kind": "cased", "offset": 4, "width": 3})
    level["rooms"].append({"id": "landing", "name": "Landing", "use": "Stair", "at": [26, 21]})
    walk = way(house, "W1", "loft")
    assert [leg["level"] for leg in walk["legs"]] == ["L1", "L2"]
    flat = sum(
        math.dist(here, there)
        for leg in walk["legs"]
        for here, there in zip(leg["points"], leg["points"][1:], strict=False)
    )
    assert walk["feet"] == pytest.approx(flat + 10 * STAIR_SLOPE, abs=1e-3)


def test_stairs_that_rise_from_an_open_room_lead_to_the_room_over_it():
    house = SoundHouse().upper().change("study", use="office").change("loft", use="bedroom")
    level = house.value["levels"][1]
    level["walls"] += [
        {"id": "u8", "a": [20, 18], "b": [32, 18]},
        {"id": "u9", "a": [20, 18], "b": [20, 24]},
    ]
    level["openings"].append({"id": "U1", "wall": "u8", "kind": "cased", "offset": 4, "width": 3})
    level["rooms"].append({"id": "landing", "name": "Stairs", "use": "stairs", "at": [26, 21]})
    walk = way(house, "W1", "loft")
    assert [leg["level"] for leg in walk["legs"]] == ["L1", "L2"]
    foot, head = walk["legs"][0]["points"][-1], walk["legs"][1]["points"][0]
    assert foot == pytest.approx(head, abs=1e-3)  # the floor below is free there: straight under the head
    assert walk["legs"][1]["before_ft"] == pytest.approx(
        sum(math.dist(*ends) for ends in zip(walk["legs"][0]["points"], walk["legs"][0]["points"][1:], strict=False))
        + 10 * STAIR_SLOPE,
        abs=1e-3,
    )


def test_without_stairs_the_upper_floor_is_not_reached():
    house = SoundHouse().upper().change("loft", use="bedroom")
    assert "loft" not in {one["goal"] for one in answer(house)["ways_in"]}


def test_contact_notices_at_the_opening_and_motion_after_the_feet_to_its_floor():
    walk = way(SoundHouse(), "D1", "great")
    for state in ("stay", "away"):
        assert walk[state]["first"] == {"device": "DC1", "how": "opened", "feet": 0}
        assert walk[state]["unseen_ft"] == 0
    assert walk["stay"]["second"] is None
    second = walk["away"]["second"]
    assert (second["device"], second["how"]) == ("MD1", "seen")
    to_door = math.dist((6.5, 0), (16, 5.5))
    assert to_door <= second["feet"] <= to_door + 1


def test_person_takes_the_way_that_nothing_tells():
    """The window's contact and its glass break: without either one the other way through is open."""
    assert way(SoundHouse().drop("GB2"), "W2", "main")["gaps"] == ["broken"]
    assert way(SoundHouse().drop("WC2"), "W2", "main")["gaps"] == ["opened"]
    assert way(SoundHouse().drop("WC2"), "W2", "main")["stay"]["first"] is None


def test_contact_on_an_inner_door_notices_who_passes_it():
    house = SoundHouse().drop("WC2").add("devices", id="DC3", kind="door_contact", at=[11, 12], serves=["D3"])
    walk = way(house, "W2", "great")
    first = walk["stay"]["first"]
    assert (first["device"], first["how"]) == ("DC3", "door opened")
    assert first["feet"] == pytest.approx(math.dist((0, 18), (11.3335, 12)), abs=1e-3)
    assert walk["away"]["second"]["device"] == "MD1"


def unseen(house, state):
    return {one["opening"]: one["unseen_ft"] for one in answer(house)["unseen"] if one["state"] == state}


def test_well_planned_house_lets_nobody_walk_unseen():
    assert answer(SoundHouse())["unseen"] == []


def test_unseen_walks_are_found_for_stay_and_away_apart():
    house = SoundHouse().drop("WC1")
    assert "W1" in unseen(house, "stay")
    assert "W1" not in unseen(house, "away")


def test_walk_of_just_8_ft_passes_the_walk_test_and_a_longer_one_does_not():
    """UL 1641-2015 15.3.1: four steps of 24 in; the bed is 8 ft from the window."""
    house = SoundHouse().drop("WC2", "MD1", "D3")
    assert "W2" not in unseen(house, "away")
    assert unseen(house.change("main", at=[8.1, 18]), "away")["W2"] == pytest.approx(8.1, abs=1e-3)


def test_goal_on_a_wall_is_reached_at_the_foot_of_that_wall():
    house = house_of(SoundHouse().value)
    graph = WalkGraph(house.scenes, [Goal("plate", "L1", (9, -0.1), None), Goal("moon", "L1", (90, 90), None)])
    assert graph.reached("plate")
    assert not graph.reached("moon")
    ((feet, name),) = graph.nearest(["plate"], 1).goals("D1")
    assert name == "plate"
    assert feet == pytest.approx(math.dist((6.5, 0), (8, 0.25)) + 1, abs=2e-3)
