"""The letterhead that a command prints: of a kept template, or of a file."""

from __future__ import annotations

import argparse
from pathlib import Path

from pydantic import ValidationError

from app.command_line.data_folder import opened, store_troubles
from app.command_line.failing import CannotDo
from app.plan.faults import PlanRefused
from app.plan.letterhead import Letterhead, Stationery
from app.plan.reading import LARGEST_FILE, faults_of, json_value
from app.plan.template import template_from

_SHAPES = "a letterhead, what a plan prints with, or a template"


def add_letterhead_argument(parser: argparse.ArgumentParser) -> None:
    """Let a command take a letterhead."""
    parser.add_argument(
        "--letterhead",
        metavar="NAME",
        default="",
        help=f"what stands in every frame: a kept template's name or id, or a JSON file (.json) with {_SHAPES}",
    )


def letterhead_named(name: str, data: Path | None) -> tuple[str, ...]:
    """The lines of a file's letterhead, or of a template kept in a data folder; raises ``CannotDo``."""
    if name.lower().endswith(".json"):
        return tuple(_in_file(Path(name)).lines())
    return tuple(_of_template(name, data).lines())


def _in_file(path: Path) -> Letterhead:
    try:
        with path.open("rb") as file:
            value = json_value(file.read(LARGEST_FILE + 1))
        if isinstance(value, dict) and "name" in value:
            return template_from(value).letterhead
        if isinstance(value, dict) and "letterhead" in value:
            return Stationery.model_validate(value).letterhead
        return Letterhead.model_validate(value)
    except (OSError, ValueError) as broken:
        if isinstance(broken, PlanRefused):
            raise CannotDo(*(f"{path}: {fault}" for fault in broken.faults)) from None
        if isinstance(broken, ValidationError):
            raise CannotDo(*(f"{path}: {fault}" for fault in faults_of(broken))) from None
        words = broken.strerror if isinstance(broken, OSError) else "a name that no file can have"
        raise CannotDo(f"{path}: the letterhead cannot be read ({words}); check its name and place") from None


def _of_template(name: str, data: Path | None) -> Letterhead:
    from app.storage.templates import TemplateStore  # as in data_folder

    store = opened(data)
    try:
        with store_troubles():
            kept = TemplateStore(store.engine).listed()
    finally:
        store.close()
    wanted = name.strip().casefold()
    for each in kept:
        if wanted in (each.id.casefold(), each.template.name.casefold()):
            return each.template.letterhead
    known = ", ".join(each.template.name for each in kept[:12]) or "none"
    raise CannotDo(f"--letterhead: no template is named {name[:60]!r}; kept are: {known}. A file's name ends in .json")
