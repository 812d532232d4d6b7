"""Working hours: which moments are working time, and how a piece of work spreads over days."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta

from tilespec.job.types import Hours

ONE_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Span:
    """From `start` to `end`, on one day."""

    start: datetime
    end: datetime


@dataclass(frozen=True, slots=True)
class Calendar:
    """Working days of the week with their hours, less closed days. No time zone: site time."""

    days: tuple[int, ...]           # 0 = Monday
    opens: time
    closes: time
    closed: tuple[date, ...] = ()

    def is_open(self, on: date) -> bool:
        return on.weekday() in self.days and on not in self.closed

    def hours(self, on: date) -> Span:
        return Span(datetime.combine(on, self.opens), datetime.combine(on, self.closes))

    def open_day(self, on: date) -> date:
        """This day if it is a working day, else the next one."""
        while not self.is_open(on):
            on += ONE_DAY
        return on

    def next_day(self, at: datetime) -> datetime:
        """Start of work on the working day after this moment's day."""
        return self.hours(self.open_day(at.date() + ONE_DAY)).start

    def add_days(self, on: date, number: int) -> date:
        """So many working days later."""
        for _ in range(number):
            on = self.open_day(on + ONE_DAY)
        return on

    def work_from(self, at: datetime) -> datetime:
        """The earliest moment from here on at which work can begin."""
        day = self.hours(self.open_day(at.date()))
        if at.date() == day.start.date() and at >= day.end:
            return self.next_day(at)
        return max(at, day.start)

    def event_from(self, at: datetime) -> datetime:
        """The earliest moment from here on for something that takes no time: the end of the day still counts."""
        day = self.hours(self.open_day(at.date()))
        if at.date() == day.start.date() and at > day.end:
            return self.next_day(at)
        return max(at, day.start)

    def left(self, at: datetime) -> timedelta:
        """Working time left on the day, from a moment within working hours."""
        return self.hours(at.date()).end - at

    def spread(self, start: datetime, length: timedelta) -> tuple[Span, ...]:
        """Work of some length from a working moment on, cut at the end of each day."""
        spans: list[Span] = []
        at, rest = start, length
        while True:
            done = min(rest, self.left(at))
            spans.append(Span(at, at + done))
            rest -= done
            if not rest:
                return tuple(spans)
            at = self.next_day(at)


def calendar(hours: Hours, closed: tuple[date, ...]) -> Calendar:
    return Calendar(hours.days, hours.start, hours.end, closed)
