"""What is declared for a room to name, and what the room has asked of it: as long as the answers are the same, so is the room."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from tilespec.job.types import Product, Tile
from tilespec.source import Span
from tilespec.syntax.nodes import Statement

Products = Mapping[str, tuple[Product, ...]]
"""By kind."""


def by_kind(products: Iterable[Product]) -> dict[str, tuple[Product, ...]]:
    found: dict[str, tuple[Product, ...]] = {}
    for p in products:
        found[p.kind] = (*found.get(p.kind, ()), p)
    return found


@dataclass(frozen=True, slots=True, eq=False)
class Declared:
    """What a room can name: of its own, then of the job.

    default   the `tile` at the margin that covers what says nothing else
    products  nearest scope first
    named     products that are named at the margin, by kind
    generic   the built-in stock
    """

    tiles: Mapping[str, Tile]
    default: tuple[Statement, Tile] | None
    products: Products
    named: Mapping[str, tuple[str, Span]]
    generic: Products


class Tiles(Mapping[str, Tile]):
    """Tiles by name.

    asked  the names that were looked up, with what was found
    all    which there are was asked too
    """

    def __init__(self, tiles: Mapping[str, Tile]) -> None:
        self._tiles = tiles
        self.asked: dict[str, Tile | None] = {}
        self.all = False

    def __getitem__(self, name: str) -> Tile:
        self.asked[name] = found = self._tiles.get(name)
        if found is None:
            raise KeyError(name)
        return found

    def __iter__(self) -> Iterator[str]:
        self.all = True
        return iter(self._tiles)

    def __len__(self) -> int:
        self.all = True
        return len(self._tiles)


class Pool:
    """Products that are declared for a room, and the generic stock.

    asked  the kinds of declared products that were looked at
    """

    def __init__(self, declared: Products, generic: Products) -> None:
        self._declared = declared
        self._generic = generic
        self.asked: set[str] = set()

    def declared(self, kind: str) -> tuple[Product, ...]:
        self.asked.add(kind)
        return self._declared.get(kind, ())

    def generic(self, kind: str) -> tuple[Product, ...]:
        return self._generic.get(kind, ())


class Asked:
    """What a room asks, of `tiles` and of `pool`."""

    def __init__(self, declared: Declared) -> None:
        self.declared = declared
        self.tiles = Tiles(declared.tiles)
        self.pool = Pool(declared.products, declared.generic)

    def answered(self, now: Declared) -> bool:
        """Whether what is declared now gives the same answers: the very same tiles and products."""
        then = self.declared
        if now is then:
            return True
        if now.generic is not then.generic or now.named != then.named or not _same(now.default or (), then.default or ()):
            return False
        if self.tiles.all and not (tuple(now.tiles) == tuple(then.tiles) and _same(now.tiles.values(), then.tiles.values())):
            return False
        if any(now.tiles.get(name) is not tile for name, tile in self.tiles.asked.items()):
            return False
        if not all(_same(now.products.get(kind, ()), then.products.get(kind, ())) for kind in self.pool.asked):
            return False
        self.declared = now
        return True


def _same(some: Iterable[object], others: Iterable[object]) -> bool:
    a, b = tuple(some), tuple(others)
    return len(a) == len(b) and all(x is y for x, y in zip(a, b))
