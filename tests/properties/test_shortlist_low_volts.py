"""Of panels of too few volts for an input of their own: an input more never makes the best set worse, and what gives
nothing on its input is not bought because it is cheap.
"""

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.api.answers.shortlist import shortlist_of
from service.api.schemas.reading import read_value
from service.api.schemas.shortlist import ShortlistIn
from service.app import deps_of
from service.core.shortlist import NEVER
from service.settings import Settings
from tests.http.shortlist_asked import same_as_an_appraisal
from tests.shortlist_kinds import HOME, INVERTER, inverter_advert, panel_advert

DEPS = deps_of(Settings())
WISHES = ("quick_payback", "most_value", "least_outlay_per_kwh")
PLANES = ({"tilt_deg": 30, "azimuth_deg": 180}, {"tilt_deg": 90, "azimuth_deg": 20})
# Of one input beside the plain one: where it starts and from where it tracks.
STARTS = st.sampled_from([{}, {"start_voltage_v": 30}, {"start_voltage_v": 36, "tracking_min_v": 28}])
START_V = st.sampled_from([12, 22, 34, 36])


def panel(name: str, each: int, cells: int, watts: int, pieces: int = 4) -> dict[str, Any]:
    """Of so many cells in series, 0.6 V each."""
    current_a = watts / (0.5 * cells)
    sheet = {
        "rated_power_w": watts, "open_circuit_voltage_v": round(0.606 * cells, 1), "cells_in_series": cells,
        "max_power_voltage_v": round(0.5 * cells, 2), "max_power_current_a": round(current_a, 2),
        "short_circuit_current_a": round(1.06 * current_a, 2), "voc_coefficient_pct_per_k": -0.28,
        "power_coefficient_pct_per_k": -0.38,
    }  # fmt: skip
    return panel_advert(name, each, power_w=watts, quantity_available=pieces, panel=sheet)


def inverter(*inputs: dict[str, Any]) -> dict[str, Any]:
    told = [
        {**INVERTER["inputs"][0], "max_input_voltage_v": 100, "tracking_min_v": 10, "tracking_max_v": 90, **one}
        for one in inputs
    ]
    return inverter_advert("i", 80, input_count=len(told), inputs=told)


PANELS = st.lists(
    st.builds(panel, st.sampled_from(["a", "b", "c"]), st.integers(10, 90), st.sampled_from([36, 36, 54, 60]),
              st.sampled_from([100, 150, 250]), st.integers(1, 4)),
    min_size=1, max_size=2, unique_by=lambda one: one["id"],
)  # fmt: skip
HOMES = st.builds(
    lambda rooms, wish: {
        **HOME, "wish": wish, "limit": 20, "outlay": {"items": [{"what": "brackets", "amount": 58}]},
        "places": [{**HOME["places"][0], "plane": plane, "count": room}
                   for plane, room in zip(PLANES, rooms, strict=False)],
    },
    st.sampled_from([(2,), (3,), (4,), (1, 2), (2, 2)]), st.sampled_from(WISHES),
)  # fmt: skip


def answered(request: dict[str, Any]) -> Any:
    return shortlist_of(read_value(ShortlistIn, request), DEPS)


def first_figure(request: dict[str, Any]) -> tuple[str, float]:
    """How the first set fits, and what was wished of it, the less the better."""
    one = answered(request).shortlist[0]
    figures = {
        "quick_payback": one.simple_payback_years.cautious, "least_outlay_per_kwh": one.outlay_per_kwh,
        "most_value": -one.net_present_value.middle,
    }  # fmt: skip
    figure = figures[request["wish"]]
    return one.fit_group, NEVER if figure is None else figure


@settings(max_examples=15, deadline=None)
@given(HOMES, PANELS, START_V, st.lists(STARTS, min_size=1, max_size=2))
def test_an_input_more_never_makes_the_first_set_worse(
    home: dict[str, Any], panels: list[Any], start_v: int, more: list[dict[str, Any]]
) -> None:
    own = {"start_voltage_v": start_v}
    fit, fewer = first_figure({**home, "adverts": [*panels, inverter(own)]})
    with_more, figure = first_figure({**home, "adverts": [*panels, inverter(own, *({**own, **one} for one in more))]})
    if with_more == fit:
        assert figure <= fewer + 0.01 * max(abs(fewer), 40.0 if home["wish"] == "most_value" else 0.0)


@settings(max_examples=15, deadline=None)
@given(HOMES, PANELS, START_V, st.lists(STARTS, min_size=0, max_size=2), st.integers(1, 40))
def test_a_cheaper_copy_ranks_no_lower_and_is_no_worse_buy(
    home: dict[str, Any], panels: list[Any], start_v: int, more: list[dict[str, Any]], less: int
) -> None:
    own = {"start_voltage_v": start_v}
    copy = deepcopy(panels[0])
    copy["id"], copy["reading"]["price"]["value"] = "copy", max(copy["reading"]["price"]["value"] - less, 0)
    whole = inverter(own, *more)
    answer = answered({**home, "adverts": [*panels, copy, whole]})
    ranks = {one.advert: one.best_set or NEVER for one in answer.adverts}
    assert ranks["copy"] <= ranks[panels[0]["id"]]
    _, dearer = first_figure({**home, "adverts": [panels[0], whole]})
    _, cheaper = first_figure({**home, "adverts": [copy, whole]})
    assert cheaper <= dearer + 0.01 * max(abs(dearer), 40.0 if home["wish"] == "most_value" else 0.0)


@pytest.mark.parametrize(
    "inputs", [({}, {}), ({}, {"max_current_a": 15.1}), ({}, {"start_voltage_v": 30}), ({"tracking_min_v": 16},) * 2]
)
@pytest.mark.parametrize("each", [3, 30])
def test_two_panels_that_start_together_alone_hang_together_with_the_figures_of_an_appraisal(
    inputs: Any, each: int
) -> None:
    home = {**HOME, "wish": "most_value", "places": [{**HOME["places"][0], "count": 3}]}
    whole = inverter(*({**one, "max_input_voltage_v": 60, "tracking_max_v": 55} for one in inputs))
    answer = answered({**home, "adverts": [panel("a", each, 36, 100), whole]})
    one = answer.shortlist[0].model_dump(mode="json")
    assert [(on["count"], on["joined"]) for on in one["panels"]] == [(2, "series")]
    assert one["year_kwh"]["middle"] > 100.0
    same_as_an_appraisal(one)


def test_two_kinds_of_two_that_start_together_alone_hang_so() -> None:
    home = {**HOME, "wish": "most_value", "places": [{**HOME["places"][0], "count": 4}]}
    panels = [panel("a", 5, 36, 100, pieces=2), panel("b", 5, 36, 90, pieces=2)]
    one = answered({**home, "adverts": [*panels, inverter({}, {}, {}, {})]}).shortlist[0].model_dump(mode="json")
    assert [(on["count"], on["joined"]) for on in one["panels"]] == [(2, "series")] * 2
    assert {on["advert"] for on in one["panels"]} == {"a", "b"}
    same_as_an_appraisal(one)


def test_a_new_set_of_two_that_start_together_alone_gives_what_the_same_two_give_second_hand() -> None:
    home = {**HOME, "wish": "most_value"}
    adverts = [panel("a", 30, 36, 100), inverter({}, {})]
    given = {"panel": adverts[0]["reading"]["panel"], "inverter": adverts[1]["reading"]["inverter"]}
    answer = answered({**home, "adverts": adverts, "new_from_shop": {"outlay": 420, "panel_count": 2, **given}})
    assert answer.new_from_shop.year_kwh.middle == answer.shortlist[0].year_kwh.middle > 100.0
