"""Many panels: several small inverters beside one wired inverter, as figures and no verdict."""

import pytest

from service.core.appraisal.many_panels import MANY_PANELS, many_panels
from service.core.model.finding import Part
from tests import builders
from tests.findings import compatibility, finding


def advice(*findings, count=8, **changes):
    array = changes.pop("array", builders.array(count=count, joined="parallel"))
    return dict(many_panels(builders.setup(arrays=(array,), **changes), compatibility(*findings)))


def cap(limit, *, in_force=True, inclusive=True, other_sets_w=0):
    facts = {"in_force": in_force, "inclusive": inclusive, "other_sets_w": other_sets_w}
    return finding("local_cap", Part.LOCAL_RULE, measured=800.0, limit=limit, unit="W", facts=facts)


def test_four_panels_are_not_many():
    assert advice(count=MANY_PANELS - 1) == {}
    assert "many_panels" in advice(count=MANY_PANELS)


def test_small_inverters_are_counted_one_panel_an_input():
    facts = advice(count=7)["many_panels"]  # two inputs each
    assert (facts["small_count"], facts["small_ac_w"]) == (4, 3200)
    assert facts["wired_ac_w"] == pytest.approx(7 * 440 / 1.15, abs=50)


@pytest.mark.parametrize(("limit", "inclusive", "within"), [(800.0, True, 1), (800.0, False, 0), (2000.0, True, 2),
                                                            (350.0, True, 0), (50_000.0, True, 4)])  # fmt: skip
def test_the_published_cap_says_how_many_of_them_may_be_plugged_in(limit, inclusive, within):
    facts = advice(cap(limit, inclusive=inclusive))["many_panels"]
    assert (facts["variant"], facts["within_cap"]) == ("capped", within)


@pytest.mark.parametrize(("others", "within"), [(0, 2), (1, 1), (800, 1), (1200, 0), (2600, 0)])
def test_other_sets_that_count_together_leave_less_room_for_small_inverters(others, within):
    facts = advice(cap(2000.0 - 400, other_sets_w=others))["many_panels"]  # 800 W each
    assert facts["within_cap"] == within


def test_a_cap_that_is_not_in_force_or_not_found_is_no_cap():
    assert advice(cap(800.0, in_force=False))["many_panels"]["variant"] == ""
    assert advice(cap(None))["many_panels"]["variant"] == ""


def test_the_string_of_all_panels_is_told_at_the_coldest_morning():
    facts = advice()["many_panels"]
    assert facts["series_v"] == pytest.approx(8 * 39.4 * (1 + 0.0026 * 39), abs=0.5)  # -14 C


def test_heat_is_told_where_the_small_ones_sit_warm_and_not_in_the_shade():
    heat = advice()["many_panels_heat"]
    assert 0 < heat["life_low"] < heat["life_high"] < 1
    assert "many_panels_heat" not in advice(inverter=builders.inverter(seat="open_shade"))


def test_outlay_a_watt_rests_on_the_price_given_for_the_inverter_and_else_on_trade_figures():
    given = advice()["many_panels_outlay"]  # 149 EUR an inverter, 4 of them, 3520 W of panels
    assert given["small_low_per_w"] == given["small_high_per_w"] == pytest.approx(4 * 149 / 3520, abs=0.001)
    open_price = advice(outlay=None)["many_panels_outlay"]
    assert open_price["small_low_per_w"] < open_price["small_high_per_w"]
    assert open_price["wired_low_per_w"] < open_price["wired_high_per_w"]


def test_in_a_currency_without_trade_figures_nothing_is_said_of_outlay():
    assert "many_panels_outlay" not in advice(tariff=builders.tariff(currency="JPY"))
    assert "many_panels_outlay" not in advice(tariff=None)
