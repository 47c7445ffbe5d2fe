"""What was found out about rows of panels beside an inverter: how they fit, what is drawn, what a year brings?"""

from dataclasses import dataclass

import numpy as np

from service.core.model.hours import Bools, Floats, Ints
from service.core.shortlist.grouped import Singles


@dataclass(frozen=True, slots=True, eq=False)
class Judged:
    """Of rows of panels in one layout on an inverter (m,): how they fit, kWh of the year and what they save.

    nan where an input refuses them; ``saving`` is None where no price is known.
    """

    fit: Ints
    year_kwh: Floats
    saving: Floats | None


class Drawn:
    """Of each kind of panel on one input so hung: was it asked about, can it be, how does it fit, and what is drawn.

    ``power_w``: (kinds, k).
    """

    def __init__(self, kinds: int, groups: int) -> None:
        self.asked: Bools = np.zeros(kinds, bool)
        self.fits: Bools = np.zeros(kinds, bool)
        self.fit: Ints = np.zeros(kinds, np.int64)
        self.power_w: Singles = np.zeros((kinds, groups), np.float32)
