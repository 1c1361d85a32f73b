"""The group ``leaders`` of an overlay as SVG text: the lines, and on each how far it goes.

Words lie over no other words, and over other devices' symbols and tags as little as may be.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from app.drawing.leaders import Leader
from app.drawing.lengths import drawn_length
from app.drawing.maker import SVG, Stencil, as_text, titled, with_inside
from app.drawing.palette import INK, MISSED, PAPER, REACH
from app.drawing.view import Spot, View
from app.plan.devices import tag_of
from app.plan.model import Device

_PLAN = View()
_SHARES = (0.8, 0.62, 0.46, 0.92, 0.7, 0.54, 0.38, 0.3)  # of a leader's length, where its words are tried
_LETTER = 0.29  # of the height of words: half the width of a letter
# In heights of words, as the page draws them: half a symbol, half a tag, and how far above or below a tag is set. Which
# of the two is the page's to say, so both are kept clear.
_SYMBOL, _TAG, _ASIDE = 0.9, 0.5, 1.5
_LONGEST = 12.0  # heights of words: words and a tag side by side, half of each
_OVER_SYMBOL, _OVER_TAG = 3.0, 1.0  # what it costs


class Block(NamedTuple):
    """What words keep clear of, in feet with y downward: its middle, half its width and height, what it costs."""

    x: float
    y: float
    wide: float
    high: float
    cost: float


def blocks_of(devices: Iterable[Device], word: float) -> list[Block]:
    """The symbols and tags of some devices, for words of a height in feet."""
    blocks = []
    for device in devices:
        (x, y), wide = _PLAN.spot(device.at), _LETTER * word * len(tag_of(device))
        blocks.append(Block(x, y, _SYMBOL * word, _SYMBOL * word, _OVER_SYMBOL))
        blocks += [Block(x, y + aside * word, wide, _TAG * word, _OVER_TAG) for aside in (-_ASIDE, _ASIDE)]
    return blocks


def leaders_text(leaders: Sequence[Leader], word: float, units: str, blocks: Sequence[Block]) -> str:
    """The group ``leaders``; ``word`` is the height of its words in feet."""
    lines, words = [], []
    near, taken = _near(leaders, blocks, word), list[Block]()
    for leader in leaders:
        over = leader.over > 1e-9
        text = drawn_length(leader.feet, units)
        if over:
            text = f"{text}, over by {drawn_length(leader.over, units)}"
        course, title = _PLAN.line((leader.start, leader.end)), f"{leader.pane}: farthest {text}"
        lines.append((_LINE_OVER if over else _LINE).filled(course=course, pane=leader.pane, title=title))
        place = _best_place(leader, _LETTER * word * len(text), word, taken, near)
        if place is not None:
            ink = MISSED if over else INK
            words.append(_WORD.filled(text=text, x=str(place[0]), y=str(place[1]), ink=ink))
    group = _WORDS.filled(size=f"{word:.3f}", halo=str(word * 0.3))
    return with_inside(_LEADERS, "".join(lines) + with_inside(group, "".join(words)))


def _near(leaders: Sequence[Leader], blocks: Sequence[Block], word: float) -> list[Block]:
    """The blocks that words on some leaders may lie over."""
    spots = [_PLAN.spot(end) for leader in leaders for end in (leader.start, leader.end)]
    if not spots:
        return []
    xs, ys = zip(*spots, strict=True)
    left, right = min(xs) - _LONGEST * word, max(xs) + _LONGEST * word
    top, bottom = min(ys) - 2 * word, max(ys) + 2 * word
    return [block for block in blocks if top < block[1] < bottom and left < block[0] < right]


def _best_place(leader: Leader, half: float, word: float, taken: list[Block], near: Sequence[Block]) -> Spot | None:
    """Where along a leader its words lie over no others, which ``taken`` keeps, and over blocks least; else None."""
    (ax, ay), (bx, by) = _PLAN.spot(leader.start), _PLAN.spot(leader.end)
    high = 0.6 * word
    best, least = None, _OVER_SYMBOL  # words half hidden by a symbol would mislead
    for share in _SHARES:
        x, y = ax + share * (bx - ax), ay + share * (by - ay)
        if any(abs(x - there) <= half + wide and abs(y - up) <= high + tall for there, up, wide, tall, _ in taken):
            continue
        cost = 0.0
        for there, up, wide, tall, extra in near:
            if abs(y - up) <= high + tall and abs(x - there) <= half + wide:
                cost += extra
        if cost < least:
            best, least = (x, y), cost
        if not cost:
            break
    if best is None:
        return None
    taken.append(Block(*best, half, high, 0.0))
    return round(best[0], 3), round(best[1] + 0.35 * word, 3)


def _line_of_leader(**attributes: object) -> Stencil:
    line = SVG.path(d="{course}", vector_effect="non-scaling-stroke")
    return Stencil(titled(line, **{"data-pane": "{pane}"}, **attributes))


_LINE = _line_of_leader()
_LINE_OVER = _line_of_leader(**{"stroke": MISSED, "stroke-dasharray": "4 3", "stroke-width": 2, "class": "over"})
_WORD = Stencil(SVG.text("{text}", ("{x}", "{y}"), fill="{ink}"))
_WORDS = Stencil(
    SVG.g(
        font_size="{size}",
        text_anchor="middle",
        stroke=PAPER,
        stroke_width="{halo}",
        stroke_linejoin="round",
        **{"paint-order": "stroke"},
    )
)
_LEADERS = as_text(SVG.g(class_="leaders", fill="none", stroke=REACH, stroke_width=1))
