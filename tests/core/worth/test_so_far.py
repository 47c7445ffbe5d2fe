"""How much has been paid back so far?"""

from datetime import date

import pytest

from service.core.model.band import Band
from service.core.worth import so_far, worth_of_energy
from tests.builders import money, outlay, tariff

MONTHS = (10.0, 20, 50, 80, 95, 100, 100, 90, 60, 40, 15, 10)


@pytest.fixture
def account():
    return worth_of_energy(Band(600.0, 670.0, 740.0), 0.5, tariff(), outlay(), money(), date(2026, 1, 1))


def test_a_whole_year_was_promised_the_year_and_its_saving(account) -> None:
    found = so_far(account, MONTHS, 335.0, date(2026, 3, 10), date(2027, 3, 10))
    assert found.promised_kwh == pytest.approx(account.expected_year_kwh, rel=0.002)
    assert found.logged_share == pytest.approx(0.5, rel=0.002)
    assert found.saved == pytest.approx(0.5 * account.saving_first_year.middle, rel=0.002)
    assert found.unpaid == pytest.approx(account.outlay - found.saved)


def test_a_summer_month_was_promised_more_than_a_winter_month(account) -> None:
    june = so_far(account, MONTHS, 100.0, date(2026, 6, 1), date(2026, 7, 1))
    january = so_far(account, MONTHS, 100.0, date(2026, 1, 1), date(2026, 2, 1))
    assert june.promised_kwh == pytest.approx(100.0)
    assert january.promised_kwh == pytest.approx(10.0)


def test_without_months_each_day_was_promised_the_same(account) -> None:
    found = so_far(account, None, 10.0, date(2026, 6, 1), date(2026, 6, 11))
    assert found.promised_kwh == pytest.approx(account.expected_year_kwh * 10 / 365.2425)
