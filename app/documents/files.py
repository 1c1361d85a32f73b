"""Every file that other programs read, by its form: what makes it, and what may be chosen of it.

The command line chooses a form by a file's name, the web by a route; both come here for the bytes.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import Any

from app.documents.csv_files import csv_of, csv_zip
from app.documents.plan_answers import CONFIDENTIAL, Edition, PlanAnswers
from app.documents.plan_svg import plan_svg
from app.documents.share.page import share_page
from app.documents.tables.about import about
from app.documents.tables.all_tables import TABLES, all_tables
from app.documents.workbook import workbook_of

XLSX, ZIP, CSV, DXF, SVG, SHARE = "xlsx", "zip", "csv", "dxf", "svg", "html"


def file_of(answers: PlanAnswers, edition: Edition, form: str, **choices: Any) -> bytes:
    """A file's bytes; ``form`` is a key of ``FORMS``, ``choices`` are its maker's own.

    Raises as the makers do: ``KeyError`` for a level, table, plan or scale that is not there, ``ValueError`` for
    something that cannot be left out.
    """
    return FORMS[form](answers, edition, **choices)


def cable_workbook(answers: PlanAnswers) -> bytes:
    """The cable schedule alone as a workbook: pulls, boxes and totals."""
    tables = [TABLES[key](answers) for key in ("pulls", "boxes", "totals")]
    return workbook_of(tables, title=answers.plan.name, words="Cable schedule")


def _workbook(answers: PlanAnswers, edition: Edition) -> bytes:
    tables = all_tables(answers)
    return workbook_of([about(answers, edition, tables), *tables], title=answers.plan.name, words=_words(edition))


def _csv_zip(answers: PlanAnswers, edition: Edition) -> bytes:
    return csv_zip(all_tables(answers), title=answers.plan.name, words=_words(edition))


def _csv(answers: PlanAnswers, _edition: Edition, *, table: str) -> bytes:
    return csv_of(TABLES[table](answers))


def _dxf(answers: PlanAnswers, edition: Edition, *, level: str | None = None) -> bytes:
    # The library of drawings takes a third of a second to load, which every other file does without.
    from app.documents.dxf.drawing import plan_dxf

    return plan_dxf(answers, edition, level)


def _svg(
    answers: PlanAnswers, edition: Edition, *, level: str, shows: str = "proof", scale: str | None = None
) -> bytes:
    return plan_svg(answers, edition, level, shows, scale)


def _share(answers: PlanAnswers, edition: Edition, *, left_out: Collection[str] = ()) -> bytes:
    return share_page(answers, edition, left_out)


def _words(edition: Edition) -> str:
    return f"{edition.words}. {CONFIDENTIAL}."


FORMS: Mapping[str, Callable[..., bytes]] = {
    XLSX: _workbook,
    ZIP: _csv_zip,
    CSV: _csv,
    DXF: _dxf,
    SVG: _svg,
    SHARE: _share,
}
