"""Refuse calls under a foreign host name: a page elsewhere may point its own name at this machine (DNS rebinding)."""

from __future__ import annotations

import ipaddress
from collections.abc import Iterable

from starlette.types import ASGIApp, Receive, Scope, Send

from app.web.doors.asking import header, is_call
from app.web.problems import problem

LOOPBACK = frozenset({"localhost", "127.0.0.1", "[::1]"})
_EVERY_ADDRESS = frozenset({"0.0.0.0", "[::]", "::"})


class KnownHosts:
    """Lets in calls under the names given, at any port.

    Where the server listens on every address of the machine, an address written in figures is let in as well:
    only a name can be pointed elsewhere.
    """

    def __init__(self, app: ASGIApp, names: Iterable[str] = ()) -> None:
        self._app = app
        self._names = LOOPBACK | {_bracketed(name.lower()) for name in names}
        self._figures = bool(self._names & _EVERY_ADDRESS)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one call."""
        if is_call(scope) and not self._knows(header(scope, "host")):
            answer = problem(403, "this host name is not served here; use the address that the program printed")
            return await answer(scope, receive, send)
        return await self._app(scope, receive, send)

    def _knows(self, host: str) -> bool:
        name = name_of(host)
        return name in self._names or (self._figures and _is_address(name))


def name_of(host: str) -> str:
    """The name in a Host header, without its port."""
    name, colon, port = host.strip().lower().rpartition(":")
    return name if colon and port.isdigit() and (not name.count(":") or name.endswith("]")) else host.strip().lower()


def _bracketed(name: str) -> str:
    return f"[{name}]" if ":" in name and not name.startswith("[") else name


def _is_address(name: str) -> bool:
    try:
        ipaddress.ip_address(name.strip("[]"))
    except ValueError:
        return False
    return True
