"""What people say of a revision, read from a body: its name, an approval, a withdrawal; each judged with its places."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, TypeVar

from fastapi import Request
from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, StringConstraints, ValidationError

from app.plan.faults import Fault
from app.plan.reading import faults_of
from app.web.bodies import json_of
from app.web.problems import Refusal

_Body = TypeVar("_Body", bound=BaseModel)


def _one_line(text: str) -> str:
    """Refuse letters that no list, sheet or title block shows: controls, line breaks, marks of direction."""
    if any(not letter.isprintable() for letter in text):
        raise ValueError("has a line break or a letter that does not show; take it out")
    return text


def _day(value: Any) -> Any:
    if not isinstance(value, str):
        raise ValueError('write a date as "2026-11-12"')
    return value


def _text(least: int, most: int) -> Any:
    return StringConstraints(strict=True, strip_whitespace=True, min_length=least, max_length=most)


Mark = Annotated[str, _text(1, 8), AfterValidator(_one_line)]
Person = Annotated[str, _text(1, 120), AfterValidator(_one_line)]
Words = Annotated[str, _text(0, 200), AfterValidator(_one_line)]
Reason = Annotated[str, _text(1, 200), AfterValidator(_one_line)]


class _Said(BaseModel):
    model_config = ConfigDict(extra="forbid")


class RevisionName(_Said):
    """A revision's letter or number, what it was issued for, and who named it."""

    mark: Mark
    words: Words = ""
    by: Person


class Approval(_Said):
    """Who approved a revision, and on which day."""

    by: Person
    on: Annotated[date, BeforeValidator(_day)]
    words: Words = ""


class Withdrawal(_Said):
    """Who withdraws an approval, and why."""

    by: Person
    words: Reason


async def said_in(request: Request, kind: type[_Body]) -> _Body:
    """The body as one of these; refused with 422 and the places."""
    value = await json_of(request)
    if not isinstance(value, dict):
        words = f"send a JSON object with {', '.join(kind.model_fields)}"
        raise Refusal(422, words, [Fault("", words)])
    try:
        return kind.model_validate(value)
    except ValidationError as error:
        faults = faults_of(error)
        raise Refusal(422, "; ".join(str(fault) for fault in faults[:3]), faults) from None
