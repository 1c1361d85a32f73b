"""The printed set by HTTP: as a page, as a PDF at once, and as a PDF that tells how far it is and can be stopped."""

from __future__ import annotations

import asyncio
from base64 import b64encode
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import HTMLResponse, Response
from pydantic import BaseModel
from pydantic_core import from_json

from app.drawing.sheets.paper.habits import HABITS
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.paper.scales import AUTOMATIC, SCALES
from app.drawing.sheets.sets import HOMEOWNER, SETS
from app.storage.as_built import AsBuiltStore
from app.storage.history import History
from app.storage.letterheads import LetterheadStore
from app.storage.plans import Head
from app.storage.underlays import UnderlayStore
from app.web.answers import described, of_type, refusals
from app.web.prints import Print, Prints, Progress
from app.web.problems import Refusal
from app.web.revision_words import printed_revision
from app.web.routes.pages import refuse_unknown
from app.web.routes.plans import PlanId
from app.web.serving import json_answer, store_of, work_on, workshop_of
from app.web.templates import page

PDF = "application/pdf"
UNDERLAYS = {"": "not printed", "faded": "printed, faded"}
router = APIRouter(tags=["sheets"])
pages = APIRouter(include_in_schema=False)


class PrintAnswer(BaseModel):
    """How far a set is; ``words`` say what is drawn now or why it failed, ``lacking`` which letters print as a mark."""

    id: str
    state: Literal["under way", "done", "stopped", "failed"]
    done: int
    count: int
    words: str
    lacking: list[str]
    file: str | None


@dataclass(frozen=True)
class Choices:
    """What can be chosen of a set; empty is the usual, no ``revision`` the one in force."""

    readers: str
    paper: str
    scale: str
    habit: str
    revision: int | None
    underlays: str


def choices_of(
    request: Request,
    plan_id: PlanId,
    readers: Annotated[str, Query(alias="set", description="who it is for")] = HOMEOWNER,
    paper: Annotated[str, Query(description="such as letter or a3; none is the habit's")] = "",
    scale: Annotated[str, Query(description="such as 1/4 or 1:50; auto is the largest that fits")] = AUTOMATIC,
    habit: Annotated[str, Query(description="us or iso; none is that of the plan's units")] = "",
    revision: Annotated[int | None, Query(ge=1, le=2**31 - 1, description="a stored revision's number")] = None,
    underlays: Annotated[str, Query(description="faded: the pictures under levels print beneath their plans")] = "",
) -> Choices:
    """The choices of an address, else the plan's own habit of print; refused with 422 where one is not known."""
    given, own = request.query_params, LetterheadStore(store_of(request).engine).of(plan_id)[1].habit
    readers = own.set if "set" not in given and own.set in SETS else readers
    scale = own.scale if "scale" not in given and own.scale in SCALES else scale
    paper = own.paper if not paper and own.paper in PAPERS else paper
    refuse_unknown("set", readers, SETS)
    refuse_unknown("paper", paper, ("", *PAPERS))
    refuse_unknown("scale", scale, (AUTOMATIC, *SCALES))
    refuse_unknown("habit", habit, ("", *HABITS))
    refuse_unknown("underlays", underlays, UNDERLAYS)
    return Choices(readers, paper, scale, habit, revision, underlays)


Chosen = Annotated[Choices, Depends(choices_of)]


@pages.get("/plans/{plan_id}/sheet", response_class=HTMLResponse)
async def show_sheets(request: Request, plan_id: PlanId, chosen: Chosen) -> HTMLResponse:
    """A printed set of a plan at true scale, for the homeowner or for the crew."""
    head, arguments = await _printed(request, plan_id, chosen)
    answer = await work_on(request, head, "sheets", arguments)
    laid = await asyncio.to_thread(UnderlayStore(store_of(request).engine).of, plan_id)
    return page(
        "sheet.html",
        plan_id=plan_id,
        revision=chosen.revision,
        underlays=chosen.underlays,
        ways=UNDERLAYS if any(each.placement.shown for each in laid) else {},
        **from_json(answer),
    )


@pages.get("/plans/{plan_id}/sheets.pdf")
async def send_pdf(request: Request, plan_id: PlanId, chosen: Chosen) -> Response:
    """The same set as a PDF file."""
    head, arguments = await _printed(request, plan_id, chosen)
    answer = await work_on(request, head, "pdf", arguments)
    return _file(answer, _file_name(plan_id, chosen))


@router.post(
    "/api/plans/{plan_id}/prints",
    status_code=202,
    responses=described(202, PrintAnswer, "the set is being made; its Location tells how far it is")
    | refusals(404, 422, 503),
)
async def start_print(request: Request, plan_id: PlanId, chosen: Chosen) -> Response:
    """Begin to make a set as a PDF."""
    head, arguments = await _printed(request, plan_id, chosen)

    async def work(told: Callable[[Progress], None]) -> bytes:
        async def content() -> bytes:
            return (await asyncio.to_thread(store_of(request).revision, head.id, head.revision)).content

        return await workshop_of(request).printed(head.digest, content, arguments, told)

    started = prints_of(request).start(_file_name(plan_id, chosen), work)
    answer = _answer(started, 202)
    answer.headers["Location"] = f"/api/prints/{started.id}"
    return answer


@router.get("/api/prints/{print_id}", responses=described(200, PrintAnswer, "how far the set is") | refusals(404))
async def follow_print(request: Request, print_id: str) -> Response:
    """Read how far a set is."""
    return _answer(prints_of(request).of(print_id))


@router.delete("/api/prints/{print_id}", responses=described(200, PrintAnswer, "stopped") | refusals(404))
async def stop_print(request: Request, print_id: str) -> Response:
    """Stop a set that is being made, or put away the file of one that is done; nothing of it is left."""
    return _answer(await prints_of(request).stop(print_id))


@router.get("/api/prints/{print_id}/file", responses=of_type(PDF, "the PDF, whole") | refusals(404, 409))
async def send_print(request: Request, print_id: str) -> Response:
    """Send the PDF of a set that is done."""
    found = prints_of(request).of(print_id)
    if found.state != "done":
        raise Refusal(409, f"the set is {found.state}; there is no file of it")
    return _file(found.pdf, found.file_name)


def prints_of(request: Request) -> Prints:
    """The sets in the making."""
    prints: Prints = request.app.state.prints
    return prints


def _answer(found: Print, status: int = 200) -> Response:
    file = f"/api/prints/{found.id}/file" if found.state == "done" else None
    value = PrintAnswer(
        id=found.id,
        state=found.state,
        done=found.done,
        count=found.count,
        words=found.words,
        lacking=found.lacking,
        file=file,
    )
    return json_answer(value.model_dump(), status)


def _file(content: bytes, name: str) -> Response:
    return Response(content, media_type=PDF, headers={"Content-Disposition": f'attachment; filename="{name}"'})


def _file_name(plan_id: str, chosen: Choices) -> str:
    revision = f"-revision-{chosen.revision}" if chosen.revision else ""
    return f"{plan_id}-{chosen.readers}{revision}.pdf"


async def _printed(request: Request, plan_id: str, chosen: Choices) -> tuple[Head, dict[str, Any]]:
    """The revision that is printed, and what the bench is told of the set."""
    head = await asyncio.to_thread(_head, request, plan_id, chosen.revision)
    history = await asyncio.to_thread(History(store_of(request).engine).of, plan_id)
    arguments: dict[str, Any] = {
        "readers": chosen.readers,
        "paper": chosen.paper,
        "scale": chosen.scale,
        "habit": chosen.habit,
        "revision": printed_revision(head, history),
        "saved_at": head.saved.isoformat(),
    }
    _, stationery = await asyncio.to_thread(LetterheadStore(store_of(request).engine).of, plan_id)
    arguments["letterhead"] = list(stationery.letterhead.lines())
    if chosen.underlays:
        arguments["laid"] = await asyncio.to_thread(_laid, request, plan_id)
    built = await asyncio.to_thread(AsBuiltStore(store_of(request).engine).newest, plan_id)
    if built is not None:
        arguments["as_built"] = from_json(built.content)
    return head, arguments


def _laid(request: Request, plan_id: str) -> list[dict[str, Any]]:
    """The pictures under the levels, as the bench takes them."""
    return [
        {
            "level": underlay.level,
            "placement": underlay.placement.model_dump(mode="json"),
            "content": b64encode(content).decode(),
        }
        for underlay, content in UnderlayStore(store_of(request).engine).shown(plan_id)
    ]


def _head(request: Request, plan_id: str, revision: int | None) -> Head:
    """What is known of a revision, of the one in force where none is named."""
    store = store_of(request)
    head = store.head(plan_id)
    if revision is None or revision == head.revision:
        return head
    kept = store.revision(plan_id, revision)
    saved = next(entry.saved for entry in store.revisions(plan_id) if entry.number == revision)
    return replace(head, revision=revision, saved=saved, digest=kept.digest)
