"""Which checks refer to what an earlier one measured: a tenon to the slot or groove that it goes
into."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from sequencer.plan import Checkpoint, Feature, Part, Setup, Step, Stick
from sequencer.records import replace
from sequencer.saw.measures import Measure, What

_SLOT, _GROOVE = Measure(What.CHANNEL_WIDTH, "slot"), Measure(What.CHANNEL_WIDTH, "groove")


def referred(
    checkpoints: Sequence[Checkpoint],
    parts: Sequence[Part],
    sticks: Sequence[Stick],
    setups: Sequence[Setup],
    steps: Sequence[Step],
) -> tuple[Checkpoint, ...]:
    """The checks, those of tenons with the check of what they go into, where all that are cut at
    the setting go into slots, or into grooves, that one check stands for. What is turned between
    its passes comes out wider in thicker stock: then no check of thinner stock stands for it."""
    stick_of = {piece.mark: stick.mark for stick in sticks for piece in stick.pieces}
    into = _into(parts)
    stands: dict[tuple[str, str], int] = {}
    found = list(checkpoints)
    for n, check in enumerate(checkpoints):
        if check.measure in (_SLOT, _GROOVE):
            kind = check.measure.place
            for setup in _while_set(check, setups):
                stands |= {(kind, mark): n for mark, _ in _cut(steps, setup, kind)}
        elif check.measure.what is What.TENON:
            mates = set()
            for mark, end in _cut(steps, check.setup, "cheek"):
                kind, mate, wide = into.get((mark, end), ("", "", None))
                on = stick_of.get(mate, "")  # most grooves are cut along the whole strip
                mate_check = stands.get((kind, mate), stands.get((kind, on), -1))
                mates.add(mate_check if checkpoints[mate_check].exact == wide else -1)
            if len(mates) == 1 and -1 not in mates:
                found[n] = replace(check, after=tuple(mates))
    return tuple(found)


def _into(parts: Sequence[Part]) -> Mapping[tuple[str, str], tuple[str, str, Fraction | None]]:
    """For each end that has cheeks: what it goes into, `slot` or `groove`, of which piece, and how
    wide that is; `None` where it has none, or several."""
    slots = {f.mate: _wide(f) for part in parts for f in part.features if f.kind == "slot"}
    grooves: dict[str, set[Fraction]] = {}
    for part in parts:
        for each in part.features:
            if each.kind == "groove":
                grooves.setdefault(part.mark, set()).add(_wide(each))
    found: dict[tuple[str, str], tuple[str, str, Fraction | None]] = {}
    for part in parts:
        for each in part.features:
            if each.kind == "cheek" and each.mate:
                mate, wide = each.mate_mark, slots.get(f"{part.mark}/{each.at}")
                if wide is not None:
                    found[part.mark, each.at] = ("slot", mate, wide)
                else:
                    widths = grooves.get(mate, set())
                    only = next(iter(widths)) if len(widths) == 1 else None
                    found[part.mark, each.at] = ("groove", mate, only)
    return found


def _wide(channel: Feature) -> Fraction:
    low, high = channel.box[2]
    return high - low


def _while_set(check: Checkpoint, setups: Sequence[Setup]) -> Iterator[int]:
    """The setups from that of a check on, as long as its knob is not moved."""
    for setup in setups:
        if check.setup is None or setup.number < check.setup:
            continue
        moved = any(change.knob == check.knob for change in setup.changes)
        if setup.number > check.setup and moved:
            return
        yield setup.number


def _cut(steps: Sequence[Step], setup: int | None, kind: str) -> set[tuple[str, str]]:
    """What is cut at a setting, and at which end."""
    return {
        (cut.mark, cut.down.removeprefix("end-"))
        for step in steps
        if step.setup == setup and step.kind == kind
        for cut in step.cuts
    }
