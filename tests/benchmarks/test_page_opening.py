"""What opening a plan costs, in a real Chromium: weights of the scripts, and the time until the page is usable, on M.

By hand, on a machine that does nothing else: ``pytest tests/benchmarks/test_page_opening.py -s -o addopts=``.
Usable is when the level is drawn, its proof is told and all of it is painted; a press is answered from then on. The
page of help, which has no scripts, is opened in turn with it: their ratio holds on slower machines too.
"""

from __future__ import annotations

import statistics
from typing import Any

from tests.benchmarks.wings import SIZES, wings_plan
from tests.browser.conftest import browser, server

__all__ = ["browser", "server"]

ROUNDS = 7
USABLE_MS = 1000.0
SCRIPTS_KB = 200.0

_WATCH = """
new MutationObserver((_, watch) => {
  if (!document.body?.dataset.ready) return;
  watch.disconnect();
  requestAnimationFrame(() => setTimeout(() => (window.usableAt = performance.now())));
}).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ["data-ready"] });
"""


def _opened(browser: Any, url: str, again: bool = False) -> dict[str, Any]:
    """Open a plan in a browser that knows nothing; with ``again``, once more in the same browser."""
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    page = context.new_page()
    page.add_init_script(_WATCH)
    for _ in range(2 if again else 1):
        page.goto(url)
        _told(page, "usableAt")
        pressed = _press_ms(page)
        page.wait_for_selector("body[data-rest]")
    told = page.evaluate(
        """() => {
            const all = performance.getEntriesByType("resource");
            const scripts = all.filter((entry) => entry.name.endsWith(".js"));
            const first = all.filter((entry) => entry.startTime < performance.getEntriesByName("usable")[0].startTime);
            const needed = first.filter((entry) => entry.name.endsWith(".js"));
            const sum = (list, key) => list.reduce((total, entry) => total + entry[key], 0) / 1000;
            return {
              usable: window.usableAt, scripts: needed.length, requests: first.length,
              raw: sum(needed, "decodedBodySize"), sentFirst: sum(needed, "encodedBodySize"),
              packed: sum(scripts, "encodedBodySize"),
              sent: sum(all, "transferSize"),
              foreign: all.filter((entry) => new URL(entry.name).origin !== location.origin).length,
            };
        }"""
    )
    context.close()
    return dict(told) | {"pressed": pressed}


def _press_ms(page: Any) -> float:
    """The time from a press on a device, as soon as the page is usable, until it is shown as selected."""
    where = page.locator(".device .back").first.bounding_box()  # the symbol: its tag may stand far aside
    page.evaluate(
        """() => addEventListener("pointerdown", () => {
            const pressed = performance.now();
            const look = () => document.querySelector(".device.selected")
                ? (window.answeredAfter = performance.now() - pressed) : requestAnimationFrame(look);
            look();
        }, { capture: true, once: true })"""
    )
    page.mouse.click(where["x"] + where["width"] / 2, where["y"] + where["height"] / 2)
    return _told(page, "answeredAfter")


def _told(page: Any, name: str) -> float:
    """A time that the page tells, once it does; a playwright ``Error`` where it never does."""
    told = page.evaluate(
        """(name) => new Promise((found, failed) => {
            const until = performance.now() + 15_000;
            const look = () => window[name] ? found(window[name])
                : performance.now() > until ? failed(new Error(`${name} is never told`)) : setTimeout(look, 5);
            look();
        })""",
        name,
    )
    return float(told)


def _help_ms(browser: Any, url: str) -> float:
    context = browser.new_context()
    page = context.new_page()
    page.goto(f"{url}/help")
    loaded = page.evaluate("performance.getEntriesByType('navigation')[0].domContentLoadedEventEnd")
    context.close()
    return float(loaded)


def test_a_plan_of_size_m_is_usable_within_a_second(browser: Any, server: Any) -> None:
    url = f"{server.url}/plans/{server.add(wings_plan(*SIZES['M']))}"
    _opened(browser, url)  # warms the server's bench
    first = [_opened(browser, url) for _ in range(ROUNDS)]
    again = [_opened(browser, url, again=True) for _ in range(ROUNDS)]
    plain = statistics.median(_help_ms(browser, server.url) for _ in range(ROUNDS))
    cold, warm = (statistics.median(one["usable"] for one in runs) for runs in (first, again))
    one = first[0]
    press = statistics.median(run["pressed"] for run in first)
    print(
        f"\nopening M: usable after {cold:.0f} ms, opened again {warm:.0f} ms, the page of help {plain:.0f} ms "
        f"(ratio {cold / plain:.1f}); the first press answered after {press:.0f} ms\n"
        f"scripts until then: {one['scripts']}, {one['raw']:.0f} kB as written, {one['sentFirst']:.0f} kB sent, "
        f"{one['requests']} requests; with what is fetched ahead {one['packed']:.0f} kB sent"
    )
    assert one["foreign"] == 0
    assert one["raw"] <= SCRIPTS_KB
    assert one["packed"] <= SCRIPTS_KB
    assert cold <= USABLE_MS
