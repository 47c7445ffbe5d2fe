"""Tariff, account, circuit and meter that were completed before are completed to the same, and to no others."""

from copy import deepcopy
from datetime import date
from typing import Any

import pytest

from service.core.completion import Completed, DefaultTables, Known, KnownSets, KnownTerms, complete
from service.core.errors import ContradictionError
from service.core.model.place_facts import PlaceFacts
from tests.climates import climate
from tests.requests import FULL, LISTED, PRICES, SMALLEST
from tests.skies import mixed_year

SKY = mixed_year(54.2, 12.3)
DAY, LATER = date(2026, 11, 25), date(2027, 2, 1)
_PERIOD = {"valid_from": "2026-01-01", "import_price_per_kwh": 0.34, "export": "unpaid"}


def _with(**parts: Any) -> dict[str, Any]:
    return {**SMALLEST, **parts}


def _tariff(**parts: Any) -> dict[str, Any]:
    return _with(tariff={"currency": "EUR", "periods": [{**_PERIOD, **parts}]})


AUSTRIAN = _with(site={**SMALLEST["site"], "rule_area": "AT"})
# None of them like another in tariff, account, circuit, meter, or in what these hang on.
ASKED = [
    (SMALLEST, DAY), (SMALLEST, LATER), (AUSTRIAN, DAY), (_tariff(), DAY), (_tariff(import_price_per_kwh=1), DAY),
    (_tariff(import_price_per_kwh=1.0, export="netted"), DAY), (_tariff(fee_per_year=12), DAY),
    (_with(meter={"counts": "one_way"}), DAY), (_with(meter={"sums_phases": False}), DAY),
    ({**_tariff(export="netted"), "meter": {"netting": "month"}}, DAY),
    (_with(money={"years": 8}), DAY), (_with(money={"years": 8}, household={"stay_years": 12}), DAY),
    (_with(socket_circuit={"plug": "household"}), DAY),
    (_with(socket_circuit={"plug": "household", "breaker_a": 16}), DAY),
    (_with(downtime_days_per_year=9), DAY), (FULL, DAY),
]  # fmt: skip


def completed(asked: tuple[dict[str, Any], date], terms: KnownTerms) -> Completed:
    request, day = asked
    place = PlaceFacts(climate=climate(), time_zone="Europe/Berlin", country="DE")
    tables = DefaultTables(prices=PRICES, panels=LISTED)
    return complete(deepcopy(request), place, SKY, tables, day, known=Known(KnownSets(1), terms))


@pytest.mark.parametrize("size", [1, len(ASKED)])
def test_what_was_completed_before_changes_nothing(size: int) -> None:
    alone = [completed(asked, KnownTerms(1)) for asked in ASKED]
    assert all(one not in alone[:at] for at, one in enumerate(alone))
    terms = KnownTerms(size)
    again = [completed(asked, terms) for asked in [*ASKED, *ASKED]]
    assert again == [*alone, *alone]
    for one, other in zip(again, [*alone, *alone], strict=True):
        assert list(one.assumptions.by_pointer) == list(other.assumptions.by_pointer), "and in the same order"


def test_the_terms_of_another_demand_are_not_made_up_again() -> None:
    terms = KnownTerms(3)
    first = completed((_tariff(), DAY), terms)
    again = completed(({**_tariff(), "household": {"demand_kwh_per_year": 900}}, DAY), terms)
    assert again.setup.tariff is first.setup.tariff
    assert len(terms) == 1


def test_a_year_of_hourly_prices_is_not_kept() -> None:
    terms = KnownTerms(3)
    hourly = {"import_prices_per_kwh": [0.1, 0.5] * 4380}
    completed((_tariff(import_price_per_kwh=None, hourly=hourly), DAY), terms)
    assert len(terms) == 0


def test_a_contradiction_is_told_each_time() -> None:
    terms = KnownTerms(3)
    twice = _with(tariff={"currency": "EUR", "periods": [_PERIOD, _PERIOD]})
    for _ in range(2):
        with pytest.raises(ContradictionError):
            completed((twice, DAY), terms)
    assert len(terms) == 0
