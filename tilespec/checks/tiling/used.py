"""Where a tile is used."""

from __future__ import annotations

from tilespec.checks.rule import Context
from tilespec.job.types import Surface, Tile


def _names(surface: Surface) -> tuple[str, ...]:
    tiles = [c.tile for c in surface.coverings] + [c.pattern.second for c in surface.coverings] + [n.tile for n in surface.niches]
    return tuple(t.name for t in tiles if t is not None)


def used(context: Context, tile: Tile) -> tuple[str, ...]:
    """Surfaces that the tile is laid on: as field, band or panel, as the other tile of a pattern, or in a niche."""
    return tuple(s.id for s in context.job.tiled if tile.name in _names(s))
