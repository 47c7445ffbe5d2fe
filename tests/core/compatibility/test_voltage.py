"""Volts in the cold, in the heat and in the morning."""

from dataclasses import replace
from typing import Any

import pytest

from service.core.compatibility.cold import nec_factor
from service.core.model.finding import Finding
from tests import builders
from tests.core.compatibility.ask import alone, answer, assumed, inputs, one

COEFFICIENT = "/arrays/0/panel/voc_coefficient_pct_per_k"


def test_the_label_voltage_is_not_what_counts_but_the_cold_one() -> None:
    finding = one("cold_voltage", answer(**alone(open_circuit_voltage_v=55, max_power_voltage_v=46, cells_in_series=72,
                                                 max_power_current_a=9.5, short_circuit_current_a=10)))  # fmt: skip
    assert finding.measured == pytest.approx(55 * (1 + 0.0026 * 39))
    assert finding.verdict == "does_not_fit"


def test_a_missing_absolute_maximum_is_not_replaced_by_the_tracking_range() -> None:
    finding = one("cold_voltage", answer(**inputs(max_input_voltage_v=None)))
    assert (finding.verdict, finding.limit) == ("not_known", None)
    assert finding.facts["missing"] == "max_input_voltage_v"


@pytest.mark.parametrize(("limit", "verdict", "likely"), [(60, "not_known", "fits"), (44, "not_known", "does_not_fit")])
def test_an_assumed_coefficient_counts_with_the_worst_of_its_class(limit: float, verdict: str, likely: str) -> None:
    spread = assumed(COEFFICIENT, -0.27, -0.35, -0.24)
    finding = one("cold_voltage", answer(spread, **alone(), **inputs(max_input_voltage_v=limit)))
    assert (finding.verdict, finding.likely, finding.facts["method"]) == (verdict, likely, "class")
    assert finding.facts["worst_v"] == pytest.approx(39.4 * (1 + 0.0035 * 39))


def test_even_the_kindest_coefficient_can_prove_a_refusal() -> None:
    spread = assumed(COEFFICIENT, -0.27, -0.35, -0.24)
    assert one("cold_voltage", answer(spread, **alone(), **inputs(max_input_voltage_v=42))).verdict == "does_not_fit"


UTAH = builders.site(rule_area="US-UT", coldest_air_c=-18)


def test_in_an_area_of_that_code_its_table_stands_in_for_a_coefficient() -> None:
    spread = assumed(COEFFICIENT, -0.27, -0.35, -0.24)
    finding = one("cold_voltage", answer(spread, site=UTAH, **alone()))
    assert finding.measured == pytest.approx(39.4 * 1.18)
    assert (finding.verdict, finding.facts["method"]) == ("fits", "nec_table")


def test_the_table_alone_refuses_only_where_the_kindest_coefficient_does_too() -> None:
    spread = assumed(COEFFICIENT, -0.27, -0.35, -0.24)
    asked = one("cold_voltage", answer(spread, site=UTAH, **alone(), **inputs(max_input_voltage_v=46)))
    assert (asked.verdict, asked.likely) == ("not_known", "does_not_fit")
    proven = one("cold_voltage", answer(spread, site=UTAH, **alone(), **inputs(max_input_voltage_v=43)))
    assert proven.verdict == "does_not_fit"


def test_a_known_coefficient_is_used_in_that_area_too_and_the_table_is_no_second_limit() -> None:
    finding = one("cold_voltage", answer(site=UTAH, **alone(), **inputs(max_input_voltage_v=45)))
    assert finding.measured == pytest.approx(39.4 * (1 + 0.0026 * 43))
    assert finding.verdict == "fits"


def test_the_table_is_for_crystalline_silicon() -> None:
    spread = assumed(COEFFICIENT, -0.28, -0.35, -0.24)
    finding = one("cold_voltage", answer(spread, site=UTAH, **alone(cell_kind="cdte")))
    assert finding.facts["method"] == "class"


def test_above_the_table_nothing_is_added_and_below_it_nothing_is_said() -> None:
    assert nec_factor(30) == 1.0
    assert nec_factor(-41) is None


@pytest.mark.parametrize(("air_c", "factor"), [(-40, 1.25), (-40.5, 1.27), (-45, 1.27), (-52, 1.31)])
def test_colder_than_the_table_its_last_step_goes_on(air_c: float, factor: float) -> None:
    spread = assumed(COEFFICIENT, -0.28, -0.35, -0.24)
    finding = one("cold_voltage", answer(spread, site=replace(UTAH, coldest_air_c=air_c), **alone()))
    assert finding.facts["method"] == "nec_table"
    assert finding.measured == pytest.approx(39.4 * factor)


def test_a_coefficient_that_no_panel_has_settles_no_cold_voltage() -> None:
    finding = one("cold_voltage", answer(**alone(voc_coefficient_pct_per_k=-0.0026), **inputs(max_input_voltage_v=42)))
    assert (finding.verdict, finding.likely) == ("not_known", "does_not_fit")


def test_a_hot_string_below_the_tracking_range_loses_energy_only() -> None:
    finding = one("hot_voltage", answer(hottest_cell_c=70, **inputs(tracking_min_v=30)))
    assert finding.verdict == "fits_with_loss"
    assert finding.measured < 30


@pytest.mark.parametrize(("count", "up_to_v"), [(1, 25.0), (2, 55.0)])
def test_a_string_above_the_tracking_range_loses_energy_only(count: int, up_to_v: float) -> None:
    # 32.9 V a panel by its label
    limits = inputs(tracking_min_v=16, tracking_max_v=up_to_v, max_input_voltage_v=100)
    finding = one("hot_voltage", answer(arrays=(builders.array(count=count),), **limits))
    assert (finding.verdict, finding.facts["variant"]) == ("fits_with_loss", "above")
    assert (finding.measured, finding.limit) == (pytest.approx(32.9 * count), up_to_v)


@pytest.mark.parametrize(
    ("low", "high", "outcome"),
    [(33.0, 60.0, ("fits", "fits")), (32.0, 60.0, ("not_known", "fits_with_loss")),
     (20.0, 30.0, ("not_known", "fits_with_loss"))],
)  # fmt: skip
def test_an_upper_end_that_nobody_stated_opens_the_question_where_it_may_decide(
    low: float, high: float, outcome: tuple[str, str]
) -> None:
    guess = assumed("/inverter/inputs/0/tracking_max_v", 55.0, low, high)
    finding = one("hot_voltage", answer(guess, **alone(), **inputs(max_input_voltage_v=60)))
    assert (finding.verdict, finding.likely) == outcome
    if outcome[0] == "not_known":
        assert finding.facts["missing"] == "tracking_max_v"


def test_two_panels_in_series_mend_a_low_voltage() -> None:
    in_series = (builders.array(count=2),)
    wide = inputs(tracking_min_v=30, tracking_max_v=90, max_input_voltage_v=100)
    finding = one("hot_voltage", answer(arrays=in_series, **wide))
    assert finding.verdict == "fits"


def test_a_start_voltage_above_the_label_means_that_it_seldom_starts() -> None:
    finding = one("start_voltage", answer(**inputs(start_voltage_v=41, tracking_min_v=41)))
    assert (finding.verdict, finding.facts["variant"]) == ("fits_with_loss", "seldom_starts")


def test_the_hottest_cell_that_the_caller_gives_takes_the_place_of_the_typical_years() -> None:
    hot = builders.array(hottest_cell_c=70)
    given = one("hot_voltage", answer(hottest_cell_c=50, arrays=(hot,), **inputs(tracking_min_v=30)))
    of_year = one("hot_voltage", answer(hottest_cell_c=70, **inputs(tracking_min_v=30)))
    assert given.facts["hottest_cell_c"] == 70
    assert (given.measured, given.verdict) == (of_year.measured, of_year.verdict)


def test_one_panel_alone_needs_no_system_voltage_rating_two_in_series_do() -> None:
    unrated = builders.panel(max_system_voltage_v=None)
    single = answer(arrays=(builders.array(panel=unrated),))
    assert not [f for f in single.findings if f.code == "system_voltage"]
    double = answer(arrays=(builders.array(panel=unrated, count=2),), **inputs(max_input_voltage_v=100))
    assert one("system_voltage", double).verdict == "not_known"


def test_a_string_above_its_panels_insulation_is_refused() -> None:
    low = builders.panel(max_system_voltage_v=50)
    finding = one("system_voltage", answer(arrays=(builders.array(panel=low, count=2),)))
    assert finding.verdict == "does_not_fit"


def test_a_sheet_that_makes_no_curve_still_gets_an_answer() -> None:
    compatibility = answer(**alone(max_power_voltage_v=40, open_circuit_voltage_v=39.4))
    assert compatibility.by_part["panel_side"] == "not_known"
    assert one("datasheet_sanity", compatibility).facts["doubts"] == "voltages_swapped"


def test_voltages_that_contradict_each_other_are_not_known_to_fit() -> None:
    swapped = alone(max_power_voltage_v=39.4, open_circuit_voltage_v=32.9)
    finding = one("cold_voltage", answer(**swapped))
    assert (finding.verdict, finding.likely) == ("not_known", "fits")
    assert "open_circuit_voltage_v" in str(finding.facts["missing"])
    assert one("cold_voltage", answer(**swapped, **inputs(max_input_voltage_v=40))).likely == "does_not_fit"
    assert one("cold_voltage", answer(**swapped, **inputs(max_input_voltage_v=30))).verdict == "does_not_fit"


@pytest.mark.parametrize(("tracks_from_v", "likely"), [(16, "fits"), (28.5, "fits_with_loss"), (40, "fits_with_loss")])
def test_an_assumed_coefficient_leaves_the_heat_open_as_it_does_the_cold(tracks_from_v: float, likely: str) -> None:
    # 32.9 V at 25 C lose some 10 to 14 % over 35 K, by the class's coefficient
    spread = assumed(COEFFICIENT, -0.27, -0.35, -0.24)
    finding = one("hot_voltage", answer(spread, **alone(), **inputs(tracking_min_v=tracks_from_v)))
    assert (finding.verdict, finding.likely) == ("not_known", likely)
    assert finding.facts["missing"] == "voc_coefficient_pct_per_k"
    assert [r.facts["rating"] for r in finding.remedies if r.code == "ask_seller"] == ["voc_coefficient_pct_per_k"]
    known = one("hot_voltage", answer(**alone(), **inputs(tracking_min_v=tracks_from_v)))
    assert known.verdict in ("fits", "fits_with_loss")


def test_the_worst_hot_voltage_is_that_of_the_steepest_coefficient() -> None:
    spread = assumed(COEFFICIENT, -0.27, -0.35, -0.24)
    worst = one("hot_voltage", answer(spread, **alone())).facts["worst_v"]
    steep = one("hot_voltage", answer(**alone(voc_coefficient_pct_per_k=-0.35))).measured
    assert worst == pytest.approx(steep, abs=0.05)


def test_what_only_shapes_the_curve_opens_a_question_where_it_decides_and_nowhere_else() -> None:
    cells = assumed("/arrays/0/panel/cells_in_series", 54, 48, 60)
    few, many = (one("start_voltage", answer(**alone(cells_in_series=n))).measured or 0.0 for n in (48, 60))
    assert few != many
    between = one("start_voltage", answer(cells, **alone(), **inputs(start_voltage_v=(few + many) / 2)))
    assert (between.verdict, between.facts["missing"]) == ("not_known", "cells_in_series")
    assert one("start_voltage", answer(**alone(), **inputs(start_voltage_v=(few + many) / 2))).verdict != "not_known"
    for start_v, verdict in ((30, "fits"), (38.5, "fits_with_loss")):
        assert one("start_voltage", answer(cells, **alone(), **inputs(start_voltage_v=start_v))).verdict == verdict


def test_the_table_for_silicon_is_not_read_for_a_panel_of_which_nobody_said_the_kind() -> None:
    open_kind = (assumed(COEFFICIENT, -0.27, -0.35, -0.24), assumed("/arrays/0/panel/cell_kind", "mono"))
    finding = one("cold_voltage", answer(*open_kind, site=UTAH, **alone()))
    assert (finding.verdict, finding.facts["method"]) == ("not_known", "class")


def test_a_table_that_the_steepest_coefficient_overtakes_is_no_proof_of_a_fit() -> None:
    # -18 C: the table says 1.18, a coefficient of -0.45 %/K over 43 K says 1.1935
    steep = assumed(COEFFICIENT, -0.27, -0.45, -0.24)
    for limit, verdict in ((39.4 * 1.185, "not_known"), (39.4 * 1.195, "fits")):
        finding = one("cold_voltage", answer(steep, site=UTAH, **alone(), **inputs(max_input_voltage_v=limit)))
        assert (finding.verdict, finding.facts["method"]) == (verdict, "nec_table")


def at_estimate(limit_v: float, **panel: Any) -> Finding:
    """The cold voltage at -20 C, an estimate between -25 and -15 C."""
    estimate = assumed("/site/coldest_air_c", -20.0, -25.0, -15.0)
    site = builders.site(coldest_air_c=-20.0)
    return one("cold_voltage", answer(estimate, site=site, **alone(**panel), **inputs(max_input_voltage_v=limit_v)))


@pytest.mark.parametrize(
    ("limit_v", "verdict", "likely"),
    [(56.5, "fits", "fits"), (56.4, "not_known", "does_not_fit"), (55.8, "not_known", "does_not_fit"),
     (55.7, "not_known", "does_not_fit"), (55.1, "not_known", "does_not_fit"), (55.0, "does_not_fit", "does_not_fit")],
)  # fmt: skip
def test_an_estimated_cold_counts_with_its_whole_range(limit_v: float, verdict: str, likely: str) -> None:
    # 49.5 V at -0.28 %/K: 56.43 V at -25 C, 55.737 V at -20 C, 55.044 V at -15 C
    found = at_estimate(limit_v, open_circuit_voltage_v=49.5, max_power_voltage_v=41.0, voc_coefficient_pct_per_k=-0.28)
    assert (found.verdict, found.likely) == (verdict, likely)
    assert found.facts["worst_v"] == pytest.approx(56.43)
    told = [(r.code, r.who, r.verdict_then) for r in found.remedies if r.code == "tell_coldest_air"]
    assert told == ([("tell_coldest_air", "you", "does_not_fit")] if verdict == "not_known" else [])
    assert ("/site/coldest_air_c" in str(found.facts.get("missing_pointers"))) == (verdict == "not_known")


@pytest.mark.parametrize("cell_kind", ["mono", "topcon", "hjt"])
def test_a_coefficient_that_no_crystalline_panel_has_settles_no_cold_voltage(cell_kind: str) -> None:
    # -138 mV/K read as per cent: 52.2 V at -18 C, where -0.28 %/K make it 55.2 V
    wrong = {"open_circuit_voltage_v": 49.3, "max_power_voltage_v": 41.0, "voc_coefficient_pct_per_k": -0.138}
    found = one("cold_voltage", answer(site=builders.site(coldest_air_c=-18.0),
                                       **alone(cell_kind=cell_kind, cells_in_series=72, **wrong),
                                       **inputs(max_input_voltage_v=55)))  # fmt: skip
    assert (found.verdict, found.likely) == ("not_known", "does_not_fit")
