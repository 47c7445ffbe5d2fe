"""What may still be missing of a panel whose volts and amperes were read?

Shorted, a panel drives its current past a group of cells that is cracked or weak: the group's bypass diode carries it.
Open, a weak group has nearly all of its volts. So neither reading shows it; power at work does, where that group is
passed by altogether or holds the others back.
"""

from collections.abc import Sequence

from service.core.pickup.electric import ISC, VOC
from service.core.pickup.facts import Between, Cause, Quantity, Ratings, Seen, cause

# At work a panel has some four fifths of its open-circuit volts, and a bypass diode that carries the whole current some
# half a volt (from memory).
KNEE_SHARE, _CARRYING_V = 0.8, 0.5
# Volts go with the logarithm of the light: cells that give a third of their current still show volts within the range.
_LEFT_BEHIND_SOUND_VOLTS = 0.3


def least_left_share(ratings: Ratings) -> float:
    """Share of its power that is left at least where all groups of cells but one are passed by, and nobody sees it.

    1 where all cells are in one group: a weak one among them shows in the current.
    """
    groups = round(ratings.sections.likely)
    if groups < 2:
        return 1.0
    group_v = KNEE_SHARE * ratings.open_circuit_voltage_v.likely / groups
    return max(group_v - (groups - 1) * _CARRYING_V, 0.0) / (groups * group_v)


def least_share(share: float, power_share: float, quantities: Sequence[Quantity], ratings: Ratings) -> float:
    """What the panel may be worth at least, of that which it is worth at most.

    Args:
        share: what it is worth at most.
        power_share: of its power that is missing in the volts, 1 where none is; that group was passed by already.
        quantities: what was read on it.
        ratings: of the panel.
    """
    amperes = [one for one in quantities if one.what == ISC and one.measured is not None]
    passed = [
        one.measured / one.high for one in amperes if one.verdict is Seen.AS_EXPECTED and one.high and one.measured
    ]
    least = least_left_share(ratings) * min([1.0, *passed]) / max(power_share, least_left_share(ratings))
    return share * min(least, 1.0 if amperes else _LEFT_BEHIND_SOUND_VOLTS)


def not_seen(quantities: Sequence[Quantity], ratings: Ratings, voltage: Between) -> tuple[Cause, ...]:
    """What the readings cannot show, and what would; ``voltage``: open-circuit volts that a sound panel reads now."""
    told: list[Cause] = []
    groups, least = round(ratings.sections.likely), least_left_share(ratings)
    if groups > 1 and any(one.what in {VOC, ISC} for one in quantities):
        told.append(
            cause(
                "weak_group", sections=groups, least_pct=round(100 * least), knee_v=round(KNEE_SHARE * voltage.likely)
            )
        )  # fmt: skip
    if not any(one.what == ISC for one in quantities):
        told.append(cause("current_not_read"))
    return tuple(told)
