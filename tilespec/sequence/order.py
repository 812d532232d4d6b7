"""One working order of the operations: stage, then room, then the order in which a room's steps were derived."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from heapq import heapify, heappop, heappush

Key = tuple[int, int, int]


class Cycle(Exception):
    """Operations that wait for each other. `chain` starts and ends with the same id, each waiting for the one before it."""

    def __init__(self, chain: tuple[str, ...]) -> None:
        super().__init__(" -> ".join(chain))
        self.chain = chain


def order(after: Mapping[str, Iterable[str]], keys: Mapping[str, Key]) -> tuple[str, ...]:
    """A topological order: among the operations that may come next, the one with the smallest key.

    `after` maps every operation to those it waits for. Raises Cycle when there is no such order.
    """
    waiting = {op: set(before) for op, before in after.items()}
    followers: dict[str, list[str]] = {op: [] for op in after}
    for op, before in waiting.items():
        for b in before:
            followers[b].append(op)
    ready = [(keys[op], op) for op, before in waiting.items() if not before]
    heapify(ready)
    result: list[str] = []
    while ready:
        _, op = heappop(ready)
        result.append(op)
        for f in followers[op]:
            waiting[f].discard(op)
            if not waiting[f]:
                heappush(ready, (keys[f], f))
    if len(result) < len(waiting):
        done = set(result)
        raise Cycle(_cycle({op: [b for b in before if b not in done] for op, before in after.items() if op not in done}, keys))
    return tuple(result)


def _cycle(after: Mapping[str, list[str]], keys: Mapping[str, Key]) -> tuple[str, ...]:
    """A shortest cycle through the operation with the smallest key that is on one, so that the message stays short and stable."""
    for start in sorted(after, key=lambda op: (keys[op], op)):
        came: dict[str, str] = {}
        line = [start]
        for op in line:
            for b in sorted(after[op], key=lambda o: (keys[o], o)):
                if b == start:
                    chain = [op]
                    while chain[-1] != start:
                        chain.append(came[chain[-1]])
                    # `chain` runs from the first one that must be done to the start, which waits for it.
                    return (start, *chain)
                if b not in came:
                    came[b] = op
                    line.append(b)
    raise AssertionError("no cycle among operations that wait for each other")
