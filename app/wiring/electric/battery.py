"""The standby battery: capacity on a named basis, the margin of a named edition, the next size up.

It sizes; it does not promise that the system complies: the adopted code, the listing and the licensed installer decide.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Basis:
    """How long a battery must carry the system: hours on standby, then minutes in alarm, and who says so."""

    standby_hours: float
    alarm_minutes: float
    source: str


BASES = {
    "burglary_4h": Basis(4, 15, "CSAA STA 1 Guide 2.4 (4 h) and a national training centre's best practice (15 min)"),
    "premises_24h": Basis(24, 15, "NFPA 731-2008 (24 h); 15 min sounding: national training centre's best practice"),
    "fire_24h": Basis(24, 4, "NFPA 72 household fire, 24 h + 4 min (2007 edition 11.6.2(2); later Chapter 29)"),
    "en_12h": Basis(12, 15, "EN 50131-1 type A supply, grades 1 and 2, 12 h (from memory); 15 min sounding assumed"),
}
MARGINS = {
    "nfpa_72_2022": (1.25, "NFPA 72-2022, × 1.25"),
    "nfpa_72_2010_2019": (1.20, "NFPA 72-2010 to 2019, × 1.20"),
}


@dataclass(frozen=True)
class Battery:
    """Ampere-hours asked for, with margin, and the stock size that holds them (None: none does)."""

    basis: Basis
    margin: float
    edition: str
    standby_amperes: float
    alarm_amperes: float
    needed_ah: float
    with_margin_ah: float
    size_ah: float | None


def capacity(standby: float, alarm: float, basis: Basis) -> float:
    """Ampere-hours: I_standby · T_standby + I_alarm · T_alarm, currents in amperes.

    Source: study guide “Battery Sizing and Secondary Power”.
    """
    return standby * basis.standby_hours + alarm * basis.alarm_minutes / 60


def next_size(ampere_hours: float, sizes: Sequence[float]) -> float | None:
    """The smallest stock size that is not below the capacity asked for, or None."""
    return min((size for size in sizes if size >= ampere_hours - 1e-9), default=None)


def size_battery(standby: float, alarm: float, basis: str, margin: str, sizes: Sequence[float]) -> Battery:
    """The battery for some currents in amperes on a basis and a margin of the practice."""
    factor, edition = MARGINS[margin]
    needed = capacity(standby, alarm, BASES[basis])
    sized = next_size(needed * factor, sizes)
    return Battery(BASES[basis], factor, edition, standby, alarm, needed, needed * factor, sized)
