"""Every measure that is told, taken from the wood as it is sawn by then: the target must be what is
found, and turning the knob must move it the way and as far as the words say."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from sequencer.records import replace
from tests.reader.sawing import Followed
from tests.reader.told import UNREAD, Check, Document, Setup, Step
from tests.reader.wood import Slab, Wood
from tests.reader.words import LENGTH, OPPOSITE, Unreadable, length, side

Span = tuple[Fraction, Fraction]

_DEPTHS = {
    "slot depth", "groove depth", "mitre depth", "shoulder depth", "edge shoulder depth",
    "depth of the cut", "how far the rebate reaches in",
}  # fmt: skip
_AT_GUIDE = {
    "from the end to the housing", "from the end to the mitre, along the outside edge",
    "wood left beside the rebate", "length of the first piece",
}  # fmt: skip
_LEANING = {
    "tenon width", "from the end to the shoulder", "width of the slab, today",
    "groove depth along the shape",
}  # fmt: skip
"""What may be more one way than the other beside the depths."""
_LOPSIDED = {
    "panel width, today", "width of the slab, today", "gap on the closing side",
    "gap between the leaves", "width of the pane", "height of the pane",
}  # fmt: skip
"""What the year lets be more otherwise than less, and panes, of which a larger one does not go
in."""

_INTO = {"slot width", "groove width", "housing width", "dado width"}
_OUT_OF = re.compile(r"(tenon|tongue) thickness|thickness .* from the edge")
"""What something goes into, and is too tight where it is too little; and what goes into that."""


def faults(document: Document, found: Followed, near: Fraction) -> Iterator[str]:
    """What is wrong with the checks at the saw and at the bench."""
    for setup in document.setups:
        for step in setup.steps:
            where = f"{setup.where}, step {step.number}"
            tried = found.tried.get(step.number)
            cut = found.works.get(step.number)
            wood, made = (tried[0], tried[1]) if tried else cut or (None, [])
            face = _face(setup, step, document)
            for check in step.checks:
                yield from (f"{where}, {check.name}: {each}" for each in window(check, near))
                try:
                    yield from (
                        f"{where}, {check.name}: {each}"
                        for each in _one(check, setup, wood, made, face, near)
                    )
                except Unreadable as error:
                    yield f"{where}, {check.name}: {error}"
    for step in document.bench:
        for check in step.checks:
            yield from (f"step {step.number}, {check.name}: {each}" for each in window(check, near))
            if len(step.marks) > 1 and not check.marks and check.tool not in UNREAD:
                yield f"step {step.number}, {check.name}: of which of {', '.join(step.marks)}?"


def _face(setup: Setup, step: Step, document: Document) -> str:
    """Where the marked face of what is measured looks; of a test piece where doors differ, as its
    step calls its sides."""
    told = document.face_of(step.scrap) if step.scrap else "out"
    if told != "either":
        return told
    like = re.search(r"same way as step (\d+)", step.how)
    words = [each.how for each in setup.steps if like and each.number == int(like[1])]
    words += [step.how, *(check.name for check in step.checks)]
    return "in" if any("show face" in each for each in words) else "out"


def window(check: Check, near: Fraction) -> Iterator[str]:
    """Good reaches equally far both ways from the target, or as far again and more the easy way;
    the target itself is no limit."""
    if check.tool in UNREAD:
        return
    if check.low > check.high:
        yield "nothing is good"
    if check.target is None:
        return
    under, over = check.target - check.low, check.high - check.target
    if under <= 0 or over <= 0:
        yield f"the target {float(check.target):g} is not good, or on the edge of what is"
    easy = check.name in _DEPTHS | _LEANING
    between = step_of(check, near)
    named = re.sub(r" [A-Z]+\d+$", "", check.name)  # of a pane, which one
    if named not in _LOPSIDED and not easy and abs(under - over) > between:
        yield f"good is {float(under):g} under and {float(over):g} over the target"


def step_of(check: Check, near: Fraction) -> Fraction:
    """How finely the tool tells that is named, by the finest that the numbers show: of a caliper
    `near`."""
    if check.tool == "by caliper":
        return near
    told = [each for each in (check.low, check.high, check.target) if each is not None]
    return max(Fraction(1, max(each.denominator for each in told)), near)


def _one(
    check: Check, setup: Setup, wood: Wood | None, made: Sequence[Slab], face: str, near: Fraction
) -> Iterator[str]:
    if check.name == "length of the first piece":
        guide = next((v for k, (_, v) in setup.figures.items() if k != "height"), None)
        measured, per_unit, knob = guide, Fraction(1), "stop"
    elif wood is None or not made:
        yield "nothing is cut that could be measured"
        return
    else:
        turned = check.turns.knob if check.turns else ""
        knob = turned
        measured = measure(check.name, wood, made, face)
        # So little that the kerfs of a groove hardly wider than one do not pass each other.
        little = near / 100
        farther = -little if turned == "block" else little
        more = [_turned(slab, turned == "height", farther) for slab in made]
        per_unit = (measure(check.name, wood, more, face) - measured) / little
    if measured is None:
        yield "there is no stop to measure from"
        return
    # “At most” aims at none.
    aimed = check.target if check.target is not None or check.low else Fraction(0)
    if check.tool == "by its fit":
        pass
    elif aimed is None or abs(measured - aimed) > 2 * near + step_of(check, near) / 2:
        told = "nothing" if aimed is None else f"{float(aimed):g}"
        yield f"comes out {float(measured):g}, target {told}"
    if check.turns is None:
        yield "nobody says what to turn"
        return
    set_here = {*setup.figures, *["block"] * bool(setup.block)}
    if check.turns.knob not in set_here or check.turns.knob != knob:
        yield f"the {check.turns.knob} is not set here"
    if not per_unit:
        yield f"turning the {check.turns.knob} does not change it"
    elif check.turns.tight != (check.tool == "by its fit" and _felt(check.name)):
        yield "it is told as if it were read, or as if it were tried"
    elif (check.turns.shrinks != (per_unit > 0)) != (check.turns.tight and check.name in _INTO):
        yield f"the {check.turns.knob} is turned the wrong way"
    elif abs(abs(1 / per_unit) - check.turns.share) > Fraction(1, 100):
        yield f"the {check.turns.knob} is turned by {float(check.turns.share):g} of it"


def _felt(name: str) -> bool:
    return name in _INTO or _OUT_OF.fullmatch(name) is not None


def _turned(slab: Slab, height: bool, by: Fraction) -> Slab:
    """The pass with the blade so much higher, or the guide so much further away."""
    if height:
        return replace(slab, depth=slab.depth + by)
    low = slab.low + by if slab.low == slab.guide else slab.low
    return replace(slab, low=low, high=slab.high + by, guide=slab.guide + by)


def measure(name: str, wood: Wood, made: Sequence[Slab], face: str) -> Fraction:
    """What a caliper or rule finds on the wood once the passes are made. Raises `Unreadable`."""
    own = made[0].lies
    across = {own.against, OPPOSITE[own.against]}
    alike = [
        s
        for s in (*wood.slabs, *made)
        if s.lies.down == own.down and s.lies.against in across and s.plain
    ]
    if name in _DEPTHS:
        return max(slab.depth for slab in made)
    if name in _AT_GUIDE:
        return made[0].guide
    if name == "housing width":
        return max(slab.high for slab in made) - min(slab.low for slab in made)
    if name in ("slot width", "groove width"):
        low, high = _hull(alike, wood)
        return high - low
    if name.startswith("wall beside the "):
        low, high = _hull(alike, wood)
        return low if own.against == "marked" else _extent(wood, own.against) - high
    if name in ("from the marked face to the slot", "from the marked face to the groove"):
        return _hull(alike, wood)[0]
    if name in ("tenon thickness", "tongue thickness", "tenon width"):
        return _between(alike, made, wood)
    if told := re.fullmatch(r"from the ([\w ]+) to the far cheek", name):
        which = side(told[1], face)
        if which not in ("marked", "other"):
            raise Unreadable("a cheek is not there")
        guide = made[0].guide
        return guide if own.against == which else _extent(wood, own.against) - guide
    if told := re.fullmatch(
        r"(shoulder to shoulder|from the end to the shoulder)(?:, on the ([\w ]+))?", name
    ):
        downs = {side(told[2], face)} if told[2] else {slab.lies.down for slab in made}
        ends = {slab.lies.against: slab.high for slab in made if slab.lies.down in downs}
        if not ends:
            raise Unreadable("no shoulder is cut there")
        if told[1] == "from the end to the shoulder":
            return next(iter(ends.values()))
        if set(ends) != {"A", "B"} or wood.length is None:
            raise Unreadable("only one shoulder is cut")
        return wood.length - ends["A"] - ends["B"]
    if told := re.fullmatch(r"wood left under the housing in the ([\w ]+)", name):
        which = side(told[1], face)
        depth = [slab.depth for slab in made if slab.lies.down == which]
        if not depth:
            raise Unreadable("no housing is cut there")
        return _extent(wood, "marked") - depth[0]
    if name == "width of the rebate":
        return made[0].high
    if told := re.fullmatch(rf"thickness ({LENGTH}) from the edge", name):
        return made[0].guide + made[0].lean * length(told[1])
    raise Unreadable("nobody knows how that is measured")


def _extent(wood: Wood, surface: str) -> Fraction:
    size = wood.size()
    return size[{"A": 0, "B": 0, "inside": 1, "outside": 1}.get(surface, 2)]


def _span(slab: Slab, wood: Wood) -> Span:
    """From and to how far from the marked face, the inside edge or end A."""
    if slab.lies.against in ("marked", "inside", "A"):
        return slab.low, slab.high
    extent = _extent(wood, slab.lies.against)
    return extent - slab.high, extent - slab.low


def _hull(slabs: Sequence[Slab], wood: Wood) -> Span:
    spans = [_span(slab, wood) for slab in slabs]
    return min(low for low, _ in spans), max(high for _, high in spans)


def _between(alike: Sequence[Slab], made: Sequence[Slab], wood: Wood) -> Fraction:
    """What is left between two cheeks, or between one and what bore on jig or fence; of what is
    nibbled flat, under all that is gone."""
    own = made[0]
    if own.lies.against in ("A", "B"):
        downs = {slab.lies.down: slab.depth for slab in made}
        return _extent(wood, own.lies.down) - sum(downs.values(), Fraction(0))
    if len({slab.lies.against for slab in alike}) > 1:
        first, last = sorted(_span(slab, wood) for slab in _latest(alike))
        return last[0] - first[1]
    return own.guide


def _latest(slabs: Sequence[Slab]) -> list[Slab]:
    """Of each side that bore, the last pass."""
    return list({slab.lies.against: slab for slab in slabs}.values())
