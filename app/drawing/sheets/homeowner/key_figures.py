"""The proof in a few figures that anybody understands: glass, doors and windows, stay, motion, what is still open."""

from __future__ import annotations

from collections.abc import Iterator

from app.coverage.arming import STATES
from app.drawing.sheets.cover.figures import Figure
from app.drawing.sheets.homeowner.arming import perimeter_of
from app.drawing.sheets.homeowner.choices import choices_of
from app.drawing.sheets.homeowner.findings import accepted_and_open
from app.drawing.sheets.order import Order
from app.plan.measures import area_text

READING = (
    "Plans: every window, door and detector in its place; a tick is glass that one detector hears whole, hatched bars "
    "are glass that it does not.",
    "Notes: what stay and away guard, each opening by room, what is still to be chosen, and where you sign.",
    "Ask about whatever is not clear before the walls are closed.",
)


def key_figures(order: Order) -> Iterator[Figure]:
    """The figures, the proof of the glass first."""
    summary, edge = order.check["summary"], perimeter_of(order.house, order.check["panes"])
    if summary["panes"]:
        yield Figure(f"{summary['covered']} of {summary['panes']}", "panes of glass are heard whole by one detector")
    opens = len(edge.guarded) + len(edge.bare)
    if opens:
        yield Figure(f"{len(edge.guarded)} of {opens}", "outer doors and windows that open have a contact")
    watches = [watch for level in order.openings.values() for watch in level if watch.is_way]
    for state in STATES:
        told = sum(watch.state(state) != "nothing" for watch in watches)
        if watches:
            yield Figure(f"{told} of {len(watches)}", f"ways in are told of when the house is armed {state}")
    yield from _motion(order)
    yield from _still_open(order)


def _motion(order: Order) -> Iterator[Figure]:
    rooms = [room for level in order.rooms.values() for room in level]
    seen = [room for room in rooms if room.motions]
    if seen:
        floor = area_text(sum(room.lost_in_stay for room in seen), order.house.plan.units)
        yield Figure(f"{len(seen)} of {len(rooms)}", f"rooms are watched for motion in away, {floor} of floor")


def _still_open(order: Order) -> Iterator[Figure]:
    summary, accepted = order.check["summary"], accepted_and_open(order)[0]
    more = f", {summary['should']} more should be" if summary["should"] else ""
    yield Figure(str(summary["must"]), f"{'finding' if summary['must'] == 1 else 'findings'} must be mended{more}")
    if accepted:
        yield Figure(str(len(accepted)), "accepted as it is, with a reason and a name")
    count = len(choices_of(order))
    yield Figure(str(count), f"{'choice' if count == 1 else 'choices'} still to be made")
