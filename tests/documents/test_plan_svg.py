"""A level as SVG of its own: valid XML, true size, names as text, the words of an edition."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from app.documents.plan_svg import PLANS, plan_svg
from tests.documents.handed_over import EDITION, EVIL, SCRIPT, answers
from tests.drawing.svg_reading import SVG, by_class

HOUSE = answers()


def drawn(
    level: str = "L1", shows: str = "proof", scale: str | None = None, units: str = "imperial"
) -> ElementTree.Element:
    house = HOUSE if units == "imperial" else answers(units=units)
    return ElementTree.fromstring(plan_svg(house, EDITION, level, shows, scale))


def texts(svg: ElementTree.Element) -> list[str]:
    return [text.text or "" for text in svg.iter(f"{SVG}text")]


def size_mm(svg: ElementTree.Element) -> tuple[float, float]:
    per = {"in": 25.4, "mm": 1.0}
    parts = [re.fullmatch(r"([\d.]+)(in|mm)", svg.get(side) or "") for side in ("width", "height")]
    assert all(parts)
    wide, high = (float(part[1]) * per[part[2]] for part in parts if part)
    return wide, high


@pytest.mark.parametrize("shows", list(PLANS))
@pytest.mark.parametrize("units", ["imperial", "metric"])
def test_size_on_paper_is_that_of_its_user_units(shows: str, units: str) -> None:
    svg = drawn(shows=shows, units=units)
    box = [float(number) for number in (svg.get("viewBox") or "").split()]
    assert size_mm(svg) == pytest.approx((box[2], box[3]), abs=0.01)
    assert (svg.get("width") or "").endswith("mm" if units == "metric" else "in")


@pytest.mark.parametrize(("scale", "mm"), [("1/4", 63.5), ("1/8", 31.75), ("1:50", 60.96), ("1:100", 30.48)])
def test_ten_feet_measure_what_the_scale_says(scale: str, mm: float) -> None:
    svg = drawn(scale=scale)
    walls = by_class(svg, "walls")[0]
    path = next(part.get("d") or "" for part in walls.iter(f"{SVG}path"))
    ring = min(path.split("M")[1:], key=lambda part: -float(part.split()[0]))  # the wall that stands alone in the east
    xs = [float(spot.split()[0]) for spot in ring.replace("Z", "").split("L")]
    assert max(xs) - min(xs) == pytest.approx(mm, abs=0.01)


def test_proof_shows_marks_and_cable_shows_runs() -> None:
    assert by_class(drawn(shows="cable"), "home-runs")
    assert not by_class(drawn(shows="proof"), "home-runs")
    assert "GB-1" in texts(drawn(shows="proof"))


def test_every_name_is_text_and_nothing_runs() -> None:
    source = plan_svg(HOUSE, EDITION, "L1").decode()
    assert SCRIPT not in source
    assert "<script" not in source
    assert " style=" not in source
    titles = {title.text or "" for title in ElementTree.fromstring(source).iter(f"{SVG}title")}
    assert all(any(" ".join(name.split()) in " ".join(title.split()) for title in titles) for name in EVIL)


def test_says_plan_level_scale_edition_and_that_it_is_confidential() -> None:
    said = texts(drawn("L2"))
    assert "Two rooms: Obergeschoß" in said
    assert any('1/4" = 1\'-0"' in text and "Revision 7" in text for text in said)
    assert "CONFIDENTIAL: SHOWS WHERE DETECTORS ARE" in said


def test_what_is_not_there_is_refused() -> None:
    for level, shows, scale in (("L9", "proof", None), ("L1", "moon", None), ("L1", "proof", "1/7")):
        with pytest.raises(KeyError):
            plan_svg(HOUSE, EDITION, level, shows, scale)
