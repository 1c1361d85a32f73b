"""What a layer may be taken for, and a first guess from its name: the words that offices use in several languages."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Literal

Role = Literal["walls", "centrelines", "doors", "windows", "names", "ignore"]

ROLES: dict[Role, str] = {
    "walls": "Walls, drawn as two faces",
    "centrelines": "Walls, drawn as one line",
    "doors": "Doors",
    "windows": "Windows",
    "names": "Room names",
    "ignore": "Leave out",
}

# Common practice, no source; the first that is found in the name wins.
_WORDS: tuple[tuple[Role, str], ...] = (
    (
        "ignore",
        r"dim|furn|grid|title|patt|roof|fnd|footing|found|demo|elec|lite|light|plumb|mech|hvac|struct|beam|ceil|clng|"
        r"defpoints|viewport|note|symb|flor|stair|case|appl|equip|bemass|cota|meuble|mobil|axe",
    ),
    (
        "doors",
        r"door|(?<![a-z])dr(?![a-z])|porte|puerta|t[uü]e?r(?:en)?(?![a-z])|deur|porta|dörr|ovi|门|門|ドア|문(?!자)",
    ),
    (
        "windows",
        r"glaz|wind|(?<![a-z])win|fenster|fen[eê]tre|ventana|finestr|janela|raam|f[oö]nster|glass|窗|窓|창호|창문|유리",
    ),
    (
        "walls",
        r"wall|wand|w[aä]nde|mauer|mur(?![a-z]{3})|muro|pared|parede|parete|partition|partn|muur|v[aä]gg|sein|(?<![a-z])wal(?![a-z])|墙|牆|壁|벽",
    ),
    ("names", r"room|name|iden|area|text|txt|label|anno|raum|pi[eè]ce|local|ambient"),
)
_KNOWN = tuple((role, re.compile(words)) for role, words in _WORDS)


def role_by_name(layer: str) -> Role | None:
    """What a layer's name says it holds, or None."""
    name = layer.lower()
    if "wall" in name and re.search(r"patt|hatch|fill", name):
        return "ignore"
    return next((role for role, words in _KNOWN if words.search(name)), None)


def guessed_roles(
    counts: Mapping[str, Mapping[str, int]], hidden: set[str], paired: Mapping[str, float]
) -> dict[str, Role]:
    """A role for each layer: by its name; where none is named for walls, the layer with most length drawn in pairs.

    ``paired`` is the length that two parallel strokes a wall's thickness apart share, by layer.
    """
    roles: dict[str, Role] = {layer: role_by_name(layer) or "ignore" for layer in counts}
    roles |= {layer: "ignore" for layer in hidden if layer in roles}
    unnamed = [layer for layer in counts if role_by_name(layer) is None and layer not in hidden]
    if "walls" not in roles.values() and unnamed:
        best = max(unnamed, key=lambda layer: paired.get(layer, 0.0))
        if paired.get(best, 0.0) > 0:
            roles[best] = "walls"
    if "names" not in roles.values():
        for layer in unnamed:
            only_text = counts[layer].get("texts", 0) > 0 and sum(counts[layer].values()) == counts[layer]["texts"]
            if only_text and roles[layer] == "ignore":
                roles[layer] = "names"
    return roles
