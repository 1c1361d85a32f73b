"""Everything as one file: from one store to another byte for byte; nothing overwritten; hostile files refused."""

from __future__ import annotations

import hashlib
import io
import json
import sqlite3
import zipfile
from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from app.plan.as_built import NOTHING_BUILT, as_built_value
from app.plan.letterhead import Letterhead, PrintHabit, Stationery
from app.plan.placement import Placement
from app.plan.reading import plan_from
from app.plan.template import Template
from app.storage.as_built import AsBuiltStore
from app.storage.history import History
from app.storage.letterheads import LetterheadStore
from app.storage.opening import open_folder
from app.storage.pack.merging import merge_pack
from app.storage.pack.reading import read_pack
from app.storage.pack.writing import write_pack
from app.storage.place import DATABASE_NAME
from app.storage.plans import PlanStore
from app.storage.templates import TemplateStore
from app.storage.troubles import PackRefused
from app.storage.underlays import Picture, UnderlayStore
from tests.web.picture_files import drawing, file_of
from tests.web.plan_values import den, grid


def emptied(folder: Path) -> PlanStore:
    """A store without the samples."""
    store = open_folder(folder)
    with store.engine.begin() as connection:
        for table in ("revisions", "plans"):
            connection.exec_driver_sql(f"DELETE FROM {table}")
    return store


@pytest.fixture
def full(tmp_path: Path) -> Iterator[PlanStore]:
    """A store with a plan that has all that a plan can have, a removed plan, and a template."""
    store = emptied(tmp_path / "full")
    store.add(plan_from(den("a, first")), "a")
    store.save("a", plan_from(den("a, second")), 1)
    History(store.engine).name("a", 1, "A", "for approval", "R. Quill", 0)
    History(store.engine).approve("a", 1, "The Larches", date(2026, 11, 12), "", 1)
    AsBuiltStore(store.engine).save("a", json.dumps(as_built_value(NOTHING_BUILT)).encode(), 0, 0)
    content = file_of(drawing())
    picture = Picture(hashlib.sha256(content).hexdigest(), "sketch.png", "image/png", 400, 300, 96.0)
    UnderlayStore(store.engine).lay("a", "L1", picture, content, Placement(picture=picture.digest, scale=0.05))
    head = Stationery(letterhead=Letterhead(company="Larkspur"), habit=PrintHabit(paper="a3"))
    LetterheadStore(store.engine).save("a", head, 0)
    store.add(plan_from(grid(3, 3, windows=4, detectors=1)), "b")
    store.remove("b", 1)
    TemplateStore(store.engine).add(Template(name="Houses", practice={"glass.range": 20}, usual=True))
    yield store
    store.close()


def packed(store: PlanStore, **choices: bool) -> bytes:
    held = io.BytesIO()
    write_pack(store.engine, held, **choices)
    return held.getvalue()


def bring(store: PlanStore, source: bytes) -> list[tuple[str, str]]:
    """What came in and how."""
    return [(each.id, each.how) for each in merge_pack(store.engine, read_pack(io.BytesIO(source)))]


def rows(store: PlanStore) -> dict[str, list[Any]]:
    """Every row of the store."""
    names = ("plans", "revisions", "history", "as_built", "pictures", "underlays", "letterheads", "templates")
    with store.engine.connect() as connection:
        return {
            name: sorted(map(tuple, connection.exec_driver_sql(f"SELECT * FROM {name}")), key=repr) for name in names
        }


def test_what_goes_out_of_one_store_is_the_same_in_another(full: PlanStore, tmp_path: Path) -> None:
    other = emptied(tmp_path / "other")
    assert {how for _, how in bring(other, packed(full))} == {"in"}
    assert rows(other) == rows(full)
    assert [other.revision("a", n).content for n in (1, 2)] == [full.revision("a", n).content for n in (1, 2)]
    assert History(other.engine).of("a").approved == History(full.engine).of("a").approved
    assert [entry.id for entry in other.removed()] == ["b"]
    other.put_back("b")
    other.save("a", plan_from(den("a, third")), 2)  # it goes on where it was
    other.close()


def test_a_pack_brought_in_twice_changes_nothing_the_second_time(full: PlanStore, tmp_path: Path) -> None:
    before = rows(full)
    assert {how for _, how in bring(full, packed(full))} == {"here"}
    assert rows(full) == before


def test_a_plan_that_went_on_here_holds_what_an_older_pack_has(full: PlanStore) -> None:
    older = packed(full)
    full.save("a", plan_from(den("a, third")), 2)
    before = rows(full)
    assert dict(bring(full, older))["a"] == "here"
    assert rows(full) == before


def test_another_plan_of_the_same_id_comes_in_as_a_copy_that_says_so(full: PlanStore, tmp_path: Path) -> None:
    other = emptied(tmp_path / "other")
    other.add(plan_from(den("not the same house")), "a")
    before = other.newest("a")
    (copy, how), *_ = bring(other, packed(full))
    assert (copy != "a", how) == (True, "copy")
    assert other.newest("a") == before
    assert other.newest(copy).plan().name == "a, second (brought in)"
    assert [entry.number for entry in other.revisions(copy)] == [3, 2, 1]
    assert other.revision(copy, 2).content == full.revision("a", 2).content
    assert bring(other, packed(full))[0] == (copy, "here")  # once is enough
    other.close()


def test_a_change_of_the_underlay_alone_is_another_content(full: PlanStore, tmp_path: Path) -> None:
    older = packed(full)
    laid = UnderlayStore(full.engine).under("a", "L1")
    moved = laid.placement.model_copy(update={"turn": 3.0})
    UnderlayStore(full.engine).place("a", "L1", moved, 1)
    assert dict(bring(full, older)).get("a") is None
    assert UnderlayStore(full.engine).under("a", "L1").placement == moved


def test_a_template_of_a_given_name_comes_in_under_another(full: PlanStore, tmp_path: Path) -> None:
    other = emptied(tmp_path / "other")
    TemplateStore(other.engine).add(Template(name="houses", usual=True))
    bring(other, packed(full))
    names = {(each.template.name, each.template.usual) for each in TemplateStore(other.engine).listed()}
    assert names == {("houses", True), ("Houses (brought in)", False)}
    bring(other, packed(full))
    assert len(TemplateStore(other.engine).listed()) == 2
    other.close()


def test_removed_plans_stay_out_where_they_are_not_wanted(full: PlanStore) -> None:
    names = zipfile.ZipFile(io.BytesIO(packed(full, removed=False))).namelist()
    assert any(name.startswith("plans/a/") for name in names)
    assert not any(name.startswith("plans/b/") for name in names)


def test_a_damaged_revision_is_left_out_and_told(full: PlanStore, tmp_path: Path) -> None:
    with sqlite3.connect(tmp_path / "full" / DATABASE_NAME) as connection:
        connection.execute("UPDATE revisions SET content = zeroblob(9) WHERE plan_id = 'a' AND number = 2")
    connection.close()
    held = io.BytesIO()
    told = write_pack(full.engine, held)
    assert told.left_out == [
        "revision 2 of a, second (a) is damaged and was left out",
        "edition 1 of what was built of a speaks of revision 2 and was left out",
    ]
    other = emptied(tmp_path / "other")
    bring(other, held.getvalue())
    assert other.newest("a").plan().name == "a, first"
    other.close()


def changed(source: bytes, change: Callable[[dict[str, bytes]], Any]) -> bytes:
    """The pack after a change of its files."""
    with zipfile.ZipFile(io.BytesIO(source)) as pack:
        files = {name: pack.read(name) for name in pack.namelist()}
    change(files)
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as pack:
        for name, content in files.items():
            pack.writestr(name, content)
    return held.getvalue()


def edit(name: str, old: bytes, new: bytes) -> Callable[[dict[str, bytes]], None]:
    """A change of one file's text."""

    def change(files: dict[str, bytes]) -> None:
        assert old in files[name]
        files[name] = files[name].replace(old, new)

    return change


HOSTILE: dict[str, tuple[Callable[[dict[str, bytes]], Any], str]] = {
    "a path that leads out": (lambda f: f.update({"../../evil.json": b"x"}), r"\.\./evil\.json is no part"),
    "a path from the root": (lambda f: f.update({"/etc/passwd": b"x"}), "no part of a pack"),
    "a path of another system": (lambda f: f.update({"plans\\a\\plan.json": b"x"}), "no part of a pack"),
    "a plan whose id leads up": (lambda f: f.update({"plans/../plan.json": b"x"}), "speaks of it"),
    "a file nobody speaks of": (lambda f: f.update({"plans/a/revisions/9.json": b"{}"}), "nothing in it speaks of it"),
    "a bomb": (lambda f: f.update({"plans/a/revisions/9.json": b" " * 15_000_000}), "times its size"),
    "a huge file": (lambda f: f.update({"plans/a/plan.json": b" " * 17_000_000}), "over 16 MiB"),
    "no manifest": (lambda f: f.pop("manifest.json"), "manifest.json is missing"),
    "another format": (edit("manifest.json", b"studbay-pack/1", b"studbay-pack/9"), 'reads "studbay-pack/1"'),
    "a revision missing": (lambda f: f.pop("plans/a/revisions/1.json"), "revisions/1.json is missing"),
    "a changed plan": (edit("plans/a/revisions/1.json", b"a, first", b"a, hacks"), "checksum is not met"),
    "a broken manifest": (lambda f: f.update({"manifest.json": b"{"}), "manifest.json: "),
    "a list of dots": (edit("manifest.json", b'"a"', b'".."'), "is no id"),
    "an unknown key": (edit("plans/a/plan.json", b'"removed"', b'"erased"'), "plan.json: "),
    "another newest": (edit("plans/a/plan.json", b'"revision": 2', b'"revision": 1'), "not the newest"),
    "a forged approval": (edit("plans/a/plan.json", b'2,\n   "number": 1', b'2,\n   "number": 2'), "history"),
    "a lawless template": (lambda f: _first(f, "templates/", b'range": 20', b'range": -20'), "practice.glass.range"),
    "a picture that is none": (lambda f: _first(f, "plans/a/pictures/", b"PNG", b"PNO"), "checksum is not met"),
}  # fmt: skip


def _first(files: dict[str, bytes], under: str, old: bytes, new: bytes) -> None:
    name = next(name for name in files if name.startswith(under))
    edit(name, old, new)(files)


@pytest.mark.parametrize("what", HOSTILE)
def test_a_hostile_pack_is_refused_in_one_line_and_nothing_comes_in(full: PlanStore, tmp_path: Path, what: str) -> None:
    change, words = HOSTILE[what]
    other = emptied(tmp_path / "other")
    before = rows(other)
    with pytest.raises(PackRefused, match=words) as told:
        bring(other, changed(packed(full), change))
    assert "\n" not in str(told.value)
    assert rows(other) == before
    other.close()


def test_other_files_and_torn_ones_are_refused(full: PlanStore) -> None:
    whole = packed(full)
    for source in (b"", b"no zip" * 99, whole[: len(whole) // 2], file_of(drawing())):
        with pytest.raises(PackRefused, match="no pack"):
            read_pack(io.BytesIO(source))
    spoiled = bytearray(whole)
    spoiled[len(whole) // 3] ^= 0xFF
    with pytest.raises(PackRefused):
        read_pack(io.BytesIO(bytes(spoiled)))


def test_a_name_twice_in_the_zip_is_refused(full: PlanStore) -> None:
    held = io.BytesIO(packed(full))
    with zipfile.ZipFile(held, "a") as pack, pytest.warns(UserWarning, match="Duplicate"):
        pack.writestr("manifest.json", "{}")
    with pytest.raises(PackRefused, match="twice"):
        read_pack(held)


def test_where_the_store_fails_half_way_nothing_is_kept(full: PlanStore, tmp_path: Path) -> None:
    other = emptied(tmp_path / "other")
    pack = read_pack(io.BytesIO(packed(full)))
    with other.engine.begin() as connection:
        connection.exec_driver_sql(
            "CREATE TRIGGER full_disk BEFORE INSERT ON templates BEGIN SELECT RAISE(ABORT, 'no room'); END"
        )
    before = rows(other)
    with pytest.raises(Exception, match="no room"):
        merge_pack(other.engine, pack)
    assert rows(other) == before
    other.close()
