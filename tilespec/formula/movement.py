"""Movement with warmth, and the joint that takes it up.

Growth is length times expansion times difference of temperature: material data, ISO 10545-8 for tile.
A sealant of class 25 moves by a quarter of the joint to either side (ISO 11600): the joint is the movement over that share.
"""

from __future__ import annotations

from tilespec.practice.lookup import Practice
from tilespec.quantity import Kind, Quantity, work

EXPANSION = "free expansion: length × expansion × difference of temperature"
CLASS = "ISO 11600: the movement class is the share of its width that a joint may move"


def difference(cold: Quantity, warm: Quantity) -> Quantity:
    """The difference of two temperatures in kelvin, whatever scale they were written in: 50 F to 100 F is 27.8 K."""
    return work("abs(warm - cold)", "K", source="difference of temperatures", warm=warm, cold=cold)


def movement(length: Quantity, expansion: Quantity, step: Quantity) -> Quantity:
    """How much longer a length becomes. `step` is a difference: a temperature on a scale would carry its zero along."""
    if step.kind is not Kind.TEMPERATURE_STEP:
        raise ValueError(f"{step.kind.words} is no difference of temperature")
    return work(
        "length * expansion * difference", "mm", source=EXPANSION, length=length, expansion=expansion, difference=step,
    )


def least_width(moves: Quantity, share: Quantity) -> Quantity:
    """The narrowest joint in which a sealant of this class takes the movement. `share`: 25 % for class 25."""
    return work("movement / share", "mm", source=CLASS, movement=moves, share=share)


def width(moves: Quantity, share: Quantity, least: Quantity) -> Quantity:
    """The same, but never under the width that the practice asks for at this place: indoors that mostly governs."""
    return work("max(movement / share, least)", "mm", source=CLASS, movement=moves, share=share, least=least)


def taken(joint: Quantity, share: Quantity) -> Quantity:
    """The movement that a joint of this width takes."""
    return work("width * share", "mm", source=CLASS, width=joint, share=share)


def sealant_depth(joint: Quantity, practice: Practice) -> Quantity:
    """As deep as wide in narrow joints; in wider ones a share of the width, never under the least depth nor deeper than wide."""
    if joint.value <= practice.limit("sealant-depth-full-to").value:
        return work("width", "mm", source="narrow joint: as deep as wide", width=joint)
    share, least = practice.limit("sealant-depth-share"), practice.limit("sealant-depth-min")
    return work(
        "min(width, max(width * share, least))", "mm", source="wide joint: a share of its width",
        width=joint, share=share, least=least,
    )
