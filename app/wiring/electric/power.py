"""Power: the voltage that reaches each device, what each can's outputs carry, and its battery.

Every can is taken to have a supply of its own. Currents are the practice's until the equipment's listings are entered;
nothing here promises compliance.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from app.plan.model import Plan
from app.plan.practice import DESIGN_VALUE, Practice
from app.wiring.electric.battery import BASES, Battery, size_battery
from app.wiring.electric.conductors import GAUGES, cool_resistance, drop, hot_resistance, longest_run, make_of
from app.wiring.pulls import Pull, by_can

CLASS_2_VOLTS, CLASS_2_VOLT_AMPERES = 30.0, 100.0
CLASS_2_SOURCE = "NEC 725 and IRC Chapter 43: a Class 2 source, up to 30 V and 100 VA; the supply's listing decides"


@dataclass(frozen=True)
class Feed:
    """How power arrives at one device, at its greater current, over the cable as cut (one-way feet).

    Voltages are on mains at 20 and 75 °C, and at the end of the battery's discharge at 75 °C; all are None where the
    cable's name does not tell its gauge. ``gauge_that_holds`` is the lightest that keeps the least voltage when hot on
    mains, None when none does.
    """

    pull: Pull
    milliamperes: float
    one_way_ft: float
    cool_ohms: float | None
    hot_ohms: float | None
    cool_volts: float | None
    hot_volts: float | None
    battery_volts: float | None
    longest_ft: float | None
    gauge_that_holds: int | None


@dataclass(frozen=True)
class Supply:
    """What hangs on one can: milliamperes on its outputs and from its battery, and the battery that this asks for."""

    can: str
    pulls: tuple[Pull, ...]
    auxiliary_standby: float
    auxiliary_alarm: float
    siren_alarm: float
    battery: Battery
    basis: str
    basis_raised: bool


def currents(pull: Pull, practice: Practice) -> tuple[float, float]:
    """Milliamperes on standby and in alarm that a pull carries to its device; none on a spare or a signal pull."""
    keys = f"power.{pull.device.kind}_standby", f"power.{pull.device.kind}_alarm"
    if pull.carries in ("spare", "signal") or keys[0] not in DESIGN_VALUE:
        return 0.0, 0.0
    return practice.number(keys[0]), practice.number(keys[1])


def feeds(pulls: Sequence[Pull], practice: Practice) -> list[Feed]:
    """How power arrives at every device that draws any and is reached by a can."""
    return [
        _feed(pull, max(currents(pull, practice)), practice)
        for pull in pulls
        if pull.cut_ft is not None and max(currents(pull, practice)) > 0
    ]


def _feed(pull: Pull, milliamperes: float, practice: Practice) -> Feed:
    assert pull.cut_ft is not None
    feet, amperes = float(pull.cut_ft), milliamperes / 1000
    build, made = practice.text("power.conductor"), make_of(pull.cable)
    mains, least = practice.number("power.supply_volts"), practice.number("power.least_volts")
    holds = [gauge for gauge in GAUGES if mains - drop(feet, hot_resistance(gauge, build), amperes) >= least]
    gauge_that_holds = max(holds, default=None)
    if made is None:
        return Feed(pull, milliamperes, feet, None, None, None, None, None, None, gauge_that_holds)
    cool, hot = cool_resistance(made.gauge, build), hot_resistance(made.gauge, build)
    lost = drop(feet, hot, amperes)
    return Feed(
        pull,
        milliamperes,
        feet,
        cool,
        hot,
        mains - drop(feet, cool, amperes),
        mains - lost,
        practice.number("power.battery_end_volts") - lost,
        longest_run(max(mains - least, 0.0), hot, amperes),
        gauge_that_holds,
    )


def supplies(plan: Plan, pulls: Sequence[Pull]) -> list[Supply]:
    """What hangs on each can of the plan, in the order of the file."""
    cans = [device.id for level in plan.levels for device in level.devices if device.kind == "can"]
    ending = by_can(pulls)
    return [_supply(can, ending.get(can, []), plan.practice_in_force) for can in cans]


def _supply(can: str, pulls: list[Pull], practice: Practice) -> Supply:
    standby = sum(currents(pull, practice)[0] for pull in pulls)
    sirens = [pull for pull in pulls if pull.device.kind == "siren"]
    siren_alarm = sum(currents(pull, practice)[1] for pull in sirens)
    siren_standby = sum(currents(pull, practice)[0] for pull in sirens)
    alarm = sum(currents(pull, practice)[1] for pull in pulls)
    chosen = practice.text("battery.basis")
    fire = any(pull.device.kind == "smoke" for pull in pulls)
    basis = "fire_24h" if fire and BASES[chosen].standby_hours < BASES["fire_24h"].standby_hours else chosen
    battery = size_battery(
        (standby + practice.number("power.panel_standby")) / 1000,
        (alarm + practice.number("power.panel_alarm")) / 1000,
        basis,
        practice.text("battery.margin"),
        practice.numbers("battery.sizes"),
    )
    auxiliary = alarm - siren_alarm
    return Supply(can, tuple(pulls), standby - siren_standby, auxiliary, siren_alarm, battery, basis, basis != chosen)
