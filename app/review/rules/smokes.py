"""Rules on smoke alarms: only that they are recorded as others place them, with the room that a panel can announce.

Number and location are set by local code and licensed others; nothing here judges or proposes a place.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.review.accepted import remark
from app.review.findings import Said, rule
from app.review.house import House

_OTHERS = (
    "NFPA 72-2019 29: installed where other governing laws, codes or standards require; number and location set by "
    "local code and licensed others"
)


@rule(
    "smoke.by_others",
    "note",
    words="Smoke alarms are recorded where others put them; their number and location are not designed on this plan.",
    mend="Keep in each alarm's note who said where it goes, and when.",
    source=_OTHERS,
)
def by_others(house: House) -> Iterator[Said]:
    """Recorded smoke alarms whose note does not say who placed them, all in one finding."""
    unsaid = [device.id for storey in house for device in storey.devices("smoke") if not remark(device)]
    if unsaid:
        count = "1 smoke alarm is" if len(unsaid) == 1 else f"{len(unsaid)} smoke alarms are"
        yield Said(
            tuple(unsaid),
            f"{count} recorded without a note of who placed them; write who said so and when. Number and location are "
            "set by local code and licensed others, not designed on this plan.",
        )


@rule(
    "smoke.room_unknown",
    "note",
    words="A smoke alarm's room is kept, so that the panel can announce “fire in” and the room's name.",
    mend="Name the room, or record the alarm inside its room.",
    source="common practice, no source; the place itself is set by others",
)
def room_unknown(house: House) -> Iterator[Said]:
    """Recorded smoke alarms that lie in no named room."""
    for storey in house:
        for device in storey.devices("smoke"):
            room = storey.room_of_device[device.id]
            if room is None or not room.name.strip():
                yield Said(
                    (device.id,),
                    f"{storey.name(device.id)} is recorded in no named room, so the panel cannot say where the fire "
                    "is; name the room.",
                )
