"""Reading and writing plan files: bytes or JSON values to a ``Plan``, every fault named at once.

The only way into the program for a plan: nothing else builds a ``Plan`` from outside data.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from app.plan.faults import MOST_FAULTS, Fault, PlanRefused, shown
from app.plan.integrity import MOST_THINGS, integrity_faults
from app.plan.model import FORMAT, Plan
from app.plan.sound_parts import faults_of_sound_parts

LARGEST_FILE = 16 * 1024 * 1024
_MOST_COMPOSED = 2_000  # faults of shape that are put in words, to be told with the others
_FAMILIES = ("walls", "openings", "fixtures", "rooms", "devices")


def read_plan(source: bytes) -> Plan:
    """The plan that a file's bytes say.

    Raises ``PlanRefused`` with every fault found; its ``too_large`` is set where the file is over 16 MiB.
    """
    return plan_from(json_value(source))


def read_plan_file(path: Path) -> Plan:
    """The plan in a file on disk; raises ``PlanRefused``, also where the file cannot be read."""
    try:
        with path.open("rb") as file:
            source = file.read(LARGEST_FILE + 1)
    except OSError as error:
        raise PlanRefused(
            [Fault(str(path), f"the file cannot be read ({error.strerror}); check its name and place")]
        ) from None
    return read_plan(source)


def json_value(source: bytes) -> Any:
    """The JSON value of some bytes; raises ``PlanRefused`` where they are no JSON, too large, or name a key twice."""
    if len(source) > LARGEST_FILE:
        raise PlanRefused(
            [Fault("", f"the file is over {LARGEST_FILE // 2**20} MiB; split the plan or shorten it")], too_large=True
        )
    twice: list[Fault] = []

    def once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        value = dict(pairs)
        if len(value) != len(pairs):
            keys = [key for key, _ in pairs]
            named = sorted({shown(key) for key in keys if keys.count(key) > 1}) if len(keys) < 1000 else ["one"]
            twice.append(Fault(", ".join(named), "the key stands twice in one object; keep one of them"))
        return value

    try:
        value = json.loads(source.decode("utf-8-sig"), object_pairs_hook=once)
    except UnicodeDecodeError as error:
        raise PlanRefused([Fault(f"byte {error.start}", "not UTF-8 text; save the file as UTF-8")]) from None
    except RecursionError:
        raise PlanRefused([Fault("", "the file is nested too deep for a plan; look for unclosed brackets")]) from None
    except json.JSONDecodeError as error:
        place = f"line {error.lineno} column {error.colno}"
        raise PlanRefused([Fault(place, f"not JSON: {error.msg}; mend the file there")]) from None
    except ValueError:
        raise PlanRefused([Fault("", "a number has too many digits; shorten it")]) from None
    if twice:
        raise PlanRefused(twice)
    return value


def plan_from(value: Any) -> Plan:
    """The plan that a JSON value says; raises ``PlanRefused`` with every fault found."""
    if not isinstance(value, dict):
        raise PlanRefused([Fault("", f'a plan is a JSON object with "format": "{FORMAT}"')])
    if value.get("format") != FORMAT:
        found = (
            f"the format {shown(str(value['format'])[:60])} is not known"
            if "format" in value
            else "the format is missing"
        )
        raise PlanRefused([Fault("format", f'{found}; Studbay reads "{FORMAT}"')])
    _refuse_many_things(value)
    try:
        plan = Plan.model_validate(value)
    except ValidationError as error:
        entries = _entries(error)
        if len(entries) > _MOST_COMPOSED:  # a file of nothing but faults is refused as fast as any
            first = entries[:MOST_FAULTS]
            raise PlanRefused(_told(first), untold=len(entries) - len(first)) from None
        others = faults_of_sound_parts(value, (entry["loc"] for entry in entries))
        raise PlanRefused(_told(entries) + others) from None
    if faults := integrity_faults(plan):
        raise PlanRefused(faults)
    return plan


def plan_value(plan: Plan) -> dict[str, Any]:
    """The plan as a JSON value: the file's own keys, each default written out."""
    value: dict[str, Any] = plan.model_dump(mode="json", by_alias=True)
    return value


def plan_schema() -> dict[str, Any]:
    """The JSON Schema of the plan file."""
    schema = Plan.model_json_schema(by_alias=True, mode="validation")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema"} | schema | {"title": FORMAT}


def _refuse_many_things(value: dict[str, Any]) -> None:
    """Count before the models are built, so that a file made to be slow is refused at once."""
    levels = value.get("levels")
    if not isinstance(levels, list):
        return
    count = len(levels) + (len(value["risers"]) if isinstance(value.get("risers"), list) else 0)
    for level in levels:
        if isinstance(level, dict):
            count += sum(len(level[family]) for family in _FAMILIES if isinstance(level.get(family), list))
    if count > MOST_THINGS:
        raise PlanRefused(
            [Fault("levels", f"{count:,} things; a plan holds at most {MOST_THINGS:,}: split it in several plans")]
        )


_MEND = {
    "missing": "is missing; give it",
    "extra_forbidden": "is not a key that is known here; take it out or correct its spelling",
    "finite_number": "must be a finite number, not NaN or infinity",
    "string_unicode": "has a character that is no Unicode text; take it out",
    "string_type": "must be text in quotes",
    "bool_type": "must be true or false",
    "int_type": "must be a whole number",
    "float_type": "must be a number",
    "model_type": "must be an object in braces",
    "model_attributes_type": "must be an object in braces",
    "dict_type": "must be an object in braces",
    "tuple_type": "must be a list in brackets",
}


def faults_of(error: ValidationError, under: str = "") -> list[Fault]:
    """What pydantic found, as faults at places below ``under``; also for parts of a plan that are read alone."""
    return _told(_entries(error), under)


def _told(entries: list[dict[str, Any]], under: str = "") -> list[Fault]:
    faults: dict[tuple[str, str], Fault] = {}
    for entry in entries:
        fault = Fault(_place((under, *entry["loc"]) if under else entry["loc"]), _message(entry))
        faults.setdefault((fault.at, fault.message), fault)
    return list(faults.values())


def _entries(error: ValidationError) -> list[dict[str, Any]]:
    """What pydantic found, less lists that are only short of members that are refused themselves."""
    entries: list[dict[str, Any]] = [dict(entry) for entry in error.errors(include_url=False, include_input=True)]
    depths = {len(entry["loc"]) for entry in entries if entry["type"] == "too_short"}
    holders = {entry["loc"][:depth] for entry in entries for depth in depths if len(entry["loc"]) > depth}
    return [entry for entry in entries if entry["type"] != "too_short" or entry["loc"] not in holders]


def _place(loc: tuple[int | str, ...]) -> str:
    if loc and loc[0] == "practice" and len(loc) > 1:
        return f"practice.{shown(str(loc[1]))}"
    place = ""
    for step in loc:
        place += f"[{step}]" if isinstance(step, int) else f".{shown(str(step))}"
    return place.lstrip(".")


def _message(entry: dict[str, Any]) -> str:
    kind, context = entry["type"], entry.get("ctx", {})
    if kind in _MEND:
        return _MEND[kind]
    if kind == "string_pattern_mismatch":
        return f"{shown(repr(entry['input'])[:60])} is no id; use 1 to 40 of A-Z a-z 0-9 . _ -"
    if kind == "string_too_long":
        return f"is longer than {context['max_length']} characters; shorten it"
    if kind == "string_too_short":
        return "must not be empty"
    if kind == "too_short":
        return f"needs at least {context['min_length']}"
    if kind == "too_long":
        return f"holds {context['actual_length']}; at most {context['max_length']}"
    if kind in ("greater_than_equal", "greater_than", "less_than_equal", "less_than"):
        word = {
            "greater_than_equal": "at least",
            "greater_than": "more than",
            "less_than_equal": "at most",
            "less_than": "less than",
        }
        bound = next(iter(context.values()))
        return f"{entry['input']!s:.40} is out of bounds: give {word[kind]} {bound:g}"
    if kind == "literal_error":
        return f"{shown(repr(entry['input'])[:60])} is not known; give {context['expected']}"
    if kind == "value_error":
        return str(context["error"])
    return shown(str(entry["msg"]))
