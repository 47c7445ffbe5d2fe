"""Promises of panel identity: a true fact never widens, order does not matter, the panel itself is always held."""

from functools import cache

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from service.core.identity import POINTS, PanelFacts, identify, read_label, with_label
from service.core.model.panel_list import LISTED_KINDS
from service.data.panel_list import load_panel_list

TABLE = load_panel_list()
FACTS = ("cells_visible", "cell_kind", "length_mm", "width_mm", *POINTS)


@cache
def silicon_rows():
    """Typical mono and poly panels of 40 W and more, with their size."""
    silicon = np.isin(TABLE.kind, [0, 1]) & TABLE.typical & (TABLE.rated_power_w >= 40)
    return np.flatnonzero(silicon & np.isfinite(TABLE.length_mm))


rows = st.integers(0, 10**6).map(lambda n: int(silicon_rows()[n % len(silicon_rows())]))
some_facts = st.lists(st.sampled_from(FACTS), unique=True, max_size=len(FACTS))


def truth(row, names):
    known = {"cells_visible": int(TABLE.cells_in_series[row]), "cell_kind": LISTED_KINDS[int(TABLE.kind[row])]}
    said = {name: known.get(name) or float(getattr(TABLE, name)[row]) for name in names}
    return PanelFacts(rated_power_w=float(TABLE.rated_power_w[row]), **said)


@given(rows, some_facts, st.sampled_from(FACTS))
def test_adding_a_true_fact_never_widens_a_range(row, names, added):
    fewer = identify(truth(row, [name for name in names if name != added]), TABLE)
    more = identify(truth(row, [*(name for name in names if name != added), added]), TABLE)
    before = {one.key: one for one, _ in fewer.candidates}
    for one, _ in more.candidates:
        if one.found_in == "class" and not one.cell:
            continue  # "any panel" is told where no build agrees any more
        assert one.key in before
        for name, reach in one.ranges.items():
            old = before[one.key].ranges[name]
            if reach.source != "given":
                assert old.low - 1e-9 <= reach.low <= reach.high <= old.high + 1e-9, name


@given(rows, some_facts, st.randoms())
def test_the_order_of_facts_does_not_matter(row, names, random):
    shuffled = list(names)
    random.shuffle(shuffled)
    assert identify(truth(row, names), TABLE) == identify(truth(row, shuffled), TABLE)


@given(rows)
def test_some_candidate_always_holds_the_panel_whose_facts_are_all_given(row):
    found = identify(truth(row, FACTS), TABLE).candidates
    assert any(
        one.cells_in_series in {None, int(TABLE.cells_in_series[row])}
        and all(one.ranges[name].low <= float(getattr(TABLE, name)[row]) <= one.ranges[name].high for name in POINTS)
        for one, _ in found
    )


@given(rows, some_facts)
def test_ranges_are_ordered_and_shares_leave_a_rest(row, names):
    found = identify(truth(row, names), TABLE)
    assert sum(share for _, share in found.candidates) <= 1 + 1e-9
    for one, _ in found.candidates:
        assert all(r.low <= r.likely <= r.high for r in one.ranges.values())
        for name, reach in one.ranges.items():
            assert found.ranges[name].low <= reach.low <= reach.high <= found.ranges[name].high


@given(st.text(max_size=400))
def test_any_text_is_read_and_every_claim_points_into_it(text):
    claims = read_label(text)
    for claim in claims:
        assert 0 <= claim.start < claim.end <= len(text)
    with_label(PanelFacts(), claims)


pieces = st.sampled_from(["Voc", "Isc", "Pmax", "40,9 V", "10 A", "330 W", "NOCT", "STC", "\n", "x", "1684", "mm", "-",
                          "Model", "HL-330", "cells", "60", "tolerance", "±", "kg", "0.3", "[V]", "800 W/m2",
                          "°C", "%/K"])  # fmt: skip


@given(st.lists(pieces, max_size=40).map(" ".join))
def test_any_mixture_of_label_words_gives_facts_within_bounds(text):
    read = with_label(PanelFacts(), read_label(text)).facts
    assert read.open_circuit_voltage_v is None or 1 <= read.open_circuit_voltage_v <= 200
    assert read.rated_power_w is None or 5 <= read.rated_power_w <= 1000
