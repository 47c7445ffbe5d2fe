"""Is what many planes would save at home reckoned as the whole account reckons it for one?"""

from datetime import date

import numpy as np
import pytest

from service.core.energy import energy_year
from service.core.household import demand_w
from service.core.model.assumption import Assumptions
from service.core.model.facts import Meter, Rate, TariffPeriod
from service.core.model.place import Plane
from service.core.tilt.home import home_of
from service.core.tilt.stand import stand_of
from service.core.tilt.sums import Together
from service.core.worth import AtTheMeter, limited_export
from service.data.climate import load_climate
from service.data.households import load_demand_shape
from tests.builders import household, inverter, setup, tariff
from tests.kernel_cases import typical

PLACE = (54.2, 12.3)
DEAR_EVENING = Rate(name=None, months=None, days=None, from_clock="17:00", to_clock="21:00", import_price_per_kwh=0.6,
                    export_price_per_kwh=None)  # fmt: skip


def period(export="unpaid", price=0.0, rates=(), tax=None):
    return TariffPeriod(valid_from="2026-01-01", import_price_per_kwh=0.34, export=export, export_price_per_kwh=price,
                        rates=rates, export_tax_share=tax)  # fmt: skip


def of(periods, **changes):
    """The home, and one row of its hours with light by the plain chain."""
    asked = setup(tariff=tariff(periods=periods), **changes)
    sky = typical(*PLACE)
    energy = energy_year(asked, sky, load_climate().at(*PLACE, None), Assumptions.of([]))
    meter = AtTheMeter.of(energy, asked, sky.calendar, load_demand_shape(), None)
    rows = np.flatnonzero(sky.ghi_w_per_m2 > 0)
    home = home_of(meter, asked, sky.calendar, rows, 800.0, date(2026, 11, 25))
    return home, energy.ac_w, energy.ac_w[rows].astype(np.float32)[None, :]


CASES = [
    ((period(),), Meter(counts="two_way", sums_phases=True, netting="instant")),
    ((period("paid", 0.08),), Meter(counts="two_way", sums_phases=True, netting="instant")),
    ((period("paid", 0.08, tax=0.25),), Meter(counts="two_way", sums_phases=True, netting="instant")),
    ((period("paid", -0.05, tax=0.25),), Meter(counts="two_way", sums_phases=True, netting="instant")),
    ((period("netted"),), Meter(counts="two_way", sums_phases=True, netting="year")),
    ((period("netted", 0.05),), Meter(counts="two_way", sums_phases=True, netting="hour")),
    ((period(),), Meter(counts="one_way", sums_phases=True, netting="instant")),
    ((period(),), Meter(counts="two_way", sums_phases=False, netting="instant")),
    ((period(rates=(DEAR_EVENING,)),), Meter(counts="two_way", sums_phases=True, netting="instant")),
    ((period("paid", 0.1, rates=(DEAR_EVENING,)),), Meter(counts="two_way", sums_phases=True, netting="instant")),
]


@pytest.mark.parametrize(("periods", "meter"), CASES)
def test_use_and_saving_of_many_planes_agree_with_the_account_of_one(periods, meter):
    """The home draws more than the set gives, so that no netting is bounded."""
    home, year_w, row = of(periods, meter=meter, household=household(demand_kwh_per_year=3500))
    whole = home.year(year_w)
    left, used = home.left_and_used_w(row)
    assert float(left.sum()) / 1000 == pytest.approx(whole.year_kwh, rel=1e-5)
    assert float(used.sum()) / 1000 == pytest.approx(whole.self_used_kwh, rel=5e-4)
    [saved] = home.saved_in_year(left, used)
    # Money moves by at most twice the price with each kWh used instead of sent out.
    assert saved == pytest.approx(whole.saving, abs=2 * 0.6 * 5e-4 * whole.self_used_kwh)
    assert float(home.saved(left, used).sum()) / 1000 == pytest.approx(saved, rel=1e-4)


def test_without_a_price_nothing_is_said_to_be_saved():
    home, year_w, row = of((period(),))
    no_price = setup(tariff=None)
    sky = typical(*PLACE)
    home = home_of(home.meter, no_price, sky.calendar, np.flatnonzero(sky.ghi_w_per_m2 > 0), 800.0, date(2026, 11, 25))
    assert home.saved_in_year(row, row) is None
    assert home.year(year_w).saving is None


@pytest.mark.parametrize("wanted", ["energy", "self_used", "money"])
@pytest.mark.parametrize("export_limit_w", [None, 200.0])
def test_what_is_summed_does_not_hang_on_what_is_wanted(wanted, export_limit_w):
    asked = setup(tariff=tariff(periods=(period("paid", 0.08),)), inverter=inverter(export_limit_w=export_limit_w))
    sky = typical(*PLACE)
    energy = energy_year(asked, sky, load_climate().at(*PLACE, None), Assumptions.of([]))
    if export_limit_w is not None:
        demand = demand_w(asked.household, sky.calendar, load_demand_shape())
        energy = limited_export(energy, asked, demand, sky)
    meter = AtTheMeter.of(energy, asked, sky.calendar, load_demand_shape(), None)
    stand = stand_of(asked, sky)
    home = home_of(meter, asked, sky.calendar, stand.record.daylight.rows, 900.0, date(2026, 11, 25))
    still = tuple(one.plane for one in asked.arrays)
    moved = Together(stand=stand, home=home, moving=dict.fromkeys(range(len(still)), 0.0), still=still)
    planes = [Plane(tilt_deg=tilt, azimuth_deg=150) for tilt in (10, 40, 80)]
    whole, some = moved.sums(planes), moved.sums(planes, wanted, years=True)
    assert some.of(wanted) == pytest.approx(whole.of(wanted), rel=1e-12)
    assert some.energy == pytest.approx(whole.energy, rel=1e-12)
    for objective in ("energy", "self_used", "money"):
        assert some.year_of(objective) == pytest.approx(whole.of(objective).sum(axis=1), rel=1e-5)
