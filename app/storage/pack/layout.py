"""How a pack is laid out, format ``studbay-pack/1``: a zip file with these names in it, and nothing else.

``manifest.json`` (``Manifest``), and for each plan ``plans/ID/plan.json`` (``PackedPlan``) with
``plans/ID/revisions/N.json`` (the plan file as it was saved, byte for byte), ``plans/ID/as-built/N.json`` and
``plans/ID/pictures/DIGEST`` beside it; for each template ``templates/ID.json`` (``PackedTemplate``).
"""

from __future__ import annotations

import re
from datetime import date, datetime
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, StringConstraints

from app.plan.letterhead import Stationery
from app.plan.placement import Digest, Placement

FORMAT = "studbay-pack/1"
MANIFEST = "manifest.json"

Number = Annotated[int, Field(strict=True, ge=1, le=2**31 - 1)]


def _zoned(when: datetime) -> datetime:
    if when.tzinfo is None:
        raise ValueError("a time needs its zone, such as 2026-11-12T10:20:30Z")
    return when


def _no_dots(name: str) -> str:
    if not name.strip("."):
        raise ValueError("is no id")
    return name


def _text(most: int) -> Any:
    return StringConstraints(strict=True, max_length=most)


Id = Annotated[str, StringConstraints(strict=True, pattern=r"^[A-Za-z0-9._-]{1,40}$"), AfterValidator(_no_dots)]
Moment = Annotated[datetime, AfterValidator(_zoned)]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True)


class Manifest(_Part):
    """What a pack says of itself: when it was made, and which plans and templates are in it."""

    format: Literal["studbay-pack/1"]
    made: Moment
    plans: Annotated[tuple[Id, ...], Field(max_length=20_000)]
    templates: Annotated[tuple[Id, ...], Field(max_length=2_000)]


class PackedRevision(_Part):
    """A revision; its content is a file of its own."""

    number: Number
    name: Annotated[str, _text(120)]
    saved: Moment
    things: Annotated[int, Field(strict=True, ge=0)]
    digest: Digest


class PackedEntry(_Part):
    """A saying of the plan's history."""

    turn: Number
    number: Number
    what: Literal["named", "approved", "withdrawn"]
    mark: Annotated[str, _text(8)]
    words: Annotated[str, _text(200)]
    person: Annotated[str, _text(120)]
    day: date | None
    recorded: Moment
    digest: Digest


class PackedRecord(_Part):
    """An edition of what was built; its content is a file of its own."""

    edition: Number
    number: Number
    saved: Moment
    entries: Annotated[int, Field(strict=True, ge=0)]
    digest: Digest


class PackedPicture(_Part):
    """A picture that lies under a level; its bytes are a file of its own."""

    digest: Digest
    name: Annotated[str, _text(120)]
    media: Literal["image/png", "image/jpeg"]
    width: Number
    height: Number
    per_inch: float | None
    kept: Moment


class PackedUnderlay(_Part):
    """How a picture lies under a level."""

    level: Annotated[str, _text(40)]
    edition: Number
    placement: Placement


class PackedLetterhead(_Part):
    """The letterhead and print habit that the plan has taken."""

    edition: Number
    stationery: Stationery


class PackedPlan(_Part):
    """A plan with its whole history; ``removed`` says when it was taken out of use."""

    id: Id
    name: Annotated[str, _text(120)]
    revision: Number
    updated: Moment
    removed: Moment | None
    revisions: Annotated[tuple[PackedRevision, ...], Field(min_length=1)]
    history: tuple[PackedEntry, ...] = ()
    as_built: tuple[PackedRecord, ...] = ()
    pictures: tuple[PackedPicture, ...] = ()
    underlays: tuple[PackedUnderlay, ...] = ()
    letterhead: PackedLetterhead | None = None

    def revision_file(self, number: int) -> str:
        """The name of a revision's content."""
        return f"plans/{self.id}/revisions/{number}.json"

    def record_file(self, edition: int) -> str:
        """The name of the content of an edition of what was built."""
        return f"plans/{self.id}/as-built/{edition}.json"

    def picture_file(self, digest: str) -> str:
        """The name of a picture's bytes."""
        return f"plans/{self.id}/pictures/{digest}"

    def files(self) -> set[str]:
        """The name of every file that belongs to the plan, ``plan.json`` among them."""
        return {
            plan_file(self.id),
            *(self.revision_file(each.number) for each in self.revisions),
            *(self.record_file(each.edition) for each in self.as_built),
            *(self.picture_file(each.digest) for each in self.pictures),
        }


class PackedTemplate(_Part):
    """A practice template; ``template`` as the API has it."""

    id: Id
    edition: Number
    saved: Moment
    template: dict[str, Any]


def plan_file(plan_id: str) -> str:
    """The name of what a pack says of a plan."""
    return f"plans/{plan_id}/plan.json"


def template_file(template_id: str) -> str:
    """The name of a template."""
    return f"templates/{template_id}.json"


FIT_NAME = re.compile(
    r"manifest\.json|templates/[A-Za-z0-9._-]{1,40}\.json"
    r"|plans/[A-Za-z0-9._-]{1,40}/(plan\.json|(revisions|as-built)/[1-9][0-9]{0,9}\.json|pictures/[0-9a-f]{64})"
)
