"""Tongue-and-groove boards: upright in their light, as thick as the groove takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from sequencer.doors.fills.model import Filled, Fitting
from sequencer.doors.leaf import Light
from sequencer.errors import Refusal
from sequencer.facts import Length
from sequencer.facts import parts as told
from sequencer.job.defaults import lengths
from sequencer.job.play import board_span, fill_moves
from sequencer.job.schema import Door
from sequencer.joints.sizes import third, turned_round
from sequencer.movement.boarded import BoardedSpan, Boarding
from sequencer.plan import BoardSeason, Feature, Part, Place, Size, Span
from sequencer.trade import fits

ZERO = Fraction(0)


def boards(spec: Door, mark: str, first: int, lights: Sequence[Light], fitting: Fitting) -> Filled:
    """From left to right, seen from the front: every board but the last has a tongue on its right,
    every one but the first a groove on its left. Raises `Refusal` where they are too thin for
    groove and tongue."""
    span = board_span(spec, fitting.unit)
    sizes = fitting.sizes
    thickness = sizes.panel
    groove, tongue = _through(spec, thickness, fitting)
    end = sizes.groove_depth - spec.panel.play_end
    behind = sizes.groove[0] + (sizes.groove[1] - sizes.groove[0] - thickness) / 2
    parts: list[Part] = []
    places: list[Place] = []
    years: list[BoardSeason] = []
    for light in lights:
        laid = span.laid(light.width)
        length = light.height + 2 * end
        marks: list[str] = []
        at = light.left - laid.reach
        for number in range(laid.count):
            tongued, grooved = number + 1 < laid.count, number > 0
            face = laid.inner if tongued and grooved else laid.outer
            width = face + (laid.tongue if tongued else ZERO)
            size = Size(length, width, thickness)
            part = Part(
                mark=f"{mark}{first + len(parts)}",
                door=mark,
                role="board",
                name=told.NUMBERED(name="board", n=len(parts) + 1),
                material=spec.panel.species,
                size=size,
                features=tuple(
                    _features(size, laid.tongue, groove if grooved else None,
                              tongue if tongued else None)
                ),
            )  # fmt: skip
            origin = (at, light.bottom + light.height + end, behind)
            parts.append(part)
            places.append(Place(part.mark, origin, ("-y", "+x", "+z")))
            marks.append(part.mark)
            at += face + laid.gap
        if fill_moves(spec) is not None:
            years.append(_year(laid, tuple(marks), span))
    return Filled(tuple(parts), tuple(places), boards=tuple(years))


def _through(spec: Door, thickness: Fraction, fitting: Fitting) -> tuple[Span, Span]:
    """z-ranges of groove and tongue: a third of the thickness in whole passes, in the middle."""
    unit, kerf, marks = fitting.unit, fitting.kerf, fitting.marks
    width, least = third(thickness, kerf, unit, marks), lengths(unit)["limits.least_wall"]
    if width == kerf:
        width = turned_round(thickness, kerf, least, marks)
    wall = (thickness - width) / 2
    if wall < least:
        raise Refusal(
            told.BOARD_TOO_THIN(
                where=spec.where,
                thickness=Length(thickness, unit),
                wall=Length(max(wall, ZERO), unit),
                groove=Length(width, unit),
                least=Length(least, unit),
                enough=Length(width + 2 * least, unit),
            )
        )
    thick = width - fitting.fact(fits.PANEL_FIT)
    return (wall, wall + width), ((thickness - thick) / 2, (thickness + thick) / 2)


def _features(
    size: Size, deep: Fraction, groove: Span | None, tongue: Span | None
) -> Iterator[Feature]:
    along = (ZERO, size.length)
    if groove is not None:
        yield Feature("groove", "inside-edge", (along, (ZERO, deep), groove))
    if tongue is not None:
        across = (size.width - deep, size.width)
        yield Feature("rebate", "outside-edge", (along, across, (ZERO, tongue[0])))
        yield Feature("rebate", "outside-edge", (along, across, (tongue[1], size.thickness)))


def _year(laid: Boarding, marks: tuple[str, ...], span: BoardedSpan) -> BoardSeason:
    driest, wettest = laid.moves.driest, laid.moves.wettest
    widths = (driest, Fraction(1), wettest)
    leave = (laid.gap_at(driest), laid.gap, laid.gap_at(wettest))
    hold = (laid.hold_at(driest), laid.hold_at(widths[1]), laid.hold_at(wettest))
    reach = (laid.reach_at(driest), laid.reach, laid.reach_at(wettest))
    return BoardSeason(
        parts=marks,
        species=laid.moves.species,
        tongue=laid.tongue,
        depth=laid.depth,
        engagement=span.engagement,
        leave=leave,
        hold=hold,
        edge=(laid.depth - reach[0], laid.depth - reach[1], laid.depth - reach[2]),
        reach=reach,
    )
