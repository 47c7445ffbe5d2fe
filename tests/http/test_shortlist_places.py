"""Which panel stands where, and on which input? The best way, whatever the adverts are called."""

from typing import Any

import pytest

from tests.http.shortlist_asked import SMALL, answered, reason, same_as_an_appraisal
from tests.shortlist_kinds import INVERTER, inverter_advert, panel_advert

ONE_EACH: list[dict[str, Any]] = [
    {"name": "south", "mount": "ground_frame", "count": 1, "plane": {"tilt_deg": 30, "azimuth_deg": 180}},
    {"name": "north", "mount": "hung_on_rail", "count": 1, "plane": {"tilt_deg": 90, "azimuth_deg": 20}},
]
# 49.5 V come to some 56 on a cold morning.
TALL = {
    "rated_power_w": 410, "open_circuit_voltage_v": 49.5, "short_circuit_current_a": 10.5, "max_power_voltage_v": 41.5,
    "max_power_current_a": 9.88, "voc_coefficient_pct_per_k": -0.27,
}  # fmt: skip
LOW, HIGH = ({**INVERTER["inputs"][0], "max_input_voltage_v": volts, "tracking_max_v": volts - 5} for volts in (45, 65))


def stand(row: dict[str, Any]) -> dict[str, tuple[int, int]]:
    """Of each advert's panels place and input."""
    return {one["advert"]: (one["place"], one["input"]) for one in row["panels"]}


def with_both(answer: dict[str, Any], *names: str) -> dict[str, Any]:
    [row] = [row for row in answer["shortlist"] if set(names) <= set(row["adverts"])]
    return row


@pytest.mark.parametrize("wish", ["quick_payback", "most_value", "least_outlay_per_kwh"])
def test_the_strong_panel_stands_in_the_sun_whatever_its_name(wish: str) -> None:
    rows = []
    for strong, weak in (("a", "b"), ("b", "a")):
        adverts = [
            panel_advert(strong, 45, power_w=500, quantity_available=1),
            panel_advert(weak, 45, power_w=250, quantity_available=1),
            inverter_advert("i", 80),
        ]
        row = with_both(answered({**SMALL, "places": ONE_EACH, "wish": wish, "adverts": adverts}), "a", "b")
        assert (stand(row)[strong][0], stand(row)[weak][0]) == (0, 1)
        same_as_an_appraisal(row)
        rows.append((row["rank"], row["year_kwh"], row["simple_payback_years"], row["bid_up_to"]))
    assert rows[0] == rows[1]


@pytest.mark.parametrize("at_hand", [True, False])
@pytest.mark.parametrize(("inputs", "tall_on"), [([LOW, HIGH], 2), ([HIGH, LOW], 1)])
def test_a_panel_is_tried_on_each_input_that_differs(
    inputs: list[dict[str, Any]], tall_on: int, *, at_hand: bool
) -> None:
    inverter = {"ac_power_w": 800, "input_count": 2, "inputs": inputs}
    for tall, flat in (("a", "b"), ("b", "a")):
        adverts = [
            panel_advert(tall, 45, quantity_available=1, panel=TALL),
            panel_advert(flat, 45, quantity_available=1),
        ]
        shared = {**SMALL, "wish": "most_value"}
        answer = answered(
            {**shared, "adverts": adverts, "at_hand": {"inverter": inverter}}
            if at_hand
            else {**shared, "adverts": [*adverts, inverter_advert("i", 80, **inverter)]}
        )
        both = with_both(answer, "a", "b")
        assert stand(both) == {tall: (0, tall_on), flat: (0, 3 - tall_on)}
        same_as_an_appraisal(both)
        [alone] = [row for row in answer["shortlist"] if set(row["adverts"]) - {"i"} == {tall}]
        assert stand(alone) == {tall: (0, tall_on)}
        same_as_an_appraisal(alone)


@pytest.mark.parametrize("wish", ["quick_payback", "most_value", "least_outlay_per_kwh"])
def test_of_panels_that_are_given_away_as_many_are_hung_as_there_is_room_for(wish: str) -> None:
    free = panel_advert("gift", 0, distance_km=0)
    dear = panel_advert("paid", 45, distance_km=0)
    request = {**SMALL, "wish": wish, "outlay": {}, "at_hand": {"inverter": INVERTER}, "adverts": [free, dear]}
    first = answered(request)["shortlist"][0]
    assert first["outlay"] == 0.0
    assert first["adverts"] == ["gift"]
    assert sum(one["count"] for one in first["panels"]) == 2
    assert [bid["pieces"] for bid in first["bids"]] == [2]
    same_as_an_appraisal(first)


def test_two_gifts_come_before_one() -> None:
    gifts = [panel_advert(name, 0, power_w=watts, quantity_available=1, distance_km=0)
             for name, watts in (("a", 400), ("b", 410))]  # fmt: skip
    request = {**SMALL, "outlay": {}, "at_hand": {"inverter": INVERTER}, "adverts": gifts}
    assert set(answered(request)["shortlist"][0]["adverts"]) == {"a", "b"}


def test_of_many_kinds_of_inverters_sixteen_are_looked_at() -> None:
    """The first eight hid one whose set did better than most of the list."""
    inverters = [inverter_advert(f"i{at}", 90 + at, ac_power_w=600 + 10 * at) for at in range(16)]
    answer = answered({**SMALL, "limit": 5, "adverts": [panel_advert("p", 45), *inverters]})
    assert all(reason(answer, one["id"]) != "not_looked_at" for one in inverters)
