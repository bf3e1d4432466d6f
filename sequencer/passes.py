"""How many passes of a kerf make a wider cut, and where they go.

Neighbouring passes overlap, because two kerfs that just meet leave a fin when the kerf is thin.
"""

from __future__ import annotations

from fractions import Fraction


def widest(count: int, kerf: Fraction, overlap: Fraction) -> Fraction:
    """The widest cut that `count` passes make.

    >>> widest(2, Fraction(1, 8), Fraction(1, 100))
    Fraction(6, 25)
    """
    return count * kerf - (count - 1) * overlap


def needed(width: Fraction, kerf: Fraction, overlap: Fraction) -> int:
    """The fewest passes for `width`. Raises `ValueError` where the kerf is wider than the cut.

    >>> [needed(Fraction(w), Fraction(1, 8), Fraction(1, 100)) for w in ("1/8", "1/5", "1/4")]
    [1, 2, 3]
    """
    if kerf > width:
        raise ValueError(f"a kerf of {kerf} is wider than the cut of {width}")
    if kerf == width:
        return 1
    count = -((overlap - width) // (kerf - overlap))  # ceil((width - overlap) / (kerf - overlap))
    return max(2, count)


def free_width(near: Fraction, kerf: Fraction, overlap: Fraction, step: Fraction) -> Fraction:
    """The width nearest to `near` that a whole number of passes makes, kept on `step`.

    >>> free_width(Fraction(1, 4), Fraction(1, 8), Fraction(1, 100), Fraction(1, 64))
    Fraction(15, 64)
    """
    counts = range(1, 2 + max(1, int(near / (kerf - overlap))))
    width = min((widest(n, kerf, overlap) for n in counts), key=lambda w: (abs(w - near), w))
    return kerf if width == kerf else max(width // step * step, kerf)


def from_one_face(
    start: Fraction, width: Fraction, kerf: Fraction, count: int
) -> tuple[Fraction, ...]:
    """Guides of all passes, measured from the face that stays against the guide: the two outer
    ones first, then what is left between them.

    >>> from_one_face(Fraction(1, 4), Fraction(1, 4), Fraction(1, 8), 3)
    (Fraction(1, 4), Fraction(3, 8), Fraction(5, 16))
    """
    if count == 1:
        return (start,)
    guides = [start + i * (width - kerf) / (count - 1) for i in range(count)]
    return (guides[0], guides[-1], *guides[1:-1])


def turned(
    thickness: Fraction, width: Fraction, kerf: Fraction, count: int
) -> tuple[tuple[Fraction, bool], ...]:
    """Guides of a centred cut whose piece is turned round between passes, outer ones first; each
    with whether it is cut from both faces.

    >>> turned(Fraction(3, 4), Fraction(1, 4), Fraction(1, 8), 3)
    ((Fraction(1, 4), True), (Fraction(5, 16), False))
    """
    start = (thickness - width) / 2
    if count == 1:
        return ((start, False),)
    step = (width - kerf) / (count - 1)
    pairs = tuple((start + i * step, True) for i in range(count // 2))
    return (*pairs, ((thickness - kerf) / 2, False)) if count % 2 else pairs
