"""Many panels that are judged together on inverters are judged as each of them alone; a glance likewise."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.api.answers.shortlist_home import ShortlistHome
from service.api.schemas.reading import read_value
from service.api.schemas.shortlist import ShortlistIn
from service.app import deps_of
from service.core.compatibility import dangers_of, wired_alone
from service.core.energy import diode_of_sheet, remaining_share
from service.core.energy.kernel import wired
from service.core.inverter import ac_from_dc
from service.core.inverter.efficiency import curve_through
from service.core.model.facts import Array
from service.core.panel import Panels
from service.core.shortlist import InverterKind, Offer, OnInput, PanelKind
from service.core.shortlist.glance import Glance
from service.core.shortlist.judged import Judge, within
from service.settings import Settings
from tests.shortlist_kinds import HOME, INVERTER, SHEET, inverter_of, panel_advert, panel_of

DEPS = deps_of(Settings())


def home_of() -> ShortlistHome:
    """A home of two places that nothing was found out about yet."""
    places = [{**HOME["places"][0], "count": 4}, {**HOME["places"][0], "plane": {"tilt_deg": 30, "azimuth_deg": 190}}]
    request = {**HOME, "places": places, "adverts": [panel_advert("a", 45)]}
    return ShortlistHome.of(read_value(ShortlistIn, request), DEPS)


HOME_OF_TWO = home_of()
WATTS = st.lists(st.sampled_from([280, 330, 400, 430, 520]), min_size=1, max_size=5, unique=True)
LIMITS = st.fixed_dictionaries({
    "max_current_a": st.sampled_from([6.0, 9.0, 15.0]),
    "max_short_circuit_current_a": st.sampled_from([16.0, 22.0, 40.0]),
    "tracking_max_v": st.sampled_from([30.0, 55.0]),
})  # fmt: skip
POWERS = st.sampled_from([300, 600, 800])
LAYOUTS = st.sampled_from([
    (OnInput(0, 0, 1, "series", 0),), (OnInput(0, 1, 2, "parallel", 0),),
    (OnInput(0, 0, 1, "series", 0), OnInput(0, 1, 1, "series", 1)),
    (OnInput(0, 0, 2, "parallel", 0), OnInput(0, 0, 1, "series", 1)),
])  # fmt: skip


def kind(watts: int) -> PanelKind:
    """The strong ones have a rear that counts."""
    scale = watts / SHEET["rated_power_w"]
    rear = {"bifaciality_share": 0.7} if watts > 400 else {}
    return panel_of({**SHEET, "rated_power_w": watts, "short_circuit_current_a": round(13.9 * scale, 3),
                     "max_power_current_a": round(12.83 * scale, 3), **rear})  # fmt: skip


def inverter(ac_w: int, limits: dict[str, float]) -> InverterKind:
    return inverter_of({**INVERTER, "ac_power_w": ac_w, "inputs": [{**INVERTER["inputs"][0], **limits}]})


@settings(max_examples=25, deadline=None)
@given(WATTS, st.lists(st.tuples(POWERS, LIMITS), min_size=1, max_size=3), LAYOUTS)
def test_panels_judged_together_are_judged_as_each_alone(
    watts: list[int], inverters: list[tuple[int, dict[str, float]]], layout: tuple[OnInput, ...]
) -> None:
    kinds = [kind(one) for one in watts]
    together = Judge(HOME_OF_TWO.at_home, kinds)
    for ac_w, limits in inverters:
        whole = inverter(ac_w, limits)
        found = together.judged(whole, layout, (np.arange(len(kinds)),))
        for row, one in enumerate(kinds):
            alone = Judge(HOME_OF_TWO.at_home, [one]).judged(whole, layout, (np.array([0]),))
            assert found.fit[row] == alone.fit[0]
            # The table from d.c. to a.c. is cut by the strongest panel there is: not finer than this.
            assert found.year_kwh[row] == pytest.approx(alone.year_kwh[0], rel=1e-3, nan_ok=True)
            assert found.saving is not None
            assert alone.saving is not None
            assert found.saving[row] == pytest.approx(alone.saving[0], rel=1e-3, nan_ok=True)


@settings(max_examples=25, deadline=None)
@given(WATTS, POWERS, LIMITS, LAYOUTS)
def test_a_year_is_what_the_inputs_draw_of_each_array_through_the_inverter(
    watts: list[int], ac_w: int, limits: dict[str, float], layout: tuple[OnInput, ...]
) -> None:
    """The plain form: each array on its input solved with its limits, halves of flickering hours, then sums."""
    home, whole = HOME_OF_TWO.at_home, inverter(ac_w, limits)
    kinds, year = [kind(one) for one in watts], home.year
    found = Judge(home, kinds).judged(whole, layout, (np.arange(len(kinds)),)).year_kwh
    for row, one in enumerate(kinds):
        arrays = [
            replace(home.setup.arrays[on.place], panel=one.panel, count=on.count, joined=on.joined) for on in layout
        ]
        if any(refused(array, one, whole, at) for at, array in enumerate(arrays)):
            assert np.isnan(found[row])
            continue
        dc = np.zeros(year.hours.size)
        for at, (on, array) in enumerate(zip(layout, arrays, strict=True)):
            left = remaining_share(array, home.setup.money.ageing_share_per_year)
            diode, in_series, strings = wired(array, diode_of_sheet(one.panel), left)
            light, warm = year.irradiance_w_per_m2[on.place], year.cell_c[on.place]
            lit = np.flatnonzero(light > 0.0)
            drawn = Panels((diode,), light[lit], warm[lit]).running_power_w(
                in_series, np.array([strings]), whole.inverter.inputs[at]
            )
            dc[lit] += drawn[0]
        curve = curve_through(whole.inverter.weighted_efficiency_share, whole.inverter.efficiency_weighting)
        ac = np.asarray(ac_from_dc(dc, whole.inverter.ac_power_w, curve))
        flicker = np.zeros(dc.size) if year.flicker_share is None else np.asarray(year.flicker_share, float)
        halves = [np.minimum(ac * (1.0 + sign * flicker), whole.inverter.ac_power_w) for sign in (1.0, -1.0)]
        plain = year.up_share * float(np.mean(halves, axis=0) @ year.hours) / 1000.0
        assert found[row] == pytest.approx(plain, rel=1e-3)


def refused(array: Array, one: PanelKind, whole: InverterKind, index: int) -> bool:
    """By the questions themselves, asked of the array as it stands."""
    home = HOME_OF_TWO.at_home
    base = replace(home.setup, arrays=(array,))
    wiring = wired_alone(base, home.assumptions, home.cells_c, one.panel, one.assumed)
    return dangers_of(wiring).refuse(whole.column(index))


@pytest.mark.parametrize("first", [6.0, 15.0])
def test_of_two_inverters_that_differ_by_their_current_alone_each_gives_its_own(first: float) -> None:
    layout, rows = (OnInput(0, 1, 1, "series", 0),), (np.array([0]),)
    judge, limits = Judge(HOME_OF_TWO.at_home, [kind(430)]), {"max_short_circuit_current_a": 40.0}
    years = {
        most_a: float(judge.judged(inverter(800, {**limits, "max_current_a": most_a}), layout, rows).year_kwh[0])
        for most_a in (first, 21.0 - first)
    }
    assert years[6.0] < 0.9 * years[15.0]


@pytest.mark.parametrize(("start_v", "least_v"), [(0.0, 16.0), (21.0, 20.0)])
def test_what_no_limit_holds_lies_within_all_four_ends_and_surely_starts(start_v: float, least_v: float) -> None:
    limits = replace(inverter(800, {}).inverter.inputs[0], start_voltage_v=start_v)
    assert limits.tracking_min_v == 16.0
    ends = np.array([least_v, limits.tracking_max_v, limits.max_current_a, 300.0])
    beyond = np.eye(4)[:3] * np.array([-1.0, 1.0, 1.0, 0.0])
    assert within(np.stack([ends, *(ends + one for one in beyond)], axis=1), limits).tolist() == [
        True,
        False,
        False,
        False,
    ]


@settings(max_examples=20, deadline=None)
@given(st.lists(st.tuples(st.sampled_from([280, 330, 400, 430]), st.integers(5, 200), st.sampled_from([1, 2, 4])),
                min_size=1, max_size=8), st.lists(POWERS, min_size=1, max_size=4))  # fmt: skip
def test_at_a_glance_offers_stand_as_each_would_alone(panels: list[tuple[int, int, int]], powers: list[int]) -> None:
    offers = [Offer(advert=f"p{at}", panel=kind(watts), each=float(each), pieces=pieces, second_hand=at % 2 == 0)
              for at, (watts, each, pieces) in enumerate(panels)]  # fmt: skip
    inverters = [Offer(advert=f"i{at}", inverter=inverter(ac_w, {}), panels_each=0) for at, ac_w in enumerate(powers)]
    year, terms, place = HOME_OF_TWO.at_home.year, HOME_OF_TWO.terms, HOME_OF_TWO.at_home.year.sunniest_first()[0]
    costs = {count: np.array([one.each * count if count <= one.most else np.inf for one in offers]) for count in (1, 2)}
    own = [90.0 + at for at in range(len(inverters))]
    glance = Glance(year, place, terms, offers, inverters)
    order = glance.panels(costs, own, None).tolist()

    def alone(panel: int, ac_w: float, paid: float) -> float:
        heat = 1.0 - 0.0035 * (year.cell_c[place] - 25.0)
        share = 0.95 * year.irradiance_w_per_m2[place] / 1000.0 * heat
        figures = []
        for count in (1, 2):
            if count <= offers[panel].most:
                power = np.minimum(panels[panel][0] * count * share, ac_w)[None].astype(np.float32)
                outlay, used = np.array([costs[count][panel] + paid]), offers[panel].second_hand
                figures.append(float(terms.rough(outlay, *year.sums(power), second_hand=used)[0]))
        return min(figures)

    scores = [alone(panel, float(max(powers)), min(own)) for panel in order]
    assert all(one <= other * (1 + 1e-5) for one, other in pairwise(scores))
    best = [min(alone(panel, float(powers[at]), own[at]) for panel in order) for at in range(len(powers))]
    ranked = [best[inverters.index(one)] for one in glance.inverters(own)]
    assert all(one <= other * (1 + 1e-5) for one, other in pairwise(ranked))
