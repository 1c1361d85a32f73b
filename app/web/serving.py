"""What every route takes from the application: the store, the workshop, and JSON answers."""

from __future__ import annotations

from fastapi import Request
from fastapi.responses import Response

from app.storage.plans import PlanStore
from app.web.workbench import as_json
from app.web.workshop import Workshop

JSON = "application/json"


def store_of(request: Request) -> PlanStore:
    """The store of plans."""
    store: PlanStore = request.app.state.store
    return store


def workshop_of(request: Request) -> Workshop:
    """Where heavy work is done."""
    workshop: Workshop = request.app.state.workshop
    return workshop


def json_answer(value: object, status: int = 200) -> Response:
    """A JSON answer."""
    return Response(as_json(value), status_code=status, media_type=JSON)
