"""A hand that moves the pointer of a page by the browser's own protocol, without the test driver's processes between:
those take a fifth of the processor that a drag takes, and no person has them.
"""

from __future__ import annotations

import json
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager

from websockets.sync.client import ClientConnection, connect


class Hand:
    """Moves with the main button held, one move after the other was taken in."""

    def __init__(self, line: ClientConnection) -> None:
        self._line = line
        self._sent = 0

    def move(self, x: float, y: float) -> None:
        """Move to a spot of the page, and wait until the page has taken it in."""
        self._sent += 1
        where = {"type": "mouseMoved", "x": x, "y": y, "button": "left", "buttons": 1}
        self._line.send(json.dumps({"id": self._sent, "method": "Input.dispatchMouseEvent", "params": where}))
        while json.loads(self._line.recv()).get("id") != self._sent:
            pass

    @staticmethod
    def rest(ms: float) -> None:
        """Stand still."""
        time.sleep(ms / 1000)


@contextmanager
def hand_on(port: int, url: str) -> Iterator[Hand]:
    """A hand on the page at an address, in a browser that was started with ``--remote-debugging-port``."""
    with urllib.request.urlopen(f"http://127.0.0.1:{port}/json/list", timeout=30) as answer:
        place = next(page["webSocketDebuggerUrl"] for page in json.load(answer) if page["url"] == url)
    with connect(place, compression=None, max_size=None) as line:
        yield Hand(line)
