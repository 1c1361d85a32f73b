"""A small invented house in which everything is as a good designer would have it, and edits that spoil it."""

import copy

LEVEL = {
    "id": "L1",
    "name": "Main floor",
    "walls": [
        {"id": "s", "a": [0, 0], "b": [32, 0], "thickness": 0.5},
        {"id": "e", "a": [32, 0], "b": [32, 24], "thickness": 0.5},
        {"id": "n", "a": [32, 24], "b": [0, 24], "thickness": 0.5},
        {"id": "w", "a": [0, 24], "b": [0, 0], "thickness": 0.5},
        {"id": "m", "a": [16, 0], "b": [16, 24]},
        {"id": "k", "a": [0, 12], "b": [16, 12]},
        {"id": "c1", "a": [16, 18], "b": [32, 18]},
        {"id": "c2", "a": [20, 18], "b": [20, 24]},
    ],
    "openings": [
        {"id": "D1", "wall": "s", "kind": "door", "offset": 5, "width": 3, "hinge": "a"},
        {"id": "D2", "wall": "m", "kind": "cased", "offset": 4, "width": 3},
        {"id": "D3", "wall": "k", "kind": "door", "offset": 10, "width": 2.667},
        {"id": "D4", "wall": "c1", "kind": "door", "offset": 1, "width": 2.5},
        {"id": "D5", "wall": "c1", "kind": "door", "offset": 8, "width": 2.667},
        {"id": "W1", "wall": "e", "kind": "window", "offset": 6, "width": 4, "sill": 3},
        {"id": "W2", "wall": "w", "kind": "window", "offset": 4, "width": 4, "sill": 3},
    ],
    "fixtures": [
        {"id": "sw1", "kind": "light_switch", "at": [9, 0.3]},
        {"id": "sw2", "kind": "light_switch", "at": [9.5, 12.25]},
        {"id": "chime", "kind": "chime", "at": [13, 11.75]},
        {"id": "bed1", "kind": "bed", "at": [4, 20]},
        {"id": "reg1", "kind": "supply_register", "at": [30, 16]},
    ],
    "rooms": [
        {"id": "great", "name": "Great room", "use": "great_room", "at": [24, 8]},
        {"id": "main", "name": "Main bedroom", "use": "main_bedroom", "at": [8, 18]},
        {"id": "hall", "name": "Entry", "use": "entry", "at": [8, 6]},
        {"id": "closet", "name": "Linen closet", "use": "closet", "at": [18, 22]},
        {"id": "study", "name": "Study", "use": "study", "at": [26, 21]},
    ],
    "devices": [
        {"id": "DC1", "kind": "door_contact", "at": [5.5, 0], "serves": ["D1"], "note": "hole 3/8 in, 1 in deep"},
        {"id": "WC1", "kind": "window_contact", "at": [31.8, 7], "serves": ["W1"]},
        {"id": "WC2", "kind": "window_contact", "at": [0.2, 19], "serves": ["W2"]},
        {"id": "GB1", "kind": "glass_break", "at": [24, 8]},
        {"id": "GB2", "kind": "glass_break", "at": [7, 18]},
        {"id": "MD1", "kind": "motion", "at": [16.3, 0.4], "facing": 45},
        {"id": "KP1", "kind": "keypad", "at": [9, 0.3], "height": 4},
        {"id": "KP2", "kind": "keypad", "at": [9.5, 12.25], "height": 4},
        {"id": "SR1", "kind": "siren", "at": [14, 11.75]},
        {"id": "CAN", "kind": "can", "at": [19.75, 21]},
    ],
}


class SoundHouse:
    """The house as a JSON value that edits change in place; each edit returns the house."""

    def __init__(self):
        self.value = {"format": "studbay-plan/1", "name": "Alder Lane 4", "levels": [copy.deepcopy(LEVEL)]}

    def _family(self, family, level):
        return self.value["levels"][level][family]

    def change(self, thing, **fields):
        """Give a thing of any level other fields."""
        for level in self.value["levels"]:
            for family in ("walls", "openings", "fixtures", "rooms", "devices"):
                for one in level[family]:
                    if one["id"] == thing:
                        one.update(fields)
                        return self
        raise KeyError(thing)

    def add(self, family, level=0, **fields):
        """Add a thing to a level."""
        self._family(family, level).append(fields)
        return self

    def drop(self, *things):
        """Take things out."""
        for level in self.value["levels"]:
            for family in ("walls", "openings", "fixtures", "rooms", "devices"):
                level[family] = [one for one in level[family] if one["id"] not in things]
        return self

    def bare(self):
        """Take all devices out."""
        for level in self.value["levels"]:
            level["devices"] = []
        return self

    def upper(self, **fields):
        """Add an upper floor: one room of 32 by 24 ft without openings."""
        walls = [
            {"id": f"u{number}", "a": list(a), "b": list(b), "thickness": 0.5}
            for number, (a, b) in enumerate(
                [((0, 0), (32, 0)), ((32, 0), (32, 24)), ((32, 24), (0, 24)), ((0, 24), (0, 0))]
            )
        ]
        level = {"id": "L2", "name": "Upper floor", "elevation": 10, "walls": walls}
        level |= {"openings": [], "fixtures": [], "devices": [], "rooms": []}
        level["rooms"].append({"id": "loft", "name": "Loft", "use": "loft", "at": [16, 12]})
        self.value["levels"].append(level | fields)
        return self

    def practice(self, **values):
        """Override design values; a double underscore stands for the dot."""
        self.value.setdefault("practice", {}).update({key.replace("__", "."): one for key, one in values.items()})
        return self
