"""The drag call, answered ahead of the routes: a drag asks sixty times a second, and the routes' own work would be
as much as the answer's.

It stands inside all doors, and gives what the routes in ``routes/proof.py`` give; they stay for the description.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from starlette.requests import Request
from starlette.types import ASGIApp, Receive, Scope, Send

from app.web.bodies import json_of
from app.web.problems import REFUSALS, refused
from app.web.serving import stored_answer
from app.web.trials import trial_of
from app.web.workshop.orders import Work

_TRIAL = re.compile(r"/api/plans/([^/]+)/(trial|trial/touched)")
_WORKS: Mapping[str, Work] = {"trial": "trial", "trial/touched": "trial_touched"}


class QuickTrials:
    """Answers trials, and leaves every other call to the routes."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one call."""
        asked = _TRIAL.fullmatch(scope["path"]) if scope["type"] == "http" and scope["method"] == "POST" else None
        if asked is None:
            return await self._app(scope, receive, send)
        request = Request(scope, receive)
        try:
            trial = trial_of(await json_of(request))
            answer = await stored_answer(request, asked[1], _WORKS[asked[2]], trial)
        except REFUSALS as error:
            answer = refused(request, error)
        await answer(scope, receive, send)
