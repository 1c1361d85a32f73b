"""The shapes of bodies and answers, for the published description of the API; nothing is read or written with them."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any, Literal

from pydantic import BaseModel

from app.plan.letterhead import Stationery
from app.plan.model import Device
from app.plan.placement import Placement
from app.plan.template import Template

Described = dict[int | str, dict[str, Any]]


class PlanLine(BaseModel):
    """A line of the list of plans."""

    id: str
    name: str
    revision: int
    updated: datetime


class RemovedLine(BaseModel):
    """A line of the list of removed plans."""

    id: str
    name: str
    revision: int
    removed: datetime


class RevisionLine(BaseModel):
    """A line of a plan's history."""

    revision: int
    name: str
    saved: datetime
    things: int
    mark: str | None
    approved: bool


class ApprovalLine(BaseModel):
    """An approval in force; ``on`` is the day that the client gave."""

    by: str
    on: date | None
    words: str
    recorded: datetime


class NamedRevision(BaseModel):
    """A revision with a name: its ``mark`` is a letter or a number."""

    revision: int
    mark: str
    words: str
    by: str
    named: datetime
    approval: ApprovalLine | None


class HistoryEntry(BaseModel):
    """One saying; ``what`` is named, approved or withdrawn."""

    turn: int
    revision: int
    what: Literal["named", "approved", "withdrawn"]
    mark: str
    words: str
    by: str
    on: date | None
    recorded: datetime


class HistoryAnswer(BaseModel):
    """What was said of a plan's revisions; ``approved`` is the revision approved last, if it is so still."""

    edition: int
    approved: int | None
    revisions: list[NamedRevision]
    entries: list[HistoryEntry]


class StandingAnswer(BaseModel):
    """How the working plan stands to what was approved; ``printed`` is what title blocks say."""

    revision: int
    approved: int | None
    changes: int
    words: str
    printed: str


class ChangeLine(BaseModel):
    """One thing that differs."""

    number: int
    what: Literal["added", "moved", "changed", "renamed", "removed"]
    family: str
    id: str
    was_id: str | None
    name: str
    level: str | None
    was_level: str | None
    words: str
    fields: list[dict[str, str]]
    moved_ft: float


class ChangesAnswer(BaseModel):
    """What differs between two revisions, and what that does."""

    plan: str
    changes: list[ChangeLine]
    summary: dict[str, int]
    words: str
    panes: list[dict[str, Any]]
    coverage: dict[str, dict[str, int]]
    cable: list[dict[str, Any]]
    pulls: list[dict[str, Any]]
    boxes: list[dict[str, Any]]
    zones: dict[str, int]
    battery: list[dict[str, Any]]
    findings: dict[str, list[dict[str, Any]]]
    clouds: list[dict[str, Any]]


class BuiltLine(BaseModel):
    """One device as designed, and how it was built otherwise."""

    device: str
    name: str
    level: str | None
    kind: str | None
    designed: dict[str, Any]
    recorded: bool
    differences: list[dict[str, str]]


class AsBuiltAnswer(BaseModel):
    """An as-built record beside the design; ``revision`` is the plan's that was in force when it was saved."""

    edition: int
    revision: int | None
    saved: datetime | None
    record: dict[str, Any]
    devices: list[BuiltLine]


class UnderlayAnswer(BaseModel):
    """What lies under a level; ``placement`` as it is sent, the size in pixels, ``per_inch`` of a PDF page."""

    level: str
    edition: int
    placement: Placement
    name: str
    media: str
    width: int
    height: int
    per_inch: float | None
    address: str


class LaidAnswer(UnderlayAnswer):
    """The same of a picture that was sent just now: ``read`` is the size that its file had."""

    read: tuple[int, int]


class PageLine(BaseModel):
    """A page of a PDF: its size in inches, and a small picture of it as a data address, or null."""

    number: int
    width: float
    height: float
    thumbnail: str | None


class PagesAnswer(BaseModel):
    """The pages of a PDF that was sent; nothing is stored."""

    pages: list[PageLine]


class TemplateAnswer(BaseModel):
    """A practice template with its id and edition."""

    id: str
    edition: int
    saved: datetime
    template: Template


class LetterheadAnswer(BaseModel):
    """The letterhead and print habit that a plan has taken."""

    edition: int
    stationery: Stationery


class CameAnswer(BaseModel):
    """What became of one thing of a pack: it came in, came in as a copy, or was here already."""

    what: Literal["plan", "template"]
    name: str
    id: str
    how: Literal["in", "copy", "here"]
    revisions: int
    words: str


class SampleLine(BaseModel):
    """A line of the list of samples."""

    id: str
    name: str


class PlanAnswer(BaseModel):
    """A plan with its id and revision; ``plan`` is a plan file (see /api/schema)."""

    id: str
    revision: int
    plan: dict[str, Any]


class Best(BaseModel):
    """The detector that covers most of a pane."""

    device: str
    fraction: float
    farthest_ft: float


class PaneAnswer(BaseModel):
    """How one pane stands."""

    id: str
    opening: str
    level: str
    room: str | None
    area_sqft: float
    status: Literal["covered", "partial", "uncovered"]
    fractions: dict[str, float]
    best: Best | None
    why: str


class RoomAnswer(BaseModel):
    """How a room's floor is watched."""

    id: str
    name: str
    level: str
    area_sqft: float
    motion_fraction: float
    motions: dict[str, float]


class MotionAnswer(BaseModel):
    """What a motion detector watches."""

    id: str
    level: str
    area_sqft: float


class FindingAnswer(BaseModel):
    """A finding of a rule."""

    rule: str
    severity: Literal["must", "should", "note"]
    things: list[str]
    message: str
    source: str


class CheckAnswer(BaseModel):
    """Coverage and findings of a plan."""

    plan: str
    panes: list[PaneAnswer]
    rooms: list[RoomAnswer]
    motions: list[MotionAnswer]
    findings: list[FindingAnswer]
    summary: dict[str, int]


class PullAnswer(BaseModel):
    """One home run; ``route`` and the lengths are null where no can is reached."""

    label: str
    device: str
    level: str
    room: str | None
    cable: str
    route: list[tuple[float, float, float]] | None
    measured_ft: float | None
    cut_ft: float | None


class BoxAnswer(BaseModel):
    """One box to buy and the pulls that come from it."""

    cable: str
    size_ft: float
    pulls: list[str]
    used_ft: float
    left_ft: float


class PullsAnswer(BaseModel):
    """The cable schedule."""

    pulls: list[PullAnswer]
    boxes: list[BoxAnswer]
    totals: dict[str, dict[str, Any]]


class PullsTrialAnswer(BaseModel):
    """The home runs as they would be."""

    pulls: list[PullAnswer]
    bundles: list[dict[str, Any]]


class TrialAnswer(BaseModel):
    """A level as it would be, and its overlay as SVG."""

    panes: list[PaneAnswer]
    overlay: str


class TouchedPieces(BaseModel):
    """SVG text of what a tried device changes in the overlay: panes, marks by status, detectors, and its leaders."""

    panes: dict[str, str]
    marks: dict[str, str]
    reach: dict[str, str]
    motion: dict[str, str]
    leaders: str


class TouchedAnswer(BaseModel):
    """Those panes of a level that would stand otherwise, and the pieces of the overlay that would."""

    panes: list[PaneAnswer]
    overlay: TouchedPieces


class TrialBody(BaseModel):
    """A device on trial; ``scale`` is the screen's pixels a foot."""

    level: str
    device: Device
    scale: float | None = None


class ProblemError(BaseModel):
    """One fault: where, and how to mend it."""

    at: str
    message: str


class Problem(BaseModel):
    """RFC 9457 problem details."""

    type: str
    title: str
    status: int
    detail: str
    errors: list[ProblemError]


_WHY_REFUSED = {
    403: "a foreign Host or Origin, or no access key",
    404: "there is no such thing",
    409: "what is kept forbids it: a revision is locked, or a letter or name is another's",
    412: "another edit came first",
    413: "the body is too large",
    415: "the body is of another kind",
    422: "what is sent cannot be used; errors name each place",
    428: "If-Match is missing",
    503: "too slow or too busy; nothing was changed",
    507: "the disk is full; nothing was changed",
}


def described(status: int, model: Any, words: str) -> Described:
    """The description of an answer."""
    return {status: {"model": model, "description": words}}


def of_type(media_type: str, words: str) -> Described:
    """The description of an answer that is not JSON of ours."""
    return {200: {"content": {media_type: {}}, "description": words}}


def refusals(*statuses: int) -> Described:
    """The descriptions of problem answers."""
    content = {"application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}}
    return {status: {"description": _WHY_REFUSED[status], "content": content} for status in statuses}


def plan_body() -> dict[str, Any]:
    """The description of a body that is a plan file."""
    return _body("Plan")


def file_body(*media_types: str) -> dict[str, Any]:
    """The description of a body that is a file of one of these kinds."""
    binary = {"schema": {"type": "string", "format": "binary"}}
    return {"requestBody": {"required": True, "content": dict.fromkeys(media_types, binary)}}


def trial_body() -> dict[str, Any]:
    """The description of a body that is a trial."""
    return _body("TrialBody")


def said_body(model: str) -> dict[str, Any]:
    """The description of a body of that shape."""
    return _body(model)


def _body(model: str) -> dict[str, Any]:
    schema = {"$ref": f"#/components/schemas/{model}"}
    return {"requestBody": {"required": True, "content": {"application/json": {"schema": schema}}}}
