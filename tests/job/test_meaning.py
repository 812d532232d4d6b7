"""Classes are taken apart into what they stand for and written back as their standards write them."""

from __future__ import annotations

from itertools import combinations

import pytest

from tilespec.job.meaning import meaning
from tilespec.job.product import class_parts
from tilespec.practice.lookup import practice
from tilespec.quantity.typed import typed

EN = practice("EN")


@pytest.mark.parametrize(
    ("text", "written", "letters"),
    [
        # EN 12004-1: type, then F, T, E, then S.
        ("C2TES1", "C2TE S1", "C2 T E S1"),
        ("c2 et s2", "C2TE S2", "C2 T E S2"),
        ("C2FT", "C2FT", "C2 F T"),
        ("D2TE", "D2TE", "D2 T E"),
        ("R2T", "R2T", "R2 T"),
        # EN 13888: F, W and A may follow.
        ("CG2 WA", "CG2WA", "CG2 W A"),
        ("CG1F", "CG1F", "CG1 F"),
        ("RG", "RG", "RG"),
        # EN 14891 (letters from memory).
        ("CM O2 P", "CM O2P", "CM O2 P"),
        ("DM", "DM", "DM"),
        # EN 15651-3 and ISO 11600.
        ("XS1 25LM", "XS1 25LM", "X S1 25 LM"),
        ("12.5E", "12.5E", "12.5 E"),
        # DIN 51130, DIN 51097, EN 14411.
        ("r11", "R11", "R11"),
        ("b", "B", "B"),
        ("biia", "BIIa", "BIIa"),
    ],
)
def test_a_class_is_taken_apart(text: str, written: str, letters: str) -> None:
    found = meaning(text, EN)
    assert found is not None
    assert (found.written, " ".join(p.letters for p in found.parts)) == (written, letters)
    assert all(p.words for p in found.parts)


@pytest.mark.parametrize("text", ["C3", "C2S3", "CG1A", "D2S1", "R2E", "R14", "RGW", "25", "", "porcelain", "A118.10"])
def test_what_no_standard_has_is_no_class(text: str) -> None:
    assert meaning(text, EN) is None


def figure(text: str) -> str:
    found = meaning(text, EN)
    assert found is not None and found.parts[-1].figure is not None
    return typed(found.parts[-1].figure[1])


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # EN 12004-1 as restated in the trade's press.
        ("C1", "0.5 N/mm2"), ("C2", "1 N/mm2"), ("C2S1", "2.5 mm"), ("C2S2", "5 mm"), ("C2F", "6 h"), ("C2T", "0.5 mm"),
        ("C2E", "30 min"),
        # ISO 11600: guide of the British Adhesives and Sealants Association.
        ("20LM", "0.4 N/mm2"),
        # DIN 51097: DGUV 207-006; DIN 51130 as restated.
        ("A", "12 deg"), ("B", "18 deg"), ("C", "24 deg"), ("R10", "10 deg"), ("R13", "35 deg"),
        # EN 14411, ISO 13006.
        ("BIa", "0.5 %"), ("BIb", "3 %"), ("BIIa", "6 %"), ("BIIb", "10 %"),
    ],
)
def test_the_figure_of_a_class(text: str, expected: str) -> None:
    assert figure(text) == expected


def every_adhesive() -> list[str]:
    """All that EN 12004-1 can write: E not with R, F and S only with C."""
    written = []
    for kind in ("C1", "C2", "D1", "D2", "R1", "R2"):
        allowed = {"C": "FTE", "D": "TE", "R": "T"}[kind[0]]
        for n in range(len(allowed) + 1):
            for options in combinations(allowed, n):
                for deform in ("", " S1", " S2") if kind[0] == "C" else ("",):
                    written.append(kind + "".join(options) + deform)
    return written


def test_every_adhesive_is_read_and_written_back() -> None:
    listed = every_adhesive()
    assert len(listed) == 2 * 8 * 3 + 2 * 4 + 2 * 2
    for text in listed:
        parts, found = class_parts("adhesive", text), meaning(text, EN)
        assert parts is not None and found is not None and found.what == "adhesive" and found.written == text
