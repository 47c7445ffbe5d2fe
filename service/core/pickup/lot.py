"""How does each panel of a lot stand against the others? The light cancels, so this beats any estimate of it.

The measure are those of which most agree. Where no more than half do, or where a better one within the estimate shows
that most may lack the same, the estimate says which of them are the measure, or that nobody can say.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot
from statistics import median

from service.core.pickup.facts import Between

# 1.4826 median deviations are one standard deviation of a normal spread; three of them and a panel stands apart.
_MAD_TO_SD, _APART_SD = 1.4826, 3.0
STEADY_LIGHT_SHARE = 0.03  # how far the light may wander between two readings of one minute (judgement)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tolerance:
    """Of a label and of the meter, in shares."""

    label_share: float
    meter_share: float

    @property
    def one(self) -> float:
        """How far a sound panel may lie from the middle of its lot."""
        return hypot(self.label_share, self.meter_share, STEADY_LIGHT_SHARE)

    @property
    def pair(self) -> float:
        """How far two sound panels of one type may lie apart."""
        return hypot(self.label_share, self.label_share, self.meter_share, STEADY_LIGHT_SHARE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """What a sound panel is expected to read.

    ``blind``: within the range no value is likelier than another, as where nobody told the light. ``guessed``: too
    rough to call a panel too good by. ``firm``: it hangs on the label and hardly on the light.
    """

    expected: Between
    blind: bool = False
    guessed: bool = False
    firm: bool = False

    def off(self, value: float) -> float:
        """How far a value lies from the likely one, up to 1 within the range; 0 all over it where that is blind."""
        likely = self.expected.likely
        reach = self.expected.high - likely if value > likely else likely - self.expected.low
        share = abs(value - likely) / reach if reach > 0 else float(value != likely) * float("inf")
        return 0.0 if self.blind and share <= 1.0 else share


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """How one reading stands beside its lot, as of ``against_lot``; the sound ones read ``middle``, None: none are.

    ``all_alike``: does none of the lot stand apart? ``most_low``: are most of the lot low?
    """

    stands: str
    middle: float | None = None
    all_alike: bool = True
    most_low: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """How each panel stands, in order: ``alone``, ``agrees``, ``low``, ``high``, ``scattered`` or ``outdone``.

    ``middle``: what those read that are the measure, or the lowest that may be; None where none are.
    """

    stands: tuple[str, ...]
    middle: float | None


def against_lot(values: Sequence[float], tolerance: Tolerance, estimate: Estimate) -> Lot:
    """How each panel stands; the order of the panels does not matter.

    More than half of the panels that agree with one another are the measure: low or high is what lies further from
    their median than three robust standard deviations (from the median of the absolute deviations of all), and further
    than what sound panels of one type can differ. Two things break that: where the estimate excludes most of them and
    not some others, those are the measure (where most give too much only if it is firm: else the light may have been
    misread, and nobody can say of those others); and where better ones come nearer to it, and most lie below what is
    likely by more than labels differ, most may lack the same: then nobody can say, and most are ``outdone``. The better
    ones agree with an estimate that is not guessed; beside a guess they stand apart from the lot, ``high``.

    Where no more than half agree, two panels among them, those are the measure that come nearest to the estimate (where
    that is blind, the best within it), and the others low or high; where these give too much for a firm estimate, they
    are no measure but high themselves. An estimate that is guessed, or that the better
    ones meet too, calls no panel too good: then nobody can say which are sound, and these are ``scattered``.

    Args:
        values: one reading a panel, not below nought.
        tolerance: of label and meter.
        estimate: of a sound panel's reading.

    >>> current = Tolerance(label_share=0.05, meter_share=0.02)
    >>> about_7 = Estimate(expected=Between(low=6.0, likely=7.0, high=8.0))
    >>> against_lot([7.02, 6.05], current, about_7).stands, against_lot([6.9, 9.0, 6.85, 7.0], current, about_7).stands
    (('agrees', 'low'), ('agrees', 'high', 'agrees', 'agrees'))
    """
    if len(values) < 2:
        return Lot(stands=("alone",) * len(values), middle=None)
    most = _most(values, tolerance.pair)
    stands, middle = _by_estimate(values, tolerance, estimate) if most is None else _by_most(
        values, most, tolerance, estimate
    )  # fmt: skip
    return Lot(stands=tuple(stands[value] for value in values), middle=middle)


def _most(values: Sequence[float], pair: float) -> float | None:
    """The middle of the closest of more than half of the panels; None where these do not agree with one another."""
    ordered, enough = sorted(values), len(values) // 2 + 1
    runs = [ordered[first : first + enough] for first in range(len(ordered) - enough + 1)]
    closest = min(runs, key=lambda run: (-(run[0] / run[-1]) if run[-1] > 0 else -1.0, -run[0]))
    if closest[0] < (1 - pair) * closest[-1]:
        return None
    about = median(closest)
    return median([one for one in values if abs(one - about) <= pair * about] or closest)


def _by_most(
    values: Sequence[float], middle: float, tolerance: Tolerance, estimate: Estimate
) -> tuple[Mapping[float, str], float | None]:
    robust_sd = _MAD_TO_SD * median(abs(value - middle) for value in values)
    slack = max(tolerance.one * middle, _APART_SD * robust_sd)
    stands = {value: _beside(value, middle, slack) for value in values}
    apart, expected = [value for value in values if stands[value] != "agrees"], estimate.expected
    within = [value for value in apart if expected.holds(value)]
    if within and (middle < expected.low or (middle > expected.high and estimate.firm)):
        measure = median(within)
        return {value: _beside(value, measure, tolerance.one * measure) for value in values}, measure
    if within and middle > expected.high and not estimate.guessed:
        return stands | dict.fromkeys(within, "scattered"), middle
    met = middle > expected.likely or expected.likely - middle <= tolerance.pair * expected.likely
    better = [value for value in apart if value > middle and estimate.off(value) < estimate.off(middle)]
    if met or not better:
        return stands, middle
    outdone = {value: "outdone" if one == "agrees" else one for value, one in stands.items()}
    return (outdone, middle) if estimate.guessed else (outdone | dict.fromkeys(better, "agrees"), None)


def _beside(value: float, middle: float, slack: float) -> str:
    if value < middle - slack:
        return "low"
    return "high" if value > middle + slack else "agrees"


def _by_estimate(
    values: Sequence[float], tolerance: Tolerance, estimate: Estimate
) -> tuple[Mapping[float, str], float | None]:
    groups = _groups(values, tolerance.pair)
    middles = [median(group) for group in groups]
    measure = min(range(len(groups)), key=lambda at: (estimate.off(middles[at]), at))
    stands = {value: "low" for group in groups[measure + 1 :] for value in group}
    better = middles[:measure]
    if estimate.firm and middles[measure] > estimate.expected.high:
        return stands | {value: "high" for group in groups[: measure + 1] for value in group}, None
    unsure = bool(better) and (estimate.guessed or any(estimate.expected.holds(middle) for middle in better))
    middle = middles[measure]
    here, above = ("scattered", "scattered") if unsure else ("agrees", "high")
    stands |= dict.fromkeys(groups[measure], here)
    stands |= {value: above for group in groups[:measure] for value in group}
    near = {value: here for value in values if abs(value - middle) < tolerance.one * middle}
    return stands | near, middle


def _groups(values: Sequence[float], pair: float) -> list[list[float]]:
    """Panels that agree with the best of their group, the best group first."""
    groups: list[list[float]] = []
    for value in sorted(values, reverse=True):
        if groups and value >= (1 - pair) * groups[-1][0]:
            groups[-1].append(value)
        else:
            groups.append([value])
    return groups
