"""Is the typical year the same every time, and does it keep the month's light?"""

from dataclasses import fields, replace

import numpy as np
import pytest

from service.core.model.hours import SkyYear
from service.core.sky import typical_year
from service.core.sky.clear_sky import MONTH_DAYS
from tests.climates import climate

MONTH_OF_ROW = np.repeat(np.arange(12), np.asarray(MONTH_DAYS) * 24)


def arrays_of(sky: SkyYear) -> dict[str, np.ndarray]:
    """The year's hourly arrays by name; a typical year has none that was measured on a plane."""
    return {f.name: getattr(sky, f.name) for f in fields(sky) if f.name not in {"calendar", "plane_w_per_m2"}}


def month_indices(sky: SkyYear) -> np.ndarray:
    """Monthly irradiation over the clear sky's, nan where the sun does not rise."""
    light = np.bincount(MONTH_OF_ROW, sky.ghi_w_per_m2)
    clear = np.bincount(MONTH_OF_ROW, sky.clear_ghi_w_per_m2)
    return np.where(clear > 0.0, light / np.maximum(clear, 1e-9), np.nan)


def test_the_same_climate_always_gives_the_same_hours() -> None:
    first, second = (arrays_of(typical_year(climate(), "Europe/Berlin")) for _ in range(2))
    assert all(first[name].tobytes() == second[name].tobytes() for name in first)


def test_every_month_s_light_is_its_index_times_the_clear_sky() -> None:
    place = climate()
    assert month_indices(typical_year(place, "Europe/Berlin")) == pytest.approx(place.clear_sky_index, rel=1e-9)


def test_in_polar_night_there_is_no_light_and_nothing_breaks() -> None:
    place = climate(latitude_deg=70.7, longitude_deg=23.7)
    sky = typical_year(place, "Europe/Oslo")
    assert all(np.isfinite(values).all() for values in arrays_of(sky).values())
    december = MONTH_OF_ROW == 11
    assert sky.ghi_w_per_m2[december].sum() == 0.0
    known = month_indices(sky)
    assert np.isnan(known[11])
    # May to July have light at midnight, where a sun's day and the calendar's may differ by some minutes of light
    assert known[:11] == pytest.approx(place.clear_sky_index[:11], rel=2e-3)


@pytest.mark.parametrize(
    ("latitude", "longitude", "zone"),
    [
        (-36.8, 174.8, "Pacific/Auckland"),
        (2.0, -157.4, "Pacific/Kiritimati"),
        (-43.9, -176.5, "Pacific/Chatham"),
        (28.6, 77.2, "Asia/Kolkata"),
        (39.5, 76.0, "Asia/Shanghai"),  # the clock is three hours ahead of the sun
        (65.0, 179.9, "Asia/Anadyr"),
    ],
)
def test_the_sun_is_highest_at_the_place_s_noon_and_months_stay_exact(
    latitude: float, longitude: float, zone: str
) -> None:
    place = climate(latitude_deg=latitude, longitude_deg=longitude)
    sky = typical_year(place, zone)
    assert month_indices(sky) == pytest.approx(place.clear_sky_index, rel=1e-9)
    utc_h = (sky.calendar.utc.astype(np.int64) % 86_400) / 3600.0 + 0.5
    solar_h = (utc_h + longitude / 15.0) % 24.0
    centre = float((solar_h * sky.ghi_w_per_m2).sum() / sky.ghi_w_per_m2.sum())
    assert centre == pytest.approx(12.0, abs=0.2)


def test_a_clock_that_is_twelve_hours_off_moves_the_rows_and_not_the_year_s_light() -> None:
    place = climate(latitude_deg=-36.8, longitude_deg=174.8)
    there, elsewhere = (typical_year(place, zone).ghi_w_per_m2.sum() for zone in ("Pacific/Auckland", "UTC"))
    assert elsewhere == pytest.approx(there, rel=2e-3)


def test_beam_and_diffuse_add_up_to_the_whole_and_are_never_negative() -> None:
    sky = typical_year(climate(), "Europe/Berlin")
    cosine = np.cos(np.deg2rad(sky.sun_zenith_deg))
    beam = np.where(cosine > 0.0174524, sky.dni_w_per_m2 * cosine, 0.0)
    assert sky.dhi_w_per_m2 + beam == pytest.approx(sky.ghi_w_per_m2, abs=1e-9)
    assert sky.dni_w_per_m2.min() == 0.0
    assert sky.dhi_w_per_m2.min() >= 0.0


def test_days_differ_as_their_quantiles_say_and_more() -> None:
    even = replace(climate(), day_quantiles=np.ones((12, 12)))
    uneven = climate()
    spread = [
        float(np.std(sky.ghi_w_per_m2.reshape(365, 24).sum(axis=1)[151:181]))
        for sky in (typical_year(even, "Europe/Berlin"), typical_year(uneven, "Europe/Berlin"))
    ]
    assert spread[0] < 0.02 * 24 * 250
    assert spread[1] > 10 * spread[0]


def test_there_are_hours_above_the_day_s_mean_for_an_inverter_to_clip() -> None:
    sky = typical_year(climate(), "Europe/Berlin")
    index = sky.ghi_w_per_m2 / np.maximum(sky.clear_ghi_w_per_m2, 1.0)
    lit = sky.clear_ghi_w_per_m2 > 300.0
    assert (index[lit] > 1.0).mean() > 0.02
    assert index[lit].max() < 1.25


def test_air_keeps_its_monthly_mean_and_is_warmest_in_the_afternoon() -> None:
    place = climate()
    sky = typical_year(place, "Europe/Berlin")
    assert np.bincount(MONTH_OF_ROW, sky.air_c) / np.bincount(MONTH_OF_ROW) == pytest.approx(place.air_c, abs=0.05)
    by_hour = sky.air_c.reshape(365, 24).mean(axis=0)
    assert int(np.argmax(by_hour)) in {14, 15}
    assert int(np.argmin(by_hour)) in {4, 5}


def test_the_year_cannot_be_written_to() -> None:
    with pytest.raises(ValueError, match="read-only"):
        typical_year(climate(), "Europe/Berlin").ghi_w_per_m2[0] = 1.0
