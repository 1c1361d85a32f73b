"""The door page of a server that asks for an access key: the key is typed once, a pass is kept in a cookie."""

from __future__ import annotations

from urllib.parse import parse_qs

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, RedirectResponse, Response

from app.web.bodies import body_of
from app.web.doors.access_key import COOKIE, DOOR, address_of
from app.web.doors.passes import PASS_DAYS, Passes, Tries
from app.web.templates import page

_LONGEST_FORM = 8192


def door_of(passes: Passes, tries: Tries) -> APIRouter:
    """The routes of the door."""
    router = APIRouter(include_in_schema=False)

    @router.get(DOOR, response_class=HTMLResponse)
    def show_door(to: str = "/") -> HTMLResponse:
        """Ask for the key."""
        return page("door.html", to=_own_place(to), words="")

    @router.post(DOOR, response_class=HTMLResponse)
    async def try_key(request: Request) -> Response:
        """Take a key, and give a pass for it."""
        form = parse_qs((await body_of(request, _LONGEST_FORM)).decode("utf-8", "replace"), max_num_fields=8)
        to, address = _own_place(form.get("to", ["/"])[0]), address_of(request.scope)
        if seconds := tries.seconds_shut(address):
            return _refused(to, f"Too many wrong keys: wait {seconds} seconds.", 429, {"Retry-After": str(seconds)})
        if not passes.is_key(form.get("key", [""])[0].strip()):
            tries.wrong(address)
            return _refused(to, "That is not the key. It was printed where the server was started.", 403, {})
        answer = RedirectResponse(to, status_code=303)
        secure = request.url.scheme == "https"
        answer.set_cookie(
            COOKIE, passes.issue(), max_age=PASS_DAYS * 86_400, httponly=True, samesite="strict", secure=secure
        )
        return answer

    return router


def _refused(to: str, words: str, status: int, headers: dict[str, str]) -> Response:
    answer = page("door.html", to=to, words=words)
    answer.status_code = status
    answer.headers.update(headers)
    return answer


def _own_place(to: str) -> str:
    """A path of this server, so that the door sends nobody elsewhere."""
    return to if to.startswith("/") and not to.startswith(("//", "/\\")) and to.isprintable() else "/"
