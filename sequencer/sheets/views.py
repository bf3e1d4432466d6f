"""Which picture a setup has: its first piece at its first pass, before the saw or on the mitre
sled.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import groupby

from sequencer.instructions import words
from sequencer.instructions.figures import Scale
from sequencer.plan import Plan, Setup, Step
from sequencer.safety.rules import limits
from sequencer.saw.fittings import CARRIERS
from sequencer.sheets.drawings import setup_drawing
from sequencer.sheets.mitre import MitreView, hand_of, mitre_drawing
from sequencer.sheets.pieces import Doing, Pieces
from sequencer.sheets.placing import SawView
from sequencer.sheets.section import Section, toward
from sequencer.wording import Room, pictures, saws

Alike = tuple[object, ...]


def drawings(plan: Plan, scale: Scale) -> dict[int, str]:
    """The pictures of all setups, by their numbers."""
    pieces = Pieces(plan)
    return {
        number: drawing_of(plan, pieces.setups[number], tuple(group), scale, pieces)
        for number, group in groupby(plan.steps, key=lambda step: step.setup)
        if number is not None
    }


def drawing_of(
    plan: Plan, setup: Setup, steps: tuple[Step, ...], scale: Scale, pieces: Pieces
) -> str:
    """The picture; empty where nothing is cut."""
    doings = [doing for step in steps for doing in pieces.doings(step) if doing.cuts]
    shown = sorted(doings, key=lambda d: (d.operation is None, d.cuts[0].against is None))
    if not shown:
        return ""
    deck = plan.shop.decks.get(setup.carrier, Fraction(0))
    row = CARRIERS[setup.carrier]
    if row.slanted:
        return _on_mitre_sled(setup, shown[0], deck, scale, pieces)
    seen, again, guide = pieces.view(shown[0], setup)
    cut, marked = shown[0].cuts[0], pieces.marked(shown[0].cuts[0].mark)
    side = plan.shop.guide_side(setup.carrier, setup.tilt)
    room = scale.room
    looks = toward(cut, pieces.hand(cut.mark), side)
    nameless = cut.mark in pieces.sticks and looks in ("end-A", "end-B")  # a strip's ends
    near = room.text(pictures.NEAR, side=room.term(words.SURFACES[marked][looks]))
    knob = plan.shop.guide_knob(setup.carrier)
    rides = knob != row.knob
    view = SawView(
        setup=setup,
        section=seen,
        again=again,
        by_eye=shown[0].cuts[0].against is None,
        drawn_guide=guide,
        knob=knob,
        deck=deck,
        guide_name=_surface(plan, setup, seen, room),
        mark=room.text(pictures.NAMED, mark=shown[0].mark, name=pieces.name(shown[0].mark, room)),
        behind=plan.shop.jig_thickness if rides else Fraction(0),
        near="" if nameless else near,
        marked=marked,
        side=side,
        leans=saws.leaning(setup.tilt, plan.shop.tilts, room) if setup.tilt else "",
        hold=cut.hold,
        waste=cut.waste,
        clear=limits(plan.unit, {})["hand_to_blade_warned"],
    )
    return setup_drawing(view, scale)


def drawn_alike(plan: Plan, setup: Setup, steps: tuple[Step, ...], pieces: Pieces) -> Alike:
    """What two setups have in common whose pictures differ in nothing but figures, marks and the
    end that is cut; empty where nothing is cut."""
    doings = [doing for step in steps for doing in pieces.doings(step) if doing.cuts]
    told = []
    for doing in doings:
        for cut in doing.cuts:
            hold, waste = cut.hold, cut.waste
            held = (hold.by, hold.side, hold.pressed) if hold else ()
            falls = (waste.what, waste.side, waste.lands) if waste else ()
            ways = (str(cut.down)[:4], str(cut.against)[:4], pieces.marked(cut.mark))
            swept = (cut.sweep, cut.back is None, cut.keeps)
            told.append((doing.step.kind, *ways, swept, held, falls))
    if not told:
        return ()
    deeper = setup.depth < plan.shop.decks.get(setup.carrier, Fraction(0)) + setup.height
    return (setup.carrier, setup.tilt, bool(setup.spacer), deeper, *dict.fromkeys(told))


def _surface(plan: Plan, setup: Setup, seen: Section, room: Room) -> str:
    """What the piece bears on; a fence is told to be tall where an ordinary one is too low."""
    stands = CARRIERS[setup.carrier].body == "fence" and seen.sides[2] not in ("face", "back")
    ordinary = limits(plan.unit, {})["ordinary_fence"]
    tall = stands and seen.upright > 2 * ordinary
    return room.text(pictures.TALL_FENCE) if tall else saws.carrier(setup.carrier, room).surface


def _on_mitre_sled(setup: Setup, doing: Doing, deck: Fraction, scale: Scale, pieces: Pieces) -> str:
    mark, cut = doing.cuts[0].mark, doing.cuts[0]
    hand = hand_of(cut, pieces.hand(mark))
    name = pieces.name(mark, scale.room)
    clear = limits(scale.unit, {})["hand_to_blade_warned"]
    marked = pieces.marked(mark)
    view = MitreView(setup, pieces.size(mark), cut, hand, deck, mark, name, marked, clear)
    return mitre_drawing(view, scale)
