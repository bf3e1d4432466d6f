"""Which pass leaves which surface, where several lie in one plane; and which check a setting is
known by."""

from __future__ import annotations

import pytest

from sequencer.tolerance.floor import Floor
from sequencer.tolerance.readings import Known
from tests.proof.test_intent import EXAMPLES, example

PATHS = {path.parent.name: path for path in EXAMPLES}


@pytest.mark.parametrize("name", ["china-cabinet", "linen-press"])
def test_a_housings_bottom_is_left_by_a_housings_pass(name: str) -> None:
    """In the plane of a slot's wall, or of a shoulder's bottom, on the same piece."""
    plan = example(PATHS[name])
    floor = Floor(plan)
    kinds = {str(step.number): step.kind for step in plan.steps}
    seen = 0
    for part in plan.parts:
        for f in part.features:
            if f.kind != "housing":
                continue
            z = f.box[2][1] if f.at == "face" else f.box[2][0]
            form = floor.plane(part.mark, z, ("end-A", "end-B"), housed=True)
            assert form is not None
            passes = [source.of for source in form.parts if source.kind == "pass"]
            assert {kinds[each.partition("/")[0]] for each in passes} == {"housing"}
            assert all(each.endswith("height") for each in passes)
            seen += 1
    assert seen


def test_a_setting_is_known_by_the_check_that_corrected_it_last() -> None:
    """One that shoulders were tried at first, and a tongue later, good to less."""
    floor = Floor(example(PATHS["pantry"]))
    made = next(each for each in floor.cuts("A1") if each.step.kind == "slot")
    since = floor.set_at[made.setup.number]["height"]
    at = made.step.number
    told = [
        ([(at - 3, 5), (at - 1, 7)], "7"),
        ([(at - 3, 5), (at, 7)], "7"),
        ([(at - 3, 5), (at + 1, 7)], "5"),
        ([(at - 1, 5), (at - 1, 7)], "5"),  # of one step the first
        ([(at + 1, 5)], ""),
    ]
    for checks, by in told:
        floor.__dict__["tried"] = {("height", since): checks}
        assert floor.knob(made, "height").of == f"height@{since}#{by}"


@pytest.mark.parametrize("name", sorted(PATHS))
def test_every_checked_setting_is_known(name: str) -> None:
    """What a check's measure hangs on is understood, and answers to the knob as the plan says."""
    plan = example(PATHS[name])
    known = Known(Floor(plan))
    by_knob = {n for n, check in enumerate(plan.checkpoints) if check.knob is not None}
    first = {
        n for n in by_knob
        if not any(
            m < n and plan.checkpoints[m].knob == plan.checkpoints[n].knob
            and plan.checkpoints[m].at_step == plan.checkpoints[n].at_step
            for m in by_knob
        )
    }  # fmt: skip
    assert set(known.per) == first
