"""The page for everyone: axe finds nothing serious on a wide and a narrow screen, touch drags a detector."""

from __future__ import annotations

from typing import Any

import pytest

from tests.browser.conftest import one_room, playwright_api, resize

pytestmark = pytest.mark.browser
expect = playwright_api.expect


SIZES = [(1440, 900), (768, 1024), (390, 844)]
STEPS = ("Shell", "Devices", "Proof", "Cable", "Handover")


def _axe(page: Any) -> list[tuple[str, str]]:
    axe = pytest.importorskip("axe_playwright_python.sync_playwright", reason='get it with: pip install -e ".[test]"')
    found = axe.Axe().run(page).response["violations"]
    return [(fault["id"], node["html"][:200]) for fault in found for node in fault["nodes"][:3]]


def _show(house: Any, step: str) -> None:
    house.page.get_by_role("button", name=step).first.click()
    house.page.wait_for_selector(f'.panel[aria-label="{step}"]')
    house.settle()


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_axe_finds_nothing_in_any_step(open_plan: Any, width: int, height: int) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.resize(width, height)
    house.page.locator("#things summary").click()
    house.page.wait_for_selector("#things tbody tr")
    faults = {}
    for step in STEPS:
        _show(house, step)
        house.page.locator('[data-part="uncovered"]').click()
        house.page.wait_for_selector("#elevation h2")
        faults[step] = _axe(house.page)
    assert faults == {step: [] for step in STEPS}


def test_axe_finds_nothing_in_what_opens_over_the_page(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]), newcomer=True)
    house.page.wait_for_selector(".tour")
    faults = {"tour": _axe(house.page)}
    house.key("Escape", "/")
    house.page.wait_for_selector("#find[open]")
    house.page.keyboard.type("w")
    expect(house.page.locator("#find [role=option]")).not_to_have_count(0)
    faults["find"] = _axe(house.page)
    house.key("Escape")
    house.page.wait_for_selector("#find", state="hidden")
    house.key("?")
    house.page.wait_for_selector("#help[open] .rules li")
    faults["help"] = _axe(house.page)
    assert faults == {"tour": [], "find": [], "help": []}


@pytest.mark.parametrize("path", ["/", "/help", "/api/reference", "/plans/{id}/sheet", "/plans/{id}/sheet?set=crew"])
def test_axe_finds_nothing_on_the_other_pages(open_plan: Any, path: str) -> None:
    house = open_plan(one_room(at=[4, 14]))
    for width, height in (SIZES[0], SIZES[2]):
        resize(house.page, width, height)
        house.page.goto(house.server.url + path.format(id=house.id))
        assert _axe(house.page) == []


_SMALL = """() => {
    const controls = "button, a[href], input, select, textarea, summary, label:has(input), [role=tab], [role=option]";
    const small = [];
    for (const one of document.querySelectorAll(controls)) {
        if (!one.checkVisibility({ visibilityProperty: true }) || one.closest(".only-read, .unseen")) continue;
        const own = one.matches("input") && one.closest("label") ? one.closest("label") : one;
        const box = own.getBoundingClientRect();
        // Links within a sentence are left to the line they stand in, as WCAG 2.5.8 has it.
        const words = (element) => element.textContent.trim();
        const inSentence = getComputedStyle(one).display === "inline" && words(one.parentElement) !== words(one);
        if (one.matches("a") && inSentence) continue;
        const size = `${box.width.toFixed(1)} x ${box.height.toFixed(1)}`;
        if (box.width > 0 && (box.width < 24 || box.height < 24)) small.push(`${one.outerHTML.slice(0, 90)} ${size}`);
    }
    return small;
}"""


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_every_target_is_24_px_at_least(open_plan: Any, width: int, height: int) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.resize(width, height)
    house.page.locator("#things summary").click()
    house.page.wait_for_selector("#things tbody tr")
    small = []
    for step in STEPS:
        _show(house, step)
        house.page.locator('[data-part="uncovered"]').click()
        house.page.wait_for_selector("#inspector h2")
        small += [f"{step}: {one}" for one in house.page.evaluate(_SMALL)]
    house.key("?")
    house.page.wait_for_selector("#help[open] .rules li")
    small += house.page.evaluate(_SMALL)
    house.page.goto(house.server.url)
    small += [f"home: {one}" for one in house.page.evaluate(_SMALL)]
    assert sorted(set(small)) == []


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_no_page_scrolls_sideways(open_plan: Any, width: int, height: int) -> None:
    house = open_plan(one_room(at=[4, 14]))
    house.resize(width, height)
    wide = {}
    for step in STEPS:
        _show(house, step)
        wide[step] = house.page.evaluate("document.documentElement.scrollWidth - innerWidth")
    for path in ("/", "/help", "/api/reference"):
        house.page.goto(house.server.url + path)
        wide[path] = house.page.evaluate("document.documentElement.scrollWidth - innerWidth")
    assert {name: over for name, over in wide.items() if over > 0} == {}


def test_focus_is_seen_on_every_control(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    unseen = []
    for _ in range(45):
        house.key("Tab")
        told = house.page.evaluate(
            """() => {
                const style = getComputedStyle(document.activeElement);
                const outlined = style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 1;
                const seen = outlined || style.boxShadow !== "none";
                return { name: document.activeElement.outerHTML.slice(0, 80), seen };
            }"""
        )
        if not told["seen"] and not told["name"].startswith("<body"):
            unseen.append(told["name"])
    assert unseen == []


def test_what_moves_stands_still_where_that_is_asked(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]), reduced_motion="reduce")
    moving = house.page.evaluate(
        """() => [...document.querySelectorAll("*")].filter((one) => {
            const style = getComputedStyle(one);
            return style.animationName !== "none" || parseFloat(style.transitionDuration) > 0;
        }).map((one) => one.className)"""
    )
    assert moving == []
    house.page.locator('[data-part="uncovered"]').click()
    house.page.wait_for_selector("#inspector h2")
    house.settle()
    first = house.at(0, 0)
    house.page.wait_for_timeout(60)
    assert house.at(0, 0) == first  # the view is there at once


def test_forced_colours_keep_what_is_chosen_apart(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]), forced_colors="active")
    house.page.get_by_role("button", name="Wall").first.click()
    expect(house.page.locator('.palette [data-tool="wall"]')).to_have_attribute("aria-pressed", "true")
    outline = house.page.locator('[aria-pressed="true"]').first.evaluate("(one) => getComputedStyle(one).outlineStyle")
    assert outline == "solid"
    walls = house.page.locator(".layer.walls path").first
    painted = walls.evaluate("(one) => [getComputedStyle(one).fill, getComputedStyle(one).stroke]")
    assert set(painted) - {"none"}


def test_things_of_the_drawing_have_names(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]))
    names = house.page.evaluate(
        """() => [...document.querySelectorAll(".device[data-id], .layer.openings [data-id]")]
            .map((one) => one.getAttribute("aria-label") || one.querySelector("title")?.textContent || "")"""
    )
    assert len(names) == 2
    assert any("GB-1" in name for name in names)
    assert any("o1" in name for name in names)


def test_a_finger_drags_a_detector(open_plan: Any) -> None:
    house = open_plan(one_room(at=[4, 14]), has_touch=True)
    house.resize(390, 844)
    house.key("f")
    start, end = house.at(4, 14), house.at(24, 8)
    client = house.page.context.new_cdp_session(house.page)
    spots = [(start[0] + (end[0] - start[0]) * i / 10, start[1] + (end[1] - start[1]) * i / 10) for i in range(11)]
    for i, (x, y) in enumerate(spots):
        kind = "touchMove" if i else "touchStart"
        client.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y}]})
    client.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    house.wait_step("Move GB-1")
    assert house.saved()["levels"][0]["devices"][0]["at"] == pytest.approx([24, 8], abs=0.5)
    house.wait_strip("1 of 1 panes covered")


def test_help_lists_every_key_that_the_page_obeys(open_plan: Any) -> None:
    house = open_plan(one_room())
    house.key("?")
    house.page.wait_for_selector("#help[open] .rules li")
    for told in ("Undo", "Do again", "Duplicate", "Fit the level", "Wall", "Glass-break detector", "Suspend snapping"):
        expect(house.page.locator("#help")).to_contain_text(told, use_inner_text=True)
    house.key("Escape")
    expect(house.page.locator("#help")).to_be_hidden()
