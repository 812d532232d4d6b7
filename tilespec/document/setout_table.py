"""The set-out as tables of plain text, for a terminal: a surface after the other, then the plan of offcuts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from tilespec.diagnostics.printable import printable
from tilespec.document.show import decimal, show
from tilespec.document.table import filled, table
from tilespec.job.types import Job
from tilespec.quantity import UNITS, Quantity
from tilespec.setout.types import Falls, Layout, OffcutPlan, Row, SetOut, Way

_MM = UNITS["mm"]
_CUTS = {
    "width": "across", "height": "along", "both": "both ways", "notch": "part cut out", "slant": "aslant",
    "fold": "cut in two, both laid", "hole": "hole only",
}


def render(job: Job, setout: SetOut, plans: Sequence[OffcutPlan], columns: int | None = None) -> str:
    """Text with a line break at its end. Lengths in millimetres, for the US family feet and inches as well.

    columns  width of the terminal; None: nothing is broken
    """
    writer = _Writer(job, columns)
    lines: list[str] = []
    for room in job.rooms:
        for surface in room.surfaces:
            layouts = setout.on(surface.id)
            if layouts:
                lines += ["", *writer.line(f"{printable(room.name)}, {printable(surface.title)}", 0), *writer.surface(layouts)]
                for a in setout.alignments:
                    if a.first == surface.id and (a.asked or a.off.value):
                        other = next(s.title for s in room.surfaces if s.id == a.second)
                        lines += writer.line(f"joints to {printable(other)}: {writer.off(a.off, a.asked)}")
        for f in setout.falls:
            if f.room == room.name:
                lines += ["", *writer.line(f"{printable(room.name)}, fall", 0), *writer.fall(f)]
    lines += ["", *writer.line("Which pieces come from which tiles", 0)]
    for p in plans:
        lines += writer.plan(p)
    return "\n".join(lines[1:]) + "\n"


class _Writer:
    def __init__(self, job: Job, columns: int | None) -> None:
        self.job, self.columns = job, columns
        self.titles = {s.id: s.title.partition(",")[0] for s in job.surfaces}
        self.several = len(job.rooms) > 1
        self.rooms = {s.id: s.room for s in job.surfaces}

    def line(self, text: str, indent: int = 2) -> list[str]:
        return filled(text, self.columns, indent, 2)

    def mm(self, q: Quantity) -> str:
        return show(q.shown_in(_MM), "US") if self.job.family == "US" else decimal(q.mm, 1)

    def way(self, w: Way) -> str:
        return f"{w.lead} {self.mm(w.cut)} {w.words}" if w.cut is not None else w.words

    def off(self, q: Quantity, asked: bool) -> str:
        if not q.value:
            return "run through"
        return f"miss by {self.mm(q)}" + (", asked for and not possible with these tiles" if asked else "")

    def place(self, surface: str) -> str:
        title = self.titles[surface]
        return printable(f"{self.rooms[surface]} {title}" if self.several else title)

    def surface(self, layouts: Sequence[Layout]) -> Iterator[str]:
        rows: list[tuple[str, ...]] = []
        for x in layouts:
            face = x.face.removeprefix(x.surface).strip("/")
            across, up = (self.way(w) for w in x.begin.words)
            start = f"{across}, both ways" if across == up else f"{across}; {up}"
            found = f" (found: {' and '.join(x.begin.found)})" if x.begin.found else ""
            name = face or ("" if x.role == "field" else x.role)
            size = f"{printable(x.tile.name)} {self.mm(x.width)} x {self.mm(x.height)}, joint {self.mm(x.joint)}"
            count = f"{decimal(x.full.value, 0)} full, {len(x.pieces)} cut"
            yield from self.line(f"{name + ': ' if name else ''}{size}: {start}{found}; {count}")
            rows += [self.row(r, face) for r in x.rows]
        if rows:
            yield from table(("no.", "pieces", "width", "height", "cut"), rows, (True, True, True, True, False), self.columns, 4)

    def row(self, r: Row, face: str) -> tuple[str, ...]:
        words = [f"{_CUTS[r.kind]}{', THIN' if r.thin else ''}"]
        if r.ends:
            words.append(f"{self.mm(r.ends[0])} at one end, {self.mm(r.ends[1])} at the other")
        for name, chips, rest in r.chips:
            words.append(f"{decimal(chips.value, 0)} chips {name}" + (f" and {self.mm(rest)} of the next" if rest.value else ""))
        words += [f"{at} {self.mm(w)} x {self.mm(h)}" for at, w, h in r.notches]
        words += self.folds(r)
        words += [f"hole {self.mm(d)} for {printable(name)} at {self.mm(x)}, {self.mm(y)}" for name, x, y, d in r.holes]
        if face:
            words.insert(0, face)
        return str(r.number), decimal(r.count.value, 0), self.mm(r.width), self.mm(r.height), "; ".join(words)

    def folds(self, r: Row) -> list[str]:
        """The cuts along the edge between two falls, each by where it begins and ends on the piece."""
        lines = [f"from {self.spot(r, a, b)}, to {self.spot(r, c, d)}" for a, b, c, d in r.folds]
        if lines:
            both = "" if r.kind == "fold" else "cut through, all parts laid, "
            lines[0] = f"{both}along the edge of the falls {lines[0]}"
        return lines

    def spot(self, r: Row, across: Quantity, up: Quantity) -> str:
        """A place on a piece as a tiler marks it: a corner, on an edge, or by both measures."""
        ends = _end(across, r.width, ("left", "right")), _end(up, r.height, ("lower", "upper"))
        match ends:
            case ("", ""):
                return f"{self.mm(across)} from the left and {self.mm(up)} up"
            case ("", edge):
                return f"the {edge} edge, {self.mm(across)} from the left"
            case (edge, ""):
                return f"the {edge} edge, {self.mm(up)} up"
            case (side, edge):
                return f"the {edge} {side} corner"
        raise AssertionError(ends)

    def fall(self, f: Falls) -> Iterator[str]:
        for p in f.planes:
            yield from self.line(f"from the {p.side}: {show(p.fall, self.job.family)} over {self.mm(p.run)}")
        for h in f.heights:
            yield from self.line(f"{h.name}: {self.mm(h.height)}")
        if f.threshold_bed is not None:
            yield from self.line(f"bed under the tile at the door: {self.mm(f.threshold_bed)}")

    def plan(self, p: OffcutPlan) -> Iterator[str]:
        bound = "no plan takes fewer" if p.proven else f"no plan can take fewer than {decimal(p.bound.value, 0)}"
        whole, cut, usual = (decimal(q.value, 0) for q in (p.whole, p.cut, p.first_fit))
        name, kerf = printable(p.tile.name), self.mm(p.kerf)
        yield from self.line(f"{name}: {whole} whole, {cut} cut up (kerf {kerf}): {bound}; first fit takes {usual}")
        alone: dict[str, dict[int, int]] = {}
        rows: list[tuple[str, ...]] = []
        for c in p.cuttings:
            if len(c.pieces) == 1 and c.pieces[0][2] == 1:
                place, number, _ = c.pieces[0]
                numbers = alone.setdefault(self.place(place), {})
                numbers[number] = numbers.get(number, 0) + c.tiles
                continue
            rows.append((str(c.tiles), " + ".join(
                f"{f'{n} of ' if n > 1 else ''}{self.place(place)} no. {number}" for place, number, n in c.pieces
            )))
        if rows:
            yield from table(("tiles", "each cut into"), rows, (True, False), self.columns, 4)
        for at, numbers in alone.items():
            listed = ", ".join(f"no. {n}" + (f" ({tiles} times)" if tiles > 1 else "") for n, tiles in numbers.items())
            yield from self.line(f"a tile each: {at} {listed}", 4)


def _end(at: Quantity, size: Quantity, names: tuple[str, str]) -> str:
    """At which end of the piece it is, if at one."""
    # Nobody marks a tenth of a millimetre.
    least = Fraction(1, 10000)
    return names[0] if at.value < least else names[1] if size.value - at.value < least else ""
