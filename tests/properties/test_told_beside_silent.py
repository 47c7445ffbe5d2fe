"""Who tells more of an inverter never stands behind who tells less, unless what is told speaks against it itself."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.completion.defaults import row_for
from service.core.errors import ContradictionError
from service.core.model.facts import Array
from service.core.model.finding import Part
from service.core.shortlist import fit_of
from tests import builders
from tests.http.shortlist_asked import SMALL, answered
from tests.properties.compatibility_strategies import asked
from tests.shortlist_kinds import INVERTER, SHEET, inverter_of, panel_advert

# What an input works with; it refuses nothing by itself. Of each the range of its class, of the current what is no sign
# of a small input (its short-circuit limit is mostly a fifth above it, and 15 A at the least in the class).
_AT_WORK = ("max_current_a", "tracking_min_v", "tracking_max_v", "start_voltage_v")
_ALL = (*_AT_WORK, "max_input_voltage_v", "max_short_circuit_current_a")


def in_its_class(name: str) -> st.SearchStrategy[float]:
    """A figure that an input of the class may have."""
    row = row_for(f"/inverter/inputs/0/{name}")
    assert row.low is not None
    assert row.high is not None
    if name == "max_current_a":
        return st.floats(12.5, row.high).map(lambda value: round(value, 1))
    return st.floats(row.low, row.high).map(lambda value: round(value, 1))


def arrays() -> st.SearchStrategy[Array]:
    """One panel or two, near what inputs of the class bear."""

    def made(cells: int, isc: float, count: int, joined: str) -> Array:
        voc = 0.68 * cells
        panel = builders.panel(
            cells_in_series=cells, open_circuit_voltage_v=voc, short_circuit_current_a=isc,
            max_power_voltage_v=0.82 * voc, max_power_current_a=0.94 * isc, rated_power_w=0.77 * voc * isc,
            bifaciality_share=0.0,
        )  # fmt: skip
        return builders.array(input=1, count=count, joined=joined, panel=panel)

    kinds = st.sampled_from([(1, "series"), (1, "series"), (2, "series"), (2, "parallel")])
    return st.builds(
        lambda cells, isc, kind: made(cells, isc, *kind), st.sampled_from([36, 54, 60, 72]), st.floats(7, 13), kinds
    )


def fit(array: Array, limits: dict[str, float]) -> int:
    """How an array fits an inverter of which so much is told, as a shortlist orders sets."""
    kind = inverter_of({"ac_power_w": 600, "input_count": 2, "inputs": [limits]})
    found = asked(builders.setup(arrays=(array,), inverter=kind.inverter), kind.assumed).findings
    return fit_of((one.verdict, one.likely) for one in found if one.part == Part.PANEL_SIDE)


@pytest.mark.parametrize("name", _AT_WORK)
@settings(max_examples=10 * settings.default.max_examples)  # few lie between what is stated and the class
@given(array=arrays(), told=st.fixed_dictionaries({}, optional={name: in_its_class(name) for name in _ALL}),
       data=st.data())  # fmt: skip
def test_a_figure_of_what_an_input_works_with_never_makes_a_set_fit_worse(
    name: str, array: Array, told: dict[str, float], data: st.DataObject
) -> None:
    less = {key: value for key, value in told.items() if key != name}
    more = {**less, name: data.draw(in_its_class(name))}
    try:
        assert fit(array, more) <= fit(array, less)
    except ContradictionError:
        return  # limits that exclude each other


@given(st.floats(12.5, 30.0))
def test_what_an_input_works_with_narrows_the_range_of_an_untold_short_circuit_limit(current_a: float) -> None:
    pointer = "/inverter/inputs/0/max_short_circuit_current_a"
    silent, told = (
        inverter_of({"ac_power_w": 600, "inputs": [limits]}).assumed.by_pointer[pointer]
        for limits in ({}, {"max_current_a": current_a})
    )
    assert told.value is silent.value is None  # it is not known either way
    assert (silent.low or 0.0) <= (told.low or 0.0) == pytest.approx(max(current_a, 15.0), abs=0.005)
    assert (told.high or 0.0) >= max(silent.high or 0.0, current_a)


def rank(of: str, answer: dict[str, Any]) -> int:
    return next(one["rank"] for one in answer["shortlist"] if of in one["adverts"])


@pytest.mark.parametrize("current_a", [12.5, 14, 18])
def test_an_advert_that_tells_the_current_at_work_stands_no_lower_than_its_copy_that_does_not(current_a: float) -> None:
    """Its name comes later, so that a draw would go against it."""
    [limits] = INVERTER["inputs"]
    silent = {name: value for name, value in limits.items() if not name.endswith("current_a")}
    sheet = {**SHEET, "short_circuit_current_a": 11.5, "max_power_current_a": 10.9, "rated_power_w": 340}
    adverts = [panel_advert("p", 45, panel=sheet)] + [
        {"id": name, "delivery_cost": 8, "reading": {
            "kind": "inverter", "price": {"value": 50, "currency": "EUR", "basis": "each"},
            "inverter": {**INVERTER, "inputs": [entry]}}}
        for name, entry in (("a", silent), ("b", {**silent, "max_current_a": current_a}))
    ]  # fmt: skip
    told, untold = (answered({**SMALL, "adverts": [adverts[0], one]})["shortlist"][0] for one in reversed(adverts[1:]))
    groups = ("likely_fits", "likely_does_not_fit", "does_not_fit")
    assert groups.index(told["fit_group"]) <= groups.index(untold["fit_group"])
    assert told["verdict"] == untold["verdict"] == "not_known"
    if told["fit_group"] != untold["fit_group"]:
        both = answered({**SMALL, "adverts": adverts})
        assert rank("b", both) < rank("a", both)
