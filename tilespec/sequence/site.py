"""What every operation family works with: the job, its practice and take-off, and the chain of operations in the making."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from tilespec.job.types import Job, Product, Record, Room, Surface, Tile, Words
from tilespec.practice.lookup import Practice
from tilespec.quantity import UNITS, Quantity, work
from tilespec.quantity.total import total
from tilespec.sequence.types import Link, Operation, Point, Test, Wait
from tilespec.setout.standing import along, wall_line
from tilespec.source import Span
from tilespec.takeoff.types import Notch, SurfaceMeasure, TakeOff

HOUR = "h"


@dataclass(frozen=True, slots=True)
class Site:
    """Look-ups over the stages above, so that an operation family never searches them itself."""

    job: Job
    practice: Practice
    takeoff: TakeOff

    def limit(self, key: str) -> Quantity:
        return self.practice.limit(key)

    def measure(self, place: str) -> SurfaceMeasure | None:
        return next((m for m in self.takeoff.surfaces if m.place == place), None)

    def area(self, surfaces: tuple[Surface, ...]) -> Quantity | None:
        """Tiled area of surfaces together; None when the take-off has none of them."""
        return added([(s, m.tiled_area) for s in surfaces if (m := self.measure(s.id)) is not None], "tiled area")

    def primed_area(self, surfaces: tuple[Surface, ...]) -> Quantity | None:
        measured = [(s, m) for s in surfaces if (m := self.measure(s.id)) is not None]
        return added([(s, m.tiled_area if m.primed_area is None else m.primed_area) for s, m in measured], "primed area")

    def membrane_area(self, surfaces: tuple[Surface, ...]) -> Quantity | None:
        measured = [(s, m.membrane_area) for s in surfaces if (m := self.measure(s.id)) is not None]
        return added([(s, area) for s, area in measured if area is not None], "membrane area")

    def driven(self, kind: str, places: tuple[str, ...], shown: str) -> Quantity | None:
        """What drives the take-off of a kind of product at these places: metres of tape, number of collars. None: nothing."""
        parts = [
            (f"{p.role or kind} {p.place}", p.measure)
            for line in self.takeoff.lines_of(kind) for p in line.parts
            if p.place in places and p.measure.kind is UNITS[shown].kind and p.measure.value
        ]
        return total(parts, shown, of=kind) if parts else None

    def notch(self, surface: Surface, tile: Tile) -> Notch | None:
        return next((n for n in self.takeoff.notches if n.place == surface.id and n.tile == tile.name), None)

    def persons(self) -> Quantity:
        """Everybody in the crew."""
        return total(list(self.job.crew), "count", of="crew", source="crew of the job")

    # ------------------------------------------------------------ labour

    def rated(self, measure: Quantity | None, rate: str, *factors: str) -> Quantity | None:
        """Person-time from a measure and a rate of the practice; None when the take-off has no measure."""
        if measure is None:
            return None
        named = {f.replace("-", "_"): self.limit(f) for f in factors}
        formula = " * ".join(["measure / rate", *named])
        return work(formula, HOUR, source="planning rate", measure=measure, rate=self.limit(rate), **named)

    def timed(self, key: str, times: Quantity | None = None) -> Quantity:
        """Person-time that does not depend on a measure, once or for each of a count."""
        each = self.limit(key)
        if times is None:
            return work("time", HOUR, source="planning time", time=each)
        return work("number * time", HOUR, source="planning time", number=times, time=each)

    # ------------------------------------------------------------ records

    def record(self, kind: str, room: str | None, places: tuple[str, ...]) -> Record | None:
        """The newest record of a kind that covers all of these places, by itself or as one of one for each place."""
        found = [r for r in self.job.records if same_words(r.kind.text, kind)]
        whole = [r for r in found if r.place in ("job", room) or (len(places) == 1 and r.place == places[0])]
        if whole:
            return max(whole, key=lambda r: r.on)
        each = [max((r for r in found if r.place == p), key=lambda r: r.on, default=None) for p in places]
        if not each or any(r is None for r in each):
            return None
        failed = [r for r in each if r is not None and failing(r)]
        return failed[0] if failed else max((r for r in each if r is not None), key=lambda r: r.on)

    def signed(self, kind: str, room: str | None, places: tuple[str, ...]) -> Words | None:
        """Who released a hold point, by a record in the spec that did not fail."""
        r = self.record(kind, room, places)
        return r.by if r is not None and not failing(r) else None


def failing(record: Record) -> bool:
    return record.result is not None and record.result.casefold() in ("fail", "failed")


def same_words(a: str, b: str) -> bool:
    return a.casefold().replace(" ", "-") == b.casefold().replace(" ", "-")


def added(parts: list[tuple[Surface, Quantity]], of: str) -> Quantity | None:
    """Sum of one quantity of several surfaces, each named in the formula; None when there is none."""
    if not parts:
        return None
    terms = [(f"wall {s.letter}" if s.letter else "floor", q) for s, q in parts]
    return total(terms, parts[0][1].shown.symbol, of=of, source="sum of the surfaces")


def largest(parts: tuple[Quantity, ...]) -> Quantity | None:
    return max(parts, key=lambda q: q.value, default=None)


def smallest(parts: tuple[Quantity, ...]) -> Quantity | None:
    return min(parts, key=lambda q: q.value, default=None)


# ---------------------------------------------------------------- what products and tiles are

_CLASS = re.compile(r"([CDR])([12])([FTE]*)(S[12])?")


def adhesive_class(product: Product) -> tuple[str, str, str]:
    """Type letter, options and deformability of an adhesive: ("C", "FT", "S1"); blanks where not said."""
    m = _CLASS.match("".join(product.cls).replace("-", ""))
    return (m[1], m[3], m[4] or "") if m else ("", "", "")


def membrane_class(product: Product) -> str:
    """DM, CM or RM; a membrane of unknown class counts as a cement one, which waits longest between coats."""
    for part in product.cls:
        if part[:2] in ("DM", "CM", "RM"):
            return part[:2]
    if "dispersion" in product.flags:
        return "DM"
    if {"epoxy", "polyurethane", "resin"}.intersection(product.flags):
        return "RM"
    return "CM"


def cement(product: Product) -> bool:
    """Sets by the hydration of cement, so that cold slows it."""
    if product.kind == "adhesive":
        return adhesive_class(product)[0] in ("C", "")
    if product.kind == "grout":
        return not resin_grout(product)
    if product.kind == "membrane":
        return membrane_class(product) == "CM"
    return product.kind == "leveller"


def powder(product: Product) -> bool:
    """Mixed from powder on site."""
    return cement(product) or product.kind == "leveller"


def resin_grout(product: Product) -> bool:
    return any(part.startswith("RG") for part in product.cls) or bool({"epoxy", "polyurethane", "resin"} & set(product.flags))


def fast(product: Product) -> bool:
    return "F" in adhesive_class(product)[1] or "fast" in product.flags


def dense(tile: Tile, site: Site) -> bool:
    """Takes no water from the adhesive: porcelain, glass, or by its stated absorption."""
    if tile.absorption is not None:
        return tile.absorption.value <= site.limit("dense-tile-absorption").value
    return tile.body in ("porcelain", "glass")


def tiles_of(surface: Surface) -> tuple[Tile, ...]:
    seen: dict[str, Tile] = {}
    for c in surface.coverings:
        seen.setdefault(c.tile.name, c.tile)
    for n in surface.niches:
        if n.tile is not None:
            seen.setdefault(n.tile.name, n.tile)
    return tuple(seen.values())


def products_of(surfaces: tuple[Surface, ...], *kinds: str) -> tuple[Product, ...]:
    """Products of these kinds in use on these surfaces, once each, in order of first use."""
    seen: dict[tuple[str, str], Product] = {}
    for kind in kinds:
        for s in surfaces:
            for p in s.products:
                if p.kind == kind:
                    seen.setdefault((p.kind, p.name), p)
    return tuple(seen.values())


def with_membrane(surface: Surface) -> bool:
    return bool(surface.membrane_areas) and surface.refusal("membrane") is None and surface.product("membrane") is not None


def ids(surfaces: tuple[Surface, ...]) -> tuple[str, ...]:
    return tuple(s.id for s in surfaces)


def reaches_floor(surface: Surface, room: Room) -> bool:
    """Some tiling of this wall goes down to the floor: not where a bath or a tray stands against all of it."""
    if surface.kind != "wall" or not any(c.region is None or c.region.y.value <= 0 for c in surface.coverings):
        return False
    low = sorted((u.x.value, u.right) for u in surface.untiled if u.y.value <= 0)
    low += [(o.rect.x.value, o.rect.right) for o in surface.openings if o.rect.y.value <= 0]
    line = wall_line(room, surface.letter)
    standing = [(b.walls, b.rect) for b in room.baths] + [(s.walls, s.rect) for s in room.showers if s.tray]
    low += [along(line, rect) for walls, rect in standing if line is not None and surface.letter in walls]
    covered = 0 * surface.width.value
    for left, right in sorted(low):
        if left > covered:
            return True
        covered = max(covered, right)
    return covered < surface.width.value


# ---------------------------------------------------------------- the chain of operations of a room

@dataclass(slots=True)
class Chain:
    """Operations in the making. `gate` is what the next operation waits for; `room` is None for work on the whole job.

    `primed`, `tiled`, `grouted` and `sealed` remember what touched a surface, for waits that reach over other steps.
    """

    site: Site
    room: Room | None
    gate: tuple[Link, ...] = ()
    operations: list[Operation] = field(default_factory=list)
    primed: dict[str, Operation] = field(default_factory=dict)
    tiled: dict[str, list[Operation]] = field(default_factory=dict)
    grouted: dict[str, Operation] = field(default_factory=dict)
    sealed: Operation | None = None

    def make(
        self,
        kind: str,
        stage: str,
        places: tuple[str, ...],
        *,
        after: tuple[Link, ...] | None = None,
        trade: str = "tiler",
        products: tuple[Product, ...] = (),
        values: tuple[tuple[str, Quantity | None], ...] = (),
        facts: tuple[str, ...] = (),
        point: Point | None = None,
        labour: Quantity | None = None,
        part: str = "",
        span: Span | None = None,
    ) -> Operation:
        """One operation that waits for the gate (or for `after`); the gate stays as it is.

        Values that are None are left out. `part` tells operations of one kind in one room apart.
        """
        scope = self.room.name if self.room else "job"
        op = Operation(
            id=f"{scope}/{kind}" + (f"/{part}" if part else ""),
            kind=kind,
            stage=stage,
            room=self.room.name if self.room else None,
            places=places,
            after=merge(self.gate if after is None else after),
            trade=trade,
            products=products,
            values=tuple((n, q) for n, q in values if q is not None),
            facts=tuple(dict.fromkeys(facts)),
            point=point,
            labour=labour,
            span=span,
        )
        self.operations.append(op)
        return op

    def pass_through(self, *ops: Operation, wait: Wait | None = None) -> None:
        """The next operation waits for these."""
        self.gate = tuple(Link(op.id, wait) for op in ops)

    def also(self, *links: Link) -> tuple[Link, ...]:
        """The gate and these."""
        return merge((*self.gate, *links))


def merge(links: tuple[Link, ...]) -> tuple[Link, ...]:
    """One link for each operation; where one stands twice the longer wait holds."""
    best: dict[str, Link] = {}
    for link in links:
        old = best.get(link.operation)
        if old is None or old.wait is None or (link.wait is not None and link.wait.minimum.value > old.wait.minimum.value):
            best[link.operation] = link
    return tuple(best.values())


def looked_at(*what: str) -> tuple[Test, ...]:
    """Tests without a number."""
    return tuple(Test(w) for w in what)


def shown(q: Quantity, symbol: str) -> Quantity:
    return q.shown_in(UNITS[symbol])


def on(link: Operation, wait: Wait | None = None) -> Link:
    return Link(link.id, wait)

