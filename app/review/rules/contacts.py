"""Rules on contacts: every opening that opens has its own, of the right kind, at the opening, and none is looped."""

from __future__ import annotations

import math
from collections.abc import Iterator

from app.plan.model import Device, DeviceKindName, Opening
from app.plan.practice import COMMON_PRACTICE
from app.plan.room_uses import use_of
from app.review.accepted import remark
from app.review.findings import Said, Severity, rule
from app.review.house import CONTACT_KINDS, House, Storey

_LOOPS = "common practice, no source: loops are made at the can, where each opening can still be told apart"


def contact_kind_for(opening: Opening) -> DeviceKindName:
    """The kind of contact that an opening asks for."""
    if opening.kind == "window":
        return "window_contact"
    return "overhead_door_contact" if opening.leaf == "overhead" else "door_contact"


def _contacts(house: House) -> Iterator[tuple[Storey, Device]]:
    for storey in house:
        for contact in storey.devices(*CONTACT_KINDS):
            yield storey, contact


def _openings(house: House) -> dict[str, tuple[Storey, Opening]]:
    return {opening.id: (storey, opening) for storey in house for opening in storey.level.openings}


def _away(storey: Storey, opening: Opening, at: tuple[float, float]) -> float:
    """Distance in plan from a spot to an opening, in feet."""
    wall = storey.level.wall_by_id[opening.wall]
    (ax, ay), (bx, by) = wall.along(opening.offset), wall.along(opening.end)
    square = (bx - ax) ** 2 + (by - ay) ** 2
    share = max(0.0, min(1.0, ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / square))
    return math.hypot(at[0] - ax - share * (bx - ax), at[1] - ay - share * (by - ay))


def _beside(house: House, storey: Storey, contact: Device) -> Opening | None:
    """The nearest opening of the level that a contact stands at."""
    farthest = house.practice.number("contact.farthest")
    near = [(_away(storey, opening, contact.at), opening) for opening in storey.level.openings]
    away, opening = min(near, key=lambda entry: entry[0], default=(math.inf, None))
    return opening if away <= farthest else None


def _has_begun(house: House) -> bool:
    """Whether the designer has begun with the perimeter: a contact, a can or a keypad stands on the plan."""
    return any(storey.devices("can", "keypad", *CONTACT_KINDS) for storey in house)


@rule(
    "contact.missing",
    "must",
    words="Every exterior door and window that opens has a contact; a glass-break detector does not stand in for it.",
    mend="Put a contact on the opening, or say that it does not open.",
    source="UL 1641-2015 15.4.1: where a sound or vibration unit protects an opening that moves, a contact is also "
    "required; 18.1: reachable up to 12 ft",
)
def missing(house: House) -> Iterator[Said]:
    """Operable exterior openings that no contact serves.

    A plan that holds no contact, can or keypad has not begun with its perimeter: there it is a ``should``, since a
    proof of the glass alone must not fail for it. Sills out of reach make it a note.
    """
    grave: Severity = "must" if _has_begun(house) else "should"
    claimed = {
        opening.id
        for storey, contact in _contacts(house)
        if not contact.serves and (opening := _beside(house, storey, contact)) is not None
    }
    reachable = house.practice.number("opening.reachable")
    for storey in house:
        for opening in storey.exterior:
            if not opening.opens or opening.id in house.contacts or opening.id in claimed:
                continue
            high = storey.level.elevation + opening.sill > reachable
            kind = contact_kind_for(opening).replace("_", " ").replace("overhead door", "overhead-door")
            name = storey.name(opening.id)
            reach = (
                f" Its sill is {house.length_text(storey.level.elevation + opening.sill)} up, out of reach unless a "
                "roof lies below."
                if high
                else ""
            )
            yield Said(
                (opening.id,),
                f"{name} opens to the outdoors and has no contact; put a {kind} on it.{reach}",
                "note" if high else grave,
            )


@rule(
    "contact.garage_door",
    "should",
    words="The door between the garage and the house has a contact like an exterior door.",
    mend="Put a door contact on the door to the garage.",
    source="common practice, no source: an overhead door is soon open, and the garage hides who works within",
)
def garage_door(house: House) -> Iterator[Said]:
    """Doors between a garage and another room without a contact; exterior ones are told by ``contact.missing``."""
    for storey in house:
        garages = {
            face for room, face in storey.scene.face_of_room.items() if use_of(storey.room_by_id[room]) == "garage"
        }
        for opening in storey.level.openings if garages else ():
            sides = storey.scene.sides[opening.id]
            inner = opening.kind == "door" and opening.opens and not storey.scene.is_exterior(opening)
            if inner and len(garages & set(sides)) == 1 and opening.id not in house.contacts:
                yield Said(
                    (opening.id,),
                    f"{storey.name(opening.id)} leads from the garage into the house and has no contact; put a door "
                    "contact on it.",
                )


@rule(
    "contact.serves_nothing",
    "should",
    words="Each contact names the opening that it watches.",
    mend="Choose the opening in the contact's serves, or take the contact out.",
    source=COMMON_PRACTICE,
)
def serves_nothing(house: House) -> Iterator[Said]:
    """Contacts without an opening; one that stands at an opening is told which."""
    for storey, contact in _contacts(house):
        if not contact.serves:
            opening = _beside(house, storey, contact)
            hint = f"it stands at {storey.name(opening.id)}: choose that" if opening else "choose one or take it out"
            things = (contact.id, opening.id) if opening else (contact.id,)
            yield Said(things, f"{storey.name(contact.id)} serves no opening; {hint}.")


def _crowd(house: House, contact: Device) -> bool:
    return len(set(contact.serves)) > house.practice.number("zone.most_contacts")


@rule(
    "contact.door_in_loop",
    "should",
    words="A door is never in a loop with another opening.",
    mend="Give the door a contact and a home run of its own.",
    source=_LOOPS,
)
def door_in_loop(house: House) -> Iterator[Said]:
    """Contacts that serve a door together with other openings."""
    openings = _openings(house)
    for storey, contact in _contacts(house):
        served = list(dict.fromkeys(contact.serves))
        doors = [name for name in served if openings[name][1].kind == "door"]
        if len(served) > 1 and doors:
            yield Said(
                (contact.id, *served),
                f"{storey.name(contact.id)} loops {openings[doors[0]][0].name(doors[0])} with "
                f"{len(served) - 1} other opening{'s' if len(served) > 2 else ''}; give the door its own contact and "
                "home run.",
            )


@rule(
    "contact.zone_crowded",
    "should",
    words="At most ten contacts share one zone.",
    mend="Split the openings over more zones.",
    source="CLC/TS 50131-7, per-point indication: not more than ten simple detectors share one",
)
def zone_crowded(house: House) -> Iterator[Said]:
    """Contacts that stand for more openings than may share a zone."""
    for storey, contact in _contacts(house):
        if _crowd(house, contact):
            served = tuple(dict.fromkeys(contact.serves))
            yield Said(
                (contact.id, *served),
                f"{storey.name(contact.id)} puts {len(served)} openings in one zone, most "
                f"{house.practice.number('zone.most_contacts'):g}; split them.",
            )


@rule(
    "contact.serves_many",
    "should",
    words="One contact serves one opening: nothing is looped at the openings.",
    mend="Give each opening its own contact and home run; loop at the can if zones run short.",
    source=_LOOPS,
)
def serves_many(house: House) -> Iterator[Said]:
    """Contacts that serve two or more windows; doors and crowds are told by their own rules."""
    openings = _openings(house)
    for storey, contact in _contacts(house):
        served = list(dict.fromkeys(contact.serves))
        if len(served) < 2 or _crowd(house, contact) or any(openings[name][1].kind == "door" for name in served):
            continue
        yield Said(
            (contact.id, *served),
            f"{storey.name(contact.id)} serves {len(served)} openings in a loop; give each its own contact and home "
            "run, and loop at the can if zones run short.",
        )


@rule(
    "contact.wrong_kind",
    "should",
    words="Doors have door contacts, windows window contacts, overhead doors overhead-door contacts.",
    mend="Change the contact's kind.",
    source=COMMON_PRACTICE,
)
def wrong_kind(house: House) -> Iterator[Said]:
    """Contacts of a kind that their opening does not take; a sliding door takes a window contact too."""
    openings = _openings(house)
    for storey, contact in _contacts(house):
        for served in dict.fromkeys(contact.serves):
            where, opening = openings[served]
            slides = opening.kind == "door" and opening.leaf == "slide" and contact.kind == "window_contact"
            wanted = contact_kind_for(opening)
            if opening.opens and contact.kind != wanted and not slides:
                yield Said(
                    (contact.id, served),
                    f"{storey.name(contact.id)} is a {contact.kind.replace('_', ' ')} on {where.name(served)}; make "
                    f"it a {wanted.replace('_', ' ')}.",
                )


@rule(
    "contact.never_opens",
    "note",
    words="A contact stands on an opening that opens.",
    mend="Take the contact out, or say that the opening opens.",
    source="geometry: a fixed window or a cased opening has no leaf that a contact could tell",
)
def never_opens(house: House) -> Iterator[Said]:
    """Contacts on openings that do not open."""
    openings = _openings(house)
    for storey, contact in _contacts(house):
        for served in dict.fromkeys(contact.serves):
            where, opening = openings[served]
            if not opening.opens:
                yield Said(
                    (contact.id, served),
                    f"{storey.name(contact.id)} serves {where.name(served)}, which does not open; take it out or "
                    "mark the opening operable.",
                )


@rule(
    "contact.away",
    "should",
    words="A contact stands at the opening that it serves.",
    mend="Drag the contact to its opening.",
    source=COMMON_PRACTICE,
)
def away(house: House) -> Iterator[Said]:
    """Contacts farther from an opening of their own level than the practice allows, or on another level."""
    openings = _openings(house)
    farthest = house.practice.number("contact.farthest")
    for storey, contact in _contacts(house):
        if len(set(contact.serves)) != 1:
            continue
        where, opening = openings[contact.serves[0]]
        if where.level.id != storey.level.id:
            words = f"stands on {storey.level.name}, its opening on {where.level.name}"
        elif (apart := _away(where, opening, contact.at)) > farthest:
            words = f"stands {house.length_text(apart)} from {where.name(opening.id)}"
        else:
            continue
        yield Said((contact.id, opening.id), f"{storey.name(contact.id)} {words}; drag it to its opening.")


@rule(
    "contact.plunger_side",
    "should",
    words="A plunger sits in the frame on the hinge side and never touches the door; a press-fit contact sits above "
    "the door or on its latch side, with a magnet let into the door.",
    mend="Move the contact to the other side of the frame, or change its mount.",
    source=COMMON_PRACTICE,
)
def plunger_side(house: House) -> Iterator[Said]:
    """Plungers nearer to the latch than to the hinge, and press-fit contacts at the hinge."""
    openings = _openings(house)
    for storey, contact in _contacts(house):
        mount = (contact.mount or "").lower().replace("_", " ").replace("-", " ")
        if len(contact.serves) != 1 or not ("plunger" in mount or "press fit" in mount):
            continue
        where, opening = openings[contact.serves[0]]
        if opening.hinge is None or opening.kind != "door":
            continue
        wall = where.level.wall_by_id[opening.wall]
        jambs = {"a": wall.along(opening.offset), "b": wall.along(opening.end)}
        to_hinge = math.dist(contact.at, jambs[opening.hinge])
        to_latch = math.dist(contact.at, jambs["b" if opening.hinge == "a" else "a"])
        if "plunger" in mount and to_hinge > to_latch:
            words = "is a plunger on the latch side of"
            mend = "move it to the hinge side, in the frame, clear of the door"
        elif "press fit" in mount and to_hinge < 0.5 * to_latch:
            words, mend = "is a press-fit contact at the hinge of", "move it above the door or to its latch side"
        else:
            continue
        yield Said((contact.id, opening.id), f"{storey.name(contact.id)} {words} {where.name(opening.id)}; {mend}.")


@rule(
    "contact.window_track",
    "should",
    words="A hole in a window's track keeps 6 in from its top and its base, and is drilled only with the window "
    "manufacturer's word.",
    mend="Move the contact along the track or mount it on the surface; keep the manufacturer's word in its note.",
    source="claims-journal article and trade column on liability: a hole in the frame voids the window's warranty; "
    "6 in: common practice, no source",
)
def window_track(house: House) -> Iterator[Said]:
    """Recessed window contacts near the sill or the head, or (as a note) without a word in their note."""
    openings = _openings(house)
    clearance = house.practice.number("contact.track_clearance")
    for storey, contact in _contacts(house):
        if contact.kind != "window_contact" or contact.mount != "recessed" or len(contact.serves) != 1:
            continue
        where, opening = openings[contact.serves[0]]
        height = house.practice.number("window_contact.height") if contact.height is None else contact.height
        near = min(abs(height - opening.sill), abs(opening.head - height))
        if near < clearance - 1e-9:
            yield Said(
                (contact.id, opening.id),
                f"{storey.name(contact.id)} is let into the track {house.length_text(near)} from the end of "
                f"{where.name(opening.id)}, least {house.length_text(clearance)}; move it or mount it on the surface.",
            )
        elif not remark(contact):
            yield Said(
                (contact.id, opening.id),
                f"{storey.name(contact.id)} is let into {where.name(opening.id)}: ask the window's manufacturer in "
                "writing before drilling, and keep the answer in its note.",
                "note",
            )


@rule(
    "contact.hole_unknown",
    "note",
    words="Hole size and depth come from the sensor's own spec sheet before anything is drilled.",
    mend="Take hole size and depth from the spec sheet and write “hole …” in the contact's note.",
    source="common practice, no source; ⅜ in is typical (trade article “How to prewire home security”)",
)
def hole_unknown(house: House) -> Iterator[Said]:
    """Recessed contacts whose note does not speak of their hole, all in one finding."""
    open_ones = [
        contact.id
        for _, contact in _contacts(house)
        if (contact.mount or ("recessed" if contact.kind == "door_contact" else "")) == "recessed"
        and "hole" not in remark(contact).lower()
    ]
    if open_ones:
        count = f"{len(open_ones)} recessed contact{'s have' if len(open_ones) > 1 else ' has'}"
        yield Said(
            tuple(open_ones),
            f"{count} no hole size and depth yet; take them from the spec sheet before drilling and write them in "
            "the note (“hole …”).",
        )
