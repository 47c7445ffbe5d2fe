"""Which cells and sections does the panel at the door have, and does its label hang together?"""

import pytest

from service.core.pickup.ratings import cells_from_halves
from tests.core.pickup.door import codes, door, one, reading


@pytest.mark.parametrize(
    ("given", "cells"),
    [
        ({"cells_in_series": 120, "open_circuit_voltage_v": 40.6}, 60),
        ({"cells_in_series": 108, "open_circuit_voltage_v": 37.3}, 54),
        ({"cells_in_series": 144}, 72),
        ({"cells_in_series": 60, "open_circuit_voltage_v": 40.6}, None),
        ({"cells_in_series": 96, "open_circuit_voltage_v": 64.0}, None),
        ({"cells_in_series": 96}, None),
        ({"open_circuit_voltage_v": 40.6}, None),
        ({"cells_in_series": 216, "open_circuit_voltage_v": 88.0, "cell_kind": "cdte"}, None),
    ],
)
def test_cut_cells_that_are_seen_count_half(given: dict[str, object], cells: int | None) -> None:
    """0.64 to 0.69 V a cell in series is what crystalline cells have; 0.34 V is none of them."""
    assert cells_from_halves(given) == cells


def test_a_label_that_was_read_and_does_not_hang_together_is_not_called_unread() -> None:
    seen = one(door(doubt="voltage_per_cell"), reading(voc=38.9, isc=7.0))
    assert set(codes(seen)) == {"label_doubtful"}
    assert seen.worth.share is None
