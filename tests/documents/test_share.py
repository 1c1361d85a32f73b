"""The share page as text: whole in itself, asking nothing of the network, names escaped, without what is left out."""

from __future__ import annotations

import base64
import hashlib
import html
import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from markupsafe import escape

from app.documents.plan_answers import PlanAnswers
from app.documents.share.leaving_out import LEAVABLE, what_it_shows
from app.documents.share.page import share_page
from app.documents.tables.all_tables import all_tables
from app.plan.reading import read_plan_file
from tests.documents.handed_over import EDITION, EVIL, answers

SAMPLES = Path(__file__).parents[2] / "sample_plans"
HOUSE = answers()
PAGE = share_page(HOUSE, EDITION).decode()


class Elements(HTMLParser):
    """Every element of a page with its attributes, and the text of all of it."""

    def __init__(self, source: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str | None]]] = []
        self.text: list[str] = []
        self.feed(source)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.text.append(data)


def hash_of(text: str) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()


def test_policy_names_the_one_style_and_the_one_script() -> None:
    policy = html.unescape(re.search(r'Content-Security-Policy" content="([^"]+)"', PAGE)[1])  # type: ignore[index]
    styles = re.findall(r"<style>(.*?)</style>", PAGE, flags=re.DOTALL)
    scripts = re.findall(r"<script>(.*?)</script>", PAGE, flags=re.DOTALL)
    assert len(styles) == len(scripts) == 1
    assert f"style-src '{hash_of(styles[0])}'" in policy
    assert f"script-src '{hash_of(scripts[0])}'" in policy
    assert policy.startswith("default-src 'none'")
    assert "unsafe" not in policy


def test_nothing_is_asked_of_the_network_and_nothing_runs_beside_the_script() -> None:
    for tag, attributes in Elements(PAGE).found:
        assert tag not in ("img", "link", "iframe", "object", "embed", "form", "base", "image", "use"), tag
        for name, given in attributes.items():
            assert not name.startswith("on"), (tag, name)
            assert name != "style", tag
            if name in ("href", "xlink:href", "src", "action"):
                assert (given or "").startswith("#"), (tag, given)
    assert "url(" not in re.search(r"<style>(.*?)</style>", PAGE, flags=re.DOTALL)[1]  # type: ignore[index]
    assert "@import" not in PAGE


def test_every_name_is_text() -> None:
    elements = Elements(PAGE)
    assert sum(tag == "script" for tag, _ in elements.found) == 1
    whole = " ".join("\n".join(elements.text).split())
    for name in EVIL:
        assert " ".join(name.split()) in whole


def test_shows_every_table_every_level_and_the_edition() -> None:
    for table in all_tables(HOUSE):
        assert f'<details id="{table.key}">' in PAGE
        assert all(html.escape(column.heading, quote=False) in PAGE for column in table.columns)
    pictures = [one for tag, one in Elements(PAGE).found if tag == "figure"]
    assert {(one["data-level"], one["data-shows"]) for one in pictures} == {
        (level, shows) for level in ("L1", "L2") for shows in ("proof", "cable")
    }
    assert "Revision 7, 2026-03-02 09:30 UTC" in PAGE
    assert "Confidential: shows where detectors are" in PAGE


def test_every_device_pane_and_bare_opening_can_be_tapped_and_has_a_row() -> None:
    elements = Elements(PAGE).found
    taps = {one["data-thing"] for tag, one in elements if tag == "a" and "data-thing" in one}
    rows = {thing for tag, one in elements if tag == "tr" for thing in (one.get("data-things") or "").split()}
    things = {device.id for level in HOUSE.plan.levels for device in level.devices}
    assert taps == things | {pane["id"] for pane in HOUSE.check["panes"]} | {"d1", "c1"}
    assert taps <= rows


def test_places_that_links_lead_to_are_there_once() -> None:
    elements = Elements(PAGE).found
    ids = [one["id"] for _, one in elements if one.get("id")]
    assert len(ids) == len(set(ids))
    leads = {(one.get("href") or one.get("xlink:href") or "")[1:] for tag, one in elements if tag == "a"}
    assert leads <= set(ids)


def test_names_left_out_are_nowhere() -> None:
    page = share_page(HOUSE, EDITION, ["names"]).decode()
    for said in ("Two rooms", "Söhne", "Lark Lane", "O. Hart"):
        assert said in PAGE
        assert said not in page
    assert "Left out of this copy" in page


def test_findings_left_out_are_nowhere() -> None:
    page = share_page(HOUSE, EDITION, ["findings"]).decode()
    for finding in HOUSE.check["findings"]:
        assert escape(finding["message"]) in PAGE
        assert escape(finding["message"]) not in page
    assert '<details id="findings">' not in page
    assert "What would mend it" not in page


def test_notes_left_out_are_nowhere() -> None:
    house = answers()
    noted = share_page(house, EDITION, ["notes"]).decode()
    assert '<th scope="col">Note</th>' in PAGE
    assert '<th scope="col">Note</th>' not in noted
    assert "<dt>Notes</dt>" in PAGE
    assert "<dt>Notes</dt>" not in noted


def test_what_cannot_be_left_out_is_refused_with_what_can() -> None:
    with pytest.raises(ValueError, match=", ".join(LEAVABLE)):
        share_page(HOUSE, EDITION, ["walls"])


def test_the_question_counts_what_the_page_shows() -> None:
    said = what_it_shows(HOUSE)
    assert said[0].startswith("2 levels")
    assert any(line.startswith("4 panes") for line in said)
    assert any(line.startswith(f"{len(HOUSE.wiring['pulls'])} home runs") for line in said)


@pytest.mark.parametrize("name", ["amber-ridge", "cobble-court"])  # the largest
def test_a_sample_stays_under_a_megabyte(name: str) -> None:
    page = share_page(PlanAnswers.of(read_plan_file(SAMPLES / f"{name}.json")), EDITION)
    assert len(page) < 1_000_000
    assert page.count(b"<script>") == 1
