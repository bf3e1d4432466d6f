"""What a door's year asks of its numbers: nothing binds in the wettest season, and the panel stays
in its grooves in the driest. What cannot be is told with what would do.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from sequencer.errors import Fault
from sequencer.facts import Fact, Kind, doors, seasons
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
        message = seasons.SWELLS_TOO_MUCH(wood=wood, most=c.length(c.limit("most_gap")))
        hint = seasons.NARROWER_STILES() if c.door.slab is None else seasons.NO_SLAB()
        yield c.fault(f"gaps.{c.free}", message, hint)
    elif gap is not None and gap < least:
        message = doors.GAP_CLOSES(gap=c.length(gap), wood=wood)
        yield c.fault(f"gaps.{c.free}", message, seasons.LEAST_GAP_TODAY(least=c.length(least)))


def _stated(c: Checked, span: GroovedSpan, moved: Moves) -> Iterator[Fault]:
    """A play that the job states is kept, and checked."""
    play = c.door.panel.play_side
    width = span.sight + 2 * (span.depth - play)
    if width * moved.widest > span.most:
        room = (span.sight + 2 * span.depth - width * moved.widest) / 2
        message = seasons.PLAY_GOES(play=c.length(play))
        if room > 0:
            message = seasons.PLAY_SHRINKS(play=c.length(play), left=c.length(room))
    elif width * moved.narrowest < span.least:
        reaches = _reaches(c, span, width, moved)
        message = seasons.WITH_PLAY(play=c.length(play), then=reaches)
    else:
        return
    least = round_up(span.play(span.most / moved.widest), c.unit)
    most = span.play(span.narrowest_panel(moved)) // span.step * span.step
    if least > most:
        yield _too_shallow(c, span, moved, message, seasons.WOULD_DO_WITHOUT_PLAY)
        return
    hint = seasons.PLAY_AT_MOST(most=c.length(most))
    if play < least:
        hint = seasons.PLAY_AT_LEAST(least=c.length(least))
    yield c.fault(STATED, message, hint)


def _too_shallow(
    c: Checked,
    span: GroovedSpan,
    moved: Moves,
    message: Fact,
    would_do: Kind = seasons.WOULD_DO,
) -> Fault:
    found = _remedies(c, span, moved)
    hint = would_do(remedies=tuple(found)) if found else seasons.NARROWER_DOORS()
    key = next((k for k in ("groove.depth", "panel.engagement") if k in c.door.places), "door")
    return c.fault(key, message, hint)


def _reaches(c: Checked, span: GroovedSpan, width: Fraction, moved: Moves) -> Fact:
    reach = (width * moved.narrowest - span.sight) / 2
    if reach <= 0:
        return seasons.PANEL_COMES_OUT()
    return seasons.PANEL_HARDLY_IN(reach=c.length(reach), least=c.length(span.engagement))


def _remedies(c: Checked, span: GroovedSpan, moved: Moves) -> list[Fact]:
    """A deeper groove where the frame keeps enough wood beside it, narrower panels, quarter-sawn
    wood."""
    door = c.door
    found = []
    depth = span.deep_enough(moved)
    frame = min(door.hinge_stile, door.free_stile, door.top_rail, door.bottom_rail)
    if frame - depth >= c.limit("least_wood"):
        found.append(seasons.DEEPER_GROOVE(depth=c.length(depth)))
    between = max(door.hinge_stile, door.free_stile)
    count = span.panels(moved, between, c.limit("least_sight"))
    if count is not None:
        found.append(seasons.SIDE_BY_SIDE(count=count, between=c.length(between)))
    if door.sawn == "flat" and door.year is not None:
        quarter = moves(door.panel.species, "quarter", door.year)
        if quarter is not None and span.holds(quarter):
            found.append(seasons.QUARTER_SAWN())
    return found


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
    less = [] if narrower is None else [seasons.NARROWER_BOARDS(width=c.length(narrower))]
    least, most = c.limit("least_board"), c.limit("most_tongue")
    laid = span.all()
    narrowest = span.moves.narrowest
    tightest = min(min(each.inner, each.outer - each.reach) for each in laid)
    wanted = max(round_up(each.tongue_for(span.engagement), c.unit) for each in laid)
    loosest = min(laid, key=lambda each: each.reach_at(narrowest))
    found: list[Fact] = []
    if loosest.reach_at(narrowest) < span.engagement:
        reach = max(loosest.reach_at(narrowest), Fraction(0))
        message = seasons.BOARDS_HARDLY_IN(reach=c.length(reach), least=c.length(span.engagement))
        deeper = span.deep_enough()
        frame = min(c.door.hinge_stile, c.door.free_stile, c.door.top_rail, c.door.bottom_rail)
        fits = deeper is not None and frame - deeper >= c.limit("least_wood")
        if deeper is not None and fits:
            found.append(seasons.DEEPER_GROOVE(depth=c.length(deeper)))
        key = "groove.depth"
    elif wanted > most:
        message = seasons.TONGUES_TOO_LONG(tongue=c.length(wanted))
        key = "boarded.width"
    elif boarded.tongue is not None and boarded.tongue < wanted:
        hold = max(min(each.hold_at(narrowest) for each in laid), Fraction(0))
        message = seasons.TONGUE_HARDLY_IN(
            tongue=c.length(boarded.tongue),
            hold=c.length(hold),
            least=c.length(span.engagement),
        )
        found.append(seasons.LONGER_TONGUE(tongue=c.length(wanted)))
        key = "boarded.tongue"
    else:
        message = seasons.BOARDS_HARDLY_SHOW(show=c.length(max(tightest, Fraction(0))))
        hint = seasons.WIDER_BOARDS(least=c.length(least))
        yield c.fault(_stated_at(c, "boarded.width"), message, hint)
        return
    found += less
    hint = seasons.NARROWER_DOORS()
    if found:
        hint = seasons.WOULD_DO(remedies=tuple(found))
    yield c.fault(_stated_at(c, key), message, hint)


def _stated_at(c: Checked, key: str) -> str:
    keys = (key, "boarded.width", "boarded", "fill")
    return next((each for each in keys if each in c.door.places), "door")
