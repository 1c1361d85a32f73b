"""Every table, described once: as workbook and as CSV it says the same, numbers stay numbers, text stays text."""

from __future__ import annotations

import csv
import io
import zipfile

import openpyxl
import pytest

from app.documents.csv_files import csv_of, csv_zip
from app.documents.tables.all_tables import TABLES, all_tables
from app.documents.tables.measure import CABLE, LENGTH
from app.documents.tables.table import Row, Table, columns
from app.documents.workbook import workbook_of
from app.plan.practice import DESIGN_VALUES
from tests.documents.handed_over import EVIL, FORMULA, answers

HOUSE = answers()
BY_KEY = {table.key: table for table in all_tables(HOUSE)}
BOOK = openpyxl.load_workbook(io.BytesIO(workbook_of(list(BY_KEY.values()), title="A & B", words="Revision 7")))


def column(table: Table, heading: str) -> list[object]:
    place = [one.heading for one in table.columns].index(heading)
    return [table.values(row)[place] for row in table.rows]


def test_every_thing_has_its_row() -> None:
    levels = HOUSE.plan.levels
    assert column(BY_KEY["devices"], "Device") == [device.id for level in levels for device in level.devices]
    assert column(BY_KEY["openings"], "Opening") == ["w1", "w2", "w3", "d1", "c1"]
    assert column(BY_KEY["panes"], "Pane") == ["w1/1", "w1/2", "w2/1", "w3/1"]
    assert column(BY_KEY["practice"], "Key") == [one.key for one in DESIGN_VALUES]
    assert all(column(BY_KEY["practice"], "Source"))
    assert len(BY_KEY["findings"].rows) == len(HOUSE.check["findings"])
    assert column(BY_KEY["pulls"], "Label") == [pull["label"] for pull in HOUSE.wiring["pulls"]]
    assert column(BY_KEY["totals"], "Pulls") == [total["pulls"] for total in HOUSE.wiring["totals"].values()]


def test_an_opening_names_what_protects_it() -> None:
    door = next(row for row in BY_KEY["openings"].rows if row.cells[0] == "d1")
    told = dict(zip((one.heading for one in BY_KEY["openings"].columns), door.cells, strict=True))
    assert told["Contacts"] == HOUSE.house.name("dc1")
    assert told["In stay"] == "at the opening"
    assert told["Leads"] == "outdoors"
    assert "dc1" in door.things


def test_keys_of_the_register_are_those_of_the_tables() -> None:
    assert list(TABLES) == list(BY_KEY)


def test_workbook_has_a_sheet_a_table_with_a_frozen_head_and_a_filter() -> None:
    assert len(BOOK.sheetnames) == len(BY_KEY)
    for sheet, table in zip(BOOK, BY_KEY.values(), strict=True):
        assert [cell.value for cell in sheet[1]] == table.headings
        assert sheet.freeze_panes == "B2"
        assert bool(sheet.auto_filter.ref) == bool(table.rows)
        assert sheet.max_row == len(table.rows) + 1


def test_workbook_read_back_holds_every_value_in_its_kind() -> None:
    for sheet, table in zip(BOOK, BY_KEY.values(), strict=True):
        for row, cells in zip(table.rows, sheet.iter_rows(min_row=2), strict=True):
            for said, cell in zip(table.values(row), cells, strict=True):
                if said in (None, ""):
                    assert cell.value in (None, "")
                elif isinstance(said, str):
                    assert cell.value == said
                    assert cell.data_type == "s"
                else:
                    assert cell.value == pytest.approx(said, abs=1e-9)
                    assert cell.data_type == "n"


def test_no_text_of_a_workbook_is_a_formula_or_a_link() -> None:
    names = [cell.value for cell in BOOK["Devices"]["B"]]
    assert FORMULA in names
    for sheet in BOOK:
        assert all(cell.data_type != "f" and cell.hyperlink is None for row in sheet.iter_rows() for cell in row)


def test_workbook_headings_name_units() -> None:
    assert "Height AFF (ft)" in BY_KEY["devices"].headings
    metric = {table.key: table for table in all_tables(answers(units="metric"))}
    assert "Height AFF (m)" in metric["devices"].headings
    assert "Cut (m)" in metric["pulls"].headings


def test_metric_values_are_metres_of_the_same_lengths() -> None:
    metric = {table.key: table for table in all_tables(answers(units="metric"))}
    for feet, metres in zip(column(BY_KEY["openings"], "Width"), column(metric["openings"], "Width"), strict=True):
        assert metres == pytest.approx(feet * 0.3048, abs=5e-4)
    assert column(metric["openings"], "Width")[0] == pytest.approx(1.829)  # 6 ft


def test_csv_is_rfc_4180_with_a_byte_order_mark() -> None:
    text = csv_of(BY_KEY["devices"])
    assert text.startswith(b"\xef\xbb\xbf")
    assert text.count(b"\r\n") >= len(BY_KEY["devices"].rows)
    rows = list(csv.reader(io.StringIO(text.decode("utf-8-sig"), newline="")))
    assert rows[0] == BY_KEY["devices"].headings
    assert len(rows) == len(BY_KEY["devices"].rows) + 1


def test_csv_guards_text_and_leaves_numbers_alone() -> None:
    table = Table(
        "t", "T", "", columns("Name", ("Up", LENGTH)), (Row(("=1+1", -5.25)), Row(("plain", 3.0))), "imperial"
    )
    assert list(csv.reader(io.StringIO(csv_of(table).decode("utf-8-sig"))))[1:] == [
        ["'=1+1", "-5.25"],
        ["plain", "3.0"],
    ]


@pytest.mark.parametrize("key", list(TABLES))
def test_no_cell_of_any_csv_sets_off_a_formula(key: str) -> None:
    rows = csv.reader(io.StringIO(csv_of(BY_KEY[key]).decode("utf-8-sig"), newline=""))
    for row in rows:
        for cell in row:
            assert not cell.startswith(("=", "@", "\t", "\r")), cell
            assert not cell.startswith(("+", "-")) or _is_number(cell), cell


def test_names_of_any_script_survive_the_csv() -> None:
    names = [row[1] for row in csv.reader(io.StringIO(csv_of(BY_KEY["devices"]).decode("utf-8-sig"), newline=""))]
    assert {name.lstrip("'") for name in names} >= set(EVIL)


def test_zip_holds_a_file_a_table_and_says_what_they_are() -> None:
    archive = zipfile.ZipFile(io.BytesIO(csv_zip(list(BY_KEY.values()), title="A house", words="Revision 7.")))
    assert archive.testzip() is None
    assert set(archive.namelist()) == {"READ-ME.txt", *(f"{key}.csv" for key in BY_KEY)}
    told = archive.read("READ-ME.txt").decode()
    assert "apostrophe" in told
    assert "Revision 7." in told


def test_same_plan_gives_the_same_zip() -> None:
    tables = list(BY_KEY.values())
    assert csv_zip(tables, title="t", words="w") == csv_zip(tables, title="t", words="w")


def test_row_that_does_not_fit_its_columns_is_refused() -> None:
    with pytest.raises(ValueError, match="2 cells under 1 columns"):
        Table("t", "T", "", columns("A"), (Row(("a", "b")),), "imperial")


def test_people_read_lengths_as_the_trade_writes_them() -> None:
    table = Table("t", "T", "", columns(("A", LENGTH), ("B", CABLE), "C"), (Row((12.5, 54.0, "")),), "imperial")
    assert table.shown(table.rows[0]) == ["12'-6\"", "54 ft", "—"]


def test_a_bare_plan_has_every_table() -> None:
    bare = answers(levels=[{"id": "L1", "name": "Main floor"}], risers=[])
    assert {table.key for table in all_tables(bare)} == set(TABLES)


def _is_number(text: str) -> bool:
    try:
        float(text)
    except ValueError:
        return False
    return True
