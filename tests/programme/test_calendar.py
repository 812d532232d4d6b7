"""Working days: labour counts on open days only (worked examples P); waits do not ask for them."""

from __future__ import annotations

from datetime import date, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tilespec.programme.calendar import Calendar, Span

# Bank holidays of England in 2026, as worked example P lists them (computed there with a holiday library).
ENGLAND = tuple(date(2026, month, day) for month, day in (
    (1, 1), (4, 3), (4, 6), (5, 4), (5, 25), (8, 31), (12, 25), (12, 26), (12, 28),
))
WEEK = Calendar((0, 1, 2, 3, 4), time(7, 30), time(16, 0), ENGLAND)


def easter(year: int) -> date:
    """Easter Sunday by the anonymous Gregorian algorithm (Meeus): an outside check of the closed days."""
    a, b, c = year % 19, year // 100, year % 100
    h = (19 * a + b - b // 4 - (b - (b + 8) // 25 + 1) // 3 + 15) % 30
    k = (32 + 2 * (b % 4) + 2 * (c // 4) - h - c % 4) % 7
    m = (a + 11 * h + 22 * k) // 451
    month, day = divmod(h + k - 7 * m + 114, 31)
    return date(year, month, day + 1)


def test_easter_2026_is_closed() -> None:
    sunday = easter(2026)
    assert (sunday - timedelta(days=2), sunday + timedelta(days=1)) == (ENGLAND[1], ENGLAND[2])
    assert not any(WEEK.is_open(sunday + timedelta(days=n)) for n in range(-2, 2))


@pytest.mark.parametrize(("start", "days", "wanted"), [
    (date(2026, 4, 2), 1, date(2026, 4, 7)), (date(2026, 5, 1), 5, date(2026, 5, 11)),
    (date(2026, 12, 24), 3, date(2026, 12, 31)),
])
def test_working_days_over_holidays(start: date, days: int, wanted: date) -> None:
    """Worked example P: Thu 2 Apr + 1 is Tue 7 Apr; Fri 1 May + 5 is Mon 11 May; Thu 24 Dec + 3 is Thu 31 Dec."""
    assert WEEK.add_days(start, days) == wanted


def at(month: int, day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2026, month, day, hour, minute)


@pytest.mark.parametrize(("moment", "work", "event"), [
    (at(4, 2, 9), at(4, 2, 9), at(4, 2, 9)),            # in working hours
    (at(4, 2, 5), at(4, 2, 7, 30), at(4, 2, 7, 30)),    # before them
    (at(4, 2, 16), at(4, 7, 7, 30), at(4, 2, 16)),      # at their end: too late to begin, not too late to sign
    (at(4, 2, 17), at(4, 7, 7, 30), at(4, 7, 7, 30)),   # after them
    (at(4, 4, 12), at(4, 7, 7, 30), at(4, 7, 7, 30)),   # on a closed day
])
def test_when_work_can_begin(moment: datetime, work: datetime, event: datetime) -> None:
    assert WEEK.work_from(moment) == work
    assert WEEK.event_from(moment) == event


def test_long_work_goes_on_next_working_day() -> None:
    """Ten hours from Thursday 2 April 2026 at 14:00: two that day, eight on Tuesday after Easter."""
    assert WEEK.spread(at(4, 2, 14), timedelta(hours=10)) == (
        Span(at(4, 2, 14), at(4, 2, 16)), Span(at(4, 7, 7, 30), at(4, 7, 15, 30)),
    )


@given(st.datetimes(datetime(2026, 3, 25), datetime(2026, 5, 30)), st.integers(1, 4000))
def test_spread_loses_no_minute(moment: datetime, minutes: int) -> None:
    spans = WEEK.spread(WEEK.work_from(moment), timedelta(minutes=minutes))
    assert sum((s.end - s.start for s in spans), timedelta(0)) == timedelta(minutes=minutes)
    for s in spans:
        day = WEEK.hours(s.start.date())
        assert WEEK.is_open(s.start.date()) and day.start <= s.start < s.end <= day.end
