"""Faults of motion detectors, and near faults."""

from tests.review.sound_house import SoundHouse


def _moved(**fields):
    return SoundHouse().change("MD1", **fields)


PAIRS = {
    "motion.not_in_corner": (_moved(at=[20, 0.4], facing=90), _moved(at=[17.4, 1.4])),
    "motion.off_bisector": (_moved(facing=71), _moved(facing=69)),
    "motion.height": (_moved(height=7.6), _moved(height=7.5)),
    "motion.faces_glass": (_moved(facing=30), _moved(facing=45)),
    "motion.near_register": (
        SoundHouse().change("reg1", at=[22, 4]),
        SoundHouse().change("reg1", at=[15, 4]),
    ),
    "motion.where_people_sleep": (
        SoundHouse().add("devices", id="MD2", kind="motion", at=[0.5, 23.5], facing=315),
        SoundHouse().add("devices", id="MD2", kind="motion", at=[0.5, 23.5], facing=315, note="for away only"),
    ),
    "motion.unconditioned": (
        SoundHouse().change("great", use="garage"),
        SoundHouse().change("great", use="great_room"),
    ),
    "motion.gathering_room": (
        _moved(range=10),
        SoundHouse().drop("MD1").change("great", use="dining_room"),
    ),
}
