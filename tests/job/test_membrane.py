"""Wet zones and how far the membrane reaches. Heights and widths are the practice's (EN: common practice), sums by hand."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.job.spec import TILE, mm, room, surface

ROOM = TILE + 'room "Bathroom" height {height}\nfloor 2.4 x 1.8\nwall A\nwall B\nwall C\nwall D\n'


def areas(text: str, letter: str) -> list[tuple[str, tuple[F, F, F, F] | None]]:
    return [(a.reason, mm(a.rect) if a.rect else None) for a in surface(text, letter).membrane_areas]


def shower(height: str = "2.6", head: str = "2.1") -> str:
    return ROOM.format(height=height) + f"shower in corner D A, 0.9 x 1.0; tray; head at height {head}\n"


def test_a_shower_in_a_corner() -> None:
    """0.9 m along D, 1.0 m along A; 0.2 m above the head, 0.3 m beside, upstand 0.1 m."""
    upstand = ("upstand", (0, 0, 2400, 100))
    assert areas(shower(), "A") == [("shower", (0, 0, 1300, 2300)), upstand]
    # On D the shower stands at the right end: from 1.8 - 0.9 - 0.3.
    assert areas(shower(), "D") == [("shower", (600, 0, 1200, 2300)), ("upstand", (0, 0, 1800, 100))]
    assert areas(shower(), "B") == [("upstand", (0, 0, 1800, 100))]


@pytest.mark.parametrize(
    ("height", "head", "top"),
    [
        ("2.6", "2.1", 2300),
        ("2.2", "2.1", 2200),    # not above the wall
        ("2.6", "1.2", 1800),    # not under the least height (figure of AS 3740:2021)
    ],
)
def test_the_height_in_a_shower(height: str, head: str, top: int) -> None:
    (_, rect), *_ = areas(shower(height, head), "A")
    assert rect is not None and rect[3] == top


def test_zones_end_at_the_shower() -> None:
    zone = surface(shower(), "A").zones[0]
    assert (zone.exposure, mm(zone.rect)) == ("shower", (0, 0, 1000, 2300))


def test_a_bath() -> None:
    """0.15 m above the rim, 0.3 m beside."""
    text = ROOM.format(height="2.4") + "bath in corner A B, 0.8 x 1.7; rim 0.56\n"
    assert areas(text, "A")[0] == ("bath", (1300, 0, 1100, 710))
    assert areas(text, "B")[0] == ("bath", (0, 0, 1800, 710))


def test_a_basin() -> None:
    """0.15 m beside, 0.3 m below the rim, 0.6 m above it."""
    text = ROOM.format(height="2.4") + "basin on wall A, 0.6 x 0.45; 1.0 from left; rim 0.86\n"
    assert areas(text, "A") == [("splash", (850, 560, 900, 900))]
    assert [z.exposure for z in surface(text, "A").zones] == ["splash"]


def test_a_basin_near_the_corner_stays_on_its_wall() -> None:
    text = ROOM.format(height="2.4") + "basin on wall A, 0.6 x 0.45; 0.1 from left; rim 0.2\n"
    assert areas(text, "A") == [("splash", (0, 0, 850, 800))]


def test_the_floor_is_sealed_all_over_where_it_gets_wet() -> None:
    assert [a.reason for a in room(shower()).floor.membrane_areas] == ["floor"]  # type: ignore[union-attr]
    dry = room(ROOM.format(height="2.4"))
    assert dry.floor is not None and not dry.floor.membrane_areas and not dry.floor.zones
    assert not any(s.membrane_areas for s in dry.wall_surfaces)


def test_membrane_none_is_taken_at_its_word() -> None:
    """It is the rules of fitness that object."""
    text = shower().replace("wall A\n", "wall A\n  membrane none\n")
    wall = surface(text, "A")
    assert not wall.membrane_areas and wall.zones and wall.refusal("membrane") is not None
    assert surface(text, "D").membrane_areas


@pytest.mark.parametrize(
    ("family", "above"),
    # AS 3740:2021 waterproofs a shower's wall to at least 1800 mm: the value of EN is borrowed where a family has none.
    [("EN", F(2300)), ("DE", F(2300))],
)
def test_the_family_decides(family: str, above: F) -> None:
    (_, rect), *_ = areas(f'job "B"\n  practice {family}\n' + shower(), "A")
    assert rect is not None and rect[3] == above
