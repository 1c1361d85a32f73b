"""Rules on which cable a device gets: no fewer and no thinner conductors than its kind asks, no choice left open.

Where the cable runs is judged in ``app.wiring``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from app.plan.devices import DEVICE_KIND, cable_of
from app.plan.practice import COMMON_PRACTICE
from app.review.accepted import remark
from app.review.findings import Said, rule
from app.review.house import House
from app.wiring.judgements import LIGHTEST_GAUGE

_CABLE = re.compile(r"^\s*(?P<gauge>\d{1,2})\s*/\s*(?P<conductors>\d{1,2})\b")


def gauge_and_conductors(cable: str) -> tuple[int, int] | None:
    """Gauge (AWG) and number of conductors of a cable such as ``22/4``, or None where it does not say."""
    read = _CABLE.match(cable)
    return None if read is None else (int(read["gauge"]), int(read["conductors"]))


@rule(
    "cable.wrong_for_kind",
    "should",
    words="A device's cable has at least the conductors, and at least the gauge, that its kind asks for.",
    mend="Take the device's own cable out, so that it gets the practice's.",
    source="trade article “How to prewire home security” (updated June 2023): contacts 22/2, powered 22/4; siren 18/2: "
    "common practice, no source",
)
def wrong_for_kind(house: House) -> Iterator[Said]:
    """Devices whose own cable is thinner, or has fewer conductors, than the practice's for their kind."""
    for storey in house:
        for device in storey.level.devices:
            key = DEVICE_KIND[device.kind].cable_key
            if not device.cable or key is None:
                continue
            usual = house.practice.text(key)
            own, asked = gauge_and_conductors(device.cable), gauge_and_conductors(usual)
            if own is None or asked is None:
                continue
            # Lighter than anything hard-wired is told by the wiring's rule on gauges.
            faults = ["thinner"] if asked[0] < own[0] <= LIGHTEST_GAUGE else []
            faults += ["of fewer conductors"] if own[1] < asked[1] else []
            if faults:
                yield Said(
                    (device.id,),
                    f"{storey.name(device.id)} gets {device.cable}, {' and '.join(faults)} than the {usual} of its "
                    f"kind; give it {usual}.",
                )


@rule(
    "cable.not_chosen",
    "note",
    words="A thing that is not yet chosen gets 22/4 and a note of what it may become.",
    mend="Choose the device's kind, or write in its note what it may become.",
    source=COMMON_PRACTICE,
)
def not_chosen(house: House) -> Iterator[Said]:
    """Devices of no listed kind that have no note."""
    for storey in house:
        for device in storey.devices("other"):
            if not remark(device):
                yield Said(
                    (device.id,),
                    f"{storey.name(device.id)} is not yet chosen and gets {cable_of(device, house.practice)}; write "
                    "in its note what it may become.",
                )
