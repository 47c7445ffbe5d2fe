"""Made-up logs with a known truth, and their healthy twins, for tests of the diagnosis."""

from dataclasses import replace
from functools import cache

import numpy as np

from service.bench.logbook_places import climate_at
from service.bench.logbook_set import MadeLog, Wish, made_log
from service.core.logbook.diagnosis.frame import Frame, frame_of
from service.core.logbook.diagnosis.set_model import dc_of_arrays, in_steps, scene_of, set_model
from service.core.logbook.diagnosis.sky_light import cloudless_weather
from service.core.logbook.series import LoggedSeries
from service.core.model.hours import Floats

PLACE = (48.15, 11.6)
SPRING_S = 1_743_375_600  # 31 March 2025, 00:00 in Munich


@cache
def a_log(fault: str | None, seed: int = 1, *, days: int = 91, step_s: int = 900, weather: str = "none") -> MadeLog:
    """One log near Munich; the same seed with ``fault`` None is its healthy twin: same set, same sky."""
    climate, time_zone = climate_at(*PLACE)
    wish = Wish(fault=fault, days=days, step_s=step_s, weather=weather)
    return made_log(np.random.default_rng(seed), climate, time_zone, "Munich", wish)


def cloudless_log(days: int = 12, step_s: int = 900) -> tuple[Frame, Floats]:
    """A frame of so many days without a cloud, and the power of the stated set in it."""
    log = a_log(None)
    count = days * 86_400 // step_s
    blank = LoggedSeries(
        start_s=SPRING_S + step_s * np.arange(count), step_s=step_s, energy_wh=np.zeros(count),
        time_zone="Europe/Berlin",
    )  # fmt: skip
    model = set_model(log.setup)
    frame = frame_of(blank, log.climate, model.rated_w)
    scene = scene_of(model, frame.parts, cloudless_weather(frame.parts, log.climate))
    free = model.ac_w(np.asarray(sum(dc_of_arrays(model, scene))))
    power = in_steps(np.minimum(free, model.limit_w), frame.parts.at, frame.start_s.size, frame.part_share)
    return replace(frame, power_w=power), power
