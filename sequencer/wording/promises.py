"""Where a plan is not what its jobs ask for, does not add up with its own leaves, or does not say
of its hazards what the rules say."""

from __future__ import annotations

from sequencer.facts import promises
from sequencer.wording.catalogue import Table, _

TEXTS: Table = {
    promises.NO_LEAF: _("the job asks for leaf {door}, and the plan has none"),
    promises.NOT_ASKED: _("the plan has a leaf {door}, and no job asks for it"),
    promises.OTHER_HINGE: _("leaf {door}: its hinges are to be on the {side}"),
    promises.OTHER_FACE: _("leaf {door}: the face with the marks is to look the other way"),
    promises.OTHER_OPENING: _("leaf {door}: its opening is not the one that was measured"),
    promises.OTHER_GAP: _("leaf {door}: the gap at its {side} is not the one asked for"),
    promises.OTHER_PAIR: _("leaf {door}: it is not paired as the job has it"),
    promises.OTHER_COUNT: _("to order of {what}: {found} in the list, {wanted} needed"),
    promises.OTHER_SEASON: _("leaf {door}: the year of {piece} does not add up"),
    promises.OTHER_GAP_SEASON: _("leaf {door}: the year of its free gap does not add up"),
    promises.BINDS: _(
        "leaf {door}: {piece} binds in the wettest season or comes out in the driest"
    ),
    promises.OTHER_AMOUNT: _("rough list: {material}, {strips} strips: its amount does not add up"),
    promises.SAME_WOOD: _("board {board}: {one} and {other} lie on the same wood"),
    promises.OTHER_CAUTIONS: _("setup {setup}: what is said by rule {rule} is not what it says"),
    promises.OTHER_AT_BENCH: _("step {step}: what is said by rule {rule} is not what it says"),
    promises.OTHER_STANDING: _("what stands first by rule {rule} is not what it says"),
    promises.OTHER_LOOK: _(
        "before power or before leaving, “{look}” is missing, or said otherwise"
    ),
    promises.OTHER_TICK: _("what is to be ticked by rule {rule} is missing, or for other setups"),
}
