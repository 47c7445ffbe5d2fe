"""Which sets stand before others? By how they fit, then by a smell of a trick, then by what is wanted."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from service.core.model.finding import Verdict
from service.core.model.hours import Floats, Ints
from service.core.shortlist.wish import NEVER

# How a set fits, the less the better: nothing speaks against it, or only what nobody knows; with the worst values usual
# where ratings were not told it is refused; it is refused, and that can be mended.
FIT_GROUPS = ("likely_fits", "likely_does_not_fit", "does_not_fit")
LIKELY_FITS, LIKELY_DOES_NOT_FIT, REFUSED = range(3)


def fit_of(verdicts: Iterable[tuple[Verdict, Verdict]]) -> int:
    """How it fits by what was found: verdicts, and verdicts with the worst values.

    >>> fit_of([(Verdict.NOT_KNOWN, Verdict.DOES_NOT_FIT), (Verdict.FITS, Verdict.FITS)])
    1
    """
    found = tuple(verdicts)
    if any(verdict == Verdict.DOES_NOT_FIT for verdict, _ in found):
        return REFUSED
    return LIKELY_DOES_NOT_FIT if any(likely == Verdict.DOES_NOT_FIT for _, likely in found) else LIKELY_FITS


def behind(fit: int, *, tricky: bool) -> int:
    """In which row of places a set stands, 0 the first: by its fit, and in it behind those without a smell."""
    return 2 * fit + int(tricky)


# A place is such a row and a figure of what is wanted; this is the last of all.
LAST = (behind(REFUSED, tricky=True), NEVER)


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelCap:
    """What was published for the watts of a set's panels; ``beyond`` is how a set fits that has more."""

    most_w: float
    inclusive: bool
    beyond: int

    def fit(self, watts: Floats) -> Ints:
        """How sets of these watts fit it."""
        over = watts > self.most_w if self.inclusive else watts >= self.most_w
        return np.where(over, self.beyond, LIKELY_FITS)
