"""Grouts by their class: what a place asks for, and which one reason is told where several hold."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.checks.adhesive.declared import instead, where_named
from tilespec.checks.rule import Context, Finding, Rule, cited
from tilespec.checks.wet import wetted
from tilespec.job.product import meets
from tilespec.job.types import Product, Surface
from tilespec.practice.lookup import Word

# Products of North American class have no equal among these classes.
TYPES = ("CG1", "CG2", "RG")


@dataclass(frozen=True, slots=True)
class WeakGrout:
    surface: Surface
    grout: Product
    asked: Word


def _asked(context: Context, surface: Surface) -> tuple[str, Word] | None:
    """The rule that asks for a class of grout here, and the class. Abrasion counts under foot only."""
    word, floor = context.practice.word, surface.kind == "floor"
    if wetted(context, surface, None):
        return "weak-grout-in-wet-area", word("grout-wet" if floor else "grout-bathroom")
    if floor and context.room(surface).heating is not None:
        return "weak-grout-on-heated-floor", word("grout-heated-floor")
    if floor or surface.zones:
        return "weak-grout-in-bathroom", word("grout-bathroom")
    return None


def weak(context: Context, rule: str) -> Iterator[WeakGrout]:
    yield from (found for name, found in context.once("weak grouts", _weak) if name == rule)


def _weak(context: Context) -> tuple[tuple[str, WeakGrout], ...]:
    return tuple(_each_weak(context))


def _each_weak(context: Context) -> Iterator[tuple[str, WeakGrout]]:
    for surface in context.job.tiled:
        grout, asked = surface.product("grout"), _asked(context, surface)
        if grout is None or asked is None or not grout.cls or grout.cls[0] not in TYPES:
            continue
        if not any(meets(grout, choice) for choice in asked[1].choices):
            yield asked[0], WeakGrout(surface, grout, asked[1])


def told(rule: Rule, context: Context, found: WeakGrout, because: str, label: str) -> Finding:
    """The finding, at the grout, which is declared once for all the surfaces that it is too weak for."""
    surface, grout, asked = found.surface, found.grout, found.asked
    spec = context.job.files[0] if context.job.files else ""
    own = grout.span if grout.span is not None and grout.span.file == spec else None
    place = "for floor" if surface.kind == "floor" else "for walls"
    first = "".join(asked.choices[0])
    return rule.at(
        (surface.id,),
        context.span(own, surface.span),
        f"{context.name(surface)} is grouted with {grout.name} ({' '.join(grout.cls)}); {because} takes {asked.text} at least.",
        label=label,
        secondary=where_named(surface, grout),
        help=instead(context, surface, grout, "a grout of that class", f"class {first}", place),
        notes=(cited(asked),),
    )
