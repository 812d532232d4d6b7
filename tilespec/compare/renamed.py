"""Tiles and products that only have another name on the new side. The old job is then told under the new names, so that all that
follows from it is called alike on both sides."""

from __future__ import annotations

import re
from collections.abc import Hashable, Mapping
from dataclasses import fields, is_dataclass, replace
from functools import partial
from typing import TypeVar, cast

from tilespec.compare.thing import Thing, thing
from tilespec.compare.types import Renamed
from tilespec.job.types import Job, Note, Product, Question, Tile, Words
from tilespec.quantity import Quantity
from tilespec.source import Span

T = TypeVar("T")
K = TypeVar("K", bound=Hashable)


def text(words: str, names: Renamed) -> str:
    """Our own words with the new names in them: they have the kind before the name."""
    tiles = {("tile", old): new for old, new in names.tiles.items()}
    for (kind, old), new in {**tiles, **names.products}.items():
        called = re.compile(rf"(?<!\w)({re.escape(kind)} `?){re.escape(old)}(?![\w-])")
        words = called.sub(partial(_with, new), words)
    return words


def _with(name: str, found: re.Match[str]) -> str:
    return found[1] + name


def renamed(old: Job, new: Job) -> Renamed:
    """What says the same under another name, where no other could be meant."""
    tiles = _pairs({t.name: thing("", t) for t in old.tiles}, {t.name: thing("", t) for t in new.tiles})
    # Products are for tiles, which may have another name too.
    known = Renamed(tiles)
    before = {(p.kind, p.name): thing(p.kind, under(p, known)) for p in old.products if not p.generic}
    after = {(p.kind, p.name): thing(p.kind, p) for p in new.products if not p.generic}
    return Renamed(tiles, {key: name for key, (_, name) in _pairs(before, after).items()})


def _pairs(old: Mapping[K, Thing], new: Mapping[K, Thing]) -> dict[K, K]:
    gone = {name: one for name, one in old.items() if name not in new}
    came = {name: one for name, one in new.items() if name not in old}
    found: dict[K, K] = {}
    for name, one in gone.items():
        likes = [other for other, that in came.items() if that == one]
        if len(likes) == 1 and sum(one == other for other in gone.values()) == 1:
            found[name] = likes[0]
    return found


def under(part: T, names: Renamed) -> T:
    """The job, or a part of it, under the new names; what has none in it is the same object."""
    return cast(T, _under(part, names))


def _under(part: object, names: Renamed) -> object:
    match part:
        case None | str() | Quantity() | Span():
            return part
        case tuple():
            parts = tuple(_under(p, names) for p in part)
            return part if all(a is b for a, b in zip(parts, part)) else parts
        case Tile() if part.name in names.tiles:
            return replace(part, name=names.tiles[part.name])
        case Product():
            name = names.products.get((part.kind, part.name), part.name)
            for_ = tuple(names.tiles.get(n, n) for n in part.for_)
            return part if (name, for_) == (part.name, part.for_) else replace(part, name=name, for_=for_)
        case Question():
            about, asked = text(part.about, names), text(part.text, names)
            return part if (about, asked) == (part.about, part.text) else replace(part, about=about, text=asked)
        case Note():
            about = text(part.about.text, names)
            return part if about == part.about.text else replace(part, about=Words(about, part.about.span))
    if not is_dataclass(part) or isinstance(part, type):
        return part
    changed = {f.name: new for f in fields(part) if (new := _under(old := getattr(part, f.name), names)) is not old}
    return replace(part, **changed) if changed else part
