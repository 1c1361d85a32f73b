"""What is wrong with a plan's cable and power, as data: each rule with its words, what would mend it, and its source.

The review registers these beside its own rules; nothing here promises that a system complies with any code.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from app.plan.practice import COMMON_PRACTICE, DESIGN_VALUE
from app.wiring.electric.conductors import make_of
from app.wiring.electric.power import CLASS_2_SOURCE, CLASS_2_VOLT_AMPERES, CLASS_2_VOLTS
from app.wiring.electric.zones import zones_at
from app.wiring.pulls import Pull
from app.wiring.routes.waypoints import HOW_TO_WRITE, has_waypoints, waypoints_of
from app.wiring.wiring import Wiring

Judged = Iterator[tuple[tuple[str, ...], str]]  # the ids of the things, and what is to be said of them
LIGHTEST_GAUGE = 22


@dataclass(frozen=True)
class WiringRule:
    """A rule on cable or power: ``words`` say what is asked, ``mend`` what to do, ``source`` who publishes it."""

    name: str
    severity: Literal["must", "should", "note"]
    words: str
    mend: str
    source: str
    judge: Callable[[Wiring], Judged]


def wiring_findings(wiring: Wiring) -> list[dict[str, Any]]:
    """Every finding of every rule, as the objects of ``check --json``."""
    return [
        {
            "rule": rule.name,
            "severity": rule.severity,
            "things": list(things),
            "message": message,
            "source": rule.source,
        }
        for rule in WIRING_RULES
        for things, message in rule.judge(wiring)
    ]


def _no_can(wiring: Wiring) -> Judged:
    if wiring.pulls and not wiring.cans:
        things = _devices(wiring.pulls)
        yield things, f"There is no can, so {_count(things, 'device has', 'devices have')} no home run; place a can."


def _unreached(wiring: Wiring) -> Judged:
    if not wiring.cans:
        return
    for level in wiring.plan.levels:
        things = _devices(pull for pull in wiring.pulls if pull.level.id == level.id and pull.way is None)
        if not things:
            continue
        if any(can.id == level.id for can, _ in wiring.cans) or wiring.practice.text("cable.way") == "in_walls":
            lacking = "no way along the walls leads to a can; join the walls, or add a riser or a can"
        else:
            lacking = "no riser, nor chain of them, links this level to one with a can; add a riser or a can"
        yield things, f"{_count(things, 'device', 'devices')} of {level.name} cannot be wired: {lacking}."


def _longer_than_box(wiring: Wiring) -> Judged:
    largest = max(wiring.practice.numbers("cable.box_sizes"))
    for pull in wiring.pulls:
        if pull.cut_ft is not None and pull.cut_ft > largest:
            yield (
                (pull.device.id,),
                f"{pull.label} takes {pull.cut_ft} ft of {pull.cable} in one piece and the largest box holds "
                f"{largest:g} ft; place a can nearer, or add a larger box to cable.box_sizes.",
            )


def _waypoints(wiring: Wiring) -> Judged:
    for pull in wiring.pulls:
        if has_waypoints(pull.device) and not waypoints_of(pull.device) and pull.carries != "spare":
            yield (
                (pull.device.id,),
                f"The way-points in the note of {pull.name} cannot be read and its run takes the shortest way; "
                f"{HOW_TO_WRITE}.",
            )


def _gauge(wiring: Wiring) -> Judged:
    by_cable: dict[str, list[Pull]] = {}
    for pull in wiring.pulls:
        by_cable.setdefault(pull.cable, []).append(pull)
    for cable, pulls in by_cable.items():
        made, things = make_of(cable), _devices(pulls)
        if made is not None and made.gauge > LIGHTEST_GAUGE:
            yield things, f"{cable} is lighter than {LIGHTEST_GAUGE} AWG; choose {LIGHTEST_GAUGE}/{made.conductors}."


def _low_volts(wiring: Wiring) -> Judged:
    least = wiring.practice.number("power.least_volts")
    for feed in wiring.feeds:
        if feed.hot_volts is not None and feed.hot_volts < least - 1e-9:
            gauge = feed.gauge_that_holds
            heavier = f"use {gauge} AWG" if gauge is not None else "no gauge down to 12 AWG carries it that far"
            yield (
                (feed.pull.device.id,),
                f"{feed.pull.label} gets {max(feed.hot_volts, 0):.2f} V at {feed.milliamperes:g} mA over "
                f"{feed.one_way_ft:g} ft one way of {feed.pull.cable} at 75 °C, below {least:g} V; "
                f"{heavier}, or place a can within {feed.longest_ft:.0f} ft, or feed fewer loads.",
            )


def _battery_end(wiring: Wiring) -> Judged:
    least = wiring.practice.number("power.least_volts")
    low = [feed.pull for feed in wiring.feeds if feed.battery_volts is not None and feed.battery_volts < least - 1e-9]
    if low:
        end = wiring.practice.number("power.battery_end_volts")
        yield (
            _devices(low),
            f"When the battery is down to {end:g} V, {', '.join(pull.label for pull in low)} would get less than "
            f"{least:g} V at 75 °C; heavier cable, a second can or a larger battery gives room.",
        )


def _unknown_gauge(wiring: Wiring) -> Judged:
    for feed in wiring.feeds:
        if feed.hot_volts is None:
            yield (
                (feed.pull.device.id,),
                f"The voltage at {feed.pull.label} is not known: “{feed.pull.cable}” does not name a gauge; "
                "write the cable as gauge/conductors, such as 22/4.",
            )


def _auxiliary(wiring: Wiring) -> Judged:
    limit = wiring.practice.number("power.auxiliary_limit")
    for supply in wiring.supplies:
        if supply.auxiliary_alarm > limit:
            over = supply.auxiliary_alarm - limit
            yield (
                (supply.can,),
                f"Devices on {supply.can} draw {supply.auxiliary_alarm:g} mA and its auxiliary output gives "
                f"{limit:g} mA; take off {over:g} mA, add a second can with a supply, or enter the listed output.",
            )


def _siren_output(wiring: Wiring) -> Judged:
    limit = wiring.practice.number("power.siren_limit")
    for supply in wiring.supplies:
        if supply.siren_alarm > limit:
            yield (
                (supply.can,),
                f"Sirens on {supply.can} draw {supply.siren_alarm:g} mA and its siren output gives {limit:g} mA; "
                "use fewer sirens on it, a second can with a supply, or enter the listed output.",
            )


def _class_2(wiring: Wiring) -> Judged:
    volts = wiring.practice.number("power.supply_volts")
    for supply in wiring.supplies:
        drawn = volts * (supply.auxiliary_alarm + supply.siren_alarm) / 1000
        if drawn > CLASS_2_VOLT_AMPERES or volts > CLASS_2_VOLTS:
            yield (
                (supply.can,),
                f"{supply.can} would feed {drawn:.0f} VA at {volts:g} V, beyond a Class 2 source's "
                f"{CLASS_2_VOLT_AMPERES:g} VA at {CLASS_2_VOLTS:g} V; share the loads between supplies.",
            )


def _no_battery(wiring: Wiring) -> Judged:
    for supply in wiring.supplies:
        if supply.battery.size_ah is None:
            yield (
                (supply.can,),
                f"{supply.can} needs a battery of {supply.battery.with_margin_ah:.2f} Ah, more than any size entered; "
                "feed fewer loads, add a second can, or enter larger sizes.",
            )


def _charger(wiring: Wiring) -> Judged:
    limit = wiring.practice.number("battery.charger_limit")
    for supply in wiring.supplies:
        size = supply.battery.size_ah
        if limit > 0 and size is not None and size > limit:
            yield (
                (supply.can,),
                f"{supply.can} needs a battery of {size:g} Ah and its charger takes {limit:g} Ah; feed fewer loads, "
                "or add a second can with a supply.",
            )


def _fire_basis(wiring: Wiring) -> Judged:
    for supply in wiring.supplies:
        if supply.basis_raised:
            yield (
                (supply.can,),
                f"A smoke alarm is wired to {supply.can}: its battery is sized for 24 h and 4 min in alarm instead of "
                "the basis chosen; licensed others confirm the basis.",
            )


def _inputs(wiring: Wiring) -> Judged:
    inputs = int(wiring.practice.number("zone.inputs"))
    for can, zones in zones_at(wiring.zones).items():
        if len(zones) > inputs:
            group = " or let windows share zones" if wiring.practice.text("zone.grouping") == "never" else ""
            yield (
                (can,),
                f"{can} needs {len(zones)} zone inputs and its panel has {inputs}; add an expander of "
                f"{len(zones) - inputs} or more{group}, or enter the inputs that it has.",
            )


def _loop(wiring: Wiring) -> Judged:
    limit = wiring.practice.number("zone.loop_limit")
    for zone in wiring.zones:
        if zone.hot_loop_ohms is not None and zone.hot_loop_ohms > limit:
            yield (
                _devices(zone.pulls),
                f"Zone {zone.number} of {zone.can} ({zone.words}) has {zone.hot_loop_ohms:.1f} Ω of wire at 75 °C, "
                f"over {limit:g} Ω; split it, use heavier cable, or enter the panel's listed limit.",
            )


def _devices(pulls: Iterator[Pull] | Sequence[Pull]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(pull.device.id for pull in pulls))


def _count(things: Sequence[str], one: str, many: str) -> str:
    return f"{len(things)} {one if len(things) == 1 else many}"


_DROP_SOURCE = (
    "V = 2·L·R/1000·I; ASTM B258 sizes, NEC Chapter 9 Table 8 at 75 °C where it has the size; least voltage: "
    + DESIGN_VALUE["power.least_volts"].source
)

WIRING_RULES: tuple[WiringRule, ...] = (
    WiringRule(
        "cable.no_can",
        "must",
        "Every home run ends at a can.",
        "Place a can in a closet or utility room.",
        "ANSI/TIA/EIA-570-A-1 (2002): every cable home-run",
        _no_can,
    ),
    WiringRule(
        "cable.unreached",
        "must",
        "Every device that needs cable can reach a can, on its level or through risers.",
        "Add a riser between the levels, or a can on the level.",
        "ANSI/TIA/EIA-570-A-1 (2002): every cable home-run",
        _unreached,
    ),
    WiringRule(
        "cable.longer_than_box",
        "must",
        "Every pull comes whole from one box; no splice in the wall.",
        "Place a can nearer, or buy a larger box.",
        COMMON_PRACTICE,
        _longer_than_box,
    ),
    WiringRule(
        "cable.waypoints",
        "should",
        "A note's line of way-points can be read.",
        "Write it as: cable via (12.5, 6) (20, 6).",
        "the way-points' own grammar",
        _waypoints,
    ),
    WiringRule(
        "cable.light_gauge",
        "should",
        "No conductor is lighter than 22 AWG.",
        "Choose 22 AWG or heavier.",
        "textbook chapter “Device Connectivity”: 22 is the smallest gauge for home security wiring",
        _gauge,
    ),
    WiringRule(
        "power.low_volts",
        "should",
        "On mains, each device gets its least voltage with the cable hot.",
        "Heavier cable, a nearer or second can, or fewer loads.",
        _DROP_SOURCE,
        _low_volts,
    ),
    WiringRule(
        "power.battery_end",
        "note",
        "At the end of the battery's discharge devices still get their least voltage.",
        "Heavier cable, a second can, or a larger battery.",
        _DROP_SOURCE,
        _battery_end,
    ),
    WiringRule(
        "power.unknown_gauge",
        "note",
        "A powered device's cable tells its gauge.",
        "Write the cable as gauge/conductors.",
        COMMON_PRACTICE,
        _unknown_gauge,
    ),
    WiringRule(
        "power.auxiliary",
        "should",
        "The auxiliary output carries the devices on it.",
        "Fewer loads, or a second can with a supply.",
        "the panel's listing decides",
        _auxiliary,
    ),
    WiringRule(
        "power.siren_output",
        "should",
        "The siren output carries the sirens on it.",
        "Fewer sirens, or a second can with a supply.",
        "the panel's listing decides",
        _siren_output,
    ),
    WiringRule(
        "power.class_2",
        "should",
        "What a supply feeds stays within a Class 2 source.",
        "Share the loads between supplies.",
        CLASS_2_SOURCE,
        _class_2,
    ),
    WiringRule(
        "battery.too_small",
        "should",
        "A battery among the sizes entered holds the standby and alarm asked for.",
        "Fewer loads, a second can, or larger sizes.",
        "study guide “Battery Sizing and Secondary Power”",
        _no_battery,
    ),
    WiringRule(
        "battery.charger",
        "should",
        "The panel's charger takes the battery.",
        "Fewer loads, or a second can with a supply.",
        "the panel's listing decides",
        _charger,
    ),
    WiringRule(
        "battery.fire_basis",
        "note",
        "With smoke alarms on the panel the battery is sized for 24 h and 4 min.",
        "Have licensed others confirm the basis.",
        "NFPA 72 household fire, 24 h + 4 min (2007 edition 11.6.2(2); later Chapter 29)",
        _fire_basis,
    ),
    WiringRule(
        "zone.inputs",
        "should",
        "Each can's panel has an input for every zone.",
        "Add an expander, or let windows share zones.",
        "the panel's listing decides",
        _inputs,
    ),
    WiringRule(
        "zone.loop",
        "should",
        "A zone's wire stays within the panel's loop resistance.",
        "Split the zone, or use heavier cable.",
        DESIGN_VALUE["zone.loop_limit"].source,
        _loop,
    ),
)
