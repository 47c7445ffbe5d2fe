"""What did the set give, step by step, as far as anybody knows?"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.hours import Floats

SHORTEST_STEP_S, LONGEST_STEP_S = 300, 86_400


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoggedSeries:
    """A log on a regular grid, cleaned: of one input, or of the whole set. Arrays of shape (n,), n >= 1.

    Attributes:
        start_s: Unix seconds at which each step begins: ascending, unique, ``step_s`` apart from first to last.
        step_s: length of a step, 300 to 86 400. A step of a day begins at local midnight of its day where the zone
            has no summer time; with it, days stay 86 400 s apart and begin at local *standard* midnight.
        energy_wh: energy of each step on the a.c. side, >= 0; nan where nothing was logged or where only the sum over
            several steps is known.
        time_zone: IANA name of the site's zone.
        input: number of the inverter's input, from 1; None: the whole set.
    """

    start_s: NDArray[np.int64]
    step_s: int
    energy_wh: Floats
    time_zone: str
    input: int | None = None
