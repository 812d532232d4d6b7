"""The fewest tiles that give all pieces, with the proof that fewer will not do, or the gap that is left.

An integer programme over the ways to cut up one tile (the cutting-stock problem). Its linear relaxation is solved by generating
patterns (Gilmore and Gomory 1961 and 1965, from memory); the bound from it is worked out in whole numbers, so that no rounding
spoils it. Then come the patterns that a better plan could use at all, which are those whose reduced cost is within the gap.
Where they are few enough, the answer is exact. Few and fewest are always among plans cut as `stock` says.

Limits count work, not time, so that equal input gives equal output.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import TYPE_CHECKING

from tilespec.setout.firstfit import decreasing, first_fit
from tilespec.setout.patterns import View, all_worth, most_valuable, views
from tilespec.setout.rows import Work
from tilespec.setout.stock import Demand, Key, Pattern, Stock, Strip, Task, measured, places

if TYPE_CHECKING:
    from highspy import Highs

SCALE = 10**9                   # values of pieces, of one tile
GENERATING = 800_000          # steps of generating patterns
LISTING = 60_000                # steps of listing them
PATTERNS = 1_000                # at most in the integer programme
NODES = 300                     # of its search
SECONDS = 10.0                  # a last resort: meant to be far beyond what NODES and PATTERNS allow


@dataclass(frozen=True, slots=True)
class Cut:
    """So many tiles cut up alike. boxes: (piece, left, low, width, height) in the tile."""

    tiles: int
    boxes: tuple[tuple[Key, Fraction, Fraction, Fraction, Fraction], ...]


@dataclass(frozen=True, slots=True)
class Fewest:
    """cut: tiles cut up; bound: fewest that could do; first_fit: without a plan."""

    cuts: tuple[Cut, ...]
    cut: int
    bound: int
    first_fit: int

    @property
    def proven(self) -> bool:
        return self.cut == self.bound


def fewest(stock: Stock, demands: Sequence[Demand]) -> Fewest:
    """The plan for one article. ValueError where a piece cannot come out of the tile."""
    if not demands:
        return Fewest((), 0, 0, 0)
    task = measured(stock, demands)
    found = first_fit(task, task.order)
    usual = len(found)
    found = min(found, first_fit(task, decreasing(task, task.counts)), key=len)
    bound = area_bound(task)
    if len(found) > bound:
        try:
            found, bound = _Search(task, found, bound).run()
        except ImportError:
            pass                # no solver here: the plan stands, not proven
    return Fewest(_handed_out(task, _as_wanted(task, found)), len(found), bound, usual)


def area_bound(task: Task) -> int:
    """Fewest tiles by area, a kerf added to each piece and to the tile both ways."""
    b = task.bench
    need = sum(n * (t[0].width + b.kerf) * (t[0].height + b.kerf) for n, t in zip(task.counts, task.turns))
    return max(1, -(-need // ((b.width + b.kerf) * (b.height + b.kerf))))


def _solver() -> Highs:
    """A silent solver that gives the same answer to the same question."""
    import highspy

    class Silent(highspy.Highs):
        def enableCallbacks(self) -> None:
            # It prints who made it when this is first called, before anybody can tell it to be quiet.
            self.setOptionValue("output_flag", False)
            super().enableCallbacks()       # type: ignore[no-untyped-call]

    solver = Silent()       # type: ignore[no-untyped-call]
    solver.setOptionValue("threads", 1)
    solver.setOptionValue("parallel", "off")
    solver.setOptionValue("random_seed", 0)
    return solver


class _Search:
    """From the best plan known to one that is proven, or as near as the limits let it."""

    def __init__(self, task: Task, found: tuple[Pattern, ...], bound: int) -> None:
        self.task, self.found, self.bound = task, found, bound
        self.views: tuple[View, ...] = views(task)
        self.columns: dict[tuple[tuple[int, int], ...], Pattern] = {}
        self.values: tuple[int, ...] = ()               # of the pieces, where the bound is best
        self.relaxed = False                            # no further pattern would help the linear programme
        self.most = SCALE                               # value of the best pattern at these values

    def run(self) -> tuple[tuple[Pattern, ...], int]:
        for pattern in (*self.found, *first_fit(self.task, decreasing(self.task, self.task.counts))):
            self.columns.setdefault(pattern.sizes(), pattern)
        self._relaxed()
        if len(self.found) > self.bound:
            self._programme(self.columns, whole=False)
        if len(self.found) > self.bound and self.relaxed:
            self._listed()
        return self.found, self.bound

    def _better(self, plan: tuple[Pattern, ...]) -> None:
        if len(plan) < len(self.found):
            self.found = plan

    def _relaxed(self) -> None:
        """Generate patterns until no further one would help the linear programme."""
        from highspy import HighsModelStatus, kHighsInf

        lp = _solver()
        lp.setOptionValue("presolve", "off")            # go on from the last basis
        for n in self.task.counts:
            lp.addRow(float(n), kHighsInf, 0, [], [])
        for sizes in self.columns:
            lp.addCol(1.0, 0.0, kHighsInf, len(sizes), [i for i, _ in sizes], [float(n) for _, n in sizes])
        record, tried = Fraction(0), set(self.columns)
        work = Work(GENERATING)
        while work.left >= 0:
            lp.run()
            if lp.getModelStatus() != HighsModelStatus.kOptimal:
                break
            solution = lp.getSolution()
            values = tuple(max(0, int(d * SCALE)) for d in solution.row_dual)
            priced = [p for view in self.views for p in most_valuable(view, values, work)]
            if work.left < 0:
                break
            most = max(SCALE, *(value for value, _ in priced))
            reached = Fraction(sum(v * n for v, n in zip(values, self.task.counts)), most)
            if reached > record:
                record, self.values, self.most = reached, values, most
                self.bound = max(self.bound, ceil(reached))
            if len(self.found) <= self.bound:
                return
            grown = False
            for value, pattern in priced:
                sizes = pattern.sizes()
                if value > SCALE * (1 + 1e-9) and sizes not in tried:
                    tried.add(sizes)
                    self.columns[sizes] = pattern
                    lp.addCol(1.0, 0.0, kHighsInf, len(sizes), [i for i, _ in sizes], [float(n) for _, n in sizes])
                    grown = True
            if not grown:
                self.relaxed = True
                break
        self._rounded(list(solution.col_value))

    def _rounded(self, times: Sequence[float]) -> None:
        """The linear solution rounded down; first-fit for what is then left to cut."""
        left = list(self.task.counts)
        plan: list[Pattern] = []
        for (sizes, pattern), x in sorted(zip(self.columns.items(), times), key=lambda c: -c[1]):
            while x >= 0.999 and any(left[i] for i, _ in sizes):
                x -= 1
                plan.append(pattern)
                for i, n in sizes:
                    left[i] = max(0, left[i] - n)
        self._better((*plan, *first_fit(self.task, decreasing(self.task, left))))

    def _listed(self) -> None:
        """Only patterns of small reduced cost can be in a better plan: list them all, and search among them."""
        gap = self.most * (len(self.found) - 1) - sum(v * n for v, n in zip(self.values, self.task.counts))
        if gap < 0:
            self.bound = len(self.found)
            return
        work, columns = Work(LISTING), dict[tuple[tuple[int, int], ...], Pattern]()
        for view in self.views:
            for pattern in all_worth(view, self.values, self.most - gap, work):
                columns.setdefault(pattern.sizes(), pattern)
                if len(columns) > PATTERNS:
                    break
        whole = work.left >= 0 and len(columns) <= PATTERNS
        self._programme(columns if whole else {**self.columns, **columns}, whole)

    def _programme(self, columns: dict[tuple[tuple[int, int], ...], Pattern], whole: bool) -> None:
        """A better plan from these patterns. `whole`: no better plan has any other pattern."""
        from highspy import HighsModelStatus, HighsVarType, kHighsInf

        counts = self.task.counts
        ip = _solver()
        for n in counts:
            ip.addRow(float(n), kHighsInf, 0, [], [])
        for sizes in columns:
            ip.addCol(1.0, 0.0, float(len(self.found)), len(sizes), [i for i, _ in sizes], [float(n) for _, n in sizes])
        for j in range(len(columns)):
            ip.changeColIntegrality(j, HighsVarType.kInteger)
        every = list(range(len(columns)))
        ip.addRow(float(self.bound), float(len(self.found) - 1), len(every), every, [1.0] * len(every))
        ip.setOptionValue("mip_max_nodes", NODES)
        ip.setOptionValue("time_limit", SECONDS)
        ip.setOptionValue("mip_rel_gap", 0.0)
        ip.setOptionValue("mip_abs_gap", 0.999)         # tiles are whole
        ip.run()
        status, info = ip.getModelStatus(), ip.getInfo()
        known = len(self.found)
        solution = ip.getSolution()
        if solution.value_valid:
            times = [round(x) for x in solution.col_value]
            made = [0] * len(counts)
            for sizes, x in zip(columns, times):
                for i, n in sizes:
                    made[i] += n * x
            if all(m >= n for m, n in zip(made, counts)):
                self._better(tuple(p for p, x in zip(columns.values(), times) for _ in range(x)))
        if whole:
            if status == HighsModelStatus.kInfeasible:
                self.bound = known
            elif status == HighsModelStatus.kOptimal:
                self.bound = max(self.bound, min(len(self.found), ceil(info.mip_dual_bound - 1e-6)))


def _as_wanted(task: Task, plan: Sequence[Pattern]) -> list[Pattern]:
    """The plan without the pieces that are more than wanted: what would be cut from there stays whole."""
    surplus = [-n for n in task.counts]
    for pattern in plan:
        for i, n in pattern.sizes():
            surplus[i] += n
    result = []
    for pattern in reversed(plan):
        strips = []
        for strip in pattern.strips:
            kept = []
            for p in strip.pieces:
                if surplus[p.size] > 0:
                    surplus[p.size] -= 1
                else:
                    kept.append(p)
            if kept:
                strips.append(Strip(strip.height, tuple(kept)))
        result.append(Pattern(pattern.upright, tuple(strips)))
    return result[::-1]


def _handed_out(task: Task, plan: Sequence[Pattern]) -> tuple[Cut, ...]:
    """Tiles that are cut alike, together; each piece with the row of the cut list that it is for."""
    queues = [[key for key, n in members for _ in range(n)][::-1] for members in task.members]
    alike: dict[Pattern, int] = {}
    for pattern in plan:
        alike[pattern] = alike.get(pattern, 0) + 1
    found: dict[tuple[tuple[Key, tuple[int, ...]], ...], int] = {}
    for pattern, tiles in alike.items():
        laid = places(task.bench, pattern)
        for _ in range(tiles):
            boxes = tuple((queues[size].pop(), tuple(box)) for size, *box in laid)
            found[boxes] = found.get(boxes, 0) + 1
    return tuple(
        Cut(tiles, tuple(
            (key, Fraction(x, task.unit), Fraction(y, task.unit), Fraction(w, task.unit), Fraction(h, task.unit))
            for key, (x, y, w, h) in boxes
        ))
        for boxes, tiles in found.items()
    )
