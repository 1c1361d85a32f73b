"""Files that other programs read, by HTTP: tables, plans as SVG and DXF, and the one page to share."""

from __future__ import annotations

import asyncio
import re
import unicodedata
from collections.abc import Iterable
from typing import Annotated, Any

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import Response
from pydantic import BaseModel

from app.documents.files import CSV, DXF, SHARE, SVG, XLSX, ZIP
from app.documents.plan_svg import PLANS
from app.documents.share.leaving_out import LEAVABLE, NAMES, WHY_ASKED
from app.documents.tables.all_tables import TABLES
from app.drawing.sheets.paper.scales import SCALES
from app.plan.faults import Fault
from app.storage.plans import Head
from app.web.answers import described, of_type, refusals
from app.web.entity_tags import tag_of
from app.web.problems import Refusal
from app.web.routes.cable import BOOK
from app.web.routes.plans import PlanId
from app.web.serving import store_of, stored_answer, work_on

router = APIRouter(tags=["files"])
YES = "yes"
UNNAMED = "security-plan"
LevelId = Annotated[str, Path(description="the level's id")]
_MEDIA = {
    XLSX: BOOK,
    ZIP: "application/zip",
    CSV: "text/csv",
    DXF: "image/vnd.dxf",
    SVG: "image/svg+xml",
    SHARE: "text/html; charset=utf-8",
}


class ShareContents(BaseModel):
    """What the page to share would show, why that is asked about, and what can be left out of it."""

    why: str
    shows: list[str]
    leavable: dict[str, str]


@router.get(
    "/api/plans/{plan_id}/tables.xlsx", responses=of_type(BOOK, "every table, a sheet each") | refusals(404, 503)
)
async def download_workbook(request: Request, plan_id: PlanId) -> Response:
    """Every table of a plan as a workbook."""
    return await _file(request, plan_id, XLSX, "tables")


@router.get(
    "/api/plans/{plan_id}/tables.zip", responses=of_type(_MEDIA[ZIP], "every table as CSV") | refusals(404, 503)
)
async def download_tables(request: Request, plan_id: PlanId) -> Response:
    """Every table of a plan as CSV files."""
    return await _file(request, plan_id, ZIP, "tables")


@router.get(
    "/api/plans/{plan_id}/tables/{table}.csv", responses=of_type("text/csv", "one table") | refusals(404, 422, 503)
)
async def download_table(request: Request, plan_id: PlanId, table: str) -> Response:
    """One table of a plan as CSV, RFC 4180; no text is taken for a formula."""
    _refuse_unknown("table", table, TABLES)
    return await _file(request, plan_id, CSV, table, table=table)


@router.get(
    "/api/plans/{plan_id}/plan.dxf", responses=of_type(_MEDIA[DXF], "the drawing at real size") | refusals(404, 503)
)
async def download_drawing(request: Request, plan_id: PlanId, level: str | None = None) -> Response:
    """All levels as one DXF drawing, or one level at its own coordinates."""
    return await _file(request, plan_id, DXF, f"plan-{level}" if level else "plan", level=level)


@router.get(
    "/api/plans/{plan_id}/levels/{level_id}/plan.svg",
    responses=of_type(_MEDIA[SVG], "the plan at true scale") | refusals(404, 422, 503),
)
async def download_plan(
    request: Request, plan_id: PlanId, level_id: LevelId, shows: str = "proof", scale: str = ""
) -> Response:
    """A level's proof or cable as an SVG file of its own; no scale gives the usual one."""
    _refuse_unknown("shows", shows, PLANS)
    _refuse_unknown("scale", scale, ("", *SCALES))
    named = f"{level_id}-{shows}"
    return await _file(request, plan_id, SVG, named, level=level_id, shows=shows, scale=scale or None)


@router.get(
    "/api/plans/{plan_id}/share",
    responses=described(200, ShareContents, "asked before it is made") | refusals(404, 503),
)
async def tell_share(request: Request, plan_id: PlanId) -> Response:
    """What the page to share shows: to be asked before it leaves the machine."""
    return await stored_answer(request, plan_id, "share_contents")


@router.get(
    "/api/plans/{plan_id}/share.html",
    responses=of_type("text/html", "plans, proof and tables in one offline page") | refusals(404, 422, 503),
)
async def download_share(
    request: Request,
    plan_id: PlanId,
    confirm: str = "",
    leave_out: Annotated[list[str], Query()] = [],  # noqa: B006  a fresh one is made for each call
) -> Response:
    """The page to share; it is made only for a caller who says ``confirm=yes``, knowing what it shows."""
    for choice in leave_out:
        _refuse_unknown("leave_out", choice, LEAVABLE)
    if confirm != YES:
        words = f"give confirm={YES} once you know what the page shows. {WHY_ASKED}"
        raise Refusal(422, f"confirm: {words}", [Fault("confirm", words)])
    return await _file(request, plan_id, SHARE, "" if NAMES in leave_out else "share", left_out=leave_out)


async def _file(request: Request, plan_id: str, form: str, named: str, **choices: Any) -> Response:
    """A file of the revision in force, named by the plan, the revision and what it is."""
    head = await asyncio.to_thread(store_of(request).head, plan_id)
    edition = {"revision": head.revision, "saved_at": head.saved.isoformat()}
    content = await work_on(request, head, "handover_file", {"form": form, **edition, **choices})
    name = file_name(head, named, form)
    headers = {"Content-Disposition": f'attachment; filename="{name}"', "ETag": tag_of(head.revision)}
    return Response(content, media_type=_MEDIA[form], headers=headers)


def file_name(head: Head, named: str, form: str) -> str:
    """Such as ``cobble-court-27-r3-tables.xlsx``; without ``named`` it does not tell the plan's name either."""
    plain = unicodedata.normalize("NFKD", head.name).encode("ascii", "ignore").decode().lower()
    plan = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:60] or head.id
    parts = [plan, f"r{head.revision}", named] if named else [UNNAMED, f"r{head.revision}"]
    return re.sub(r"[^A-Za-z0-9._-]", "-", "-".join(parts)) + f".{form}"


def _refuse_unknown(name: str, given: str, known: Iterable[str]) -> None:
    if given not in known:
        words = f"{given[:40]!r} is not known; give {', '.join(filter(None, known))}"
        raise Refusal(422, f"{name}: {words}", [Fault(name, words)])
