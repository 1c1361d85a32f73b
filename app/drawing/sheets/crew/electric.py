"""Zones and power: what shares an input of the panel, what its loop reads, what arrives at each device, the battery."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.order import Answer, Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.plan.devices import DEVICE_KIND

_NONE = "—"


def zone_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """The zones of each can, then what each type of zone does."""
    zones = order.wiring["zones"]
    for supply in order.wiring["supplies"]:
        here = [zone for zone in zones if zone["can"] == supply["can"]]
        yield from setter.heading(f"Zones at {order.house.name(supply['can'])}")
        yield from setter.paragraph(
            f"{len(here)} of {supply['inputs']} inputs. Contacts are grouped at the can only; no looping at openings."
        )
        yield from setter.table(
            ("Zone", "Called", "Type", "Pulls", "EOL at", "20 °C", "75 °C"),
            (9.5, 36, 17, 16, 14, 11, 11),
            [_zone(order, zone) for zone in here],
        )
    used = {zone["type"] for zone in zones}
    if used:
        yield setter.space(1.5)
        eol = order.house.practice.number("zone.eol_ohms")
        yield from setter.paragraph(
            f"End-of-line resistor {eol:g} Ω, at the last device of its zone and never in the can; the panel's listing "
            "decides."
        )
        for name, words in order.wiring["zone_types"].items():
            if name in used:
                yield from setter.paragraph(f"{name}: {words}", quiet=True)


def _zone(order: Order, zone: Answer) -> Row:
    return Row(
        (
            Cell(str(zone["number"]), bold=True),
            Cell(_called(order, zone)),
            Cell(zone["type"]),
            Cell(", ".join(zone["pulls"])),
            Cell(_NONE if zone["eol_ohms"] is None else zone["resistor_at"]),
            Cell(_ohms(zone["loop_ohms"])),
            Cell(_ohms(zone["hot_loop_ohms"])),
        )
    )


def _called(order: Order, zone: Answer) -> str:
    """A zone of one pull by what its device is and where; one of several by the side that they share."""
    if len(zone["pulls"]) > 1:
        return str(zone["words"])
    storey, device = order.by_pull[zone["pulls"][0]]
    return f"{DEVICE_KIND[device.kind].name}, {order.place(storey, device)}"


def power_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """What arrives at each device that draws power, and what each can must give."""
    practice, feeds = order.house.practice, order.wiring["feeds"]
    least = practice.number("power.least_volts")
    if feeds:
        yield from setter.heading("Voltage at each device")
        heads = ("Device", "Draws", "One way", "V, 20 °C", "V, 75 °C", "On battery", "Longest")
        yield from setter.table(heads, (18, 15, 14, 18, 14, 17, 18), [_feed(order, feed, least) for feed in feeds])
        yield from setter.paragraph(
            f"In alarm, over the cable as cut; mains {practice.number('power.supply_volts'):g} V, battery at its end "
            f"{practice.number('power.battery_end_volts'):g} V, which is at 75 °C. Below {least:g} V is marked low. "
            "Longest run: one way at 75 °C on mains. Currents are the practice's; the equipment's listing decides.",
            quiet=True,
        )
    for supply in order.wiring["supplies"]:
        yield from _supply(order, supply, setter)


def _feed(order: Order, feed: Answer, least: float) -> Row:
    held = feed["gauge_that_holds"]
    low = feed["hot_volts"] is not None and feed["hot_volts"] < least
    mend = f"{held} AWG holds it." if held else "No gauge up to 12 AWG holds it: shorten the run or give a second can."
    return Row(
        (
            Cell(feed["label"], bold=True),
            Cell(f"{feed['milliamperes']:g} mA"),
            Cell(order.run(feed["one_way_ft"])),
            *(Cell(_volts(feed[key], least)) for key in ("cool_volts", "hot_volts", "battery_volts")),
            Cell(_NONE if feed["longest_ft"] is None else order.run(round(feed["longest_ft"]))),
        ),
        (f"Low on mains: {mend}",) if low else (),
    )


def _supply(order: Order, supply: Answer, setter: Setter) -> Iterator[Block]:
    """The loads of a can against what its panel gives, and its battery step by step."""
    battery = supply["battery"]
    yield from setter.heading(f"Supply and battery at {order.house.name(supply['can'])}")
    hours, minutes = battery["standby_hours"], battery["alarm_minutes"]
    rows = {
        "Auxiliary output in alarm": f"{supply['auxiliary_alarm_ma']:g} of {supply['auxiliary_limit_ma']:g} mA",
        "Siren output in alarm": f"{supply['siren_alarm_ma']:g} of {supply['siren_limit_ma']:g} mA",
        "Battery, standby": f"{battery['standby_amperes']:g} A × {hours:g} h",
        "Battery, alarm": f"{battery['alarm_amperes']:g} A × {minutes:g} min",
        "Together": f"{battery['needed_ah']:.2f} Ah",
        "With margin": f"{battery['with_margin_ah']:.2f} Ah ({battery['edition']})",
        "Next size up": f"{battery['size_ah']:g} Ah" if battery["size_ah"] else "none of the practice's sizes holds it",
    }
    yield from setter.table(
        ("What", "Worked out"), (40, 60), [Row((Cell(what), Cell(said))) for what, said in rows.items()]
    )
    yield from setter.paragraph(f"Basis: {battery['source']}. The adopted edition and the listing decide.", quiet=True)


def _volts(volts: float | None, least: float) -> str:
    if volts is None:
        return _NONE
    return f"{volts:.2f}" if volts >= least else f"{volts:.2f} low"


def _ohms(ohms: float | None) -> str:
    return _NONE if ohms is None else f"{ohms:.1f} Ω"
