"""What a typical year promises anywhere: every month's light exact, nothing negative, nothing brighter than can be."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from service.core.model.climate import PlaceClimate
from service.core.sky import typical_year
from service.core.sky.clear_sky import MONTH_DAYS
from tests.climates import climate

MONTH_OF_ROW = np.repeat(np.arange(12), np.asarray(MONTH_DAYS) * 24)


@st.composite
def places(draw: st.DrawFn) -> PlaceClimate:
    """Any latitude of the table, dull or clear months, even or uneven days."""
    reach = draw(st.floats(0.0, 1.0))
    return climate(
        latitude_deg=draw(st.floats(-57, 72)), longitude_deg=draw(st.floats(-180, 180)),
        elevation_m=draw(st.floats(-400, 4500)),
        clear_sky_index=np.array(draw(st.lists(st.floats(0.1, 1.05), min_size=12, max_size=12))),
        day_quantiles=np.tile(np.linspace(1.0 - reach, 1.0 + reach, 12), (12, 1)),
        linke_turbidity=np.full(12, draw(st.floats(1.8, 7.0))),
    )  # fmt: skip


def zone_of(longitude_deg: float) -> str:
    """The nautical zone of a meridian; its sign is turned in the database."""
    return f"Etc/GMT{-round(longitude_deg / 15.0):+d}"


@given(places())
def test_every_month_keeps_its_light_and_no_hour_is_impossible(place: PlaceClimate) -> None:
    sky = typical_year(place, zone_of(place.longitude_deg))
    light = np.bincount(MONTH_OF_ROW, sky.ghi_w_per_m2)
    clear = np.bincount(MONTH_OF_ROW, sky.clear_ghi_w_per_m2)
    midnight_sun = abs(place.latitude_deg) > 62.0  # the sun's day and the calendar's share some light at midnight
    assert np.abs(light - place.clear_sky_index * clear).max() <= (5e-3 if midnight_sun else 1e-9) * clear.max()
    assert np.all(sky.ghi_w_per_m2 >= 0.0)
    assert np.all(sky.ghi_w_per_m2 <= 1.35 * sky.clear_ghi_w_per_m2 + 1e-9)
    assert np.all(sky.dni_w_per_m2 >= 0.0)
    assert np.all(sky.dni_w_per_m2 <= sky.extraterrestrial_w_per_m2)
    assert np.all((sky.dhi_w_per_m2 >= -1e-9) & (sky.dhi_w_per_m2 <= sky.ghi_w_per_m2 + 1e-9))
    assert np.isfinite(sky.air_c).all()


@given(places(), st.sampled_from(["Europe/Berlin", "Pacific/Kiritimati", "Asia/Kolkata", "America/St_Johns"]))
def test_the_clock_on_the_wall_does_not_change_the_weather_s_sum(place: PlaceClimate, zone: str) -> None:
    there, elsewhere = (typical_year(place, z).ghi_w_per_m2.sum() for z in (zone_of(place.longitude_deg), zone))
    assert abs(there - elsewhere) <= 5e-3 * there
