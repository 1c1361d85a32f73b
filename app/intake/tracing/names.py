"""Room names: which words in a room are its name, and what use of a room they tell."""

from __future__ import annotations

import re
from collections.abc import Sequence

from app.intake.strokes import Words

# Common practice, no source; the first that is found wins, so the longer terms stand first.
_USES: tuple[tuple[str, str], ...] = (
    ("main_bedroom", r"(main|master|primary|owner'?s?'?)\s+(bed|suite)|elternschlaf"),
    ("main_bath", r"(main|master|primary|owner'?s?'?)\s+bath"),
    ("walk_in_closet", r"walk.?in|\bw\.?i\.?c\.?\b"),
    ("great_room", r"great\s*r"),
    ("family_room", r"family"),
    ("living_room", r"living|lounge|sitting|parlou?r|wohn|salon|s[eé]jour|sala\b"),
    ("mudroom", r"mud\s*r"),
    ("powder", r"powder|half\s*bath|\bw\.?c\.?\b|toilet"),
    ("laundry", r"laundry|utility/laundry|waschk|hauswirtschaft"),
    ("bath", r"bath|shower|ensuite|\bbad\b|salle de bain|ba[nñ]o"),
    ("guest_bedroom", r"guest\s*(bed|r)"),
    ("nursery", r"nursery"),
    ("bedroom", r"bed\s*r|\bbed\b|\bbr\b|\bbr\.?\s*\d|bedroom|schlaf|kinder|chambre|dormitorio"),
    ("pantry", r"pantry|larder"),
    ("kitchen", r"kitch|k[uü]che|cuisine|cocina"),
    ("dining", r"dining|breakfast|nook|esszimmer|salle [aà] manger|comedor"),
    ("garage", r"garage|carport|\bgar\.?\b"),
    ("office", r"office|study|\bden\b|library|b[uü]ro|bureau"),
    ("media_room", r"media|theat"),
    ("closet", r"closet|\bclo\.?\b|\bcl\.?\b|wardrobe|coats|linen|abstell"),
    ("storage", r"storage|\bstor\.?\b"),
    ("mechanical", r"mech|furnace|boiler"),
    ("utility", r"utility|util\.?|heiz|technik"),
    ("stairs", r"stair|treppe|\bup\b|\bdn\b|escalier"),
    ("entry", r"entry|foyer|vestibul|entrance|eingang|entr[eé]e"),
    ("hall", r"hall|corridor|passage|flur|diele|couloir|pasillo"),
    ("basement", r"basement|cellar|keller"),
    ("attic", r"attic"),
    ("porch", r"porch|patio|deck|terrace|veranda|balcon"),
    ("bonus_room", r"bonus"),
)
_KNOWN = tuple((use, re.compile(words, re.IGNORECASE)) for use, words in _USES)
_MEASURES = re.compile(
    r"^[\s\d.,'\"x×/()²+-]*(m2|m²|sq\.?\s*(ft|m)\.?|s\.?f\.?|mm|cm|m|ft|qm)?[\s\d.,'\"x×-]*$", re.IGNORECASE
)
_LONGEST = 60


def use_told(name: str) -> str:
    """The use that a room's name tells; ``other`` where it tells none."""
    return next((use for use, words in _KNOWN if words.search(name)), "other")


def name_among(words: Sequence[Words]) -> str | None:
    """The name among the words that stand in a room: lines of the largest telling text, from the top; None: no name."""
    telling = [one for one in words if not _MEASURES.match(one.text) and sum(map(str.isalpha, one.text)) >= 2]
    if not telling:
        return None
    known = [one for one in telling if use_told(one.text) != "other"]
    first = max(known or telling, key=lambda one: (one.height, one.at[1]))
    lines = [
        one
        for one in telling
        if abs(one.height - first.height) <= 0.1 * first.height
        and abs(one.at[1] - first.at[1]) <= 2.6 * first.height
        and abs(one.at[0] - first.at[0]) <= 4 * first.height
    ]
    lines.sort(key=lambda one: -one.at[1])
    return cased(" ".join(dict.fromkeys(one.text for one in lines)))[:_LONGEST].strip()


def cased(text: str) -> str:
    """A name in capitals written as a person would: ``MAIN BEDROOM`` as ``Main bedroom``, ``ROOM A`` as ``Room A``."""
    if not text.isupper() or len(text) <= 3:
        return text
    words = [word if len(word) <= 2 else word.lower() for word in text.split()]
    return " ".join([words[0].capitalize() if len(words[0]) > 2 else words[0], *words[1:]])
