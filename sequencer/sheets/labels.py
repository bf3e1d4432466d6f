"""Labels to stick on strips, pieces and offcuts: each goes on the marked face, its wedge at the
inside edge, so that it says which way round the wood lies. Three across, with lines to cut along.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from html import escape

from msgspec import Struct

from sequencer.instructions.figures import Scale
from sequencer.instructions.words import marked_faces
from sequencer.plan import Plan, Size, Stick
from sequencer.sheets.fullsize.paper import Paper, document, line, text, wrapped
from sequencer.wording import Room, for_plan, fullsize
from sequencer.wording.pages import language

_SIZES: dict[Paper, tuple[float, float]] = {"letter": (215.9, 279.4), "a4": (210.0, 297.0)}
_WIDE, _HIGH, _ACROSS = 62.0, 36.0, 3
_TOP = 18.0
_SMALL = 9.5 * 25.4 / 72


class Label(Struct, frozen=True):
    """`mark` is what is read from afar. `left` is the letter of the end at the left, seen on the
    marked face with the inside edge down; empty where the wood has no ends yet."""

    mark: str
    name: str
    size: str
    left: str = ""


def labels_of(plan: Plan, scale: Scale) -> Iterator[Label]:
    """Strip by strip: the strip, its pieces in the order that they come off, its offcut."""
    room = scale.room
    names = {part.mark: room.say(part.name) for part in plan.parts}
    sizes = {part.mark: part.size for part in plan.parts}
    sizes |= {scrap.mark: scrap.size for scrap in plan.scrap}
    inside = {part.mark: part.inside for part in plan.parts}
    faces = marked_faces(plan)
    for stick in plan.sticks:
        yield Label(stick.mark, room.text(fullsize.STRIP), _told(stick.size, scale))
        for piece in stick.pieces:
            hand = inside.get(piece.mark) or piece.end_a
            at_left = (hand == "left") == (faces.get(piece.mark, "face") == "face")
            name = names.get(piece.mark) or room.text(fullsize.TEST)
            said = room.text(fullsize.OF_STRIP, name=name, mark=stick.mark)
            size = _told(sizes[piece.mark], scale)
            yield Label(piece.mark, said, size, "A" if at_left else "B")
        rest = _offcut(stick, sizes)
        if stick.pieces and rest > 0:
            said = room.text(fullsize.OFFCUT, mark=stick.mark)
            size = _told(Size(rest, stick.size.width, stick.size.thickness), scale)
            yield Label(stick.mark, said, size)


def _offcut(stick: Stick, sizes: dict[str, Size]) -> Fraction:
    """About what is left behind the last piece: the kerf is of it."""
    last = stick.pieces[-1] if stick.pieces else None
    return stick.size.length - last.start - sizes[last.mark].length if last else Fraction(0)


def _told(size: Size, scale: Scale) -> str:
    return " × ".join(scale.text(value) for value in (size.length, size.width, size.thickness))


def labels(plan: Plan, paper: Paper) -> str:
    """The pages as one HTML document."""
    room = for_plan(plan)
    wide, high = _SIZES[paper]
    title = room.text(fullsize.LABELS, job=", ".join(plan.jobs))
    down = int((high - _TOP - 8) / _HIGH)
    most = _ACROSS * down
    found = list(labels_of(plan, Scale.of(plan, room)))
    made = []
    for start in range(0, len(found), most):
        shapes = [text(12, 9, title, bold=True)]
        stick = room.text(
            fullsize.STICK, side=room.term("side.marked-face"), edge=room.term("side.inside-edge")
        )
        shapes.append(text(12, 14, stick, size=_SMALL))
        for n, label in enumerate(found[start : start + most]):
            left = (wide - _ACROSS * _WIDE) / 2 + n % _ACROSS * _WIDE
            shapes += _label(label, left, _TOP + n // _ACROSS * _HIGH, room)
        said = (f"{each.mark}: {each.name}, {each.size}" for each in found[start : start + most])
        says = f"{title}. {'; '.join(said)}"
        made.append(
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:g}mm" height="{high:g}mm"'
            f' viewBox="0 0 {wide:g} {high:g}" role="img" aria-label="{escape(says, quote=True)}">'
            f"{''.join(shapes)}</svg>"
        )
    return document(made, (wide, high), title, language(room))


def _label(label: Label, x: float, y: float, room: Room) -> Iterator[str]:
    """The mark, what it is, its size; the wedge in the middle of the lower edge, the ends beside
    it."""
    right, bottom = x + _WIDE, y + _HIGH
    for a, b, c, d in (
        (x, y, right, y),
        (x, bottom, right, bottom),
        (x, y, x, bottom),
        (right, y, right, bottom),
    ):
        yield line(a, b, c, d, width=0.15, dash="1.5 1.5")
    yield text(x + 4, y + 10.5, label.mark, bold=True, size=9)
    for n, words in enumerate(wrapped(label.name, _WIDE - 30, _SMALL)[:2]):
        yield text(x + 26, y + 5.6 + n * 4.2, words, size=_SMALL)
    for n, words in enumerate(wrapped(label.size, _WIDE - 8, _SMALL * 1.1)[:2]):
        yield text(x + 4, y + 17.2 + n * 4.4, words, size=_SMALL * 1.1)
    tip = bottom - 1.5
    yield (f'<path d="M{x + _WIDE / 2:.3f},{tip:.3f}l-2,-5h4Z" fill="#000"/>')
    yield text(x + _WIDE / 2 + 4, tip - 1, room.term("side.inside-edge"), size=_SMALL * 0.9)
    if label.left:
        other = "B" if label.left == "A" else "A"
        for at, letter, anchor in ((x + 3, label.left, "start"), (right - 3, other, "end")):
            yield text(at, tip, letter, anchor=anchor, bold=True, size=6.5)
