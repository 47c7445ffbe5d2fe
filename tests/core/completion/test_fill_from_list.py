"""Where no rating of an older panel is given, its ranges come from the public list; a code is a claim."""

from dataclasses import replace
from datetime import date

import pytest

from service.core.completion import DefaultTables, complete
from service.core.completion.rows import PUBLIC_LIST
from service.core.model.place_facts import PlaceFacts
from tests.climates import climate
from tests.panel_lists import invented_list
from tests.requests import LISTED, PRICES, asked, with_panel
from tests.skies import mixed_year

VOC, ISC = "open_circuit_voltage_v", "short_circuit_current_a"
NOTHING = LISTED.only(LISTED.rated_power_w < 0)


def assumptions_of(panels=LISTED, **panel):
    place = PlaceFacts(climate=climate(), time_zone="Europe/Berlin", country="DE")
    tables = DefaultTables(prices=PRICES, panels=panels)
    completed = complete(with_panel(**panel), place, mixed_year(54.2, 12.3), tables, date(2026, 11, 25))
    found = completed.assumptions.by_pointer
    return completed.setup.arrays[0].panel, {k.rpartition("/")[2]: a for k, a in found.items() if "/panel/" in k}


def test_an_older_panel_takes_its_range_from_the_list_and_says_from_how_many_entries():
    _, found = assumptions_of(rated_power_w=275, length_mm=1640, width_mm=992)
    for name in (VOC, ISC):
        assert found[name].code == "public_list"
        assert found[name].source.startswith(PUBLIC_LIST[:40])
        assert "entries" in found[name].source
    assert found[VOC].high - found[VOC].low < 3.5


@pytest.mark.parametrize("size", [{}, {"length_mm": 1640, "width_mm": 992}])
def test_the_list_narrows_what_the_class_says(size):
    _, by_list = assumptions_of(rated_power_w=275, **size)
    _, by_class = assumptions_of(NOTHING, rated_power_w=275, **size)
    assert by_class[VOC].code == "panel_class"
    for name in (VOC, ISC):
        assert by_list[name].high - by_list[name].low < by_class[name].high - by_class[name].low


def test_the_middle_stays_that_of_the_class():
    with_list, _ = assumptions_of(rated_power_w=275)
    without, _ = assumptions_of(NOTHING, rated_power_w=275)
    assert with_list == without


@pytest.mark.parametrize("panel", [{"rated_power_w": 410}, {"rated_power_w": 440}, {"rated_power_w": 330, VOC: 40.9},
                                   {"rated_power_w": 330, "age_years": 1, "cells_in_series": 60}])  # fmt: skip
def test_newer_panels_and_given_ratings_do_not_rest_on_the_list(panel):
    _, found = assumptions_of(**panel)
    assert "public_list" not in {one.code for one in found.values()}


def test_a_code_on_the_list_gives_that_panel_as_a_claim():
    panel, found = assumptions_of(invented_list(), rated_power_w=326, model_code="Heliora HL-330-60")
    assert (panel.open_circuit_voltage_v, panel.cells_in_series) == (40.74, 60)
    assert panel.max_power_voltage_v * panel.max_power_current_a == pytest.approx(326, rel=0.001)
    for name in (VOC, ISC, "max_power_voltage_v", "max_power_current_a", "cells_in_series", "cell_kind",
                 "voc_coefficient_pct_per_k"):  # fmt: skip
        assert found[name].code == "listed_code", name
        assert "claim" in found[name].source


@pytest.mark.parametrize("against", [{"rated_power_w": 410}, {VOC: 46.4}, {"length_mm": 1956, "width_mm": 992}])
def test_a_code_that_the_rest_speaks_against_is_left_aside(against):
    _, found = assumptions_of(invented_list(), **{"rated_power_w": 330, "model_code": "HL-330-60", **against})
    assert "listed_code" not in {one.code for one in found.values()}


def test_a_given_rating_stands_beside_a_code():
    panel, found = assumptions_of(invented_list(), rated_power_w=330, model_code="HL-330-60", **{VOC: 40.9})
    assert panel.open_circuit_voltage_v == 40.9
    assert VOC not in found
    assert found[ISC].code == "listed_code"


def test_unread_ratings_from_the_list_are_never_counted_as_read():
    completed = asked(with_panel(rated_power_w=275, length_mm=1640, width_mm=992))
    for name in (VOC, ISC):
        assert completed.assumptions.assumed(f"/arrays/0/panel/{name}")
    assert replace(completed.setup.arrays[0].panel, age_years=0.0).model_code is None
