"""More volts than expected: a panel cooler than thought, or another type? 39.1 V are likely of 60 cells, 40.4 the most.

Of 66 cells 43.0 V are likely (39.1 x 66 / 60), of 72 cells 46.9.
"""

import pytest

from service.core.pickup import Between, PanelSeen, Seen, panels_seen
from tests.core.pickup.door import codes, door, one, reading


def at(volts: float) -> PanelSeen:
    return one(door(), reading(voc=volts, isc=7.0))


@pytest.mark.parametrize("volts", [40.8, 41.2, 41.5])
def test_a_voltage_nearer_to_the_range_than_to_more_cells_may_be_that_of_a_cooler_panel(volts: float) -> None:
    seen = at(volts)
    assert (seen.verdict, codes(seen), seen.worth.share) == (Seen.CANNOT_TELL, ["cooler_than_thought"], None)


@pytest.mark.parametrize("volts", [42.0, 42.6, 43.5])
def test_a_voltage_nearer_to_more_cells_is_that_of_another_panel(volts: float) -> None:
    seen = at(volts)
    assert (seen.verdict, codes(seen)) == (Seen.SUSPICIOUS, ["wrong_panel.other_cells"])
    assert seen.causes[0].facts["cells"] == 66


TAKEN = {"voltage_known": False, "current_known": False, "cells_known": False}


def test_where_cells_and_volts_are_taken_of_the_power_more_of_them_make_no_other_panel() -> None:
    """720 of 1000 W/m2: 7.1 A of 60 cells, so 5.9 A of 72 of the same power."""
    for lot in ("a", "abc"):
        for seen in panels_seen(door(**TAKEN), [reading(name, voc=46.9, isc=5.9) for name in lot]):
            assert (seen.verdict, seen.worth.share) == (Seen.CANNOT_TELL, None)
            assert set(codes(seen)) == {"rating_not_known"}
    weak = one(door(**TAKEN), reading(voc=46.9, isc=3.0))
    assert (weak.verdict, weak.worth.share) == (Seen.SUSPICIOUS, None)
    assert "current_low" in codes(weak)
    for told in ({"voltage_known": True}, {"cells_known": True}):
        assert "wrong_panel.other_cells" in codes(one(door(**TAKEN | told), reading(voc=46.9, isc=5.9)))
    assert "wrong_panel.voltage_high" in codes(one(door(**TAKEN), reading(voc=90.0, isc=5.9)))


def test_how_much_cooler_is_told() -> None:
    """39.05 V are likely; 41.2 is 5.5 % more, at 0.3 % a kelvin 18 K."""
    assert at(41.2).causes[0].facts["cooler_k"] == 18


def test_more_by_a_trace_is_not_told_in_per_cent() -> None:
    """40.32 V are the most."""
    assert at(40.33).causes[0].facts["over"] == "hardly"
    assert "over" not in at(40.4).causes[0].facts


@pytest.mark.parametrize(("volts", "by_heat"), [(37.0, True), (33.0, True), (29.5, False), (10.0, False)])
def test_heat_is_named_as_long_as_cells_get_so_hot(volts: float, by_heat: bool) -> None:
    """33 C are thought; up to 90 C a panel loses 0.3 % of 57 K, 6.7 V, of the 37.8 that are the least."""
    seen = one(door(sections=Between.exactly(1.0), cells_in_series=Between.exactly(100.0)), reading(voc=volts, isc=7.0))
    assert codes(seen) == ["voltage_low"]
    assert ("heat" not in seen.causes[0].facts) is by_heat


def test_a_lot_that_is_high_alike_may_be_cooler_and_one_beside_it_may_not() -> None:
    for seen in panels_seen(door(), [reading(name, voc=41.2, isc=7.0) for name in "abc"]):
        assert (seen.verdict, codes(seen)) == (Seen.CANNOT_TELL, ["cooler_than_thought"])
    *_, other = panels_seen(door(), [*(reading(name, voc=38.9, isc=7.0) for name in "abc"), reading("d", voc=41.2)])
    assert (other.verdict, codes(other)) == (Seen.SUSPICIOUS, ["wrong_panel.voltage_high"])


def test_where_no_usual_number_of_cells_is_near_no_cold_explains_a_tenth() -> None:
    """96 cells follow on 78; 43.0 V of 39.1 would be colder by 33 K."""
    label = door(cells_in_series=Between.exactly(78.0))
    assert codes(one(label, reading(voc=43.4, isc=7.0))) == ["wrong_panel.voltage_high"]
