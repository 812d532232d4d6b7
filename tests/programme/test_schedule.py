"""Operations laid on the calendar: hand-made sequences with plain times, and what holds for every one of them."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta
from fractions import Fraction as F

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.takeoff.building import box_room, en, floor_job, job, laid, q, surface, tile
from tilespec.job.types import Hours, Job
from tilespec.programme import schedule
from tilespec.programme.types import Programme, Slot
from tilespec.quantity import Worked
from tilespec.sequence import sequence
from tilespec.sequence.types import Link, Operation, Sequence, Wait
from tilespec.takeoff import measure

MONDAY = date(2026, 3, 9)


def op(id: str, hours: object, *after: str, trade: str = "tiler", room: str | None = "room") -> Operation:
    """`after`: "a", or "a+4" for a wait of four hours, or "a+4-24" for one of at most twenty-four."""
    links: list[Link] = []
    for text in after:
        name, _, wait = text.partition("+")
        low, _, high = wait.partition("-")
        links.append(Link(name, Wait(q(low, "h"), "dry", q(high, "h") if high else None) if wait else None))
    labour = q(hours, "h") if F(str(hours)) else None
    return Operation(id, id, "any", room, (room or "job",), tuple(links), trade, labour=labour)


def plan(*operations: Operation, begin: date | None = MONDAY, crew: int = 1, **more: object) -> Programme:
    made = job(box_room(2, 2), begin=begin, crew=(("tiler", q(crew, "count")),), **more)
    return schedule(made, en(), Sequence(operations, (), ()))


def times(p: Programme) -> dict[str, tuple[str, str]]:
    """First start and last end of each operation, as "09 07:30"."""
    slots = [s for d in p.days for s in d.slots]
    starts: dict[str, str] = {}
    ends: dict[str, str] = {}
    for s in slots:
        starts.setdefault(s.operation, f"{s.start:%d %H:%M}")
        ends[s.operation] = f"{s.end:%d %H:%M}"
    return {id: (starts[id], ends[id]) for id in starts}


def test_one_after_the_other() -> None:
    found = plan(op("a", 2), op("b", 1, "a"))
    assert times(found) == {"a": ("09 07:30", "09 09:30"), "b": ("09 09:30", "09 10:30")}
    assert found.finish == datetime(2026, 3, 9, 10, 30)


def test_labour_is_shared_by_the_crew() -> None:
    found = plan(op("a", 3), crew=2)
    assert times(found)["a"] == ("09 07:30", "09 09:00")
    assert found.person_hours.hours == 3


def test_waits_run_on_the_clock() -> None:
    """Twelve hours from 10:30 end at 22:30: work goes on next morning; four hours from 8:30 end the same day."""
    found = times(plan(op("a", 3), op("b", 1, "a+12"), op("c", 1, "b+4")))
    assert found["b"] == ("10 07:30", "10 08:30")
    assert found["c"] == ("10 12:30", "10 13:30")


def test_a_weekend_counts_for_waits_but_not_for_labour() -> None:
    """Friday 13 March: 48 h from 09:30 are over on Sunday; work goes on at Monday 07:30. Ten hours of labour end on Monday."""
    found = times(plan(op("a", 2), op("b", 1, "a+48"), begin=date(2026, 3, 13)))
    assert found["b"] == ("16 07:30", "16 08:30")
    assert times(plan(op("a", 10), begin=date(2026, 3, 13)))["a"] == ("13 07:30", "16 09:00")


def test_easter_is_closed_but_the_membrane_cures() -> None:
    """Worked example P: the working day after Thursday 2 April 2026 is Tuesday 7 April, in England."""
    found = plan(op("a", 8), op("b", 1, "a+24"), begin=date(2026, 4, 2), closed=(date(2026, 4, 3), date(2026, 4, 6)))
    assert times(found)["b"] == ("07 07:30", "07 08:30")
    assert [(d.on.day, d.number) for d in found.days] == [(2, 1), (7, 2)]


def test_other_work_goes_on_while_one_waits() -> None:
    """b waits four hours for a; c, later in the order but free to start, fills the gap."""
    found = times(plan(op("a", 1), op("b", 1, "a+4"), op("c", 2, "a")))
    assert found["c"] == ("09 08:30", "09 10:30")
    assert found["b"] == ("09 12:30", "09 13:30")


def test_a_gap_that_is_too_short_stays_empty() -> None:
    found = times(plan(op("a", 1), op("b", 1, "a+2"), op("c", 3, "a")))
    assert found["b"] == ("09 10:30", "09 11:30")
    assert found["c"] == ("09 11:30", "09 14:30")


def test_nothing_is_begun_in_the_last_half_hour() -> None:
    """Common practice, no source: 20 min before the end of the day only what ends that day is begun."""
    found = times(plan(op("a", "8.25"), op("b", 1, "a"), op("c", "0.25", "a")))
    assert found["b"] == ("10 07:30", "10 08:30")
    assert found["c"] == ("09 15:45", "09 16:00")
    assert times(plan(op("a", 8), op("b", 1, "a")))["b"] == ("09 15:30", "10 08:00")


def test_other_trades_take_the_room_but_not_the_crew() -> None:
    """The electrician works three hours in the room: the tiler waits there, but not next door."""
    here = times(plan(op("a", 1), op("e", 3, "a", trade="electrician"), op("b", 1, "a")))
    assert here["e"] == ("09 08:30", "09 11:30")
    assert here["b"] == ("09 11:30", "09 12:30")
    there = times(plan(op("a", 1), op("e", 3, "a", trade="electrician"), op("b", 1, "a", room="other")))
    assert there["b"] == ("09 08:30", "09 09:30")


def test_another_trade_is_not_shared_by_the_crew() -> None:
    found = plan(op("e", 3, trade="electrician"), crew=2)
    assert times(found)["e"] == ("09 07:30", "09 10:30")
    assert found.person_hours.value == 0


def test_work_on_the_whole_site_takes_every_room() -> None:
    found = times(plan(op("e", 2, trade="plumber", room=None), op("a", 1), op("b", 1, room="other")))
    assert {found["a"][0], found["b"][0]} == {"09 09:30", "09 10:30"}


def test_a_hold_point_takes_no_time_and_may_be_signed_at_the_end_of_the_day() -> None:
    found = plan(op("a", "8.5"), op("hold", 0, "a"), op("b", 1, "hold"))
    assert times(found) == {"a": ("09 07:30", "09 16:00"), "hold": ("09 16:00", "09 16:00"), "b": ("10 07:30", "10 08:30")}


def test_primer_is_put_off_when_the_weekend_would_overrun_its_window() -> None:
    """Primer on Friday afternoon, membrane after 4 h but within 24 h: primed on Monday instead."""
    found = plan(op("prep", 6), op("prime", 1, "prep"), op("tank", 1, "prime+4-24"), begin=date(2026, 3, 13))
    assert times(found) == {"prep": ("13 07:30", "13 13:30"), "prime": ("16 07:30", "16 08:30"), "tank": ("16 12:30", "16 13:30")}
    assert not any(p.late for p in found.pauses)


def test_a_window_that_cannot_be_kept_is_said_and_delays_nothing() -> None:
    """b must follow a within 10 h, but also a wait of 20 h that starts with a: the programme does not run away with it."""
    found = plan(op("a", 1), op("c", 1, "a"), op("b", 1, "a+1-10", "c+20"))
    assert times(found)["a"] == ("09 07:30", "09 08:30")
    (pause,) = [p for p in found.pauses if p.after == "a" and p.before == "b"]
    assert pause.late and pause.latest == datetime(2026, 3, 9, 18, 30)


def test_pauses_say_until_when() -> None:
    (pause,) = plan(op("a", 2), op("b", 1, "a+4")).pauses
    assert (pause.after, pause.before, pause.why) == ("a", "b", "dry")
    assert (pause.start, pause.until) == (datetime(2026, 3, 9, 9, 30), datetime(2026, 3, 9, 13, 30))


def test_days_and_parts_of_work() -> None:
    """Twelve hours of work from Monday, a wait of 70 h, one hour on Friday: open days between are listed, empty."""
    found = plan(op("a", 12), op("b", 1, "a+70"))
    assert [(d.number, [(s.operation, s.last) for s in d.slots]) for d in found.days] == [
        (1, [("a", False)]), (2, [("a", True)]), (3, []), (4, []), (5, [("b", True)]),
    ]
    assert found.working_days.value == 3


def test_without_a_start_only_day_numbers_count() -> None:
    found = plan(op("a", 1), begin=None)
    assert not found.dated and found.days[0].on.weekday() == 0 and found.days[0].number == 1
    assert plan(op("a", 1)).dated


def test_a_start_on_a_closed_day_moves_to_the_next_open_one() -> None:
    assert plan(op("a", 1), begin=date(2026, 3, 14)).days[0].on == date(2026, 3, 16)


def test_hours_and_days_of_the_job() -> None:
    """Saturday only, eight to ten: five hours of work take three Saturdays."""
    found = plan(op("a", 5), hours=Hours((5,), time(8), time(10), True))
    assert [d.on for d in found.days] == [date(2026, 3, 14), date(2026, 3, 21), date(2026, 3, 28)]


def test_critical_path_through_waits() -> None:
    """Tiling network of worked example H7 as operations: all but the floor tiles are critical."""
    found = plan(
        op("prep", 8), op("prime", 1, "prep"), op("tank1", 2, "prime+2"), op("tank2", 2, "tank1+4"), op("wall", 16, "tank2+12"),
        op("floor", 8, "tank2+12"), op("gwall", 4, "wall+24"), op("gfloor", 3, "floor+24", "gwall"), op("seal", 2, "gfloor+24"),
        op("hand", 1, "seal+24"),
    )
    assert found.critical == ("prep", "prime", "tank1", "tank2", "wall", "gwall", "gfloor", "seal", "hand")


def test_person_hours_are_added_up_step_by_step() -> None:
    found = plan(op("a", 2), op("b", "1.5", "a"), op("hold", 0, "b"), op("e", 4, "b", trade="electrician"))
    assert found.person_hours.hours == F("3.5")
    why = found.person_hours.why
    assert isinstance(why, Worked) and [name for name, _ in why.inputs] == ["a", "b"]


def test_nothing_to_do() -> None:
    found = plan()
    assert found.days == () and found.finish is None and found.critical == ()
    assert found.working_days.value == found.person_hours.value == 0


# ---------------------------------------------------------------- what holds for every sequence

@st.composite
def sequences(draw: st.DrawFn) -> tuple[Operation, ...]:
    made: list[Operation] = []
    for n in range(draw(st.integers(1, 10))):
        after: list[str] = []
        for p in sorted(draw(st.sets(st.integers(0, n - 1), max_size=3)) if n else set()):
            wait, window = draw(st.integers(0, 30)), draw(st.sampled_from([0, 0, 5, 40]))
            after.append(f"o{p}+{wait}" + (f"-{wait + window}" if window else "") if wait or window else f"o{p}")
        hours = draw(st.sampled_from([0, "0.25", "0.7", 1, "2.3", 6, 13]))
        trade = draw(st.sampled_from(["tiler", "tiler", "tiler", "electrician", "plumber"]))
        made.append(op(f"o{n}", hours, *after, trade=trade, room=draw(st.sampled_from(["room", "other", None]))))
    return tuple(made)


HOURS = st.builds(lambda days, end: Hours(tuple(sorted(days)), time(7, 30), time(end), True),
                  st.sets(st.integers(0, 6), min_size=1), st.integers(9, 18))


@settings(max_examples=120, deadline=None)
@given(sequences(), HOURS, st.sets(st.integers(0, 13), max_size=4), st.integers(1, 3))
def test_every_step_keeps_order_waits_and_hours(
    operations: tuple[Operation, ...], hours: Hours, shut: set[int], crew: int,
) -> None:
    closed = tuple(MONDAY + timedelta(days=n) for n in sorted(shut))
    found = plan(*operations, crew=crew, hours=hours, closed=closed)
    slots = [s for d in found.days for s in d.slots]
    by_id = {o.id: o for o in operations}
    first = {s.operation: s.start for s in reversed(slots)}
    last = {s.operation: s.end for s in slots}
    assert set(first) == set(by_id)
    for day in found.days:
        assert day.on.weekday() in hours.days and day.on not in closed
    for s in slots:
        assert s.start.date() == s.end.date()
        assert hours.start <= s.start.time() <= s.end.time() <= hours.end
    for o in operations:
        for link in o.after:
            wait = link.wait.minimum.value if link.wait else 0
            assert (first[o.id] - last[link.operation]).total_seconds() >= wait
        labour = o.labour.value if o.labour else F(0)
        done = sum(((s.end - s.start).total_seconds() for s in slots if s.operation == o.id), 0.0)
        persons = crew if o.trade == "tiler" else 1
        # Whole steps of five minutes, rounded up.
        assert labour / persons <= F(done) < labour / persons + 300
        assert [s.last for s in slots if s.operation == o.id].count(True) == 1
    working = [s for s in slots if s.start < s.end]
    for i, a in enumerate(working):
        for b in working[i + 1:]:
            if a.start < b.end and b.start < a.end and a.operation != b.operation:
                one, other = by_id[a.operation], by_id[b.operation]
                assert one.trade != other.trade
                assert one.room is not None and other.room is not None and one.room != other.room
    assert found.finish == max(last.values())


@settings(max_examples=60, deadline=None)
@given(sequences())
def test_never_before_the_critical_path_allows(operations: tuple[Operation, ...]) -> None:
    """The calendar cannot beat a clock that never stops."""
    found = plan(*operations)
    length: dict[str, F] = {}
    for o in operations:
        start = max((length[x.operation] + (x.wait.minimum.value if x.wait else 0) for x in o.after), default=F(0))
        length[o.id] = start + (o.labour.value if o.labour else 0)
    begin = datetime.combine(MONDAY, time(7, 30))
    assert found.finish is not None and (found.finish - begin).total_seconds() >= max(length.values())


@pytest.mark.parametrize("hours", [1, 30])
def test_a_longer_wait_never_ends_the_chain_sooner(hours: int) -> None:
    def chain(wait: int) -> Slot:
        return plan(op("a", 2), op("b", 3, f"a+{wait}"), op("c", 1, "b+4")).days[-1].slots[-1]

    assert chain(hours).end <= chain(hours + 5).end


def test_a_real_sequence_end_to_end() -> None:
    """Every operation of a derived sequence is laid once, after all that it waits for."""
    made: Job = floor_job(surface("floor", "2.4", "1.8", laid(tile()), kind="floor"))
    order = sequence(made, en(), measure(made, en()))
    found = schedule(made, en(), order)
    ends = [s.operation for d in found.days for s in d.slots if s.last]
    assert sorted(ends) == sorted(o.id for o in order.operations)
    assert schedule(made, en(), order) == found
