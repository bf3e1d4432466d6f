"""One small door, every number of its plan worked out on paper: what the proof is tried on.

Inches, a 1/8 in kerf. Door A, 12 wide and 16 high in its opening of 12-1/8 by 16-1/8, 3/4 thick,
stiles and rails 2 wide, proud by 1/32, groove 1/4 wide and 1/4 deep in the middle.

- slot as wide as the groove, 1/4, from 1/4 to 1/2; tenon 1/64 thinner, 33/128 to 63/128
- tenon as wide as the groove leaves it, 2 − 1/4 = 7/4; slot as deep as that + 1/32 = 57/32
- stiles 16 + 2/32 = 257/16 long; rails 8 between shoulders + 2 (2 + 1/32) = 193/16
- three passes make 1/4: turned round at guide 1/4 (1/4..3/8 and 3/8..1/2), the middle at 5/16
- panel 1/16 short of each groove's bottom: 8 + 3/8 wide, 12 + 3/8 long, 1/100 thinner than 1/4
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction as F  # noqa: N817  # forty numbers are easier read so

from sequencer import plan as p
from sequencer.facts import Fact, Length, cautions, feels, reasons, shops
from sequencer.records import replace
from tests.told import by_name

ZERO = F(0)
KERF = F(1, 8)
THICK = F(3, 4)
STILE = F(257, 16)
RAIL = F(193, 16)
TENON = F(65, 32)
SLOT_DEPTH = F(57, 32)
PANEL = p.Size(F(99, 8), F(67, 8), F(6, 25))

MINUTES = {
    "cutter": 3,
    "tilt": 2,
    "height": 1,
    "carrier": 2,
    "guard": 1,
    "fence": 1,
    "stop": 1,
    "jig": 2,
    "mitre stop": 1,
}


@dataclass(frozen=True)
class Setting:
    """One setting of the saw. `value` is the guide knob's value where it is a tested one."""

    carrier: p.CarrierName
    guard: p.GuardState
    height: F
    guide: F | None
    tested: bool = False
    tilt: F | None = None

    @property
    def knob(self) -> str:
        return {
            "rip-fence": "fence",
            "crosscut-sled": "stop",
            "tenoning-jig": "jig",
            "mitre-sled": "mitre stop",
        }[self.carrier]

    @property
    def deck(self) -> F:
        return DECKS.get(self.carrier.replace("mitre", "crosscut"), ZERO)

    @property
    def state(self) -> dict[str, str]:
        state = {"cutter": "blade", "carrier": self.carrier, "guard": self.guard}
        before = ""
        if self.tilt is not None:
            leans = f"{self.tilt.numerator} in {self.tilt.denominator}" if self.tilt else "0"
            state["tilt"] = leans
            before = f"{leans}/" if self.tilt else ""
        state["height"] = f"{before}{self.height + self.deck}"
        if self.guide is not None:
            tested = " tested" if self.tested else ""
            state[self.knob] = f"{before}{self.guide}{tested}"
        else:
            state[self.knob] = "away"
        return state if self.knob == "fence" else state | {"fence": "away"}


DECKS = {"crosscut-sled": F(1, 2)}
THROUGH = F(7, 8)


@dataclass(frozen=True)
class Work:
    """One operation at one setting of the saw, or at the bench."""

    operation: str
    kind: p.KindName
    setting: Setting | None
    cuts: tuple[p.Cut, ...] = ()
    removes: tuple[p.Removal, ...] = ()
    marks: tuple[str, ...] = ()


def cut(mark: str, down: p.Down, against: p.Against | None, keeps: p.Keeps | None = None) -> p.Cut:
    return p.Cut(mark, down, against, keeps)


RIP = Setting("rip-fence", "fitted", THROUGH, F(2))
RIP_PANEL = Setting("rip-fence", "fitted", THROUGH, PANEL.width)
GROOVE = Setting("rip-fence", "cover", F(1, 4), F(1, 4), tested=True)
GROOVE_MIDDLE = Setting("rip-fence", "cover", F(1, 4), F(5, 16))
SQUARE = Setting("crosscut-sled", "knife", THROUGH, None)
STILES = Setting("crosscut-sled", "knife", THROUGH, STILE)
RAILS = Setting("crosscut-sled", "knife", THROUGH, RAIL)
PANELS = Setting("crosscut-sled", "knife", THROUGH, PANEL.length)
SLOT = Setting("tenoning-jig", "cover", SLOT_DEPTH, F(1, 4), tested=True)
SLOT_MIDDLE = Setting("tenoning-jig", "cover", SLOT_DEPTH, F(5, 16))
SHOULDER = Setting("crosscut-sled", "cover", F(33, 128), TENON - KERF)
CHEEK = Setting("tenoning-jig", "cover", TENON - F(1, 64), F(63, 128), tested=True)


def crosscut(stick: str, mark: str, setting: Setting) -> Work:
    cuts = (cut(stick, "back", "end-A", "guide"),)
    return Work(f"{mark}/crosscut", "crosscut", setting, cuts, marks=(mark,))


def _proud(mark: str, length: F) -> tuple[p.Removal, ...]:
    across = ((ZERO, F(2)), (ZERO, THICK))
    return (
        p.Removal(mark, ((ZERO, F(1, 32)), *across)),
        p.Removal(mark, ((length - F(1, 32), length), *across)),
    )


ENDS: tuple[tuple[str, p.Down], ...] = (("A", "end-A"), ("B", "end-B"))

PANEL_FIRST: tuple[Work, ...] = (
    *(
        Work(f"{stick}/rip", "rip", RIP, (cut(stick, "back", "inside-edge", "guide"),))
        for stick in ("#1", "#2")
    ),
    Work("#3/rip", "rip", RIP_PANEL, (cut("#3", "back", "inside-edge", "guide"),)),
    *(
        Work(
            f"{stick}/groove/first",
            "groove",
            GROOVE,
            (cut(stick, "inside-edge", "face"), cut(stick, "inside-edge", "back")),
        )
        for stick in ("#2", "#1")
    ),
    *(
        Work(
            f"{stick}/groove/middle", "groove", GROOVE_MIDDLE, (cut(stick, "inside-edge", "face"),)
        )
        for stick in ("#2", "#1")
    ),
    *(
        Work(f"{stick}/square", "square", SQUARE, (cut(stick, "back", None, "larger"),))
        for stick in ("#1", "#2", "#3")
    ),
    *(crosscut("#1", mark, STILES) for mark in ("A1", "A2")),
    *(crosscut("#1", mark, RAILS) for mark in ("A3", "A4")),
    *(crosscut("#2", mark, RAILS) for mark in ("S1", "S2")),
    *(
        Work(
            f"{mark}/slot-{end}/first",
            "slot",
            SLOT,
            (p.Cut(mark, down, "face", None), p.Cut(mark, down, "back", None)),
        )
        for mark in ("A1", "A2")
        for end, down in ENDS
    ),
    *(
        Work(f"{mark}/slot-{end}/middle", "slot", SLOT_MIDDLE, (p.Cut(mark, down, "face", None),))
        for mark in ("A1", "A2")
        for end, down in ENDS
    ),
    *(
        Work(
            f"{mark}/shoulder-{end}",
            "shoulder",
            SHOULDER,
            (p.Cut(mark, "face", against, None), p.Cut(mark, "back", against, None)),
        )
        for mark in ("A3", "A4")
        for end, against in ENDS
    ),
    *(
        Work(
            f"{mark}/cheek-{end}",
            "cheek",
            CHEEK,
            (p.Cut(mark, down, "face", None), p.Cut(mark, down, "back", None)),
        )
        for mark in ("A3", "A4")
        for end, down in ENDS
    ),
    Work("A/dry-fit", "dry fit", None, marks=("A",)),
    crosscut("#3", "A5", PANELS),
    Work("A/glue-up", "glue-up", None, marks=("A",)),
    Work(
        "A/flush",
        "flush",
        None,
        removes=(
            *_proud("A1", STILE),
            *_proud("A2", STILE),
            *_proud("A3", RAIL),
            *_proud("A4", RAIL),
        ),
        marks=("A",),
    ),
)

Good = tuple[str, F, F, F, F]
"""A measure, its target, what is good below and above it, and how it answers to its knob."""

_FIT, _DEEP = F(1, 512), F(1, 64)

_TESTS: Mapping[Setting, tuple[str, tuple[p.Cut, ...], tuple[Good, ...]]] = {
    GROOVE: (
        "#2",
        (cut("#2", "inside-edge", "face"), cut("#2", "inside-edge", "back")),
        (
            ("channel-width/groove", F(1, 4), _FIT, _FIT, F(-2)),
            ("channel-depth/groove", F(1, 4), ZERO, _DEEP, F(1)),
        ),
    ),
    SLOT: (
        "S1",
        (cut("S1", "end-A", "face"), cut("S1", "end-A", "back")),
        (
            ("channel-width/slot", F(1, 4), _FIT, _FIT, F(-2)),
            ("channel-depth/slot", SLOT_DEPTH, ZERO, _DEEP, F(1)),
        ),
    ),
    SHOULDER: (
        "S2",
        tuple(p.Cut("S2", side, against, None) for _, against in ENDS for side in ("face", "back")),
        (
            ("shoulders", F(8), F(1, 128), F(1, 128), F(-2)),
            ("shoulder-depth", F(33, 128), _DEEP, ZERO, F(1)),
        ),
    ),
    CHEEK: (
        "S2",
        (cut("S2", "end-A", "face"), cut("S2", "end-A", "back")),
        (("tenon", F(15, 64), _FIT, _FIT, F(2)),),
    ),
}

_DRY: tuple[Good, ...] = (
    ("opening-width", F(8), F(1, 64), F(1, 64), ZERO),
    ("opening-height", F(12), F(1, 64), F(1, 64), ZERO),
    ("diagonals", ZERO, ZERO, F(1, 32), ZERO),
)


def _check(step: int, good: Good, setting: Setting | None, **values: object) -> p.Checkpoint:
    measure, target, below, above, per_unit = good
    knob = None if setting is None else "height" if "depth" in measure else setting.knob
    made = p.Checkpoint(
        at_step=step,
        before_step=step + 1,
        setup=None,
        measure=p.Measure.parse(measure),
        target=target,
        low=target - below,
        high=target + above,
        knob=knob,
        per_unit=None if setting is None else per_unit,
        feel=feels.ALIKE_ALONG(),
        scrap=None,
    )
    return replace(made, **values)  # type: ignore[arg-type]


def _box(x: tuple[F, F], y: tuple[F, F], z: tuple[F, F]) -> p.Box:
    return (x, y, z)


HANDS: dict[str, p.Hand] = {"A1": "right", "A2": "left", "A3": "left", "A4": "right", "A5": "left"}
"""Where the inside edge is, seen on the show face with end A up. End A is the top of uprights: the
hinge stile, on the left, looks into the door to its right. End A is the left of rails: turned up,
the top rail has below on its left, the bottom rail above on its right. The panel's inside edge is
the left one."""


def _parts() -> tuple[p.Part, ...]:
    full = (ZERO, F(2))
    parts = []
    for mark, name, rail_end in (("A1", "hinge stile", "A"), ("A2", "lock stile", "B")):
        parts.append(
            p.Part(
                mark,
                "A",
                "stile",
                by_name(name),
                "cherry",
                p.Size(STILE, F(2), THICK),
                (
                    p.Feature(
                        "slot",
                        "A",
                        _box((ZERO, SLOT_DEPTH), full, (F(1, 4), F(1, 2))),
                        f"A3/{rail_end}",
                    ),
                    p.Feature(
                        "slot",
                        "B",
                        _box((STILE - SLOT_DEPTH, STILE), full, (F(1, 4), F(1, 2))),
                        f"A4/{rail_end}",
                    ),
                    p.Feature(
                        "groove",
                        "inside-edge",
                        _box((ZERO, STILE), (ZERO, F(1, 4)), (F(1, 4), F(1, 2))),
                    ),
                ),
            )
        )
    for mark, name in (("A3", "top rail"), ("A4", "bottom rail")):
        cheeks = [
            p.Feature("cheek", at, _box(x, full, z), f"{stile}/{'A' if mark == 'A3' else 'B'}")
            for at, stile, x in (("A", "A1", (ZERO, TENON)), ("B", "A2", (RAIL - TENON, RAIL)))
            for z in ((ZERO, F(33, 128)), (F(63, 128), THICK))
        ]
        groove = p.Feature(
            "groove", "inside-edge", _box((ZERO, RAIL), (ZERO, F(1, 4)), (F(1, 4), F(1, 2)))
        )
        parts.append(
            p.Part(
                mark,
                "A",
                "rail",
                by_name(name),
                "cherry",
                p.Size(RAIL, F(2), THICK),
                (*cheeks, groove),
            )
        )
    parts.append(p.Part("A5", "A", "panel", by_name("panel"), "cherry", PANEL, ()))
    return tuple(replace(part, inside=HANDS[part.mark]) for part in parts)


def _door() -> p.Door:
    gap = F(1, 16)
    return p.Door(
        mark="A",
        job="hand",
        name=by_name("door"),
        opening=(F(97, 8), F(129, 8)),
        size=(F(12), F(16)),
        at=(gap, gap),
        hinge="left",
        gaps={"top": gap, "bottom": gap, "hinge": gap, "lock": gap},
        face_side="out",
        pair=("A",),
        places=(
            p.Place("A1", (F(2), 16 + F(1, 32), ZERO), ("-y", "-x", "+z")),
            p.Place("A2", (F(10), 16 + F(1, 32), ZERO), ("-y", "+x", "+z")),
            p.Place("A3", (-F(1, 32), F(14), ZERO), ("+x", "+y", "+z")),
            p.Place("A4", (-F(1, 32), F(2), ZERO), ("+x", "-y", "+z")),
            p.Place(
                "A5", (F(2) - F(3, 16), 14 + F(3, 16), F(1, 4) + F(1, 200)), ("-y", "+x", "+z")
            ),
        ),
    )


def _stick(
    mark: str, size: p.Size, blank: F, pieces: Sequence[tuple[str, F]], test: bool
) -> p.Stick:
    # Opposite hands lie head to tail. All these pieces have equal ends and a centred section:
    # either hand would do, and the marks decide. Test pieces lie as their stick does.
    start = F(1, 2)
    placed = []
    for piece, length in pieces:
        hand = HANDS.get(piece, "left")
        placed.append(p.StickPiece(piece, start, hand, piece in HANDS))
        start += length + KERF
    return p.Stick(
        mark, "cherry", size, p.Size(size.length, blank, size.thickness), tuple(placed), test
    )


def _sticks() -> tuple[p.Stick, ...]:
    return (
        _stick(
            "#1",
            p.Size(F(59), F(2), THICK),
            F(9, 4),
            (("A1", STILE), ("A2", STILE), ("A3", RAIL), ("A4", RAIL)),
            test=False,
        ),
        _stick("#2", p.Size(F(26), F(2), THICK), F(9, 4), (("S1", RAIL), ("S2", RAIL)), test=True),
        _stick(
            "#3",
            p.Size(F(14), PANEL.width, PANEL.thickness),
            PANEL.width + F(1, 4),
            (("A5", PANEL.length),),
            test=False,
        ),
    )


def _panel_last() -> Iterator[Work]:
    """The same, the panel ripped and squared when the frame has been tried dry."""
    late = ("#3/rip", "#3/square")
    for work in PANEL_FIRST:
        if work.operation not in late:
            yield work
        if work.operation == "A/dry-fit":
            yield from (each for each in PANEL_FIRST if each.operation in late)


WORKS = tuple(_panel_last())


def make(works: Sequence[Work] = WORKS) -> p.Plan:
    """The plan that does `works` in their order, its bookkeeping worked out from them."""
    setups: list[p.Setup] = []
    steps: list[p.Step] = []
    placed: list[p.Placed] = []
    checkpoints: list[p.Checkpoint] = []
    state: dict[str, str] = {}
    scale: dict[str, F] = {}
    minutes = ZERO
    current: Setting | None = None
    changed: dict[str, str] | None = None

    for work in works:
        setting = work.setting
        if setting is not None and setting != current:
            changed = {
                knob: value for knob, value in setting.state.items() if state.get(knob) != value
            }
            spent = sum(
                (
                    F(MINUTES[knob]) + (4 if "tested" in value else 0)
                    for knob, value in changed.items()
                ),
                ZERO,
            )
            minutes += spent
            before = dict(state)
            state |= changed
            scale = {knob: at for knob, at in scale.items() if state[knob] != "away"}
            move = None
            if setting.guide is not None:
                if setting.knob in scale:
                    move = setting.guide - scale[setting.knob]
                scale[setting.knob] = setting.guide
            setups.append(
                p.Setup(
                    number=len(setups) + 1,
                    cutter="blade",
                    kerf=KERF,
                    tilt=setting.tilt or ZERO,
                    carrier=setting.carrier,
                    guard=setting.guard,
                    height=setting.height + setting.deck,
                    depth=setting.height,
                    guide=setting.guide,
                    reading=setting.guide,
                    move=move,
                    saved=(),
                    minutes=spent,
                    cautions=(p.Caution("G02", "DANGER", cautions.G02(), "common practice"),),
                    changes=tuple(
                        p.Change(knob, before.get(knob), value) for knob, value in changed.items()
                    ),
                )
            )
            if "guard" in changed:
                kind: p.KindName = "refit guard" if setting.guard == "fitted" else "remove guard"
                steps.append(p.Step(len(steps) + 1, len(setups), kind, ()))
            if setting in _TESTS:
                mark, cuts, checks = _TESTS[setting]
                steps.append(p.Step(len(steps) + 1, len(setups), "test cut", (), cuts, (), (mark,)))
                checkpoints += (
                    _check(len(steps), good, setting, setup=len(setups), scrap=mark)
                    for good in checks
                )
        current = setting
        number = len(setups) if setting is not None else None
        marks = work.marks or tuple(dict.fromkeys(c.mark for c in work.cuts))
        steps.append(
            p.Step(
                len(steps) + 1, number, work.kind, (work.operation,), work.cuts, work.removes, marks
            )
        )
        placed.append(p.Placed(work.operation, 0, dict(state)))
        if work.kind == "crosscut" and changed is not None and setting is not None:
            long = ("length", setting.guide or ZERO, _DEEP, _DEEP, F(1))
            on = {"setup": number, "marks": marks, "before_step": len(steps)}
            checkpoints.append(_check(len(steps), long, setting, **on))
        if work.kind == "dry fit":
            checkpoints += (_check(len(steps), good, None, marks=marks) for good in _DRY)
        changed = None
    return p.Plan(
        unit="in",
        jobs=("hand",),
        shop=p.ShopFacts(
            "shop",
            F(1, 64),
            DECKS,
            "slot",
            ZERO,
            F(6),
            F(60),
            F(12),
            F(3),
            "block",
            "tunnel",
            {"blade": {"kind": "blade"}},
        ),
        doors=(_door(),),
        parts=_parts(),
        sticks=_sticks(),
        setups=tuple(setups),
        steps=tuple(steps),
        checkpoints=tuple(checkpoints),
        scrap=(
            p.Scrap("S1", "#2", p.Size(RAIL, F(2), THICK), (9, 10)),
            p.Scrap("S2", "#2", p.Size(RAIL, F(2), THICK), (12,)),
        ),
        ordering=p.Ordering(
            knobs=tuple(
                p.Knob(
                    name,
                    F(cost),
                    {
                        value: F(cost) + 4
                        for value in sorted(
                            {w.setting.state.get(name, "") for w in works if w.setting is not None}
                        )
                        if "tested" in value
                    },
                )
                for name, cost in MINUTES.items()
            ),
            operations=tuple(
                p.ProblemOperation(
                    w.operation,
                    (
                        p.Alternative(
                            ZERO,
                            {
                                knob: (value,)
                                for knob, value in (w.setting.state.items() if w.setting else ())
                            },
                        ),
                    ),
                )
                for w in works
            ),
            before=tuple(
                edge for edge in _before() if {edge[0], edge[1]} <= {w.operation for w in works}
            ),
            order=tuple(placed),
            minutes=minutes,
            bound=minutes,
            proven=False,
            setups=len(setups),
            baselines=(p.Baseline("door-by-door", F(99), 30),),
        ),
        methods=(p.Method({"slot": "turned"}, minutes, True, True),),
        assumptions=(shops.SLED_DECK(value=Length(F(1, 2), "in")),),
        notes=(),
    )


def _before() -> list[tuple[str, str, Fact]]:
    stick_of = {"A1": "#1", "A2": "#1", "A3": "#1", "A4": "#1", "S1": "#2", "S2": "#2", "A5": "#3"}
    edges = []
    for stick in ("#1", "#2"):
        edges += [
            (f"{stick}/rip", f"{stick}/groove/first", reasons.LENGTH()),
            (f"{stick}/groove/first", f"{stick}/groove/middle", reasons.BENCH()),
            (f"{stick}/groove/middle", f"{stick}/square", reasons.LONG()),
        ]
    edges.append(("#3/rip", "#3/square", reasons.LONG()))
    chain: dict[str, str] = {}
    for mark, stick in stick_of.items():
        edges.append((chain.get(stick, f"{stick}/square"), f"{mark}/crosscut", reasons.CHAIN()))
        chain[stick] = f"{mark}/crosscut"
    for mark in ("A1", "A2"):
        for end in "AB":
            edges += [
                (f"{mark}/crosscut", f"{mark}/slot-{end}/first", reasons.LENGTH()),
                (f"{mark}/slot-{end}/first", f"{mark}/slot-{end}/middle", reasons.BENCH()),
                (f"{mark}/slot-{end}/middle", "A/dry-fit", reasons.WHOLE_JOINT()),
            ]
    for mark in ("A3", "A4"):
        for end in "AB":
            edges += [
                (f"{mark}/crosscut", f"{mark}/shoulder-{end}", reasons.LENGTH()),
                *(
                    (f"{mark}/shoulder-{end}", f"{mark}/cheek-{other}", reasons.SHOULDER_FIRST())
                    for other in "AB"
                ),
                (f"{mark}/cheek-{end}", "A/dry-fit", reasons.WHOLE_JOINT()),
            ]
    return [
        *edges,
        ("A/dry-fit", "A5/crosscut", reasons.MEASURED()),
        ("A5/crosscut", "A/glue-up", reasons.FINISHED()),
        ("A/glue-up", "A/flush", reasons.BENCH()),
    ]
