"""The application: doors outside, routes inside, one store and one workshop."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager
from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from pydantic.json_schema import models_json_schema

from app.drawing.typefaces import FOLDER
from app.plan.as_built import AsBuilt
from app.plan.letterhead import Stationery
from app.plan.model import Plan
from app.plan.placement import Placement
from app.plan.template import Template
from app.storage.heads import Heads
from app.storage.plans import PlanStore
from app.web.answers import Problem, TrialBody
from app.web.doors.access_key import KeyNeeded
from app.web.doors.headers import SafeHeaders
from app.web.doors.hosts import KnownHosts
from app.web.doors.origins import OwnOrigin
from app.web.doors.passes import Passes, Tries
from app.web.drawing_reader import DrawingReader
from app.web.heads import HeadsAnswered
from app.web.history_bodies import Approval, RevisionName, Withdrawal
from app.web.mistakes import ToldMistakes
from app.web.picture_process import PictureReader
from app.web.prints import Prints
from app.web.problems import answer_problems
from app.web.quick_trials import QuickTrials
from app.web.routes import (
    as_built,
    cable,
    changes,
    draft,
    files,
    help,
    history,
    intake,
    live,
    packs,
    pages,
    plans,
    proof,
    protection,
    reference,
    revisions,
    samples,
    sheets,
    templates,
    underlays,
)
from app.web.routes.door import door_of
from app.web.static_files import PackedFiles
from app.web.templates import STATIC
from app.web.workshop.pool import Workshop

# Routes are tried in this order: a drag's come first.
_PARTS = (
    *(proof, cable, plans, revisions, history, changes, as_built, underlays, templates, packs, samples),
    *(protection, draft, sheets, files, intake, reference),
)
API = tuple(part.router for part in _PARTS)
_SHAPES = (Plan, TrialBody, Problem, RevisionName, Approval, Withdrawal, AsBuilt, Placement, Template, Stationery)
PAGES = (pages.router, sheets.pages, changes.pages, intake.pages, help.router)


def create_app(store: PlanStore, hosts: Sequence[str] = (), key: str | None = None) -> FastAPI:
    """The application on a store, served under the loopback names and ``hosts``; ``key`` is asked of everyone."""

    @asynccontextmanager
    async def lifespan(app: FastAPI) -> AsyncIterator[None]:
        starting = asyncio.create_task(app.state.workshop.ready())
        yield
        starting.cancel()
        await app.state.prints.close()
        await app.state.workshop.close()
        await app.state.drawings.close()
        app.state.heads.close()
        store.close()

    app = FastAPI(title="Studbay", version="0.1.0", lifespan=lifespan, docs_url=None, redoc_url=None, openapi_url=None)
    app.state.store = store
    app.state.heads = Heads(store)
    app.state.workshop = Workshop()
    app.state.prints = Prints()
    app.state.pictures = PictureReader()
    app.state.drawings = DrawingReader()
    # First, as opening a page asks for many of them.
    app.mount("/static", PackedFiles(directory=STATIC), name="static")
    app.mount("/fonts", PackedFiles(directory=FOLDER), name="fonts")
    for router in (*API, live.router, *PAGES):
        app.include_router(router)
    answer_problems(app)
    app.add_middleware(QuickTrials)
    app.add_middleware(HeadsAnswered)
    app.add_middleware(ToldMistakes)
    if key is not None:
        passes, tries = Passes(key), Tries()
        app.include_router(door_of(passes, tries))
        app.add_middleware(KeyNeeded, passes=passes, tries=tries)
    app.add_middleware(OwnOrigin)
    app.add_middleware(KnownHosts, names=hosts)
    app.add_middleware(SafeHeaders)
    _describe(app)
    return app


def _describe(app: FastAPI) -> None:
    """Put the shapes of bodies, which the routes read themselves, into the published description."""

    def description() -> dict[str, Any]:
        if app.openapi_schema is None:
            made = get_openapi(title=app.title, version=app.version, description=app.description, routes=app.routes)
            _, shapes = models_json_schema(
                [(shape, "validation") for shape in _SHAPES],
                by_alias=True,
                ref_template="#/components/schemas/{model}",
            )
            made.setdefault("components", {}).setdefault("schemas", {}).update(shapes["$defs"])
            app.openapi_schema = made
        return app.openapi_schema

    app.openapi = description  # type: ignore[method-assign]
