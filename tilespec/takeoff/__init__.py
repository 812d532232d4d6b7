"""From the job to materials: what, how much, how it was worked out, whole packs."""

from tilespec.takeoff.stage import measure

__all__ = ["measure"]
