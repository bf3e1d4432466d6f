"""What is advised of a file's faults, tried: the file is changed as the hint says and read again.

A hint whose figures do not mend its fault is not given; where other figures near them do, those
are, and so is a line that is to be written elsewhere than where the fault is shown. A hint that has
one write nothing, such as to check the unit, is no remedy, and stays.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction

from sequencer.batch import read_batch
from sequencer.errors import Fault, InputError, SequencerError
from sequencer.facts import Fact, Kind, Length, doors, files, shapes
from sequencer.facts import offers as told
from sequencer.job.defaults import lengths
from sequencer.job.document import Document, read_document
from sequencer.job.edit import Edit, edited, line_of, own_or_shared
from sequencer.job.schema import Job, Shop
from sequencer.lengths import LengthError, Unit, convert, parse
from sequencer.records import replace
from sequencer.remedies import Remedy, spelt

Texts = Mapping[str, str]
Plans = Callable[[Sequence[Job], Shop], object]

MOST = 12
"""Faults whose hints are tried; of so many the first are mended first."""
_LEAVES_OUT: Mapping[Kind, str] = {
    doors.LEAVE_OUT: "", doors.LEAVE_LINE_OUT: "", doors.LEAVE_ONE_OUT: "", doors.GIVE_SIZE: "",
    doors.OVERLAY_OR_NOT: "", doors.THINNER_BLADE: "", shapes.LEAVE_SHAPE_OUT: "",
    doors.IN_LINE_WITH_SLOT: "joint.slot", doors.GROOVE_TO_SUIT: "groove.width",
}  # fmt: skip
"""Hints that say to leave a key out, or that this is one way; empty for the fault's own."""
_FURTHER: Mapping[Unit, tuple[Fraction, ...]] = {
    "in": tuple(Fraction(n, 64) for n in (1, 2, 4, 8, 16, 32, 64)),
    "mm": tuple(Fraction(n, 10) for n in (1, 5, 10, 20, 50, 100, 250)),
}

DESIGNED = ("stiles", "rails", "groove", "panel", "joint", "gaps", "sits", "meeting", "shape",
            "raised", "boarded", "glass")  # fmt: skip
"""Tables whose values somebody chose, and may choose otherwise. What was measured is as it is: no
hint would have it changed so that it passes."""
MEASURED = ("glass.thickness",)


def tried(
    error: InputError, names: Sequence[str], shop: str | None, texts: Texts, plans: Plans | None,
    enough: Callable[[], bool],
) -> tuple[InputError, Remedy | None]:  # fmt: skip
    """The faults with hints that were tried, and the first remedy that leaves none: where it can be
    told by `plans`, one that plans."""
    faults: list[Fault] = []
    whole: Remedy | None = None
    for number, fault in enumerate(error.faults):
        if number >= MOST or enough():
            faults.append(fault)
            continue
        mended, good = _try(fault, error, names, shop, texts, plans, enough)
        faults.append(mended)
        whole = whole or good
    if whole is None and len(error.faults) > 1:
        whole = _one_by_one(error, names, shop, texts, plans, enough)
    return InputError(tuple(faults), error.words), whole


def _one_by_one(
    error: InputError, names: Sequence[str], shop: str | None, texts: Texts, plans: Plans | None,
    enough: Callable[[], bool],
) -> Remedy | None:  # fmt: skip
    """Changes that mend one fault after the other, until none is left; `None` where one stays, or
    where more than one file is to be changed."""
    made: list[Edit] = []
    file = error.faults[0].file
    left: Sequence[Fault] = error.faults
    while left:
        fault = left[0]
        before, text = left, texts[fault.file]
        for edit, _ in _edits(fault, text) if fault.file == file and len(made) < MOST else ():
            changed = edited(text, (edit,))
            if enough() or changed is None:
                continue
            after = _left({**texts, file: changed}, names, shop, plans)
            if after is not None and _gone(after, InputError(tuple(left)), fault):
                texts, left = {**texts, file: changed}, after
                made.append(edit)
                break
        if left is before:
            return None
    return Remedy(file, tuple(made))


def _try(
    fault: Fault, error: InputError, names: Sequence[str], shop: str | None, texts: Texts,
    plans: Plans | None, enough: Callable[[], bool],
) -> tuple[Fault, Remedy | None]:  # fmt: skip
    def left(edit: Edit) -> Sequence[Fault] | None:
        """The faults that stay, so changed; `None` where this one does, or it cannot be changed
        so."""
        made = edited(texts[fault.file], (edit,))
        faults = None
        if made is not None:
            faults = _left({**texts, fault.file: made}, names, shop, plans)
        return faults if faults is not None and _gone(faults, error, fault) else None

    edits = list(_edits(fault, texts.get(fault.file, "")))
    if not edits:
        return fault, None
    for edit, beside in edits:
        if enough():
            return fault, None
        stay = left(edit)
        if stay is None:
            continue
        remedy = Remedy(fault.file, (edit,))
        hint = fault.hint
        if beside is None or any(left(other) is None for other in beside):
            kind = told.WOULD_DO if plans is None or stay else told.TRIED
            hint = kind(each=remedy.says(texts))
        return replace(fault, hint=hint), None if stay else remedy
    return replace(fault, hint=None), None


def _gone(left: Sequence[Fault], error: InputError, fault: Fault) -> bool:
    """Whether the fault is gone, and no other has come of its key. What comes of other keys was
    hidden by it."""

    def of_it(faults: Sequence[Fault]) -> int:
        return sum(
            (each.file, each.line, each.key) == (fault.file, fault.line, fault.key)
            for each in faults
        )

    same = [(each.file, each.message.kind, each.key) for each in left]
    return of_it(left) < of_it(error.faults) and same.count(
        (fault.file, fault.message.kind, fault.key)
    ) < sum(
        (each.message.kind, each.key) == (fault.message.kind, fault.key) for each in error.faults
    )


def _left(
    texts: Texts, names: Sequence[str], shop: str | None, plans: Plans | None
) -> Sequence[Fault] | None:
    """The faults of the batch so changed; `None` where it is refused for another reason."""
    try:
        jobs, tools = read_batch(names, shop, texts.__getitem__)
        if plans is not None:
            plans(jobs, tools)
    except InputError as error:
        return error.faults
    except SequencerError:
        return None
    return ()


_Tried = tuple[Edit, tuple[Edit, ...] | None]
"""A change to be tried, and what else the hint offers beside it: where all of it would do, the
hint's own words are right. `None`: they do not say this change, or not where it is made."""


def _edits(fault: Fault, text: str) -> Iterator[_Tried]:
    """What the hint has one write at the fault's key or beside it, each once, as it says it first.
    Where that will not do, or where the hint says so, that the key is left out. Of a hint that has
    one write nothing, nothing."""
    if fault.hint is None or not fault.key or not text:
        return
    try:
        document = read_document(text, fault.file)
    except InputError:
        return
    place = _place(document, fault)
    if place is None:
        return
    seen: set[Edit] = set()
    for edit, beside in (
        *_lines(fault.hint, document, place),
        *_values(fault.hint, document, place),
    ):
        if edit not in seen:
            seen.add(edit)
            yield edit, beside
    for edit in _left_out(fault.hint, document, place):
        yield edit, ()
    if seen and document.get(place.path) is not None:
        yield replace(place, value=None), None


def _left_out(hint: Fact, document: Document, place: Edit) -> Iterator[Edit]:
    """What the hint says to leave out, where it stands."""
    key = _LEAVES_OUT.get(hint.kind)
    if key is None:
        return
    table, _, name = key.partition(".")
    stands = _places(document, place, table, name) if key else [place]
    for edit in dict.fromkeys(stands):
        if document.get(edit.path) is not None:
            yield replace(edit, value=None)


def _lines(hint: Fact, document: Document, place: Edit) -> Iterator[_Tried]:
    """The lines that the hint has one write, wherever that may be."""
    made = [
        replace(edit, value=value)
        for table, key, value in _written(hint, place.table)
        for edit in _places(document, place, table, key)
    ]
    shown = document.get(place.path) is not None and hint.kind is not doors.WRITE_UNDER
    # A key that is dotted, or in braces, is not written as the hint has it.
    plain = shown and line_of(document, place.path).text.startswith(place.key)
    here = [edit for edit in made if plain and edit.path[:-1] == place.path[:-1]]
    for edit in made:
        beside = tuple(other for other in here if other != edit)
        yield edit, beside if edit in here else None


def _places(document: Document, place: Edit, table: str, key: str) -> Iterator[Edit]:
    """Where a door's key may be written, whose fault is at `place`: where it stands now, then under
    each door that may be meant."""
    numbers = range(document.doors) if place.door is None else (place.door,)
    yield from dict.fromkeys(own_or_shared(document, table, key, number) for number in numbers)
    yield from (Edit(table, key, "", number) for number in numbers)


def _place(document: Document, fault: Fault) -> Edit | None:
    """Where the key stands, or would stand: in the file's table or under the door of that line."""
    table, _, name = fault.key.rpartition(".")
    if table not in DESIGNED or fault.key in MEASURED:
        return None
    for path in ((table, name), *(("door", n, table, name) for n in range(document.doors))):
        if path in document.spots and document.place(path).line == fault.line:
            return Edit(table, name, "", path[1] if isinstance(path[1], int) else None)
    lines = [document.place(("door", number)).line for number in range(document.doors)]
    before = [number for number, line in enumerate(lines) if line <= fault.line]
    return Edit(table, name, "", before[-1]) if before else None


def _values(hint: Fact, document: Document, place: Edit) -> Iterator[_Tried]:
    """The hint's lengths, and others near them. Its words are right where the first will do."""
    own = document.unit

    def put(amount: Fraction, up: bool, key: str = place.key) -> Edit:
        return replace(place, key=key, value=spelt(amount, own, up=up))

    named = hint.given.get("key")
    key = named if isinstance(named, str) else place.key
    now = _now(document, place, f"{place.table}.{place.key}", own)
    found = [each for each in _lengths(hint) if each.value >= 0]
    amounts = [convert(each.value, each.unit, own) for each in found]
    for number, amount in enumerate(amounts):
        for up in (True, False):
            yield put(amount, up, key), None if number else ()
    if now is None:
        return
    for amount in amounts[:1]:
        # A little further than it says, the same way.
        way = 1 if amount > now else -1
        for more in _FURTHER[own]:
            if amount + way * more > 0:
                yield put(amount + way * more, way > 0, key), None
    for amount in amounts:
        for changed, up in ((now - amount, False), (now + amount, True)):
            if changed > 0:
                yield put(changed, up), None


def _now(document: Document, place: Edit, key: str, own: Unit) -> Fraction | None:
    """What the key is now: as it stands, or by default."""
    written = document.get(place.path)
    if written is None:
        return lengths(own).get(key)
    try:
        return parse(str(written), own)
    except LengthError:
        return None


def _written(hint: Fact, table: str) -> Iterator[tuple[str, str, str]]:
    """Lines that the hint has one write, as table, key and value; under `table` where it names no
    other."""
    lines: list[str] = []
    if hint.kind in (files.WRITE, files.DID_YOU_MEAN):
        lines.append(str(next(iter(hint.values))))
    if hint.kind is doors.WRITE_UNDER:
        table = str(hint.given["table"]).removeprefix("door.")
        lines.append(str(hint.given["line"]))
    for value in hint.values:
        if isinstance(value, tuple):
            lines += [each for each in value if isinstance(each, str) and "=" in each]
    for line in lines:
        key, equals, value = (part.strip() for part in line.partition("="))
        if equals and value[:1] == '"' and "…" not in value:
            yield table, key, value.strip('"')


def _lengths(fact: Fact) -> Iterator[Length]:
    for value in fact.values:
        if isinstance(value, Length):
            yield value
