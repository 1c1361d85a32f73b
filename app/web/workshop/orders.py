"""What server and bench process say to each other over a pipe: an order with a plan, a reply with an answer.

A message is a head in JSON and a body of bytes, each with its length before it.
"""

from __future__ import annotations

import struct
from dataclasses import dataclass, field
from typing import Any, Literal

from pydantic_core import from_json, to_json

LENGTHS = struct.Struct(">II")

Work = Literal[
    "check",
    "overlay",
    "trial",
    "trial_touched",
    "picture",
    "sheets",
    "pdf",
    "pulls",
    "pulls_trial",
    "draft",
    "contacts",
    "protection",
    "changes",
    "as_built",
    "handover_file",
    "share_contents",
    "survey",
    "drawn_plan",
]
Outcome = Literal[
    "under way",
    "done",
    "plan wanted",
    "plan refused",
    "drawing refused",
    "level missing",
    "out of memory",
    "out of time",
    "mistake",
]


class LevelMissing(LookupError):
    """The plan has no level of that id."""


@dataclass(frozen=True)
class Order:
    """Work on the plan of that digest, with the work's own arguments; ``has_plan`` where its content comes along.

    Where it ``is_followed``, any number of replies "under way" come before the one that ends it.
    """

    work: Work
    digest: str
    arguments: dict[str, Any] = field(default_factory=dict)
    has_plan: bool = False
    is_followed: bool = False


@dataclass(frozen=True)
class Reply:
    """How the work ended; the message's body is the answer where it is done, else words or faults."""

    outcome: Outcome


def packed(head: Order | Reply, body: bytes = b"") -> bytes:
    """A message as bytes."""
    words = to_json(head)
    return LENGTHS.pack(len(words), len(body)) + words + body


def order_from(words: bytes) -> Order:
    """The order that a message's head says."""
    return Order(**from_json(words))


def reply_from(words: bytes) -> Reply:
    """The reply that a message's head says."""
    return Reply(**from_json(words))
