"""The share page put together: plans, proof and tables in one HTML file that asks nothing of any other machine.

Its one style and one script are named by their hashes in its own security policy, so that nothing else can run in it.
"""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Collection
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from app.documents.plan_answers import CONFIDENTIAL, Edition, PlanAnswers
from app.documents.share.leaving_out import LEAVABLE, NAMES, NOTES, tables_without
from app.documents.share.pictures import anchor, pictures_of
from app.documents.tables.table import Column, Table
from app.drawing.pane_marks import STATUS_WORDS

NAMELESS = "Security plan"
_SENTENCE = 34  # letters: a longer cell is one to be read
_FOLDER = Path(__file__).parent
_IN_FULL = {"devices", "panes", "openings", "pulls", "findings", "feeds"}  # whose rows a tap shows whole
_pages = Environment(
    loader=FileSystemLoader(_FOLDER), autoescape=True, undefined=StrictUndefined, trim_blocks=True, lstrip_blocks=True
)


def share_page(answers: PlanAnswers, edition: Edition, left_out: Collection[str] = ()) -> bytes:
    """The page as UTF-8; ``left_out`` are keys of ``LEAVABLE``.

    Raises ``ValueError`` with a sentence that says what can be left out.
    """
    unknown = [choice for choice in left_out if choice not in LEAVABLE]
    if unknown:
        raise ValueError(f"leave_out: {unknown[0][:40]!r} is none of {', '.join(LEAVABLE)}")
    style, script = _part("share.css"), _part("share.js")
    site, named = answers.plan.site, NAMES not in left_out
    tables = tables_without(answers, left_out)
    page = _pages.get_template("share.html").render(
        policy=_policy(style, script),
        style=Markup(style),
        script=Markup(script),
        name=answers.plan.name if named else NAMELESS,
        site=[
            (word, text)
            for word, text in (("Client", site.client), ("Address", site.address), ("Designer", site.designer))
            if named and text.strip()
        ],
        notes="" if NOTES in left_out else site.notes.strip(),
        edition=edition.words,
        confidential=CONFIDENTIAL,
        summary=_summary(answers),
        pictures=[(picture, Markup(picture.svg)) for picture in pictures_of(answers)],
        levels=[(level.id, level.name) for level in answers.plan.levels],
        tables=_with_anchors(tables),
        left_out=[LEAVABLE[choice] for choice in LEAVABLE if choice in left_out],
    )
    return page.encode()


@cache
def _part(name: str) -> str:
    return (_FOLDER / name).read_text(encoding="utf-8")


def _policy(style: str, script: str) -> str:
    """Nothing is fetched, nothing is sent, and only this style and this script are the page's own."""
    return "; ".join(
        (
            "default-src 'none'",
            f"style-src '{_hash(style)}'",
            f"script-src '{_hash(script)}'",
            "base-uri 'none'",
            "form-action 'none'",
        )
    )


def _hash(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def _summary(answers: PlanAnswers) -> list[tuple[str, str]]:
    """How many panes stand how, each with the word that its mark goes by."""
    counted = answers.check["summary"]
    return [
        (status, f"{counted[status]} of {counted['panes']} panes {words}")
        for status, words in STATUS_WORDS.items()
        if counted[status]
    ]


def _class(column: Column, cells: list[str]) -> Markup:
    """How a column is set: numbers to the right, sentences with room to be read."""
    if column.measure is not None:
        return Markup(' class="amount"')
    return Markup(' class="long"') if any(len(cell) > _SENTENCE for cell in cells) else Markup("")


def _with_anchors(tables: list[Table]) -> list[dict[str, Any]]:
    """The tables as the page shows them; the first row about a thing is where a link to it leads."""
    taken: set[str] = set()
    # Devices, panes and openings come first for the links, wherever their tables stand.
    order = sorted(tables, key=lambda table: table.key not in ("devices", "panes", "openings"))
    shown = {table.key: _table(table, taken) for table in order}
    return [shown[table.key] for table in tables]


def _table(table: Table, taken: set[str]) -> dict[str, Any]:
    rows = []
    for row in table.rows:
        first = row.things[0] if row.things else ""
        is_new = bool(first) and first not in taken
        taken.add(first)
        rows.append(
            {
                "cells": table.shown(row),
                "things": " ".join(row.things),
                "first": first,
                "anchor": anchor(first) if is_new else "",
            }
        )
    return {
        "key": table.key,
        "title": table.title,
        "words": table.words,
        "headings": [column.heading for column in table.columns],
        "classes": [
            _class(column, [row["cells"][place] for row in rows]) for place, column in enumerate(table.columns)
        ],
        "rows": rows,
        "in_full": table.key in _IN_FULL,
    }
