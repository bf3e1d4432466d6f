"""What is told in full and what in one line: a hazard in full where it first applies."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sequencer.facts import Fact, Length, Value
from sequencer.plan.work import Caution


def in_full(
    groups: Iterable[Sequence[Caution]], standing: Iterable[Caution]
) -> tuple[tuple[bool, ...], ...]:
    """For the cautions of each setup or step, in the order they are worked, which are told in full.

    Once told, a hazard is in full again only where something other than its figures has changed:
    its word, or how and by which side the piece is held. The figures stand in the one line as well.
    `standing` was told before all of them.
    """
    told = {_way(caution) for caution in standing}
    found: list[tuple[bool, ...]] = []
    for cautions in groups:
        ways = [_way(caution) for caution in cautions]
        found.append(tuple(way not in told for way in ways))
        told.update(ways)
    return tuple(found)


def _way(caution: Caution) -> tuple[object, ...]:
    return (caution.rule, caution.word, *_unmeasured(caution.says))


def _unmeasured(value: Value) -> tuple[object, ...]:
    """The value without its lengths."""
    if isinstance(value, Fact):
        return (value.id, *(each for part in value.values for each in _unmeasured(part)))
    return () if isinstance(value, Length) else (value,)
