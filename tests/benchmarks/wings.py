"""Houses of any size for benchmarks: wings two rooms deep, each room with a window, a door, detectors and furniture."""

WIDE, DEEP, PITCH = 14.0, 12.0, 40.0
USES = ("bedroom", "great_room", "kitchen", "entry", "closet", "study")


def wings_plan(wings, rooms_along):
    """A plan of one level: ``wings`` wings of 2 × ``rooms_along`` rooms, joined by nothing."""
    level = {"id": "L1", "name": "Main floor"}
    level |= {family: [] for family in ("walls", "openings", "fixtures", "rooms", "devices")}
    for wing in range(wings):
        _wing(level, wing, rooms_along)
    return {"format": "studbay-plan/1", "name": f"{wings} wings of {2 * rooms_along} rooms", "levels": [level]}


def _wing(level, wing, rooms_along):
    south = wing * PITCH
    for row in range(3):
        for column in range(rooms_along):
            x, y = column * WIDE, south + row * DEEP
            name = f"h{wing}-{row}-{column}"
            level["walls"].append({"id": name, "a": [x, y], "b": [x + WIDE, y]})
            if row == 1:
                door = {"kind": "door", "offset": 5, "width": 2.667}
            elif column % 7 == 3:
                door = {"kind": "door", "offset": 5, "width": 3, "glazed": True}
            else:
                door = {"kind": "window", "offset": 4, "width": 6, "sill": 3, "panes": 3}
            level["openings"].append({"id": f"o{name}", "wall": name, **door})
            if row != 1:
                kind = "door_contact" if door["kind"] == "door" else "window_contact"
                contact = {"id": f"c{name}", "kind": kind, "at": [x + 6, y], "serves": [f"o{name}"]}
                level["devices"].append(contact)
    for column in range(rooms_along + 1):
        for row in range(2):
            x, y = column * WIDE, south + row * DEEP
            name = f"v{wing}-{row}-{column}"
            level["walls"].append({"id": name, "a": [x, y], "b": [x, y + DEEP]})
            if 0 < column < rooms_along and row == 0:
                level["openings"].append({"id": f"o{name}", "wall": name, "kind": "cased", "offset": 4, "width": 3})
    for row in range(2):
        for column in range(rooms_along):
            _furnish(
                level, f"{wing}-{row}-{column}", USES[(column + 3 * row) % len(USES)], column * WIDE, south + row * DEEP
            )
    level["devices"].append({"id": f"can{wing}", "kind": "can", "at": [WIDE / 2, south + DEEP + 0.3], "note": "a wing"})


def _furnish(level, name, use, x, y):
    level["rooms"].append({"id": f"r{name}", "name": f"Room {name}", "use": use, "at": [x + 7, y + 6]})
    level["devices"].append({"id": f"g{name}", "kind": "glass_break", "at": [x + 7, y + 7]})
    level["fixtures"].append({"id": f"reg{name}", "kind": "supply_register", "at": [x + 13, y + 11]})
    if use == "bedroom":
        level["fixtures"].append({"id": f"bed{name}", "kind": "bed", "at": [x + 4, y + 8]})
    if use == "great_room":
        level["devices"].append({"id": f"m{name}", "kind": "motion", "at": [x + 0.5, y + 0.5], "facing": 45})
    if use == "entry":
        level["fixtures"].append({"id": f"sw{name}", "kind": "light_switch", "at": [x + 9, y + 0.3]})
        level["devices"].append({"id": f"k{name}", "kind": "keypad", "at": [x + 9, y + 0.3]})
        level["devices"].append({"id": f"s{name}", "kind": "siren", "at": [x + 2, y + 11.7]})


SIZES = {"S": (1, 4), "M": (1, 20), "L": (20, 20), "XL": (50, 40)}
