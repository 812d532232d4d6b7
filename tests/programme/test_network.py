"""Critical path against textbook networks (worked examples H1 to H5, H7) and against networkx, a graph library."""

from __future__ import annotations

from fractions import Fraction as F

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tilespec.programme.network import Activity, Lag, Times, analyse


def network(text: str) -> tuple[Activity, ...]:
    """`A 2; B 3 A; C 2 A,B+4`: name, duration, predecessors with their lags."""
    made: list[Activity] = []
    for part in text.split(";"):
        name, duration, *before = part.split()
        lags = [p.partition("+") for p in before[0].split(",")] if before else []
        made.append(Activity(name, F(duration), tuple(Lag(p, F(lag or 0)) for p, _, lag in lags)))
    return tuple(made)


def arrows(rows: list[tuple[int, int, int]]) -> tuple[Activity, ...]:
    """Activities on arrows i–j: each follows every arrow that ends where it starts."""
    ordered = sorted(rows)
    return tuple(Activity(f"{i}-{j}", F(d), tuple(Lag(f"{a}-{b}") for a, b, _ in ordered if b == i)) for i, j, d in ordered)


def end(times: tuple[Times, ...]) -> F:
    return max(t.early_finish for t in times)


def test_thirteen_arrows() -> None:
    """H1: textbook solution manual ("Introduction to Management Science"), read there; free floats re-computed."""
    printed = {
        # i–j: duration, ES, EF, LS, LF, TF, FF
        (1, 2): (8, 0, 8, 1, 9, 1, 0), (1, 3): (10, 0, 10, 0, 10, 0, 0), (1, 4): (9, 0, 9, 6, 15, 6, 0),
        (2, 5): (6, 8, 14, 9, 15, 1, 1), (2, 6): (4, 8, 12, 16, 20, 8, 0), (3, 5): (5, 10, 15, 10, 15, 0, 0),
        (4, 5): (0, 9, 9, 15, 15, 6, 6), (4, 7): (7, 9, 16, 20, 27, 11, 11), (5, 7): (12, 15, 27, 15, 27, 0, 0),
        (5, 8): (15, 15, 30, 16, 31, 1, 1), (6, 9): (18, 12, 30, 20, 38, 8, 8), (7, 8): (4, 27, 31, 27, 31, 0, 0),
        (8, 9): (7, 31, 38, 31, 38, 0, 0),
    }
    times = analyse(arrows([(i, j, row[0]) for (i, j), row in printed.items()]))
    assert end(times) == 38
    found = {t.id: (t.early_start, t.early_finish, t.late_start, t.late_finish, t.total_float, t.free_float) for t in times}
    assert found == {f"{i}-{j}": row[1:] for (i, j), row in printed.items()}
    assert [t.id for t in times if t.critical] == ["1-3", "3-5", "5-7", "7-8", "8-9"]


def test_seven_arrows() -> None:
    """H2: the same book: ES, EF, LS, LF."""
    printed = {
        (1, 2, 7): (0, 7, 2, 9), (1, 3, 10): (0, 10, 0, 10), (2, 4, 6): (7, 13, 9, 15), (3, 4, 5): (10, 15, 10, 15),
        (3, 5, 4): (10, 14, 14, 18), (4, 5, 3): (15, 18, 15, 18), (5, 6, 2): (18, 20, 18, 20),
    }
    times = analyse(arrows(list(printed)))
    assert end(times) == 20
    found = {t.id: (t.early_start, t.early_finish, t.late_start, t.late_finish) for t in times}
    assert found == {f"{i}-{j}": row for (i, j, _), row in printed.items()}
    assert [t.id for t in times if t.critical] == ["1-3", "3-4", "4-5", "5-6"]


H3 = "A 2; B 3; C 2 A; D 4 A,B; E 4 C; F 3 C; G 5 D,E; H 2 F,G"
H4 = "A 4; B 3; C 8 A; D 7 A; E 9 B,C; F 12 B,C; G 2 D,E; H 5 D,E; I 6 F,G"
H5 = "A 2; B 4 A; C 10 B; D 6 C; E 4 C; F 5 E; G 7 D; H 9 E,G; I 7 C; J 8 F,I; K 4 J; L 5 J; M 2 H; N 6 K,L"
H7 = (
    "prep 8; prime 1 prep; tank1 2 prime+2; tank2 2 tank1+4; wall 16 tank2+12; floor 8 tank2+12; gwall 4 wall+24; "
    "gfloor 3 floor+24,gwall; seal 2 gfloor+24; hand 1 seal+24"
)


@pytest.mark.parametrize(("text", "starts", "late_starts", "free", "duration", "path"), [
    # H3: pollution-control example, read in a worked exercise.
    (H3, [0, 0, 2, 3, 4, 4, 8, 13], [0, 1, 2, 4, 4, 10, 8, 13], [0, 0, 0, 1, 0, 6, 0, 0], 15, "A C E G H"),
    # H4: "Project Management for Construction", chapter 10 (from memory), floats re-computed.
    (H4, [0, 0, 4, 4, 12, 12, 21, 21, 24], [0, 9, 4, 15, 13, 12, 22, 25, 24], [0, 9, 0, 10, 0, 0, 1, 4, 0], 30, "A C F I"),
    # H5: plant construction in "Introduction to Operations Research"; 44 weeks and the path from memory, re-computed.
    (H5, [0, 2, 6, 16, 16, 20, 22, 29, 16, 25, 33, 33, 38, 38], [0, 2, 6, 20, 16, 20, 26, 33, 18, 25, 34, 33, 42, 38], None, 44,
     "A B C E F J L N"),
    # H7: tiling network in hours with waits (not published; computed beside the values list).
    (H7, [0, 8, 11, 17, 31, 31, 71, 75, 102, 128], [0, 8, 11, 17, 31, 43, 71, 75, 102, 128], None, 129,
     "prep prime tank1 tank2 wall gwall gfloor seal hand"),
], ids=["H3", "H4", "H5", "H7"])
def test_activities_on_nodes(
    text: str, starts: list[int], late_starts: list[int], free: list[int] | None, duration: int, path: str,
) -> None:
    times = analyse(network(text))
    assert [t.early_start for t in times] == starts
    assert [t.late_start for t in times] == late_starts
    assert free is None or [t.free_float for t in times] == free
    assert end(times) == duration
    assert " ".join(t.id for t in times if t.critical) == path


@st.composite
def networks(draw: st.DrawFn) -> tuple[Activity, ...]:
    made: list[Activity] = []
    for n in range(draw(st.integers(1, 12))):
        before = draw(st.sets(st.integers(0, n - 1), max_size=3)) if n else set()
        lags = tuple(Lag(f"a{p}", F(draw(st.integers(0, 9)))) for p in sorted(before))
        made.append(Activity(f"a{n}", F(draw(st.integers(0, 9))), lags))
    return tuple(made)


@settings(max_examples=150, deadline=None)
@given(networks())
def test_against_a_graph_library(activities: tuple[Activity, ...]) -> None:
    """Outside reference: networkx, longest path with durations and lags as weights, from each end of the network."""
    graph = networkx.DiGraph()
    for a in activities:
        graph.add_edge("start", a.id, weight=0)
        graph.add_edge(a.id, "end", weight=a.duration)
        length = {x.id: x.duration for x in activities}
        for p in a.after:
            graph.add_edge(p.activity, a.id, weight=length[p.activity] + p.lag)
    whole = networkx.dag_longest_path_length(graph)
    times = analyse(activities)
    assert end(times) == whole
    for t in times:
        to_it = networkx.dag_longest_path_length(graph.subgraph(networkx.ancestors(graph, t.id) | {t.id}))
        from_it = networkx.dag_longest_path_length(graph.subgraph(networkx.descendants(graph, t.id) | {t.id}))
        assert (t.early_start, t.late_start) == (to_it, whole - from_it)
    assert set(networkx.dag_longest_path(graph)) - {"start", "end"} <= {t.id for t in times if t.critical}


def test_nothing_at_all() -> None:
    assert analyse(()) == ()
