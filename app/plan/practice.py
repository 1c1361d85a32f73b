"""The practice: every design value once, with its unit, default, bounds and source.

A plan overrides any of them by its key (``"glass.range": 12``). Rules, coverage, cable and the page all read
this table; nothing else holds a design value.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any

from app.plan.faults import Fault, shown

COMMON_PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class DesignValue:
    """One value of the practice.

    ``kind`` is "number", "choice", "word" or "numbers"; ``unit`` is how people read it (ft, °, share, dBA, …);
    ``low`` and ``high`` bound a number and each member of numbers; ``source`` says who publishes the value.
    """

    key: str
    default: float | str | tuple[float, ...]
    unit: str
    words: str
    source: str
    low: float = 0.0
    high: float = 0.0
    choices: tuple[str, ...] = ()

    @property
    def kind(self) -> str:
        """Which sort of value this is."""
        if self.choices:
            return "choice"
        if isinstance(self.default, tuple):
            return "numbers"
        return "word" if isinstance(self.default, str) else "number"

    @property
    def heading(self) -> str:
        """The group that the value belongs to: the first part of its key."""
        return self.key.split(".")[0]


def _number(key: str, default: float, unit: str, low: float, high: float, words: str, source: str) -> DesignValue:
    return DesignValue(key, default, unit, words, source, low, high)


def _choice(key: str, default: str, choices: tuple[str, ...], words: str, source: str) -> DesignValue:
    return DesignValue(key, default, "", words, source, choices=choices)


_PREWIRE = "trade article “How to prewire home security” (updated June 2023)"

_WALK_TEST = "UL 1641-2015 15.3.1: a response within four steps of 24 in"
_PILLOW = "NFPA 72 18.4.6, a fire rule, here a yardstick only"

_LISTING = "a round number to begin with, no source: take it from the equipment's listing"
_DIAMETER = "worked from strands, insulation and jacket, no data sheet: measure the reel"

DESIGN_VALUES: tuple[DesignValue, ...] = (
    _number(
        "glass.range",
        15,
        "ft",
        1,
        60,
        "Slant distance within which a glass-break detector is taken to hear a pane, whatever the detector's rating",
        f"{_PREWIRE}: windows in line of sight and within 15 ft",
    ),
    _number(
        "glass.required_fraction",
        1.0,
        "share",
        0.01,
        1.0,
        "Share of a pane that one detector must cover",
        "every part of the glass: common practice, no source",
    ),
    _number(
        "glass.register_clearance",
        3,
        "ft",
        0,
        20,
        "Least distance in plan from a glass-break detector to a supply register",
        COMMON_PRACTICE,
    ),
    _number(
        "glass.least_pane",
        1,
        "sq ft",
        0,
        20,
        "Area below which a pane is small for a glass-break detector",
        "alarm-dealer FAQ: glass of at least 1 sq ft; the detector's listing decides",
    ),
    _choice(
        "doors.taken_as",
        "closed",
        ("closed", "open"),
        "How doors stand for lines of sight",
        "closed is the safe assumption: common practice, no source",
    ),
    _number(
        "motion.range",
        40,
        "ft",
        1,
        100,
        "Reach of a motion detector in plan",
        "sample system design proposals, 12 m × 90° unobstructed",
    ),
    _number(
        "motion.view_angle",
        90,
        "°",
        1,
        360,
        "Whole angle that a motion detector watches",
        "sample system design proposals, 12 m × 90° unobstructed",
    ),
    _number(
        "motion.height",
        7,
        "ft",
        1,
        30,
        "Height of a motion detector above the finished floor",
        f"{_PREWIRE}: 7 ft, corner",
    ),
    _number(
        "motion.target_height",
        3,
        "ft",
        0,
        8,
        "Height above the floor of the person that a motion detector must see",
        COMMON_PRACTICE,
    ),
    _number(
        "motion.height_tolerance",
        0.5,
        "ft",
        0,
        5,
        "How far a motion detector may hang from the usual height before a finding says so",
        COMMON_PRACTICE,
    ),
    _number(
        "motion.corner_within",
        1.25,
        "ft",
        0.1,
        6,
        "Distance from the faces of both walls within which a motion detector counts as in their corner",
        COMMON_PRACTICE,
    ),
    _number(
        "motion.off_bisector",
        25,
        "°",
        1,
        180,
        "How far a motion detector may turn from the bisector of its corner",
        COMMON_PRACTICE,
    ),
    _number(
        "motion.register_clearance",
        8,
        "ft",
        0,
        30,
        "Least distance in plan from a motion detector to a supply register of its room",
        "occupancy-sensor guides, 6 to 8 ft; wiring page, at least 8 ft",
    ),
    _number(
        "motion.gathering_share",
        0.5,
        "share",
        0.01,
        1,
        "Share of a gathering room's floor that motion detectors should watch",
        COMMON_PRACTICE,
    ),
    _number(
        "keypad.height",
        5,
        "ft",
        1,
        8,
        "Height of a keypad above the finished floor",
        f"{_PREWIRE}: 5 ft, stacked above a light switch",
    ),
    _number(
        "keypad.switch_within",
        1,
        "ft",
        0.1,
        6,
        "Distance in plan within which a keypad stands above a light switch",
        COMMON_PRACTICE,
    ),
    _number(
        "keypad.reach",
        4,
        "ft",
        1,
        8,
        "Highest operable part of a keypad where reach is required",
        "ADA 308: 15 to 48 in; CBC 1136A.2: 48 in to the top of the box",
    ),
    _choice(
        "keypad.reach_required",
        "not_asked",
        ("not_asked", "required"),
        "Whether somebody of the house needs the keypads within reach from a chair",
        "ADA 308, here a caution: a private house is seldom bound by it",
    ),
    _number(
        "keypad.sounder",
        70,
        "dBA",
        0,
        120,
        "Level of a keypad's own sounder at 10 ft",
        _LISTING,
    ),
    _number("can.height", 5, "ft", 0, 20, "Height of the can above the finished floor", COMMON_PRACTICE),
    _number("siren.height", 7.5, "ft", 0, 30, "Height of an indoor siren above the finished floor", COMMON_PRACTICE),
    _number("siren.rated", 105, "dBA", 60, 130, "Level of a siren at 10 ft", _LISTING),
    _number(
        "siren.chime_within", 3, "ft", 0, 30, "Distance within which a siren stands beside the chime", COMMON_PRACTICE
    ),
    _number(
        "siren.large_home",
        2500,
        "sq ft",
        0,
        100000,
        "Floor area above which every floor gets a siren of its own",
        "CPSC-ES-0503 (2005), abstract: one alarm does not do for all of a two-level house; the area has no source",
    ),
    _number("sound.bedside", 75, "dBA", 30, 110, "Level that a siren should reach at the pillow", _PILLOW),
    _number(
        "sound.most",
        110,
        "dBA",
        70,
        130,
        "Level above which hearing needs care",
        "NFPA 72 18.4.1.2; NIOSH: 110 dBA, 1.49 min",
    ),
    _number(
        "sound.closed_door",
        17,
        "dB",
        0,
        60,
        "Loss through a closed door on the way",
        "fire-safety research institute, “Close Before You Doze” (2017): 95 dBA open, 78 dBA closed",
    ),
    _number(
        "sound.open_door",
        8,
        "dB",
        0,
        60,
        "Loss through an open door on the way",
        "page on sirens citing EN 54-14 practice: 4 to 12 dB",
    ),
    _number(
        "sound.door",
        20,
        "STC",
        0,
        60,
        "Door leaf in a wall that the way crosses beside it",
        "hollow-core door, STC 19 to 25",
    ),
    _number(
        "sound.wall",
        33,
        "STC",
        0,
        70,
        "Stud wall with gypsum board on each side, no insulation",
        "Forest Products Laboratory report (1975): 32 to 37, commonly 33",
    ),
    _number("sound.window", 26, "STC", 0, 60, "Single window", "municipal acoustic note"),
    _number(
        "sound.floor",
        33,
        "STC",
        0,
        80,
        "Floor between two levels, taken like a stud wall",
        "an assumption of this program, no source",
    ),
    _number(
        "walk.speed",
        2,
        "ft/s",
        0.5,
        10,
        "Speed of a person who walks through the house",
        "UL 1641-2015 15.3.1: one step of 24 in a second",
    ),
    _number("walk.unseen", 8, "ft", 1, 100, "Feet that nobody should walk unnoticed", _WALK_TEST),
    _number(
        "entry.delay",
        30,
        "s",
        0,
        240,
        "Entry delay in which the keypad must be reached; 45 s is the UL ceiling for homes",
        "ANSI/SIA CP-01 4.2.3.1: default 30, range 30 to 240, clause from memory",
    ),
    _number("flood.height", 0.1, "ft", 0, 8, "Height of a flood sensor above the finished floor", COMMON_PRACTICE),
    _number(
        "door_contact.height", 6.667, "ft", 0, 30, "Height of a door contact: at the head of the frame", COMMON_PRACTICE
    ),
    _number(
        "contact.farthest",
        1.5,
        "ft",
        0,
        10,
        "Distance from its opening at which a contact no longer belongs to it",
        COMMON_PRACTICE,
    ),
    _number(
        "contact.track_clearance",
        0.5,
        "ft",
        0,
        3,
        "Least distance from a window's sill or head to a hole in its track",
        COMMON_PRACTICE,
    ),
    _number(
        "opening.reachable",
        12,
        "ft",
        0,
        60,
        "Height of a sill above the datum up to which an opening counts as reachable; roofs below are not on the plan",
        "UL 1641-2015 18.1: 12 ft above a roof or a reachable surface",
    ),
    _number(
        "window_contact.height", 3, "ft", 0, 30, "Height of a window contact above the finished floor", COMMON_PRACTICE
    ),
    _number(
        "overhead_door_contact.height",
        1,
        "ft",
        0,
        30,
        "Height of an overhead-door contact above the finished floor",
        COMMON_PRACTICE,
    ),
    _number("other.height", 4, "ft", 0, 30, "Height of a device of no listed kind", COMMON_PRACTICE),
    _choice(
        "cable.way",
        "overhead",
        ("overhead", "in_walls"),
        "How home runs are measured: over the ceiling along the building's axes, or along the walls",
        COMMON_PRACTICE,
    ),
    _number("cable.above_ceiling", 0.5, "ft", 0, 10, "Height of the cable runs above the ceiling", COMMON_PRACTICE),
    _number(
        "cable.waste", 0.10, "share", 0, 1, "Share added to the measured length for bends and dressing", COMMON_PRACTICE
    ),
    _number(
        "cable.slack_at_device",
        1.5,
        "ft",
        0,
        30,
        "Length left coiled at each device",
        "trade usage, 1 to 1½ ft, no source",
    ),
    _number(
        "cable.slack_at_can", 6, "ft", 0, 60, "Length left at the can for dressing and termination", COMMON_PRACTICE
    ),
    DesignValue(
        "cable.box_sizes",
        (500.0, 1000.0),
        "ft",
        "Lengths of cable that a box holds",
        "trade usage, no source",
        50,
        10000,
    ),
    DesignValue("cable.contact", "22/2", "cable", "Cable to a contact", f"{_PREWIRE}: contacts 22/2"),
    DesignValue(
        "cable.powered", "22/4", "cable", "Cable to a keypad, motion or glass-break detector", f"{_PREWIRE}: 22/4"
    ),
    DesignValue("cable.siren", "18/2", "cable", "Cable to a siren (the voltage drop decides)", COMMON_PRACTICE),
    DesignValue("cable.specialty", "22/2", "cable", "Cable to a flood or other specialty sensor", COMMON_PRACTICE),
    DesignValue("cable.undecided", "22/4", "cable", "Cable to a thing not yet chosen", COMMON_PRACTICE),
    _number("cable.spares_at_keypads", 0, "pulls", 0, 4, "Spare pulls run beside each keypad's own", COMMON_PRACTICE),
    _number("cable.diameter_22_2", 0.126, "in", 0.02, 1, "Outer diameter of 22/2 cable", _DIAMETER),
    _number("cable.diameter_22_4", 0.146, "in", 0.02, 1, "Outer diameter of 22/4 cable", _DIAMETER),
    _number("cable.diameter_18_2", 0.164, "in", 0.02, 1, "Outer diameter of 18/2 cable", _DIAMETER),
    _number(
        "cable.hole_fill",
        0.40,
        "share",
        0.1,
        1,
        "Share of a bored hole that cable may fill",
        "yardstick: NEC Chapter 9 Table 1, 40 % over two cables in a raceway",
    ),
    _number(
        "cable.from_power",
        12,
        "in",
        0,
        48,
        "Distance kept from power cable that runs alongside",
        "ANSI/TIA/EIA-570-A-1 (2002), not the electrical code",
    ),
    _number("power.supply_volts", 12, "V", 5, 30, "Voltage of the panel's supply on mains", COMMON_PRACTICE),
    _number(
        "power.battery_end_volts",
        10.5,
        "V",
        5,
        30,
        "Voltage of the battery at the end of its discharge",
        "IEEE 485 practice, 1.75 V a cell, from memory",
    ),
    _number(
        "power.least_volts",
        10.2,
        "V",
        1,
        30,
        "Least voltage at a device",
        "85 % of 12 V, UL 639 variable-voltage test, from memory; the device's listing decides",
    ),
    _choice(
        "power.conductor",
        "stranded",
        ("stranded", "solid"),
        "Build of the conductors; stranded has about 2 % more resistance",
        "NEC Chapter 9 Table 8",
    ),
    _number("power.auxiliary_limit", 500, "mA", 0, 20000, "What the panel's auxiliary output gives", _LISTING),
    _number("power.siren_limit", 1000, "mA", 0, 20000, "What the panel's siren output gives", _LISTING),
    _number("power.panel_standby", 100, "mA", 0, 20000, "Current of the panel itself on standby", _LISTING),
    _number("power.panel_alarm", 150, "mA", 0, 20000, "Current of the panel itself in alarm", _LISTING),
    _number("power.keypad_standby", 60, "mA", 0, 5000, "Current of a keypad on standby", _LISTING),
    _number("power.keypad_alarm", 120, "mA", 0, 5000, "Current of a keypad in alarm", _LISTING),
    _number("power.motion_standby", 15, "mA", 0, 5000, "Current of a motion detector on standby", _LISTING),
    _number("power.motion_alarm", 20, "mA", 0, 5000, "Current of a motion detector in alarm", _LISTING),
    _number("power.glass_break_standby", 15, "mA", 0, 5000, "Current of a glass-break detector on standby", _LISTING),
    _number("power.glass_break_alarm", 20, "mA", 0, 5000, "Current of a glass-break detector in alarm", _LISTING),
    _number("power.siren_standby", 0, "mA", 0, 5000, "Current of a siren on standby", _LISTING),
    _number("power.siren_alarm", 500, "mA", 0, 5000, "Current of a siren in alarm", _LISTING),
    _number("power.flood_standby", 0, "mA", 0, 5000, "Current of a flood sensor on standby", _LISTING),
    _number("power.flood_alarm", 0, "mA", 0, 5000, "Current of a flood sensor in alarm", _LISTING),
    _number(
        "power.smoke_standby", 5, "mA", 0, 5000, "Current of a smoke alarm wired to the panel, on standby", _LISTING
    ),
    _number("power.smoke_alarm", 50, "mA", 0, 5000, "Current of a smoke alarm wired to the panel, in alarm", _LISTING),
    _number("power.other_standby", 25, "mA", 0, 5000, "Current of a device not yet chosen, on standby", _LISTING),
    _number("power.other_alarm", 25, "mA", 0, 5000, "Current of a device not yet chosen, in alarm", _LISTING),
    _choice(
        "battery.basis",
        "burglary_4h",
        ("burglary_4h", "premises_24h", "fire_24h", "en_12h"),
        "Standby and alarm time that the battery is sized for; smoke on the panel asks for fire_24h at least",
        "CSAA STA 1 Guide 2.4; NFPA 731-2008; NFPA 72 household; EN 50131-1 grade 2, from memory",
    ),
    _choice(
        "battery.margin",
        "nfpa_72_2022",
        ("nfpa_72_2022", "nfpa_72_2010_2019"),
        "Edition whose margin the battery's capacity gets: × 1.25 since 2022, × 1.20 before",
        "page “Increased NFPA 72 Battery Capacity Safety Factor”",
    ),
    DesignValue(
        "battery.sizes",
        (4.0, 7.0, 7.2, 10.0, 12.0, 18.0, 26.0, 40.0, 55.0),
        "Ah",
        "Capacities in which batteries come",
        "study guide “Battery Sizing and Secondary Power”",
        0.5,
        500,
    ),
    _number(
        "battery.charger_limit",
        0,
        "Ah",
        0,
        500,
        "Largest battery that the panel charges; 0 where not entered",
        _LISTING,
    ),
    _number("zone.inputs", 16, "inputs", 1, 500, "Zone inputs of the panel with its expanders", _LISTING),
    _number(
        "zone.most_contacts",
        10,
        "contacts",
        1,
        10,
        "Most contacts that share a zone",
        "CLC/TS 50131-7, per-point indication",
    ),
    _choice(
        "zone.grouping",
        "as_needed",
        ("as_needed", "always", "never"),
        "Whether window contacts share zones by floor and side: only when inputs run short, always, or never",
        "each opening its own zone where possible: trade page on alarm wire",
    ),
    _number(
        "zone.eol_ohms",
        2000,
        "Ω",
        0,
        100000,
        "End-of-line resistor, at the last device of a zone",
        "study cards of a national training manual; the panel's listing decides",
    ),
    _number(
        "zone.loop_limit", 100, "Ω", 1, 10000, "Most resistance of a zone's wire", "a frequent panel limit, from memory"
    ),
)

DESIGN_VALUE: Mapping[str, DesignValue] = {value.key: value for value in DESIGN_VALUES}
HEADINGS = frozenset(value.heading for value in DESIGN_VALUES)


class Practice:
    """The design values in force for one plan: the table's defaults under the plan's overrides."""

    def __init__(self, overrides: Mapping[str, Any] | None = None) -> None:
        self._overrides = dict(overrides or {})

    def _value(self, key: str) -> Any:
        return self._overrides.get(key, DESIGN_VALUE[key].default)

    def number(self, key: str) -> float:
        """The value of a number, in its unit."""
        return float(self._value(key))

    def text(self, key: str) -> str:
        """The value of a choice or a word."""
        return str(self._value(key))

    def numbers(self, key: str) -> tuple[float, ...]:
        """The members of a list of numbers, smallest first, each once."""
        return tuple(sorted({float(member) for member in self._value(key)}))

    def is_default(self, key: str) -> bool:
        """Whether the plan leaves the table's default in force."""
        return key not in self._overrides


def flatten(overrides: Mapping[str, Any]) -> dict[str, Any]:
    """Overrides with dotted keys: ``{"doors": {"taken_as": "open"}}`` is read as ``{"doors.taken_as": "open"}``."""
    flat: dict[str, Any] = {}
    for key, value in overrides.items():
        if isinstance(value, Mapping) and key in HEADINGS:
            flat.update({f"{key}.{inner}": member for inner, member in value.items()})
        else:
            flat[key] = value
    return flat


def practice_faults(overrides: Mapping[str, Any]) -> list[Fault]:
    """Every override that the table does not know or that lies outside its bounds."""
    faults = []
    for key, value in overrides.items():
        at = f"practice.{shown(key)}"
        known = DESIGN_VALUE.get(key)
        if known is None:
            near = get_close_matches(key, DESIGN_VALUE, n=3, cutoff=0.4) or list(DESIGN_VALUE)[:3]
            faults.append(Fault(at, f"no such design value; take it out or write {' or '.join(near)}"))
        elif (message := _refusal(known, value)) is not None:
            faults.append(Fault(at, message))
    return faults


def _refusal(known: DesignValue, value: Any) -> str | None:
    if known.kind == "choice":
        return None if value in known.choices else f"give one of {', '.join(known.choices)}"
    if known.kind == "word":
        fits = isinstance(value, str) and 0 < len(value.strip()) <= 40 and value.isprintable()
        return None if fits else "give a cable such as 22/4, of 1 to 40 characters"
    bounds = f"between {known.low:g} and {known.high:g} {known.unit}".strip()
    if known.kind == "numbers":
        fits = (
            isinstance(value, list | tuple) and 0 < len(value) <= 12 and all(_within(known, member) for member in value)
        )
        return None if fits else f"give a list of 1 to 12 numbers {bounds}"
    return None if _within(known, value) else f"give a number {bounds}"


def _within(known: DesignValue, value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and known.low <= value <= known.high
