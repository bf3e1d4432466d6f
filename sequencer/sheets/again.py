"""What a block need not tell, because one before it has told it."""

from __future__ import annotations

from collections.abc import Sequence

from sequencer.records import replace
from sequencer.sheets.block import Block, Item
from sequencer.wording import Room, papers


def after(made: Sequence[Block], block: Block, room: Room) -> Block:
    """The setup as it is told behind the others: without pictures where pieces lie as in the setup
    before, without the flat one where an earlier setup has it, and with what is felt or looked for
    at a measure where it is not yet told."""
    last = made[-1] if made else None
    # One that is named has both pictures: nobody is sent on from there.
    if last is not None and last.number and not last.drawn and _lies(last) == _lies(block):
        block = _pointed(replace(block, like=last.like or last.number), room)
    elif same := [b.number for b in made if b.flat and b.alike == block.alike]:
        block = _pointed(replace(block, drawn=same[0]), room)
    return replace(block, items=untold(block.items, made))


def _pointed(block: Block, room: Room) -> Block:
    number = block.like or block.drawn or 0
    texts = (papers.LIES_AS_IN, papers.DRAWN_AS_IN)
    like, drawn = (room.text(text, number=number) for text in texts)
    return replace(block, pointers=(like, drawn))


def untold(items: Sequence[Item], made: Sequence[Block]) -> tuple[Item, ...]:
    """The items without what a measure is felt by or looked for, where that stands before."""
    told = {
        measure.feel
        for block in made
        for item in block.items
        if item.check
        for measure in item.check.measures
    }
    return tuple(_once_felt(item, told) for item in items)


def _once_felt(item: Item, told: set[str]) -> Item:
    """The item without what is `told` already; what it tells is told from then on."""
    if item.check is None:
        return item
    lines = []
    for each in item.check.measures:
        lines.append(replace(each, feel="" if each.feel in told else each.feel))
        told.add(each.feel)
    return replace(item, check=replace(item.check, measures=tuple(lines)))


def _lies(block: Block) -> tuple[str, tuple[tuple[str, str], ...]]:
    works = (item.work for item in block.items if item.work and item.work.verb)
    return block.carrier, tuple((work.verb, work.how) for work in works)
