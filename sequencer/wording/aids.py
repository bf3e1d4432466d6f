"""Aids by their names: what each is called, and how it is made and stands."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from sequencer.wording.catalogue import _


class AidWords(Struct, frozen=True):
    name: str
    how: str


AIDS: Mapping[str, AidWords] = {
    "narrow-rip-fence": AidWords(
        _("auxiliary fence and its block"),
        _(
            "Base flat on the table, its side upright and clamped to the rip fence. The piece runs "
            "along the base's edge; the block, a handle on it and a lip below, slides on the base "
            "and passes under the guard. Measure from the base's edge, not by the fence's scale."
        ),
    ),
    "tall-fence": AidWords(
        _("tall fence"),
        _(
            "Face braced square, screwed to the rip fence, tight on the table. Measure from its "
            "face, not by the fence's scale."
        ),
    ),
    "backing-block": AidWords(
        _("backing block"),
        _(
            "As thick as the piece: clamped with it, behind it where the blade leaves it, so that "
            "the jig is filled."
        ),
    ),
    "strip-stop": AidWords(
        _("strip stop"),
        _(
            "Clamped to the table before the blade, on the open side, a strip's width from the "
            "teeth. For each strip the fence brings the board up to it."
        ),
    ),
    "piece-carrier": AidWords(
        _("piece carrier"),
        _(
            "Rides along the fence. A notch, open to the fence, takes the piece, a toggle holds it "
            "down; both hands on the carrier."
        ),
    ),
    "riding-board": AidWords(
        _("riding board"),
        _(
            "Clamped across the panel so that it rides on the tall fence's top; hands on it, none "
            "below."
        ),
    ),
    "bearing-strip": AidWords(
        _("bearing strip"),
        _(
            "Fixed along the fence's foot, screws sunk, when all first rebates are cut: turned "
            "round, the board stands on it as it stood on the wood."
        ),
    ),
    "sled-clamp": AidWords(
        _("clamp for the sled"),
        _(
            "A bar across the piece that two bolts draw down to the deck, clear of the blade's "
            "line before and behind."
        ),
    ),
}

WOODS: Mapping[str, str] = {"plywood": _("plywood"), "hardwood": _("hardwood")}

AT_HAND = _("{aid:cap}, at hand ({setups})")
MINUTES = _("{made}, {fitted} to fit")
OFF = _("take off: {aid}")
FROM = _("{set}, measured from the {aid}")
ALONG: Mapping[str, str] = {
    "narrow-rip-fence": _("auxiliary fence"),
    "tall-fence": _("tall fence"),
}
"""What is measured from, of the aids that a piece runs along."""
