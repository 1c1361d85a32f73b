"""What the changes between two plans do: panes whose proof changed, cable, boxes, zones, battery and findings.

Each answer is the difference of two that are worked out already; panes and pulls are matched by what they are called,
read through the renaming.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from app.review.comparison.pairing import Pairs

Answer = Mapping[str, Any]
_SAME_SHARE = 0.0005
_SAME_FEET = 0.005


def effects(pairs: Pairs, old: tuple[Answer, Answer], new: tuple[Answer, Answer]) -> dict[str, Any]:
    """The differences; ``old`` and ``new`` are each the check and the wiring answer of a plan."""
    (old_check, old_wiring), (new_check, new_wiring) = old, new
    return {
        "panes": list(_panes(pairs, old_check["panes"], new_check["panes"])),
        "coverage": {
            key: {"from": old_check["summary"][key], "to": new_check["summary"][key]}
            for key in ("panes", "covered", "partial", "uncovered")
        },
        "cable": list(_cable(old_wiring["totals"], new_wiring["totals"])),
        "pulls": list(_pulls(pairs, old_wiring["pulls"], new_wiring["pulls"])),
        "boxes": list(_boxes(old_wiring["boxes"], new_wiring["boxes"])),
        "zones": {"from": len(old_wiring["zones"]), "to": len(new_wiring["zones"])},
        "battery": list(_batteries(pairs, old_wiring["supplies"], new_wiring["supplies"])),
        "findings": _findings(pairs, old_check["findings"], new_check["findings"]),
    }


def _panes(pairs: Pairs, old: Iterable[Answer], new: Iterable[Answer]) -> Iterator[dict[str, Any]]:
    """Panes that came or went, or whose status, best detector or covered share differs."""
    before = {_pane_now(pairs, pane): pane for pane in old}
    after = {pane["id"]: pane for pane in new}
    for name in [*after, *(name for name in before if name not in after)]:
        one, two = before.get(name), after.get(name)
        if one is None or two is None or _other_proof(pairs, one, two):
            shown = two or one
            assert shown is not None
            yield {
                "id": name,
                "opening": shown["opening"],
                "level": shown["level"],
                "from": _proof(one),
                "to": _proof(two),
            }


def _pane_now(pairs: Pairs, pane: Answer) -> str:
    return f"{pairs.now('openings', pane['opening'])}/{pane['id'].rsplit('/', 1)[1]}"


def _other_proof(pairs: Pairs, old: Answer, new: Answer) -> bool:
    if old["status"] != new["status"] or (old["best"] is None) != (new["best"] is None):
        return True
    if old["best"] is None:
        return False
    if pairs.now("devices", old["best"]["device"]) != new["best"]["device"]:
        return True
    return bool(abs(old["best"]["fraction"] - new["best"]["fraction"]) > _SAME_SHARE)


def _proof(pane: Answer | None) -> dict[str, Any] | None:
    if pane is None:
        return None
    best = pane["best"] or {"device": None, "fraction": 0.0, "farthest_ft": None}
    return {"status": pane["status"], **best}


def _cable(old: Mapping[str, Answer], new: Mapping[str, Answer]) -> Iterator[dict[str, Any]]:
    for cable in sorted({*old, *new}):
        one, two = (totals.get(cable, {"pulls": 0, "cut_ft": 0, "bought_ft": 0}) for totals in (old, new))
        keys = ("pulls", "cut_ft", "bought_ft")
        if any(one[key] != two[key] for key in keys):
            yield {"cable": cable, **{key: {"from": one[key], "to": two[key]} for key in keys}}


def _pulls(pairs: Pairs, old: Iterable[Answer], new: Iterable[Answer]) -> Iterator[dict[str, Any]]:
    """Pulls that came or went, or whose length to cut or cable differs."""
    before = {pairs.now("devices", pull["label"]): pull for pull in old}
    after = {pull["label"]: pull for pull in new}
    for label in [*after, *(label for label in before if label not in after)]:
        one, two = before.get(label), after.get(label)
        if one is None or two is None or (one["cut_ft"], one["cable"]) != (two["cut_ft"], two["cable"]):
            shown = two or one
            assert shown is not None
            yield {
                "label": label,
                "device": shown["device"],
                "level": shown["level"],
                "from": _cut(one),
                "to": _cut(two),
            }


def _cut(pull: Answer | None) -> dict[str, Any] | None:
    return None if pull is None else {"cable": pull["cable"], "cut_ft": pull["cut_ft"]}


def _boxes(old: Iterable[Answer], new: Iterable[Answer]) -> Iterator[dict[str, Any]]:
    one, two = (Counter((box["cable"], box["size_ft"]) for box in boxes) for boxes in (old, new))
    for cable, size in sorted({*one, *two}):
        if one[cable, size] != two[cable, size]:
            yield {"cable": cable, "size_ft": size, "from": one[cable, size], "to": two[cable, size]}


def _batteries(pairs: Pairs, old: Iterable[Answer], new: Iterable[Answer]) -> Iterator[dict[str, Any]]:
    before = {pairs.now("devices", supply["can"]): supply["battery"] for supply in old}
    after = {supply["can"]: supply["battery"] for supply in new}
    for can in sorted({*before, *after}):
        one, two = (supplies.get(can, {}) for supplies in (before, after))
        said = [(battery.get("with_margin_ah"), battery.get("size_ah")) for battery in (one, two)]
        if _differ(said[0][0], said[1][0]) or said[0][1] != said[1][1]:
            keys = ("with_margin_ah", "size_ah")
            yield {"can": can, **{key: {"from": one.get(key), "to": two.get(key)} for key in keys}}


def _differ(one: float | None, two: float | None) -> bool:
    return (one is None) != (two is None) or (one is not None and two is not None and abs(one - two) > _SAME_FEET)


def _findings(pairs: Pairs, old: Iterable[Answer], new: Iterable[Answer]) -> dict[str, list[Answer]]:
    """Findings that are new and findings that are gone, by rule, severity and things."""
    before = Counter(_finding_key(finding, pairs) for finding in old)
    after = Counter(_finding_key(finding, None) for finding in new)
    return {
        "new": list(_beyond(new, before, None)),
        "gone": list(_beyond(old, after, pairs)),
    }


def _beyond(findings: Iterable[Answer], others: Counter[Any], pairs: Pairs | None) -> Iterator[Answer]:
    """Findings that the other plan has not, each of its findings answering for one."""
    left = Counter(others)
    for finding in findings:
        key = _finding_key(finding, pairs)
        if left[key]:
            left[key] -= 1
        else:
            yield {name: finding[name] for name in ("rule", "severity", "things", "message")}


def _finding_key(finding: Answer, pairs: Pairs | None) -> tuple[str, str, frozenset[str]]:
    things = finding["things"] if pairs is None else [_thing_now(pairs, thing) for thing in finding["things"]]
    return (finding["rule"], finding["severity"], frozenset(things))


def _thing_now(pairs: Pairs, thing: str) -> str:
    owner, _, lite = thing.partition("/")
    for family, old in pairs.renamed:
        if old == owner:
            return pairs.renamed[family, old] + (f"/{lite}" if lite else "")
    return thing
