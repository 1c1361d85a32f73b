"""Faults of the shell, of where devices are and of what people read, and near faults."""

from tests.review.sound_house import SoundHouse


def _open_square(gap):
    house = SoundHouse().bare()
    ends = [((0, 0), (10, 0)), ((10, 0), (10, 10)), ((10, 10), (0, 10)), ((0, 10), (0, gap))]
    level = house.value["levels"][0]
    level |= {"openings": [], "fixtures": [], "rooms": []}
    level["walls"] = [{"id": f"q{n}", "a": list(a), "b": list(b)} for n, (a, b) in enumerate(ends)]
    return house


def _block(**fields):
    return SoundHouse().add(
        "fixtures", id="chest", kind="obstruction", polygon=[[23, 7], [25, 7], [25, 9], [23, 9]], **fields
    )


PAIRS = {
    "device.in_solid": (_block(), _block(top=8.5)),
    "device.above_ceiling": (
        SoundHouse().change("SR1", height=9.1),
        SoundHouse().change("SR1", height=9),
    ),
    "device.outside": (
        SoundHouse().add("devices", id="OT1", kind="other", at=[40, 8], label="gate"),
        SoundHouse().add("devices", id="OT1", kind="other", at=[40, 8], label="gate", note="at the gate"),
    ),
    "shell.no_rooms": (_open_square(1), _open_square(0)),
    "shell.room_open": (
        SoundHouse().change("study", at=[40, 21]),
        SoundHouse().change("study", at=[31, 21]),
    ),
    "shell.fixture_outside": (
        SoundHouse().add("fixtures", id="ol1", kind="outlet", at=[24, -1.3]),
        SoundHouse().add("fixtures", id="ol1", kind="outlet", at=[24, -1.2]),
    ),
    "shell.room_named_twice": (
        SoundHouse().add("rooms", id="nook", name="Nook", use="other", at=[24, 16]),
        SoundHouse()
        .add("rooms", id="nook", name="Nook", use="other", at=[24, 16])
        .add("walls", id="c3", a=[16, 14], b=[32, 14]),
    ),
    "shell.walls_overlap": (
        SoundHouse().add("walls", id="c3", a=[20, 20], b=[20, 22]),
        SoundHouse().add("walls", id="c3", a=[20, 20], b=[22, 20]),
    ),
    "shell.opening_too_high": (SoundHouse().change("W1", head=9.1), SoundHouse().change("W1", head=9)),
    "label.room_unnamed": (SoundHouse().change("study", name=" "), SoundHouse().change("study", name="S")),
    "label.twice": (
        SoundHouse().change("GB1", label="GB-1").change("GB2", label="GB-1"),
        SoundHouse().change("GB1", label="GB-1").change("GB2", label="GB-2"),
    ),
    "label.overlap": (
        SoundHouse().add("devices", id="FL1", kind="flood", at=[24.4, 8]),
        SoundHouse().add("devices", id="FL1", kind="flood", at=[24.6, 8]),
    ),
}
