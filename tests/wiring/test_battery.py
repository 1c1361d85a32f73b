"""The battery against worked examples of published guides and of facts recomputed from their formula."""

import pytest

from app.wiring.electric.battery import BASES, MARGINS, Basis, capacity, next_size, size_battery

SIZES = (4, 7, 7.2, 10, 12, 18, 26, 40, 55)
COMMERCIAL_FIRE = Basis(24, 5, "NFPA 72 10.6.7, for the guide's example")


def test_fire_alarm_guide():
    needed = capacity(0.42, 3.8, COMMERCIAL_FIRE)
    assert needed == pytest.approx(10.397, abs=1e-3)
    assert needed * 1.20 == pytest.approx(12.476, abs=1e-3)
    assert needed * 1.25 == pytest.approx(12.996, abs=1e-3)
    assert next_size(needed * 1.20, SIZES) == 18  # 12 Ah is short
    assert next_size(needed * 1.25, SIZES) == 18


def test_study_quiz():
    needed = capacity(0.25, 1.5, COMMERCIAL_FIRE)
    assert needed == pytest.approx(6.125)
    assert needed * 1.25 == pytest.approx(7.656, abs=1e-3)
    assert next_size(needed * 1.25, SIZES) == 10


@pytest.mark.parametrize(
    ("basis", "margin", "currents", "needed", "with_margin", "size"),
    [
        ("burglary_4h", "nfpa_72_2010_2019", (0.35, 1.2), 1.70, 2.04, 4),
        ("burglary_4h", "nfpa_72_2022", (0.35, 1.2), 1.70, 2.125, 4),
        ("premises_24h", "nfpa_72_2010_2019", (0.35, 1.2), 8.70, 10.44, 12),
        ("en_12h", "nfpa_72_2022", (0.35, 1.2), 4.50, 5.625, 7),
        ("fire_24h", "nfpa_72_2022", (0.18, 1.1), 4.3933, 5.4917, 7),
        ("fire_24h", "nfpa_72_2010_2019", (0.18, 1.1), 4.3933, 5.272, 7),
    ],
)
def test_household_bases(basis, margin, currents, needed, with_margin, size):
    battery = size_battery(*currents, basis, margin, SIZES)
    assert battery.needed_ah == pytest.approx(needed, abs=1e-3)
    assert battery.with_margin_ah == pytest.approx(with_margin, abs=1e-3)
    assert battery.size_ah == size


def test_size_is_rounded_up_never_down():
    assert next_size(7.0, SIZES) == 7
    assert next_size(7.01, SIZES) == 7.2
    assert next_size(55.1, SIZES) is None


def test_every_basis_and_margin_says_who_publishes_it():
    assert all(basis.source for basis in BASES.values())
    assert all("NFPA 72" in edition for _, edition in MARGINS.values())
