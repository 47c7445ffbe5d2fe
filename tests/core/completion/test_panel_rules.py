"""The missing figures of a datasheet follow from the given ones first and from the class last."""

import pytest

from service.core.errors import ContradictionError
from tests.requests import asked, with_panel

FOUR = ("open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v", "max_power_current_a")
# An invented datasheet: HL-440.
SHEET = {"open_circuit_voltage_v": 39.4, "short_circuit_current_a": 14.1, "max_power_voltage_v": 32.9,
         "max_power_current_a": 13.38}  # fmt: skip


def panel_of(**given):
    completed = asked(with_panel(**given))
    return completed.setup.arrays[0].panel, completed.assumptions.by_pointer


@pytest.mark.parametrize("kept", [(), FOUR[:1], FOUR[1:2], FOUR[2:3], FOUR[3:], FOUR[:2], FOUR[1:3], FOUR[::3]])
def test_the_rated_power_closes_whatever_was_given(kept):
    panel, assumptions = panel_of(rated_power_w=440, **{name: SHEET[name] for name in kept})
    assert panel.max_power_voltage_v * panel.max_power_current_a == pytest.approx(440, rel=0.002)
    assert panel.max_power_voltage_v < panel.open_circuit_voltage_v
    assert panel.max_power_current_a < panel.short_circuit_current_a
    for name in FOUR:
        assert (f"/arrays/0/panel/{name}" in assumptions) == (name not in kept)


@pytest.mark.parametrize("kept", [FOUR[:1], FOUR[1:2], FOUR[2:3], FOUR[3:], FOUR[:2]])
def test_the_ranges_hold_the_sheet_that_the_figures_came_from(kept):
    _, assumptions = panel_of(rated_power_w=440, **{name: SHEET[name] for name in kept})
    for name in set(FOUR) - set(kept):
        found = assumptions[f"/arrays/0/panel/{name}"]
        assert found.low <= SHEET[name] <= found.high, name


def test_an_older_sixty_cell_panel_follows_the_ratios_of_the_public_list():
    panel, _ = panel_of(rated_power_w=300, cells_in_series=60)
    assert panel.open_circuit_voltage_v == pytest.approx(0.586 * 60 + 0.0127 * 300, abs=0.001)
    assert panel.max_power_voltage_v / panel.open_circuit_voltage_v == pytest.approx(0.813, abs=0.001)
    assert panel.max_power_current_a / panel.short_circuit_current_a == pytest.approx(0.943, abs=0.001)


@pytest.mark.parametrize(
    ("power", "more", "cells"),
    [(410, {}, 54), (440, {}, 54), (250, {}, 60), (330, {}, 60), (330, {"length_mm": 1956, "width_mm": 992}, 72),
     (400, {"short_circuit_current_a": 10.2}, 72), (440, {"open_circuit_voltage_v": 49.0}, 72), (550, {}, 72),
     (160, {"open_circuit_voltage_v": 44.0}, 72), (100, {}, 36), (410, {"age_years": 5}, 54),
     (330, {"open_circuit_voltage_v": 64.5, "cell_kind": "hjt"}, 96),
     (500, {"open_circuit_voltage_v": 45.6}, 66), (470, {"open_circuit_voltage_v": 42.0}, 60)],
)  # fmt: skip
def test_cells_in_series_follow_power_size_ratings_and_age(power, more, cells):
    panel, _ = panel_of(rated_power_w=power, **more)
    assert panel.cells_in_series == cells


def test_an_old_panel_is_not_taken_for_a_new_format():
    panel, assumptions = panel_of(rated_power_w=330, age_years=12)
    assert panel.short_circuit_current_a < 10.5
    assert assumptions["/arrays/0/panel/open_circuit_voltage_v"].high > 60  # ninety-six cells were made then


def test_the_range_of_the_voltage_reaches_over_all_common_builds_of_a_power():
    _, assumptions = panel_of(rated_power_w=440)
    voltage = assumptions["/arrays/0/panel/open_circuit_voltage_v"]
    assert voltage.low < 36  # 48 large cells
    assert voltage.high > 50  # 72 of 166 mm


def test_thin_film_has_a_class_of_its_own():
    panel, _ = panel_of(rated_power_w=80, cell_kind="cdte", open_circuit_voltage_v=60.0)
    assert panel.voc_coefficient_pct_per_k == -0.278
    assert panel.max_power_voltage_v == pytest.approx(0.8 * 60, rel=0.01)


def test_coefficients_in_volts_and_amperes_are_turned_into_per_cent():
    panel, assumptions = panel_of(rated_power_w=440, **SHEET, voc_coefficient_v_per_k=-0.1,
                                  isc_coefficient_a_per_k=0.007)  # fmt: skip
    assert panel.voc_coefficient_pct_per_k == pytest.approx(-100 * 0.1 / 39.4)
    assert panel.isc_coefficient_pct_per_k == pytest.approx(100 * 0.007 / 14.1)
    assert "/arrays/0/panel/voc_coefficient_pct_per_k" not in assumptions


def test_a_whole_label_stands_as_printed_even_where_it_contradicts_itself():
    printed = {"rated_power_w": 402, "open_circuit_voltage_v": 31.2, "short_circuit_current_a": 12.9,
               "max_power_voltage_v": 37.5, "max_power_current_a": 13.6}  # fmt: skip
    panel, _ = panel_of(**printed)
    assert {name: getattr(panel, name) for name in printed} == printed


@pytest.mark.parametrize(
    ("given", "name"),
    [({"open_circuit_voltage_v": 30, "max_power_voltage_v": 31}, "max_power_voltage_v"),
     ({"short_circuit_current_a": 9, "max_power_voltage_v": 33}, "short_circuit_current_a"),
     ({"open_circuit_voltage_v": 20, "short_circuit_current_a": 10}, "rated_power_w"),
     ({"rated_power_w": 900, "short_circuit_current_a": 1}, "short_circuit_current_a"),
     ({"open_circuit_voltage_v": 39.4, "voc_coefficient_v_per_k": -0.1, "voc_coefficient_pct_per_k": -0.4},
      "voc_coefficient_v_per_k"),
     ({"power_tolerance_pct": [5, 0]}, "power_tolerance_pct")],
)  # fmt: skip
def test_figures_that_exclude_each_other_are_refused_with_their_place(given, name):
    with pytest.raises(ContradictionError) as error:
        panel_of(**{"rated_power_w": 440, **given})
    assert error.value.pointer == f"/arrays/0/panel/{name}"
    assert error.value.accepted
    mended = error.value.pointer.rpartition("/")[2]
    panel_of(**{"rated_power_w": 440, **given, mended: error.value.example})
