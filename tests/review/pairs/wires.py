"""Faults of cable runs, power, batteries and zones, and near faults."""

from tests.review.sound_house import SoundHouse


def _practice(key, value):
    house = SoundHouse()
    house.value["practice"] = {key: value}
    return house


def _upstairs(riser):
    house = SoundHouse().upper(devices=[{"id": "MD9", "kind": "motion", "at": [0.5, 0.5], "facing": 45}])
    house.value["risers"] = [{"id": "RS1", "at": [20, 20], "from": "L1", "to": "L2"}] if riser else []
    return house


def _far_siren(feet):
    """A siren at the end of a long wing."""
    return SoundHouse().add("devices", id="SR9", kind="siren", at=[feet, 8], note="in the barn", label="Barn siren")


def _smoke(cable):
    return SoundHouse().add("devices", id="SM1", kind="smoke", at=[24, 14], note="by others", **cable)


PAIRS = {
    "cable.unreached": (_upstairs(riser=False), _upstairs(riser=True)),
    "cable.longer_than_box": (
        _far_siren(120).practice(cable__box_sizes=[100]),
        _far_siren(70).practice(cable__box_sizes=[100]),
    ),
    "cable.waypoints": (
        SoundHouse().change("WC1", note="cable via (12.5, six)"),
        SoundHouse().change("WC1", note="cable via (12.5, 6)"),
    ),
    "cable.light_gauge": (_practice("cable.contact", "24/2"), _practice("cable.contact", "22/2")),
    "power.low_volts": (_far_siren(400), _far_siren(60)),
    "power.battery_end": (_far_siren(60), SoundHouse().practice(power__siren_alarm=100)),
    "power.unknown_gauge": (_practice("cable.siren", "speaker wire"), _practice("cable.siren", "16/2")),
    "power.auxiliary": (_practice("power.auxiliary_limit", 100), _practice("power.auxiliary_limit", 400)),
    "power.siren_output": (_practice("power.siren_limit", 499), _practice("power.siren_limit", 500)),
    "power.class_2": (
        SoundHouse().practice(power__supply_volts=30, power__siren_alarm=3300),
        SoundHouse().practice(power__supply_volts=30, power__siren_alarm=2800),
    ),
    "battery.too_small": (_practice("battery.sizes", [0.6]), _practice("battery.sizes", [7])),
    "battery.charger": (_practice("battery.charger_limit", 1), _practice("battery.charger_limit", 40)),
    "battery.fire_basis": (_smoke({"cable": "18/2"}), _smoke({})),
    "zone.inputs": (_practice("zone.inputs", 3), _practice("zone.inputs", 16)),
    "zone.loop": (_practice("zone.loop_limit", 1), _practice("zone.loop_limit", 10)),
}
