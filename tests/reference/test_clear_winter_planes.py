"""Is the light of a clear winter day over snow taken as measured on a plane, and more than there can be refused?

The day is the library's: Ineichen and Perez (2002) in cold clean air (turbidity 1.8 to 2.5), Hay and Davies (1980) onto
the plane, snow that throws back 0.8 (fresh snow: 0.75 to 0.95, Oke, Boundary Layer Climates, 2nd edition 1987, table
1.1, from memory), every second minute.
"""

from functools import cache

import numpy as np
import pandas as pd
import pvlib
import pytest

from service.core.errors import ContradictionError
from service.core.model.place import Plane
from service.core.sky import given_sky, plane_light, typical_year
from service.data.climate import load_climate
from tests.builders import array

PLACES = {
    "52 N": (52.38, 13.07, 81.0, "Europe/Berlin"),
    "61 N": (61.5, 23.8, 120.0, "Europe/Helsinki"),
    "70 N": (69.6, 18.9, 10.0, "Europe/Oslo"),
    "Alps": (46.8, 9.83, 1560.0, "Europe/Zurich"),
}
DAYS = [
    (place, day)
    for place in PLACES
    for day in ("2025-01-10", "2025-02-10", "2025-03-20", "2025-12-05")
    if place != "70 N" or day[5:7] in {"02", "03"}
]


@cache
def place_of(name: str):
    latitude, longitude, height, zone = PLACES[name]
    place = load_climate().at(latitude, longitude, height)
    return place, zone, typical_year(place, zone)


@cache
def course_of(name: str, day: str):
    """The sun of every second minute, and the light above the air."""
    latitude, longitude, height, _ = PLACES[name]
    minutes = pd.date_range(day, periods=720, freq="2min", tz="UTC") + pd.Timedelta("1min")
    sun = pvlib.solarposition.get_solarposition(minutes, latitude, longitude, height)
    return sun, pvlib.irradiance.get_extra_radiation(minutes.day_of_year).to_numpy()


def clear_day(name: str, day: str, plane: Plane, turbidity: float, reflectance: float):
    """(24,) W/m2, hourly means from midnight in UTC."""
    height, (sun, above) = PLACES[name][2], course_of(name, day)
    mass = pvlib.atmosphere.get_relative_airmass(sun["apparent_zenith"])
    mass = pvlib.atmosphere.get_absolute_airmass(mass, pvlib.atmosphere.alt2pres(height))
    sky = pvlib.clearsky.ineichen(sun["apparent_zenith"], mass, turbidity, altitude=height, dni_extra=above)
    light = pvlib.irradiance.get_total_irradiance(
        plane.tilt_deg, plane.azimuth_deg, sun["apparent_zenith"], sun["azimuth"], sky["dni"], sky["ghi"], sky["dhi"],
        dni_extra=above, albedo=reflectance, model="haydavies",
    )  # fmt: skip
    return light["poa_global"].fillna(0.0).to_numpy().reshape(24, 30).mean(axis=1)


def given(name: str, plane: Plane, first: str, light):
    place, zone, typical = place_of(name)
    series = {"first": first, "step_minutes": 60, "stamp": "start", "plane_w_per_m2": [np.asarray(light).tolist()]}
    return given_sky(series, (plane,), 0.8, place, zone, typical)


def within_a_year(name: str, plane: Plane, day: str, light):
    """Half of the typical year's light on the plane, but for that day."""
    typical = place_of(name)[2]
    year = 0.5 * plane_light(typical, array(plane=plane), 0.2).open_w_per_m2
    begin = typical.calendar.utc[0].astype("datetime64[s]")
    row = int((np.datetime64(day, "s") - begin) / np.timedelta64(3600, "s"))
    year[row : row + 24] = light
    return given(name, plane, f"{begin}Z", year)


@pytest.mark.parametrize(("name", "day"), DAYS)
@pytest.mark.parametrize(("tilt_deg", "azimuth_deg"), [(90, 180), (60, 180), (90, 135), (90, 90)])
@pytest.mark.parametrize(("turbidity", "reflectance"), [(1.8, 0.8), (2.0, 0.2), (2.5, 0.8)])
def test_a_clear_day_of_winter_is_taken_with_and_without_snow(name, day, tilt_deg, azimuth_deg, turbidity, reflectance):
    plane = Plane(tilt_deg=tilt_deg, azimuth_deg=azimuth_deg)
    light = clear_day(name, day, plane, turbidity, reflectance)
    assert given(name, plane, f"{day}T00:00:00Z", light).sky.plane_w_per_m2[0] == pytest.approx(light)


@pytest.mark.parametrize("name", ["52 N", "61 N"])
def test_one_such_day_does_not_lose_a_year_and_three_in_a_row_are_taken(name):
    plane, day = Plane(tilt_deg=90, azimuth_deg=180), "2025-01-10"
    light = clear_day(name, day, plane, 1.8, 0.8)
    assert within_a_year(name, plane, day, light).whole_year
    days = np.concatenate([clear_day(name, f"2025-01-{at}", plane, 1.8, 0.8) for at in (10, 11, 12)])
    assert given(name, plane, f"{day}T00:00:00Z", days).sky.plane_w_per_m2[0].sum() == pytest.approx(days.sum())


@pytest.mark.parametrize("name", ["52 N", "61 N", "Alps"])
@pytest.mark.parametrize(("day", "times"), [("2025-01-10", 1.5), ("2025-03-20", 1.6), ("2025-06-20", 2.2)])
def test_far_more_than_such_a_day_is_refused_alone_and_within_a_year(name, day, times):
    plane = Plane(tilt_deg=90, azimuth_deg=180)
    light = times * clear_day(name, day, plane, 1.8, 0.8)
    for refused in (lambda: given(name, plane, f"{day}T00:00:00Z", light),
                    lambda: within_a_year(name, plane, day, light)):  # fmt: skip
        with pytest.raises(ContradictionError, match="than a cloudless sky gives"):
            refused()


def test_a_month_of_more_than_clean_air_gives_is_refused_though_each_day_could_be():
    """Thirty cloudless days in clean air over snow are taken, and an eighth more than that is not."""
    plane = Plane(tilt_deg=90, azimuth_deg=180)
    days = [clear_day("52 N", f"2025-01-{at:02}", plane, 1.8, 0.8) for at in range(1, 31)]
    assert given("52 N", plane, "2025-01-01T00:00:00Z", np.concatenate(days)).sky.ghi_w_per_m2.sum() > 0.0
    with pytest.raises(ContradictionError, match="than a cloudless sky gives"):
        given("52 N", plane, "2025-01-01T00:00:00Z", 1.12 * np.concatenate(days))


@pytest.mark.parametrize(("factor", "unit"), [(1e-3, "kW/m2"), (3.6e-3, "MJ/m2 an hour")])
@pytest.mark.parametrize("name", ["52 N", "Alps"])
def test_winter_days_on_a_plane_in_another_unit_are_refused_and_the_unit_told(name, factor, unit):
    plane, day = Plane(tilt_deg=90, azimuth_deg=180), "2025-02-10"
    with pytest.raises(ContradictionError, match=f"as if it were {unit}$"):
        given(name, plane, f"{day}T00:00:00Z", factor * np.tile(clear_day(name, day, plane, 2.0, 0.8), 10))
