"""SVG elements by svgwrite without its validator, which takes three times as long and refuses ``data-`` attributes."""

from __future__ import annotations

import re
from typing import Any
from xml.etree.ElementTree import Element

import svgwrite

SVG = svgwrite.Drawing(debug=False)  # a maker of elements alone: nothing is ever added to it
_IN_TEXT = (("&", "&amp;"), ("<", "&lt;"), (">", "&gt;"))
_OPEN = re.compile(r"\{(\w+)\}")
_IN_VALUES = (*_IN_TEXT, ('"', "&quot;"), ("\r", "&#13;"), ("\n", "&#10;"), ("\t", "&#09;"))


def cut_to(box: tuple[float, float, float, float], **attributes: Any) -> Any:
    """An element that shows of what is added to it only a box: left, top, right and bottom, in the parent's units."""
    left, top, right, bottom = box
    wide, high = right - left, bottom - top
    view = f"{left:.4f} {top:.4f} {wide:.4f} {high:.4f}"
    return SVG.svg(insert=(left, top), size=(wide, high), viewBox=view, **attributes)


def as_text(part: Any) -> str:
    """An element as text: what ``ElementTree.tostring`` gives for elements without prefixes, as svgwrite's are.

    In half of its time: a drag writes a dozen small elements for each position.
    """
    pieces: list[str] = []
    _add(pieces, part.get_xml())
    return "".join(pieces)


class Stencil:
    """An element written once, with places left open as ``{name}``, that a drag fills for each position."""

    def __init__(self, part: Any) -> None:
        pieces = _OPEN.split(as_text(part))
        self._pieces = pieces
        self._open = [
            (name, _IN_VALUES if before.endswith('="') else _IN_TEXT)
            for before, name in zip(pieces[::2], pieces[1::2], strict=False)
        ]

    def filled(self, **values: str) -> str:
        """What ``as_text`` gives for the element with these values."""
        pieces = self._pieces.copy()
        pieces[1::2] = [_escaped(values[name], letters) for name, letters in self._open]
        return "".join(pieces)


def titled(part: Any, **attributes: Any) -> Any:
    """An element whose title is left open as ``{title}``."""
    part.attribs.update(attributes)
    part.set_desc(title="{title}")
    return part


def with_inside(empty: str, inside: str) -> str:
    """The text of an element that has nothing in it, with the text of others put into it."""
    if not inside:
        return empty
    tag = empty[1 : empty.index(" ")]
    return f"{empty.removesuffix(' />')}>{inside}</{tag}>"


def _add(pieces: list[str], element: Element) -> None:
    tag, text = element.tag, element.text
    pieces.append(f"<{tag}")
    pieces += [f' {name}="{_escaped(value, _IN_VALUES)}"' for name, value in element.items()]
    if not text and not len(element):
        pieces.append(" />")
        return
    pieces.append(f">{_escaped(text, _IN_TEXT)}" if text else ">")
    for child in element:
        _add(pieces, child)
    pieces.append(f"</{tag}>")


def _escaped(text: str, letters: tuple[tuple[str, str], ...]) -> str:
    for letter, written in letters:
        if letter in text:
            text = text.replace(letter, written)
    return text
