"""What is one branch of an input, what does the input draw from it, and which branches work alike?"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from service.core.model.hours import Bools, Floats
from service.core.panel.diode import Diode


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Branch:
    """Equal panels in one plane, on one input: ``in_series`` panels a string, ``strings`` such strings side by side.

    ``strings`` need not be whole: ageing and mismatch, which lower the current and leave the voltage, are so many
    strings less. ``irradiance_w_per_m2`` (effective) and ``cell_c`` have shape (n,), rows in order of time.
    """

    diode: Diode
    irradiance_w_per_m2: Floats
    cell_c: Floats
    in_series: int
    strings: float

    def lit_as(self, other: "Branch") -> bool:
        """Is it of the same panels, in the same light and as warm?"""
        return self.diode == other.diode and all(
            one is another or np.array_equal(one, another)
            for one, another in (
                (self.irradiance_w_per_m2, other.irradiance_w_per_m2),
                (self.cell_c, other.cell_c),
            )
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drawn:
    """What an input draws from a branch, W, and what its limits leave undrawn; arrays of shape (n,).

    ``available_w`` is ``power_w`` and what is lost. ``running`` tells whether the input has started. ``free_w`` is the
    power before the limits of current and power. ``most_w`` is what these admit of it: the power drawn where they cut,
    else what it would be were there just as much light as they let through at this voltage.
    """

    available_w: Floats
    power_w: Floats
    lost_to_window_w: Floats
    lost_to_current_w: Floats
    lost_to_power_limit_w: Floats
    free_w: Floats
    most_w: Floats
    running: Bools

    def part(self, share: float) -> "Drawn":
        """What a branch draws that is this share of one drawn from."""
        return Drawn(
            available_w=self.available_w * share,
            power_w=self.power_w * share,
            lost_to_window_w=self.lost_to_window_w * share,
            lost_to_current_w=self.lost_to_current_w * share,
            lost_to_power_limit_w=self.lost_to_power_limit_w * share,
            free_w=self.free_w * share,
            most_w=self.most_w * share,
            running=self.running,
        )


Merged = tuple[list[Branch], list[tuple[int, float]]]


def side_by_side(branches: Sequence[Branch]) -> Merged:
    """Parallel branches with those that are lit alike as one, and of each its place among these and its share of it."""
    return _merged(branches, "strings", "in_series")


def one_after_the_other(branches: Sequence[Branch]) -> Merged:
    """The same of branches in one string."""
    return _merged(branches, "in_series", "strings")


def _merged(branches: Sequence[Branch], adds: str, same: str) -> Merged:
    """``adds`` and ``same`` name the count that grows and the one in which branches that become one agree."""
    whole: list[Branch] = []
    found = []
    for branch in branches:
        alike = (getattr(one, same) == getattr(branch, same) and one.lit_as(branch) for one in whole)
        at = next((at for at, is_alike in enumerate(alike) if is_alike), len(whole))
        if at == len(whole):
            whole.append(branch)
        else:
            whole[at] = replace(whole[at], **{adds: getattr(whole[at], adds) + getattr(branch, adds)})
        found.append(at)
    shares = (getattr(branch, adds) / getattr(whole[at], adds) for at, branch in zip(found, branches, strict=True))
    return whole, list(zip(found, shares, strict=True))
