"""Made-up logs with a known truth, and their healthy twins, for tests of the diagnosis."""

from functools import cache

import numpy as np

from service.bench.logbook_places import climate_at
from service.bench.logbook_set import MadeLog, Wish, made_log

PLACE = (48.15, 11.6)


@cache
def a_log(fault: str | None, seed: int = 1, *, days: int = 91, step_s: int = 900, weather: str = "none") -> MadeLog:
    """One log near Munich; the same seed with ``fault`` None is its healthy twin: same set, same sky."""
    climate, time_zone = climate_at(*PLACE)
    wish = Wish(fault=fault, days=days, step_s=step_s, weather=weather)
    return made_log(np.random.default_rng(seed), climate, time_zone, "Munich", wish)
