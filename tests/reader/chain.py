"""`python -m tests.reader.chain N SEED`: so many random jobs through check, plan, proof, sheets and
page, each read back and sawn from.

Each is proven and read back rightly, or refused with its reason; a crash or a sheet that tells
something else is printed with the job's number, and ends in 1.
"""

from __future__ import annotations

import sys
import time
import traceback
from collections import Counter
from dataclasses import dataclass, field

from sequencer.errors import InputError, InternalError, Refusal, SequencerError
from sequencer.job.validate import against_shop, check
from sequencer.proof import prove
from sequencer.safety import Unsafe
from sequencer.setups.given import Given
from tests.proof.plans import make_plan
from tests.reader.jobs import Asked, random_asked
from tests.reader.whole import read_back


@dataclass
class Ran:
    """What came of each job; `wrong` and `crashed` by its number."""

    proven: int = 0
    refused: Counter[str] = field(default_factory=Counter)
    crashed: dict[int, str] = field(default_factory=dict)
    wrong: dict[int, list[str]] = field(default_factory=dict)

    @property
    def sound(self) -> bool:
        return not self.crashed and not self.wrong


def run(count: int, seed: int) -> Ran:
    """So many random jobs from a seed."""
    ran = Ran()
    for number, asked in enumerate(random_asked(count, seed)):
        try:
            reason = _refused(asked, number, ran)
        except Exception:  # whatever it is, it is a crash
            ran.crashed[number] = traceback.format_exc(limit=-3)
            continue
        if reason:
            ran.refused[reason] += 1
        else:
            ran.proven += 1
    return ran


def _refused(asked: Asked | SequencerError, number: int, ran: Ran) -> str:
    """Why a job is refused, empty where it is proven; what is read back wrongly goes into `ran`."""
    if isinstance(asked, SequencerError):
        return _reason(asked)
    try:
        faults = [f for job in asked.jobs for door in job.doors for f in check(door, job.unit)]
        faults += [f for job in asked.jobs for f in against_shop(job, asked.shop)]
        if faults:
            raise InputError(tuple(faults))
        plan = make_plan(asked.jobs, asked.shop)
        # One way was picked for it, and the page takes the first that is open: whose parts may be
        # refused, as boards that only a dado set's groove leaves thick enough.
        Given.of(asked.jobs, asked.shop).as_in(plan)
    except SequencerError as error:
        return _reason(error)
    if plan.proven != prove(plan):
        raise AssertionError("the plan says of its proof what the proof does not")
    if wrong := read_back(plan, asked.jobs, asked.shop):
        ran.wrong[number] = wrong
    return ""


def _reason(error: SequencerError) -> str:
    """What a job is refused for. Raises what is no refusal."""
    if isinstance(error, InternalError):
        raise error
    if isinstance(error, Unsafe):
        return "rules " + ", ".join(sorted({found.rule for found in error.refusals}))
    if isinstance(error, InputError):
        return f"file: {str(error.faults[0].message).split('(')[0]}"
    if isinstance(error, Refusal):
        return f"plan: {str(error).split('(')[0]}"
    raise error


def main(count: int, seed: int) -> int:
    began = time.monotonic()
    ran = run(count, seed)
    took = time.monotonic() - began
    print(f"{count} jobs from seed {seed}: {ran.proven} proven, {ran.refused.total()} refused, "
          f"{len(ran.crashed)} crashed, {len(ran.wrong)} read back wrongly; "
          f"{took / max(count, 1):.2f} s each")  # fmt: skip
    for reason, times in ran.refused.most_common():
        print(f"  refused {times}: {reason}")
    for number, trace in ran.crashed.items():
        print(f"job {number} crashed:\n{trace}")
    for number, wrong in ran.wrong.items():
        print(f"job {number} read back wrongly:")
        for each in wrong:
            print(f"  {each}")
    return 0 if ran.sound else 1


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]), int(sys.argv[2])))
