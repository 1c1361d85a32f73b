"""A mistake of the program's own is told as a problem, inside the doors, so that it carries their headers too."""

from __future__ import annotations

import logging

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from app.web.problems import problem

_log = logging.getLogger("studbay")


class ToldMistakes:
    """Answers an error that nothing else has answered; what it was goes to the log, not to the caller."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one call."""
        begun = False

        async def noted(message: Message) -> None:
            nonlocal begun
            begun = True
            await send(message)

        try:
            await self._app(scope, receive, noted)
        except Exception:
            if begun or scope["type"] != "http":
                raise
            _log.exception("a mistake at %s %s", scope["method"], scope["path"])
            answer = problem(500, "Studbay made a mistake of its own; nothing was changed. Please report it")
            await answer(scope, receive, send)
