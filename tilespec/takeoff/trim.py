"""Trims: the lengths that the job names, in whole pieces."""

from __future__ import annotations

from collections.abc import Sequence

from tilespec.practice.lookup import Practice
from tilespec.takeoff.areas import Survey
from tilespec.takeoff.order import Share, Taken, products
from tilespec.takeoff.types import Part


def take(surveys: Sequence[Survey], practice: Practice) -> Taken:
    shares: list[Share] = []
    for s in surveys:
        for t in s.surface.trims:
            shares.append(Share(t.product, Part(s.surface.id, t.length, t.length, t.place.replace(" ", "-"))))
    return Taken(products(shares, "m", practice.limit("trim-allowance"), "allowance for mitres and cuts"))
