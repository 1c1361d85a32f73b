"""Rules on sirens: beside the chime, one a floor of a large home, loud enough at the bed and not too loud.

Levels are estimates and a yardstick: nothing here claims to meet a fire rule.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.coverage.sound import Heard
from app.geometry.nearest import nearest_spots
from app.plan.measures import area_text
from app.plan.practice import COMMON_PRACTICE
from app.review.accepted import remark
from app.review.findings import Said, rule
from app.review.house import House, Storey

_ESTIMATE = "inverse square law with losses through walls and doors, an estimate"


def _sirens(house: House) -> list[str]:
    return [siren.id for storey in house for siren in storey.devices("siren")]


@rule(
    "siren.none",
    "should",
    words="The house has a siren indoors.",
    mend="Put a siren beside the doorbell chime.",
    source="CPSC-ES-0503 (2005), abstract: how far alarms are heard in houses; where: common practice, no source",
)
def none(house: House) -> Iterator[Said]:
    """Houses with devices that can raise an alarm and no siren."""
    if not _sirens(house) and any(storey.level.devices for storey in house):
        yield Said((), "no siren is planned; put one beside the doorbell chime.")


def _floor_area(storey: Storey) -> float:
    return float(sum(face.area for face in storey.scene.faces.outline))


@rule(
    "siren.every_floor",
    "should",
    words="Every floor of a large home has a siren of its own.",
    mend="Put a siren on the floor, near its bedrooms.",
    source="CPSC-ES-0503 (2005), abstract: one alarm does not do for all of a two-level house",
)
def every_floor(house: House) -> Iterator[Said]:
    """Levels with rooms and no siren in a home over the practice's area, once it has a siren somewhere."""
    large = house.practice.number("siren.large_home")
    area = sum(_floor_area(storey) for storey in house)
    if area <= large or not _sirens(house):
        return
    for storey in house:
        if storey.level.rooms and len(storey.scene.faces) and not storey.devices("siren"):
            yield Said(
                (storey.level.id,),
                f"{storey.level.name} has no siren, in a home of {area_text(area, house.plan.units)}; put one near "
                "its bedrooms.",
            )


@rule(
    "siren.beside_chime",
    "should",
    words="A siren stands beside the doorbell chime, where its cable is easily run and it is heard.",
    mend="Drag a siren to the chime, or say in its note why it stands elsewhere.",
    source=COMMON_PRACTICE,
)
def beside_chime(house: House) -> Iterator[Said]:
    """Levels with a chime and sirens of which none, and none with a note, stands beside a chime."""
    within = house.practice.number("siren.chime_within")
    for storey in house:
        sirens, chimes = storey.devices("siren"), storey.spots("chime")
        if not chimes or not sirens or any(remark(siren) for siren in sirens):
            continue
        nearest = nearest_spots([siren.at for siren in sirens], chimes)
        away, siren, chime = min((far, one.id, name) for one, (name, far) in zip(sirens, nearest, strict=True))
        if away > within + 1e-9:
            yield Said(
                (siren, chime),
                f"{storey.name(siren)} is {house.length_text(away)} from {storey.name(chime)}, most "
                f"{house.length_text(within)}; drag it there or say why in its note.",
            )


def _loudest(house: House, heard: Heard) -> str:
    """What brings most of the sound, and through what."""
    ray = heard.rays[0]
    through = [house.name(thing) for thing in ray.crossed]
    way = f" through {', '.join(through)}" if through else ""
    return f"{house.name(ray.device)}, {house.length_text(ray.feet)} away{way}"


@rule(
    "siren.bedside",
    "should",
    words="At every pillow the sirens reach 75 dBA with the doors closed.",
    mend="Put a siren nearer to the bedroom, or another one outside it.",
    source=f"{_ESTIMATE}; yardstick NFPA 72 18.4.6, a fire rule that no plan of this kind can claim to meet",
)
def bedside(house: House) -> Iterator[Said]:
    """Beds at which the sirens and keypads together stay below the practice's level."""
    asked = house.practice.number("sound.bedside")
    if not _sirens(house):
        return
    for heard in house.heard_in_bed:
        if heard.level < asked - 1e-9:
            bed = house.name(heard.listener.thing)
            words = (
                f"hears about {heard.level:.0f} dBA, mostly from {_loudest(house, heard)}"
                if heard.rays
                else "hears nothing"
            )
            yield Said(
                (heard.listener.thing, *(ray.device for ray in heard.rays[:1])),
                f"{bed} {words}; asked is {asked:g} dBA: put a siren nearer or another one outside the room.",
            )


@rule(
    "siren.hearing",
    "note",
    words="Nobody's ear is so near to a siren that it harms: 110 dBA is borne for a minute and a half.",
    mend="Move the siren away from the bed, or take a quieter one.",
    source="NFPA 72 18.4.1.2: at most 110 dBA; NIOSH: T = 480 / 2^((L − 85) / 3) min; rooms echo, so levels are higher",
)
def hearing(house: House) -> Iterator[Said]:
    """Beds at which the sirens are louder than hearing bears."""
    most = house.practice.number("sound.most")
    for heard in house.heard_in_bed:
        if heard.level > most + 1e-9:
            minutes = 480 / 2 ** ((heard.level - 85) / 3)
            yield Said(
                (heard.listener.thing, heard.rays[0].device),
                f"{house.name(heard.listener.thing)} hears about {heard.level:.0f} dBA, from "
                f"{_loudest(house, heard)}: hearing bears that for {minutes:.1f} min; move the siren away.",
            )
