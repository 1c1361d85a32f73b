"""Faults of the can, keypads, cables and smoke alarms that are recorded, and near faults."""

from tests.review.sound_house import SoundHouse


def _smoke(**fields):
    return SoundHouse().add("devices", **({"id": "SM1", "kind": "smoke", "at": [24, 14]} | fields))


def _other(**fields):
    return SoundHouse().add("devices", id="OT1", kind="other", at=[26, 20], **fields)


PAIRS = {
    "can.none": (SoundHouse().drop("CAN"), SoundHouse().bare().add("devices", id="SM", kind="smoke", at=[24, 14])),
    "can.several": (
        SoundHouse().add("devices", id="CAN2", kind="can", at=[16.3, 21]),
        SoundHouse().add("devices", id="CAN2", kind="can", at=[16.3, 21], note="expander for the workshop"),
    ),
    "can.exterior_wall": (
        SoundHouse().change("CAN", at=[18, 23.7]),
        SoundHouse().change("CAN", at=[19.75, 23.7]),
    ),
    "can.unconditioned": (
        SoundHouse().change("closet", use="garage"),
        SoundHouse().change("closet", use="utility"),
    ),
    "can.in_sight": (
        SoundHouse().change("CAN", at=[20.3, 21]),
        SoundHouse().change("CAN", at=[20.3, 21], note="behind the desk, as the client asks"),
    ),
    "keypad.none": (
        SoundHouse().drop("KP1", "KP2"),
        SoundHouse().drop("KP1", "KP2").change("D1", exterior=False),
    ),
    "keypad.critical_entry": (
        SoundHouse().drop("KP2"),
        SoundHouse().drop("KP2").change("main", use="bedroom", name="Guest bedroom"),
    ),
    "keypad.not_above_switch": (
        SoundHouse().change("KP1", at=[10.1, 0.3]),
        SoundHouse().change("KP1", at=[9.9, 0.3]),
    ),
    "keypad.height": (SoundHouse().change("KP1", height=5.5), SoundHouse().change("KP1", height=5)),
    "keypad.reach": (SoundHouse().change("KP1", height=4.1), SoundHouse().change("KP1", height=4)),
    "keypad.without_cable": (
        SoundHouse().change("KP1", cable=""),
        SoundHouse().change("KP1", cable="22/4"),
    ),
    "cable.wrong_for_kind": (
        SoundHouse().change("KP1", cable="22/2"),
        SoundHouse().change("WC1", cable="22/4").change("KP1", cable="18/4"),
    ),
    "cable.not_chosen": (_other(), _other(note="a doorbell button, or nothing")),
    "smoke.by_others": (_smoke(), _smoke(note="placed by the electrician, 3 June")),
    "smoke.room_unknown": (
        _smoke(at=[24, 14], note="placed by the electrician").drop("great"),
        _smoke(at=[24, 14], note="placed by the electrician"),
    ),
}
