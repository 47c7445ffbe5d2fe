"""How much farther is the table off where the sky hardly ever has clouds? Learned on stations, judged on left-out ones.

``python -m service bench climate STATIONS.csv`` prints the figure for ``accuracy.py``, what it is with each region left
out, and how many left-out sites then lie within the band.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtri, stdtrit

_END = 0.9  # the hopeful end is the ninth tenth, the cautious one the first


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """One site: its true year over the table's less one, and what it may be off by for other reasons.

    ``years_sd``: by the years that it is the mean of. ``rest_sd``: by the table's doubt but for that of a cloudless
    sky. ``share``: how fully that one counts there, ``accuracy.cloudless_share``.
    """

    region: str
    off: float
    years_sd: float
    rest_sd: float
    share: float


def cloudless_sd_of(sites: Sequence[Judged], without: str | None = None) -> float | None:
    """What ``accuracy.CLOUDLESS_SD_SHARE`` should be by these sites, the region ``without`` left out; None: no site.

    Every region counts alike, however many its sites, and each site by the square of its share, as its variance does. A
    new region's error has the spread that a few others show only by chance: Student's t with one degree of freedom for
    each region of full share in place of the normal law.
    """
    known = [site for site in sites if site.share > 0.0 and site.region != without]
    regions = [[site for site in known if site.region == name] for name in sorted({site.region for site in known})]
    if not regions:
        return None
    weight, seen, rest = np.sum([np.mean([_squares(site) for site in region], axis=0) for region in regions], axis=0)
    degrees = sum(max(site.share**2 for site in region) for region in regions)
    few = stdtrit(max(degrees, 1.0), _END) / ndtri(_END)
    return float(np.sqrt(max(seen * few**2 - rest, 0.0) / weight))


def _squares(site: Judged) -> tuple[float, float, float]:
    """Its weight, and with it what the table was off by beyond the years, and what it may be off by anyway."""
    weight = site.share**2
    return weight, weight * (site.off**2 - site.years_sd**2), weight * site.rest_sd**2
