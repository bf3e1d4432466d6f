"""How a spoiled piece, strip or test piece is made again."""

from __future__ import annotations

from sequencer.facts import mendings
from sequencer.wording.catalogue import Table, _, counted_

TEXTS: Table = {
    mendings.MADE_AGAIN: _("{mark} made again"),
    mendings.MAKE_AGAIN: _("make {mark} again"),
    mendings.SPOILED_AT: _("{mark} was spoiled at {at}. Cut a new one now, before you go on"),
    mendings.STRIP: _(
        "stock: {material}, {thickness} thick, to be {width} wide and at least {length} long, for "
        "{marks:comma}"
    ),
    mendings.PIECE: _(
        "stock: {material}, {thickness} thick, at least {length} long; make it as long as a test "
        "strip if it is short"
    ),
    mendings.AS_IN: _("{verb} as in {places:comma}"),
    mendings.NO_SETTING_UP: _("it costs no setting up"),
    mendings.SETTING_UP: counted_(
        "about {n} minute of setting up more", "about {n} minutes of setting up more"
    ),
    mendings.TRIED_AND_MOVED: _(
        "the {setting} had been tried out for what comes next and is moved here: note where it "
        "stands, and try it on scrap again when it is back"
    ),
    mendings.SET_BACK: _("then set the saw back as it stood: {blade}, {settings:comma}"),
    mendings.STOOD_AT: _("{setting} {at}"),
}
