"""A finished paper, read back from its lines."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from tests.reader.front import front
from tests.reader.rows import CHIP, MEASURE, bench_of, check_of, chips
from tests.reader.told import Document, Setup, Step, Work
from tests.reader.turns import BEHIND, CORRECTS, correction, turn
from tests.reader.words import (
    FALLS,
    FRESH,
    GUARDS,
    LENGTH,
    MARK,
    PUTS,
    SIGNALS,
    Unreadable,
    british,
    length,
    passes,
    plain,
)

_SETUP = re.compile(r"(\d+) \| ([\w ]+ \| height(?: stays)?)$")
_TITLE = re.compile(r"(.+?) \| on the ([\w ]+?)(?: \|)?\s*$")
_LIKE = re.compile(r"lies as in the picture of setup (\d+)")
_DRAWN = re.compile(r"drawn with its measures at setup (\d+)")
_BENCH = re.compile(r"Step (\d+) \| (.+)")
_TEST = re.compile(rf"Step (\d+) ☐ (?:Test|Check) cut on ({MARK})(?:: (.*))?\.")
_TRIED = re.compile(r"Step (\d+) (Test cut|Check cut): (.*?)\.(?: (.*))?")
_WORK = re.compile(r"Step (\d+) ([\w° ]+?): (.+?)\.( .*☐)?")
_GUARD = re.compile(r"☐ Step (\d+): (.*)")
_SPLIT = re.compile(rf"fence: ({LENGTH}) to the blade, ({LENGTH}) the jig")
_GAUGE = re.compile(rf"Bevel gauge on the table .*?: ({LENGTH}) over in ({LENGTH}) up\.")
_CUTTER = re.compile(r"saw unplugged, fit the (.+)")


def read(lines: Sequence[str]) -> Document:
    """Everything that the lines tell. Raises `Unreadable`, naming setup or step."""
    lines = [british(line) for line in lines]
    found = Document()
    saw = next((n for n, line in enumerate(lines) if line.startswith(_AT_THE_SAW)), len(lines))
    starts = [
        n for n, line in enumerate(lines) if n > saw and (_SETUP.match(line) or _BENCH.match(line))
    ]
    if not starts:
        raise Unreadable("no setup and no step anywhere")
    front(lines[: starts[0]], found)
    for start, stop in zip(starts, [*starts[1:], len(lines)], strict=True):
        block = lines[start:stop]
        bench = _BENCH.match(block[0])
        try:
            made: Setup | Step
            if bench:
                made = bench_of(int(bench[1]), bench[2], block[1:])
            else:
                made = _Block(block, found).setup
        except Unreadable as error:
            name = f"step {bench[1]}" if bench else f"setup {block[0].split(' | ')[0]}"
            raise Unreadable(f"{name}: {error}") from error
        found.told.append(made)
    return found


_AT_THE_SAW = "In the drawings you stand before the saw"
"""What stands above the first setup or step."""

_STAYS = " stays"
_NOTE = re.compile(r"(\([\d.]+\))? ?(by the block|to fit|exactly)?")
"""What stands below a figure."""


class _Block:
    """One setup, line by line."""

    def __init__(self, block: Sequence[str], found: Document) -> None:
        head = _SETUP.match(block[0])
        at, title = next(
            ((n, told) for n, line in enumerate(block) if (told := _TITLE.fullmatch(line))),
            (0, None),
        )
        if head is None or title is None:
            raise Unreadable("nobody says what it is, and on what")
        self.document = found
        self.setup = Setup(int(head[1]), title[1], title[2])
        if len(found.kerfs) == 1:  # what is in the saw is told where there are several
            self.setup.cutter = next(iter(found.kerfs))
        # What stands under the picture is ticked when all the rest is turned.
        under = [line for line in block[2:at] if line.startswith("☐ ")]
        rest = self._figures([head[2], *block[1:at], *block[at + 1 :]])
        for line in rest:
            if line not in under:
                self._line(line)
        for line in under:
            self._line(line)

    def _figures(self, block: list[str]) -> list[str]:
        """The large numbers, side by side."""
        names, figures = block[0].split(" | "), block[1].split(" | ")
        self.setup.stays |= {name[: -len(_STAYS)] for name in names if name.endswith(_STAYS)}
        names = [name.removesuffix(_STAYS) for name in names]
        notes = block[2].split(" | ") if len(block[2].split(" | ")) == len(names) else []
        told = notes and all(_NOTE.fullmatch(note) for note in notes)
        for n, (name, figure) in enumerate(zip(names, figures, strict=False)):
            self._figure(name, figure, notes[n] if told else "")
        if len(self.setup.figures) + self.setup.by_eye != len(names):
            raise Unreadable("a number to be set is missing")
        return block[2 + bool(told) :]

    def _figure(self, name: str, figure: str, note: str) -> None:
        if figure == "none":
            self.setup.by_eye = True
            return
        decimal = re.search(r"\(([\d.]+)\)", note)
        shown = plain(figure)
        self.setup.figures[name] = (shown, Fraction(decimal[1]) if decimal else shown)

    def _line(self, line: str) -> None:
        setup = self.setup
        steps = setup.steps
        if " | " in line and "kerf" in line:
            self._drawing(line)
        elif guard := _GUARD.fullmatch(line):
            steps.append(Step(int(guard[1]), "guard"))
            self._turn(guard[2])
        elif test := _TEST.fullmatch(line):
            steps.append(self._test(int(test[1]), test[2], test[3] or ""))
        elif tried := _TRIED.fullmatch(line):
            step = self._test(int(tried[1]), "", tried[3])
            step.scrap = (re.findall(MARK, tried[4] or "") or [""])[0]
            steps.append(step)
        elif work := _WORK.fullmatch(line):
            self._work(int(work[1]), work[2], work[3], (work[4] or "").strip())
        elif measure := MEASURE.fullmatch(line):
            if not steps:
                raise Unreadable(f"“{line}” is measured at no step")
            steps[-1].checks.append(check_of(measure))
        elif CORRECTS.match(line):
            if not steps or not steps[-1].checks:
                raise Unreadable(f"“{line}” corrects nothing")
            steps[-1].checks[-1].turns = correction(line)
        elif CHIP.match(line):
            if not steps or not steps[-1].works:
                raise Unreadable(f"“{line}”: nothing is told to be done to them")
            steps[-1].works[-1].pieces += chips(line)
        elif line.split(" ", maxsplit=1)[0] in SIGNALS:
            setup.warned = (*setup.warned, line)
        elif falls := FALLS.fullmatch(line):
            setup.falls.add((falls[1].lower(), falls[2]))
        elif line.startswith("☐ "):
            self._turn(line[2:])
        elif like := _LIKE.fullmatch(line):
            setup.like = int(like[1])
        elif drawn := _DRAWN.fullmatch(line):
            setup.drawn_at = int(drawn[1])
        elif behind := BEHIND.fullmatch(line):
            setup.behind = length(behind[1])
        elif split := _SPLIT.fullmatch(line):
            setup.split = (length(split[1]), length(split[2]))
        elif gauge := _GAUGE.match(line):
            over = length(gauge[1]) / length(gauge[2])
            setup.lean = -over if setup.toward else over
        elif line.split(";", maxsplit=1)[0] in GUARDS:
            setup.guard = GUARDS[line.split(";", maxsplit=1)[0]]
        elif line in self.document.kerfs:
            setup.cutter = line
        elif line.startswith("Step "):
            raise Unreadable(f"“{line}” cannot be followed")

    def _turn(self, text: str) -> None:
        setup = self.setup
        setup.turns.append(text)
        guard = text.split(";", maxsplit=1)[0]
        if fitted := _CUTTER.fullmatch(text):
            setup.cutter = fitted[1]
        elif guard in GUARDS:
            setup.guard = GUARDS[guard]
        elif text not in PUTS:
            turn(text)

    def _drawing(self, line: str) -> None:
        cells = line.split(" | ")
        setup = self.setup
        for n, cell in enumerate(cells):
            labelled = n and cells[n - 1] in ("height", "depth")
            if re.fullmatch(LENGTH, cell) and not labelled:  # a figure too long for its label
                setup.drawn["distance"] = length(cell)
            if found := re.fullmatch(rf"(distance|kerf|stop to kept line) ({LENGTH})", cell):
                setup.drawn["distance" if found[1] != "kerf" else "kerf"] = length(found[2])
            elif cell in ("height", "depth"):
                behind = cells[n + 2] if n + 2 < len(cells) else ""
                exact = re.fullmatch(r"\([\d.]+\)", behind)
                setup.drawn[cell] = Fraction(behind[1:-1]) if exact else length(cells[n + 1])
            elif cell.startswith("blade leans ") and "toward" in cell:
                setup.toward = True
            elif cell.startswith("near: "):
                setup.near = cell.removeprefix("near: ")
            elif found := re.match(rf"({MARK}), ", cell):
                setup.seen = found[1]

    def _test(self, number: int, scrap: str, how: str) -> Step:
        """A test cut. How it is made is worked out when the work is known that it is like."""
        kept = [part for part in how.split("; ") if part not in FRESH]
        fresh = [part for part in how.split("; ") if part in FRESH]
        return Step(number, "test", scrap=scrap, how="; ".join(kept), fresh="".join(fresh))

    def _work(self, number: int, verb: str, how: str, chip: str) -> None:
        pieces = chips(chip)
        step = self.setup.steps[-1] if self.setup.steps else None
        if step is None or step.number != number:
            step = Step(number, verb)
            self.setup.steps.append(step)
        step.how = how
        step.works.append(Work(passes(how, self._face(how)), pieces))

    def _face(self, how: str) -> str:
        faces = {door.face for door in self.document.doors.values()}
        if len(faces) == 1:
            return faces.pop()
        return "in" if "show face" in how else "out"
