"""What is advised of a file's faults, tried: the file is changed as the hint says and read again.

A hint whose figures do not mend its fault is not given; where other figures near them do, those
are. A hint that changes no value, such as to check the unit, is no remedy, and stays.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from fractions import Fraction

from sequencer.batch import read_batch
from sequencer.errors import Fault, InputError, SequencerError
from sequencer.facts import Fact, Length, files
from sequencer.facts import offers as told
from sequencer.job.defaults import lengths
from sequencer.job.document import Document, read_document
from sequencer.job.edit import Edit, edited
from sequencer.job.schema import Job, Shop
from sequencer.lengths import LengthError, Unit, convert, parse
from sequencer.records import replace
from sequencer.remedies import Remedy, spelt

Texts = Mapping[str, str]
Plans = Callable[[Sequence[Job], Shop], object]

MOST = 12
"""Faults whose hints are tried; of so many the first are mended first."""
_TWO_WAYS = 2
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
        for edit in _edits(fault, text) if fault.file == file and len(made) < MOST else ():
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
    edits = list(_edits(fault, texts.get(fault.file, "")))
    if not edits:
        return fault, None
    for number, edit in enumerate(edits):
        if enough():
            return fault, None
        made = edited(texts[fault.file], (edit,))
        if made is None:
            continue
        left = _left({**texts, fault.file: made}, names, shop, plans)
        if left is None or not _gone(left, error, fault):
            continue
        remedy = Remedy(fault.file, (edit,))
        kind = told.WOULD_DO if plans is None or left else told.TRIED
        hint = fault.hint if number < _TWO_WAYS else kind(each=remedy.says(texts))
        return replace(fault, hint=hint), remedy if not left else None
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


def _edits(fault: Fault, text: str) -> Iterator[Edit]:
    """What the hint has one write at the fault's key, each once, as it says it first."""
    if fault.hint is None or not fault.key or not text:
        return
    try:
        document = read_document(text, fault.file)
    except InputError:
        return
    place = _place(document, fault)
    if place is None:
        return
    seen: set[str] = set()
    for key, value in _values(fault, document, place, document.unit):
        table, _, name = key.rpartition(".")
        if f"{key} {value}" not in seen:
            seen.add(f"{key} {value}")
            yield replace(place, table=table, key=name, value=value)
    if document.get(place.path) is not None:
        yield replace(place, value=None)


def _place(document: Document, fault: Fault) -> Edit | None:
    """Where the key stands, or would stand: in the file's table or under the door of that line."""
    table, _, name = fault.key.rpartition(".")
    if table not in DESIGNED or fault.key in MEASURED:
        return None
    for path in ((table, name), *(("door", n, table, name) for n in range(document.doors))):
        if path in document.spots and document.place(path).line == fault.line:
            door = path[1] if len(path) > _TWO_WAYS else None
            return Edit(table, name, "", door if isinstance(door, int) else None)
    lines = [document.place(("door", number)).line for number in range(document.doors)]
    doors = [number for number, line in enumerate(lines) if line <= fault.line]
    return Edit(table, name, "", doors[-1]) if doors else None


def _values(fault: Fault, document: Document, place: Edit, own: Unit) -> Iterator[tuple[str, str]]:
    hint = fault.hint
    assert hint is not None
    for line in _written(hint):
        key, equals, value = (part.strip() for part in line.partition("="))
        if equals and value[:1] == '"' and "…" not in value:
            table = fault.key.rpartition(".")[0]
            yield f"{table}.{key}", value.strip('"')
    key = fault.key
    named = hint.given.get("key")
    if isinstance(named, str):
        key = f"{fault.key.rpartition('.')[0]}.{named}"
    now = _now(document, place, fault.key, own)
    found = [each for each in _lengths(hint) if each.value >= 0]
    for amount in (convert(each.value, each.unit, own) for each in found):
        for up in (True, False):
            yield key, spelt(amount, own, up=up)
    if now is None:
        return
    for amount in (convert(each.value, each.unit, own) for each in found[:1]):
        # A little further than it says, the same way.
        way = 1 if amount > now else -1
        for more in _FURTHER[own]:
            if amount + way * more > 0:
                yield key, spelt(amount + way * more, own, up=way > 0)
    for amount in (convert(each.value, each.unit, own) for each in found):
        for changed, up in ((now - amount, False), (now + amount, True)):
            if changed > 0:
                yield fault.key, spelt(changed, own, up=up)


def _now(document: Document, place: Edit, key: str, own: Unit) -> Fraction | None:
    """What the key is now: as it stands, or by default."""
    written = document.get(place.path)
    if written is None:
        return lengths(own).get(key)
    try:
        return parse(str(written), own)
    except LengthError:
        return None


def _written(hint: Fact) -> Iterator[str]:
    """Lines that the hint has one write."""
    if hint.kind in (files.WRITE, files.DID_YOU_MEAN):
        yield str(next(iter(hint.values)))
    for value in hint.values:
        if isinstance(value, tuple):
            yield from (each for each in value if isinstance(each, str) and "=" in each)


def _lengths(fact: Fact) -> Iterator[Length]:
    for value in fact.values:
        if isinstance(value, Length):
            yield value
