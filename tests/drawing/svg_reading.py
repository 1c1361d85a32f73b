"""Reading drawings back in tests: elements by class, places in path data, and the box of every word."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"
Box = tuple[float, float, float, float]


def by_class(svg: ElementTree.Element, name: str) -> list[ElementTree.Element]:
    return [part for part in svg.iter() if name in (part.get("class") or "").split()]


def places(path: str) -> list[tuple[float, float]]:
    numbers = [float(text) for text in re.findall(r"-?\d+\.?\d*(?:e-?\d+)?", path)]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def subpaths(path: str) -> list[list[tuple[float, float]]]:
    return [places(part) for part in path.split("M") if part]


@dataclass(frozen=True)
class Word:
    text: str
    box: Box
    size: float
    turn: float
    corners: tuple[tuple[float, float], ...] = ()


def words(svg: ElementTree.Element) -> Iterator[Word]:
    """Every text with its box, by the width it is set to; groups that turn their words are followed."""
    yield from _words(svg, 0.0, (0.0, 0.0))


def _words(part: ElementTree.Element, turn: float, about: tuple[float, float]) -> Iterator[Word]:
    found = re.match(r"rotate\((\S+) (\S+) (\S+)\)", part.get("transform") or "")
    if found:
        turn, about = float(found[1]), (float(found[2]), float(found[3]))
    if part.tag == f"{SVG}text":
        x, y, size = float(part.attrib["x"]), float(part.attrib["y"]), float(part.attrib["font-size"])
        wide = float(part.attrib.get("textLength", "0"))
        left = x - {"middle": wide / 2, "end": wide}.get(part.get("text-anchor", "start"), 0.0)
        corners = [(left, y - 0.7 * size), (left + wide, y - 0.7 * size), (left + wide, y), (left, y)]
        cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        turned = [
            (
                about[0] + (px - about[0]) * cos - (py - about[1]) * sin,
                about[1] + (px - about[0]) * sin + (py - about[1]) * cos,
            )
            for px, py in corners
        ]
        xs, ys = [px for px, _ in turned], [py for _, py in turned]
        yield Word(part.text or "", (min(xs), min(ys), max(xs), max(ys)), size, turn, tuple(turned))
    for child in part:
        yield from _words(child, turn, about)


def lie_over(one: Box, other: Box, by: float = 0.05) -> bool:
    return min(one[2], other[2]) - max(one[0], other[0]) > by and min(one[3], other[3]) - max(one[1], other[1]) > by
