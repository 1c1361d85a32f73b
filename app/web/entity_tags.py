"""Revisions as HTTP says them: ``ETag: "7"``, ``If-Match`` before a change, ``If-None-Match`` before a read."""

from __future__ import annotations

import re

from fastapi import Request

from app.storage.made_from import MadeFrom
from app.web.problems import Refusal

_TAG = re.compile(r'\s*(?:W/)?"?([^",]*)"?\s*(?:,|$)')


def tag_of(revision: int) -> str:
    """The entity tag of a revision."""
    return f'"{revision}"'


def revision_to_match(request: Request) -> MadeFrom:
    """The revision that a change was made from, or any of several; None for ``*``: whichever is in force.

    Refused with 428 where the call names none. A tag that no revision bears, a weak one too, matches none: 0.
    """
    given = ", ".join(request.headers.getlist("if-match"))
    if not given:
        raise Refusal(428, 'say which revision the change was made from: If-Match: "<revision>", as its ETag says')
    tags = {tag.strip() for tag in given.split(",")}
    if "*" in tags:
        return None
    numbers = frozenset(_revision_of(tag.strip('"')) for tag in tags if tag)
    return next(iter(numbers)) if len(numbers) == 1 else numbers


def _revision_of(tag: str) -> int:
    return int(tag) if tag.isascii() and tag.isdigit() and len(tag) < 10 else 0


def is_known(request: Request, tag: str) -> bool:
    """Whether the caller holds the answer already."""
    given = request.headers.get("if-none-match", "")
    return tag.strip('"') in {match.group(1) for match in _TAG.finditer(given) if match.group(1)}
