"""How do clear, changing and dull days look in each season?"""

import numpy as np

from service.core.energy.result import DayKind
from service.core.model.hours import Floats, SkyYear

SEASONS = ("winter", "spring", "summer", "autumn")
KINDS = ("clear", "changing", "dull")
# Share of the cloudless sky's daily light: judgement. From 0.8 on the sun is hardly covered, under 0.4 hardly seen.
CLEAR_FROM_SHARE = 0.8
DULL_BELOW_SHARE = 0.4


def day_kinds(ac_w: Floats, sky: SkyYear, *, south: bool) -> tuple[DayKind, ...]:
    """The mean day of each season and kind that occurs, by the wall clock.

    Seasons are whole months: winter is December to February, in the south (``south``) June to August. A day's kind
    goes by its light over that of a cloudless sky; a day without any (polar night) is dull.
    """
    day = sky.calendar.day_of_year - 1
    days = int(day.max()) + 1
    light, cloudless = (np.bincount(day, part, days) for part in (sky.ghi_w_per_m2, sky.clear_ghi_w_per_m2))
    index = light / np.maximum(cloudless, 1e-9)
    kind = np.where(index >= CLEAR_FROM_SHARE, 0, np.where(index < DULL_BELOW_SHARE, 2, 1))
    month = np.zeros(days, np.int64)
    month[day[::-1]] = sky.calendar.month[::-1]  # a day's first hour names its month
    season = (month % 12 // 3 + (2 if south else 0)) % 4
    group = season * 3 + kind
    cell = group[day] * 24 + sky.calendar.clock_h.astype(np.int64)
    hours = np.bincount(cell, minlength=12 * 24)
    mean = (np.bincount(cell, ac_w, 12 * 24) / np.maximum(hours, 1)).reshape(12, 24)
    counted = np.bincount(group, minlength=12)
    return tuple(
        DayKind(season=SEASONS[at // 3], kind=KINDS[at % 3], days=int(counted[at]), ac_w=tuple(mean[at].tolist()))
        for at in range(12)
        if counted[at]
    )
