"""How do the hours of a year move with what nobody told, where that is more than brighter or dimmer light?"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import hypot

import numpy as np

from service.core.energy.other_light import OtherLight
from service.core.model.band import Z_90, SpreadPart, combined_sd_share
from service.core.model.facts import Setup
from service.core.model.hours import Floats

_MOST_MOVED = 99.0  # times the year: where next to nothing comes of it

_Sides = tuple[float, float]  # towards less, and towards more
_Hours = tuple[Floats | None, Floats | None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HourMoves:
    """What other choices may take, and what they may bring, by the hour.

    Attributes:
        sd_share: relative standard deviations of the year's d.c. energy, to less, and to more as far as the set's limit
            lets it through.
        by_hour_w: to less and to more, how far each hour's d.c. power of the set moves, weighted by their deviations:
            the sum of deviation times (power with the other choice less power as taken), (n,); None: nothing moves.
    """

    sd_share: _Sides = (0.0, 0.0)
    by_hour_w: _Hours = (None, None)

    def __add__(self, other: "HourMoves") -> "HourMoves":
        """Both, as independent causes."""
        less, more = (hypot(one, another) for one, another in zip(self.sd_share, other.sd_share, strict=True))
        down, up = (_sum(one, another) for one, another in zip(self.by_hour_w, other.by_hour_w, strict=True))
        return HourMoves(sd_share=(less, more), by_hour_w=(down, up))


@dataclass(frozen=True, slots=True, eq=False)
class Doubts:
    """What a year is in doubt of.

    Attributes:
        in_light: the parts of the spread that are as brighter or dimmer light.
        others_w: of each cause that is not its code in the spread, and what the set would do with its other choices:
            (n,) d.c. power each.
    """

    in_light: tuple[SpreadPart, ...]
    others_w: tuple[tuple[str, tuple[Floats, ...]], ...] = ()


def moves_of(setup: Setup, own_w: Floats, others_w: Sequence[Floats]) -> HourMoves:
    """One cause, by what the set would do with its other choices.

    Args:
        setup: the complete request.
        own_w: (n,) its d.c. power.
        others_w: (n,) d.c. power of the set with each of the other choices, of which the least and the most count as
            10 and 90 % of cases.
    """
    most_w = setup.inverter.set_limit_w / setup.inverter.weighted_efficiency_share
    sd_share = [0.0, 0.0]
    by_hour_w: list[Floats | None] = [None, None]
    for more, (limit_w, worst) in enumerate(((np.inf, np.argmin), (most_w, np.argmax))):
        # To less without the limit: it acts on the hours themselves, and a higher one may not give a lower end.
        sums = [float(np.minimum(one, limit_w).sum()) for one in (own_w, *others_w)]
        own, at = sums[0], int(worst(sums))
        if at > 0:
            sd_share[more] = (min(abs(sums[at] - own) / own, _MOST_MOVED) if own > 0.0 else _MOST_MOVED) / Z_90
            by_hour_w[more] = sd_share[more] * (others_w[at - 1] - own_w)
    return HourMoves(sd_share=(sd_share[0], sd_share[1]), by_hour_w=(by_hour_w[0], by_hour_w[1]))


def with_moves(other: OtherLight, moves: HourMoves, spread: Sequence[SpreadPart]) -> OtherLight:
    """The set in other light, with its hours moved at each end by as much as their part of the spread is of all."""
    if max(moves.sd_share) == 0.0:
        return other
    every = [sd * sd for sd in combined_sd_share(spread)]
    shares = [
        sd * sd / all_of_it if all_of_it > 0.0 else 0.0 for sd, all_of_it in zip(moves.sd_share, every, strict=True)
    ]
    by_hour_w = [
        None if moved is None else moved / (Z_90 * all_of_it)
        for moved, all_of_it in zip(moves.by_hour_w, every, strict=True)
    ]
    return replace(other, by_hours_share=(shares[0], shares[1]), hours_move_w=(by_hour_w[0], by_hour_w[1]))


def _sum(one: Floats | None, other: Floats | None) -> Floats | None:
    return other if one is None else one if other is None else one + other
