"""The site survey: what is known of the house from its plan, and blanks for what only a visit and the customer tell."""

from __future__ import annotations

from collections.abc import Iterator

from app.coverage.listening import listed
from app.drawing.sheets.documents.sources import NO_CLAIM, STAGES, SURVEY
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.sheets.setting.ruled import Ruled, blanks, ruled_table, writing_lines
from app.plan.measures import area_text
from app.plan.room_uses import use_of

_CONTENTS = (
    "Kind and value of what is kept *",
    "How easily it is sold or disposed of",
    "How easily it is reached",
    "Thefts and robberies before, and how",
    "Danger: to people, from misuse, from surroundings",
    "Damage: vandalism, arson",
)
_BUILDING = (
    "Construction: walls, roof, floors, basement",
    "Openings: windows, doors, rooflights, vents",
    "Occupancy: who is there when, guards, public",
    "Key-holders",
    "Locality, crime, buildings near by, response",
    "Security that is there already",
    "Thefts and robberies before, and how",
    "Local law, fire rules, building work",
    "Security environment",
)
_INFLUENCES = (
    "Inside: water pipes, heating and air, hanging signs, lifts, light, radio, sounds, animals, draughts, storage *",
    "Outside: roads, rail, weather, radio, works near by, wild animals, what will change with time *",
)


def survey_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """Contents, building, influences and the conclusion."""
    yield from setter.heading("Site survey")
    yield from setter.paragraph(
        "Every system starts with a written assessment made with the customer: threats, what is worth taking, the "
        "detection that is needed (a national training centre's best practices)."
    )
    yield from blanks(setter, ("Surveyed by", "On", "Customer present", "Information from"), 2)
    yield setter.space(1.5)
    heads, shares = ("Of the contents", "Found"), (46, 54)
    yield from ruled_table(setter, heads, shares, [Ruled((item, "")) for item in _CONTENTS])
    yield setter.space(2.0)
    known = _known(order)
    rows = [Ruled((item, known.get(item, ""))) for item in _BUILDING]
    yield from ruled_table(setter, ("Of the building", "Found (from the plan where printed)"), shares, rows)
    yield setter.space(2.0)
    yield from ruled_table(setter, ("Influences", "Found"), shares, [Ruled((item, "")) for item in _INFLUENCES])
    yield from setter.heading("Conclusion of the survey")
    yield from blanks(
        setter,
        ("Grade", "Environmental class", "Notification", "Confirmation", "Method of unsetting", "Insurer's word"),
        2,
    )
    yield from writing_lines(setter, 2)
    yield from setter.paragraph(f"{SURVEY}; {STAGES}. {NO_CLAIM}", quiet=True)


def premises_words(order: Order) -> str:
    """The house in two sentences, from its plan."""
    plan, units = order.house.plan, order.house.plan.units
    floor = sum(room["area_sqft"] for room in order.check["rooms"])
    rooms = [room for level in plan.levels for room in level.rooms]
    uses = sorted({use_of(room).replace("_", " ") for room in rooms if use_of(room) != "other"})
    levels = listed([level.name for level in plan.levels])
    words = f"{len(plan.levels)} level{'s' if len(plan.levels) > 1 else ''} ({levels}), {len(rooms)} named rooms, "
    words += f"{area_text(floor, units)} of floor within them."
    return f"{words} Uses: {listed(uses)}." if uses else words


def openings_words(order: Order) -> str:
    """How many outer openings there are, by kind."""
    watches = [watch for level in order.openings.values() for watch in level]
    kinds: list[str] = [watch.opening.kind for watch in watches]
    named = {"window": "window", "door": "door", "cased": "bare opening"}
    found = {words: kinds.count(kind) for kind, words in named.items() if kind in kinds}
    counts = [f"{count} {words}{'' if count == 1 else 's'}" for words, count in found.items()]
    opens = sum(watch.opens for watch in watches)
    if not counts:
        return "no outer opening is on the plan"
    return f"{listed(counts)} to the outside, {opens} of them open; rooflights and vents are not on the plan"


def _known(order: Order) -> dict[str, str]:
    walls = {wall.thickness for level in order.house.plan.levels for wall in level.walls}
    thick = f"walls drawn {order.length(min(walls))} to {order.length(max(walls))} thick; " if walls else ""
    return {
        "Construction: walls, roof, floors, basement": f"{thick}levels on the plan: {len(order.house.plan.levels)}",
        "Openings: windows, doors, rooflights, vents": openings_words(order),
    }
