"""Does an input stay at nothing on days on which another input gives?

Where inputs are logged apart this needs no weighing: what one of them gave shows that there was light for all.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from service.core.logbook.diagnosis.diagnose import Suspect
from service.core.logbook.pieces import Course, Pieces
from service.core.logbook.zones import Zone
from service.core.model.hours import Bools, Floats

LEAST_DAYS = 3
SURE_SHARE = 0.99
_GOOD_DAY_SHARE, _GOOD_DAY_QUANTILE = 0.3, 0.8  # a day on which an input gives: that part of one of its better days
_LEAST_DAY_WH, _LEAST_ROUNDINGS = 20.0, 5.0
_NOTHING_SHARE = 0.005  # of what the other gave: even a panel that looks north has more of the sky's light
_KNOWN_SHARE = 0.8  # of the time in which the other was logged
_LEAST_SOUND_DAYS = 3  # from which on the log itself tells how much the input gives beside the others


@dataclass(frozen=True, slots=True, kw_only=True)
class SilentInput:
    """An input that gave nothing while another gave.

    Attributes:
        number: of the input; ``other`` that of the one which gave most meanwhile.
        since_day: the day after the last on which it gave, else the first of those days; from 1 January 1970.
        days: how many there are; ``days_told``: of how many on which another input gave.
        to_the_end: has it stayed so?
        lost_share: of what the whole set would have given in the time logged; ``lasting_share`` on those days alone.
    """

    number: int
    other: int
    since_day: int
    days: int
    days_told: int
    to_the_end: bool
    lost_share: float
    lasting_share: float

    def suspect(self) -> Suspect:
        """As a cause beside the others."""
        shown = {"days_at_nothing": float(self.days), "days_another_input_gave": float(self.days_told)}
        return Suspect(
            code="input_dead", sureness_share=SURE_SHARE, effect_share=self.lost_share, evidence=shown,
            lasting_share=self.lasting_share if self.to_the_end else None,
        )  # fmt: skip


def silent_inputs(
    inputs: Sequence[tuple[int, Pieces]], rated_w: Mapping[int, float], zone: Zone
) -> tuple[SilentInput, ...]:
    """Those of the inputs that have panels (``rated_w``: of each such input) and gave nothing on some days.

    The costliest comes first.
    """
    fed = [(number, pieces) for number, pieces in inputs if number in rated_w and pieces.energy_wh.size]
    if len(fed) < 2:
        return ()
    first = min(int(pieces.begin_s[0]) for _, pieces in fed)
    last = max(int(pieces.end_s[-1]) for _, pieces in fed)
    days = zone.day_of(np.array([first, last - 1]))
    day = np.arange(int(days[0]), int(days[1]) + 1)
    edges = zone.midnight_s(np.arange(day[0], day[-1] + 2))
    energy = np.array([_sums(pieces, pieces.energy_wh, edges) for _, pieces in fed])
    known_s = np.array([_sums(pieces, pieces.seconds.astype(np.float64), edges) for _, pieces in fed])
    rounding = max(pieces.resolution_wh for _, pieces in fed)
    good = np.array([_good_days(one, rounding) for one in energy])
    found = []
    for at, (number, _) in enumerate(fed):
        others = [k for k in range(len(fed)) if k != at]
        told = np.zeros(day.size, dtype=np.bool_)
        nothing = np.zeros(day.size, dtype=np.bool_)
        for k in others:
            one = good[k] & (known_s[at] >= _KNOWN_SHARE * known_s[k])
            told |= one
            nothing |= one & (energy[at] <= _NOTHING_SHARE * energy[k])
        if np.count_nonzero(nothing) < LEAST_DAYS:
            continue
        beside = energy[others].sum(axis=0)
        rated = rated_w[number] / sum(rated_w[fed[k][0]] for k in others)
        lost = _beside(energy[at], beside, told & ~nothing, rated) * float(beside[nothing].sum())
        rows = np.flatnonzero(nothing)
        gave = np.flatnonzero(energy[at] > _NOTHING_SHARE * beside)
        to_the_end = not gave.size or bool(rows[-1] > gave[-1])
        since = np.flatnonzero(beside > 0.0)
        since = since[since > gave[-1]] if gave.size else since
        found.append(
            SilentInput(
                number=number, other=fed[others[int(np.argmax(energy[others][:, nothing].sum(axis=1)))]][0],
                since_day=int(day[since[0] if to_the_end else rows[0]]), days=int(rows.size),
                days_told=int(np.count_nonzero(told)), to_the_end=to_the_end,
                lost_share=lost / (float(energy.sum()) + lost),
                lasting_share=lost / (float(energy[:, nothing].sum()) + lost),
            )
        )  # fmt: skip
    return tuple(sorted(found, key=lambda one: -one.lost_share))


def _sums(pieces: Pieces, amounts: Floats, edges: np.ndarray) -> Floats:
    return np.asarray(np.diff(Course.of_pieces(pieces, amounts).at(edges)))


def _good_days(energy: Floats, rounding_wh: float) -> Bools:
    """Days on which an input gave a good part of what it gives on its better days."""
    given = energy[energy > 0.0]
    usual = float(np.quantile(given, _GOOD_DAY_QUANTILE)) if given.size else 0.0
    return np.asarray(energy >= max(_GOOD_DAY_SHARE * usual, _LEAST_DAY_WH, _LEAST_ROUNDINGS * rounding_wh))


def _beside(own: Floats, others: Floats, sound: Bools, rated: float) -> float:
    """What the input gives over what the others do: by its sound days, else by its panels."""
    total = float(others[sound].sum())
    if np.count_nonzero(sound) < _LEAST_SOUND_DAYS or total <= 0.0:
        return rated
    return float(own[sound].sum()) / total
