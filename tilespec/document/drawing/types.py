"""What a drawing is once it is made."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from tilespec.quantity import Quantity

# Turns a quantity into the text that is printed.
Show = Callable[[Quantity], str]


@dataclass(frozen=True, slots=True)
class Drawing:
    """A picture of one surface or room, to scale.

    key        "plan/ROOM", "key-plan/ROOM", "elevation/SURFACE": stable and unique in a job
    title      as printed above it; holds free text of the spec, never markup
    svg        a complete SVG; its width and height are in millimetres, so that it prints to scale
    scale      "1:20"; "not to scale" for a key plan
    alt        what is to be seen, in one or two sentences (also the SVG's title)
    width_mm, height_mm  size on paper
    shown      every quantity whose value is written in the drawing, each once, in the order of its first use
    """

    key: str
    title: str
    svg: str
    scale: str
    alt: str
    width_mm: int
    height_mm: int
    shown: tuple[Quantity, ...] = ()
