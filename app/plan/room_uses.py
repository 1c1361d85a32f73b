"""What a room's use means to the trade: where people sleep, gather, come in, where air is not conditioned.

A use is a word that people type, so it is read loosely: case, spaces and dashes do not matter.
"""

from __future__ import annotations

from app.plan.model import Room

SLEEPING = frozenset(
    ("bedroom", "main_bedroom", "primary_bedroom", "guest_bedroom", "guest_room", "nursery", "bunk_room")
)
MAIN_BEDROOM = frozenset(("main_bedroom", "primary_bedroom"))
GATHERING = frozenset(
    (
        "great_room",
        "living",
        "living_room",
        "family",
        "family_room",
        "media",
        "media_room",
        "bonus",
        "bonus_room",
        "den",
    )
)
ENTRY = frozenset(("entry", "entry_hall", "foyer", "mudroom", "mud_room", "vestibule"))
KITCHEN_OR_BATH = frozenset(
    ("kitchen", "kitchenette", "bath", "bathroom", "main_bath", "half_bath", "powder", "powder_room", "shower_room")
)
UNCONDITIONED = frozenset(
    ("garage", "attic", "porch", "crawlspace", "crawl_space", "carport", "patio", "shed", "breezeway")
)
FOR_THE_CAN = frozenset(
    ("closet", "utility", "utility_room", "mechanical", "laundry", "storage", "pantry", "basement", "walk_in_closet")
)
STAIR = frozenset(("stair", "stairs", "staircase", "stairway", "stairwell"))


def use_of(room: Room) -> str:
    """A room's use in one spelling: ``Great room`` as ``great_room``."""
    return "_".join(room.use.lower().replace("-", " ").replace("_", " ").split())


def is_main_bedroom(room: Room) -> bool:
    """Whether a room is the main bedroom, by its use, or as a bedroom whose name says so."""
    use = use_of(room)
    if use in MAIN_BEDROOM:
        return True
    return use == "bedroom" and room.name.lower().split()[:1] in (["main"], ["primary"], ["owner's"], ["owners"])


def is_heart(room: Room) -> bool:
    """Whether a room is of the heart of the home: where people gather, or the main bedroom."""
    return use_of(room) in GATHERING or is_main_bedroom(room)
