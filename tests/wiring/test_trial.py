"""The drag call: with a device moved, the pulls are those of the plan that has it there."""

from app.geometry.scene import compile_level
from app.plan.model import Device
from app.wiring.answer import pulls_answer
from app.wiring.trial import try_pulls
from tests.wiring.houses import device, level, plan, riser

CAN = device("can", "can", (35, 6))
OTHERS = [device("gb", "glass_break", (10, 12)), device("wc", "window_contact", (0, 9))]
RISERS = [riser("r", (22, 3), "L0", "L1")]
UPSTAIRS = level(1, [device("sr", "siren", (5, 5))])
HOUSE = plan([level(0, [CAN, *OTHERS]), UPSTAIRS], RISERS)
SCENES = {one.id: compile_level(one) for one in HOUSE.levels}


def tried(moved):
    return try_pulls(HOUSE, SCENES, "L0", Device.model_validate(moved))


def whole(devices):
    answer = pulls_answer(plan([level(0, devices), UPSTAIRS], RISERS))
    return {key: answer[key] for key in ("pulls", "bundles")}


def test_moved_can_measures_every_pull_anew():
    moved = CAN | {"at": [5, 20]}
    assert tried(moved) == whole([moved, *OTHERS])
    assert tried(moved)["pulls"] != tried(CAN)["pulls"]


def test_added_device_gets_a_pull():
    added = device("kp", "keypad", (20, 3))
    assert tried(added) == whole([CAN, *OTHERS, added])


def test_the_plan_itself_is_left_as_it_was():
    before = pulls_answer(HOUSE)
    tried(CAN | {"at": [5, 20]})
    assert pulls_answer(HOUSE) == before
