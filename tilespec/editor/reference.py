"""What words mean, in one line each: taken from the tables of `grammar/LANGUAGE.md`, so that the two cannot differ."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from tilespec.resources import data_text
from tilespec.syntax.words import PRODUCTS

_HEADING = re.compile(r"^#{2,3} (.*)$")
_CODE = re.compile(r"`([^`]+)`")
_LINK = re.compile(r"\[([^]]+)]\([^)]*\)")
_FIRST = re.compile(r"[^\W\d_][\w-]*")


@dataclass(frozen=True, slots=True)
class Entry:
    """One row of a table.

    section   words of its heading: the statements that it is about
    written   how it is written, each way; `words`: the words of these
    silent    what happens when it is not said; "" where the table does not tell
    means     what it does
    """

    section: tuple[str, ...]
    written: tuple[str, ...]
    silent: str
    means: str
    words: tuple[tuple[str, ...], ...]


@lru_cache(maxsize=1)
def entries() -> tuple[Entry, ...]:
    found: list[Entry] = []
    section: tuple[str, ...] = ()
    head: list[str] = []
    for line in data_text("grammar/LANGUAGE.md").split("\n"):
        if heading := _HEADING.match(line):
            section, head = tuple(w.lower() for w in re.findall(r"[\w-]+", heading[1])), []
        elif not line.startswith("|"):
            head = []
        elif not head:
            head = _cells(line)
        elif not set(line) <= set("|-: "):
            found += _row(section, head, _cells(line))
    return tuple(found)


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in line.strip().strip("|").split("|")]


def _row(section: tuple[str, ...], head: list[str], cells: list[str]) -> list[Entry]:
    written = tuple(_CODE.findall(cells[0]))
    if not written or len(cells) < 2 or head[0] not in ("Write", "Word", "Words of a wait", "A place on a wall", ""):
        return []
    silent = _plain(cells[head.index("Silent")]) if "Silent" in head and len(cells) > head.index("Silent") else ""
    means = _plain(cells[-1])
    words = tuple(tuple(_words(w)) for w in written)
    return [Entry(section, written, silent, means, words)] if means or silent else []


def _words(text: str) -> list[str]:
    return [w.lower() for w in _FIRST.findall(text)]


def _plain(cell: str) -> str:
    return _LINK.sub(r"\1", cell).replace("`", "").replace("*N*", "N")


@lru_cache(maxsize=4096)
def meaning(text: str, word: str, sections: tuple[str, ...]) -> Entry | None:
    """The entry for a word, where `text` is what it stands in, from its first word on. Sections: the likeliest first."""
    asked = _words(text) or [word.lower()]
    best: tuple[int, int, Entry] | None = None
    for entry in entries():
        for words in entry.words:
            if not words or words[0] != asked[0]:
                continue
            near = next((len(sections) - n for n, s in enumerate(sections) if s in entry.section), 0)
            same = next((n for n, (a, b) in enumerate(zip(words, asked)) if a != b), min(len(words), len(asked)))
            rank = near, same, entry
            if best is None or rank[:2] > best[:2]:
                best = rank
    if best is not None:
        return best[2]
    # A word that nothing begins with, such as `bond`.
    holding = [e for e in entries() if any(word.lower() in words for words in e.words)]
    return max(holding, key=lambda e: any(s in e.section for s in sections), default=None)


# Statements in one line, where the page begins with an example.
_STATEMENTS = {
    "job": "What the whole job is called, for whom it is, when it begins and whose limits hold.",
    "conditions": "Air, humidity and temperature of the base on site.",
    "room": "A room with its name and height; what follows stands in it.",
    "datum": "The height of the level line that heights and courses are measured from.",
    "floor": "The floor: size or walk, base, build-up, tile, fall, drains, heating.",
    "wall": "A wall by its letter: base, tile, openings, niches, pipes, what is fixed to it.",
    "use": "A stock file with tiles, products and limits.",
    "language": "The version of this language; there is only 1, and it need not be said.",
    "limit": "A limit of the firm's own, stricter than the practice's.",
    "step": "A step of another trade, put between the stages of the work.",
    "record": "A reading or a signature, with its date.",
    "deviation": "A rule that is departed from at one place, with the reason.",
    "delivery": "What came of a tile: shade, caliber, sizes measured.",
    "product": "A product, with what its data sheet says. What is left out comes from the generic one of its class, marked.",
}


def statement(word: str) -> str:
    """What a word that starts a statement is for; "" for another."""
    return _STATEMENTS.get("product" if word in PRODUCTS else word, "") or lead(word)


@lru_cache(maxsize=None)
def lead(statement: str) -> str:
    """The first sentences of the section about a statement, above its example or table."""
    lines = data_text("grammar/LANGUAGE.md").split("\n")
    said: list[str] = []
    inside = fenced = False
    for line in lines:
        if line.startswith("```"):
            fenced = not fenced
        if fenced:
            continue
        if heading := _HEADING.match(line):
            if inside:
                break
            inside = f"`{statement}`" in heading[1]
        elif inside and line and line[0] not in "|`":
            said.append(_plain(line))
        elif inside and said:
            break
    return " ".join(said)
