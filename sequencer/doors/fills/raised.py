"""Raised panels: a field, and on all four edges a bevel whose thin end slides into the groove."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from sequencer.doors.fills.flat import flat_panels
from sequencer.doors.fills.model import Filled, Fitting
from sequencer.doors.leaf import Light
from sequencer.errors import Refusal
from sequencer.facts import Length
from sequencer.facts import parts as told
from sequencer.job.defaults import lengths
from sequencer.job.kinds import Raised
from sequencer.job.schema import Door
from sequencer.plan import Feature, Prism, Size
from sequencer.records import replace
from sequencer.trade.fits import LEAST_AIR, OVERLAP

ZERO = Fraction(0)


class Wedge(Struct, frozen=True):
    """A bevel's section: `edge` thick at the panel's edge, `width` from there to the field, which
    stands `step` above its end on a panel `thickness` thick. The back is flat. It fits the
    groove's mouth where it is `reach` from the edge."""

    thickness: Fraction
    width: Fraction
    step: Fraction
    edge: Fraction
    reach: Fraction

    @property
    def slope(self) -> Fraction:
        """How much thicker it grows in one unit from the edge.

        >>> wedge = Wedge(*map(Fraction, ("5/8", "5/4", "1/8", "1/8", "1/4")))
        >>> wedge.slope, wedge.thick(Fraction(1, 4))
        (Fraction(3, 10), Fraction(1, 5))
        """
        return (self.thickness - self.step - self.edge) / self.width

    def thick(self, inward: Fraction) -> Fraction:
        """So far from the edge, within the bevel."""
        return self.edge + inward * self.slope


def raised_panels(
    spec: Door, mark: str, first: int, lights: Sequence[Light], fitting: Fitting
) -> Filled:
    """As large as flat panels would be; their backs lie at the groove's back wall. Raises `Refusal`
    where no bevel of that width fits the groove, or the blade leaves no such step."""
    wedge = wedge_of(spec, fitting)
    flat = flat_panels(spec, mark, first, lights, fitting)
    parts = []
    for part in flat.parts:
        size = replace(part.size, thickness=wedge.thickness)
        parts.append(replace(part, size=size, features=tuple(_bevels(size, wedge))))
    forward = wedge.thickness - fitting.sizes.panel
    places = (
        replace(place, origin=(*place.origin[:2], place.origin[2] - forward))
        for place in flat.places
    )
    return Filled(tuple(parts), tuple(places))


def wedge_of(spec: Door, fitting: Fitting) -> Wedge:
    """The bevel that lets the panel as deep into the groove as it is ever to go, at its widest or
    at its ends, and there fits the mouth. Raises `Refusal` with figures."""
    raised = spec.fill
    assert isinstance(raised, Raised)
    assert spec.panel.thickness is not None  # the job's reader asks for it
    unit = fitting.unit
    thickness, width, step = spec.panel.thickness, raised.bevel, raised.step
    mouth = fitting.sizes.panel
    reach = fitting.sizes.groove_depth - min(fitting.fact(LEAST_AIR), spec.panel.play_end)
    inner = thickness - step
    # A kerf that only just reached the face would leave the waste hanging by a fin.
    most = fitting.kerf - fitting.fact(OVERLAP)
    if step > most:
        raise Refusal(
            told.STEP_TOO_HIGH(
                where=spec.where,
                kerf=Length(fitting.kerf, unit),
                most=Length(most, unit),
                step=Length(step, unit),
            )
        )
    if inner <= mouth:
        raise Refusal(
            told.BEVEL_TOO_THIN(
                where=spec.where,
                thickness=Length(thickness, unit),
                step=Length(step, unit),
                mouth=Length(mouth, unit),
            )
        )
    edge = (mouth * width - reach * inner) / (width - reach)
    least = lengths(unit)["limits.least_edge"]
    if edge < least:
        # Where the edge is as thin as it may be: mouth = least + reach · (inner − least) / width.
        wider = reach * (inner - least) / (mouth - least) if mouth > least else None
        raise Refusal(
            told.PANEL_EDGE_TOO_THIN(
                where=spec.where,
                bevel=Length(width, unit),
                edge=Length(max(edge, ZERO), unit),
                least=Length(least, unit),
                wider=None if wider is None else Length(wider, unit),
            )
        )
    return Wedge(thickness, width, step, edge, reach)


def _bevels(size: Size, wedge: Wedge) -> Iterator[Feature]:
    """Ends first, as they are cut."""
    for at, axes, whole, along in (
        ("A", "xz", size.length, size.width),
        ("B", "xz", size.length, size.width),
        ("inside-edge", "yz", size.width, size.length),
        ("outside-edge", "yz", size.width, size.length),
    ):
        section = (
            (ZERO, ZERO),
            (ZERO, wedge.thickness - wedge.edge),
            (wedge.width, wedge.step),
            (wedge.width, ZERO),
        )
        if at in ("B", "outside-edge"):
            section = tuple((whole - inward, z) for inward, z in section)  # type: ignore[assignment]  # four again
        prism = Prism(axes, section, (ZERO, along))
        yield Feature("bevel", at, prism.box, prism=prism)
