"""A browser moved by its own protocol alone: the processes of a test driver, which also hears every message of the
page's, take a quarter of the processor that a drag takes, and no person has them.
"""

from __future__ import annotations

import json
import subprocess
import time
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from websockets.sync.client import ClientConnection, connect

from tests.browser.conftest import PATIENCE, QUIET, browser_path


class Hand:
    """A hand on a page of 1440 × 900 pixels; every move is waited for until the page has taken it in."""

    def __init__(self, line: ClientConnection) -> None:
        self._line = line
        self._asked = 0

    def ask(self, method: str, **arguments: Any) -> dict[str, Any]:
        """The result of a method of the protocol."""
        self._asked += 1
        self._line.send(json.dumps({"id": self._asked, "method": method, "params": arguments}))
        while (answer := json.loads(self._line.recv(timeout=PATIENCE))).get("id") != self._asked:
            pass
        assert "error" not in answer, answer
        result: dict[str, Any] = answer["result"]
        return result

    def open(self, url: str) -> None:
        """Open a plan, and wait until its proof stands and all that is fetched ahead is here."""
        self.ask("Emulation.setDeviceMetricsOverride", width=1440, height=900, deviceScaleFactor=1, mobile=False)
        self.ask("Page.enable")
        self.ask("Page.addScriptToEvaluateOnNewDocument", source="localStorage.setItem('studbay-tour', 'seen')")
        self.ask("Page.navigate", url=url)
        self.ask("Page.disable")
        until = time.monotonic() + PATIENCE
        while not self.told("Boolean(document.body?.dataset.ready && document.body.dataset.rest)"):
            assert time.monotonic() < until, f"{url} does not open"
            self.rest(50)

    def told(self, expression: str) -> Any:
        """The value of an expression of the page."""
        answer = self.ask("Runtime.evaluate", expression=expression, returnByValue=True, awaitPromise=True)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    def middle_of(self, selector: str) -> tuple[float, float]:
        """The middle of the first element that a selector finds."""
        spot = self.told(
            f"(() => {{ const b = document.querySelector({json.dumps(selector)}).getBoundingClientRect();"
            " return [b.x + b.width / 2, b.y + b.height / 2]; })()"
        )
        return spot[0], spot[1]

    def move(self, x: float, y: float, held: bool = False) -> None:
        """Move to a spot of the page."""
        buttons = {"button": "left", "buttons": 1} if held else {}
        self.ask("Input.dispatchMouseEvent", type="mouseMoved", x=x, y=y, **buttons)

    def press(self, x: float, y: float) -> None:
        """Take hold at a spot."""
        self.move(x, y)
        self.ask("Input.dispatchMouseEvent", type="mousePressed", x=x, y=y, button="left", clickCount=1)

    def release(self, x: float, y: float) -> None:
        """Let go."""
        self.ask("Input.dispatchMouseEvent", type="mouseReleased", x=x, y=y, button="left", clickCount=1)

    @staticmethod
    def rest(ms: float) -> None:
        """Stand still."""
        time.sleep(ms / 1000)


@contextmanager
def hand_on(url: str, profile: Path) -> Iterator[Hand]:
    """A hand on the plan at an address, in a Chromium of its own."""
    path = browser_path()
    assert path is not None, "no Chromium: name one in CHROMIUM"
    arguments = [path, *QUIET, "--headless", "--remote-debugging-port=0", f"--user-data-dir={profile}", "about:blank"]
    browser = subprocess.Popen(arguments, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        with connect(_page_of(profile), compression=None, max_size=None) as line:
            hand = Hand(line)
            hand.open(url)
            yield hand
    finally:
        browser.terminate()
        browser.wait(timeout=PATIENCE)


def _page_of(profile: Path) -> str:
    """Where the browser's one page listens, once it does."""
    told, until = profile / "DevToolsActivePort", time.monotonic() + PATIENCE
    while not (told.exists() and told.read_text().count("\n")):
        assert time.monotonic() < until, "the browser does not start"
        time.sleep(0.1)
    port = told.read_text().split("\n", 1)[0]
    with urllib.request.urlopen(f"http://127.0.0.1:{port}/json/list", timeout=PATIENCE) as answer:
        places: list[str] = [page["webSocketDebuggerUrl"] for page in json.load(answer) if page["type"] == "page"]
    return places[0]
