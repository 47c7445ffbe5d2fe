"""What share of its volts and amperes is left of a panel that is low, and of what?

A panel may lie below its lot, below what its label and the light make it give, or below both. The higher one counts: a
lot that is sick itself excuses nobody, and of two panels the one that reads less is never left with more. A lot that
gives more than its label can is of another type and measures nobody.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from service.core.pickup.facts import Quantity, Seen


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """What a low reading of one quantity is held against.

    ``low``, ``likely``, ``high``: what a sound panel reads; ``trusted``: is the light known well enough to accuse a
    whole lot by it? ``lot``: what those of the lot read that are its measure, None where none are; ``below_lot``: does
    the panel lie below them? ``alike``: is it alone, or does none of the lot stand apart?
    """

    low: float
    likely: float
    high: float
    trusted: bool
    lot: float | None
    below_lot: bool
    alike: bool

    def of(self, read: float) -> float:
        """What the panel would read if nothing were missing."""
        if self._is_low(read):
            return max(self.likely, self._lot) if self._lot <= self.high else self.likely
        return self._lot or self.likely

    def leaves_open(self, read: float) -> bool:
        """Is the lot the only measure, and nobody knows whether it is sound itself?"""
        return self._lot > 0.0 and not self._is_low(read) and not (self.trusted and self._lot >= self.low)

    def _is_low(self, read: float) -> bool:
        return self.trusted and read < self.low

    @property
    def _lot(self) -> float:
        """Nought where it is no measure."""
        return (self.lot or 0.0) if self.below_lot else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """The shares by quantity.

    ``at_most``: more may be missing, of what is open, or because the lot that measured may lack something, too.
    ``not_known``: what is open may be so much that a share would mislead.
    """

    shares: Mapping[str, float]
    at_most: bool
    not_known: bool


def power_left(quantities: Iterable[Quantity], measures: Mapping[str, Measure]) -> Left:
    """What is left where volts or amperes are suspicious, by the lowest of several readings.

    A fault that comes and goes is one. What is open counts as sound, at most, as long as no other panel of the lot
    reads otherwise; else a panel could be worth more for reading less, by becoming one of which nobody can tell.

    Args:
        quantities: what was read on one panel, without rounds that met no contact.
        measures: by quantity.
    """
    left: dict[str, float] = {}
    at_most = not_known = False
    for one in quantities:
        if one.what not in measures or one.measured is None:
            continue
        measure = measures[one.what]
        if one.verdict is Seen.CANNOT_TELL:
            at_most, not_known = True, not_known or not measure.alike or _is_dull(one)
        elif one.verdict is Seen.SUSPICIOUS and (whole := measure.of(one.measured)) > 0:
            left[one.what] = min(one.measured / whole, left.get(one.what, 1.0))
            at_most |= measure.leaves_open(one.measured)
    return Left(shares=left, at_most=at_most, not_known=not_known)


def _is_dull(one: Quantity) -> bool:
    """Are those volts that low light may have taken, or a fault?"""
    return one.unit == "V" and any(why.code == "light_too_low" for why in one.causes)
