"""Paper and page tell the same, figure by figure and pass by pass; and what the first pages say
is what stands at the setups."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from tests.reader.rows import resolved
from tests.reader.told import Check, Document, Setup, Step
from tests.reader.words import Lies, Unreadable

Done = tuple[str, str, str, tuple[Lies, ...]]
_SHORT = {
    "rip fence": "fence", "crosscut sled": "sled", "tenoning jig": "jig",
    "mitre sled": "mitre sled",
}  # fmt: skip


def differences(paper: Document, page: Document) -> Iterator[str]:
    """What the page tells otherwise than the paper."""
    if len(paper.told) != len(page.told):
        yield f"paper: {len(paper.told)} setups and steps at the bench; page: {len(page.told)}"
    for told, other in zip(paper.told, page.told, strict=False):
        where = told.where if isinstance(told, Setup) else f"step {told.number}"
        if isinstance(told, Setup) and isinstance(other, Setup):
            yield from _setups(told, other, paper)
        elif isinstance(told, Step) and isinstance(other, Step):
            yield from (f"{where}: {each}" for each in _benches(told, other))
        else:
            yield f"{where}: the page has something else there"


_IN_FULL = {
    "Blade covered by: __________": "What covers the blade here? Your shop file names no cover: "
    "____________"
}
"""What paper asks in full at its first setup only."""


def _setups(setup: Setup, other: Setup, paper: Document) -> Iterator[str]:
    where = setup.where
    if (setup.number, setup.title, setup.carrier) != (other.number, other.title, other.carrier):
        yield f"{where}: “{setup.title}, {setup.carrier}”, page “{other.title}, {other.carrier}”"
    if (setup.guard, setup.cutter) != (other.guard, other.cutter):
        yield f"{where}: {setup.guard}, {setup.cutter}; page {other.guard}, {other.cutter}"
    if setup.figures != other.figures:
        yield f"{where}: the page shows other figures"
    if (setup.split, setup.by_eye) != (other.split, other.by_eye):
        yield f"{where}: the page leaves otherwise to the blade"
    if abs(setup.lean - other.lean) > Fraction(1, 500):
        yield f"{where}: the blade leans otherwise on the page"
    words = [_IN_FULL.get(t, t) for t in setup.turns if t.split(";")[0] not in _GUARD_LINES]
    if words != other.turns:
        odd = set(words) ^ set(other.turns)
        yield f"{where}: not on both: {sorted(odd) or 'another order'}"
    yield from _falling(setup, other)
    yield from (f"{where}: {each}" for each in _warnings(setup.warned, other.warned))
    if [s.number for s in setup.steps] != [s.number for s in other.steps]:
        yield f"{where}: the page has other steps"
    for step, theirs in zip(setup.steps, other.steps, strict=False):
        there = f"{where}, step {step.number}"
        if step.scrap != theirs.scrap or step.fresh != theirs.fresh:
            yield f"{there}: tried on {step.scrap}; page {theirs.scrap}"
        if _verb(step) != _verb(theirs):
            yield f"{there}: “{step.verb}”, page “{theirs.verb}”"
        try:
            odd_works = list(_works(setup, step, other, theirs, paper))
        except Unreadable as error:
            odd_works = [str(error)]
        yield from (f"{there}: {each}" for each in odd_works)
        yield from (f"{there}: {each}" for each in _checks(step, theirs))


_GUARD_LINES = {
    "guard and riving knife on", "guard off, riving knife set below the top of the blade",
    "guard and riving knife off",
}  # fmt: skip


_LOOSE = {
    "rip fence": {"the waste strip"},
    "tenoning jig": {"the cheek"},
    "crosscut sled": {"the offcut", "the rest of the strip", "what comes off"},
    "mitre sled": set[str](),
}
"""What may come loose on each carrier."""


def _falling(setup: Setup, other: Setup) -> Iterator[str]:
    """The paper says once what comes loose in a setup, the page with each step that frees it."""
    ours, theirs = setup.falls, other.falls
    alike = ours == theirs or {what for what, _ in ours} == {"what comes off"}
    if not alike or {side for _, side in ours} != {side for _, side in theirs}:
        yield f"{setup.where}: {sorted(ours)} falls; page {sorted(theirs)}"
    for what, _ in sorted(ours | theirs):
        if what not in _LOOSE[setup.carrier]:
            yield f"{setup.where}: {what} falls on the {setup.carrier}"


def _verb(step: Step) -> str:
    return "test" if step.scrap else step.verb


def _warnings(ours: tuple[str, ...], theirs: tuple[str, ...]) -> Iterator[str]:
    """Every sentence of the page's cautions stands on the paper behind the same signal word, and
    nothing else does."""
    for told in theirs:
        word, _, said = told.partition(" ")
        if not any(line.startswith(f"{word} ") and said in line for line in ours):
            yield f"only the page says “{told}”"
    for line in ours:
        word, _, left = line.partition(" ")
        for told in theirs:
            if told.startswith(f"{word} "):
                left = left.replace(told.partition(" ")[2], "", 1)
        if left.strip():
            yield f"only the paper says “{left.strip()}”"


def _works(setup: Setup, step: Step, other: Setup, theirs: Step, paper: Document) -> Iterator[str]:
    if step.scrap:
        face = paper.face_of(step.scrap)
        if resolved(setup, step, face) != resolved(other, theirs, face):
            yield f"{step.scrap} lies otherwise on the page"
    ours, page = _done(step), _done(theirs)
    if [each[:3] for each in ours] != [each[:3] for each in page]:
        odd = {each[:3] for each in ours} ^ {each[:3] for each in page}
        yield f"other pieces on the page: {sorted(odd) or 'another order'}"
        return
    for mine, its in zip(ours, page, strict=True):
        if mine[3] != its[3]:
            yield f"{mine[0]} lies otherwise on the page"


def _done(step: Step) -> list[Done]:
    return [
        (piece.mark, piece.strip, piece.at_stop, tuple(work.passes))
        for work in step.works
        for piece in work.pieces
    ]


def _checks(step: Step, other: Step) -> Iterator[str]:
    ours, theirs = _by_name(step.checks), _by_name(other.checks)
    for name in sorted({*ours, *theirs}):
        mine, its = ours.get(name, []), theirs.get(name, [])
        same = len(mine) == len(its) and all(
            one[0] == other[0] and (not one[1] or not other[1] or one[1] == other[1])
            for one, other in zip(mine, its, strict=False)
        )
        if not same:
            yield f"{name}: paper {mine}, page {its}"


Good = tuple[float, float, float | None]


def _by_name(checks: list[Check]) -> dict[str, list[tuple[Good, tuple[str, ...]]]]:
    """What is measured, what is good, and on which marks: the paper names none that is alone, and
    the page none that is no leaf."""
    found: dict[str, list[tuple[Good, tuple[str, ...]]]] = {}
    for check in checks:
        marks = tuple(sorted(check.marks)) if len(check.marks) > 1 else ()
        target = None if check.target is None else float(check.target)
        told = (float(check.low), float(check.high), target)
        found.setdefault(check.name, []).append((told, marks))
    return {name: sorted(told, key=str) for name, told in found.items()}


def _benches(step: Step, other: Step) -> Iterator[str]:
    if (step.number, step.title) != (other.number, other.title):
        yield f"“{step.title}”, page step {other.number} “{other.title}”"
    if step.title.startswith("Mill"):
        marks = tuple(mark for check in other.checks for mark in check.marks)
        if sorted(step.marks) != sorted(marks):
            yield f"{step.marks} are milled; page {marks}"
    elif not _same_marks(step.marks, other.marks):
        yield f"done to {step.marks}; page {other.marks}"
    yield from _checks(step, other)
    yield from _warnings(step.warned, other.warned)
    told = " ".join(step.lines)
    for line in other.lines:
        if "marks to lay out" in line or re.match(r"[\d./() ]+ (?:in )?from ", line):
            continue
        if line not in told:
            yield f"only the page says “{line}”"


def _same_marks(ours: tuple[str, ...], theirs: tuple[str, ...]) -> bool:
    """The page ticks leaf by leaf what the paper ticks piece by piece."""
    leaves = {mark.rstrip("0123456789") for mark in ours}
    return leaves == {mark.rstrip("0123456789") for mark in theirs}


def front(document: Document, near: Fraction) -> Iterator[str]:
    """What the first pages say, held against the setups."""
    rows = {row.number: row for row in document.order}
    for setup in document.setups:
        row = rows.pop(setup.number, None)
        if row is None:
            yield f"{setup.where} is not in the order"
            continue
        guide = next((v for k, (_, v) in setup.figures.items() if k != "height"), None)
        shown = (row.carrier, row.guide is None)
        if shown != (_SHORT[setup.carrier], setup.by_eye):
            yield f"{setup.where}: on the {setup.carrier}, in the order on the {row.carrier}"
        if guide is not None and row.guide is not None and abs(guide - row.guide) > near:
            yield f"{setup.where}: the order says {row.knob} {float(row.guide):g}"
        if abs(row.height - setup.figures["height"][1]) > near:
            yield f"{setup.where}: the order says height {float(row.height):g}"
        if (row.guard == "on") != (setup.guard == "on"):
            yield f"{setup.where}: guard {setup.guard}, in the order {row.guard}"
        if not row.title.startswith(setup.title):
            yield f"{setup.where}: “{setup.title}”, in the order “{row.title}”"
        made = {piece.mark for s in setup.steps for w in s.works for piece in w.pieces}
        if made != row.pieces:
            yield f"{setup.where}: {sorted(made)}, in the order {sorted(row.pieces)}"
    for number in rows:
        yield f"setup {number} is in the order alone"
    told = {
        number: title for numbers, line in document.benches for number, title in _row(numbers, line)
    }
    done = {step.number: step.title for step in document.bench}
    # What is done at the bench behind the last setup may stand in the pages below alone.
    last = max((step.number for setup in document.setups for step in setup.steps), default=0)
    behind = {number for number in done if number > last}
    if not behind & told.keys():
        done = {number: title for number, title in done.items() if number not in behind}
    for number in sorted({*told, *done}):
        if told.get(number) != done.get(number):
            yield f"step {number}: “{done.get(number)}”, in the order “{told.get(number)}”"


def _row(numbers: str, line: str) -> Iterator[tuple[int, str]]:
    """The steps at the bench that one row of the order names."""
    first = int(numbers.partition("–")[0])
    yield from enumerate(line.split("; "), first)
