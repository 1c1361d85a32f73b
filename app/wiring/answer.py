"""The whole answer on a plan's cable as JSON values: contract §4's pulls, boxes and totals, and the rest of the sheets.

The command line prints it and the page draws it; the keys beyond the contract are listed in DEVELOPERS.md.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.geometry.scene import LevelScene
from app.plan.model import Plan
from app.wiring.electric.power import Feed, Supply
from app.wiring.electric.zones import TYPES, Zone
from app.wiring.rough_in import CAUTIONS, Hole, holes_of, stops_by_room
from app.wiring.routes.bundles import Bundle
from app.wiring.schedule.schedule import schedule_value
from app.wiring.schedule.tags import tag_at_can, tag_at_device
from app.wiring.wiring import Wiring

Answer = dict[str, Any]


def pulls_answer(plan: Plan, scenes: Mapping[str, LevelScene] | None = None) -> Answer:
    """The object of ``pulls --json``; ``scenes``, level scenes by id, saves compiling them again."""
    return wiring_answer(Wiring(plan, scenes))


def wiring_answer(wiring: Wiring) -> Answer:
    """The same for a wiring whose parts may be worked out already."""
    return schedule_value(wiring.schedule) | {
        "tags": {pull.label: {"at_device": tag_at_device(pull), "at_can": tag_at_can(pull)} for pull in wiring.pulls},
        "bundles": [bundle_value(bundle) for bundle in wiring.bundles],
        "zones": [_zone(zone) for zone in wiring.zones],
        "zone_types": TYPES,
        "feeds": [_feed(feed) for feed in wiring.feeds],
        "supplies": [_supply(supply, wiring) for supply in wiring.supplies],
        "rough_in": _rough_in(wiring),
    }


def bundle_value(bundle: Bundle) -> Answer:
    """One bundle as a JSON value."""
    return {
        "level": bundle.level,
        "segment": [list(bundle.start[:2]), list(bundle.end[:2])],
        "z": bundle.start[2],
        "count": bundle.count,
        "cables": dict(bundle.cables),
    }


def _zone(zone: Zone) -> Answer:
    return {
        "number": zone.number,
        "can": zone.can,
        "type": zone.type,
        "words": zone.words,
        "pulls": [pull.label for pull in zone.pulls],
        "eol_ohms": zone.eol_ohms,
        "resistor_at": zone.resistor_at,
        "loop_ohms": _rounded(zone.loop_ohms, 3),
        "hot_loop_ohms": _rounded(zone.hot_loop_ohms, 3),
    }


def _feed(feed: Feed) -> Answer:
    return {
        "label": feed.pull.label,
        "device": feed.pull.device.id,
        "milliamperes": feed.milliamperes,
        "one_way_ft": feed.one_way_ft,
        "cool_ohms_per_1000_ft": _rounded(feed.cool_ohms, 3),
        "hot_ohms_per_1000_ft": _rounded(feed.hot_ohms, 3),
        "cool_volts": _rounded(feed.cool_volts, 3),
        "hot_volts": _rounded(feed.hot_volts, 3),
        "battery_volts": _rounded(feed.battery_volts, 3),
        "longest_ft": _rounded(feed.longest_ft, 1),
        "gauge_that_holds": feed.gauge_that_holds,
    }


def _supply(supply: Supply, wiring: Wiring) -> Answer:
    battery, practice = supply.battery, wiring.practice
    return {
        "can": supply.can,
        "auxiliary_standby_ma": supply.auxiliary_standby,
        "auxiliary_alarm_ma": supply.auxiliary_alarm,
        "auxiliary_limit_ma": practice.number("power.auxiliary_limit"),
        "siren_alarm_ma": supply.siren_alarm,
        "siren_limit_ma": practice.number("power.siren_limit"),
        "zones": sum(zone.can == supply.can for zone in wiring.zones),
        "inputs": int(practice.number("zone.inputs")),
        "battery": {
            "basis": supply.basis,
            "standby_hours": battery.basis.standby_hours,
            "alarm_minutes": battery.basis.alarm_minutes,
            "source": battery.basis.source,
            "edition": battery.edition,
            "margin": battery.margin,
            "standby_amperes": round(battery.standby_amperes, 4),
            "alarm_amperes": round(battery.alarm_amperes, 4),
            "needed_ah": round(battery.needed_ah, 4),
            "with_margin_ah": round(battery.with_margin_ah, 4),
            "size_ah": battery.size_ah,
        },
    }


def _rough_in(wiring: Wiring) -> Answer:
    return {
        "rooms": [
            {
                "level": level,
                "room": room,
                "stops": [
                    {
                        "label": stop.pull.label,
                        "device": stop.pull.device.id,
                        "name": stop.pull.name,
                        "cable": stop.pull.cable,
                        "height_ft": stop.height_ft,
                        "drilling": stop.drilling,
                    }
                    for stop in stops
                ],
            }
            for level, room, stops in stops_by_room(wiring.pulls, wiring.practice)
        ],
        "holes": [_hole(hole) for hole in holes_of(wiring.plan, wiring.pulls)],
        "cautions": [{"words": caution.words, "source": caution.source} for caution in CAUTIONS],
    }


def _hole(hole: Hole) -> Answer:
    return {
        "where": hole.where,
        "thing": hole.thing,
        "cables": dict(hole.cables),
        "area_sqin": round(hole.area_sqin, 4),
        "hole_in": round(hole.hole_in, 3),
        "plates": list(hole.plates),
        "unknown": list(hole.unknown),
    }


def _rounded(value: float | None, decimals: int) -> float | None:
    return None if value is None else round(value, decimals)
