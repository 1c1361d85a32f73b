"""A drawing or building model by others (DXF, IFC) read into a new plan file, with an account of what was not read."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any, TypeVar

from app.command_line.failing import CannotDo
from app.command_line.out_file import refuse_unwritable, write_whole
from app.command_line.printing import print_json, print_lines
from app.intake.choices import Choices
from app.intake.kinds import LARGEST_DRAWING
from app.intake.opening import Foreign, open_foreign
from app.intake.refused import DrawingRefused
from app.intake.report import Report
from app.intake.roles import ROLES, Role
from app.intake.units import FEET, NAMES
from app.plan.measures import feet_inches, parse_length
from app.plan.reading import plan_value

T = TypeVar("T")
_ROLE_OPTIONS: tuple[tuple[Role, str], ...] = tuple((role, words) for role, words in ROLES.items() if role != "ignore")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("file", metavar="FILE", type=Path, help="a DXF or IFC file")
    parser.add_argument("-o", "--out", metavar="PLAN.json", type=Path, help="the plan file to write")
    parser.add_argument(
        "--list", action="store_true", help="tell layers or storeys, units and sizes, and write nothing"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    for role, words in _ROLE_OPTIONS:
        parser.add_argument(
            f"--{role}", metavar="LAYER", action="append", default=[], help=f"a layer that holds: {words.lower()}"
        )
    parser.add_argument("--units", choices=tuple(FEET), help="what one unit of the drawing is (the header's word)")
    parser.add_argument("--name", help="the plan's name (the file's)")
    parser.add_argument("--level-name", default="Main floor", help="the level's name (Main floor)")
    parser.add_argument(
        "--level",
        metavar="DRAWING[+DRAWING][:NAME]",
        action="append",
        default=[],
        help="which drawing of a sheet makes a level, the lowest first, or all for one level (as --list proposes)",
    )
    parser.add_argument(
        "--floor-to-floor",
        type=_length,
        action="append",
        default=[],
        help="height from a level's floor to the next one's, the last for all above (ceiling + 1')",
    )
    parser.add_argument(
        "--common",
        metavar="DRAWING:X,Y",
        action="append",
        default=[],
        help="a point that the storeys share, as each drawing shows it, in the drawing's unit (found by the walls)",
    )
    parser.add_argument("--storey", metavar="NAME", action="append", default=[], help="an IFC's storey to read (all)")
    usual = Choices()
    for option, value, words in (
        ("ceiling", usual.ceiling, "height of the ceiling"),
        ("sill", usual.sill, "sill of every window, which a drawing in plan does not tell"),
        ("head", usual.head, "head of every opening, which a drawing in plan does not tell"),
        ("thickness", usual.thickness, "thickness of walls drawn as one line"),
    ):
        parser.add_argument(f"--{option}", type=_length, default=value, help=f"{words} ({feet_inches(value)})")


def run(chosen: argparse.Namespace) -> int:
    """Read, write and tell."""
    if chosen.out is None and not chosen.list:
        raise CannotDo("name the plan file to write with -o, or give --list to see what the drawing holds")
    if chosen.out is not None:
        refuse_unwritable(chosen.out)
    opened = _told(lambda: open_foreign(_bytes_of(chosen.file)))
    if chosen.list:
        survey = {key: value for key, value in opened.survey().items() if key != "picture"}
        print_json(survey) if chosen.json else print_lines(_survey_lines(survey))
        return 0
    plan, report = _told(lambda: opened.converted(_choices(chosen, opened)))
    text = json.dumps(plan_value(plan), ensure_ascii=False, indent=1) + "\n"
    write_whole(chosen.out, text.encode())
    print_json(report.value()) if chosen.json else print_lines(_report_lines(report, chosen.out))
    return 0


def _told(work: Callable[[], T]) -> T:
    try:
        return work()
    except DrawingRefused as refused:
        raise CannotDo(str(refused)) from None


def _bytes_of(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            return file.read(LARGEST_DRAWING + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise CannotDo(f"{path}: the file cannot be read ({reason}); check its name and place") from None


def _choices(chosen: argparse.Namespace, opened: Foreign) -> Choices:
    named = {layer: role for role, _ in _ROLE_OPTIONS for layer in getattr(chosen, role)}
    roles: Mapping[str, Role] | None = None
    if named:
        roles = named
    return Choices(
        roles=roles,
        units=chosen.units,
        name=chosen.name or chosen.file.stem or "Read from a drawing",
        level_name=chosen.level_name[:120] or "Main floor",
        ceiling=chosen.ceiling,
        sill=chosen.sill,
        head=chosen.head,
        thickness=chosen.thickness,
        storeys=tuple(chosen.storey),
        levels=tuple(chosen.level),
        floor_to_floor=tuple(chosen.floor_to_floor),
        common=tuple(chosen.common),
    )


def _length(text: str) -> float:
    try:
        return parse_length(text)
    except ValueError as error:
        raise argparse.ArgumentTypeError(str(error)) from None


def _survey_lines(survey: dict[str, Any]) -> Iterator[str]:
    if survey["kind"] == "ifc":
        yield "Storeys"
        for storey in survey["storeys"]:
            counts = ", ".join(f"{count} {kind}" for kind, count in storey["counts"].items())
            yield f"  {storey['name']}: {counts}"
    else:
        yield f"{'Layer':<32} {'taken for':<12} {'lines':>6} {'arcs':>6} {'areas':>6} {'texts':>6} {'other':>6}"
        for layer in survey["layers"]:
            counts = layer["counts"]
            numbers = " ".join(f"{counts[kind]:>6}" for kind in ("lines", "arcs", "areas", "texts", "other"))
            yield f"{layer['name'][:32]:<32} {layer['role']:<12} {numbers}"
        units = survey["units"]
        yield ""
        said, likely = units["said"] or "nothing", units["likely"] or "none"
        yield f"Unit: the header says {said}; by its size it is likely {likely}"
        for unit, (wide, deep) in units["sizes_ft"].items():
            yield f"  in {unit}: {wide:g} x {deep:g} ft"
        yield from _drawing_lines(survey["drawings"])
    yield from survey["notes"]
    yield from _unread_lines(survey["unread"])


def _drawing_lines(drawings: list[dict[str, Any]]) -> Iterator[str]:
    if len(drawings) > 1:
        yield ""
        yield "Drawings on the sheet"
        for one in drawings:
            wide, deep = one["size_ft"]
            taken = f"level {one['level'] + 1}" if one["level"] is not None else f"left out: {one['why']}"
            yield f"  {one['number']}: {one['title'] or 'no title'}, {wide:g} x {deep:g} ft: {taken}"


def _report_lines(report: Report, out: Path) -> Iterator[str]:
    wide, deep = report.size_ft
    counts = ", ".join(f"{count} {kind}" for kind, count in report.read.items())
    yield f"Read in {NAMES[report.units]}: {counts}; {feet_inches(wide)} x {feet_inches(deep)}"
    yield from report.notes
    yield from _unread_lines(report.unread.lines())
    yield f"Written: {out}"


def _unread_lines(unread: list[dict[str, Any]]) -> Iterator[str]:
    if unread:
        yield ""
        yield "Not read"
        for line in unread:
            yield f"  {line['layer']}: {line['count']} {line['kind']}: {line['reason']}"
