"""What of the joints' cuts waits for what, and why."""

from __future__ import annotations

from itertools import product

from sequencer.cuts.model import Operation
from sequencer.facts import Fact, reasons
from sequencer.operations import Work
from tests.joints.jobs import job
from tests.stages import to_work

BAR = '\n[[bar]]\nkind = "mid rail"\n'


def told(work: Work, reason: Fact) -> set[tuple[str, str]]:
    return {(edge.before, edge.after) for edge in work.edges if edge.reason == reason}


def cuts(work: Work, *starts: str) -> list[Operation]:
    return [o for o in work.operations if o.id.startswith(starts)]


def test_a_bars_slot_comes_before_the_tongue_that_it_straddles() -> None:
    """A5 is the mid rail; its end A stands on the left stile's tongue, end B on the right's. The
    housings that leave a tongue are nibbled up to their nearer shoulder."""
    work = to_work(job("bridle", 'bars = "T-bridle"') + BAR)
    for stile, end in (("A1", "A"), ("A2", "B")):
        housings = [o.id for o in cuts(work, f"{stile}/housing-A5{end}")]
        slots = [o.id for o in cuts(work, f"A5/slot-{end}")]
        assert len(housings) == 2
        assert slots
        found = told(work, reasons.TONGUE_FITTED())
        assert {pair for pair in found if pair[1].startswith(f"{stile}/")} == set(
            product(slots, housings)
        )
        near, far = sorted(housings, reverse=True)
        assert near.endswith("/near")
        assert (near, far) in told(work, reasons.NEAR_FIRST())
    assert len(told(work, reasons.NEAR_FIRST())) == 2


def test_a_bar_rebated_at_both_edges_for_glass_is_let_in_where_none_is_let_into_it() -> None:
    work = to_work(job("bridle", 'bars = "T-bridle"', "[glass]\n") + BAR)
    assert cuts(work, "A5/slot-A")
    assert cuts(work, "A5/slot-B")


def test_a_mitre_is_cut_before_what_takes_the_wood_behind_it() -> None:
    work = to_work(job("mitred bridle"))
    wanted = set()
    for mark, at in product(("A1", "A2", "A3", "A4"), ("A", "B")):
        (mitre,) = cuts(work, f"{mark}/mitre-{at}")
        after = cuts(work, *(f"{mark}/{what}-{at}" for what in ("slot", "shoulder", "cheek")))
        assert after
        wanted |= {(mitre.id, each.id) for each in after}
    assert told(work, reasons.BACKED()) == wanted
