"""The plan file, ``studbay-plan/1``, as pydantic models: what may be said, and in what bounds.

Lengths are decimal feet, angles degrees counter-clockwise from east, y runs north, z is above the level's floor.
What one thing says of another (an opening of its wall, an id of a second thing) is judged in ``integrity``.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import cached_property
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints, model_validator

from app.plan.practice import Practice, flatten

FORMAT = "studbay-plan/1"
FARTHEST = 10_000.0
SHORTEST_WALL = 0.01
MOST_CORNERS = 500

_ID = r"^[A-Za-z0-9._-]{1,40}$"


def _plain(text: str) -> str:
    """Refuse control characters, which no label, sheet or schedule can show."""
    if any((ord(letter) < 32 and letter not in "\n\t") or ord(letter) == 127 for letter in text):
        raise ValueError("has a control character; take it out")
    return text


def _number(
    *, ge: float | None = None, gt: float | None = None, le: float | None = None, lt: float | None = None
) -> Any:
    return Field(strict=True, allow_inf_nan=False, ge=ge, gt=gt, le=le, lt=lt)


def _or_none_of_them(value: Any) -> Any:
    """A list that is null, as a device's other fields may be, holds nothing."""
    return () if value is None else value


def _whole(value: Any) -> Any:
    """JSON knows no whole numbers: 2.0 says 2."""
    return int(value) if isinstance(value, float) and value.is_integer() else value


Id = Annotated[str, StringConstraints(strict=True, pattern=_ID)]
Name = Annotated[str, StringConstraints(strict=True, min_length=1, max_length=120), AfterValidator(_plain)]
Label = Annotated[str, StringConstraints(strict=True, max_length=120), AfterValidator(_plain)]
Note = Annotated[str, StringConstraints(strict=True, max_length=2000), AfterValidator(_plain)]
Word = Annotated[str, StringConstraints(strict=True, min_length=1, max_length=40), AfterValidator(_plain)]
Coordinate = Annotated[float, _number(ge=-FARTHEST, le=FARTHEST)]
Point = tuple[Coordinate, Coordinate]
Height = Annotated[float, _number(ge=0, le=100)]
Length = Annotated[float, _number(gt=0, le=2 * FARTHEST)]
Distance = Annotated[float, _number(ge=0, le=3 * FARTHEST)]
Angle = Annotated[float, _number(ge=-3600, le=3600)]

DeviceKindName = Literal[
    "can",
    "keypad",
    "door_contact",
    "window_contact",
    "overhead_door_contact",
    "motion",
    "glass_break",
    "siren",
    "flood",
    "smoke",
    "other",
]
FixtureKind = Literal["obstruction", "light_switch", "chime", "supply_register", "bed", "outlet"]


class Part(BaseModel):
    """Base of every model of the file: no unknown keys, no change after reading."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Wall(Part):
    """A straight wall: its centreline from ``a`` to ``b``; ``height`` null runs to the ceiling, else a half wall."""

    id: Id
    a: Point
    b: Point
    thickness: Annotated[float, _number(gt=0, le=20)] = 0.375
    height: Annotated[float, _number(gt=0, le=100)] | None = None

    @property
    def length(self) -> float:
        """Length of the centreline in feet."""
        return math.dist(self.a, self.b)

    def along(self, distance: float) -> tuple[float, float]:
        """The point of the centreline ``distance`` feet from ``a``."""
        share = distance / self.length
        return (self.a[0] + share * (self.b[0] - self.a[0]), self.a[1] + share * (self.b[1] - self.a[1]))


class Opening(Part):
    """A window, door or cased opening in a wall; ``offset`` runs from the wall's ``a`` to the nearer jamb."""

    id: Id
    wall: Id
    kind: Literal["window", "door", "cased"]
    offset: Distance
    width: Length
    sill: Height = 0.0
    head: Height = 6.667
    glazed: Annotated[bool, Field(strict=True)] | None = None
    panes: Annotated[int, BeforeValidator(_whole), Field(strict=True, ge=1, le=100)] = 1
    operable: Annotated[bool, Field(strict=True)] | None = None
    hinge: Literal["a", "b"] | None = None
    leaf: Literal["swing", "slide", "overhead", "fixed"] = "swing"
    exterior: Annotated[bool, Field(strict=True)] | None = None

    @property
    def has_glass(self) -> bool:
        """Whether the opening has panes: a window unless it says otherwise, a door that says so."""
        return self.kind == "window" if self.glazed is None else self.glazed

    @property
    def opens(self) -> bool:
        """Whether the opening can be opened: windows and doors unless they say otherwise."""
        if self.operable is None:
            return self.kind != "cased" and self.leaf != "fixed"
        return self.operable

    @property
    def end(self) -> float:
        """Distance from the wall's ``a`` to the farther jamb."""
        return self.offset + self.width


class Fixture(Part):
    """An obstruction (a prism) or a point that rules look at (light switch, chime, register, bed, outlet)."""

    id: Id
    kind: FixtureKind
    polygon: Annotated[tuple[Point, ...], Field(min_length=3, max_length=MOST_CORNERS)] | None = None
    base: Height = 0.0
    top: Height | None = None
    at: Point | None = None
    height: Height | None = None
    label: Label = ""

    @model_validator(mode="after")
    def _one_shape(self) -> Fixture:
        if self.kind == "obstruction":
            if self.polygon is None:
                raise ValueError("an obstruction needs a polygon of three corners or more")
            if self.at is not None:
                raise ValueError("an obstruction has a polygon, not a point: take out at")
            if self.top is not None and self.top <= self.base:
                raise ValueError(f"top {self.top:g} must be above base {self.base:g}")
        elif self.at is None:
            raise ValueError(f"a {self.kind} needs a point: give at")
        elif self.polygon is not None:
            raise ValueError(f"a {self.kind} is a point: take out polygon")
        return self


class Room(Part):
    """A room's name and use, pinned by a point inside; its outline is worked out from the walls."""

    id: Id
    name: Label
    use: Word = "other"
    at: Point


class Device(Part):
    """A device; each null field is taken from the practice."""

    id: Id
    kind: DeviceKindName
    at: Point
    height: Height | None = None
    facing: Angle | None = None
    mount: Word | None = None
    serves: Annotated[tuple[Id, ...], BeforeValidator(_or_none_of_them), Field(max_length=200)] = ()
    range: Annotated[float, _number(gt=0, le=1000)] | None = None
    view_angle: Annotated[float, _number(gt=0, le=360)] | None = None
    cable: Annotated[str, StringConstraints(strict=True, max_length=40), AfterValidator(_plain)] | None = None
    label: Label | None = None
    note: Note | None = None


class Riser(Part):
    """Where cable may pass between two levels."""

    model_config = ConfigDict(extra="forbid", frozen=True, validate_by_name=True, validate_by_alias=True)

    id: Id
    at: Point
    from_level: Annotated[Id, Field(alias="from")]
    to_level: Annotated[Id, Field(alias="to")]


class Level(Part):
    """One storey; ``elevation`` is its finished floor above the plan's datum, ``ceiling`` the ceiling's height."""

    id: Id
    name: Name
    elevation: Annotated[float, _number(ge=-1000, le=1000)] = 0.0
    ceiling: Annotated[float, _number(gt=0, le=100)] = 9.0
    walls: tuple[Wall, ...] = ()
    openings: tuple[Opening, ...] = ()
    fixtures: tuple[Fixture, ...] = ()
    rooms: tuple[Room, ...] = ()
    devices: tuple[Device, ...] = ()

    def things(self) -> Iterator[tuple[str, Wall | Opening | Fixture | Room | Device]]:
        """Everything on the level with its place in it (``walls[3]``)."""
        for family in ("walls", "openings", "fixtures", "rooms", "devices"):
            for index, thing in enumerate(getattr(self, family)):
                yield f"{family}[{index}]", thing

    @cached_property
    def wall_by_id(self) -> dict[str, Wall]:
        """The walls by their ids."""
        return {wall.id: wall for wall in self.walls}


class Site(Part):
    """Free text about the job."""

    client: Note = ""
    address: Note = ""
    designer: Note = ""
    notes: Note = ""


class Plan(Part):
    """A whole plan file."""

    format: Literal["studbay-plan/1"]
    name: Name
    units: Literal["imperial", "metric"] = "imperial"
    site: Site = Site()
    levels: Annotated[tuple[Level, ...], Field(min_length=1, max_length=20)]
    risers: tuple[Riser, ...] = ()
    practice: Annotated[
        dict[str, Any],
        BeforeValidator(lambda value: flatten(value) if isinstance(value, dict) else value),
    ] = {}

    @cached_property
    def practice_in_force(self) -> Practice:
        """The design values under this plan's overrides."""
        return Practice(self.practice)

    def level(self, level_id: str) -> Level | None:
        """The level of that id, or None."""
        return next((level for level in self.levels if level.id == level_id), None)

    def count_of_things(self) -> int:
        """How many things the plan holds, over all kinds."""
        inside = sum(
            len(level.walls) + len(level.openings) + len(level.fixtures) + len(level.rooms) + len(level.devices)
            for level in self.levels
        )
        return inside + len(self.levels) + len(self.risers)
