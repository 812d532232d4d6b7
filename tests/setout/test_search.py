"""The start that is found is never worse than any other: against every start in steps of a millimetre, judged by own code."""

from __future__ import annotations

import random
from collections.abc import Sequence
from fractions import Fraction as F

import pytest

from tests.takeoff.building import HERE, box_room, en, job, laid, m, mm, rect, replace, surface, tile
from tilespec.job.types import Job, Opening, Room, Start
from tilespec.setout import lay, plane, search
from tilespec.setout.judge import Case, candidates, judge
from tilespec.setout.stage import sites
from tilespec.setout.start import Site

Strip = tuple[float, float, float, float]  # from, to, low, high


def strips(site: Site, axis: int) -> list[Strip]:
    """The region of a straight room in cells between all its edges, joined along the direction that is judged (mm)."""
    corners = [(float(p[axis] * 1000), float(p[1 - axis] * 1000)) for s in site.region for ring in s.rings for p in ring]
    rings = [[(float(p[axis] * 1000), float(p[1 - axis] * 1000)) for p in ring] for s in site.region for ring in s.rings]
    xs, ys = sorted({c[0] for c in corners}), sorted({c[1] for c in corners})
    found: list[Strip] = []
    for low, high in zip(ys, ys[1:]):
        begun: float | None = None
        for a, b in zip(xs, xs[1:]):
            if _inside((a + b) / 2, (low + high) / 2, rings):
                begun = a if begun is None else begun
            elif begun is not None:
                found.append((begun, a, low, high))
                begun = None
        if begun is not None:
            found.append((begun, xs[-1], low, high))
    return found


def _inside(x: float, y: float, rings: Sequence[Sequence[tuple[float, float]]]) -> bool:
    """Ray to the left, crossings counted."""
    count = 0
    for ring in rings:
        for (x1, y1), (x2, y2) in zip(ring, [*ring[1:], ring[0]]):
            if x1 == x2 < x and min(y1, y2) < y < max(y1, y2):
                count += 1
    return count % 2 == 1


def pieces(a: float, b: float, origin: float, size: float, joint: float) -> list[float]:
    """Widths of the tiles of one course over a stretch, from the first to the last."""
    module = size + joint
    at = origin - module * (int((origin - a) / module) + 3)
    found = []
    while at < b:
        wide = min(at + size, b) - max(at, a)
        if wide > 1e-6:
            found.append(wide)
        at += module
    return found


def brute(site: Site, axis: int, case: Case, all_: Sequence[Strip], origin: float) -> tuple[int, ...]:
    """Edges (mm) with a sliver, with a small cut, the difference of the outer cuts, what is seen, all cuts, and courses."""
    slivers = small = eye = cuts = 0.0
    outer: list[float] = []
    least, most = min(s[0] for s in all_), max(s[1] for s in all_)
    for a, b, low, high in all_:
        for n, (shift, share) in enumerate(case.phases):
            widths = pieces(a, b, origin + shift, case.size, case.joint)
            ends = widths[:1] if len(widths) == 1 else [widths[0], widths[-1]] if widths else [0.0]
            if n == 0 and a <= least + 1e-6 and b >= most - 1e-6:
                outer.append(abs(ends[0] - ends[-1]))
            for at, wide in zip((a, b), ends):
                edge = (high - low) * share
                if wide < case.size - 0.5:
                    cuts += edge
                    slivers += edge if wide < case.poor - 0.1 else 0
                    small += edge if wide < case.small - 0.1 else 0
                    seen = axis == 1 and not site.floor and 1200 <= at <= 1800
                    eye += edge if seen else 0
    courses = len(pieces(least, most, origin, case.size, case.joint))
    begun = (least - origin) % (case.size + case.joint)
    # A surface that begins or ends in a joint begins no course there.
    courses += 1 if case.size <= begun else 0
    unbalanced = outer[0] if case.balanced and outer else 0.0
    return tuple(round(v) for v in (slivers, small, unbalanced, eye, 0, 0, 0, cuts, courses))


def small_room(seed: int) -> tuple[Job, Room]:
    r = random.Random(seed)
    wide, high = F(r.randrange(90, 320), 100), F(r.randrange(100, 260), 100)
    size = r.choice([(300, 300), (600, 300), (300, 600), (200, 100), (450, 450), (250, 400)])
    t = tile("t", *size)
    openings: tuple[Opening, ...] = ()
    if r.random() < 0.6 and wide > F(12, 10):
        w, h = F(r.randrange(3, 8), 10), F(r.randrange(4, 9), 10)
        x, y = F(r.randrange(1, 4), 10), F(r.randrange(5, 10), 10)
        if x + w < wide and y + h < high:
            openings = (Opening("window", rect(x, y, w, h), None, HERE),)
    c = replace(laid(t, pattern=r.choice(["straight", "half", "third"]), joint=r.choice([2, 3, 5])), start=Start())
    wall = surface("A", wide, high, c, openings=openings)
    floor = surface("", wide, 2, replace(laid(t), start=Start()), kind="floor") if r.random() < 0.3 else None
    room = box_room(wide, 2, high, floor, (wall,))
    return job(room), room


def _sites(one: Job, room: Room) -> list[Site]:
    return [s for f in plane.room_faces(one, room, en()) if f.id == f.surface for s in sites(room, f)]


@pytest.mark.parametrize("group", range(10))
def test_no_start_is_better(group: int) -> None:
    """200 small rooms, every start at a distance of 1 mm over a whole module, both directions."""
    for seed in range(group * 20, group * 20 + 20):
        one, room = small_room(seed)
        for site in _sites(one, room):
            for axis in (0, 1):
                case = search.case(site, axis, en())
                found = search.search(site, axis, en())
                at = float(found.placed.corner.value * 1000)
                all_ = strips(site, axis)
                ours = brute(site, axis, case, all_, at)
                best = min(brute(site, axis, case, all_, case.low + k) for k in range(int(case.module) + 1))
                assert _not_worse(ours, best), (seed, axis, found.placed.words, ours, best)


def _not_worse(ours: tuple[int, ...], best: tuple[int, ...]) -> bool:
    for a, b in zip(ours, best):
        if abs(a - b) > 1:
            return a < b
    return True


@pytest.mark.parametrize("seed", range(40))
def test_the_score_is_that_of_the_pieces(seed: int) -> None:
    """Each criterion, for starts anywhere, against tiles counted one by one."""
    one, room = small_room(seed)
    for site in _sites(one, room):
        for axis in (0, 1):
            case, all_ = search.case(site, axis, en()), strips(site, axis)
            for k in range(0, int(case.module), 17):
                ours, theirs = judge(case, case.low + k), brute(site, axis, case, all_, case.low + k)
                assert all(abs(a - b) <= 1 for a, b in zip(ours, theirs)), (seed, axis, k, ours, theirs)


@pytest.mark.parametrize("seed", range(20))
def test_the_candidates_hold_the_best(seed: int) -> None:
    one, room = small_room(seed)
    for site in _sites(one, room):
        case = search.case(site, 0, en())
        best = min(judge(case, at) for at in candidates(case))
        assert all(_not_worse(best, judge(case, case.low + k / 4)) for k in range(int(case.module) * 4))


def test_the_half_tile_shift_cures_a_sliver() -> None:
    """N-03, trade practice: a remainder r is shared with one module, (r + tile) / 2 each: 38 and 600 give 319 mm at both ends."""
    c = replace(laid(tile("t", 600, 300), joint=3), start=Start())
    wall = surface("A", "2.46", 2.4, c)
    room = box_room("2.46", 2, 2.4, None, (wall,))
    (layout,) = lay(job(room), en()).layouts
    assert layout.begin.words[0].words == "tile on centre"
    assert {r.width.mm for r in layout.rows if "left" in r.sides or "right" in r.sides} == {319}


def test_of_equal_starts_the_widest_cut() -> None:
    """A door leaves stretches of 1265 and 350 mm for tiles of 305: many starts score the same, with least cuts from 77 to 116 mm.

    Against every start in steps of a millimetre, whole tiles and cuts counted one by one (computed).
    """
    c = replace(laid(tile("t", 305, 610), joint=3), start=Start("", "full tile at floor"))
    door = Opening("door", rect("1.27", 0, "0.813", "1.067"), None, HERE)
    room = box_room("2.438", 2, "1.067", None, (surface("A", "2.438", "1.067", c, openings=(door,)),))
    (site,) = _sites(job(room), room)
    case, all_ = search.case(site, 0, en()), strips(site, 0)
    at = float(search.search(site, 0, en()).placed.corner.value * 1000)

    def least(origin: float) -> float:
        return min(min(w[0], w[-1]) for a, b, *_ in all_ for w in [pieces(a, b, origin, case.size, case.joint)])

    starts = [case.low + k for k in range(int(case.module))]
    equal = [least(k) for k in starts if brute(site, 0, case, all_, k) == brute(site, 0, case, all_, at)]
    assert min(equal) < 80 and least(at) > max(equal) - 1


def test_what_is_said_is_never_searched() -> None:
    c = replace(laid(tile("t", 600, 300), joint=3), start=Start("from left", "full tile at datum"))
    wall = surface("A", "2.46", 2.4, c)
    room = box_room("2.46", 2, 2.4, None, (wall,))
    (layout,) = lay(job(room), en()).layouts
    assert layout.begin.chosen is None and layout.begin.found == ()
    assert layout.begin.first[0] == (m("0.005").value, room.levels.datum.value)


def test_runner_up_is_another_start() -> None:
    for seed in range(20):
        one, room = small_room(seed)
        for layout in lay(one, en()).layouts:
            chosen, other = layout.begin.chosen, layout.begin.runner_up
            assert chosen is not None
            if other is None:
                continue
            module = (layout.width.value + layout.joint.value, layout.height.value + layout.joint.value)
            off = [abs((a - b) % step) for a, b, step in zip((chosen.across, chosen.up), (other.across, other.up), module)]
            assert any(mm(1).value <= o <= step - mm(1).value for o, step in zip(off, module))
            assert [c.value.value for c in chosen.score] <= [c.value.value for c in other.score]


