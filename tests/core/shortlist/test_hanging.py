"""Are the layouts that are looked at the best of all that there are?"""

from typing import Any

import numpy as np
import pytest

from service.api.answers.shortlist_home import ShortlistHome
from service.api.schemas.reading import read_value
from service.api.schemas.shortlist import ShortlistIn
from service.app import deps_of
from service.core.shortlist import Hanging, InverterKind, OnInput, layouts
from service.core.shortlist.judged import Judge, Judged
from service.core.shortlist.layout import stands_of
from service.settings import Settings
from tests.shortlist_kinds import HOME, INVERTER, SHEET, inverter_of, panel_advert, panel_of

DEPS = deps_of(Settings())
PLANES = {
    "south and north": [(30, 180), (90, 20)],
    "east and west": [(90, 100), (90, 260)],
    "alike": [(30, 180), (30, 180)],
    "three": [(30, 180), (90, 90), (90, 270)],
}
KINDS = [
    panel_of({**SHEET, "rated_power_w": watts, "short_circuit_current_a": round(13.9 * watts / 400, 3),
              "max_power_current_a": round(12.83 * watts / 400, 3)})
    for watts in (250, 400, 520)
]  # fmt: skip


def home_of(planes: list[tuple[int, int]], rooms: list[int]) -> ShortlistHome:
    places = [
        {"mount": "ground_frame", "count": room, "plane": {"tilt_deg": tilt, "azimuth_deg": azimuth}}
        for (tilt, azimuth), room in zip(planes, rooms, strict=True)
    ]
    request = {**HOME, "places": places, "adverts": [panel_advert("a", 45)]}
    return ShortlistHome.of(read_value(ShortlistIn, request), DEPS)


def inverter(ac_w: int, inputs: int) -> InverterKind:
    bears = {**INVERTER["inputs"][0], "max_short_circuit_current_a": 40}
    return inverter_of({"ac_power_w": ac_w, "input_count": inputs, "inputs": [bears]})


def best(judge: Judge, whole: InverterKind, found: Any, kinds: tuple[int, ...], *, by_money: bool) -> float:
    def gain(judged: Judged) -> float:
        figures = judged.saving if by_money and judged.saving is not None else judged.year_kwh
        return float(np.nan_to_num(figures, nan=-np.inf)[0])

    return max(gain(judge.judged(whole, one, tuple(np.array([kind]) for kind in kinds))) for one in found)


@pytest.mark.parametrize("by_money", [True, False])
@pytest.mark.parametrize("counts", [(1,), (2,), (3,), (1, 1), (1, 2), (2, 1)])
@pytest.mark.parametrize("planes", PLANES)
@pytest.mark.parametrize("rooms", [1, 2])
def test_what_is_looked_at_brings_as_much_as_the_best_of_all_ways(
    rooms: int, planes: str, counts: tuple[int, ...], by_money: bool
) -> None:
    """Within what usual panels differ from these: here less than a thousandth is lost."""
    home = home_of(PLANES[planes], [rooms] * len(PLANES[planes]))
    if sum(counts) > rooms * len(PLANES[planes]):
        return
    hanging, judge = Hanging(home.at_home, home.rooms, by_money=by_money), Judge(home.at_home, KINDS)
    for ac_w, inputs in ((300, 2), (800, 2), (800, 4)):
        whole = inverter(ac_w, inputs)
        every = [
            tuple(OnInput(on.kind, hanging.sunniest[on.place], on.count, on.joined, on.index) for on in layout)
            for layout in layouts(tuple(stands_of(counts, hanging.rooms)), (0,) * inputs)
        ]
        assert bool(every) == bool(hanging.layouts(counts, whole))
        for kinds in () if not every else ((0,), (2,)) if len(counts) == 1 else ((0, 2), (2, 0), (1, 2), (1, 1)):
            top = best(judge, whole, every, kinds, by_money=by_money)
            mine = best(judge, whole, hanging.layouts(counts, whole), kinds, by_money=by_money)
            assert mine >= 0.995 * top


def test_at_one_place_nothing_is_tried_twice() -> None:
    home = home_of([(30, 180)], [4])
    hanging = Hanging(home.at_home, home.rooms, by_money=True)
    assert len(hanging.layouts((1,), inverter(800, 2))) == 1
    assert len(hanging.layouts((1, 1), inverter(800, 2))) == 1
    assert hanging.layouts((1,), inverter(800, 2), spare=True) == []


def test_where_less_light_reaches_the_rear_panels_are_tried_that_fit_nowhere_else() -> None:
    places: list[dict[str, Any]] = [
        {"mount": "ground_frame", "count": 1, "plane": {"tilt_deg": 30, "azimuth_deg": 180}, "rear_light_share": 0.3},
        {"mount": "hung_on_rail", "count": 1, "plane": {"tilt_deg": 90, "azimuth_deg": 20}, "rear_light_share": 0.05},
    ]
    request = {**HOME, "places": places, "adverts": [panel_advert("a", 45)]}
    home = ShortlistHome.of(read_value(ShortlistIn, request), DEPS)
    hanging = Hanging(home.at_home, home.rooms, by_money=True)
    assert [one[0].place for one in hanging.layouts((1,), inverter(800, 2))] == [0]
    assert [one[0].place for one in hanging.layouts((1,), inverter(800, 2), spare=True)] == [1]
