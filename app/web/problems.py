"""Every refusal as RFC 9457 ``application/problem+json``: what is wrong, where, and how to mend it.

A person whose browser asks for a page gets the same words as a page.
"""

from __future__ import annotations

import logging
from collections.abc import Mapping, Sequence
from http import HTTPStatus

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import Response
from pydantic_core import to_json
from starlette.exceptions import HTTPException
from starlette.requests import HTTPConnection
from starlette.routing import BaseRoute, Match, Mount

from app.plan.faults import Fault, PlanRefused
from app.storage.troubles import (
    EditedMeanwhile,
    HistoryForbids,
    PackRefused,
    PlanMissing,
    StoreBusy,
    StoreDamaged,
    StoreForbids,
    StoreFull,
    StoreRefused,
    StoreTrouble,
)
from app.web.templates import page
from app.web.workshop.pool import WorkRefused

PROBLEM = "application/problem+json"
_METHODS = ("DELETE", "GET", "OPTIONS", "PATCH", "POST", "PUT")
_log = logging.getLogger("studbay")

_STATUS_OF_TROUBLE: dict[type[StoreTrouble], int] = {
    PlanMissing: 404,
    EditedMeanwhile: 412,
    HistoryForbids: 409,
    StoreForbids: 409,
    PackRefused: 422,
    StoreFull: 507,
    StoreBusy: 503,
    StoreDamaged: 500,
    StoreRefused: 500,
    StoreTrouble: 500,
}


class Refusal(Exception):
    """A call that is refused: its status, what is wrong, and the faults behind it."""

    def __init__(
        self, status: int, detail: str, faults: Sequence[Fault] = (), headers: Mapping[str, str] | None = None
    ) -> None:
        super().__init__(detail)
        self.status = status
        self.detail = detail
        self.faults = tuple(faults)
        self.headers = dict(headers or {})


REFUSALS = (Refusal, PlanRefused, StoreTrouble, WorkRefused)  # every error that refuses a call


def problem(
    status: int,
    detail: str,
    faults: Sequence[Fault] = (),
    headers: Mapping[str, str] | None = None,
    **more: object,
) -> Response:
    """A problem answer; ``more`` are extra members of it."""
    body = {
        "type": "about:blank",
        "title": HTTPStatus(status).phrase,
        "status": status,
        "detail": detail,
        "errors": [{"at": fault.at, "message": fault.message} for fault in faults],
        **more,
    }
    return Response(to_json(body), status_code=status, media_type=PROBLEM, headers=dict(headers or {}))


def refused(request: HTTPConnection, error: Refusal | PlanRefused | StoreTrouble | WorkRefused) -> Response:
    """The answer to a call that this error refuses."""
    if isinstance(error, Refusal):
        return _shown(request, error.status, error.detail, error.faults, error.headers)
    if isinstance(error, PlanRefused):
        count = len(error.faults)
        detail = "the plan cannot be used: " + (str(error.faults[0]) if count == 1 else f"{count} faults")
        return _shown(request, 413 if error.too_large else 422, detail, error.faults)
    if isinstance(error, WorkRefused):
        return _shown(request, error.status, str(error), headers={"Retry-After": "5"} if error.status == 503 else {})
    status = next(status for kind, status in _STATUS_OF_TROUBLE.items() if isinstance(error, kind))
    if status == 500:
        _log.error("%s", error)
    return _shown(
        request,
        status,
        str(error),
        headers={"ETag": f'"{error.revision}"'} if isinstance(error, EditedMeanwhile) else {},
    )


def answer_problems(app: FastAPI) -> None:
    """Make every error of the app's routes a problem answer, or a page for a person."""

    async def refused_here(request: Request, error: Exception) -> Response:
        assert isinstance(error, REFUSALS)
        return refused(request, error)

    async def http_error(request: Request, error: Exception) -> Response:
        assert isinstance(error, HTTPException)
        detail = {
            404: f"there is nothing at {request.url.path}",
            405: f"{request.method} is not answered at {request.url.path}; see Allow",
        }.get(error.status_code, str(error.detail))
        headers = {"Allow": _allowed(request)} if error.status_code == 405 else error.headers
        return _shown(request, error.status_code, detail, headers=headers)

    async def arguments(_request: Request, error: Exception) -> Response:
        assert isinstance(error, RequestValidationError)
        faults = [
            Fault(".".join(str(step) for step in entry["loc"]), str(entry["msg"])[:200]) for entry in error.errors()
        ]
        return problem(422, "the address or its arguments cannot be used", faults)

    for kind in REFUSALS:
        app.add_exception_handler(kind, refused_here)
    app.add_exception_handler(HTTPException, http_error)
    app.add_exception_handler(RequestValidationError, arguments)


def _allowed(request: Request) -> str:
    """Every method that is answered at the call's path, whichever routes answer them (RFC 9110 §10.2.1)."""
    plain = dict(request.scope, root_path=request.scope.get("app_root_path", ""))

    def answers(route: BaseRoute, method: str) -> bool:
        if isinstance(route, Mount) and method != "GET":
            return False  # a folder of files
        return route.matches(dict(plain, method=method))[0] is Match.FULL

    found = [method for method in _METHODS if any(answers(route, method) for route in request.app.routes)]
    return ", ".join(sorted([*found, "HEAD"] if "GET" in found else found))


def _shown(
    request: HTTPConnection,
    status: int,
    detail: str,
    faults: Sequence[Fault] = (),
    headers: Mapping[str, str] | None = None,
) -> Response:
    wants_page = "text/html" in request.headers.get("accept", "") and not request.url.path.startswith("/api/")
    if not wants_page:
        return problem(status, detail, faults, headers)
    title = HTTPStatus(status).phrase
    answer = page("refusal.html", title=title, status=status, detail=detail, faults=faults)
    answer.status_code = status
    answer.headers.update(headers or {})
    return answer
