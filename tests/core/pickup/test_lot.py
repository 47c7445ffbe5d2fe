"""Does a panel that stands apart from its lot show, and nobody else?"""

import pytest

from service.core.pickup.lot import against_lot

LABEL, METER = 0.05, 0.02


def test_a_panel_alone_is_compared_with_nobody() -> None:
    assert against_lot([7.0], LABEL, METER) == ("alone",)
    assert against_lot([], LABEL, METER) == ()


@pytest.mark.parametrize(("second", "stands"), [(6.9, "agrees"), (6.5, "agrees"), (6.05, "low")])
def test_of_two_the_lower_one_is_told_beyond_what_labels_differ(second: float, stands: str) -> None:
    assert against_lot([7.02, second], LABEL, METER) == ("agrees", stands)


def test_of_many_the_one_far_below_the_median_is_told() -> None:
    assert against_lot([7.0, 6.9, 7.1, 5.2, 7.0], LABEL, METER) == ("agrees", "agrees", "agrees", "low", "agrees")


def test_two_bad_ones_do_not_make_the_three_good_ones_bad() -> None:
    assert against_lot([7.0, 4.0, 7.1, 4.1, 7.05], LABEL, METER) == ("agrees", "low", "agrees", "low", "agrees")


def test_a_lot_in_halves_speaks_for_none_of_them() -> None:
    found = against_lot([7.0, 7.1, 4.0, 4.1], LABEL, METER)
    assert found[:2] == ("agrees", "agrees")
    assert set(found[2:]) == {"scattered"}
