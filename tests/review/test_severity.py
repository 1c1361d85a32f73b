"""When a finding is grave: what leaves the house unprotected or cannot be built, by how far the plan has come."""

from app.plan.reading import plan_from
from app.review.check import check_plan
from tests.review.sound_house import SoundHouse


def severities(house, rule):
    found = check_plan(plan_from(house.value))["findings"]
    return [finding["severity"] for finding in found if finding["rule"] == rule]


def glass_only():
    return SoundHouse().drop("DC1", "WC1", "WC2", "KP1", "KP2", "SR1", "CAN", "MD1")


def test_a_proof_of_glass_alone_has_no_must_for_what_is_not_begun():
    answer = check_plan(plan_from(glass_only().value))
    assert answer["summary"]["covered"] == 2
    assert answer["summary"]["must"] == 0
    assert severities(glass_only(), "contact.missing") == ["should"] * 3
    assert severities(glass_only(), "can.none") == ["should"]


def test_a_begun_perimeter_makes_a_missing_contact_grave():
    begun = glass_only().add("devices", id="CAN", kind="can", at=[19.75, 21])
    assert severities(begun, "contact.missing") == ["must"] * 3


def test_a_window_out_of_reach_is_a_note():
    high = {"id": "W9", "wall": "u0", "kind": "window", "offset": 3, "width": 3, "sill": 2.1, "glazed": False}
    low = high | {"sill": 2}
    assert severities(SoundHouse().upper(openings=[high]), "contact.missing") == ["note"]
    assert severities(SoundHouse().upper(openings=[low]), "contact.missing") == ["must"]


def test_an_unchosen_contact_at_the_opening_is_told_once():
    house = SoundHouse().change("WC1", serves=[])
    assert severities(house, "contact.missing") == []
    assert severities(house, "contact.serves_nothing") == ["should"]


def test_reach_is_a_caution_until_somebody_needs_it():
    assert severities(SoundHouse().change("KP1", height=5), "keypad.reach") == ["note"]
    asked = SoundHouse().change("KP1", height=5).practice(keypad__reach_required="required")
    assert severities(asked, "keypad.reach") == ["should"]


def test_track_without_the_makers_word_is_a_note():
    recessed = SoundHouse().change("WC1", mount="recessed", height=4)
    assert severities(recessed, "contact.window_track") == ["note"]


def test_inner_glass_is_no_way_in():
    house = SoundHouse().add("openings", id="W9", wall="c2", kind="window", offset=1, width=2, sill=3, operable=False)
    assert severities(house, "glass.uncovered") == ["note"]


def test_press_fit_at_the_hinge_is_found():
    house = SoundHouse().change("DC1", at=[5.1, 0], mount="press-fit")
    assert severities(house, "contact.plunger_side") == ["should"]
    assert severities(house.change("DC1", at=[7, 0]), "contact.plunger_side") == []


def test_an_entry_beside_the_garage_is_critical():
    house = SoundHouse().drop("KP1").change("hall", use="mudroom").drop("D1", "DC1")
    assert severities(house, "keypad.critical_entry") == []
    garage = house.change("D2", kind="door").change("great", use="garage")
    assert severities(garage, "keypad.critical_entry") == ["should"]
