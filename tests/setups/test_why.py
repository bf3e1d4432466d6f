"""What a setup says of itself beside its waits, which `test_waits.py` asks: what stays as set."""

from __future__ import annotations

import pytest

from sequencer.facts import reasons
from sequencer.plan import Plan, Setup
from tests.stages import to_plan
from tests.test_hand_worked import SINGLE, SLOT_JIG

STAYS = {
    # The fence moves: that it is the fence that guides need not be told.
    ("rip-fence", "fence"): {"height", "guard"},
    # The stop moves along the sled, which stays on the saw.
    ("crosscut-sled", "stop"): {"height", "guard", "crosscut-sled"},
    ("tenoning-jig", "jig"): {"height", "guard", "tenoning-jig"},
    # A stop stays only where its sled does: the sled need not be told.
    ("crosscut-sled", "height"): {"guard", "stop"},
    # Blade and tilt are told of only where nothing else stays but the fence itself.
    ("rip-fence", "height guard fence"): {"cutter", "tilt", "rip-fence"},
    ("crosscut-sled", "height carrier guard fence stop"): {"cutter", "tilt"},
}
"""By hand, from the carrier and what is changed: of what else the cut needs, the telling part."""


@pytest.fixture(scope="module")
def plan() -> Plan:
    return to_plan(SINGLE, SLOT_JIG)


def _staying(setup: Setup) -> set[str]:
    told = (why.given["knobs"] for why in setup.why if why.kind is reasons.STAY)
    return {
        str(knob).partition(".")[2] for knobs in told if isinstance(knobs, tuple) for knob in knobs
    }


@pytest.mark.parametrize(("carrier", "changed"), STAYS)
def test_what_stays_as_set_is_told_as_far_as_it_tells_anything(
    plan: Plan, carrier: str, changed: str
) -> None:
    alike = [
        setup
        for setup in plan.setups
        if setup.carrier == carrier and [c.knob for c in setup.changes] == changed.split()
    ]
    assert alike
    for setup in alike:
        assert _staying(setup) == STAYS[carrier, changed], setup.number
