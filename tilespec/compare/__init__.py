"""Two compiled specs held against each other, as jobs: `compare(old, new)`."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from tilespec.compare import follows, job
from tilespec.compare.difference import between, of_one
from tilespec.compare.order import moved
from tilespec.compare.renamed import renamed, text, under
from tilespec.compare.types import Comparison, Renamed, Side, Stages, Titled, Told
from tilespec.diagnostics.model import Diagnostic

__all__ = ["Comparison", "Renamed", "Side", "Stages", "Titled", "compare", "renamed", "under"]


def compare(old: Side, new: Side, stock: Renamed, titled: Titled) -> Comparison:
    """What changed from the old side to the new. Line breaks, comments, order of statements and units as written do not count.

    stock   tiles and products that only have another name now (see `renamed`): the old side is `under` the new names
    titled  how the print calls steps
    """
    told = tuple(_told(old.diagnostics, new.diagnostics, stock))
    a, b = old.stages, new.stages
    if a is None or b is None:
        unsound = tuple(word for word, stages in (("old", a), ("new", b)) if stages is None)
        family = next((s.job.family for s in (b, a) if s is not None), "EN")
        return Comparison(old.name, new.name, family, unsound, diagnostics=told)
    names, own = job.renamed(a.job, b.job), dict[str, str]()
    with_room = len({names.get(r.name, r.name) for s in (a, b) for r in s.job.rooms}) > 1
    before, after = follows.Names(a, with_room, names, titled), follows.Names(b, with_room, own, titled)
    old_steps, new_steps = follows.steps(a, before), follows.steps(b, after)
    return Comparison(
        old.name, new.name, b.job.family,
        job=of_one(job.heading(a.job), job.heading(b.job)),
        rooms=between(job.rooms(a.job, names), job.rooms(b.job, own)),
        bases=between(job.bases(a.job, names), job.bases(b.job, own)),
        tiling=between(job.tiling(a.job, names), job.tiling(b.job, own)),
        tiles=between(job.tiles(a.job, stock, before=True), job.tiles(b.job, stock)),
        products=between(job.products(a.job, stock, before=True), job.products(b.job, stock)),
        set_out=between(follows.set_out(a, names), follows.set_out(b, own)),
        quantities=between(follows.quantities(a), follows.quantities(b)),
        working=between(follows.working(a, names), follows.working(b, own)),
        steps=(
            *between(old_steps, new_steps),
            *moved(tuple(t.label for t in old_steps), tuple(t.label for t in new_steps)),
        ),
        programme=of_one(follows.programme(a, before), follows.programme(b, after)),
        points=between(follows.points(a, before), follows.points(b, after)),
        deviations=between(job.deviations(a.job, names), job.deviations(b.job, own)),
        records=between(job.records(a.job, names), job.records(b.job, own)),
        questions=between(job.questions(a.job, names), job.questions(b.job, own)),
        diagnostics=told,
    )


def _told(old: tuple[Diagnostic, ...], new: tuple[Diagnostic, ...], stock: Renamed) -> Iterator[Told]:
    """Diagnostics of one side only. They are the same when they say the same: the lines they stand at move with every edit."""
    then = [(d, (d.code, text(d.message, stock))) for d in old]
    now = [(d, (d.code, d.message)) for d in new]
    before, after = Counter(key for _, key in then), Counter(key for _, key in now)
    for is_new, listed, more in ((True, now, after - before), (False, then, before - after)):
        for d, key in listed:
            if more[key] > 0:
                more[key] -= 1
                yield Told(is_new, d.severity, d.code, d.name, d.message)
