"""May the d.c. side of the year be kept while only the a.c. side changes?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.energy import direct_current, direct_key, energy_year, spread_key, year_spread
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Setup
from service.core.model.place import HandRail
from tests.builders import array, inverter, money, one_input, panel, setup, site
from tests.climates import climate
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
CLIMATE = climate()
NOTHING = Assumptions.of(())
WITH_A_LOWER_LIMIT = setup(inverter=inverter(set_limit_w=300))


def test_a_kept_direct_current_gives_the_same_year_as_a_fresh_one() -> None:
    kept = direct_current(setup(), SKY)
    again = energy_year(WITH_A_LOWER_LIMIT, SKY, CLIMATE, NOTHING, kept)
    fresh = energy_year(WITH_A_LOWER_LIMIT, SKY, CLIMATE, NOTHING)
    assert np.array_equal(again.ac_w, fresh.ac_w)
    assert dict(again.lost_kwh) == dict(fresh.lost_kwh)


def test_only_the_alternating_side_may_differ() -> None:
    assert direct_key(setup()) == direct_key(WITH_A_LOWER_LIMIT)
    assert direct_key(setup()) == direct_key(setup(downtime_days_per_year=30))


RAIL = HandRail(above_top_edge_m=0.1, distance_m=0.1, thickness_m=0.05)
OPEN = Assumptions.of(
    Assumption(pointer=f"/arrays/0{what}", value=value, code="typical", source="a test")
    for what, value in (("/panel/half_cells", True), ("/orientation", "upright"))
)


def test_a_kept_spread_gives_the_same_year_as_a_fresh_one() -> None:
    kept = direct_current(setup(), SKY)
    spread = year_spread(setup(), kept, SKY, CLIMATE, OPEN)
    assert spread_key(setup(), OPEN) == spread_key(WITH_A_LOWER_LIMIT, OPEN)
    again = energy_year(WITH_A_LOWER_LIMIT, SKY, CLIMATE, OPEN, kept, spread)
    fresh = energy_year(WITH_A_LOWER_LIMIT, SKY, CLIMATE, OPEN)
    assert (again.spread, again.year_kwh) == (fresh.spread, fresh.year_kwh)


def test_whatever_changes_the_spread_is_noticed() -> None:
    shaded = setup(arrays=(replace(array(), hand_rail=RAIL), array(name="right", input=2)))
    for one, other, known in ((setup(), shaded, NOTHING), (shaded, shaded, OPEN)):
        first = year_spread(one, direct_current(one, SKY), SKY, CLIMATE, NOTHING)
        second = year_spread(other, direct_current(other, SKY), SKY, CLIMATE, known)
        assert first != second
        assert spread_key(one, NOTHING) != spread_key(other, known)


AGED = (array(panel=panel(age_years=5)),)
SMALLER_INPUT = one_input(max_current_a=9)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (setup(), setup(arrays=(array(dirt_share=0.1), array(name="right", input=2)))),
        (setup(), setup(inverter=inverter(inputs=(SMALLER_INPUT, SMALLER_INPUT)))),
        (setup(), setup(site=site(ground_reflectance_share=0.6))),
        (setup(arrays=AGED), setup(arrays=AGED, money=money(ageing_share_per_year=0.01))),
    ],
)
def test_whatever_changes_the_direct_side_is_noticed(one: Setup, other: Setup) -> None:
    first, second = direct_current(one, SKY)[0], direct_current(other, SKY)[0]
    assert not np.array_equal(first.dc_w, second.dc_w)
    assert direct_key(one) != direct_key(other)


@pytest.mark.parametrize("together", [False, True])
def test_without_the_account_the_hours_are_the_same_and_no_loss_is_told(together: bool) -> None:
    wanted = setup(arrays=(array(), array(name="right", input=1 if together else 2, panel=panel(age_years=5))))
    told, bare = direct_current(wanted, SKY), direct_current(wanted, SKY, account=False)
    for one, other in zip(told, bare, strict=True):
        assert one.lost_kwh
        assert not other.lost_kwh
        assert one.light_kwh == other.light_kwh
        for name in ("dc_w", "free_w", "most_w", "running"):
            assert np.array_equal(getattr(one, name), getattr(other, name))
