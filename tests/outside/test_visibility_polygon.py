"""Motion in plan against the npm package ``visibility-polygon``, run by node: houses whose every body has full height.

``NODE_PATH`` names the folder that holds the package; where node or the package is missing, this file skips and the
closed forms and the rays beside it stand alone.
"""

import copy
import json
import math
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
import shapely
import shapely.affinity

from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.houses import random_house
from tests.outside.solids import floor_of, solids_of

SCRIPT = Path(__file__).with_name("visibility.js")
SEEDS = range(200, 224)
BOUND = 200.0  # ft: a square about the eye, beyond every reach
MISSING = "needs node and `npm install visibility-polygon`, with NODE_PATH naming its node_modules"


@pytest.fixture(scope="module")
def node() -> str:
    found = shutil.which("node")
    if found is None:
        pytest.skip(MISSING)
    asked = [found, "-e", "require.resolve('visibility-polygon')"]
    if subprocess.run(asked, capture_output=True, cwd=SCRIPT.parent, check=False).returncode:
        pytest.skip(MISSING)
    return found


def full_height(seed):
    """A random house with its half walls, low furniture and voids made solid from floor to ceiling."""
    plan = copy.deepcopy(random_house(seed))
    plan["practice"] = {}
    level = plan["levels"][0]
    for wall in level["walls"]:
        wall.pop("height", None)
    level["openings"] = [opening for opening in level["openings"] if opening["kind"] != "cased"]
    for piece in level["fixtures"]:
        piece.pop("top", None)
        piece["base"] = 0.0
    return plan


def segments_about(solids, eye):
    """Edges of the union of all bodies, from the eye, and a square around them."""
    whole = shapely.union_all([solid.plan for solid in solids])
    rings = [ring for part in shapely.get_parts(whole) for ring in (part.exterior, *part.interiors)]
    rings.append(shapely.box(*(eye - BOUND), *(eye + BOUND)).exterior)
    edges = []
    for ring in rings:
        corners = (np.asarray(ring.coords) - eye).tolist()
        edges += [[corners[k], corners[k + 1]] for k in range(len(corners) - 1)]
    return edges


def sector(device):
    facing, angle = math.radians(device["facing"]), math.radians(device.get("view_angle", 90.0))
    turns = np.linspace(facing - angle / 2, facing + angle / 2, 4000)
    arc = device.get("range", 40.0) * np.column_stack([np.cos(turns), np.sin(turns)])
    return shapely.Polygon(arc if device.get("view_angle") == 360 else np.vstack([[0, 0], arc]))


def test_watched_floor_agrees_with_a_visibility_polygon(node):
    cases, looked_up = [], []
    for seed in SEEDS:
        plan = full_height(seed)
        level = plan["levels"][0]
        told = {motion["id"]: motion["area_sqft"] for motion in check_plan(plan_from(plan))["motions"]}
        solids = solids_of(plan, level)
        floor = shapely.difference(floor_of(level), shapely.union_all([solid.plan for solid in solids]))
        for device in level["devices"]:
            eye = np.array(device["at"])
            if device["kind"] != "motion":
                continue
            if not floor.contains(shapely.Point(eye)):
                assert told[device["id"]] == 0
                continue
            cases.append({"position": [0, 0], "segments": segments_about(solids, eye)})
            looked_up.append((seed, device, told[device["id"]], shapely.affinity.translate(floor, *-eye)))
    assert len(cases) >= 40
    run = subprocess.run([node, str(SCRIPT)], input=json.dumps(cases), capture_output=True, text=True, check=True)
    for (seed, device, told, floor), corners in zip(looked_up, json.loads(run.stdout), strict=True):
        seen = shapely.make_valid(shapely.Polygon(corners)).intersection(sector(device)).intersection(floor)
        assert told == pytest.approx(seen.area, rel=1e-4, abs=0.01), (seed, device["id"])
