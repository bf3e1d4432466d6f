"""Blocks over several jobs: what is claimed is looked at again, block by block."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from sequencer.facts import standards as facts
from sequencer.lengths import convert
from sequencer.records import replace
from sequencer.saved.standards import Dialled, Standards, dialled_in, told, worth_making
from tests.saved.entries import entry
from tests.saved.test_gauges import JOB
from tests.stages import to_plan

NEAR = Fraction(1, 512)
"""Half of a fit's whole band."""


def dialled(number: str, times: int = 1, carrier: str = "rip-fence") -> Dialled:
    return Dialled(carrier, Fraction(number), Fraction(1, 8), times)


def replaced(made: Standards, lot: list[Dialled]) -> int:
    """What the blocks set, worked out from their thicknesses alone."""
    sizes = [block.thickness for block in made.blocks]
    reach = {*sizes, *(a + b for n, a in enumerate(sizes) for b in sizes[n + 1 :])}
    return sum(
        each.times
        for each in lot
        if any(abs(each.number - size) <= NEAR for size in reach)
        or any(abs(each.number + each.kerf - size) <= NEAR for size in sizes)
    )


@given(
    st.lists(
        st.builds(
            Dialled,
            st.sampled_from(("rip-fence", "tenoning-jig", "crosscut-sled")),
            st.integers(4, 200).map(lambda n: Fraction(n, 64)),
            st.just(Fraction(1, 8)),
            st.integers(1, 5),
        ),
        max_size=25,
    )
)
def test_what_is_claimed_is_so_and_the_first_block_is_the_best_of_all(lot: list[Dialled]) -> None:
    made = worth_making(lot, "in")
    assert made.of == sum(each.times for each in lot)
    assert made.sets == sum(block.sets for block in made.blocks) <= replaced(made, lot)
    best = max(
        (
            sum(
                other.times
                for other in lot
                if abs(other.number - t) <= NEAR or abs(other.number + other.kerf - t) <= NEAR
            )
            for each in lot
            for t in (each.number, each.number + each.kerf)
            if Fraction(1, 32) <= t <= 2
        ),
        default=0,
    )
    assert (made.blocks[0].sets if made.blocks else 0) == (best if best >= 2 else 0)


def test_two_together_and_one_behind_the_teeth() -> None:
    lot = [dialled("1/4", 4), dialled("1/2", 3), dialled("3/4", 2), dialled("1/8", 2)]
    made = worth_making(lot, "in")
    assert [block.thickness for block in made.blocks] == [Fraction(1, 4), Fraction(1, 2)]
    first, second = made.blocks
    assert {(way.of.number, way.behind) for way in first.ways} == {
        (Fraction(1, 4), False), (Fraction(1, 8), True),
    }  # fmt: skip
    assert {(way.of.number, way.other) for way in second.ways} == {
        (Fraction(1, 2), ""), (Fraction(3, 4), "A"),
    }  # fmt: skip
    assert made.sets == made.of == 11


def test_a_stop_too_far_for_a_block_gets_a_mark() -> None:
    made = worth_making([dialled("27/2", 3, "crosscut-sled")], "in")
    assert made.blocks == ()
    assert made.marks == ((Fraction(27, 2), 3),)
    assert [fact.kind for fact in told(made, "in")] == [facts.NONE, facts.STICK]


def test_past_and_coming_jobs_count_each_job_once() -> None:
    plan = to_plan(JOB)
    kept = entry(1, jobs=("hutch", "larder"))
    jig = next(knob for knob in kept.knobs if knob.knob == "jig")
    lot = dialled_in([kept], [plan], "in")
    times = {(each.carrier, each.number): each.times for each in lot}
    own = sum(
        s.guide == jig.value and s.carrier == "tenoning-jig"
        and any(change.knob == "jig" for change in s.changes)
        for s in plan.setups
    )  # fmt: skip
    assert times["tenoning-jig", jig.value] == 2 + own
    mm = dialled_in([replace(kept, unit="mm")], [], "in")
    assert mm[0].number == convert(jig.value, "mm", "in")
