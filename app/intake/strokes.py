"""A drawing in plain terms, whatever program wrote it: strokes, arcs and words on layers, in the drawing's own unit."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from dataclasses import dataclass, field, replace

Spot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Stroke:
    """A straight line; ``width`` where it is drawn as wide as a wall; ``symbol`` numbers its block (0: none)."""

    layer: str
    a: Spot
    b: Spot
    symbol: int = 0
    width: float = 0.0

    @property
    def length(self) -> float:
        """Its length."""
        return math.dist(self.a, self.b)


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc, counter-clockwise from ``start`` over ``sweep`` degrees (360: a circle)."""

    layer: str
    centre: Spot
    radius: float
    start: float
    sweep: float
    symbol: int = 0

    def at(self, angle: float) -> Spot:
        """The point at an angle in degrees."""
        turn = math.radians(angle)
        return self.centre[0] + self.radius * math.cos(turn), self.centre[1] + self.radius * math.sin(turn)

    @property
    def ends(self) -> tuple[Spot, Spot]:
        """Where it begins and ends."""
        return self.at(self.start), self.at(self.start + self.sweep)

    def chords(self, step: float = 7.5) -> list[Stroke]:
        """Chords cut at whole multiples of ``step`` degrees, so that those of concentric arcs are parallel."""
        last = self.start + self.sweep
        inner = [step * k for k in range(math.ceil(self.start / step), math.floor(last / step) + 1)]
        angles = [self.start, *(a for a in inner if self.start + 0.5 < a < last - 0.5), last]
        spots = [self.at(angle) for angle in angles]
        return [Stroke(self.layer, a, b, self.symbol) for a, b in itertools.pairwise(spots)]


@dataclass(frozen=True, slots=True)
class Words:
    """A text at its middle, with the height of its letters; ``turn`` is the direction it runs in, in degrees."""

    layer: str
    at: Spot
    text: str
    height: float
    turn: float = 0.0


@dataclass
class Sheet:
    """All strokes, arcs and words of a drawing, and how many entities of each kind every layer has.

    ``symbols`` are the names of the blocks by number, ``hidden`` the layers that the drawing does not show.
    """

    strokes: list[Stroke] = field(default_factory=list)
    arcs: list[Arc] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)
    counts: dict[str, Counter[str]] = field(default_factory=dict)
    symbols: dict[int, str] = field(default_factory=dict)
    hidden: set[str] = field(default_factory=set)

    def count(self, layer: str, kind: str) -> None:
        """Count an entity of a layer."""
        self.counts.setdefault(layer, Counter())[kind] += 1

    def placed(self, scale: float, origin: Spot) -> Sheet:
        """The same drawing with ``origin`` at nought and lengths multiplied by ``scale``."""

        def put(spot: Spot) -> Spot:
            return (spot[0] - origin[0]) * scale, (spot[1] - origin[1]) * scale

        return replace(
            self,
            strokes=[Stroke(one.layer, put(one.a), put(one.b), one.symbol, one.width * scale) for one in self.strokes],
            arcs=[
                Arc(one.layer, put(one.centre), one.radius * scale, one.start, one.sweep, one.symbol)
                for one in self.arcs
            ],
            words=[Words(one.layer, put(one.at), one.text, one.height * scale, one.turn) for one in self.words],
        )
