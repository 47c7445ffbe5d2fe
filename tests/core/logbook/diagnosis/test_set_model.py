"""Does each array of a set get the light of its own stand?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook.diagnosis.frame import frame_of
from service.core.logbook.diagnosis.set_model import dc_of_arrays, scene_of, set_model
from service.core.logbook.diagnosis.sky_light import cloudless_weather
from service.core.logbook.series import LoggedSeries
from service.core.model.place import HandRail, Overhang, RowInFront
from tests.made_logs import SPRING_S, a_log

UNDER = {"overhang": Overhang(above_top_edge_m=0.2, reaches_out_m=0.5)}


@pytest.mark.parametrize(
    ("both", "other"),
    [
        ({}, {"hand_rail": HandRail(above_top_edge_m=0.0, distance_m=0.1, thickness_m=0.1)}),
        ({}, {"row_in_front": RowInFront(above_bottom_edge_m=1.0, distance_m=0.5)}),
        ({}, {"dirt_share": 0.3}),
        (UNDER, {"half_cells": True}),
        (UNDER, {"facade_azimuth_deg": 120.0}),
    ],
)
def test_two_arrays_in_one_plane_that_stand_otherwise_give_otherwise(
    both: dict[str, object], other: dict[str, object]
) -> None:
    log = a_log(None)
    base = replace(log.setup.arrays[0], shade=(), skyline=(), side_walls=(), orientation="upright")
    first = replace(base, panel=replace(base.panel, half_cells=False), **both)
    changes = {name: value for name, value in other.items() if name != "half_cells"}
    second = replace(first, panel=replace(base.panel, half_cells="half_cells" in other), **changes)
    model = set_model(replace(log.setup, arrays=(first, second)))
    blank = LoggedSeries(
        start_s=SPRING_S + 900 * np.arange(192), step_s=900, energy_wh=np.zeros(192), time_zone="Europe/Berlin"
    )
    frame = frame_of(blank, log.climate, model.rated_w)
    scene = scene_of(model, frame.parts, cloudless_weather(frame.parts, log.climate))
    before, after = (power.sum() for power in dc_of_arrays(model, scene))
    assert before > 0.0
    assert after != pytest.approx(before, rel=1e-3)
