"""A look at the first piece in place of a cut on scrap: where it is taken, what it saves, and that
plan, proof, paper, page and simulated shops go along with it."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from random import Random
from statistics import NormalDist

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sequencer.contract import from_json, to_json
from sequencer.errors import InternalError
from sequencer.facts import feels, notes
from sequencer.job.load import load_job
from sequencer.job.schema import Shop
from sequencer.job.shop import load_shop
from sequencer.pipeline import plan
from sequencer.plan import SCRAP_STEPS, Checkpoint, Plan
from sequencer.proof import prove
from sequencer.records import replace
from sequencer.saved.evidence import Reading
from sequencer.saved.store import Store
from sequencer.scales import Scale
from sequencer.setups.looks import LEAST_KNOWN, LOOK, MOST_AGAIN, MOST_SPOILED, SPOILED, looks_do
from sequencer.sheets import html
from sequencer.shelf import Shelf
from sequencer.trade import fits
from tests.reader.whole import read_back
from tests.saved.test_known_saw import HUTCH, OWN
from tests.saved.test_story import FIRST
from tests.sawside.driver import exact
from tests.sawside.test_saving import Keeping
from tests.simulator import shops
from tests.simulator.shopwork import SHOPS

JOB = load_job(FIRST, "job.toml")
SHOP = load_shop(OWN, "shop.toml", "in")


def scale(knob: str = "height", spread: str = "0.0015", count: int = 12) -> Scale:
    """The scale of the tenoning jig's height, or of the jig, as it was read to be right."""
    return Scale(
        "combination", "tenoning-jig", knob, Fraction(0), Fraction(spread), count,
        step=Fraction(1, 2000),
    )  # fmt: skip


def made_with(*scales: Scale, shop: Shop = SHOP) -> Plan:
    return plan([JOB], shop, None, Shelf.of([], "in", scales))


def looks(made: Plan) -> list[Checkpoint]:
    return [check for check in made.checkpoints if check.looked_at]


@pytest.fixture(scope="module")
def made() -> Plan:
    return made_with(scale())


def test_a_depth_that_is_known_is_looked_at_on_the_first_piece(made: Plan) -> None:
    """The second depth of slot, at a jig that stays: nothing is left to be tried on scrap."""
    (look,) = looks(made)
    step = made.steps[look.at_step - 1]
    assert (look.before_step, look.scrap, step.kind) == (step.number, None, "slot")
    assert step.cuts[0].mark == look.marks[0]
    assert not [s for s in made.steps if s.setup == look.setup and s.kind in SCRAP_STEPS]
    assert made.proven
    # Its test piece is cut along and is told to be for this setup, as a spare.
    (spare,) = [scrap for scrap in made.scrap if scrap.mark == look.stands_by]
    assert look.setup in spare.serves
    assert spare.mark not in {
        cut.mark for s in made.steps if s.kind in SCRAP_STEPS for cut in s.cuts
    }
    assert look.feel == feels.FIRST_PIECE(spare=spare.mark)
    assert from_json(to_json(made)) == made


def test_the_sheet_says_what_to_do_and_takes_fewer_minutes(made: Plan) -> None:
    (look,) = looks(made)
    page = html(made, "letter").lower()
    assert "cut the first piece, measure it, then go on" in page
    assert "a look at the first piece in place of a cut on scrap" in page
    unknown = plan([JOB], SHOP)
    checked = made_with(scale(count=LEAST_KNOWN - 1))
    assert not looks(checked)
    times = SHOP.minutes
    cost = made.setups[(look.setup or 0) - 1].minutes
    before = {s.height: s.minutes for s in checked.setups}[made.setups[look.setup - 1].height]  # type: ignore[operator]
    assert before - cost == (1 - LOOK) * times.check_cut
    (saves,) = [note for note in made.notes if note.kind is notes.KNOWING_SAVES]
    # Against the same setups unknown: a test cut each, less what they take now.
    alike = {(s.carrier, s.height, s.guide): s.minutes for s in unknown.setups}
    now = {(s.carrier, s.height, s.guide): s.minutes for s in made.setups}
    assert alike.keys() == now.keys()
    assert saves.given["minutes"] == unknown.ordering.minutes - made.ordering.minutes
    assert made.ordering.minutes < checked.ordering.minutes < unknown.ordering.minutes


@pytest.mark.parametrize(
    ("known", "shop"),
    [
        pytest.param(scale(spread="0.006"), OWN, id="it scatters"),
        pytest.param(scale(count=2), OWN, id="read too seldom", marks=pytest.mark.large),
        pytest.param(
            scale(),
            OWN + "[minutes]\ncheck_cut = 0\n",
            id="a check costs nothing",
            marks=pytest.mark.large,
        ),
        pytest.param(
            scale(),
            OWN + "[tools]\ncaliper = false\n",
            id="nothing to measure it with",
            marks=pytest.mark.large,
        ),
        pytest.param(scale("jig", "0.0001", 40), OWN, id="a fit hangs on it"),
    ],
)
def test_scrap_is_cut_where_a_look_does_not_do(known: Scale, shop: str) -> None:
    assert not looks(made_with(known, shop=load_shop(shop, "shop.toml", "in")))


@given(
    st.integers(1, 200), st.integers(3, 40), st.integers(0, 12), st.integers(0, 12),
    st.integers(0, 16), st.integers(0, 40),
)  # fmt: skip
def test_the_rule_is_what_is_expected_to_be_cheaper(
    spread: int, count: int, little: int, much: int, cut: int, again: int
) -> None:
    """Against the expected minutes of either way, by the standard library's normal distribution."""
    known = replace(scale(count=count), spread=Fraction(spread, 10_000))
    span = (1 - Fraction(little, 500), 1 + Fraction(much, 500))
    minutes = replace(SHOP.minutes, check_cut=Fraction(cut, 4), test_cut=Fraction(again, 4))
    stands = NormalDist(1, known.sigma)
    shallow, deep = stands.cdf(float(span[0])), 1 - stands.cdf(float(span[1]))
    look = float(LOOK * minutes.check_cut) + shallow * float(minutes.test_cut)
    look += deep * float(SPOILED)
    check = float(minutes.check_cut) + (shallow + deep) * float(minutes.test_cut)
    assume(abs(look - check) > 1e-6)
    assume(min(abs(deep - MOST_SPOILED), abs(shallow - MOST_AGAIN)) > 1e-9)
    wanted = look < check and deep <= MOST_SPOILED and shallow <= MOST_AGAIN
    assert looks_do(known, span, Fraction(1), minutes) == wanted


def _known_otherwise(made: Plan, **changed: object) -> Plan:
    (look,) = looks(made)
    setups = tuple(
        replace(s, known=tuple(replace(k, **changed) if k.knob == "height" else k for k in s.known))  # type: ignore[arg-type]
        if s.number == look.setup
        else s
        for s in made.setups
    )
    return replace(made, setups=setups)


def _look_otherwise(made: Plan, **changed: object) -> Plan:
    checks = tuple(replace(c, **changed) if c.looked_at else c for c in made.checkpoints)  # type: ignore[arg-type]
    return replace(made, checkpoints=checks)


HARMS: dict[str, Callable[[Plan], Plan]] = {
    "it scatters": lambda made: _known_otherwise(made, spread=Fraction("0.008")),
    "it was read once": lambda made: _known_otherwise(made, count=1),
    "nothing is known": lambda made: _known_otherwise(made, spread=None),
    "no test piece is left": lambda made: _look_otherwise(
        made, feel=feels.FIRST_PIECE(spare="#9z")
    ),
    "another piece is measured": lambda made: _look_otherwise(
        made,
        marks=(made.steps[looks(made)[0].at_step - 1].cuts[-1].mark,),
    ),
    "it is not made": lambda made: replace(
        made, checkpoints=tuple(c for c in made.checkpoints if not c.looked_at)
    ),
    "it is made by a rule": lambda made: _look_otherwise(made, tool="rule"),
    "a fit is left to it": lambda made: replace(
        made,
        checkpoints=tuple(
            replace(c, scrap=None, marks=("A1",), before_step=c.at_step)
            if str(c.measure) == "channel-width/slot"
            else c
            for c in made.checkpoints
        ),
    ),
}


@pytest.mark.parametrize("name", HARMS)
def test_the_proof_allows_no_other_look(made: Plan, name: str) -> None:
    harmed = HARMS[name](made)
    assert harmed != made
    with pytest.raises(InternalError):
        prove(harmed)


def test_paper_and_page_are_read_back(made: Plan) -> None:
    """By the reader that knows no room of the program: it saws the doors from both."""
    assert read_back(made, [JOB], SHOP) == []


def test_shops_that_follow_it_break_no_must(made: Plan) -> None:
    tally = shops.simulated(shops.read(made), SHOPS[0], 60, Random(1))
    musts = [count for count in tally.counts.values() if count.told is None]
    assert all(count.inside == count.seen for count in musts)
    shares = [count for count in tally.counts.values() if count.told is not None and count.seen]
    assert shares


@pytest.fixture(scope="module")
def settings(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store in which the height of the tenoning jig was read four times."""
    path = tmp_path_factory.mktemp("look") / "settings.sqlite"
    number = Fraction(2)
    with Store(path, lambda: "now") as store:
        store.note(
            Reading(
                str(n), f"2025-11-2{n}", "case", "shed saw k3f9", "", "combination", 0,
                "tenoning-jig", "height", Fraction(1, 8), "in", number, number,
                "channel-depth/slot", number, number, Fraction(1), "caliper",
            )
            for n in range(4)
        )  # fmt: skip
    return path


@pytest.fixture
def saw(settings: Path, tmp_path: Path) -> Keeping:
    """At the look of a job whose scale earlier jobs have told."""
    (tmp_path / "settings.sqlite").write_bytes(settings.read_bytes())
    saw = Keeping(tmp_path / "events.sqlite", HUTCH)
    saw.go(lambda c, u: u.point is not None and c.points[u.point].looked_at)
    return saw


def test_what_is_not_deep_enough_is_cut_again_and_what_is_too_deep_is_spoiled(
    saw: Keeping,
) -> None:
    card = saw.card
    (point,) = card.points
    assert card.kind == "work"
    assert [unit.point for unit in card.units[:3]] == [None, 0, None]
    shallow, deep = point.low - fits.OVERLAP.of("in"), point.high + fits.DEPTH_BAND.of("in")
    said = saw.read(exact(shallow, saw.state))
    assert f"answer.cut-deeper(mark={point.marks[0]})" in said
    assert saw.card == card
    assert saw.unit.point == 0  # it is measured again before the next piece is cut
    refused = saw.send(kind="tick", card=card.key, unit=card.units[2].name)
    assert not refused.kept
    said = saw.read(exact(deep, saw.state))
    assert f"answer.too-deep(mark={point.marks[0]}" in said
    assert saw.unit.point == 0
    saw.do(kind="spoil", mark=point.marks[0])
    # The next piece is the first then, and is measured before all others.
    assert (saw.card.key, saw.unit.of) == (card.key, card.units[2].of)
    saw.tick()
    assert saw.unit.point == 0
    # Once it is good the setting is kept, as one that was dialled in on scrap.
    said = saw.read(saw.wanted())
    assert "answer.kept" in said
    assert card.setup is not None
    with Store(saw.settings, lambda: "now") as store:
        (kept,) = [e for e in store.entries() if e.carrier == card.setup.carrier][-1:]
    (height,) = [knob for knob in kept.knobs if knob.knob == "height"]
    assert height.measured == point.target
    saw.finish()
    assert saw.state.plan.proven
