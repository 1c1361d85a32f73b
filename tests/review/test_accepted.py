"""A finding accepted in the plan's notes stays in sight as a note, with the reason and the name."""

from app.plan.reading import plan_from
from app.review.accepted import acceptances
from app.review.check import check_plan
from tests.review.sound_house import SoundHouse


def told(house, rule):
    found = check_plan(plan_from(house.value))["findings"]
    return [(finding["severity"], finding["message"]) for finding in found if finding["rule"] == rule]


def with_notes(house, notes):
    house.value["site"] = {"notes": notes}
    return house


def test_accepted_for_a_thing_with_a_reason_and_a_name():
    line = "accepted glass.uncovered W1/1: shuttered from inside - J. Ash"
    house = with_notes(SoundHouse().drop("GB1"), f"Dog in the yard.\n{line}\nKeys with the neighbour.")
    ((severity, message),) = told(house, "glass.uncovered")
    assert severity == "note"
    assert message.endswith("Accepted by J. Ash: shuttered from inside.")


def test_another_thing_of_the_same_rule_stays_grave():
    house = with_notes(SoundHouse().drop("GB1"), "accepted glass.uncovered W2/1: boarded - J. Ash")
    assert told(house, "glass.uncovered")[0][0] == "must"


def test_a_devices_own_note_may_leave_the_thing_out():
    house = SoundHouse().change("CAN", at=[18, 23.7], note="accepted can.exterior_wall: insulated box - R. Elm")
    ((severity, message),) = told(house, "can.exterior_wall")
    assert severity == "note"
    assert "R. Elm" in message


def test_without_a_name_or_a_reason_nothing_is_accepted():
    for notes in ("accepted glass.uncovered W1/1: because", "accepted glass.uncovered W1/1 - J. Ash"):
        assert acceptances(plan_from(with_notes(SoundHouse(), notes).value)) == ()


def test_a_line_that_names_nothing_never_accepts_a_whole_rule():
    house = with_notes(SoundHouse().drop("GB1"), "accepted glass.uncovered: all of them - J. Ash")
    assert told(house, "glass.uncovered")[0][0] == "must"
    house = with_notes(SoundHouse().drop("SR1"), "accepted siren.none: the neighbours sleep - J. Ash")
    assert told(house, "siren.none")[0][0] == "note"


def test_a_finding_on_no_thing_cannot_be_accepted_by_naming_another():
    house = with_notes(SoundHouse().drop("SR1"), "accepted siren.none W1: outside bell - J. Ash")
    assert told(house, "siren.none")[0][0] == "should"


def test_things_may_be_parted_by_commas_and_the_dash_be_long():
    plan = plan_from(with_notes(SoundHouse(), "Accepted contact.serves_many WC1, W1: one sash – M. Birch").value)
    (accepted,) = acceptances(plan)
    assert accepted.things == {"WC1", "W1"}
    assert accepted.name == "M. Birch"


def test_a_line_for_the_program_is_no_reason():
    """A note of way-points does not say why a detector hangs where it does."""
    aside = SoundHouse().change("MD1", at=[20, 0.4], facing=90)
    assert told(aside.change("MD1", note="cable via (20, 6)"), "motion.not_in_corner")
    assert not told(aside.change("MD1", note="cable via (20, 6)\nno corner is free"), "motion.not_in_corner")
