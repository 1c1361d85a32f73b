"""The fields of every kind of thing: which differ, what people call them, and their values in the plan's units.

A field left empty that holds by practice is compared by the value in force, so that writing a default out is no change.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from app.plan.devices import DEVICE_KIND, cable_of, height_of, range_of, view_angle_of
from app.plan.measures import length_text
from app.plan.model import Device, Level, Opening, Plan
from app.review.comparison.changes import FieldChange
from app.review.comparison.shapes import SAME


@dataclass(frozen=True)
class Setting:
    """Where a thing stands: its plan, and its level if it has one."""

    plan: Plan
    level: Level | None


@dataclass(frozen=True)
class _Field:
    """A field: its key in the file, its words, how its value is said, and what holds where it is empty."""

    key: str
    words: str
    say: Callable[[Any, str], str]
    usual: str = "none"
    in_force: Callable[[Any, Setting], Any] | None = None


def field_changes(family: str, old: Any, new: Any, settings: tuple[Setting, Setting]) -> Iterator[FieldChange]:
    """The fields of one thing that differ between an old and a new plan (``settings``)."""
    units = settings[1].plan.units
    for field in _FIELDS[family]:
        before, after = getattr(old, field.key), getattr(new, field.key)
        if same_value(before, after):
            continue
        if field.in_force is not None:
            before, after = field.in_force(old, settings[0]), field.in_force(new, settings[1])
            if same_value(before, after):
                continue
        yield FieldChange(field.key, field.words, _said(field, before, units), _said(field, after, units))


def same_value(one: Any, two: Any) -> bool:
    """Whether two values are one, up to rounding."""
    if isinstance(one, (int, float)) and isinstance(two, (int, float)) and not isinstance(one, bool):
        return abs(one - two) <= SAME
    return bool(one == two)


def _said(field: _Field, value: Any, units: str) -> str:
    return field.usual if value is None or value == "" else field.say(value, units)


def _length(value: Any, units: str) -> str:
    return length_text(value, units)


def _text(value: Any, _units: str) -> str:
    return str(value).replace("_", " ")


def _as_typed(value: Any, _units: str) -> str:
    return str(value)


def _flag(value: Any, _units: str) -> str:
    return "yes" if value else "no"


def _angle(value: Any, _units: str) -> str:
    return f"{value % 360 if value > 360 or value < 0 else value:g}°"


def _kind(value: Any, _units: str) -> str:
    return DEVICE_KIND[value].name


def _of_device(read: Callable[..., Any], *with_level: bool) -> Callable[[Device, Setting], Any]:
    def in_force(device: Device, setting: Setting) -> Any:
        practice = setting.plan.practice_in_force
        return read(device, setting.level, practice) if with_level else read(device, practice)

    return in_force


def _facing(device: Device, _setting: Setting) -> float | None:
    return None if device.facing is None else round(device.facing % 360, 6) % 360


def _glazed(opening: Opening, _setting: Setting) -> bool:
    return opening.has_glass


def _opens(opening: Opening, _setting: Setting) -> bool:
    return opening.opens


_BY_PRACTICE = "by practice"
_FIELDS: Mapping[str, tuple[_Field, ...]] = {
    "levels": (
        _Field("name", "name", _as_typed),
        _Field("elevation", "floor above datum", _length),
        _Field("ceiling", "ceiling", _length),
    ),
    "walls": (
        _Field("thickness", "thickness", _length),
        _Field("height", "height", _length, "to the ceiling"),
    ),
    "openings": (
        _Field("kind", "kind", _text),
        _Field("width", "width", _length),
        _Field("sill", "sill", _length),
        _Field("head", "head", _length),
        _Field("glazed", "glass", _flag, in_force=_glazed),
        _Field("panes", "lites", _as_typed),
        _Field("operable", "opens", _flag, in_force=_opens),
        _Field("leaf", "leaf", _text),
        _Field("exterior", "to outdoors", _flag, "worked out"),
    ),
    "fixtures": (
        _Field("kind", "kind", _text),
        _Field("label", "label", _as_typed),
        _Field("base", "base", _length),
        _Field("top", "top", _length, "the ceiling"),
        _Field("height", "height", _length),
    ),
    "rooms": (_Field("name", "name", _as_typed), _Field("use", "use", _text)),
    "devices": (
        _Field("kind", "kind", _kind),
        _Field("label", "label", _as_typed),
        _Field("height", "height", _length, _BY_PRACTICE, _of_device(height_of, True)),
        _Field("facing", "facing", _angle, "not said", _facing),
        _Field("mount", "mount", _text, _BY_PRACTICE),
        _Field("range", "range", _length, _BY_PRACTICE, _of_device(range_of)),
        _Field("view_angle", "view angle", _angle, _BY_PRACTICE, _of_device(view_angle_of)),
        _Field("cable", "cable", _as_typed, "none", _of_device(cable_of)),
        _Field("note", "note", _as_typed),
    ),
    "risers": (),
}
