"""Outlines and lines in few strokes, by their ends as they are written: what lies side by side has
one outline, and lines that meet are drawn on without a stop."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence


def outlines(loops: Iterable[Sequence[str]]) -> list[list[str]]:
    """Outlines of loops that all go round the same way, without the sides where one lies beside
    another. By the rule that what is gone round is filled, they fill what the loops fill: a side
    and its opposite take each other away in that count.

    >>> outlines([["0,0", "1,0", "1,1", "0,1"], ["1,0", "2,0", "2,1", "1,1"]])
    [['0,0', '1,0', '2,0', '2,1', '1,1', '0,1']]
    """
    count: Counter[tuple[str, str]] = Counter()
    for loop in loops:
        for a, b in zip(loop, [*loop[1:], loop[0]], strict=True):
            if a == b:
                continue
            if count[b, a]:
                count[b, a] -= 1
            else:
                count[a, b] += 1
    after: dict[str, list[str]] = defaultdict(list)
    for a, b in count.elements():
        after[a].append(b)
    found = []
    for start in list(after):
        while after[start]:  # as many sides leave a corner as come to it: each way leads back
            around = [start]
            while (corner := after[around[-1]].pop()) != start:
                around.append(corner)
            found.append(around)
    return found


def strokes(lines: Iterable[tuple[str, str]]) -> list[list[str]]:
    """Lines, each once, joined where they meet.

    >>> strokes([("0,0", "1,0"), ("1,0", "1,1"), ("1,0", "0,0"), ("5,5", "6,6")])
    [['0,0', '1,0', '1,1'], ['5,5', '6,6']]
    """
    ends: dict[str, dict[str, None]] = defaultdict(dict)
    for a, b in lines:
        ends[a][b] = ends[b][a] = None
    found = []
    for start in (*(end for end in ends if len(ends[end]) % 2), *ends):
        while ends[start]:
            chain = [start]
            while ends[chain[-1]]:
                here = chain[-1]
                there = next(iter(ends[here]))
                del ends[here][there]
                ends[there].pop(here, None)
                chain.append(there)
            found.append(chain)
    return found
