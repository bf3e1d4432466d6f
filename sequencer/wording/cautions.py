"""What the rules of safety say: hazards in their parts, ticks, checks and refusals."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from msgspec import Struct

from sequencer.facts import Fact, Length, Value
from sequencer.facts import cautions as c
from sequencer.wording.catalogue import Table, _
from sequencer.wording.hazards import HAZARDS
from sequencer.wording.numbers import SIGNS, decimal

if TYPE_CHECKING:
    from sequencer.plan import Caution
    from sequencer.wording.room import Room


class Parts(Struct, frozen=True):
    """A caution in words: three sentences, or more, and the line that stands for them where they
    were told before."""

    hazard: str
    consequence: str
    avoidance: str
    brief: str


def parts(room: Room, caution: Caution) -> Parts:
    """The caution's words, each part a sentence of its own; `brief` is empty where it has none."""
    return parts_of(room, caution.says)


def parts_of(room: Room, fact: Fact) -> Parts:
    """The same of a hazard alone. Raises `KeyError` where the fact is no hazard."""
    told = HAZARDS[fact.kind]
    given = _apart(fact)

    def said(text: str) -> str:
        return room.text(text, **given) if text else ""

    return Parts(*map(said, (told.hazard, told.consequence, told.avoidance, told.brief)))


def asked(room: Room, fact: Fact) -> Iterator[str]:
    """What must be at hand where a hazard is told: tools by their names, and the shop's own
    hold-down. Raises `KeyError` where the fact is no hazard."""
    for text in HAZARDS[fact.kind].asks:
        yield room.text(text)
    hold_down = fact.given.get("hold_down")
    if hold_down:
        yield str(hold_down)


def _apart(fact: Fact) -> dict[str, Value]:
    """The parameters; measure and limit exactly, where rounded they would look alike: “6″ is less
    than 6″” would tell nothing."""
    given: dict[str, Value] = dict(fact.given)
    measured, limit = given.get("measured"), given.get("limit")
    if not (isinstance(measured, Length) and isinstance(limit, Length)):
        return given
    if measured != limit and decimal(measured) == decimal(limit):
        for name, each in (("measured", measured), ("limit", limit)):
            given[name] = f"{each.value}{SIGNS[each.unit]}"
    return given


def _in_full(room: Room, fact: Fact) -> str:
    said = parts_of(room, fact)
    return f"{said.hazard} {said.consequence} {said.avoidance}"


def _refused(room: Room, fact: Fact) -> str:
    given = fact.given
    pieces, why = given["pieces"], given["why"]
    assert isinstance(pieces, tuple)
    assert isinstance(why, Fact)
    said = parts_of(room, why)
    return room.text(
        _(
            "{pieces}, {does}: {hazard} {consequence}\n"
            "    What would do: {avoidance}\n"
            "    Rule {rule}: {source}"
        ),
        pieces="; ".join(room.say(each) for each in pieces if isinstance(each, Fact)),
        does=room.term(str(given["does"])),
        hazard=said.hazard,
        consequence=said.consequence,
        avoidance=said.avoidance,
        rule=given["rule"],
        source=given["source"],
    )


def _side(plain: str, short: str) -> Callable[[Room, Fact], str]:
    """A side of the kerf; its length where that is short."""
    return lambda room, fact: room.text(
        plain if fact.given["least"] is None else short, **fact.given
    )


TEXTS: Table = {
    **dict.fromkeys(HAZARDS, _in_full),
    # ---- how it is held
    c.CLAMP: _("Clamp {side}."),
    c.CLAMP_OR_HOLD: _("Hold {side}."),
    c.HOLD_ONLY: _("Hold only {side}."),
    c.SIDE_STOP: _side(_("the stop side"), _("the stop side ({least} or longer)")),
    c.SIDE_STICK: _side(_("the strip"), _("the strip ({least} or longer)")),
    c.SIDE_BEYOND: _side(_("the far part"), _("the far part ({least} or longer)")),
    c.SIDE_LONGER: _side(_("the longer part"), _("the longer part ({least} or longer)")),
    # ---- ticks
    c.TICK_COVER: _("What covers the blade here? Your shop file names no cover: ____________"),
    c.TICK_A08: _("The piece is held to the fence over its whole length by a carrier"),
    c.TICK_B04: _("Clamped to the sled is {side}; no hand nearer than {limit}"),
    c.TICK_B06: _(
        "For rips {limit} or less from the fence: an auxiliary fence, and a push block that rides "
        "it, are at hand"
    ),
    c.TICK_B08: _("A carrier or push block holds the short piece along its whole length"),
    c.TICK_B08_BEVEL: _("A board that rides the tall fence is clamped behind the short panel edge"),
    c.TICK_B09: _("Small pieces are clamped to the sled: {side}"),
    c.TICK_C01: _("The guard covers the blade down to the work"),
    c.TICK_C03: _("No riving knife on the sled: the wood is straight and dry"),
    c.TICK_C11: _("Guard and riving knife are set to the smaller cutter"),
    c.TICK_D05: _("Deep grooves are cut in two or more passes of rising depth"),
    c.TICK_E02: _("Tall pieces: clamped high and low, headroom clear, jig steady on a dry run"),
    c.TICK_E02_FENCE: _(
        "Tall panels: a board clamped to them rides on the tall fence's top, headroom clear"
    ),
    c.TICK_E05: _("A tall fence, {measured} or higher, is on the rip fence"),
    c.TICK_E07: _("A zero-clearance insert is fitted"),
    c.TICK_E08: _("The high blade is covered on both sides of the jig"),
    c.TICK_F01: _("The block on the auxiliary fence pushes the narrow strip right past the blade"),
    c.TICK_F02_STOP: _("A strip stop stands before the blade, clear of it"),
    c.TICK_J04: _("Narrow pieces stand against a backing block that fills the jig to the clamp"),
    c.TICK_J09: _(
        "The bearing strip is at hand; it is off for every first rebate, the test strip's too"
    ),
    c.TICK_J10: _("Thin stock: the auxiliary fence stands tight on the table, without a gap"),
    c.TICK_J06: _("The sled or jig is made for the tilted blade, and clears it turned by hand"),
    c.TICK_J07: _("Every piece on the mitre sled is clamped to its fence"),
    # ---- checks
    c.CHECK_CUTTER: _("Cutter clean, sharp, tight; turned by hand past fence and jig"),
    c.CHECK_SPEED: _("Speed marked on the cutter at least the saw's; bore fits the arbor"),
    c.CHECK_KNIFE: _(
        "Guard and riving knife as this setup says; knife locked within {knife} of the blade, just "
        "below its top; guard on the work, at most {guard} above"
    ),
    c.CHECK_LOCKED: _(
        "Fence, stop or jig locked; fence parallel to the blade, for rips at most {overlap} past "
        "its first teeth, well away when the sled runs"
    ),
    c.CHECK_STOCK: _("One piece at a time, flat and straight; no nails, no loose knots"),
    c.CHECK_STICKS: _(
        "Push stick (18″, 450 mm), push block and stop switch within reach; table and floor clear"
    ),
    c.CHECK_WORN: _("Eyes, ears and dust: protection on; nothing loose on hands and sleeves"),
    c.CHECK_STILL: _("Blade stands still; offcuts cleared; blade lowered"),
    c.CHECK_GUARD: _("If the guard came off: it goes back on before any rip"),
    # ---- refusals
    c.REFUSED: _refused,
    c.PART: _("{mark} ({name})"),
    c.TEST_PIECE: _("test piece {mark}"),
    c.STICK: _("strip for {marks:comma}"),
    c.TEST_STICK: _("test strip for {marks:comma}"),
}
