"""How a stored plan's house is protected, by HTTP: arming states, entry paths, ways in and sound."""

from __future__ import annotations

from typing import Literal

from fastapi import APIRouter, Request
from fastapi.responses import Response
from pydantic import BaseModel, Field

from app.web.answers import described, refusals
from app.web.routes.plans import PlanId
from app.web.serving import stored_answer

router = APIRouter(tags=["proof"])
Point = tuple[float, float]
State = Literal["stay", "away"]
Watched = Literal["at the opening", "inside", "nothing"]


class OpeningStates(BaseModel):
    """What watches an exterior opening; ``gaps`` are the ways through it that nothing at the opening tells."""

    id: str
    level: str
    room: str | None
    kind: str
    segment: tuple[Point, Point]
    opens: bool
    glass: bool
    contacts: list[str]
    listeners: list[str]
    deaf: list[str]
    motions: list[str]
    gaps: list[Literal["opened", "broken", "open"]]
    stay: Watched
    away: Watched


class RoomStates(BaseModel):
    """The devices that watch a room in each state, and the floor that stay leaves unwatched."""

    id: str
    level: str
    name: str
    openings: list[str]
    area_sqft: float
    motion_fraction: float
    stay: list[str]
    away: list[str]
    lost_in_stay_sqft: float


class StayLoses(BaseModel):
    """What a person at home gives up while motion is off."""

    devices: list[str]
    floor_sqft: float
    openings: list[str]
    rooms: list[str]
    words: str


class Leg(BaseModel):
    """The part of a walk on one level; ``before_ft`` were walked on others to get there."""

    level: str
    before_ft: float
    points: list[Point]


class EntryPathAnswer(BaseModel):
    """The walk from an entry door to its nearest keypad; ``followers`` are motions that see it."""

    door: str
    keypad: str
    feet: float
    seconds: float
    delay: float
    in_time: bool
    followers: list[str]
    legs: list[Leg]
    words: str


class StatesAnswer(BaseModel):
    """Stay and away."""

    openings: list[OpeningStates]
    rooms: list[RoomStates]
    stay_loses: StayLoses
    entries: list[EntryPathAnswer]


class NoticeAnswer(BaseModel):
    """Who notices somebody, how, and after how many feet of the walk."""

    device: str
    how: str
    feet: float


class WalkStates(BaseModel):
    """How a walk is noticed in one state."""

    first: NoticeAnswer | None
    second: NoticeAnswer | None
    unseen_ft: float
    notices: list[NoticeAnswer]


class WayInAnswer(BaseModel):
    """The shortest walk from an opening to a bedroom or to the heart of the home."""

    opening: str
    goal: str
    feet: float
    legs: list[Leg]
    gaps: list[str]
    stay: WalkStates
    away: WalkStates


class UnseenAnswer(BaseModel):
    """The walk from an opening that goes on unseen longest, where that is longer than the walk test."""

    opening: str
    state: State
    goal: str
    unseen_ft: float
    words: str
    source: str


class NoWayAnswer(BaseModel):
    """An opening by which nobody comes to any goal."""

    opening: str
    words: str


class SourceHeard(BaseModel):
    """What one source gives at a place; ``through`` names the partitions between."""

    device: str
    feet: float
    loss_db: float
    through: list[str]
    dba: float


class LevelHeard(BaseModel):
    """The level at a bed or in the middle of a room; ``dba`` is null where nothing sounds."""

    thing: str
    level: str
    at: Point
    dba: float | None
    band: Literal["wakes", "heard awake", "faint", "silent"]
    sources: list[SourceHeard] = Field(alias="from")


class Band(BaseModel):
    """A band of levels; ``from_dba`` is null for the lowest."""

    name: str
    from_dba: float | None


class Ring(BaseModel):
    """How far a level reaches in a free field."""

    dba: float
    radius_ft: float


class SounderRings(BaseModel):
    """The rings of one sounder; ``rated_dba`` at the practice's distance."""

    device: str
    level: str
    at: Point
    rated_dba: float
    rings: list[Ring]


class SoundAnswer(BaseModel):
    """Levels at beds and in rooms; ``words`` tell what is assumed."""

    beds: list[LevelHeard]
    rooms: list[LevelHeard]
    bands: list[Band]
    rings: list[SounderRings]
    words: str


class ProtectionAnswer(BaseModel):
    """How a house is protected as a whole."""

    states: StatesAnswer
    ways_in: list[WayInAnswer]
    unseen: list[UnseenAnswer]
    no_way: list[NoWayAnswer]
    sound: SoundAnswer


@router.get(
    "/api/plans/{plan_id}/protection",
    responses=described(200, ProtectionAnswer, "states, entry paths, ways in and sound") | refusals(404, 503),
)
async def protection_of_stored(request: Request, plan_id: PlanId) -> Response:
    """How a stored plan's house is protected: asked for apart from the check, which stays quick."""
    return await stored_answer(request, plan_id, "protection")
