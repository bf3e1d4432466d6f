"""What a door's year asks of its numbers: nothing binds in the wettest season, and the panel stays
in its grooves in the driest. What cannot be is told with what would do.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.errors import Fault
from sequencer.job.checked import Checked
from sequencer.job.kinds import Boarded
from sequencer.job.play import (
    STATED,
    board_span,
    frame_moves,
    least_gap,
    moving_wood,
    panel_moves,
    panel_span,
)
from sequencer.lengths import round_up
from sequencer.movement import Moves, moves
from sequencer.movement.grooved import GroovedSpan


def panel(c: Checked) -> Iterator[Fault]:
    """The panel's width, where its wood and its year are known."""
    moved = panel_moves(c.door)
    if moved is None or c.sight_width < c.limit("least_sight"):
        return
    span = panel_span(c.door, c.unit)
    if STATED in c.door.places:
        yield from _stated(c, span, moved)
    elif not span.holds(moved):
        message = _reaches(c, span, span.widest_panel(moved), moved)
        yield _too_shallow(c, span, moved, message)


def free_side(c: Checked) -> Iterator[Fault]:
    """The gap on the side away from the hinges, where the stiles' wood and year are known."""
    moved = frame_moves(c.door)
    if moved is None:
        return
    gaps = c.door.gaps
    gap = gaps.lock if c.door.leaves == 1 else gaps.meeting
    if gap is not None and gap < 0:
        return  # it laps over its case, and has room to grow
    least = least_gap(c.door, c.limit(f"{c.free}_air"), moved, c.unit)
    wood = moving_wood(c.door)
    if least > c.limit("most_gap"):
        message = f"the {wood} swell more than a gap of {c.say(c.limit('most_gap'))} takes"
        narrower = "narrower stiles" if c.door.slab is None else "a frame and a panel"
        hint = f"{narrower}, a wood that moves less, or wood that has settled in its room"
        yield c.fault(f"gaps.{c.free}", message, hint)
    elif gap is None:
        hint = f'write meeting = "{c.say(least)}" or more under [door.gaps]'
        yield c.fault("door", "a pair states its meeting gap", hint)
    elif gap < least:
        message = f"a {c.free} gap of {c.say(gap)} closes when the {wood} swell"
        these = "these stiles" if c.door.slab is None else "this wood"
        hint = f"{c.say(least)} is the least today, for {these} and this room"
        yield c.fault(f"gaps.{c.free}", message, hint)


def _stated(c: Checked, span: GroovedSpan, moved: Moves) -> Iterator[Fault]:
    """A play that the job states is kept, and checked."""
    play = c.door.panel.play_side
    width = span.sight + 2 * (span.depth - play)
    if width * moved.widest > span.most:
        room = (span.sight + 2 * span.depth - width * moved.widest) / 2
        left = f"leaves only {c.say(room)}" if room > 0 else "is gone"
        message = f"a play of {c.say(play)} a side today {left} in the wettest season"
    elif width * moved.narrowest < span.least:
        reaches = _reaches(c, span, width, moved)
        message = f"with a play of {c.say(play)} a side today, {reaches}"
    else:
        return
    least = round_up(span.play(span.most / moved.widest), c.unit)
    most = span.play(span.narrowest_panel(moved)) // span.step * span.step
    if least > most:
        yield _too_shallow(c, span, moved, message, " with play_side left out")
        return
    bound = f"at least {c.say(least)}" if play < least else f"at most {c.say(most)}"
    yield c.fault(STATED, message, f"play_side {bound}, or leave it out: it is computed then")


def _too_shallow(
    c: Checked, span: GroovedSpan, moved: Moves, message: str, also: str = ""
) -> Fault:
    found = _remedies(c, span, moved)
    hint = f"{_or(found)} would do{also}" if found else "narrower doors, or a wood that moves less"
    key = next((k for k in ("groove.depth", "panel.engagement") if k in c.door.places), "door")
    return c.fault(key, message, hint)


def _reaches(c: Checked, span: GroovedSpan, width: Fraction, moved: Moves) -> str:
    reach = (width * moved.narrowest - span.sight) / 2
    if reach <= 0:
        return "the panel comes out of its groove in the driest season"
    held = f"the panel reaches only {c.say(reach)} into its groove in the driest season"
    return f"{held}, under {c.say(span.engagement)}"


def _remedies(c: Checked, span: GroovedSpan, moved: Moves) -> list[str]:
    """A deeper groove where the frame keeps enough wood beside it, narrower panels, quarter-sawn
    wood."""
    door = c.door
    found = []
    depth = span.deep_enough(moved)
    frame = min(door.hinge_stile, door.free_stile, door.top_rail, door.bottom_rail)
    if frame - depth >= c.limit("least_wood"):
        found.append(f"a groove {c.say(depth)} deep")
    between = max(door.hinge_stile, door.free_stile)
    count = span.panels(moved, between, c.limit("least_sight"))
    if count is not None:
        found.append(f"{count} panels side by side with {c.say(between)} between them")
    if door.sawn == "flat" and door.year is not None:
        quarter = moves(door.panel.species, "quarter", door.year)
        if quarter is not None and span.holds(quarter):
            found.append("quarter-sawn wood")
    return found


def _or(words: list[str]) -> str:
    """`a, b or c`."""
    return " or ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def boards(c: Checked) -> Iterator[Fault]:
    """Tongues that stay in their grooves, outer boards in the stiles'. Nothing binds: gaps and
    reach are made so."""
    boarded = c.door.fill
    if not isinstance(boarded, Boarded) or c.sight_width < c.limit("least_sight"):
        return
    span = board_span(c.door, c.unit)
    if min(span.lights) <= 0 or boarded.width < c.limit("least_board") or span.holds():
        return
    narrower = span.narrower()
    less = [] if narrower is None else [f"boards at most {c.say(narrower)} wide"]
    least, most = c.limit("least_board"), c.limit("most_tongue")
    laid = span.all()
    narrowest = span.moves.narrowest
    tightest = min(min(each.inner, each.outer - each.reach) for each in laid)
    wanted = max(round_up(each.tongue_for(span.engagement), c.unit) for each in laid)
    loosest = min(laid, key=lambda each: each.reach_at(narrowest))
    if loosest.reach_at(narrowest) < span.engagement:
        reach = max(loosest.reach_at(narrowest), Fraction(0))
        message = (
            f"the outer boards reach only {c.say(reach)} into the stiles' grooves in the driest "
            f"season, under {c.say(span.engagement)}"
        )
        deeper = span.deep_enough()
        frame = min(c.door.hinge_stile, c.door.free_stile, c.door.top_rail, c.door.bottom_rail)
        fits = deeper is not None and frame - deeper >= c.limit("least_wood")
        found = [f"a groove {c.say(deeper)} deep"] if deeper is not None and fits else []
        key = "groove.depth"
    elif wanted > most:
        message = f"tongues would have to be {c.say(wanted)} long, to stay in their grooves"
        found, key = [], "boarded.width"
    elif boarded.tongue is not None and boarded.tongue < wanted:
        hold = max(min(each.hold_at(narrowest) for each in laid), Fraction(0))
        message = (
            f"a tongue {c.say(boarded.tongue)} long is only {c.say(hold)} in its groove in the "
            f"driest season, under {c.say(span.engagement)}"
        )
        found, key = [f"a tongue {c.say(wanted)} long"], "boarded.tongue"
    else:
        message = f"boards would show only {c.say(max(tightest, Fraction(0)))}"
        hint = f"at least {c.say(least)}: wider boards, or a flat panel"
        yield c.fault(_stated_at(c, "boarded.width"), message, hint)
        return
    found += less
    hint = f"{_or(found)} would do" if found else "narrower doors, or a wood that moves less"
    yield c.fault(_stated_at(c, key), message, hint)


def _stated_at(c: Checked, key: str) -> str:
    keys = (key, "boarded.width", "boarded", "fill")
    return next((each for each in keys if each in c.door.places), "door")
