"""The reference of the language is true: every example is read, every word stands in it, every number is the practice's."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from tilespec import vocabulary
from tilespec.diagnostics.model import Severity
from tilespec.job.schema import ITEMS, STATEMENTS
from tilespec.job.slot import SLOTS
from tilespec.pipeline import compile
from tilespec.practice.lookup import NAMES, PARENTS, entries, practice
from tilespec.quantity.read import read
from tilespec.quantity.unit import SPELLINGS, UNITS
from tilespec.sequence.stages import WORDS as STAGE_WORDS
from tilespec.syntax import words
from tilespec.workspace.host import MemoryHost

ROOT = Path(__file__).resolve().parent.parent.parent
TEXT = (ROOT / "grammar" / "LANGUAGE.md").read_text(encoding="utf-8")
GRAMMAR = (ROOT / "grammar" / "tilespec.lark").read_text(encoding="utf-8")
FENCED = re.findall(r"^```([^\n]*)\n(.*?)^```$", TEXT, re.M | re.S)
# What stands in code: blocks, and words between backticks.
CODE = [body for kind, body in FENCED if kind.startswith("tilespec")] + re.findall(
    r"`([^`\n]+)`", re.sub(r"^```.*?^```$", "", TEXT, flags=re.M | re.S)
)

# Around an example that is a part: tiles that it may name, and what of the room it does not say itself.
TILES = """\
tile field 600x300x9 porcelain rectified landscape; weight 20 kg/m2; box of 6
tile ground 300x300x9 porcelain rectified; weight 20 kg/m2; box of 11; barefoot class B
tile mosaic-tile 300x300x6 mosaic porcelain; weight 14 kg/m2; box of 11
tile small-square 100x100x9 porcelain; weight 20 kg/m2; box of 50
tile ground; joint 3
"""
ROOM = {
    "floor": "floor 2.4 x 1.8\n  base cement screed; thickness 65 mm; laid 2025-12-08\n  tile ground; joint 3\n",
    **{f"wall {w}": f"wall {w}\n  base tile-backer board\n  tile field; joint 3\n" for w in "ABCD"},
}


def blocks(kind: str) -> list[str]:
    return [body for k, body in FENCED if k == kind]


def spec_of(part: str) -> str:
    """The part in a small room: the tiles first, then the part, then the surfaces that it does not say."""
    lead, rest = TILES, part
    if not re.search(r"^room ", part, re.M):
        lead += 'room "Shower room" height 2.4\n'
    if re.search(r"^(job|use|limit|conditions|language) ", part, re.M):
        lead, rest = rest + lead, ""
    said = set(re.findall(r"^(floor|wall [A-Z])\b", part, re.M))
    missing = [text for name, text in ROOM.items() if name not in said]
    late = re.findall(r"^(?:record|deviation|step) .*\n(?:[ \t].*\n)*", rest, re.M)
    for text in late:
        rest = rest.replace(text, "")
    return lead + rest + "".join(missing) + "".join(late)


def faults(spec: str) -> list[str]:
    files = {"/job.tilespec": spec}
    for name in ("house-stock.tilespec",):
        files[f"/{name}"] = (ROOT / "examples" / name).read_text(encoding="utf-8")
    found = compile("/job.tilespec", MemoryHost(files)).diagnostics
    return [f"{d.name}: {d.message}" for d in found if d.severity is Severity.ERROR]


# ---------------------------------------------------------------- examples


def test_there_are_examples_of_every_kind() -> None:
    assert len(blocks("tilespec")) > 3 and len(blocks("tilespec part")) > 10 and blocks("tilespec stock")
    assert {kind for kind, _ in FENCED} == {"tilespec", "tilespec part", "tilespec stock", "text"}


@pytest.mark.parametrize("spec", blocks("tilespec"))
def test_whole_examples_are_sound(spec: str) -> None:
    assert faults(spec) == []


@pytest.mark.parametrize("part", blocks("tilespec part"))
def test_parts_are_sound_in_a_small_room(part: str) -> None:
    assert faults(spec_of(part)) == []


@pytest.mark.parametrize("stock", blocks("tilespec stock"))
def test_stock_can_be_used(stock: str) -> None:
    spec = 'use "stock.tilespec"\nwall A 2.4 x 2.4; base cement render; tile white-200; joint 3\n'
    found = compile("/job.tilespec", MemoryHost({"/job.tilespec": spec, "/stock.tilespec": stock}))
    assert not found.failed, found.diagnostics
    assert found.plan and "wall-grip" in [p.name for p in found.plan.job.products]


def test_an_example_that_is_wrong_is_found() -> None:
    part = "wall A\n  base cement bord\n  tile field; joint 3\n"
    assert [f.split(":")[0] for f in faults(spec_of(part))] == ["unknown-substrate"]


def test_the_message_that_is_quoted_is_what_is_said() -> None:
    said = re.search(r"`(floor [^`]+)` is answered with\s+\"([^\"]+)\"", TEXT)
    assert said and any(said[2] in f for f in faults(f"{said[1]}; tile 300x600; joint 3"))


def test_the_two_ways_of_writing_a_statement_are_the_same() -> None:
    one, two = blocks("tilespec part")[:2]
    read_as = [compile("/job.tilespec", MemoryHost({"/job.tilespec": spec_of(p)})).plan for p in (one, two)]
    assert one != two and read_as[0] and read_as[1] and read_as[0].job == read_as[1].job


# ---------------------------------------------------------------- words


def in_code(word: str) -> bool:
    """The word stands by itself in code, or at the start of what is written there."""
    pattern = re.compile(rf"(?<![\w-]){re.escape(word)}(?![\w-])", re.I if len(word) == 1 else 0)
    return any(pattern.search(text) for text in CODE)


@pytest.mark.parametrize("word", [*words.STATEMENTS, *words.BOTH, *words.ATTRIBUTES])
def test_every_word_of_the_language_stands_here(word: str) -> None:
    assert in_code(word)


# The words that must be written, by the kind of what they say; words that may be left out or chosen among are not taken.
_LITERALS = {
    alias: re.findall(r'"([^"]+)"', re.sub(r"\([^)]*\)", "", body))
    for body, alias in re.findall(r"^[^|:\n]*[|:]\s*(.*?)\s*-> (\w+)", GRAMMAR, re.M)
}


_SAID = {k for own, items in STATEMENTS.values() for k in (*own, *items)} | {k for said in ITEMS.values() for k in said}


@pytest.mark.parametrize("kind", sorted(_SAID))
def test_everything_that_may_be_said_stands_here(kind: str) -> None:
    """By its words, in the order in which they are written, within one example."""
    literals = _LITERALS.get(kind)
    if not literals:
        assert kind in ("size", "words", "product", "build_up", "on_date"), kind
        assert kind != "build_up" or in_code("build-up")
        return
    in_order = re.compile(r"\b" + r"\b[^\n;]*?\b".join(map(re.escape, literals)) + r"\b")
    if kind in ("in_room", "on_room", "on_room_wall", "on_room_floor"):
        in_order = re.compile(rf"\b{literals[0]} \"[^\"\n]+\"" + "".join(f" {w}" for w in literals[1:]))
    assert any(in_order.search(text) for text in CODE), literals


@pytest.mark.parametrize(
    "word",
    [
        *vocabulary.BASES, *vocabulary.BASE_WORDS, *vocabulary.TILE_WORDS, *vocabulary.BONDS, *vocabulary.BOND_WORDS,
        *vocabulary.STARTS, *vocabulary.MIDDLES, *vocabulary.WAYS,
        *vocabulary.CENTRE, *vocabulary.WAITS, *vocabulary.RECORDS, *vocabulary.COLOURS, *vocabulary.PRODUCT_WORDS,
        *vocabulary.DAYS, *vocabulary.SIDES, *vocabulary.CUTTERS, vocabulary.OUTDOORS, *(w.word for w in STAGE_WORDS), *PARENTS,
    ],
)  # fmt: skip
def test_every_word_of_the_trade_stands_here(word: str) -> None:
    assert in_code(word)


def test_bases_that_mean_the_same_stand_in_one_line() -> None:
    for line in re.findall(r"^\| [a-z -]+ \| (`[^|]+) \|$", TEXT.split("### Bases")[1].split("### Tiles")[0], re.M):
        assert len({vocabulary.BASES[w] for w in re.findall(r"`([^`]+)`", line)}) == 1, line


def test_stages_stand_in_working_order() -> None:
    listed = re.findall(r"^- (`.*)$", TEXT.split("### `step`")[1].split("### `deviation`")[0], re.M)
    meant = [tuple(re.findall(r"`([^`]+)`", line)) for line in listed]
    by_meaning: dict[tuple[str, str], list[str]] = {}
    for w in STAGE_WORDS:
        by_meaning.setdefault((w.first, w.last), []).append(w.word)
    assert sorted(meant) == sorted(tuple(ws) for ws in by_meaning.values())


@pytest.mark.parametrize("symbol", [u for u in [*UNITS, *SPELLINGS] if u not in ("", "count", "slope", "year")])
def test_every_unit_stands_here(symbol: str) -> None:
    section = TEXT.split("### Units that can be written")[1].split("### What a number")[0]
    assert f"`{symbol}`" in section


def test_families_stand_here_by_their_names() -> None:
    for family in PARENTS:
        assert re.search(rf"^\| `{family}` \| {NAMES[family]}", TEXT, re.M)


# ---------------------------------------------------------------- numbers

KEYED = re.findall(r"`([^`\n]+)` \(`([a-z][a-z0-9-]+)`\)", TEXT)
# Values that the building of a job assumes or uses by itself, named in its code; what is only asked of products is no such value.
ASKING = ("classes.py", "suitability.py")
JOB_CODE = "".join(
    path.read_text(encoding="utf-8") for path in sorted((ROOT / "tilespec" / "job").glob("*.py")) if path.name not in ASKING
)
ASSUMED = set(re.findall(r'assume\(\s*"([a-z0-9-]+)"', JOB_CODE)) | {
    key
    for key in re.findall(r'"((?:tile-thickness|joint-usual|splash|membrane)[a-z0-9-]*)"', JOB_CODE)
    if practice("EN").entry(key)
}


@pytest.mark.parametrize(("shown", "key"), KEYED)
def test_a_number_with_a_key_is_the_practices(shown: str, key: str) -> None:
    limit = practice("EN").limit(key)
    reading = read(shown)
    assert reading.base(limit.shown) == limit.value
    assert reading.unit is None or reading.unit.kind is limit.kind


def test_every_number_that_is_assumed_stands_here() -> None:
    assert len(ASSUMED) > 15
    assert ASSUMED - {key for _, key in KEYED} == set()


def test_numbers_of_other_families() -> None:
    found = 0
    for key, said in re.findall(r"`([a-z-]+)` is ((?:[\d/]+ \w+ in [A-Z]{2}(?: and |, )?)+)", TEXT):
        for value, family in re.findall(r"([\d/]+ \w+) in ([A-Z]{2})", said):
            limit = practice(family).limit(key)
            assert read(value).base(limit.shown) == limit.value, (key, family)
            found += 1
    assert found == 4


def test_bounds_are_those_of_the_slots() -> None:
    section = TEXT.split("### What a number can sensibly be")[1].split("## 4.")[0]
    rows = re.findall(r"^\| (\w[^|]*) \| ([^|]+) \| ([^|]+) \| ([^|]+) \|$", section, re.M)[1:]
    named = {"pieces": "count", "people": "count", "coats": "count", "year": "year", "`1:60`": "slope", "plain number": ""}
    said = {(w, named.get(u, u.strip("`")), low, high) for w, u, low, high in rows}

    def number(text: str) -> Fraction:
        return read(text).number

    expected = {(s.words, s.unit.symbol): (s.low, s.high) for s in SLOTS.values()}
    assert len(rows) == len(SLOTS) and {(w, u) for w, u, _, _ in said} == set(expected)
    for what, symbol, low, high in said:
        u = UNITS[symbol]
        bounds = [(s.low, s.high) for s in SLOTS.values() if (s.words, s.unit.symbol) == (what, symbol)]
        got = tuple(number(x) * (1 if ":" in x else u.factor) + u.offset for x in (low, high))
        assert any(abs(got[0] - b[0]) * 1000 <= b[1] and got[1] == b[1] for b in bounds), (what, low, high)


def test_limits_that_a_firm_may_tighten_stand_here() -> None:
    said = {k: (what, way) for k, what, way in re.findall(r"^\| `([A-Za-z0-9-]+)` \| ([^|]+) \| (higher|lower) \|$", TEXT, re.M)}
    expected: dict[str, tuple[str, str]] = {}
    for family in PARENTS:
        for key, e in entries(family).items():
            if e.stricter and not e.text:
                expected.setdefault(key, (e.what, e.stricter))
    assert said == expected


def test_links_within_the_page_lead_somewhere() -> None:
    headings = re.findall(r"^#+ (.+)$", re.sub(r"^```.*?^```$", "", TEXT, flags=re.M | re.S), re.M)
    anchors: dict[str, int] = {}
    known = set()
    for h in headings:
        anchor = re.sub(r"[^\w -]", "", h.lower()).replace(" ", "-")
        known.add(anchor if anchor not in anchors else f"{anchor}-{anchors[anchor]}")
        anchors[anchor] = anchors.get(anchor, 0) + 1
    for target in re.findall(r"\]\(#([^)]+)\)", TEXT):
        assert target in known, target
