"""The page reads and writes lengths as the server does."""

from __future__ import annotations

from typing import Any

import pytest

from app.plan.measures import feet_inches, metres, parse_length
from tests.browser.conftest import one_room

pytestmark = pytest.mark.browser

_TYPED = ("12'-6\"", "12' 6 1/2\"", "12-6", "12.5'", '150"', "3.81 m", "381 cm", "3810mm", "7", "12' 1/2\"", '1/2"')
_TYPED += ("12 ft 6 in", "12-6 1/2", "-3'", ".5'", "12’ 6”", '6½"', "0'-0 1/16\"", "4’-3¾”", "5 feet")
_NO_LENGTHS = ("", "abc", "12''6'", '3 1/0"', "1e3", "12 6", "--3", "3 m 4")


def test_every_sixteenth_of_an_inch_is_written_and_read_alike(open_plan: Any) -> None:
    house = open_plan(one_room())
    lengths = [part / 192 for part in range(0, 192 * 21)]
    written = house.page.evaluate(
        """async (lengths) => {
            const { feetInches, metres, parseLength } = await import("/static/plan/measures.js");
            return lengths.map((feet) => [feetInches(feet), parseLength(feetInches(feet), "imperial"), metres(feet)]);
        }""",
        lengths,
    )
    for feet, (text, read, metric) in zip(lengths, written, strict=True):
        assert text == feet_inches(feet)
        assert read == pytest.approx(feet, abs=1e-9)
        assert metric == metres(feet)


@pytest.mark.parametrize("units", ["imperial", "metric"])
def test_what_is_typed_is_read_alike(open_plan: Any, units: str) -> None:
    house = open_plan(one_room())
    read = house.page.evaluate(
        """async ([texts, units]) => {
            const { parseLength } = await import("/static/plan/measures.js");
            return texts.map((text) => parseLength(text, units));
        }""",
        [[*_TYPED, *_NO_LENGTHS], units],
    )
    assert read[: len(_TYPED)] == pytest.approx([parse_length(text, units) for text in _TYPED])
    for text, value in zip(_NO_LENGTHS, read[len(_TYPED) :], strict=True):
        assert value is None, text
        with pytest.raises(ValueError, match=r"length|fraction"):
            parse_length(text, units)
