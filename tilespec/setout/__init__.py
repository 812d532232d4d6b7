"""From the job to tiles: the tile plane of every surface, every piece on it, every cut."""

from tilespec.setout.stage import lay

__all__ = ["lay"]
