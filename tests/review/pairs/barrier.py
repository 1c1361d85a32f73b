"""Faults of contacts and glass, and near faults."""

from tests.review.sound_house import SoundHouse

NO_CONTACT = {"id": "W3", "wall": "e", "kind": "window", "offset": 11, "width": 2, "sill": 3}
CLERESTORY = {"id": "W3", "wall": "e", "kind": "window", "offset": 11, "width": 2, "sill": 3, "operable": False}
SMALL = {"id": "W3", "wall": "e", "kind": "window", "offset": 11, "sill": 5, "head": 5.75, "operable": False}
WIDE = {"id": "W3", "wall": "e", "kind": "window", "offset": 11, "width": 4, "sill": 3, "operable": False}


def _windows(count):
    house = SoundHouse()
    for number in range(count):
        house.add(
            "openings", id=f"X{number}", wall="n", kind="window", offset=13 + number * 1.5, width=1, sill=4, head=6
        )
    return house.add(
        "devices",
        id="WC9",
        kind="window_contact",
        at=[12, 23.8],
        serves=[f"X{number}" for number in range(count)],
    )


def _plunger(at, mount="plunger"):
    return SoundHouse().change("DC1", at=at, mount=mount)


PAIRS = {
    "contact.missing": (SoundHouse().add("openings", **NO_CONTACT), SoundHouse().add("openings", **CLERESTORY)),
    "contact.garage_door": (
        SoundHouse().change("study", use="Garage"),
        SoundHouse()
        .change("study", use="Garage")
        .add("devices", id="DC5", kind="door_contact", at=[25, 18], serves=["D5"], note="hole 3/8 in"),
    ),
    "contact.serves_nothing": (SoundHouse().change("WC1", serves=[]), SoundHouse().change("WC1", serves=["W1", "W1"])),
    "contact.door_in_loop": (
        SoundHouse().change("DC1", serves=["D1", "W2"]),
        SoundHouse().change("WC1", serves=["W1", "W2"]),
    ),
    "contact.zone_crowded": (_windows(11), _windows(10)),
    "contact.serves_many": (
        SoundHouse().change("WC1", serves=["W1", "W2"]),
        SoundHouse().change("WC1", serves=["W1", "W1"]),
    ),
    "contact.wrong_kind": (
        SoundHouse().change("DC1", kind="window_contact"),
        SoundHouse().change("DC1", kind="window_contact", mount="surface").change("D1", leaf="slide"),
    ),
    "contact.never_opens": (
        SoundHouse().change("W1", operable=False),
        SoundHouse().change("W1", operable=True),
    ),
    "contact.away": (
        SoundHouse().change("WC1", at=[31.8, 11.52]),
        SoundHouse().change("WC1", at=[31.8, 11.48]),
    ),
    "contact.plunger_side": (_plunger([7.8, 0]), _plunger([5.2, 0])),
    "contact.window_track": (
        SoundHouse().change("WC1", mount="recessed", height=3.49, note="hole 3/8 in, letter of 2 May"),
        SoundHouse().change("WC1", mount="recessed", height=3.5, note="hole 3/8 in, letter of 2 May"),
    ),
    "contact.hole_unknown": (
        SoundHouse().change("DC1", note="white"),
        SoundHouse().change("DC1", note="white; hole 3/8 in by 1 in"),
    ),
    "glass.uncovered": (SoundHouse().drop("GB1"), SoundHouse().drop("GB1").change("W1", glazed=False)),
    "glass.partial": (
        SoundHouse().change("GB1", at=[18.3, 8]),
        SoundHouse().change("GB1", at=[18.5, 8]),
    ),
    "glass.edge_on": (
        SoundHouse().add("devices", id="GB9", kind="glass_break", at=[32, 12], height=9).change("e", height=7),
        SoundHouse().add("devices", id="GB9", kind="glass_break", at=[31.9, 12], height=9).change("e", height=7),
    ),
    "glass_break.near_register": (
        SoundHouse().change("reg1", at=[24, 10.9]),
        SoundHouse().change("reg1", at=[24, 11]),
    ),
    "glass_break.kitchen_or_bath": (
        SoundHouse().change("great", use="Kitchen"),
        SoundHouse().change("great", use="Kitchen").change("GB1", note="no other place sees the glass"),
    ),
    "glass_break.beyond_design_range": (
        SoundHouse().change("GB1", range=15.5),
        SoundHouse().change("GB1", range=15),
    ),
    "glass_break.hears_nothing": (
        SoundHouse().add("devices", id="GB9", kind="glass_break", at=[26, 21]),
        SoundHouse().add("devices", id="GB9", kind="glass_break", at=[26, 14]),
    ),
    "glass_break.small_pane": (
        SoundHouse().add("openings", **SMALL, width=1.3),
        SoundHouse().add("openings", **SMALL, width=1.34),
    ),
}
