"""Contacts on every opening outdoors or to the garage that can be opened and that no contact serves yet."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from app.plan.measures import length_text
from app.plan.model import Device, DeviceKindName, Opening
from app.proposal.proposals import Numbering, Proposal, sentence
from app.review.findings import Said
from app.review.house import House, Storey
from app.review.rules.contacts import contact_kind_for, garage_door, missing

_IN_FROM_JAMB = 0.5  # ft: a head contact sits over the latch side of the leaf
_IN_FRAME = 0.1  # ft from the jamb: in the frame
_ABOVE_SILL = 1.0  # ft: where the sash is reached from inside


def propose_contacts(house: House, numbering: Numbering) -> list[Proposal]:
    """A contact for each opening that the rules on missing contacts name, as far as nobody has accepted that."""
    outdoors, garage = _asked(house, "contact.missing", missing), _asked(house, "contact.garage_door", garage_door)
    return [
        _contact(storey, opening, "opens outdoors" if opening.id in outdoors else "opens to the garage", numbering)
        for storey in house
        for opening in storey.level.openings
        if opening.id in outdoors | garage
    ]


def _asked(house: House, rule: str, judge: Callable[[House], Iterator[Said]]) -> set[str]:
    """The openings for which a rule asks for a contact and nobody has accepted that there is none."""
    return {
        said.things[0]
        for said in judge(house)
        if not any(accepted.covers(rule, said.things) for accepted in house.acceptances)
    }


def _contact(storey: Storey, opening: Opening, where: str, numbering: Numbering) -> Proposal:
    kind, along, height, words = _fastening(storey, opening)
    wall = storey.level.wall_by_id[opening.wall]
    x, y = wall.along(min(max(along, opening.offset), opening.end))
    device = Device(
        id=numbering.next(kind),
        kind=kind,
        at=(round(x, 4), round(y, 4)),
        height=None if height is None else round(height, 4),
        serves=(opening.id,),
    )
    reason = f"{sentence(storey.name(opening.id))} {where} and has no contact: {words}."
    return Proposal(storey.level.id, device, reason)


def _fastening(storey: Storey, opening: Opening) -> tuple[DeviceKindName, float, float | None, str]:
    """Kind of contact, feet along the wall, height (None by practice) and where it is fastened, in words."""
    kind = contact_kind_for(opening)
    if kind == "overhead_door_contact":
        return kind, _from_latch(opening, _IN_FRAME), None, "at the track, low beside the jamb"
    if kind == "door_contact" and opening.leaf == "slide":
        return kind, _from_latch(opening, _IN_FRAME), opening.head, "at the jamb where the leaf closes"
    if kind == "door_contact":
        side = "on the latch side" if opening.hinge else "hinge side not given, so check that this is the latch side"
        return kind, _from_latch(opening, _IN_FROM_JAMB), opening.head, f"in the head of the frame, {side}"
    clear = storey.practice.number("contact.track_clearance")
    low, high = opening.sill + clear, opening.head - clear
    height = (opening.sill + opening.head) / 2 if low >= high else min(max(low, opening.sill + _ABOVE_SILL), high)
    text = length_text(height - opening.sill, storey.units)
    return kind, _from_latch(opening, _IN_FRAME), height, f"in the frame {text} above the sill"


def _from_latch(opening: Opening, distance: float) -> float:
    """Feet along the wall of a point ``distance`` in from the latch jamb; the farther jamb where none is hinged."""
    distance = min(distance, opening.width / 2)
    return opening.offset + distance if opening.hinge == "b" else opening.end - distance
