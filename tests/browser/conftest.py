"""A real Chromium and a real server on a folder of its own, for the tests that drive the page.

A missing browser skips with one line that says how to get it; where CI is set it fails instead.
"""

from __future__ import annotations

import json
import os
import random
import re
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

playwright_api = pytest.importorskip("playwright.sync_api", reason='get it with: pip install -e ".[test]"')

_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PATIENCE = 60  # s that a test waits for what should be so at once: machines of many jobs stall
playwright_api.expect.set_options(timeout=PATIENCE * 1000)
_HOW = "no Chromium: install one (Debian: apt-get install chromium) or name it in CHROMIUM"


def browser_path() -> str | None:
    named = os.environ.get("CHROMIUM")
    if named:
        return named if Path(named).exists() else None
    return next((found for name in _NAMES if (found := shutil.which(name))), None)


@pytest.fixture(scope="package")  # its event loop must be gone before tests of other folders run their own
def browser() -> Iterator[Any]:
    path = browser_path()
    if path is None:
        if os.environ.get("CI"):
            pytest.fail(_HOW)
        pytest.skip(_HOW)
    with playwright_api.sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=path, args=list(QUIET), headless=True, timeout=120_000)
        yield chromium
        chromium.close()


def _free_port() -> int:
    """A port that nobody has, of those that no connection goes out from: none takes it while a server is away."""
    for _ in range(100):
        port = random.randrange(15_000, 32_000)
        with socket.socket() as probe:
            if probe.connect_ex(("127.0.0.1", port)):
                return port
    raise AssertionError("no free port")


def wait_until(page: Any, expression: str) -> None:
    """Wait until an expression of a page holds; playwright's own wait evaluates it where the page's policy forbids."""
    until = time.monotonic() + PATIENCE
    while not page.evaluate(f"Boolean({expression})"):
        assert time.monotonic() < until, f"never so: {expression}"
        page.wait_for_timeout(30)


def settle(page: Any) -> None:
    """Wait until what was done is drawn, on however busy a machine: a page draws once a frame."""
    page.evaluate("new Promise(drawn => requestAnimationFrame(() => requestAnimationFrame(drawn)))")


def resize(page: Any, width: int, height: int) -> None:
    """Give a page another size, and wait until it is laid out for it."""
    page.set_viewport_size({"width": width, "height": height})
    wait_until(page, f"matchMedia('(width: {width}px) and (height: {height}px)').matches")
    settle(page)


class Server:
    """``studbay`` on a free port and a data folder; can be killed and started again on both."""

    def __init__(self, data: Path) -> None:
        self.data = data
        self.port = _free_port()
        self.url = f"http://127.0.0.1:{self.port}"
        self.process: subprocess.Popen[bytes] | None = None
        self.start()

    def start(self) -> None:
        """Start, and wait until it answers."""
        command = [sys.executable, "-m", "app", "--port", str(self.port), "--data", str(self.data)]
        self.process = subprocess.Popen(command, cwd=Path(__file__).parents[2], start_new_session=True)
        until = time.monotonic() + 120
        while time.monotonic() < until and self.process.poll() is None:
            try:
                with urllib.request.urlopen(f"{self.url}/api/plans", timeout=2):
                    return
            except OSError:
                time.sleep(0.1)
        self.kill()
        raise AssertionError("the server did not start")

    def kill(self) -> None:
        """Kill it and what it started, as a crash would."""
        if self.process is not None:
            os.killpg(self.process.pid, signal.SIGKILL)
            self.process.wait()
            self.process = None

    def add(self, plan: dict[str, Any]) -> str:
        """Keep a plan; its id."""
        request = urllib.request.Request(
            f"{self.url}/api/plans",
            data=json.dumps(plan).encode(),
            headers={"Content-Type": "application/json"},
        )
        with urllib.request.urlopen(request, timeout=30) as answer:
            kept: str = json.load(answer)["id"]
        return kept

    def plan(self, plan_id: str) -> dict[str, Any]:
        """The plan as the server has it."""
        with urllib.request.urlopen(f"{self.url}/api/plans/{plan_id}", timeout=30) as answer:
            plan: dict[str, Any] = json.load(answer)["plan"]
        return plan


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory, browser: Any) -> Iterator[Server]:
    running = Server(tmp_path_factory.mktemp("data"))
    yield running
    running.kill()


class PlanPage:
    """A plan's page, opened, with the moves that people make on it."""

    def __init__(self, page: Any, server: Server, plan_id: str) -> None:
        self.page = page
        self.server = server
        self.id = plan_id
        self.faults: list[str] = []
        page.on("pageerror", lambda error: self.faults.append(str(error)))
        self.open()

    def open(self) -> None:
        """Open or reload, and wait until the proof stands and all that is fetched ahead is here."""
        self.page.goto(f"{self.server.url}/plans/{self.id}")
        self.page.wait_for_selector("body[data-ready][data-rest]")
        self.settle()

    def at(self, x: float, y: float) -> tuple[float, float]:
        """The place on the screen of a point of the plan, in feet."""
        spot = self.page.evaluate(
            """([x, y]) => {
                const world = document.querySelector("#drawing .world");
                const spot = new DOMPoint(x, -y).matrixTransform(world.getScreenCTM());
                return [spot.x, spot.y];
            }""",
            [x, y],
        )
        return (spot[0], spot[1])

    def move(self, x: float, y: float, steps: int = 3) -> None:
        """Move the pointer to a point of the plan, and wait until what it shows there is drawn."""
        self.page.mouse.move(*self.at(x, y), steps=steps)
        self.settle()

    def press(self, x: float, y: float) -> None:
        """Press and release at a point of the plan."""
        self.move(x, y)
        self.page.mouse.down()
        self.page.mouse.up()
        self.settle()

    def drag(self, start: tuple[float, float], end: tuple[float, float], hold: bool = False) -> None:
        """Drag from one point of the plan to another; ``hold`` leaves the button down."""
        self.move(*start)
        self.page.mouse.down()
        self.move(*end, steps=8)
        if not hold:
            self.page.mouse.up()
        self.settle()

    def key(self, *keys: str) -> None:
        """Type keys, one after the other."""
        for key in keys:
            self.page.keyboard.press(key)
        self.settle()

    def zoom_out(self) -> None:
        """Bring more of the ground about the plan into view."""
        self.key("-", "-")

    def type_length(self, text: str) -> None:
        """Type a length while drawing."""
        self.page.keyboard.type(text)
        self.page.keyboard.press("Enter")
        self.settle()

    def resize(self, width: int, height: int) -> None:
        """Give the page another size."""
        resize(self.page, width, height)

    def settle(self) -> None:
        """Wait until what was done is drawn."""
        settle(self.page)

    def wait_until(self, expression: str) -> None:
        """Wait until an expression of the page holds."""
        wait_until(self.page, expression)

    def wait_step(self, words: str) -> None:
        """Wait until the step that could be undone next is this one; what fingers do is done after they are told so."""
        told = re.compile(rf"^Undo {re.escape(words)}")
        playwright_api.expect(self.page.locator("#undo")).to_have_attribute("title", told)

    def wait_at(self, point: tuple[float, float], spot: tuple[float, float], within: float) -> None:
        """Wait until a point of the plan is drawn at a spot of the screen, within so many pixels."""
        until = time.monotonic() + PATIENCE
        while self.at(*point) != pytest.approx(spot, abs=within):
            assert time.monotonic() < until, f"{point} is at {self.at(*point)}, never at {spot}"
            self.page.wait_for_timeout(30)

    def wait_saved(self) -> None:
        """Wait until the server has the plan and the proof is of it; a changed plan is told as unsaved at once."""
        self.wait_until(
            "document.querySelector('#saved').dataset.state === 'saved'"
            " && document.querySelector('#strip').dataset.state === 'current'"
        )

    def wait_strip(self, words: str) -> None:
        """Wait until the strip tells something."""
        playwright_api.expect(self.page.locator("#strip")).to_contain_text(words)

    def saved(self) -> dict[str, Any]:
        """The plan as the server has it, once it has the page's."""
        self.wait_saved()
        return self.server.plan(self.id)


def empty_plan(name: str = "Trial house") -> dict[str, Any]:
    """A plan of one bare level."""
    return {"format": "studbay-plan/1", "name": name, "levels": [{"id": "L1", "name": "Main floor"}]}


def one_room(**device: Any) -> dict[str, Any]:
    """A room of 30 × 20 ft with one window at the east end of its south wall, and a detector where told."""
    corners = [(0, 0), (30, 0), (30, 20), (0, 20)]
    walls = [
        {"id": f"w{i + 1}", "a": corners[i], "b": corners[(i + 1) % 4], "thickness": 0.5} for i in range(len(corners))
    ]
    window = {"id": "o1", "wall": "w1", "kind": "window", "offset": 24, "width": 4, "sill": 3, "head": 6.5}
    level: dict[str, Any] = {"id": "L1", "name": "Main floor", "walls": walls, "openings": [window]}
    level["rooms"] = [{"id": "r1", "name": "Great room", "use": "great_room", "at": [6, 15]}]
    if device:
        level["devices"] = [{"id": "gb1", "kind": "glass_break", "label": "GB-1", **device}]
    return {"format": "studbay-plan/1", "name": "One room", "levels": [level]}


@pytest.fixture
def open_plan(browser: Any, server: Server) -> Iterator[Any]:
    """Opens a plan in a window of its own; the page must have thrown nothing by the end."""
    contexts: list[Any] = []
    opened: list[PlanPage] = []

    def open_one(
        plan: dict[str, Any] | None = None, plan_id: str = "", newcomer: bool = False, **window: Any
    ) -> PlanPage:
        context = browser.new_context(**{"viewport": {"width": 1440, "height": 900}, **window})
        context.set_default_timeout(PATIENCE * 1000)
        if not newcomer:
            context.add_init_script("localStorage.setItem('studbay-tour', 'seen')")
        contexts.append(context)
        page = PlanPage(context.new_page(), server, plan_id or server.add(plan or empty_plan()))
        opened.append(page)
        return page

    yield open_one
    faults = [fault for page in opened for fault in page.faults]
    for context in contexts:
        context.close()
    assert not faults, faults


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark what drives the browser."""
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker(pytest.mark.browser)
