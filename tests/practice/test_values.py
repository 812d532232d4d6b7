"""Values of the practice data against the documents they come from, typed here a second time as plain numbers.

The row is that of the sourced values list; the document stands beside it. "common practice" and "from memory" are said
where they hold.
"""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tilespec.practice.lookup import practice
from tilespec.quantity import UNITS

# family, key, number, unit, row: document
NUMBERS = [
    # Contact of adhesive
    ("EN", "contact-wall-lowest", 65, "%", "A-11"),  # common practice, no source
    ("EN", "contact-floor", 80, "%", "A-01"),  # ANSI A108.5, taken over as common practice
    ("US", "contact-dry", 80, "%", "A-01"),  # ANSI A108.5
    ("US", "contact-wet", 95, "%", "A-02"),  # ANSI A108.5
    ("UK", "contact-floor", 95, "%", "A-08"),  # NHBC Standards 9.3.5: solid bed
    ("EN", "contact-stone", 95, "%", "A-07"),  # US trade practice
    ("US", "bed-min", F("2.38125"), "mm", "A-06"),  # ANSI A108.5, 2.2.2: 3/32 in
    ("UK", "solid-bed-load-share", 70, "%", "A-15"),  # BS 5385-1:2018
    ("EN", "back-butter-edge", 300, "mm", "A-12"),  # common practice; DIN 18157
    # Open time: EN 12004-1
    ("EN", "open-time", 20, "min", "B-07"),
    ("EN", "open-time-extended", 30, "min", "B-08"), ("EN", "open-time-fast", 10, "min", "B-09"),
    # Joints
    ("EN", "joint-min-floor", 2, "mm", "C-30"),  # common practice, from memory
    ("UK", "joint-min-floor", 3, "mm", "C-26"),  # NHBC Standards 9.1.7
    ("UK", "joint-min-wall", F("1.5"), "mm", "C-25"),  # NHBC Standards 9.1.7
    ("UK", "joint-advised-wall-large", 3, "mm", "C-27"),  # BS 5385-1:2018 as reported
    ("US", "joint-min-wall", F(1, 16), "in", "C-21"),  # ANSI A108.02, 4.3.8
    ("US", "joint-variation-factor", 3, "", "C-20"),  # ANSI A108.02, 4.3.8
    ("US", "joint-min-offset-rectified", F("3.175"), "mm", "C-22"),  # ANSI A108.02: 1/8 in
    ("US", "joint-min-offset-calibrated", F("4.7625"), "mm", "C-23"),  # ANSI A108.02: 3/16 in
    ("US", "offset-long-edge", 381, "mm", "C-24"),  # ANSI A108.02: 15 in
    ("US", "offset-max", 33, "%", "C-24"),
    ("AU", "joint-min-floor", 3, "mm", "C-28"), ("AU", "joint-min-wall", F("1.5"), "mm", "C-28"),  # AS 3958.1-2007
    ("DE", "joint-usual", 4, "mm", "C-29"),  # German and Austrian practice list
    # Membrane
    ("DE", "membrane-above-shower-head", 200, "mm", "D-26"),  # DIN 18534-1, from memory
    ("DE", "membrane-upstand", 50, "mm", "D-27"),  # DIN 18534-1, from memory
    ("EN", "membrane-upstand", 100, "mm", "D-27"),  # common practice
    ("AU", "membrane-upstand", 150, "mm", "D-29"),  # AS 3740
    ("AU", "membrane-shower-height-min", 1800, "mm", "D-28"),  # AS 3740:2021
    ("AU", "open-shower-reach", 1500, "mm", "D-30"),  # ABCB Housing Provisions 10.2.18
    ("DE", "standing-water-max", 10, "cm", "D-25"),  # DIN 18534-1
    ("US", "liner-upturn", 3, "in", "D-36"),  # IPC 417.5.2, from memory
    ("DE", "membrane-film-DM", F("0.5"), "mm", "D-40"), ("DE", "membrane-film-CM", 2, "mm", "D-41"),  # DIN 18534-3
    ("DE", "membrane-film-RM", 1, "mm", "D-42"), ("DE", "membrane-coats", 2, "count", "D-43"),
    ("DE", "membrane-allowance", 25, "%", "D-44"),
    ("EN", "ponding-depth-max", 100, "mm", "D-47"), ("EN", "ponding-duration", 24, "h", "D-48"),  # ASTM D5957
    ("EN", "ponding-load", 1, "kg/m2/mm", "D-47"),  # 10 kg/m2 for each cm of water
    ("US", "ponding-depth-min", 2, "in", "D-49"), ("US", "ponding-duration-min", 15, "min", "D-49"),  # IPC 312.9
    ("EN", "ponding-drop-max", 3, "mm", "D-50"),  # common practice
    # Flatness
    ("US", "flatness-floor", F("6.35"), "mm", "E-01"), ("US", "flatness-floor-length", F("3.048"), "m", "E-01"),  # ANSI A108.02
    ("US", "flatness-floor-large", F("3.175"), "mm", "E-02"), ("US", "flatness-large-edge", 381, "mm", "E-02"),
    ("UK", "flatness-floor", 3, "mm", "E-04"), ("UK", "flatness-floor-length", 2, "m", "E-04"),  # BS 8204-1, SR1
    ("UK", "flatness-wall", 3, "mm", "E-05"),  # NHBC Standards 9.2.5
    ("DE", "flatness-floor", 6, "mm", "E-07"), ("DE", "flatness-floor-large", 5, "mm", "E-08"),  # DIN 18202 table 3, 2 m
    ("DE", "flatness-wall", 7, "mm", "E-09"), ("DE", "flatness-wall-large", 5, "mm", "E-10"),
    # Moisture and age
    ("DE", "cm-limit-cement-screed", 2, "CM%", "E-20"),
    ("DE", "cm-limit-cement-screed-heated", F("1.8"), "CM%", "E-21"),  # DIN 18560-1
    ("DE", "cm-limit-calcium-sulfate-screed", F("0.5"), "CM%", "E-22"),
    ("DE", "cm-limit-calcium-sulfate-screed-heated", F("0.3"), "CM%", "E-23"),  # trade rules; the standard says 0.5
    ("UK", "rh-limit", 75, "%RH", "E-24"),  # BS 8203, BS 5385-3
    ("UK", "drying-cement-screed", 1, "d/mm", "E-27"), ("UK", "drying-cement-screed-deep", 2, "d/mm", "E-27"),  # BS 8203
    ("UK", "drying-cement-screed-break", 50, "mm", "E-27"),
    ("UK", "drying-calcium-sulfate-screed-break", 40, "mm", "E-28"),  # NHBC Standards 9.3.5
    ("UK", "age-concrete", 6, "wk", "E-30"), ("DE", "age-concrete", 180, "d", "E-30"),  # NHBC 9.3.5; DIN 18157-1, from memory
    ("UK", "age-cement-screed", 3, "wk", "E-31"), ("DE", "age-cement-screed", 28, "d", "E-31"),
    ("EN", "age-gypsum-plaster", 4, "wk", "E-32"), ("EN", "age-cement-render", 2, "wk", "E-34"),
    # Climate and stiffness
    ("EN", "work-temperature-min", 5, "C", "E-44"),
    ("EN", "work-temperature-max", 30, "C", "E-44"),  # common practice, from memory
    ("US", "work-temperature-good-min", 10, "C", "E-44"),  # 50 F
    ("EN", "dew-point-margin", 3, "K", "E-45"),  # ISO 8502-4, coating practice
    ("US", "deflection-max", F(1, 360), "slope", "E-46"), ("US", "deflection-max-stone", F(1, 720), "slope", "E-47"),
    # Wall loads: BS 5385-1:2018
    ("UK", "wall-load-gypsum-plaster", 20, "kg/m2", "F-01"), ("UK", "wall-load-gypsum-plasterboard-skimmed", 20, "kg/m2", "F-01"),
    ("UK", "wall-load-gypsum-plasterboard", 32, "kg/m2", "F-02"), ("UK", "wall-load-gypsum-fibreboard", 40, "kg/m2", "F-03"),
    ("UK", "wall-load-cement-board", 50, "kg/m2", "F-04"), ("UK", "wall-load-tile-backer-board", 60, "kg/m2", "F-05"),
    # Movement joints
    ("US", "movement-spacing-floor", 25, "ft", "G-01"),
    ("US", "movement-spacing-heated", 12, "ft", "G-02"),  # TCNA Handbook EJ171
    ("US", "perimeter-joint-floor", F(1, 4), "in", "G-05"), ("US", "corner-joint-wall", F(1, 8), "in", "G-05"),
    ("US", "sealant-depth-share", 50, "%", "G-06"),
    ("UK", "perimeter-joint-floor", 6, "mm", "G-11"),  # The Tile Association, Tiling Guide section 10
    ("UK", "movement-spacing-heated", 8, "m", "G-09"), ("UK", "movement-bay-heated", 40, "m2", "G-09"),
    ("DE", "perimeter-joint-heated", 10, "mm", "G-14"), ("DE", "perimeter-joint-floor", 5, "mm", "G-14"),
    ("AU", "perimeter-joint-floor", 6, "mm", "G-16"),
    ("EN", "sealant-movement", 25, "%", "G-18"),  # ISO 11600, class 25
    # Falls
    ("UK", "fall-min", F(1, 80), "slope", "H-01"), ("UK", "fall-max", F(1, 35), "slope", "H-01"),  # BS 5385-3
    ("US", "fall-min", F(1, 48), "slope", "H-03"),
    ("US", "fall-max", F(1, 24), "slope", "H-03"),  # IRC P2709.1: 1/4 and 1/2 in per ft
    ("DE", "fall-usual", F(2, 100), "slope", "H-05"),
    ("AU", "fall-min", F(1, 80), "slope", "H-07"), ("AU", "fall-max", F(1, 50), "slope", "H-07"),
    ("DE", "trip-step-max", 4, "mm", "H-11"),  # DGUV 207-006, 3.2
    # Slip
    ("US", "dcof-min", F("0.42"), "", "I-01"), ("UK", "pendulum-min", 36, "", "I-09"), ("AU", "pendulum-min", 35, "", "I-11"),
    # Finished surface and set-out
    ("US", "lippage-max", F(1, 32), "in", "J-09"), ("US", "lippage-max-wide", F(1, 16), "in", "J-10"),  # ANSI A108.02, 4.3.7
    ("UK", "lippage-max", 1, "mm", "J-11"), ("UK", "lippage-wide-joint", 6, "mm", "J-11"),  # NHBC Standards 9.1.7
    ("UK", "finished-plane", 3, "mm", "J-12"), ("AU", "finished-plane", 4, "mm", "J-13"),
    ("US", "cut-min-share", 50, "%", "N-02"),  # ANSI A108.02, 4.3.2
    # Waits
    ("EN", "wait-adhesive", 24, "h", "O-01"), ("EN", "wait-adhesive-fast", 6, "h", "O-02"),
    ("EN", "wait-cold-step", 8, "K", "O-03"), ("EN", "wait-cold-below", 21, "C", "O-03"),
    ("EN", "wait-grout-walking", 24, "h", "O-05"), ("EN", "wait-grout-water", 7, "d", "O-05"),
    ("EN", "wait-shower-use-cautious", 14, "d", "O-06"), ("EN", "wait-full-strength", 28, "d", "O-07"),
    ("EN", "wait-membrane-coats-DM", 4, "h", "O-08"), ("EN", "wait-membrane-tiling-DM", 24, "h", "O-08"),
    ("EN", "wait-membrane-coats-CM", 6, "h", "O-09"), ("EN", "wait-sealant-water", 24, "h", "O-10"),
    # Heating
    ("EN", "heating-first-cement-screed", 21, "d", "O-11"),
    ("EN", "heating-first-calcium-sulfate-screed", 7, "d", "O-11"),  # EN 1264-4
    ("EN", "heating-cycle-first", 3, "d", "O-12"), ("EN", "heating-cycle-full", 4, "d", "O-12"),
    ("UK", "heating-step", 5, "K", "O-14"),
    ("UK", "heating-after-tiling", 14, "d", "O-15"), ("EN", "heating-after-tiling-electric", 5, "d", "O-16"),
    ("EN", "heating-resistance-low", 5, "%", "P-02"), ("EN", "heating-resistance-high", 10, "%", "P-02"),
    ("EN", "insulation-resistance-min", 1, "Mohm", "P-03"),
    ("EN", "insulation-resistance-min-selv", F("0.5"), "Mohm", "P-04"),  # IEC 60364-6
    ("EN", "rcd-max", 30, "mA", "P-06"),
    ("EN", "zone-1-height", F("2.25"), "m", "P-09"), ("EN", "zone-2-reach", F("0.6"), "m", "P-10"),
    ("EN", "floor-temperature-max", 33, "C", "P-14"), ("EN", "floor-temperature-max-occupied", 29, "C", "P-13"),  # EN 1264-2
    ("EN", "timber-heating-max", 100, "W/m2", "P-16"),
]

WORDS = [
    ("EN", "adhesive-heated-floor", "C2 S1", "B-35"),
    ("EN", "adhesive-floor-wet", "C2 or R2", "B-33"),  # common practice, from memory
    ("EN", "adhesive-porcelain", "C2", "B-38"),
    ("EN", "adhesive-large-format", "C2 S1", "B-36"), ("EN", "adhesive-very-large", "C2 S2", "B-37"),
    ("EN", "grout-wet", "CG2 WA or RG", "C-10"),
    ("UK", "grout-porcelain", "CG2 or RG", "C-31"),  # BS 5385-3:2024 as reported
    ("EN", "sealant-shower", "XS1", "G-23"),  # EN 15651-3
    ("EN", "barefoot-class-shower", "B", "I-05"),  # DIN 51097 through DGUV 207-006
    ("EN", "slip-measure", "barefoot", "I-08"),
    ("US", "slip-measure", "dcof", "I-01"), ("UK", "slip-measure", "pendulum", "I-09"),
]


@pytest.mark.parametrize(("family", "key", "number", "unit", "row"), NUMBERS, ids=lambda x: str(x))
def test_number(family: str, key: str, number: F | int, unit: str, row: str) -> None:
    p = practice(family)
    u = UNITS[unit]
    q = p.limit(key)
    assert q.kind is u.kind
    assert q.in_unit(u) == number if unit == "C" else q.value == number * u.factor
    entry = p.entry(key)
    assert entry is not None and entry.row == row


@pytest.mark.parametrize(("family", "key", "text", "row"), WORDS, ids=lambda x: x)
def test_word(family: str, key: str, text: str, row: str) -> None:
    p = practice(family)
    assert p.word(key).text == text
    entry = p.entry(key)
    assert entry is not None and entry.row == row


def test_the_stricter_of_disputed_figures_is_taken_and_marked() -> None:
    """Where published figures disagree they are guidance: the note says what else is published."""
    for family, key in (
        ("DE", "membrane-above-shower-head"),
        ("DE", "cm-limit-cement-screed-heated"), ("DE", "cm-limit-calcium-sulfate-screed-heated"),
        ("UK", "fall-max"), ("UK", "joint-min-wall"), ("EN", "heating-after-tiling"), ("EN", "wall-load-tile-backer-board"),
        ("EN", "wait-cold-step"),
    ):
        entry = practice(family).entry(key)
        assert entry is not None and entry.note.startswith("check:"), key


def test_gauge_of_us_values_stays_in_inches() -> None:
    assert practice("US").limit("joint-min-floor").shown.symbol == "in"
    assert practice("US").limit("movement-spacing-floor").shown.symbol == "ft"
    assert practice("US").limit("work-temperature-good-max").shown.symbol == "F"


def test_barefoot_class_in_words() -> None:
    """18 degrees is class B: DIN 51097 through DGUV 207-006 (row I-05)."""
    entry = practice("DE").entry("barefoot-class-shower")
    assert entry is not None and "18" in entry.what
