"""How each kind of device is tested, and by whose word; what an instrument reads stands on the test sheet.

Sources are named with each; where there is none it says so.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.plan.devices import DEVICE_KINDS
from app.plan.practice import COMMON_PRACTICE, Practice

_EXPOSURE, _EXCHANGE, _MINUTES = 85.0, 3.0, 480.0  # dBA, dB, min: NIOSH


@dataclass(frozen=True)
class TestWords:
    """What is done and what must happen (``short`` on a line of a table, ``whole`` in a paragraph), and the source."""

    short: str
    whole: str
    source: str


TESTS: Mapping[str, TestWords] = {
    "can": TestWords(
        "Mains off, then on",
        "Take the mains off: the battery carries the system and the keypad says so. Put it back: no false alarm, at "
        "the loss or at the return. Read the battery's voltage under load and write its date on it. Mains work is for "
        "a licensed electrician.",
        "CSAA STA 1 Guide 2.4: no false alarm on battery exhaustion or power return",
    ),
    "keypad": TestWords(
        "Arm, disarm, sounder",
        "Arm stay and away and disarm from each keypad; hear the exit and entry tones along the way to the door.",
        "ANSI/SIA CP-01, progress annunciation, clause from memory",
    ),
    "door_contact": TestWords(
        "Open slowly",
        "Open the door slowly: it must tell before it stands 2 in open. Then shut it hard: no false trip. Gap to the "
        "magnet 1/8 in or less in doors.",
        "licensing-exam pages (2 in); a naval construction-electrician manual (gap)",
    ),
    "window_contact": TestWords(
        "Open each sash",
        "Open each sash that moves: it must tell before it stands 6 in open. Both sashes of a double-hung window move. "
        "Gap to the magnet 1/4 in or less.",
        "UL 1641-2015 10.1 (6 in); a naval construction-electrician manual (gap)",
    ),
    "overhead_door_contact": TestWords(
        "Raise by hand",
        "Raise the door by hand, opener released: it must tell within 2 in. Let the opener run and the door rattle: no "
        "false trip.",
        "2 in as for doors; the rest common practice, no source",
    ),
    "motion": TestWords(
        "Walk test, four steps",
        "Put it in walk test. Walk across the pattern at one step of 24 in a second: it must answer within four steps, "
        "8 ft, wherever the plan says that floor is seen. Try the far edge and behind furniture. Then leave the room "
        "with heating and sun as they are: no false trip.",
        "UL 1641-2015 15.3.1",
    ),
    "glass_break": TestWords(
        "Tester at each pane",
        "Use the tester that the detector's maker names, at each pane on the sheet, the farthest first, with curtains "
        "and blinds drawn and doors as they will be. Never break glass to test.",
        "the detector's own instructions; curtains: dealer article and trade column",
    ),
    "siren": TestWords(
        "Sound briefly, warned",
        "Warn everybody, in the street too, and wear hearing protection. Sound it once, briefly, and listen at each "
        "bed with the door shut.",
        "NIOSH exposure limits; the bedside yardstick is the practice's",
    ),
    "flood": TestWords(
        "Wet the probes",
        "Bridge the probes with a damp cloth; dry them after. It must tell at once and clear.",
        COMMON_PRACTICE,
    ),
    "smoke": TestWords(
        "By licensed others",
        "Not tested by this sheet: by licensed others, to the adopted code, with the fire service told where one is "
        "called.",
        "NFPA 72; the adopted code",
    ),
    "other": TestWords(
        "By its instructions", "By its maker's instructions, once it is chosen.", "the device's own instructions"
    ),
}


def test_words_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """How the kinds on this plan are tested."""
    used = {device.kind for _, device in order.devices()}
    if not used:
        return
    yield from setter.heading("How each kind is tested")
    for kind in DEVICE_KINDS:
        if kind.kind in used:
            test = TESTS[kind.kind]
            words = test.whole + (f" {hearing_caution(order.house.practice)}" if kind.kind == "siren" else "")
            yield from setter.paragraph(f"{kind.name}. {words} ({test.source})")


def hearing_caution(practice: Practice) -> str:
    """How long hearing bears the rated level: T = 480 / 2^((L − 85)/3) minutes (NIOSH)."""
    rated = practice.number("siren.rated")
    minutes = _MINUTES / 2 ** ((rated - _EXPOSURE) / _EXCHANGE)
    borne = f"{minutes:.1f} min a day" if minutes >= 1 else f"{minutes * 60:.0f} s a day"
    return (
        f"At {rated:g} dBA, as rated at 10 ft, hearing bears {borne} by NIOSH, and far less nearer by. "
        "Never with the head beside it."
    )
