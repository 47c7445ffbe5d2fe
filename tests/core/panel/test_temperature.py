"""Cell temperature by light, air, wind and mount."""

import pytest

from service.core.panel import HEAT_LOSS, cell_temperature_c


@pytest.mark.parametrize(
    ("light", "air", "wind", "mount", "cell"),
    [
        # Faiman 2008 with u0 25, u1 6.84, worked by hand
        (900, 20, 5, "free_standing", 35.2027),
        (1000, 25, 1, "free_standing", 56.407),
        (914.445, 22, 2.0, "free_standing", 45.6413),
        (749.263, -2, 1.5, "free_standing", 19.2496),
        (92.9921, 24, 1.0, "free_standing", 26.9206),
        (645.752, 29, 2.5, "free_standing", 44.3385),
        (748.256, -6, 1.0, "free_standing", 17.5005),
        (88.1278, 9, 2.0, "free_standing", 11.2784),
        # flat against a wall: u0 15, u1 4
        (755.609, 31, 0.8, "wall", 72.517),
    ],
)
def test_cells_are_as_warm_as_worked_by_hand(light, air, wind, mount, cell):
    assert cell_temperature_c(light, air, wind, mount) == pytest.approx(cell, abs=5e-4)


def test_the_closer_to_a_wall_the_warmer():
    free, rail, wall = (float(cell_temperature_c(800, 20, 1.5, m)) for m in ("ground_frame", "hung_on_rail", "wall"))
    assert free < rail < wall


def test_every_mount_of_the_request_has_its_pair_with_a_source():
    mounts = {"hung_on_rail", "behind_rail", "balcony_floor", "wall", "fence", "ground_frame", "flat_roof",
              "sloped_roof", "free_standing"}  # fmt: skip
    assert set(HEAT_LOSS) == mounts
    assert all(loss.source for loss in HEAT_LOSS.values())


def test_an_unknown_mount_is_no_silent_default():
    with pytest.raises(KeyError):
        cell_temperature_c(800, 20, 1.5, "on_the_moon")
