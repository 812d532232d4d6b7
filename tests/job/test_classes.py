"""Classes as their standards write them, and which product is taken where several could serve."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.job.spec import TILE, first, job, room, said, surface
from tilespec.job.product import class_parts, meets
from tilespec.job.types import Product

# EN 12004-1: type C, D or R with class 1 or 2; F fast, T reduced slip, E extended open time; S1, S2 deformable.
ADHESIVES = [
    ("C1", ("C1",)), ("C2", ("C2",)), ("C2TE", ("C2", "TE")), ("C2 TE", ("C2", "TE")), ("C2FTE S1", ("C2", "FTE", "S1")),
    ("C2ETF-S1", ("C2", "FTE", "S1")), ("C2S2", ("C2", "S2")), ("C1FT", ("C1", "FT")), ("D1", ("D1",)), ("D2TE", ("D2", "TE")),
    ("R1", ("R1",)), ("R2T", ("R2", "T")),
]
NO_ADHESIVES = ["C3", "C", "C2X", "C2TT", "D3", "D2F", "D2 S1", "R2 S1", "R1E", "S1", "", "C2 S3", "CG2"]
# EN 13888: CG1, CG2 (W reduced water absorption, A high abrasion resistance, F fast), RG.
GROUTS = [("CG1", ("CG1",)), ("CG2WA", ("CG2", "WA")), ("CG2AW", ("CG2", "WA")), ("CG2 W", ("CG2", "W")), ("CG1F", ("CG1", "F")),
          ("CG2FWA", ("CG2", "FWA")), ("RG", ("RG",))]
NO_GROUTS = ["CG3", "CG", "RG2", "RGW", "CG1W", "CG2WW", "C2"]
# EN 14891: CM, DM, RM; O1, O2 crack bridging at low temperature; P for contact with chlorinated water.
MEMBRANES = [("DM", ("DM",)), ("CM O1", ("CM", "O1")), ("DM O2P", ("DM", "O2P")), ("RM P", ("RM", "P")), ("CMO1P", ("CM", "O1P"))]
NO_MEMBRANES = ["DX", "DM O3", "DMX", "O1", "CM PO1"]
# EN 15651-3: S and XS for sanitary use, 1 to 3; ISO 11600: 25, 20, 12.5, 7.5 with LM, HM, E or P.
SEALANTS = [("XS1", ("XS1",)), ("XS1 25LM", ("XS1", "25LM")), ("S2", ("S2",)), ("25LM", ("25LM",)), ("S1 12.5E", ("S1", "12.5E"))]
NO_SEALANTS = ["XS4", "30LM", "XS", "25", "S1 25XX", "25P", "12.5LM", "7.5E"]


CLASSES = (("adhesive", ADHESIVES), ("grout", GROUTS), ("membrane", MEMBRANES), ("sealant", SEALANTS))


@pytest.mark.parametrize(("kind", "text", "parts"), [(kind, *case) for kind, listed in CLASSES for case in listed])
def test_classes(kind: str, text: str, parts: tuple[str, ...]) -> None:
    assert class_parts(kind, text) == parts
    # What is printed is read back as the same.
    assert class_parts(kind, "".join(parts[:2]) + (f" {parts[2]}" if len(parts) > 2 else "")) == parts


@pytest.mark.parametrize(
    ("kind", "text"),
    [(k, t) for k, ts in (("adhesive", NO_ADHESIVES), ("grout", NO_GROUTS), ("membrane", NO_MEMBRANES), ("sealant", NO_SEALANTS))
     for t in ts],
)
def test_no_classes(kind: str, text: str) -> None:
    assert class_parts(kind, text) is None


@given(st.permutations("FTE"), st.integers(0, 3))
def test_options_may_stand_in_any_order(order: list[str], count: int) -> None:
    options = "".join(order[:count])
    expected = "".join(o for o in "FTE" if o in options)
    assert class_parts("adhesive", f"C2{options}") == tuple(p for p in ("C2", expected) if p)


@pytest.mark.parametrize(
    ("statement", "right"),
    [("adhesive flex class c2te s1", "C2TE S1"), ("grout fine class cg2wa", "CG2WA"), ("sealant seal class xs1", "XS1")],
)
def test_small_letters_are_mended(statement: str, right: str) -> None:
    found = first(f"{statement}\n{TILE}floor 2.4 x 1.8\n")
    assert found.name == "unknown-class" and found.fixes[0].edits[0].text == right


@pytest.mark.parametrize(
    ("have", "want", "reaches"),
    [
        (("C2", "TE", "S1"), ("C2", "T"), True),
        (("C2", "TE", "S1"), ("C1",), True),
        (("C1", "T"), ("C2",), False),
        (("C2", "TE"), ("C2", "S1"), False),
        (("C2", "TE", "S2"), ("C2", "S1"), True),
        (("C2", "E"), ("C2", "T"), False),
        (("R2",), ("C2", "S1"), True),
        (("D2", "TE"), ("C1",), False),
        (("CG2", "WA"), ("CG2", "W"), True),
        (("CG1",), ("CG2",), False),
        (("RG",), ("CG2", "WA"), True),
        # EN 15651-3: S1 resists growth best, X has low loss of volume.
        (("XS1", "25LM"), ("S2",), True),
        (("S1",), ("XS1",), False),
        (("S3",), ("S2",), False),
        (("25LM",), ("S2",), False),
        ((), ("C2",), False),
        ((), (), True),
    ],
)
def test_what_reaches_a_class(have: tuple[str, ...], want: tuple[str, ...], reaches: bool) -> None:
    assert meets(Product("p", "adhesive", have, False), want) is reaches


def adhesive(text: str, letter: str = "") -> str:
    found = surface(text, letter).product("adhesive")
    assert found is not None
    return found.name


FLOOR = TILE + "floor 2.4 x 1.8{}\n  base concrete\n  tile white; joint 3\n"


def test_without_a_declared_product_the_generic_one_is_marked() -> None:
    found = surface(FLOOR.format(""), "").product("adhesive")
    assert found is not None and found.generic and found.span is None


def test_the_declared_product_is_taken() -> None:
    found = surface("adhesive flex class C2TE S1\n" + FLOOR.format(""), "").product("adhesive")
    assert found is not None and found.name == "flex" and not found.generic
    # What its line leaves out comes from the generic one of its class.
    assert found.water is not None and found.pot_life is not None


def test_of_two_the_one_that_meets_the_class() -> None:
    """A heated floor asks for a deformable adhesive."""
    two = "adhesive stiff class C2TE\nadhesive flex class C2TE S1\n"
    assert adhesive(two + FLOOR.format("")) == "stiff"
    assert adhesive(two + FLOOR.format(" heated")) == "flex"


def test_for_a_place_or_a_tile() -> None:
    two = "adhesive one class C2TE S1; for walls\nadhesive two class C2TE S1; for floor\n"
    text = two + FLOOR.format("") + "wall A\n  base cement render\n  tile white; joint 3\n"
    assert (adhesive(text), adhesive(text, "A")) == ("two", "one")
    mine = "adhesive any class C2TE S1\nadhesive mine class C2TE S1; for tile white\n"
    assert adhesive(mine + FLOOR.format("")) == "mine"


def test_named_at_the_surface_wins() -> None:
    two = "adhesive one class C2TE S1\nadhesive two class C2TE S1\n"
    assert adhesive(two + FLOOR.format("") + "  adhesive two\n") == "two"


def test_a_firms_stock_serves_every_room() -> None:
    found = job('use "stock"\n'.replace("stock", "stock.tilespec") + FLOOR.format(""), stock="adhesive ours class C2TE S1\n")
    assert found.rooms[0].floor is not None
    product = found.rooms[0].floor.product("adhesive")
    assert product is not None and product.name == "ours"
    assert found.files == ("/job.tilespec", "/stock.tilespec")


def test_scope_follows_the_order() -> None:
    """Before the first room: for the whole job. After it: for that room only."""
    text = (
        "adhesive all class C2TE S1\n" + TILE + 'room "Bathroom"\nadhesive own class C2TE S1\nfloor 2.4 x 1.8\n'
        'tile white joint 3\nroom "Toilet"\nfloor 1.2 x 0.9\n  tile white; joint 2\n'
    )
    bathroom, toilet = job(text).rooms
    assert bathroom.floor is not None and toilet.floor is not None
    assert bathroom.floor.product("adhesive").name == "own"  # type: ignore[union-attr]
    assert toilet.floor.product("adhesive").name == "all"  # type: ignore[union-attr]


def test_a_tile_of_one_room_is_not_known_in_the_other() -> None:
    head = 'room "Bathroom"\ntile white 300x300x9 porcelain\nfloor 2.4 x 1.8\n  tile white\n'
    assert said(head + 'room "Toilet"\nfloor 1.2 x 0.9\n  tile white\n') == ["unknown-tile"]
    assert said(head) == []


def test_the_rooms_tile_serves_surfaces_before_and_after_it() -> None:
    text = TILE + 'room "B" height 2.4\nwall A\ntile white joint 4; half bond\nfloor 2.4 x 1.8\nwall B\n  tile white; joint 2\n'
    found = room(text)
    assert [s.field.joint.mm for s in found.surfaces if s.field] == [4, 4, 2]
    assert [s.field.pattern.name for s in found.surfaces if s.field] == ["half", "half", "half"]
