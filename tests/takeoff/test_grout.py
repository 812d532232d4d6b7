"""Grout: worked examples J1 and reference row L-05."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.takeoff.building import ADHESIVE, GROUT, en, laid, mosaic, q, replace, surface, tile, wall_job
from tilespec.job.types import Product, Tile
from tilespec.takeoff import measure
from tilespec.takeoff.types import Line


def grout(t: Tile, joint: object, product: Product = GROUT, width: object = 1, height: object = 1) -> Line:
    s = surface("A", width, height, laid(t, joint=joint), products=(ADHESIVE, product))
    return measure(wall_job(s), en()).lines_of("grout")[0]


@pytest.mark.parametrize(
    ("size", "joint", "density", "rate"),
    [
        ((600, 300, 9), 3, "1.6", 0.2160),
        ((600, 300, 9), 2, "1.6", 0.1440),
        ((600, 300, 9), 3, "1.8", 0.2430),
        ((300, 300, 8), 3, "1.6", 0.2560),
        ((600, 600, 10), 3, "1.6", 0.1600),
        ((1200, 600, 10), 3, "1.6", 0.1200),
        ((150, 150, 6), 3, "1.6", 0.3840),
        ((100, 100, 6), 2, "1.6", 0.3840),
        ((200, 100, 8), 10, "1.6", 1.9200),
        ((50, 50, 5), 2, "1.6", 0.6400),
        ((25, 25, 4), 2, "1.6", 1.0240),
        ((305, 305, 8), "3.2", "1.6", 0.2686),
        # Reference row L-05, the rows that J1 does not have.
        ((200, 200, 7), 2, "1.6", 0.224),
        ((150, 75, 7), 2, "1.6", 0.448),
    ],
)
def test_grout_a_square_metre(size: tuple[int, int, int], joint: object, density: str, rate: float) -> None:
    """Worked example J1, trade formula, kg/m²."""
    line = grout(tile("t", *size), joint, replace(GROUT, density=q(density, "kg/L")))
    assert float(line.net.value) == pytest.approx(rate, abs=0.0005)


# Computed from the repeating grid, exact: (1 − L·W ÷ ((L + j)·(W + j)))·t·ρ. The trade's form leaves the joint out of the
# repeat, so it is always high, by about j ÷ L + j ÷ W − j ÷ (L + W).
@pytest.mark.parametrize(
    ("size", "joint", "density", "exact"),
    [
        ((600, 300, 9), 3, "1.6", 0.2135),
        ((600, 300, 9), 2, "1.6", 0.1429),
        ((600, 300, 9), 3, "1.8", 0.2402),
        ((300, 300, 8), 3, "1.6", 0.2522),
        ((600, 600, 10), 3, "1.6", 0.1588),
        ((1200, 600, 10), 3, "1.6", 0.1193),
        ((150, 150, 6), 3, "1.6", 0.3728),
        ((100, 100, 6), 2, "1.6", 0.3728),
        ((200, 100, 8), 10, "1.6", 1.7177),
        ((50, 50, 5), 2, "1.6", 0.6036),
        ((25, 25, 4), 2, "1.6", 0.9130),
        ((305, 305, 8), "3.2", "1.6", 0.2644),
    ],
)
def test_the_trades_form_is_never_short(size: tuple[int, int, int], joint: object, density: str, exact: float) -> None:
    line = grout(tile("t", *size), joint, replace(GROUT, density=q(density, "kg/L")))
    long, wide, j = size[0], size[1], float(str(joint))
    over = float(line.net.value) / exact - 1
    assert 0 < over < 0.13 and over == pytest.approx(j / long + j / wide - j / (long + wide), abs=0.008)


def test_mosaic_is_grouted_between_its_chips() -> None:
    """Reference row L-05: chips 48 × 48 × 5, joint 2: 0.667 kg/m², whatever the joint between sheets."""
    assert float(grout(mosaic(), 3).net.value) == pytest.approx(0.667, abs=0.0005)


def test_densities_when_the_product_does_not_say() -> None:
    """Reference row L-03: cement 1.6, resin 1.7."""
    cement = grout(tile(), 3, replace(GROUT, density=None))
    resin = grout(tile(), 3, replace(GROUT, density=None, cls=("RG",), flags=("epoxy", "resin")))
    assert resin.net.value / cement.net.value == F(17, 16)


def test_allowance_and_packs() -> None:
    """Reference row L-07: 10 %. 12 m² of 300 × 300 × 9, joint 3: 12 × 0.288 × 1.1 = 3.80 kg, one bag of 5 kg."""
    line = grout(tile(), 3, width=4, height=3)
    assert float(line.gross.value) == pytest.approx(3.8016, abs=1e-6)
    assert line.packs is not None and line.packs.value == 1


def test_joint_length() -> None:
    """Each square metre of 300 × 300 has 1 ÷ 0.3 + 1 ÷ 0.3 = 6.67 m of joint."""
    found = measure(wall_job(surface("A", 3, 1, laid(tile()))), en()).measure("room/wall A")
    assert found.joint_length is not None and found.joint_length.value == 20


def test_wider_joints_and_thicker_tiles_take_more() -> None:
    usual, wide, thick = grout(tile(), 3), grout(tile(), 6), grout(tile("t", 300, 300, 18), 3)
    assert wide.net.value == thick.net.value == 2 * usual.net.value
