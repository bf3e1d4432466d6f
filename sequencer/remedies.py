"""What would do instead of a job that is refused: changes of one or two of its values, each tried
by planning the job so changed. Only what was planned is told.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.batch import read_batch
from sequencer.errors import Refusal, SequencerError
from sequencer.facts import Fact, Kind, Length, cautions, files, nested, parts, refusals, sequences
from sequencer.facts import offers as told
from sequencer.job.document import Document, read_document
from sequencer.job.edit import Edit, Line, edited, in_braces, line_of, own_or_shared
from sequencer.job.kinds import Boarded, Raised
from sequencer.job.schema import Door, Job, Shop
from sequencer.lengths import Unit, convert, mixed
from sequencer.records import replace

Texts = Mapping[str, str]
"""The texts of the files of a batch, by their names."""

MOST = 3
"""Remedies that are told."""

_FINEST: Mapping[Unit, Fraction] = {"in": Fraction(1, 64), "mm": Fraction(1, 10)}
_STEP: Mapping[Unit, Fraction] = {"in": Fraction(1, 16), "mm": Fraction(1)}


class Remedy(Struct, frozen=True):
    """Changes of one file that were tried together."""

    file: str
    edits: tuple[Edit, ...]

    def says(self, texts: Texts) -> Fact:
        """What to write, exactly as the file so changed has it, and what to leave out of what it
        has now."""
        text, each = texts[self.file], []
        for edit in self.edits:
            made = edited(text, (edit,))
            assert made is not None
            now, then = (read_document(one, self.file) for one in (text, made))
            if edit.value is not None:
                line = line_of(then, edit.path)
                each.append(_placed_at(_WRITE, edit, line, then, text=line.text))
            elif now.get(edit.path) is not None and in_braces(now, edit.path):
                line = line_of(then, edit.path[:-1])
                each.append(_placed_at(_WRITE, edit, line, then, text=line.text))
            elif now.get(edit.path) is not None:
                line = line_of(now, edit.path)
                each.append(_placed_at(_LEAVE_OUT, edit, line, now, key=line.key))
            text = made
        return told.BOTH(each=tuple(each))

    def text(self, texts: Texts) -> str:
        """The file's text so changed."""
        made = edited(texts[self.file], self.edits)
        assert made is not None
        return made


_WRITE = (files.WRITE, files.WRITE_UNDER, told.WRITE_OF_DOOR)
_LEAVE_OUT = (told.TAKE_LINE_OUT, told.TAKE_OUT, told.TAKE_OUT_OF_DOOR)
"""How it is said of a line under no header, under one, and under one that several doors have."""


def _placed_at(
    kinds: tuple[Kind, Kind, Kind], edit: Edit, line: Line, document: Document, **what: str
) -> Fact:
    alone, under, of_door = kinds
    if not line.header:
        return alone(**what)
    number = _number(edit, document)
    if number is None:
        return under(**what, table=line.header)
    return of_door(**what, table=line.header, n=number)


def _number(edit: Edit, document: Document) -> int | None:
    """Of the edit's door, where it is one of several."""
    return edit.door + 1 if edit.door is not None and document.doors > 1 else None


def remedies(
    error: Refusal,
    jobs: Sequence[Job],
    shop: str | None,
    texts: Texts,
    plans: Callable[[Sequence[Job], Shop], object],
    enough: Callable[[], bool],
) -> tuple[Remedy, ...]:
    """What was tried with success, the likeliest first, until there is `enough`. `plans` plans
    jobs, or raises what it must."""
    found: list[Remedy] = []
    for remedy in _likely(error, jobs, texts):
        if enough() or len(found) == MOST:
            break
        made = edited(texts[remedy.file], remedy.edits)
        if made is None or made == texts[remedy.file]:
            continue
        changed = {**texts, remedy.file: made}
        try:
            batch, tools = read_batch([job.file for job in jobs], shop, changed.__getitem__)
            plans(batch, tools)
        except SequencerError:
            continue
        found.append(remedy)
    return tuple(found)


def _likely(error: Refusal, jobs: Sequence[Job], texts: Texts) -> Iterator[Remedy]:
    """What the refusal's own figures ask for, then what helps most doors; each once."""
    seen: set[tuple[str, tuple[Edit, ...]]] = set()
    documents = {job.file: read_document(texts[job.file], job.file) for job in jobs if job.doors}
    for job, number, door in _refused(error, jobs):
        document = documents[job.file]
        own = document.unit  # which is not the batch's where an earlier file has another
        for changes in (*_own(error, job, door, own), *_usual(door, job, own)):
            edits = tuple(_placed(change, document, number) for change in changes)
            if (job.file, edits) not in seen:
                seen.add((job.file, edits))
                yield Remedy(job.file, edits)


def _refused(error: Refusal, jobs: Sequence[Job]) -> Iterator[tuple[Job, int, Door]]:
    """The doors that it may be about, with their numbers in their files: those that it names, else
    all that differ."""
    named = [
        str(fact.given["where"]) for fact in _all(error) if "where" in fact.given
    ]  # fmt: skip
    for job in jobs:
        places = list(dict.fromkeys(door.where for door in job.doors))
        for number, place in enumerate(places):
            if not named or place in named:
                yield job, number, next(door for door in job.doors if door.where == place)


def _all(error: Refusal) -> Iterator[Fact]:
    """All that it says, and the facts inside."""
    return (each for each in nested(error.says) if isinstance(each, Fact))


class Put(Struct, frozen=True):
    """A key, and what it is to be, as the file has it; `None` for gone."""

    key: str
    value: str | None


def _placed(change: Put, document: Document, number: int) -> Edit:
    table, _, key = change.key.partition(".")
    return replace(own_or_shared(document, table, key, number), value=change.value)


def _own(error: Refusal, job: Job, door: Door, own: Unit) -> Iterator[tuple[Put, ...]]:
    for fact in _all(error):
        for changes in _MENDS.get(fact.kind, ()):
            yield from _filled(changes, fact, job.unit, own)
        if fact.kind is parts.MITRE_WIDTHS_DIFFER:
            width = spelt(convert(door.hinge_stile, job.unit, own), own, up=True)
            keys = [key for key in ("stiles.lock", "stiles.meeting", "rails.bottom")
                    if key in door.places]  # fmt: skip
            yield tuple(Put(key, width) for key in ("rails.top", *keys))


def _filled(
    changes: Sequence[tuple[str, str | None]], fact: Fact, unit: Unit, own: Unit
) -> Iterator[tuple[Put, ...]]:
    """The changes with the fact's lengths, rounded down and up to what is easily written. A value
    that begins with `=` names a parameter."""
    names = [value[1:] for _, value in changes if value is not None and value.startswith("=")]
    lengths = [fact.given.get(name) for name in names]
    if not all(isinstance(length, Length) for length in lengths):
        return
    for up in (False, True) if names else (False,):
        made: list[Put] = []
        for key, value in changes:
            if value is None or not value.startswith("="):
                made.append(Put(key, value))
                continue
            length = fact.given[value[1:]]
            assert isinstance(length, Length)
            made.append(Put(key, spelt(convert(length.value, unit, own), own, up=up)))
        yield tuple(made)


def spelt(value: Fraction, unit: Unit, *, up: bool) -> str:
    """A length that is easily written and no more, or no less, than the value.

    >>> spelt(Fraction(17, 100), "in", up=True), spelt(Fraction(171, 10), "mm", up=False)
    ('11/64', '17.1')
    """
    step = _FINEST[unit]
    whole = -(-value // step) if up else value // step
    rounded = whole * step
    if unit == "in":
        return mixed(rounded)
    return f"{float(rounded):.1f}".removesuffix(".0")


def _usual(door: Door, job: Job, own: Unit) -> Iterator[tuple[Put, ...]]:
    """What helps whatever the refusal: other joints, no figures of one's own, a little more or
    less of each width and depth."""
    if door.slab is not None:
        yield (Put("slab.boards", None),)
        return
    for key, value in (
        ("joint.kind", "bridle"), ("joint.kind", "stub tenon"), ("joint.bars", "T-bridle"),
        ("joint.bars", "stub tenon"),
    ):  # fmt: skip
        stated = door.joint.kind if key == "joint.kind" else door.joint.bars
        if stated != value and (key == "joint.kind" or door.bars):
            yield (Put(key, value),)
    for keys in (("joint.slot",), ("joint.offset", "groove.offset"), ("groove.width",),
                 ("panel.thickness",), ("joint.slot", "joint.offset")):  # fmt: skip
        there = tuple(Put(key, None) for key in keys if key in door.places)
        if there:
            yield there
    for key, now in (
        ("groove.depth", door.groove.depth),
        ("rails.top", door.top_rail),
        ("rails.bottom", door.bottom_rail),
        ("stiles.hinge", door.hinge_stile),
        ("panel.thickness", door.panel.thickness),
        *_of_fill(door),
    ):
        if now is None:
            continue
        step = _STEP[own]
        size = convert(now, job.unit, own)
        for more in (1, -1, 2, -2, 4, -4, 8):
            changed = size + more * step
            if changed > step:
                yield (Put(key, spelt(changed, own, up=more > 0)),)


def _of_fill(door: Door) -> Iterator[tuple[str, Fraction | None]]:
    match door.fill:
        case Raised() as raised:
            yield "raised.bevel", raised.bevel
            yield "raised.step", raised.step
        case Boarded() as boarded:
            yield "boarded.width", boarded.width
    if door.shape is not None:
        yield "shape.rise", door.shape.rise


_BRIDLE = ("joint.kind", "bridle")
_MENDS: Mapping[Kind, tuple[tuple[tuple[str, str | None], ...], ...]] = {
    parts.LAP_HAS_NO_OFFSET: ((("joint.offset", None),), (_BRIDLE,)),
    parts.LAP_TOO_THIN: (
        (("joint.slot", None),), (("joint.slot", "=most"),), (("joint.slot", "=wall"),),
    ),
    parts.LAP_GROOVE_IN_FRONT: ((("groove.offset", None),),),
    parts.LAP_GROOVE_TOO_WIDE: (
        (("groove.width", "=most"),), (("panel.thickness", None),),
        (("panel.thickness", "=most"),), (_BRIDLE,),
    ),
    parts.MITRE_NOT_TRIMMED: (
        (("joint.slot", "=groove"),),
        (("joint.slot", "=groove"), ("joint.offset", None), ("groove.offset", None)),
        (_BRIDLE,),
    ),
    parts.MITRE_WIDTHS_DIFFER: ((_BRIDLE,),),
    parts.STUB_IN_GLASS: ((_BRIDLE,),),
    parts.STUB_TOO_SHORT: ((_BRIDLE,),),
    parts.STUB_HAS_NO_SLOT: ((("joint.slot", None), ("joint.offset", None)), (_BRIDLE,)),
    parts.STUB_BAR_IN_GLASS: ((("joint.bars", "T-bridle"),),),
    parts.BAR_IN_LAPS: ((("joint.bars", "stub tenon"),), (_BRIDLE,)),
    parts.BAR_OFF_GROOVE: ((("joint.bars", "stub tenon"),),),
    parts.GROOVE_OUTSIDE_SLOT: (
        (("joint.slot", "=groove"),),
        (("joint.slot", "=groove"), ("joint.offset", None), ("groove.offset", None)),
        (("joint.slot", None), ("groove.offset", None)),
    ),
    parts.BOARD_TOO_THIN: ((("panel.thickness", "=enough"),),),
    parts.STEP_TOO_HIGH: ((("raised.step", "=most"),),),
    parts.PANEL_EDGE_TOO_THIN: ((("raised.bevel", "=wider"),),),
    sequences.HOUSINGS_MEET: ((("joint.bars", "stub tenon"),),),
    sequences.TENON_TOO_SHORT: ((_BRIDLE,),),
    refusals.KERF_TOO_WIDE: (
        (("joint.slot", "=kerf"),), (("groove.width", "=kerf"),), (("panel.thickness", None),),
    ),
    cautions.E02_TALLEST: ((("joint.kind", "stub tenon"),),),
}  # fmt: skip
"""What a refusal's own figures ask for; of several changes in one row all are made."""
