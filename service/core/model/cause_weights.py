"""How much does each quantity of a log speak for each cause? The fitted weights of a diagnosis, as plain values."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CaseWeights:
    """Weights of one case (steps of hours or of days, without or with weather).

    Attributes:
        quantities: names of the q quantities that are weighed.
        usual, spread: (q,) what is usual in made-up logs, and its standard deviation.
        weight: (q, causes) by which a quantity's distance from the usual, in spreads, moves a cause's score.
        constant: (causes,) score of each cause where all is usual.
        alarm_from_share: sureness that something is wrong from which on it is said.
    """

    quantities: tuple[str, ...]
    usual: Floats
    spread: Floats
    weight: Floats
    constant: Floats
    alarm_from_share: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CauseWeights:
    """The causes in order, nothing_unusual first, and the weights of each case by its name."""

    causes: tuple[str, ...]
    cases: Mapping[str, CaseWeights]
