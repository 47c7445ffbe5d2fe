"""Column rules of the table of listed panels."""

from importlib.resources import files
from io import BytesIO

import numpy as np
from pvlib.pvsystem import retrieve_sam

from service.core.identity import RATINGS, typical_rows
from service.core.model.bounds import BOUNDS
from service.core.model.panel_list import LISTED_KINDS
from service.data.panel_list import load_panel_list

TABLE = load_panel_list()


def test_rows_rise_in_power_and_no_entry_is_lost():
    assert (np.diff(TABLE.rated_power_w) >= 0).all()
    assert int(TABLE.listings.sum()) == 21_535  # entries of the edition of 3 January 2019


def test_every_figure_is_finite_and_sizes_are_whole_or_absent():
    for name in RATINGS:
        assert np.isfinite(getattr(TABLE, name)).all(), name
    sized = np.isfinite(TABLE.length_mm)
    assert (sized == np.isfinite(TABLE.width_mm)).all()
    assert (TABLE.length_mm[sized] >= TABLE.width_mm[sized]).all()


def test_typical_rows_of_silicon_lie_within_the_bounds_of_a_request():
    silicon = np.isin(TABLE.kind, [0, 1]) & TABLE.typical & (TABLE.rated_power_w >= 5)
    for name in RATINGS:
        values = getattr(TABLE, name)[silicon]
        assert values.min() >= BOUNDS[name].low, name
        assert values.max() <= BOUNDS[name].high, name
    assert set(np.unique(TABLE.kind)) <= set(range(len(LISTED_KINDS)))


def test_what_is_typical_is_what_the_core_finds_typical():
    assert (TABLE.typical == typical_rows(TABLE)).all()
    assert 0.9 < TABLE.listings[TABLE.typical].sum() / TABLE.listings.sum() < 0.99


def test_codes_are_sorted_numbers_that_lead_to_rows():
    assert (np.diff(TABLE.code_number.astype(np.int64)) >= 0).all()
    assert TABLE.code_row.max() < len(TABLE)
    assert len(np.unique(TABLE.code_row)) > 0.9 * len(TABLE)


def test_no_name_is_shipped_and_the_file_is_small():
    content = files("service.data.panel_list").joinpath("panel_list.npz").read_bytes()
    assert len(content) < 600_000
    with np.load(BytesIO(content)) as arrays:
        assert all(arrays[name].dtype.kind in "iu" for name in arrays.files)


def test_the_figures_are_those_of_the_list_as_pvlib_carries_it():
    """Twenty entries, picked by place: their printed voltages and currents stand in some row, to the last digit."""
    listed = retrieve_sam("CECMod").T.iloc[::1077]
    for _, entry in listed.iterrows():
        same = (np.abs(TABLE.open_circuit_voltage_v - float(entry["V_oc_ref"])) < 0.006) & (
            np.abs(TABLE.short_circuit_current_a - float(entry["I_sc_ref"])) < 0.0006
        )
        assert same.any()
        assert (np.abs(TABLE.rated_power_w[same] / float(entry["STC"]) - 1) < 0.016).any()
