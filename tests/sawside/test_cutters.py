"""A plan with two cutters: values carry their cutter's name, and a dado set's kerf is the slot."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from sequencer.facts import cards
from sequencer.plan import Plan
from sequencer.sawside import view
from sequencer.sawside.faces import face
from sequencer.sawside.fold import current
from sequencer.wording import Room
from tests.sawside.driver import Saw, dado_files


@pytest.fixture(scope="module")
def planned(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("dado") / "a.sqlite"
    Saw(path, dado_files()).store.close()
    return path


@pytest.fixture
def saw(planned: Path, tmp_path: Path) -> Saw:
    copied = tmp_path / "a.sqlite"
    copied.write_bytes(planned.read_bytes())
    return Saw(copied, dado_files())


def slots(plan: Plan) -> set[Fraction]:
    boxes = [f.box for part in plan.parts for f in part.features if f.kind == "slot"]
    return {box[2][1] - box[2][0] for box in boxes}


def test_the_slots_are_cut_with_the_dado_set(saw: Saw) -> None:
    assert saw.state.base.choices.dado is not None
    assert {setup.cutter for setup in saw.state.plan.setups} == {"combination blade", "dado set"}


def test_every_card_says_how_the_saw_moves(saw: Saw) -> None:
    said: list[str] = []
    while current(saw.state) is not None:
        if saw.card.kind == "set":
            moves = view.stand(saw.state)["moves"]
            assert view.cards(saw.state)["cards"]
            said += moves["moves"] if moves else []
        saw.step()
    # After a change of cutter heights and guides are set anew, not moved by a difference.
    change = said.index("Saw unplugged, fit the dado set.")
    assert said[change + 1].startswith("Set the blade height to ")
    assert "Set the jig to 3/8″." in said


@pytest.mark.parametrize("step", ["3", "15", "16", "17"])
@pytest.mark.parametrize("kerf", ["0.378", ".372"])
def test_its_kerf_as_measured_is_the_slot(saw: Saw, step: str, kerf: str) -> None:
    """The tenon is the slot less its clearance of 1/256 in; stated by the job's defaults."""
    saw.go_to_step(step)
    done = dict(saw.state.done)
    words = saw.do(kind="measure", what="kerf", name="dado set", text=kerf)
    assert saw.state.trouble == ()
    assert "answer.rest-follows" in words
    assert {name: saw.state.done[name] for name in done} == done
    assert slots(saw.state.plan) == {Fraction(kerf)}
    saw.go_to_measure("tenon")
    point = saw.card.points[saw.unit.point or 0]
    assert point.exact == Fraction(kerf) - Fraction(1, 256)
    saw.finish()
    assert set(saw.state.done) >= {placed.operation for placed in saw.state.plan.ordering.order}


def test_the_card_of_its_test_cut_asks_for_it(saw: Saw) -> None:
    saw.go_to_measure("to-channel/slot")
    how = face(saw.card, saw.state.cards.index(saw.card), saw.state, Room("US"))["how"]
    assert cards.MEASURE_ITS_KERF(blade="dado set") in how


def test_where_a_slot_lies_is_accepted_so_close_that_nothing_follows_from_it(saw: Saw) -> None:
    """Within half the fit's tolerance of 0.004 in: as much as the faces may differ that are planed
    flush at the bench. What is farther off is never accepted."""
    saw.go_to_measure("to-channel/slot")
    point = saw.card.points[saw.unit.point or 0]
    assert (point.high - point.target, point.target - point.low) == (Fraction(2, 1000),) * 2
    unit = saw.unit.name
    assert "answer.move(setting=moved.jig, " in saw.read("0.378")
    assert saw.unit.name == unit
    assert saw.state.measurements == []
    later = [c.step.kind for c in saw.state.cards[saw.state.now :] if c.step]
    assert later.index("glue-up") < later.index("flush")


@pytest.mark.parametrize("step", ["3", "9", "16"])
def test_the_other_blade_s_kerf_flows_on_too(saw: Saw, step: str) -> None:
    """Middle passes that were cut by the old kerf overlap their neighbours all the same."""
    saw.go_to_step(step)
    saw.do(kind="measure", what="kerf", name="combination blade", text="0.121")
    assert saw.state.trouble == ()
    kerfs = {setup.cutter: setup.kerf for setup in saw.state.plan.setups}
    assert kerfs == {"combination blade": Fraction("0.121"), "dado set": Fraction(3, 8)}
    saw.finish()


@pytest.mark.parametrize(("panel", "good"), [("0.368", True), ("0.374", False)])
def test_a_panel_a_hair_thicker_stays_in_a_groove_that_cannot_widen(
    saw: Saw, panel: str, good: bool
) -> None:
    """The groove of 3/8 in may not be wider than the slot; the panel was to be 0.365."""
    saw.go_to_step("1")
    saw.tick()
    saw.read("1 1/8")
    saw.read("1 1/8")
    saw.tick()
    saw.read(panel)
    words = saw.read(panel)
    assert (saw.state.trouble == ()) == good
    if good:
        assert {p.size.thickness for p in saw.state.plan.parts if p.role == "panel"} == {
            Fraction(panel)
        }
        saw.finish()
    else:
        assert "measurement.panel-too-thick" in words


def test_what_is_measured_when_all_tenons_are_cut_changes_nothing(saw: Saw) -> None:
    plan = saw.state.plan
    saw.go_to_step(next(str(step.number) for step in plan.steps if step.kind == "dry fit"))
    saw.do(kind="measure", what="kerf", name="dado set", text="0.380")
    assert saw.state.trouble == ()
    assert slots(saw.state.plan) == slots(plan)
