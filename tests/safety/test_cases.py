"""Rules without a figure: a pass that meets each, and its neighbours that do not.

Each row names one of the publications, as the rule's list has it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import pytest

from sequencer.plan import Change
from sequencer.records import replace
from sequencer.safety.moments import Moment
from sequencer.safety.review import PREDICATES
from sequencer.safety.rules import limits, load
from tests.safety import test_thresholds
from tests.safety.build import (
    bevel,
    cheek,
    crosscut,
    end_bevel,
    groove,
    housing,
    mitre,
    rail,
    rebate,
    rip,
    shoulder,
    strip,
)

F = Fraction


@dataclass(frozen=True)
class Case:
    """`met` reports `level` with the text `text`; `spared` passes report nothing."""

    rule: str
    met: Moment
    level: str
    spared: tuple[Moment, ...]
    source: str
    text: str = ""


def done(*marks: tuple[str, str]) -> frozenset[tuple[str, str]]:
    return frozenset(marks)


RAIL = rail()
SHOULDERED = done(("A", "shoulder face"), ("A", "shoulder back"))
# A face cheek lies from 0 to 1/4: a fence-side guide of 1/8 and a 1/8 kerf leave it there.
TRAPPING = cheek(part=RAIL, guide=F(1, 8), done=SHOULDERED)

# Two cutters, the smaller named first: 14 in is the largest, and 8 less than three fifths of it.
LARGE = rip().cutter
TWO = (replace(LARGE, name="small", diameter=F(8)), replace(LARGE, diameter=F(14)))

CASES = (
    Case("A04", rip(keeps="far", width=F(5)), "refuse",
         (rip(width=F(5)), crosscut(keeps="far", guide=F(1)), groove(keeps="far")),
         "on shoulder cuts"),
    Case("A06", crosscut(keeps="far"), "refuse",
         (crosscut(), crosscut(keeps="far", guide=None), shoulder(keeps="far"), rip(keeps="far")),
         "on crosscutting"),
    Case("A11", crosscut(guide=None, stands={"stop": "16"}), "refuse",
         (crosscut(guide=None, stands={"stop": "away", "fence": "away"}),
          crosscut(stands={"stop": "16"})),
         "on crosscutting"),
    Case("A11", crosscut(stands={"stop": "16", "fence": "2"}), "refuse",
         (rip(stands={"fence": "2"}),),
         "believed IEC/EN 62841-3-1", "fence"),
    Case("B05", rip(), "caution", (rip(guide=F(15, 8)), crosscut(guide=F(3))),
         "manual of a US table saw"),
    Case("B05", groove(guide=F(3), guard="fitted"), "caution",
         (groove(guide=F(3)), groove(guard="fitted"), crosscut()), "believed IEC/EN 62841-3-1",
         "groove"),
    Case("B06", groove(guard="fitted"), "caution",
         (groove(), groove(guide=F(2), guard="fitted"), cheek()), "believed IEC/EN 62841-3-1",
         "groove"),
    Case("B07", rip(guide=F(7), width=F(10)), "caution",
         (rip(), rip(guide=F(1)), groove(), crosscut(), cheek()), "WorkSafe New Zealand"),
    Case("B03", crosscut(guide=F(5), clamp=False), "warn",
         (crosscut(guide=F(5)), crosscut(guide=F(6), clamp=False),
          shoulder(length=F(5), clamp=False)), "on short work"),
    Case("B04", shoulder(length=F(6), clamp=False), "warn", (shoulder(length=F(6)), cheek()),
         "woodworking club"),
    Case("B09", shoulder(length=F(6), clamp=False), "warn", (shoulder(length=F(6)),),
         "SafeWork NSW"),
    Case("B08", groove(length=F(10)), "warn", (rip(length=F(10)), shoulder(length=F(10))),
         "on small parts"),
    Case("C03", rip(guard="knife"), "refuse", (rip(), groove(), crosscut()), "8 CCR 4300.1"),
    Case("C03", crosscut(guard="cover"), "warn", (crosscut(guard="knife"), shoulder()),
         "29 CFR 1910.213(c)(2)", "sled"),
    Case("C04", rip(guard="knife"), "refuse", (rip(), groove()), "29 CFR 1910.213(c)(1)"),
    Case("C04", crosscut(cover=None), "warn", (crosscut(cover=None, guard="fitted"), shoulder()),
         "29 CFR 1910.213(d)(1)", "sled"),
    Case("C04", crosscut(), "caution", (shoulder(),), "WAC 296-806-48012", "sled"),
    Case("C04", crosscut(guide=None), "caution", (), "WAC 296-806-48012", "square"),
    Case("C05", rip(knife_thickness=F(1, 8)), "refuse",
         (rip(knife_thickness=None), groove(knife_thickness=F(1, 8)),
          rip(knife_thickness=F(3, 32), plate=None)), "UK HSE, Circular saw bench"),
    Case("C08", rip(unguarded=True), "refuse",
         (rip(), groove(unguarded=True), crosscut(unguarded=True)), "WAC 296-307-18512"),
    Case("C09", groove(hold_down=" "), "refuse", (rip(hold_down=""), crosscut(hold_down="")),
         "29 CFR 1910.213(a)(14)–(15)"),
    Case("C09", groove(), "caution", (groove(guard="fitted"),), "8 CCR 4296", "groove"),
    Case("C09", groove(cover=None), "warn", (), "WAC 296-806-48002", "groove"),
    Case("C09", shoulder(hold_down=""), "caution", (), "8 CCR 4296", "sled"),
    Case("C09", shoulder(sweep=True), "caution", (), "8 CCR 4296", "sweep"),
    Case("C09", cheek(hold_down=""), "caution", (), "8 CCR 4296", "jig"),
    Case("C11", rip(diameter=F(8), cutters=TWO), "warn", (rip(diameter=F(9), cutters=TWO),),
         "UK HSE, WIS16"),
    Case("C13", rip(knobs=("cutter",)), "caution", (rip(knobs=("fence", "height")),),
         "woodworking club"),
    Case("C13", groove(knobs=("guard",)), "caution", (groove(knobs=("fence",)),),
         "believed IEC/EN 62841-3-1"),
    Case("D01", rip(kind="dado"), "refuse", (rip(), groove(kind="dado")), "on dado sets"),
    Case("D02", groove(kind="dado", tilt=F(1)), "refuse",
         (groove(kind="dado"), groove(tilt=F(1))), "on dado sets"),
    Case("D04", groove(kind="dado", dado=False), "refuse", (groove(dado=False), groove()),
         "UK HSE, WIS16"),
    Case("D05", cheek(kind="dado"), "warn", (cheek(), groove()), "on dado sets"),
    Case("D04", groove(kind="dado"), "caution", (groove(),), "common practice", "allowed"),
    Case("E01", shoulder(down="end-A"), "refuse", (cheek(), shoulder()),
         "manual of a tenoning jig"),
    Case("E01", rip(down="end-B", against="face"), "refuse", (rip(),), "common practice"),
    Case("E02", cheek(length=F(40)), "warn", (shoulder(length=F(40)),), "common practice"),
    Case("E03", TRAPPING, "refuse",
         (replace(TRAPPING, done=done()), cheek(part=RAIL, done=SHOULDERED),
          replace(TRAPPING, part=None), replace(TRAPPING, does="slot"),
          replace(TRAPPING, part=replace(RAIL, features=RAIL.features[2:])),
          cheek(part=RAIL, guide=F(0), done=SHOULDERED),
          cheek(part=RAIL, against="back", done=SHOULDERED)), "on shoulder cuts"),
    Case("E03", cheek(part=RAIL, guide=F(1, 8), against="back", done=SHOULDERED), "refuse",
         (cheek(part=RAIL, guide=F(1, 8), against="back", done=done(("A", "shoulder face"))),),
         "Modern Cabinetmaking (2016), p. 406"),
    # A cheek cut with the back against the jig took off the show face's waste.
    Case("E04", shoulder(down="face", done=done(("A", "cheek back"))), "refuse",
         (shoulder(down="face"), shoulder(down="face", done=done(("B", "cheek back"))),
          shoulder(down="back", done=done(("A", "cheek back")))), "manual of a tenoning jig"),
    Case("E04", shoulder(does="edge shoulder", down="inside-edge",
                         done=done(("A", "edge cheek outside-edge"))), "refuse",
         (shoulder(does="edge shoulder", down="inside-edge", done=done(("A", "cheek face"))),),
         "on shoulder cuts"),
    # The back against the jig: the face's waste falls on the open side, its shoulder being cut.
    Case("E09", cheek(against="back", flat_cuts={("face", "end-A"): F(1, 2)}), "caution",
         (cheek(against="back"), cheek(against="back", flat_cuts={("back", "end-A"): F(1, 2)}),
          cheek(against="back", flat_cuts={("face", "end-B"): F(1, 2)}),
          cheek(against="back", flat_cuts={("face", "end-A"): F(1, 64)}),
          shoulder(flat_cuts={("face", "end-A"): F(1, 2)})),
         "manual of a tenoning jig"),
    Case("E05", groove(width=F(8)), "warn",
         (rip(width=F(8)), shoulder(down="inside-edge", width=F(8))), "on tall fences for panels"),
    Case("E06", rip(tilt=F(10), keeps="far"), "refuse", (rip(tilt=F(-10), keeps="far"), rip()),
         "on trapped mitres"),
    Case("E06", rip(tilt=F(10)), "refuse", (crosscut(tilt=F(10)),), "on tilting toward the fence"),
    Case("E07", rip(width=F(9, 4)), "warn",
         (crosscut(guide=F(1, 4)), rip(), rip(width=F(17, 8))), "woodworking club"),
    Case("E07", crosscut(guide=F(1, 4), deck=F(0)), "warn", (), "woodworking club"),
    Case("F01", rip(guide=F(1)), "warn",
         (groove(guide=F(1)), crosscut(guide=F(1)), rip(guide=F(1), keeps="far")),
         "on thin strips"),
    # What falls off is a strip only under 1-1/2 in.
    Case("F02", rip(keeps="far", width=F(29, 8) - F(1, 64)), "refuse",
         (rip(keeps="far", width=F(29, 8)), rip()), "common practice"),
    Case("G05", rip(), "caution", (crosscut(length=F(36)), cheek(length=F(40))), "UK HSE"),
    Case("H01", shoulder(length=F(61)), "refuse", (cheek(length=F(61)), rip(length=F(61))), "ours"),
    Case("H02", shoulder(width=F(25)), "refuse",
         (cheek(width=F(25)), rip(width=F(25)), shoulder(width=F(25), down="inside-edge")), "ours"),
    Case("H05", cheek(diameter=F(8), height=F(25, 8)), "refuse",
         (cheek(height=F(25, 8)), cheek(diameter=F(8), height=F(13, 4))),
         "worked out from the geometry"),
    Case("H05", cheek(diameter=F(8), height=F(1), cutters=TWO), "refuse",
         (cheek(diameter=F(8), height=F(1, 8), cutters=TWO),), "worked out from the geometry"),
    Case("H03", cheek(against="outside-edge", width=F(4)), "refuse",
         (cheek(width=F(4)), shoulder(width=F(4))), "ours"),
    Case("H07", groove(part=rail(), length=F(12), done=test_thresholds.TENONED), "refuse",
         (groove(part=rail(), length=F(12)), groove(length=F(12), done=test_thresholds.TENONED),
          cheek(part=rail(), length=F(12), done=test_thresholds.TENONED)),
         "common practice"),
    Case("B07", rebate(guard="fitted"), "caution", (rebate(), groove(), bevel()),
         "WorkSafe New Zealand", "rebate"),
    Case("B08", end_bevel(width=F(10)), "warn", (end_bevel(),), "on small parts", "bevel"),
    Case("B09", mitre(length=F(6), clamp=False), "warn", (mitre(length=F(6)),), "SafeWork NSW"),
    Case("C09", rebate(), "caution", (rebate(guard="fitted"),), "8 CCR 4296", "rebate"),
    Case("C09", bevel(), "caution", (), "8 CCR 4296", "bevel"),
    Case("C09", bevel(hold_down=""), "refuse", (), "8 CCR 4296"),
    Case("C09", housing(), "caution", (), "8 CCR 4296", "housing"),
    Case("C09", housing(sweep=False), "caution", (), "8 CCR 4296", "sled"),
    # A housing's shoulder lies far from the tenon: nothing of it is freed.
    Case("E04", shoulder(down="face", done=done(("A", "cheek back"))), "refuse",
         (housing(down="face", done=done(("A", "cheek back"))),), "manual of a tenoning jig"),
    Case("C09", mitre(), "caution", (), "8 CCR 4296", "mitre"),
    Case("C09", mitre(cover=None), "warn", (), "WAC 296-806-48002", "mitre"),
    Case("D02", bevel(kind="dado"), "refuse", (), "on dado sets"),
    Case("E01", end_bevel(against="inside-edge"), "refuse", (end_bevel(), bevel()),
         "manual of a tenoning jig"),
    Case("E01", end_bevel(does="groove"), "refuse", (), "common practice"),
    Case("E02", end_bevel(length=F(40)), "warn", (bevel(length=F(40)),), "ours", "fence"),
    # A half-lap's waste is a slot that is open to a face: its back half is freed beside the jig.
    Case("E03", cheek(part=replace(RAIL, features=(replace(RAIL.features[1], kind="slot"),)),
                      guide=F(1, 8), against="back", done=SHOULDERED), "refuse",
         (cheek(part=replace(RAIL, features=()), guide=F(1, 8), against="back",
                done=SHOULDERED),), "on shoulder cuts"),
    Case("E06", bevel(tilt=F(1, 4)), "refuse", (bevel(), bevel(tilt=F(0))), "on trapped mitres"),
    Case("E06", bevel(tilt=F(1, 8)), "refuse", (bevel(tilt=F(-1, 8)),),
         "on tilting toward the fence"),
    Case("E07", strip(), "warn", (strip(guide=F(3, 8)),), "woodworking club"),
    Case("H02", mitre(width=F(25)), "refuse", (), "ours"),
    # A raised panel of 4 to 6 in is clamped to a riding board, as one of 6 to 12 is (B08).
    Case("J01", end_bevel(width=F(7, 2)), "refuse",
         (end_bevel(), end_bevel(width=F(5)), rip(length=F(5))), "common practice", "end"),
    # Flat first, the back down: the kerf is open to the back. On edge with the back against the
    # fence the strip is freed beside it.
    Case("J02", strip(against="back"), "refuse",
         (strip(), strip(against="back", done=done()),
          # A tongue's: the cut from the back was 1/4 in deep, the blade stands 1/2 in from there.
          strip(against="back", guide=F(1, 2), flat_cuts={("back", "inside-edge"): F(1, 4)}),
          strip(against="back", down="outside-edge"), rebate(), groove(against="back")),
         "Modern Cabinetmaking (2016), p. 406"),
    # On edge first, the face against the fence; then flat, that edge against the fence.
    Case("J02", rebate(against="inside-edge", guide=F(1, 8),
                       done=done(("inside-edge", "rebate face"))), "refuse",
         (rebate(done=done(("inside-edge", "rebate face"))),
          rebate(against="inside-edge", guide=F(1, 8), done=done(("outside-edge", "rebate face"))),
          rebate(against="inside-edge", guide=F(1, 8), done=done(("inside-edge", "rebate back")))),
         "on crosscutting"),
    Case("J03", mitre(sweep=False), "refuse", (mitre(), shoulder()), "on trapped mitres"),
    Case("J04", cheek(width=F(1)), "warn",
         (cheek(), shoulder(width=F(1))), "ours"),
    # 12.7 mm of edge on the jig is no more to stand by than as much of a face.
    Case("J04", cheek(thickness=F(1, 2), against="outside-edge"), "refuse", (), "ours", "edge"),
    Case("J04", cheek(against="outside-edge"), "warn",
         (cheek(thickness=F(3, 2), against="outside-edge"),), "common practice", "edge"),
    Case("E02", cheek(length=F(90)), "refuse", (shoulder(length=F(90)),),
         "worked out from the geometry", "tallest"),
    Case("F02", rip(keeps="far", guide=F(4), width=F(5)), "warn", (rip(guide=F(4), width=F(5)),),
         "common practice", "stop"),
    # A tongue of 1/8 in is left of 3/4 in stock.
    Case("J09", strip(guide=F(7, 16), against="back", down="outside-edge",
                      done=done(("outside-edge", "rebate face"))), "warn",
         (strip(), strip(guide=F(7, 16), against="back", down="outside-edge"),
          strip(guide=F(5, 8), against="back", down="outside-edge",
                done=done(("outside-edge", "rebate face")))), "ours"),
    Case("J10", rip(thickness=F(1, 8)), "warn", (groove(thickness=F(1, 8)), rip()),
         "manuals of table saws, on thin stock"),
    Case("J10", rip(thickness=F(1, 4)), "caution", (crosscut(thickness=F(1, 4)),), "ours", "gap"),
    Case("J05", bevel(knobs=("tilt",)), "caution", (bevel(), rip(knobs=("tilt",))),
         "on tilting toward the fence"),
    Case("J06", crosscut(tilt=F(-1, 8)), "warn", (bevel(), crosscut()), "common practice"),
    Case("J07", mitre(clamp=False), "warn", (mitre(), shoulder(clamp=False)), "on trapped mitres"),
    Case("J08", rip(changes=(Change("tilt", "-1 in 8", "0"),)), "caution",
         (rip(knobs=("tilt",)), bevel(changes=(Change("tilt", "0", "-1 in 8"),))),
         "common practice"),
)  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: f"{case.rule}-{case.level}")
def test_a_pass_meets_its_rule_and_its_neighbours_do_not(case: Case) -> None:
    figures, rule = limits("in", {}), load().by_id[case.rule]
    finding = PREDICATES[case.rule](case.met, figures)
    assert finding is not None
    assert (finding.rule, finding.level, finding.case) == (case.rule, case.level, case.text)
    assert case.text in rule.cases
    for spared in case.spared:
        assert PREDICATES[case.rule](spared, figures) is None
    assert case.source in rule.source


def test_every_predicate_is_tried() -> None:
    tried = {row.rule for row in test_thresholds.ROWS} | {case.rule for case in CASES}
    assert tried == set(PREDICATES)


def test_every_figure_that_a_predicate_uses_is_tried() -> None:
    tried = {row.bound for row in test_thresholds.ROWS}
    rules = load().by_id
    figures = {bound.name for name in PREDICATES for bound in rules[name].bounds}
    elsewhere = {
        "hand_breadth",  # what the hand takes of B04's reach
        "knife_gap",  # added to B02's open blade
        "cutter_to_largest",  # a share: C11's row has what comes of it
        "last_of_cut",  # printed, not compared
    }  # fmt: skip
    assert figures - tried == elsewhere


@pytest.mark.parametrize(
    "make",
    [rip, groove, crosscut, shoulder, cheek, rebate, bevel, end_bevel, housing, mitre],
)
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_ordinary_passes_are_neither_refused_nor_ticked(make: object, unit: str) -> None:
    moment = make(unit)  # type: ignore[operator]
    figures = limits(unit, {})  # type: ignore[arg-type]
    found = [predicate(moment, figures) for predicate in PREDICATES.values()]
    assert [each for each in found if each is not None and each.level != "caution"] == []
