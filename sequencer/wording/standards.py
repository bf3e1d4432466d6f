"""Standards worth making: setup blocks, their cut list, and the marks of a story stick."""

from __future__ import annotations

from sequencer.facts import standards
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    standards.UNPLUG: _(
        "pull the plug before a hand or a block comes near the teeth: a blade that starts takes "
        "fingers"
    ),
    standards.BLOCKS: counted_(
        "this block replaces {sets} of {of} dialled settings",
        "these {n} blocks replace {sets} of {of} dialled settings",
    ),
    standards.BLOCK: _(
        "{mark}: plane to {thickness:decimal}, {width} wide, {length} long; sets {n}: {ways:comma}"
    ),
    standards.WAY_ALONE: _("{carrier} {number}"),
    standards.WAY_TOGETHER: _("{carrier} {number} with {other}"),
    standards.WAY_BEHIND: _("{carrier} {number}, laid against the far side of the teeth"),
    standards.STICK: _(
        "story stick for the stop, {length} long, marked from one end: {marks:comma}"
    ),
    standards.MARK: _("{number} at {at} ({n})"),
    standards.NAME_IT: _(
        "write its letter on each; sequencer setups note 12 --gauge block A says what it sets"
    ),
    standards.NONE: counted_(
        "no block would set two of the {n} dialled setting known here",
        "no block would set two of the {n} dialled settings known here",
    ),
}
