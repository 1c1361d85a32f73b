"""``studbay sheets`` and ``compare`` with a letterhead; a kept plan printed by its name, its pictures when asked."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pypdfium2
import pytest

from app.plan.letterhead import Letterhead, PrintHabit, Stationery
from app.plan.placement import Placement
from app.plan.reading import plan_from
from app.plan.template import Template
from app.storage.letterheads import LetterheadStore
from app.storage.opening import open_folder
from app.storage.templates import TemplateStore
from app.storage.underlays import Picture, UnderlayStore
from tests.command_line.running import studbay
from tests.drawing.a_house import house_value
from tests.web.picture_files import drawing, file_of

COMPANY = "Larkspur Wiring"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A data folder with the plan "Two rooms", its letterhead, a picture under it, and a template."""
    plans, content = open_folder(tmp_path / "data"), file_of(drawing())
    kept = plans.add(plan_from(house_value()), "a")
    head = Letterhead(company="Quill and Daughter", phone="555 0100")
    LetterheadStore(plans.engine).save(kept.id, Stationery(letterhead=head, habit=PrintHabit(paper="tabloid")), None)
    TemplateStore(plans.engine).add(Template(name="Timber houses", letterhead=Letterhead(company=COMPANY)))
    picture = Picture(hashlib.sha256(content).hexdigest(), "survey.png", "image/png", 400, 300, None)
    placement = Placement(picture=picture.digest, scale=0.1, origin=(-5.0, 20.0))
    UnderlayStore(plans.engine).lay(kept.id, "L1", picture, content, placement)
    plans.close()
    return tmp_path / "data"


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "plan.json"
    path.write_text(json.dumps(house_value()))
    return path


def pages(path: Path) -> list[str]:
    document = pypdfium2.PdfDocument(path)
    return [page.get_textpage().get_text_bounded() for page in document]


def images(path: Path) -> int:
    document = pypdfium2.PdfDocument(path)
    kind = pypdfium2.raw.FPDF_PAGEOBJ_IMAGE
    return sum(1 for page in document for _ in page.get_objects(filter=[kind], max_depth=8))


def test_the_letterhead_of_a_kept_template_stands_in_every_frame(plan: Path, folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "set.pdf"
    made = studbay("sheets", str(plan), "-o", str(out), "--letterhead", "timber houses", "--data", str(folder))
    assert made.returncode == 0, made.stderr
    assert all(COMPANY in page for page in pages(out))


@pytest.mark.parametrize(
    "value",
    [{"company": COMPANY}, {"letterhead": {"company": COMPANY}}, {"name": "T", "letterhead": {"company": COMPANY}}],
)
def test_a_file_may_hold_the_letterhead_in_each_shape_that_the_program_writes(
    plan: Path, tmp_path: Path, value: dict[str, object]
) -> None:
    head, out, changes = tmp_path / "head.json", tmp_path / "set.pdf", tmp_path / "changes.pdf"
    head.write_text(json.dumps(value))
    assert studbay("sheets", str(plan), "-o", str(out), "--letterhead", str(head)).returncode == 0
    assert all(COMPANY in page for page in pages(out))
    later = tmp_path / "later.json"
    changed = house_value()
    changed["levels"][0]["devices"][0]["at"] = [9, 6]
    later.write_text(json.dumps(changed))
    made = studbay("compare", str(plan), str(later), "-o", str(changes), "--letterhead", str(head))
    assert made.returncode == 0, made.stderr
    assert all(COMPANY in page for page in pages(changes))


def test_a_kept_plan_prints_as_its_page_does_without_its_pictures(folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "set.pdf"
    made = studbay("sheets", "--kept", "Two rooms", "-o", str(out), "--data", str(folder))
    assert made.returncode == 0, made.stderr
    assert "Tabloid" in made.stdout
    assert all("Quill and Daughter" in page for page in pages(out))
    assert "1. Not approved" in pages(out)[1]
    assert images(out) == 0


def test_its_pictures_are_printed_when_asked(folder: Path, tmp_path: Path) -> None:
    out = tmp_path / "set.pdf"
    arguments = ("--kept", "a", "-o", str(out), "--data", str(folder), "--underlays")
    made = studbay("sheets", *arguments, "--letterhead", "Timber houses")
    assert made.returncode == 0, made.stderr
    assert images(out) == 1
    assert all(COMPANY in page and "Quill" not in page for page in pages(out))


def test_what_cannot_be_done_is_told_in_a_line_and_nothing_is_written(plan: Path, folder: Path, tmp_path: Path) -> None:
    broken = tmp_path / "broken.json"
    broken.write_text('{"company": "a\\nb", "motto": 3}')
    no_json = tmp_path / "no.json"
    no_json.write_text("company: Larkspur")
    data = ("--data", str(folder))
    for arguments, words in (
        ((), "name one plan"),
        ((str(plan), "--kept", "a"), "name one plan"),
        ((str(plan), "--underlays"), "a plan file holds no pictures"),
        (("--kept", "Three rooms", *data), "no plan in use has the id or the name 'Three rooms'"),
        ((str(plan), "--letterhead", "Brick houses", *data), "no template is named 'Brick houses'; kept are: Timber"),
        ((str(plan), "--letterhead", str(tmp_path / "none.json")), "the letterhead cannot be read"),
        ((str(plan), "--letterhead", str(broken)), "broken.json: company: "),
        ((str(plan), "--letterhead", str(no_json)), "no.json: "),
    ):
        refused = studbay("sheets", *arguments, "-o", str(tmp_path / "set.pdf"))
        assert refused.returncode == 2, arguments
        assert words in refused.stderr
        assert "Traceback" not in refused.stderr
        assert not (tmp_path / "set.pdf").exists()
