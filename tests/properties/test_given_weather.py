"""Weather of the caller's own: what holds whatever the hours are."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from service.core.energy import energy_year
from service.core.model.assumption import Assumptions
from service.core.model.place import Plane
from service.core.sky import given_sky, typical_year
from tests.builders import array, inverter, one_input, setup
from tests.climates import climate
from tests.properties.strategies import planes

CLIMATE = climate()
TYPICAL = typical_year(CLIMATE, "Europe/Berlin")
DAYS = 6
ROWS = slice(24 * 150, 24 * (150 + DAYS))
SKIES = st.lists(st.floats(0.02, 1.0), min_size=DAYS, max_size=DAYS)
WIDE = inverter(inputs=(one_input(tracking_min_v=1, tracking_max_v=1500, max_current_a=60, start_voltage_v=1),) * 2)
LIGHT = ("ghi_w_per_m2", "dni_w_per_m2", "dhi_w_per_m2")


def energy(plane: Plane, series: dict, first: str = "2025-05-31T00:00:00+01:00") -> np.ndarray:
    facts = {"first": first, "step_minutes": 60, "stamp": "start", **series}
    sky = given_sky(facts, (plane,), 0.2, CLIMATE, "Europe/Berlin", TYPICAL).sky
    asked = setup(arrays=(array(plane=plane),), inverter=WIDE)
    return energy_year(asked, sky, CLIMATE, Assumptions.of(())).ac_w


def hours(share_by_day: list[float]) -> np.ndarray:
    return np.repeat(share_by_day, 24)


@given(planes, SKIES, st.floats(1.0, 1.6))
def test_more_light_never_gives_less_energy_in_any_hour(plane: Plane, sky: list[float], more: float) -> None:
    columns = {name: getattr(TYPICAL, name)[ROWS] * hours(sky) * 0.6 for name in LIGHT}
    less, brighter = (
        energy(plane, {name: (column * scale).tolist() for name, column in columns.items()}) for scale in (1.0, more)
    )
    assert np.all(brighter >= less - 1e-6)


@given(planes, SKIES, st.floats(1.0, 1.6))
def test_more_light_on_the_plane_never_gives_less_energy(plane: Plane, sky: list[float], more: float) -> None:
    on_plane = 0.6 * TYPICAL.ghi_w_per_m2[ROWS] * hours(sky)
    less, brighter = (energy(plane, {"plane_w_per_m2": [(on_plane * scale).tolist()]}) for scale in (1.0, more))
    assert brighter.sum() >= less.sum() - 1e-6


@given(planes, SKIES, st.sampled_from([("start", "00"), ("middle", "30"), ("end", "00")]))
def test_what_a_stamp_means_does_not_change_the_energy(plane: Plane, sky: list[float], stamp: tuple[str, str]) -> None:
    ghi = (TYPICAL.ghi_w_per_m2[ROWS] * hours(sky)).tolist()
    hour = "01" if stamp[0] == "end" else "00"
    moved = energy(plane, {"ghi_w_per_m2": ghi, "stamp": stamp[0]}, f"2025-05-31T{hour}:{stamp[1]}:00+01:00")
    assert np.array_equal(moved, energy(plane, {"ghi_w_per_m2": ghi}))
