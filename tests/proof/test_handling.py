"""Hands and waste: the hand-worked plan told by hand, every slip in it caught where it is.

Numbers are worked on paper from those at the head of `tests/proof/hand.py`.
"""

from __future__ import annotations

import ast
import inspect
import json
from collections.abc import Iterator
from fractions import Fraction as F  # noqa: N817

import pytest

from sequencer import safety
from sequencer.contract import from_json, to_json
from sequencer.errors import InternalError
from sequencer.facts import Fact
from sequencer.plan import Cut, Freed, Hold, KerfSide, Plan, Waste
from sequencer.plan.handling import By, Lands
from sequencer.proof import handling, prove
from sequencer.records import replace
from tests.proof import change, hand
from tests.proof.test_mutants import sample
from tests.safety.build import rip

CHIPS_PAST = Waste("chips", None, None, "past")
CHIPS_STILL = Waste("chips", None, None, "still")
CHIPS_LIFTED = Waste("chips", None, None, "lifted")
STRIP = Waste("strip", "open", "table", "past")
OFFCUT = Waste("offcut", "open", "deck", "still")
REST = Waste("rest", "open", "deck", "still")
CHEEK = Waste("cheek", "open", "table", "still")

SQUARED = {"#1": F(117, 2), "#2": F(51, 2), "#3": F(27, 2)}
"""Each stick, less the 1/2 that is squared off."""
LAST = ("A4", "S2", "A5")
"""What comes off each stick last: 1 3/4, 1 1/8 and 1 are left."""
LENGTHS = {"A1": hand.STILE, "A2": hand.STILE, "A5": hand.PANEL.length}


def worked(kind: str, mark: str) -> tuple[Hold, Waste]:
    """`mark` is the piece that the step names."""
    if kind == "rip":  # 2 on the fence is no less than the 2 that asks for a push block
        wide = mark == "#3"
        by = Hold("hand" if wide else "push-stick", "guide", F(67, 8) if wide else F(2), "part")
        return by, STRIP  # 1/8 of it, beside the kerf
    if kind == "square":
        return Hold("hand", "open", SQUARED[mark]), Waste("offcut", "guide", "deck", "still")
    length = LENGTHS.get(mark, hand.RAIL)
    if kind == "crosscut":
        return Hold("hand", "guide", length, "part"), OFFCUT if mark in LAST else REST
    if kind == "groove":
        return Hold("push-block", None, F(7, 4), None, "down"), CHIPS_PAST
    if kind == "slot":
        return Hold("jig-clamp", None, length - F(57, 32)), CHIPS_STILL
    if kind == "shoulder":  # ten inches between the shoulders, and the tenon of the other end
        return Hold("hand", "open", length - F(65, 32)), CHIPS_LIFTED
    assert kind == "cheek", kind
    # Its shoulder was cut before, on the test piece too.
    return Hold("jig-clamp", None, length - F(129, 64)), CHEEK


TRIED = {
    ("#2", "rip-fence"): "groove",
    ("S1", "tenoning-jig"): "slot",
    ("S2", "crosscut-sled"): "shoulder",
    ("S2", "tenoning-jig"): "cheek",
}


def told() -> Plan:
    """The hand-worked plan with hands and waste."""
    steps = []
    setups = {setup.number: setup for setup in hand.make().setups}
    for step in hand.make().steps:
        kind: str = step.kind
        if kind == "test cut":
            kind = TRIED[step.marks[0], setups[step.setup or 0].carrier]
        cuts = []
        for n, cut in enumerate(step.cuts):
            mark = step.marks[n] if kind == "crosscut" else cut.mark
            hold, waste = worked(kind, mark)
            cuts.append(replace(cut, hold=hold, waste=waste))
        steps.append(replace(step, cuts=tuple(cuts)))
    return replace(hand.make(), steps=tuple(steps))


PLAN = told()


def test_the_program_tells_what_was_worked_by_hand() -> None:
    assert safety.handled(hand.make(), rip().shop) == PLAN


def test_what_was_worked_by_hand_is_proven() -> None:
    assert prove(PLAN)
    assert from_json(to_json(PLAN)) == PLAN


def test_other_programs_read_them_at_each_cut() -> None:
    cut = json.loads(to_json(PLAN))["steps"][1]["cuts"][0]
    assert (cut["mark"], cut["hold"], cut["waste"]) == (
        "#1",
        {"by": "push-stick", "side": "guide", "reach": "2", "captive": "part", "pressed": None},
        {"what": "strip", "side": "open", "lands": "table", "ended": "past"},
    )


def test_a_plan_that_is_older_tells_nothing_of_them() -> None:
    assert prove(hand.make())


def fault(plan: Plan) -> Fact:
    """What a plan is refused for: where, and in it what."""
    with pytest.raises(InternalError) as error:
        prove(plan)
    (found,) = error.value.says
    assert isinstance(found, Fact)
    return found


def slips(cut: Cut) -> Iterator[tuple[str, Cut]]:
    """Every wrong word on hands and waste of one pass, with what it is to be called."""
    hold, waste = cut.hold, cut.waste
    assert hold is not None
    assert waste is not None
    yield "handling.untold", replace(cut, hold=None)
    yield "handling.untold", replace(cut, waste=None)
    for side in ("guide", "open", None):
        if side != hold.side:
            yield "handling.held", replace(cut, hold=replace(hold, side=side))
    for reach in (hold.reach / 2, hold.reach + F(1, 64)):
        yield "handling.reaches", replace(cut, hold=replace(hold, reach=reach))
    for captive in ("part", "rest", None):
        if captive != hold.captive:
            yield "handling.captive", replace(cut, hold=replace(hold, captive=captive))
    for pressed in ("down", "to-fence", None):
        if pressed != hold.pressed:
            yield "handling.pressed", replace(cut, hold=replace(hold, pressed=pressed))
    by: By = "hand" if hold.by == "jig-clamp" else "jig-clamp"
    yield "handling.no-grip", replace(cut, hold=replace(hold, by=by))
    if waste.what == "chips":
        fallen = Waste("offcut", "open", "table", waste.ended)
        yield "handling.falls", replace(cut, waste=fallen)
    else:
        other: KerfSide = "guide" if waste.side == "open" else "open"
        lands: Lands = "deck" if waste.lands == "table" else "table"
        what: Freed = "cheek" if waste.what == "offcut" else "offcut"
        for wrong in (
            Waste("chips", None, None, waste.ended),
            replace(waste, side=other),
            replace(waste, lands=lands),
            replace(waste, what=what),
        ):
            yield "handling.falls", replace(cut, waste=wrong)
    for ended in ("past", "lifted", "still"):
        if ended != waste.ended:
            yield "handling.ended", replace(cut, waste=replace(waste, ended=ended))


KINDS = ("rip", "square", "crosscut", "groove", "slot", "shoulder", "cheek", "test cut")


@pytest.mark.parametrize("kind", KINDS)
def test_every_slip_is_caught_at_its_step_and_piece(kind: str) -> None:
    step = change.of_kind(PLAN, kind)
    cut = step.cuts[0]
    names = set()
    for name, wrong in slips(cut):
        found = fault(change.cuts(PLAN, step.number, (wrong, *step.cuts[1:])))
        what = found.given["what"]
        assert isinstance(what, Fact)
        assert (what.id, found.given["step"]) == (name, step.number)
        assert found.given["piece"] in (*step.marks, cut.mark)
        names.add(name)
    assert {"handling.untold", "handling.held", "handling.falls", "handling.ended"} <= names


def test_a_hand_that_would_come_too_near_is_caught() -> None:
    """Two inches between blade and fence are pushed with a stick (warnings printed with table saws:
    under 150 mm); on the sled a hand wants 3 (`Modern Cabinetmaking`, p. 406) and its own breadth,
    3 1/2 (from memory)."""
    step = change.of_kind(PLAN, "rip")
    hold = step.cuts[0].hold
    assert hold is not None
    held = replace(step.cuts[0], hold=replace(hold, by="hand"))
    found = fault(change.cuts(PLAN, step.number, (held, *step.cuts[1:])))
    assert "too-near(by=by.hand, found=2 in, least=6 in)" in str(found)
    assert handling.GRIPS["sled", True]["hand"] == (F(13, 2), F(165))


def test_no_knife_stands_behind_a_grooving_head() -> None:
    step = change.of_kind(PLAN, "crosscut")
    assert step.setup is not None
    assert PLAN.setups[step.setup - 1].guard == "knife"
    shop = replace(PLAN.shop, cutters={"blade": {"kind": "dado"}})
    assert "knife-on-head" in str(fault(replace(PLAN, shop=shop)))


def test_every_predicate_names_its_source() -> None:
    for row in (*handling.PLACED, *handling.TOLD):
        said = inspect.getdoc(row) or ""
        assert "seen)" in said or "worked out" in said, row.__name__
    tree = ast.parse(inspect.getsource(handling))
    rows = {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}
    asked = {row.__name__ for row in (*handling.PLACED, *handling.TOLD)}
    assert {name for name in rows if not name.startswith("_")} == asked


def test_slips_in_random_plans_are_caught(large: bool) -> None:
    """Each of some passes of random plans, one wrong word at a time."""
    tried = 0
    for plan in sample(12 if large else 2):
        passes = [(step, n) for step in plan.steps for n in range(len(step.cuts))]
        for step, n in passes[:: 5 if large else 25]:
            for name, wrong in slips(step.cuts[n]):
                cuts = (*step.cuts[:n], wrong, *step.cuts[n + 1 :])
                found = fault(change.cuts(plan, step.number, cuts))
                assert found.given["step"] == step.number, (name, found)
                tried += 1
    assert tried > 50
