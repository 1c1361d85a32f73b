"""What the beds of a level would hear of sirens at many trial spots: every pair worked out once, then summed at will.

An estimate, as in ``app.coverage.sound``; it never claims to meet a fire rule.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from app.coverage.sound import Source, listen, pillows, sounders
from app.coverage.sound_round import WaysRound
from app.geometry.bodies import FloatArray
from app.review.house import House, Storey

_FAINT = 15.0  # dB below what is asked: fainter than this adds nothing that counts
_TRIAL = "trial "  # no id of a plan holds a space


class Bedsides:
    """The beds of one level, what they hear of the house as it is, and what each trial spot would add."""

    def __init__(self, house: House, storey: Storey, spots: Sequence[tuple[float, float]]) -> None:
        practice = house.practice
        self._asked = practice.number("sound.bedside")
        beds = [bed for bed in pillows(house.plan) if bed.level == storey.level.id]
        z, rated = storey.level.elevation + practice.number("siren.height"), practice.number("siren.rated")
        trials = [Source(f"{_TRIAL}{index}", storey.level.id, spot, z, rated) for index, spot in enumerate(spots)]
        self._standing: FloatArray = np.zeros(len(beds))
        self._added: FloatArray = np.zeros((len(spots), len(beds)))
        sources = [*sounders(house.plan), *trials]
        straight = listen(house.scenes, practice, sources, beds)
        if beds:
            straight = WaysRound(house.scenes, practice, sources, beds).heard(straight, self._asked - _FAINT)
        for bed, heard in enumerate(straight):
            for ray in heard.rays:
                power = 10 ** (ray.level / 10)
                if ray.device.startswith(_TRIAL):
                    self._added[int(ray.device.removeprefix(_TRIAL)), bed] = power
                else:
                    self._standing[bed] += power

    def shortfall(self, chosen: Sequence[int]) -> tuple[int, float]:
        """How many beds hear too little with sirens at the chosen spots too, and how many dB the worst lacks
        (less than nought where all hear enough).
        """
        power = self._standing + self._added[list(chosen)].sum(axis=0)
        lacking = self._asked - 10 * np.log10(np.maximum(power, 1e-12))
        return int((lacking > 1e-9).sum()), round(float(lacking.max()), 6) if len(lacking) else 0.0
