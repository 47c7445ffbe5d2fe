"""On which steps is the log compared with the sky?"""

import numpy as np
import pytest

from service.core.logbook.diagnosis.frame import frame_of, quantum_of
from service.core.logbook.series import LoggedSeries
from tests.made_logs import a_log

NOON_S = 1_750_500_000


def series(energy: list[float], step_s: int) -> LoggedSeries:
    """A short log."""
    begin = NOON_S // 86_400 * 86_400
    return LoggedSeries(
        start_s=begin + step_s * np.arange(len(energy)), step_s=step_s, energy_wh=np.array(energy),
        time_zone="Europe/Berlin",
    )  # fmt: skip


def test_five_minutes_are_summed_to_quarter_hours_and_keep_their_energy() -> None:
    rng = np.random.default_rng(1)
    energy = rng.uniform(0, 60, 288).tolist()
    frame = frame_of(series(energy, 300), a_log(None).climate, 800.0)
    assert frame.step_s == 900
    assert float(np.sum(frame.power_w)) * 0.25 == pytest.approx(sum(energy))


def test_coarse_rounding_asks_for_longer_steps() -> None:
    energy = (10.0 * np.random.default_rng(1).integers(0, 7, 288)).tolist()
    assert quantum_of(np.array(energy)) == 10.0
    assert frame_of(series(energy, 300), a_log(None).climate, 400.0).step_s == 1800


def test_a_step_of_which_most_is_missing_is_not_known() -> None:
    energy = [5.0] * 288
    energy[120:122] = [float("nan")] * 2
    frame = frame_of(series(energy, 300), a_log(None).climate, 800.0)
    assert np.flatnonzero(np.isnan(frame.power_w)).tolist() == [40]


def test_hours_are_looked_at_in_quarters_with_the_sun_of_each() -> None:
    frame = frame_of(series([50.0] * 48, 3600), a_log(None).climate, 800.0)
    assert frame.part_share == 0.25
    assert np.all(frame.parts.zenith_deg < 91.0)
    noon = frame.parts.solar_h[np.argmin(frame.parts.zenith_deg)]
    assert noon == pytest.approx(12.0, abs=0.3)
