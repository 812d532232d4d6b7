"""Records that say `fail`, and what was done all the same."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from tilespec.checks.recorded import TAKEN_FOR, about, goes_on, place
from tilespec.checks.rule import Context, Finding, Rule
from tilespec.diagnostics.model import Label
from tilespec.job.records import meet
from tilespec.job.types import Record
from tilespec.sequence.site import failing

WATER = ("pressure-test", "drain", "first-coat", "second-coat", "membrane-thickness", "membrane", "ponding", "leak-test")
SAFETY = (
    "asbestos", "lead", "heating-before", "heating-cover", "heating-after", "insulation-before", "insulation-cover",
    "insulation-after",
)
# Tests of a heating element that the tiles then cover.
_COVERED = ("heating-before", "heating-cover", "insulation-before", "insulation-cover")


@dataclass(frozen=True, slots=True)
class Passed:
    """A record that failed and the first one after it that shows that work went on."""

    failed: Record
    later: Record


def passed_over(context: Context) -> Iterator[Passed]:
    records = context.job.records
    for failed in records:
        if not failing(failed) or _again(context, failed):
            continue
        kind = failed.kind.text
        later = [
            r for r in records
            if r.on >= failed.on and meet(r.place, failed.place)
            and (goes_on(kind, r.kind.text) or (kind in _COVERED and r.kind.text == "tiling"))
        ]  # fmt: skip
        if later:
            yield Passed(failed, min(later, key=lambda r: r.on))


def _again(context: Context, failed: Record) -> bool:
    """Passed later, by the same kind of record or by the one that it is taken for, on all of its surfaces."""
    kinds = (failed.kind.text, TAKEN_FOR.get(failed.kind.text, failed.kind.text))
    passes = [r for r in context.job.records if r.kind.text in kinds and r.on >= failed.on and not failing(r)]
    if any(r.place == failed.place or failed.place.startswith(r.place + "/") for r in passes):
        return True
    own = [s for s in context.job.tiled if about(failed, s)]
    return bool(own) and all(any(about(r, s) for r in passes) for s in own)


def finding(context: Context, rule: Rule, found: Passed, help: str) -> Finding:
    failed, later = found.failed, found.later
    own = tuple(s.id for s in context.job.tiled if about(failed, s))
    kind = failed.kind.text
    return rule.at(
        own or (failed.place,),
        context.span(failed.span),
        f"`{kind}` failed for {place(context, failed)} on {failed.on}, and `{later.kind.text}` is signed for on {later.on}.",
        label="failed, and not passed since",
        secondary=(Label(later.span, "work went on"),) if later.span is not None else (),
        help=f"{help} When it passes, add `record {kind}` with the day and who signed.",
    )
