"""Faults of sirens, and near faults."""

from tests.review.sound_house import SoundHouse

PAIRS = {
    "siren.none": (SoundHouse().drop("SR1"), SoundHouse().bare()),
    "siren.every_floor": (
        SoundHouse().upper().practice(siren__large_home=1500),
        SoundHouse().upper().practice(siren__large_home=1540),
    ),
    "siren.beside_chime": (
        SoundHouse().change("SR1", at=[9.9, 11.75]),
        SoundHouse().change("SR1", at=[10.1, 11.75]),
    ),
    "siren.bedside": (
        SoundHouse().practice(siren__rated=92),
        SoundHouse().practice(siren__rated=104),
    ),
    "siren.hearing": (
        SoundHouse().add("devices", id="SR2", kind="siren", at=[4, 18], height=7),
        SoundHouse().add("devices", id="SR2", kind="siren", at=[4, 14], height=7),
    ),
}
