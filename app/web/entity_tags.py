"""Revisions as HTTP says them: ``ETag: "7"``, ``If-Match`` before a change, ``If-None-Match`` before a read."""

from __future__ import annotations

import re

from fastapi import Request

from app.web.problems import Refusal

_TAG = re.compile(r'\s*(?:W/)?"?([^",]*)"?\s*(?:,|$)')


def tag_of(revision: int) -> str:
    """The entity tag of a revision."""
    return f'"{revision}"'


def revision_to_match(request: Request) -> int | None:
    """The revision that a change was made from; None for ``*``: whichever is in force.

    Refused with 428 where the call names none. A tag that no revision bears matches none: 0.
    """
    given = request.headers.get("if-match")
    if given is None:
        raise Refusal(428, 'say which revision the change was made from: If-Match: "<revision>", as its ETag says')
    if given.strip() == "*":
        return None
    tag = given.strip().strip('"')
    return int(tag) if tag.isascii() and tag.isdigit() and len(tag) < 10 else 0


def is_known(request: Request, tag: str) -> bool:
    """Whether the caller holds the answer already."""
    given = request.headers.get("if-none-match", "")
    return tag.strip('"') in {match.group(1) for match in _TAG.finditer(given) if match.group(1)}
