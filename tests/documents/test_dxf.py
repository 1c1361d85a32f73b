"""The DXF drawing, opened again: no errors, real size, layers, blocks with attributes, names as they are."""

from __future__ import annotations

import io
import math
from functools import cache
from pathlib import Path
from typing import Any

import ezdxf
import pytest
from ezdxf.document import Drawing

from app.documents.dxf.drawing import plan_dxf, shifts
from app.documents.dxf.ground import plain
from app.documents.plan_answers import PlanAnswers
from app.plan.reading import read_plan_file
from tests.documents.handed_over import EDITION, EVIL, answers

SAMPLES = Path(__file__).parents[2] / "sample_plans"


@cache
def drawing(units: str = "imperial") -> Drawing:
    return opened(plan_dxf(answers(units=units), EDITION))


def opened(content: bytes) -> Drawing:
    return ezdxf.read(io.StringIO(content.decode("utf-8"), newline=""))


def on_layer(document: Drawing, layer: str, kind: str) -> list[Any]:
    return list(document.modelspace().query(f'{kind}[layer=="{layer}"]'))


def outline(entity: Any) -> list[tuple[float, float]]:
    return [(x, y) for x, y, *_ in entity.get_points()]


def data_of(entity: Any) -> dict[str, str]:
    return dict(str(tag.value).split("=", 1) for tag in entity.get_xdata("STUDBAY") if tag.code == 1000)


def attributes(insert: Any) -> dict[str, str]:
    return {attribute.dxf.tag: attribute.plain_text() for attribute in insert.attribs}


@pytest.mark.parametrize("units", ["imperial", "metric"])
def test_opens_again_without_errors(units: str) -> None:
    audit = drawing(units).audit()
    assert not audit.errors
    assert not audit.fixes


@pytest.mark.parametrize("name", ["birch-cottage", "cobble-court", "elder-rise"])
def test_samples_open_again_from_a_file_without_errors(name: str, tmp_path: Path) -> None:
    plan = read_plan_file(SAMPLES / f"{name}.json")
    (tmp_path / "plan.dxf").write_bytes(plan_dxf(PlanAnswers.of(plan), EDITION))
    document = ezdxf.readfile(tmp_path / "plan.dxf")
    assert not document.audit().errors
    devices = [insert for insert in document.modelspace().query("INSERT") if insert.get_attrib("LABEL") is not None]
    assert len(devices) == sum(len(level.devices) for level in plan.levels)


def test_units_are_inches_or_millimetres_as_the_plan_says() -> None:
    imperial, metric = drawing().header, drawing("metric").header
    assert (imperial["$INSUNITS"], imperial["$MEASUREMENT"]) == (1, 0)
    assert (metric["$INSUNITS"], metric["$MEASUREMENT"]) == (4, 1)


@pytest.mark.parametrize(("units", "length", "thickness"), [("imperial", 120.0, 6.0), ("metric", 3048.0, 152.4)])
def test_a_wall_of_ten_feet_measures_ten_feet(units: str, length: float, thickness: float) -> None:
    walls = [outline(entity) for entity in on_layer(drawing(units), "A-WALL", "LWPOLYLINE")]
    alone = next(ring for ring in walls if min(x for x, _ in ring) >= 40 * length / 10 - 1e-6 and len(ring) == 4)
    xs, ys = [x for x, _ in alone], [y for _, y in alone]
    assert max(xs) - min(xs) == pytest.approx(length, abs=1e-9)
    assert max(ys) - min(ys) == pytest.approx(thickness, abs=1e-9)
    assert all(entity.closed for entity in on_layer(drawing(units), "A-WALL", "LWPOLYLINE"))


def test_centrelines_measure_what_the_plan_says() -> None:
    centres = {data_of(line)["wall"]: line for line in on_layer(drawing(), "A-WALL-CNTR", "LINE")}
    for level in answers().plan.levels:
        for wall in level.walls:
            line = centres[wall.id]
            assert math.dist(line.dxf.start, line.dxf.end) == pytest.approx(12 * wall.length, abs=1e-9)
    assert data_of(centres["ten"])["thickness"] == "0'-6\""
    assert drawing().layers.get("A-WALL-CNTR").is_off()


def test_first_level_keeps_its_coordinates_and_the_next_lies_clear_of_it() -> None:
    ground = [point for ring in on_layer(drawing(), "A-WALL-CNTR", "LINE") for point in (ring.dxf.start, ring.dxf.end)]
    assert min(point.x for point in ground) == 0.0
    up = next(line for line in on_layer(drawing(), "A-WALL-CNTR", "LINE") if data_of(line)["wall"] == "up1")
    east = shifts(answers().plan.levels)[1]
    assert up.dxf.start.x == pytest.approx(east * 12)
    assert east > 50
    told = dict(drawing().header.custom_vars)
    assert told["Level L2 moved east by"] == f"{east:.0f}'-0\""


def test_one_level_alone_keeps_its_own_coordinates() -> None:
    document = opened(plan_dxf(answers(), EDITION, "L2"))
    lines = on_layer(document, "A-WALL-CNTR", "LINE")
    assert [(line.dxf.start.x, line.dxf.end.x) for line in lines] == [(0.0, 144.0)]


def test_devices_are_blocks_with_their_attributes_on_layers_of_their_kind() -> None:
    hearing = on_layer(drawing(), "TY-DEVC-GLBK-N", "INSERT")[0]
    told = attributes(hearing)
    assert told == {
        "LABEL": "GB-1",
        "ID": "gb1",
        "KIND": "Glass-break detector",
        "HEIGHT": "9'-0\" AFF",
        "CABLE": "22/4",
        "ROOM": "Great room",
        "NOTE": "",
    }
    assert (hearing.dxf.insert.x, hearing.dxf.insert.y) == (96.0, 72.0)
    seen = [attribute.dxf.tag for attribute in hearing.attribs if not attribute.is_invisible]
    assert seen == ["LABEL"]
    assert on_layer(drawing(), "F-DEVC-SMOK", "INSERT")
    assert on_layer(drawing(), "TY-DEVC-MOTN-N", "INSERT")[0].dxf.rotation == 315


def test_blocks_ask_for_the_attributes_that_insertions_carry() -> None:
    for insert in drawing().modelspace().query("INSERT"):
        asked = {one.dxf.tag for one in drawing().blocks.get(insert.dxf.name).query("ATTDEF")}
        assert {attribute.dxf.tag for attribute in insert.attribs} <= asked


def test_windows_and_doors_stretch_to_their_size() -> None:
    windows = {attributes(insert)["ID"]: insert for insert in on_layer(drawing(), "A-GLAZ", "INSERT")}
    assert windows["w1"].dxf.xscale == pytest.approx(72.0)
    assert windows["w1"].dxf.name.endswith("-2")  # two lites
    assert attributes(windows["w1"])["HEAD"] == "6'-6\""
    doors = {attributes(insert)["ID"]: insert for insert in on_layer(drawing(), "A-DOOR", "INSERT")}
    assert abs(doors["d1"].dxf.xscale) == pytest.approx(36.0)
    assert attributes(doors["d1"])["PROTECTED-BY"] == "dc1"


def test_walls_are_open_where_openings_are() -> None:
    south = map(outline, on_layer(drawing(), "A-WALL", "LWPOLYLINE"))
    on_door = [x for ring in south for x, y in ring if abs(y) <= 3.01 and 12 * 12 - 1 <= x <= 15 * 12 + 1]
    assert {round(x, 6) for x in on_door} >= {144.0, 180.0}


def test_panes_lie_on_the_layer_of_their_state() -> None:
    layers = {"covered": "TY-GLAS-COVR", "partial": "TY-GLAS-PART", "uncovered": "TY-GLAS-MISS"}
    found = {
        data_of(line)["pane"]: layer for layer in layers.values() for line in on_layer(drawing(), layer, "LWPOLYLINE")
    }
    assert found == {pane["id"]: layers[pane["status"]] for pane in answers().check["panes"]}
    assert set(found.values()) == set(layers.values())


def test_home_runs_have_no_width_and_end_at_device_and_can() -> None:
    runs = {data_of(line)["pull"]: line for line in on_layer(drawing(), "TY-CABL-22-4-N", "LWPOLYLINE")}
    keypad = outline(runs["kp1"])
    assert keypad[0] == pytest.approx((132.0, 4.8))
    assert keypad[-1] == pytest.approx((348.0, 144.0))
    assert runs["kp1"].dxf.const_width == 0


def test_run_of_another_level_is_drawn_on_each_level_that_it_crosses() -> None:
    siren = on_layer(drawing(), "TY-CABL-18-2-N", "LWPOLYLINE")
    moved = shifts(answers().plan.levels)[1] * 12
    assert any(point[0] >= moved for line in siren for point in outline(line))


def test_names_come_out_as_they_are() -> None:
    told = {attributes(insert).get("LABEL") for insert in drawing().modelspace().query("INSERT")}
    assert {" ".join(name.split()) for name in EVIL} <= told
    texts = {text.plain_text() for text in drawing().modelspace().query("TEXT")}
    assert any("Obergeschoß" in text for text in texts)


@pytest.mark.parametrize("name", ["50%%c", "%%%", "100%", "a^J", "2^10", "{\\P}", "two\nlines"])
def test_codes_of_the_format_are_only_letters(name: str) -> None:
    text = ezdxf.new().modelspace().add_text(plain(name))
    assert text.plain_text() == " ".join(name.split())


def test_says_that_it_is_confidential_and_which_edition_it_shows() -> None:
    texts = [text.plain_text() for text in drawing().modelspace().query("TEXT")]
    assert any(text.startswith("Confidential: shows where detectors are") for text in texts)
    assert any("Revision 7, 2026-03-02 09:30" in text for text in texts)


def test_every_entity_lies_on_a_layer_that_says_what_it_is() -> None:
    known = {layer.dxf.name for layer in drawing().layers if layer.description}
    assert {entity.dxf.layer for entity in drawing().modelspace()} <= known


def test_a_bare_level_is_a_drawing_too() -> None:
    bare = answers(levels=[{"id": "L1", "name": "Main floor"}], risers=[])
    assert not opened(plan_dxf(bare, EDITION)).audit().errors


def test_a_level_that_is_not_there_is_refused() -> None:
    with pytest.raises(KeyError):
        plan_dxf(answers(), EDITION, "L9")


@pytest.mark.parametrize(("units", "ratio", "paper"), [("imperial", 48, (17.0, 11.0)), ("metric", 50, (420.0, 297.0))])
def test_each_level_has_a_layout_at_a_stated_scale(units: str, ratio: float, paper: tuple[float, float]) -> None:
    document = drawing(units)
    assert document.layouts.names_in_taborder() == ["Model", "Ground floor", "Obergeschoß"]
    layout = document.paperspace("Ground floor")
    window = layout.query("VIEWPORT").last
    assert window.dxf.view_height / window.dxf.height == pytest.approx(ratio)
    size = (layout.dxf.paper_width, layout.dxf.paper_height)
    assert size == pytest.approx(paper if units == "metric" else tuple(25.4 * side for side in paper))
    wide, high = window.dxf.width * ratio, window.dxf.view_height
    x, y = window.dxf.view_center_point.x, window.dxf.view_center_point.y
    for line in on_layer(document, "A-WALL-CNTR", "LINE"):
        if data_of(line)["wall"] != "up1":
            for end in (line.dxf.start, line.dxf.end):
                assert abs(end.x - x) <= wide / 2
                assert abs(end.y - y) <= high / 2
    assert any("Confidential" in text.plain_text() for text in layout.query("TEXT"))


def test_levels_of_one_name_have_layouts_of_their_own() -> None:
    levels = [
        {"id": f"L{n}", "name": "Floor: 1/2", "walls": [{"id": f"w{n}", "a": [0, 0], "b": [9, 0]}]} for n in (1, 2)
    ]
    document = opened(plan_dxf(answers(levels=levels, risers=[]), EDITION))
    assert document.layouts.names_in_taborder() == ["Model", "Floor- 1-2", "Floor- 1-2 2"]
