"""Published worked values of glass-break reach, each checked a hair inside and a hair outside.

Sources: the rule "windows in line of sight and within 15 ft" (trade article "How to prewire home security", updated
June 2023); horizontal reach √(R² − (H − z)²), the slant range formula; a pane is judged by its farthest corner.
"""

import math

import pytest

from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.houses import moved

NARROW = 0.02
HAIR = 0.004


def pane_at(distance, sill, head, ceiling, *, width=NARROW, turn=0.0, **device):
    """The answer for one window whose farther jamb lies ``distance`` ft in plan from a ceiling detector.

    The detector hangs 6 ft south of the window's wall line, so the window lies to the side of it.
    """
    jamb = math.sqrt(distance**2 - 36)
    corners = [(-30, -30), (30, -30), (30, 6), (-30, 6)]
    walls = [{"id": f"w{k}", "a": list(corners[k]), "b": list(corners[(k + 1) % 4])} for k in range(4)]
    window = {"id": "win", "wall": "w2", "kind": "window", "offset": 30 - jamb, "width": width}
    window |= {"sill": sill, "head": head}
    level = {"id": "one", "name": "One", "ceiling": ceiling, "walls": walls, "openings": [window]}
    level["devices"] = [{"id": "gb", "kind": "glass_break", "at": [0, 0]} | device]
    plan = {"format": "studbay-plan/1", "name": "Reach", "levels": [level]}
    [pane] = check_plan(plan_from(moved(plan, turn=turn, shift=(turn, -3 * turn))))["panes"]
    return pane


# (ceiling, height of the farthest corner, published horizontal reach): facts of the slant range formula, R = 15 ft.
PUBLISHED = [
    (8.0, 4.0, 14.457),
    (9.0, 4.0, 14.142),
    (10.0, 4.0, 13.748),
    (12.0, 4.0, 12.689),
    (8.0, 2.5, 13.955),
    (9.0, 2.5, 13.519),
    (10.0, 2.5, 12.990),
    (12.0, 2.5, 11.608),
    (9.0, 0.0, 12.000),
]


@pytest.mark.parametrize(("ceiling", "sill", "reach"), PUBLISHED)
@pytest.mark.parametrize("turn", [0.0, 127.3])
def test_horizontal_reach_of_15_ft_under_a_ceiling(ceiling, sill, reach, turn):
    head = sill + 0.02
    inside = pane_at(reach - HAIR, sill, head, ceiling, turn=turn)
    assert inside["status"] == "covered"
    assert inside["fractions"] == {"gb": 1.0}
    assert inside["best"]["farthest_ft"] == pytest.approx(15, abs=0.01)
    assert pane_at(reach + NARROW + 2 * HAIR, sill, head, ceiling, turn=turn)["status"] != "covered"


def test_the_9_12_15_triangle_is_exact():
    """A floor-level corner 12 ft off under a 9 ft ceiling is at 15 ft exactly, so the pane is covered."""
    pane = pane_at(12.0, 0.0, 0.5, 9.0, width=2.0)
    assert pane["best"]["farthest_ft"] == pytest.approx(15.0, abs=1e-4)
    assert pane["status"] == "covered"


def test_a_window_whose_centre_is_covered_can_have_an_uncovered_corner():
    """The same source: test each pane's corners, not its centre."""
    pane = pane_at(14.2, 2.5, 5.5, 9.0, width=4.0)
    assert pane["status"] == "partial"
    assert pane["best"]["farthest_ft"] == pytest.approx(math.hypot(14.2, 6.5), abs=1e-3)


def test_longer_ratings_change_nothing_unless_the_plan_says_so():
    """Dealers publish 15 to 20 ft; the practice is 15 ft whatever the rating, and a device may say its own."""
    assert pane_at(16.0, 2.5, 5.5, 9.0, width=1.0)["status"] != "covered"
    assert pane_at(16.0, 2.5, 5.5, 9.0, width=1.0, range=20.0)["status"] == "covered"
