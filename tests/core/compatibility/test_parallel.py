"""Strings side by side on one input whose voltages differ."""

from typing import Any

import pytest

from service.core.model.facts import Array
from service.core.model.finding import Finding
from tests import builders
from tests.core.compatibility.ask import answer, assumed, inputs, one

WIDE = {"max_input_voltage_v": 200, "tracking_max_v": 190, "max_current_a": 80, "max_short_circuit_current_a": 200,
        "connector_pairs": 4}  # fmt: skip


def side_by_side(*arrays: Array, more: tuple[Any, ...] = (), **limits: Any) -> Finding:
    return one("unlike_panels", answer(*more, arrays=arrays, **inputs(**WIDE | limits)))


def of(volts: float, name: str = "other", **changes: Any) -> Array:
    panel = builders.panel(open_circuit_voltage_v=volts, max_power_voltage_v=0.83 * volts, max_system_voltage_v=1000)
    return builders.array(name=name, panel=panel, **changes)


@pytest.mark.parametrize(("volts", "refused"), [(39.4, False), (37.5, False), (37.4, True), (19.7, True)])
def test_strings_further_apart_than_five_per_cent_are_refused(volts: float, refused: bool) -> None:
    # IEC 62548 and AS/NZS 5033 (from memory): 5 % of 39.4 V is 1.97 V
    assert (side_by_side(of(39.4, "one"), of(volts)).verdict == "does_not_fit") is refused


def test_one_panel_beside_three_in_series_is_refused_and_told_what_mends() -> None:
    found = side_by_side(of(37.5, "one"), of(37.5, count=3, joined="series"))
    assert (found.verdict, found.measured) == ("does_not_fit", pytest.approx(100 * 2 / 3))
    mended = {r.code: r.verdict_then for r in found.remedies}
    assert mended["one_panel_per_input"] == "fits"


def test_where_no_input_is_free_like_panels_mend() -> None:
    one_input = builders.inverter(input_count=1, inputs=(builders.one_input(**WIDE),))
    arrays = (of(37.5, "one"), of(37.5, count=3, joined="series"))
    found = one("unlike_panels", answer(arrays=arrays, inverter=one_input))
    (told,) = [r for r in found.remedies if r.code == "like_panels"]
    assert told.verdict_then == "fits"
    assert [o.op for o in told.patch] == ["copy", "add", "add"]


def test_one_string_of_two_beside_a_single_panel_is_refused() -> None:
    mates = [of(37.5, name, joined="one_string") for name in ("upper", "lower")]
    assert side_by_side(*mates, of(37.5, "beside")).verdict == "does_not_fit"


@pytest.mark.parametrize(
    ("low", "high", "verdict"), [(30, 36, "does_not_fit"), (36, 39, "not_known"), (38.5, 40.5, "not_known")]
)
def test_an_assumed_voltage_is_refused_only_where_all_of_its_range_is_too_far(
    low: float, high: float, verdict: str
) -> None:
    guess = assumed("/arrays/1/panel/open_circuit_voltage_v", (low + high) / 2, low, high)
    assert side_by_side(of(39.4, "one"), of((low + high) / 2), more=(guess,)).verdict == verdict
