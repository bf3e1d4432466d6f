"""The rules as data: complete, sourced, and only ever made stricter."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from importlib.resources import files
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sequencer.facts import cautions
from sequencer.lengths import Unit
from sequencer.safety.bench import MET_BY
from sequencer.safety.review import PREDICATES
from sequencer.safety.rules import LEVELS, WORDS, Bound, Rule, Seen, limits, load
from sequencer.safety.telling import hazard_kind
from sequencer.wording.hazards import HAZARDS

RULES = tuple(load().by_id.values())


def test_every_rule_has_a_predicate_a_page_or_a_reason() -> None:
    standing = set(load().standing)
    for rule in RULES:
        looked_for = rule.id in PREDICATES or rule.id in MET_BY
        told = bool(rule.not_evaluated) or rule.elsewhere == "first page"
        assert looked_for != told, rule.id
        assert (rule.elsewhere == "first page") == (rule.id in standing and not looked_for), rule.id
    assert set(PREDICATES) | set(MET_BY) <= set(load().by_id)


def test_all_the_usual_groups_are_there() -> None:
    # Guidance, hands, blade and guard, grooves and dado sets, standing pieces, strips, always.
    usual = {"A": 12, "B": 9, "C": 15, "D": 7, "E": 9, "F": 3, "G": 9, "K": 3}
    assert sum(usual.values()) == 67
    for group, count in usual.items():
        ids = [rule.id for rule in RULES if rule.id[0] == group]
        assert ids == [f"{group}{n:02}" for n in range(1, count + 1)]


def test_what_leans_and_stands_has_its_group() -> None:
    ids = [rule.id for rule in RULES if rule.id[0] == "J"]
    assert ids == [f"J{n:02}" for n in range(1, 11)]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_a_rule_says_everything(rule: Rule) -> None:
    assert rule.level in LEVELS
    assert rule.when
    assert rule.sources
    met = rule.id in PREDICATES or rule.id in MET_BY
    assert bool(rule.cases) == (met or rule.id in load().standing)
    for name, case in rule.cases.items():
        told = HAZARDS[hazard_kind(rule.id, name)]
        assert told.hazard
        assert told.consequence
        assert told.avoidance
        assert bool(case.word) == bool(told.brief) or rule.id in load().standing
        assert {case.word, case.bare} <= {"", *WORDS}
        if case.tick:
            assert f"caution.tick-{case.tick}" in cautions.kind_of.kinds


def test_every_hazard_is_of_a_rule() -> None:
    told = {hazard_kind(rule.id, name) for rule in RULES for name in rule.cases}
    assert told == set(HAZARDS)


def test_a_bare_blade_is_a_danger_and_a_covered_one_a_warning() -> None:
    """ANSI Z535.6: DANGER will, WARNING could result in death or serious injury (from memory)."""
    bare = {rule.id for rule in RULES for case in rule.cases.values() if case.bare}
    assert bare == {"C04", "C09", "E08", "E09"}
    for rule in RULES:
        for case in rule.cases.values():
            assert case.bare in ("", "DANGER")
            assert not case.bare or case.word == "WARNING"
    # Only spoilt work is less than fingers or eyes.
    assert {r.id for r in RULES for case in r.cases.values() if case.word == "NOTICE"} == {"J08"}


def test_a_rule_that_warns_has_something_to_tick() -> None:
    # B06, C04, C09, J04 and J10 warn in some cases; refusals and cautions are not ticked.
    warning = {
        ("A08", ""), ("B03", ""), ("B04", ""), ("B06", ""), ("B08", ""), ("B08", "bevel"),
        ("B09", ""),
        ("C01", ""), ("C03", "sled"), ("C04", "sled"), ("C04", "square"), ("C11", ""), ("D05", ""),
        ("E02", ""), ("E02", "fence"), ("E05", ""), ("E07", ""), ("E08", ""), ("F01", ""),
        ("F02", "stop"), ("J04", ""), ("J04", "edge"), ("J06", ""), ("J07", ""), ("J09", ""),
        ("J10", ""),
        *(("C09", case) for case in
          ("groove", "sled", "sweep", "jig", "rebate", "bevel", "housing", "mitre")),
    }  # fmt: skip
    assert {(r.id, name) for r in RULES for name, case in r.cases.items() if case.tick} == warning


def test_sources_are_publications_and_all_are_used() -> None:
    raw = tomllib.loads(files("sequencer.safety").joinpath("rules.toml").read_text("utf-8"))
    used = {key for name, table in raw.items() if len(name) == 3 for key in table["sources"]}
    assert used == set(raw["sources"])


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.id)
def test_every_source_says_whether_its_words_were_read(rule: Rule) -> None:
    own = {"common practice", "worked out from the geometry", "ours"}
    for source in rule.sources:
        assert source.seen in get_args(Seen)
        assert (source.seen == "none") == (source.name in own)
        # What was not read says so wherever it is named.
        assert ("(from memory)" in str(source)) == (source.seen == "no")
        assert ("(at second hand)" in str(source)) == (source.seen == "quoted")
    # Nothing is ruled out, nor warned of, on the word of memory alone.
    assert any(source.seen != "no" for source in rule.sources)


@pytest.mark.parametrize("bound", load().bounds.values(), ids=lambda bound: bound.name)
def test_both_units_of_a_figure_agree(bound: Bound) -> None:
    if bound.ratio:
        assert bound.mm == bound.inch
        return
    # Round figures of each unit: as near as 12 mm to half an inch, no further.
    assert abs(bound.inch * Fraction(127, 5) / bound.mm - 1) <= Fraction(6, 100)


# Figures of the sources, in the unit that they are published in.
PUBLISHED = (
    ("push_stick_gap", Fraction(150), "mm"),  # warnings printed with saws, IEC/EN 62841-3-1
    ("push_block_gap", Fraction(50), "mm"),  # the same
    ("last_of_cut", Fraction(300), "mm"),  # UK HSE, Circular saw bench: last 300 mm of any cut
    ("hand_to_blade", Fraction(75), "mm"),  # Modern Cabinetmaking (2016), p. 406
    ("hand_to_blade_warned", Fraction(150), "mm"),  # manuals of table saws
    ("shortest_crosscut", Fraction(6), "in"),  # a US saw manual: 6 in unless clamped
    ("knife_gap_most", Fraction(8), "mm"),  # EN 1870-19: 3 to 8 mm; UK HSE: at most 8
    ("guard_above_work", Fraction(1, 4), "in"),  # 8 CCR 4300.1; WAC 296-806-48012
    ("dado_width", Fraction(20), "mm"),  # EN 1870-1:2007, scope: in one pass
    ("dado_width", Fraction(13, 16), "in"),  # a US saw manual
    ("dado_diameter", Fraction(8), "in"),  # a US saw manual, on a 10 in saw
    ("cutter_to_largest", Fraction(3, 5), "mm"),  # UK HSE, WIS16: 60 percent
    ("blade_above_work", Fraction(1, 4), "in"),  # a school's rules
    ("thin_at_fence", Fraction(1, 8), "in"),  # manuals of US table saws, on thin stock
    ("fence_contact_across_grain", Fraction(12), "in"),  # a woodworking club
    ("fence_past_teeth", Fraction(18), "mm"),  # UK HSE, Circular saw bench: at most 18 mm overlap
)


@pytest.mark.parametrize(("name", "figure", "unit"), PUBLISHED)
def test_a_figure_is_the_published_one(name: str, figure: Fraction, unit: Unit) -> None:
    assert load().bounds[name].in_unit(unit) == figure


@given(
    st.sampled_from(sorted(load().bounds)),
    st.sampled_from(["in", "mm"]),
    st.fractions(min_value=0, max_value=2000),
)
def test_a_shop_can_only_be_stricter(name: str, unit: Unit, value: Fraction) -> None:
    bound = load().bounds[name]
    own, held = bound.in_unit(unit), limits(unit, {name: value})[name]
    if bound.side == "least":
        assert held == max(own, value)
    else:
        assert held == min(own, value)
    assert bound.loosens(value, unit) == (held != value)


def test_checks_are_few_and_serve_a_rule() -> None:
    # Seven at most, as for any list that is read and done.
    assert len(load().before_power) <= 7
    assert len(load().before_leaving) <= 7
    for check in (*load().before_power, *load().before_leaving):
        assert check.rule in load().by_id
        assert f"caution.check-{check.check}" in cautions.kind_of.kinds
