"""The programme as bar charts: one row a step, one column a day, waits as lines.

Black and white: steps on the critical path are solid, others are outlined; a wait is a dashed line, a hold point a diamond.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta
from html import escape

from tilespec.programme.types import Programme
from tilespec.sequence.types import Operation, Sequence

# Millimetres on paper.
_WIDTH, _LABELS, _HEAD, _ROW, _FOOT = 180.0, 58.0, 9.0, 3.7, 9.0
_TEXT = 2.55  # a little more than 7 pt
_ROWS = 56  # one page


def bar_charts(sequence: Sequence, programme: Programme) -> tuple[str, ...]:
    """SVG texts, each for one page; none for a programme without days."""
    if not programme.days:
        return ()
    operations = [(i, op) for i, op in enumerate(sequence.operations, 1)]
    return tuple(_chart(operations[at : at + _ROWS], programme) for at in range(0, len(operations), _ROWS))


def _mm(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


class _Axis:
    """From a moment to millimetres: working hours fill the column of their day."""

    def __init__(self, programme: Programme) -> None:
        slots = [s for d in programme.days for s in d.slots]
        self.first = programme.days[0].on
        ends = [programme.days[-1].on, *([programme.finish.date()] if programme.finish else [])]
        self.count = (max(ends) - self.first).days + 1
        self.column = (_WIDTH - _LABELS) / self.count
        self.opens = min((s.start.hour + s.start.minute / 60 for s in slots), default=7.0)
        self.closes = max((s.end.hour + s.end.minute / 60 for s in slots), default=16.0)

    def x(self, at: datetime) -> float:
        hour = at.hour + at.minute / 60
        share = (hour - self.opens) / max(self.closes - self.opens, 0.5)
        return self.left(at.date()) + self.column * min(max(share, 0.0), 1.0)

    def left(self, on: date) -> float:
        return _LABELS + self.column * min(max((on - self.first).days, 0), self.count)


def _chart(operations: list[tuple[int, Operation]], programme: Programme) -> str:
    axis = _Axis(programme)
    height = _HEAD + _ROW * len(operations) + _FOOT
    top = {op.id: _HEAD + _ROW * i for i, (_, op) in enumerate(operations)}
    solid: list[str] = []
    hollow: list[str] = []
    waits: list[str] = []
    holds: list[str] = []
    for day in programme.days:
        for slot in day.slots:
            if slot.operation not in top:
                continue
            x, y = axis.x(slot.start), top[slot.operation] + 0.8
            width = max(axis.x(slot.end) - x, 0.7)
            target = solid if slot.operation in programme.critical else hollow
            target.append(f"M{_mm(x)} {_mm(y)}h{_mm(width)}v{_mm(_ROW - 1.6)}h-{_mm(width)}z")
    for pause in programme.pauses:
        if pause.after in top:
            y = top[pause.after] + _ROW / 2
            waits.append(f"M{_mm(axis.x(pause.start))} {_mm(y)}H{_mm(axis.x(pause.until))}")
    starts = {s.operation: s.start for d in reversed(programme.days) for s in reversed(d.slots)}
    for _, op in operations:
        if op.point is not None and op.point.kind == "hold" and op.id in starts:
            x, y = axis.x(starts[op.id]) - 1.6, top[op.id] + _ROW / 2
            holds.append(f"M{_mm(x - 1.2)} {_mm(y)}l1.2 -1.2l1.2 1.2l-1.2 1.2z")
    bottom = _HEAD + _ROW * len(operations)
    grid = "".join(f"M{_mm(_LABELS + axis.column * i)} {_mm(_HEAD)}V{_mm(bottom)}" for i in range(axis.count + 1))
    rows = "".join(f"M0 {_mm(_HEAD + _ROW * i)}H{_mm(_WIDTH)}" for i in range(len(operations) + 1))
    closed = "".join(
        f"M{_mm(axis.left(on))} {_mm(_HEAD)}h{_mm(axis.column)}V{_mm(bottom)}h-{_mm(axis.column)}z"
        for on in _days(axis)
        if on not in {d.on for d in programme.days}
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_mm(_WIDTH)}mm" height="{_mm(height)}mm" '
        f'viewBox="0 0 {_mm(_WIDTH)} {_mm(height)}" '
        f'font-family="Tilespec Sans, DejaVu Sans, sans-serif" font-size="{_TEXT}">'
        f'<path d="{closed}" fill="#ddd"/>'
        f'<path d="{rows}{grid}" fill="none" stroke="#aaa" stroke-width="0.1"/>'
        f'<path d="{"".join(waits)}" fill="none" stroke="#000" stroke-width="0.3" stroke-dasharray="0.9 0.6"/>'
        f'<path d="{"".join(hollow)}" fill="#fff" stroke="#000" stroke-width="0.25"/>'
        f'<path d="{"".join(solid)}" fill="#000" stroke="#000" stroke-width="0.25"/>'
        f'<path d="{"".join(holds)}" fill="#000"/>'
        f"{''.join(_head(axis, programme))}{''.join(_labels(operations))}{_legend(bottom)}</svg>"
    )


def _days(axis: _Axis) -> list[date]:
    return [axis.first + timedelta(days=i) for i in range(axis.count)]


def _head(axis: _Axis, programme: Programme) -> list[str]:
    numbers = {d.on: d.number for d in programme.days}
    step = max(1, -(-int(5.2 * 100) // max(int(axis.column * 100), 1)))
    texts = []
    for i, on in enumerate(_days(axis)):
        if i % step:
            continue
        x = axis.left(on) + 0.3
        if programme.dated:
            texts.append(_text(x, 3.2, ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")[on.weekday()]))
            texts.append(_text(x, 6.8, f"{on.month}-{on.day}"))
        elif on in numbers:
            texts.append(_text(x, 6.8, str(numbers[on])))
    return texts


def _labels(operations: list[tuple[int, Operation]]) -> list[str]:
    texts = []
    for i, (number, op) in enumerate(operations):
        name = op.title.text if op.title else op.kind.replace("-", " ")
        label = f"{number} {name}"
        texts.append(_text(0, _HEAD + _ROW * i + 2.8, label if len(label) <= 38 else label[:37] + "…"))
    return texts


def _legend(bottom: float) -> str:
    y = bottom + 3.2
    return (
        f'<path d="M0 {_mm(y)}h6v2.4h-6z" fill="#000"/>{_text(7, y + 2.2, "critical: a delay here delays the hand-over")}'
        f'<path d="M68 {_mm(y)}h6v2.4h-6z" fill="#fff" stroke="#000" stroke-width="0.25"/>{_text(75, y + 2.2, "other work")}'
        f'<path d="M98 {_mm(y + 1.2)}h8" stroke="#000" stroke-width="0.3" stroke-dasharray="0.9 0.6"/>'
        f"{_text(107, y + 2.2, 'wait')}"
        f'<path d="M120 {_mm(y + 1.2)}l1.2 -1.2l1.2 1.2l-1.2 1.2z"/>{_text(124, y + 2.2, "hold point")}'
        f'<path d="M146 {_mm(y)}h6v2.4h-6z" fill="#ddd"/>{_text(153, y + 2.2, "no work")}'
    )


def _text(x: float, y: float, words: str) -> str:
    return f'<text x="{_mm(x)}" y="{_mm(y)}">{escape(words)}</text>'
