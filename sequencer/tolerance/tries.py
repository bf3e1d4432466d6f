"""The share of a fit that comes out at the first try, from what is known of its settings."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

from sequencer.saw.fittings import SPACER
from sequencer.tolerance.cases import Case
from sequencer.tolerance.errors import Errors
from sequencer.tolerance.forms import Form, Source
from sequencer.tolerance.likely import Accepted, Density, accepted, milled, share_inside
from sequencer.trade import spreads


class Tries:
    """What is likely of the settings of one plan."""

    def __init__(self, errors: Errors) -> None:
        self.errors = errors
        self.known = errors.known
        self.sigma = float(errors.length(spreads.PASS))
        self.step = self.sigma / 4
        self._accepted: dict[int, Accepted] = {}

    def share(self, case: Case) -> float:
        """Of a case that is a fit."""
        form = self.known.put(case.off, self.known.likely)
        densities, rest = self.split(form)
        limits = case.limits
        always = (self.marked(source) * part for source, part in form.parts.items())
        nominal = float(case.nominal + sum(always, Fraction(0)))
        least = -1e9 if limits.least is None else float(limits.least) - nominal
        most = 1e9 if limits.most is None else float(limits.most) - nominal
        return share_inside(least, most, densities, sqrt(rest))

    def split(self, form: Form) -> tuple[list[Density], float]:
        """The parts of a form that are not normal, and the variance of all that is."""
        tested = {
            source: (number, sign)
            for number, fresh in self.known.fresh.items()
            if len(fresh.parts) == 1
            for source, sign in fresh.parts.items()
        }
        densities: list[Density] = []
        rest = 0.0
        for source, part in form.parts.items():
            found: Density | None = None
            if source.kind in ("accepted", "noise"):
                known = self.accepted(int(source.of))
                found = known.value if source.kind == "accepted" else known.noise
            elif source.kind == "pass" and source in tested:
                number, sign = tested[source]
                passed = self.accepted(number).passed
                found = passed if sign > 0 else passed.turned()
            elif source.kind == "thick":
                found = self.thickness(source.of)
            if found is not None and part.denominator == 1:
                found = found.stretched(abs(int(part)))
                densities.append(found if part > 0 else found.turned())
            elif found is not None:
                rest += float(part) ** 2 * found.variance
            else:
                rest += float(part) ** 2 * self.variance(source)
        return densities, max(rest, (self.step / 2) ** 2)

    def marked(self, source: Source) -> Fraction:
        """What is no error of a source: how far what a check aims at lies off what the plan
        makes."""
        if source.kind not in ("accepted", "mark"):
            return Fraction(0)
        check = self.errors.checks[int(source.of)]
        return check.target - check.exact

    def variance(self, source: Source) -> float:
        """Of what is normal, or so small that it may pass for it."""
        match source.kind:
            case "pass":
                return self.sigma**2
            case "mark":
                return 0.0
            case "knob" if not source.of.startswith(SPACER):
                return float(self.errors.length(spreads.SCALE)) ** 2
            case _:
                low, high = self.errors.bound(source)
                return float(high - low) ** 2 / 12

    def thickness(self, mark: str) -> Density:
        number = self.errors.milled.get(mark)
        sigma = float(self.errors.length(spreads.THICKNESS))
        if number is None:
            return milled(-3 * sigma, 3 * sigma, sigma, 0.0, self.step)
        check, read = self.errors.checks[number], float(self.errors.reading(number))
        low, high = float(check.low - check.exact), float(check.high - check.exact)
        return milled(low, high, sigma, read, self.step)

    def accepted(self, number: int) -> Accepted:
        """What is likely of a check's setting once its reading lies in the window."""
        if number not in self._accepted:
            self._accepted[number] = self._accept(number)
        return self._accepted[number]

    def _accept(self, number: int) -> Accepted:
        check, per = self.errors.checks[number], abs(float(self.known.per[number]))
        # A block stands before a jig that was tried: that is a printed distance from there.
        set_by = spreads.MOVE if check.knob == SPACER else spreads.SCALE
        wide = (per * float(self.errors.length(set_by))) ** 2
        for source, part in self.known.lasting[number].parts.items():
            if source.kind not in ("accepted", "pass"):
                wide += float(part) ** 2 * self.variance(source)
        return accepted(
            float(check.low - check.target),
            float(check.high - check.target),
            sqrt(wide),
            per * float(self.errors.length(spreads.MOVE)),
            len(self.known.fresh[number].parts),
            self.sigma,
            float(self.errors.reading(number)),
        )
