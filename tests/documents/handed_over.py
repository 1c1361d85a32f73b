"""A house for the tests of files: a wall of 10 ft, a level above, a can and runs, and names that try to break out."""

from __future__ import annotations

import copy
from typing import Any

from app.documents.plan_answers import Edition, PlanAnswers
from app.plan.reading import plan_from
from tests.drawing.a_house import house_value

EDITION = Edition("7", "2026-03-02T09:30:00+00:00")
SCRIPT = "</script><script>alert(1)</script>"
FORMULA = '=HYPERLINK("http://x.invalid";"y")'
EVIL = (
    FORMULA,
    "+1+1",
    "-2+3",
    "@SUM(A1)",
    "\ttab",
    SCRIPT,
    "quote \" and ' mark",
    "\u202eright to left",
    "עברית",
    "50%%c ^J \\P{x}",
)


def value(**plan: Any) -> dict[str, Any]:
    """The house as a JSON value; ``plan`` replaces keys of the plan."""
    made = copy.deepcopy(house_value())
    ground = made["levels"][0]
    ground["walls"].append({"id": "ten", "a": [40, 0], "b": [50, 0], "thickness": 0.5})
    ground["devices"] += [
        {"id": f"ot{number}", "kind": "other", "at": [22 + number * 0.7, 6], "label": label, "note": label}
        for number, label in enumerate(EVIL)
    ]
    ground["devices"] += [
        {"id": "can1", "kind": "can", "at": [29, 12]},
        {"id": "kp1", "kind": "keypad", "at": [11, 0.4]},
        {"id": "dc1", "kind": "door_contact", "at": [13, 0.4], "serves": ["d1"]},
        {"id": "sm1", "kind": "smoke", "at": [16, 9]},
    ]
    ground["rooms"][1]["name"] = SCRIPT
    above = {
        "id": "L2",
        "name": "Obergeschoß",
        "elevation": 10,
        "walls": [{"id": "up1", "a": [0, 0], "b": [12, 0]}],
        "devices": [{"id": "sr1", "kind": "siren", "at": [6, 3], "facing": 90}],
    }
    made["levels"].append(above)
    made["risers"] = [{"id": "rs1", "at": [29, 12], "from": "L1", "to": "L2"}]
    made["site"] = {"client": "Ærøe & Söhne", "address": "3 Lark Lane", "designer": "O. Hart", "notes": SCRIPT}
    return made | plan


def answers(**plan: Any) -> PlanAnswers:
    """The same, read and ready to be asked."""
    return PlanAnswers.of(plan_from(value(**plan)))
