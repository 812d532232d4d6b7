"""What places ask of their products and because of what, and whether the products have it."""

from __future__ import annotations

from tests.job.spec import job
from tilespec.job.suitability import Suit, suitability
from tilespec.practice.lookup import practice

TILE = "tile white 200x200x8 ceramic; weight 14 kg/m2\n"
FLOOR = "floor 2.4 x 1.8{}\n  base concrete\n  tile white; joint 3\n"
WALL = "wall A 2.4 x 2.4\n  base cement render\n  tile white; joint 3\n"


def suits(text: str, kind: str, family: str = "EN") -> list[Suit]:
    return [s for s in suitability(job(text), practice(family)) if s.kind == kind]


def asked(text: str, kind: str = "adhesive") -> list[tuple[str, tuple[str, ...]]]:
    (found,) = suits(text, kind)
    return [(a.word.text, a.because) for a in found.asks]


# The classes are common practice, reference rows B-30 to B-45: from memory, printed as guidance.


def test_a_dry_floor_asks_for_the_simplest_class() -> None:
    assert asked(TILE + FLOOR.format("")) == [("C1", ("dry",))]


def test_each_reason_stands_with_its_own_class_and_the_governing_one_first() -> None:
    porcelain = TILE.replace("ceramic", "porcelain")
    assert asked(porcelain + FLOOR.format(" heated")) == [
        ("C2 S1", ("heated-floor",)), ("C1", ("dry",)), ("C2", ("porcelain",)),
    ]


def test_a_class_that_is_asked_for_because_of_size_says_from_which() -> None:
    """Reference rows B-31, B-36, B-37: over 300 mm on a wall, over 600 mm, over 1200 mm. The edge itself does not count."""
    for size, word, over in (("300x300", "D1 or C1", None), ("310x300", "C2", 300), ("600x300", "C2", 300),
                             ("610x300", "C2 S1", 600), ("1200x600", "C2 S1", 600), ("1210x600", "C2 S2", 1200)):
        (found,) = suits(TILE.replace("200x200", size) + WALL, "adhesive")
        first = found.asks[0]
        assert (first.word.text, first.over.mm if first.over is not None else None) == (word, over), size


def test_of_a_mosaic_the_chips_count_not_the_sheet() -> None:
    mosaic = "tile white 305x305x8 mosaic ceramic; chips 48 x 48; weight 14 kg/m2\n"
    assert asked(mosaic + WALL) == [("D1 or C1", ("dry",))]


def test_base_stone_and_membrane_are_reasons() -> None:
    stone = TILE.replace("ceramic", "marble")
    assert asked(stone + WALL.replace("cement render", "old tiles")) == [
        ("C2 S1", ("old-tiles",)), ("D1 or C1", ("dry",)), ("C2", ("stone",)), ("white", ("stone",)),
    ]
    wet = WALL + "  shower zone\n"
    assert asked(TILE + wet) == [("C2 or D2", ("shower",)), ("C2", ("dispersion-membrane",))]
    cement = "membrane slurry class CM; coats 2; film 2 mm\n"
    assert asked(cement + TILE + wet) == [("C2 or D2", ("shower",))]


def test_every_word_has_its_source() -> None:
    spec = TILE.replace("ceramic", "porcelain") + FLOOR.format(" heated") + WALL + "  shower zone\n"
    found = suitability(job(spec), practice("UK"))
    assert {s.kind for s in found} == {"adhesive", "grout", "membrane", "sealant"}
    for s in found:
        assert s.asks and all(a.word.why.source and a.word.why.asked == "UK" for a in s.asks)


def test_generic_products_fit_what_is_asked() -> None:
    spec = TILE.replace("ceramic", "porcelain") + FLOOR.format(" heated") + WALL + "  shower zone\n"
    assert {s.fit for s in suitability(job(spec), practice("EN"))} == {"fits"}


def test_a_product_below_its_class_says_so() -> None:
    """The only adhesive that is declared is taken, whatever its class; rules tell what is wrong with it."""
    for cls, fit in (("class C2TE S1", "fits"), ("class C2TE", "below"), ("", "not-said"), ("class A118.4", "other-standard")):
        (found,) = suits(f"adhesive own {cls}\n" + TILE + FLOOR.format(" heated"), "adhesive")
        assert (found.product.name, found.fit) == ("own", fit)


def test_grout_and_sealant() -> None:
    """Grout: reference row C-10, trade practice. Sealant: EN 15651-3, choice by common practice; XS1 is better than S2."""
    dry, wet = TILE + WALL, TILE + WALL + "  shower zone\n"
    assert asked(dry, "grout") == [("CG1", ("dry",))]
    assert asked(wet, "grout") == [("CG2 WA or RG", ("shower",))]
    assert asked(TILE + FLOOR.format(" heated"), "grout") == [("CG2 WA", ("heated-floor",))]
    assert asked(dry, "sealant") == [("S2", ("dry",))]
    assert [s.fit for cls in ("XS1", "S3") for s in suits(f"sealant own class {cls}\n" + dry, "sealant")] == ["fits", "below"]
    mirror = wet + "  mirror 0.6 x 0.8; 0.15 from left, 1.2 up\n"
    assert asked(mirror, "sealant") == [("XS1", ("shower",)), ("neutral", ("mirror",))]


def test_a_membrane_is_asked_for_its_film_and_coats() -> None:
    """DIN 18534-3 as reported in the trade's press: 0.5 mm of a dispersion in two coats."""
    for film, fit in (("film 0.5 mm; ", "fits"), ("film 0.4 mm; ", "below"), ("", "fits")):
        (found,) = suits(f"membrane own class DM; {film}coats 2\n" + TILE + WALL + "  shower zone\n", "membrane")
        assert [x.what for x in found.least] == ["film", "coats"]
        assert found.fit == fit
        assert found.least[0].fit == (fit if film else "not-said")
    (sheet,) = suits("membrane own sheet\n" + TILE + WALL + "  shower zone\n", "membrane")
    assert sheet.least == () and sheet.fit == "other-standard"


def test_the_lining_of_a_niche_has_its_own_row() -> None:
    gem = "tile gem 300x300x6 mosaic glass translucent; chips 25 x 25; weight 12 kg/m2\n"
    niche = WALL + "  niche 0.4 x 0.3; 0.9 from left, 1.2 up; 0.1 deep; tile gem\n"
    field, lining = suits(gem + TILE + niche, "adhesive")
    assert (field.tile, lining.tile) == ("white", "gem")
    assert [(a.word.text, a.because) for a in lining.asks] == [
        ("C2", ("glass",)), ("D1 or C1", ("dry",)), ("white, fast setting", ("translucent",)),
    ]
    assert lining.fit == "fits"
