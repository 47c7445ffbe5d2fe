"""What compatibility learns of an array's year without the electrical part of the chain."""

import numpy as np
import pytest

from service.core.energy import array_conditions
from service.core.energy.cells import cell_year
from service.core.sky import plane_light
from tests.builders import array, setup
from tests.skies import clear_year


@pytest.mark.parametrize("mount", ["hung_on_rail", "wall"])
def test_next_to_no_light_falls_on_cells_cooler_than_the_cool_ones(mount):
    sky = clear_year(54.2, 12.3)
    one = array(mount=mount)
    [told] = array_conditions(setup(arrays=(one,)), sky)
    light = plane_light(sky, one, 0.2)
    cells, weights = cell_year(mount, light, sky).by_hour_c, light.effective_w_per_m2
    cooler, slightly_warmer = (weights[cells < told.cool_cell_c + k].sum() / weights.sum() for k in (0, 1))
    assert cooler <= 0.01 < slightly_warmer
    assert told.cool_cell_c < told.hottest_cell_c == np.max(cells)
