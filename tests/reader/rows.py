"""What stands in the lines of a setup or bench step: pieces to tick, things to measure, and how a
test cut is made that is told by another step."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from tests.reader.told import Check, Piece, Setup, Step
from tests.reader.words import LENGTH, MARK, NUMBER, SIGNALS, Lies, Unreadable, length, passes

CHIP = re.compile(
    rf"({MARK})(?: from (#\d+), (end [AB]) at the stop)?((?: (?:A|B|ends|edges)?☐| ☐)+)"
)
FIT = rf"by its fit|about (?P<about>{LENGTH}) by eye"
"""How is read what no tool tells."""
_ON = r"[A-Z#]\w*(?:–[A-Z]\w*)?"
"""What a blank is for: a piece, a leaf, or the two that a gap is between."""
MEASURE = re.compile(
    rf"(?:☐ )?(?P<name>.+?) (?:(?P<fit>{FIT})|(?:at most (?P<most>{NUMBER})"
    rf"|(?P<low>{NUMBER}) – (?P<high>{NUMBER})) (?:mm|in) (?P<tool>by \w+)"
    rf"(?:, target (?P<target>{LENGTH}))?)(?P<marks>(?: (?:is|{_ON}) _)+"
    r"|(?<=by its fit)|(?<=by eye))"
)
_SERIES = re.compile(
    r"☐ \| (?P<name>.+?) \| (?P<target>.*?) \| "
    rf"(?:(?P<fit>{FIT})|(?:at most (?P<most>{NUMBER})|(?P<low>{NUMBER}) – (?P<high>{NUMBER}))"
    r" (?P<tool>by \w+)) \|"
    r"(?P<marks>.*)"
)


def resolved(setup: Setup, step: Step, face: str) -> list[Lies]:
    """The passes of a test cut, which may be told by the step that it is like."""
    same = re.fullmatch(r"(one end, )?same way as step (\d+)", step.how)
    if same is None:
        seen = "in" if "show face" in step.how else "out"
        return passes(step.how, seen if face == "either" else face)
    like = next((each for each in setup.steps if each.number == int(same[2])), None)
    if like is None or not like.works:
        raise Unreadable(f"step {step.number} is made like step {same[2]}, which is none")
    if like.number < step.number:
        raise Unreadable(f"step {step.number} is made like step {same[2]}, which is past")
    told = like.works[0].passes
    if not same[1]:
        return told
    half = told[: len(told) // 2]
    if [each.at_other_end() for each in half] != told[len(half) :]:
        raise Unreadable(f"step {step.number}: step {same[2]} is not made at two ends")
    return half


def chips(text: str) -> list[Piece]:
    """The pieces to be ticked, each with what stands beside it."""
    found: list[Piece] = []
    at = 0
    while at < len(text):
        chip = CHIP.match(text, at)
        if chip is None:
            raise Unreadable(f"“{text[at:]}”: no piece to tick")
        places = tuple(each for each in re.findall(r" ([\w]*)☐", chip[4]) if each)
        stop = chip[3].removeprefix("end ") if chip[3] else ""
        found.append(Piece(chip[1], chip[2] or "", stop, places))
        at = chip.end() + 1
    return found


def check_of(found: re.Match[str]) -> Check:
    """A line to measure by."""
    told = found.groupdict()
    marks = tuple(re.findall(rf"({_ON}) _", told["marks"]))
    if told.get("fit"):
        about = length(told["about"]) if told["about"] else None
        tool = told["fit"] if about is None else "by eye"
        return Check(told["name"], Fraction(0), Fraction(0), about, None, marks, tool)
    high = length(told["most"] or told["high"])
    low = length(told["low"]) if told["low"] else Fraction(0)
    target = length(told["target"]) if told["target"] else None
    return Check(told["name"], low, high, target, None, marks, told["tool"])


def bench_of(number: int, title: str, block: Sequence[str]) -> Step:
    """A step at the bench: what it is done to, its sentences, what is measured."""
    step = Step(number, "bench", title=title)
    for line in block:
        if measure := (MEASURE.fullmatch(line) or _SERIES.fullmatch(line)):
            step.checks.append(check_of(measure))
        elif line.split(" ", maxsplit=1)[0] in SIGNALS:
            step.warned = (*step.warned, line)
        elif "☐" in line:
            last = line.rindex("☐")
            step.marks = tuple(re.findall(r"([A-Z#]\w*) ☐", line[: last + 1]))
            step.lines.append(line[last + 1 :].strip())
        else:
            step.lines.append(line)
    return step
