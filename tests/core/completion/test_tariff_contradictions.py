"""Which parts of a tariff cannot both hold: all told at once, each with its place and what would do."""

import pytest

from service.core.completion import contradictions_of_tariff

PERIOD = {"valid_from": "2026-01-01", "import_price_per_kwh": 0.34}
NIGHT = {"from_clock": "22:00", "to_clock": "06:00", "import_price_per_kwh": 0.22}
HOURS = {"import_prices_per_kwh": [0.3] * 24}


def found(*periods, meter=None):
    errors = contradictions_of_tariff({"periods": list(periods)}, meter)
    for error in errors:
        assert error.accepted
    return [error.pointer.removeprefix("/tariff/periods/") for error in errors]


def rates(*rates):
    return {**PERIOD, "rates": list(rates)}


SOUND = {
    "one price": PERIOD,
    "a night rate": rates(NIGHT),
    "a rate within another, first": rates({**NIGHT, "days": "weekend"}, NIGHT),
    "rates that overlap in part": rates(NIGHT, {"days": "weekend", "import_price_per_kwh": 0.25}),
    "a whole day": rates({"from_clock": "00:00", "to_clock": "24:00", "import_price_per_kwh": 0.25}),
    "hours": {"valid_from": "2026-01-01", "hourly": HOURS},
    "hours and a price for what is sent out": {"export": "paid", "export_price_per_kwh": 0.08, "hourly": HOURS},
    "nothing paid, and nought said": {**PERIOD, "export": "unpaid", "export_price_per_kwh": 0.0},
}
UNSOUND = {
    "rates beside hours": ({**PERIOD, "rates": [NIGHT], "hourly": HOURS}, ["0/hourly", "0/import_price_per_kwh"]),
    "a price beside hours": ({**PERIOD, "hourly": HOURS}, ["0/import_price_per_kwh"]),
    "two export prices": (
        {"export_price_per_kwh": 0.1, "hourly": {**HOURS, "export_prices_per_kwh": [0.1] * 24}},
        ["0/export_price_per_kwh"],
    ),
    "25 hours": ({"hourly": {"import_prices_per_kwh": [0.3] * 25}}, ["0/hourly/import_prices_per_kwh"]),
    "a leap year of prices": (
        {"hourly": {**HOURS, "export_prices_per_kwh": [0.3] * 8784}}, ["0/hourly/export_prices_per_kwh"],
    ),
    "no price": (rates({"days": "weekend"}), ["0/rates/0"]),
    "no end": (rates({"from_clock": "22:00", "import_price_per_kwh": 0.2}), ["0/rates/0/to_clock"]),
    "no beginning": (rates({"to_clock": "06:00", "import_price_per_kwh": 0.2}), ["0/rates/0/from_clock"]),
    "no time between": (rates({**NIGHT, "to_clock": "22:00"}), ["0/rates/0/to_clock"]),
    "a month twice": (rates({"months": [1, 2, 1], "import_price_per_kwh": 0.2}), ["0/rates/0/months"]),
    "covered by the one before": (rates(NIGHT, {**NIGHT, "days": "weekend"}), ["0/rates"]),
    "covered by two before": (
        rates(
            {"days": "weekend", "import_price_per_kwh": 0.2}, {"days": "weekday", "import_price_per_kwh": 0.3}, NIGHT
        ),
        ["0/rates"],
    ),
    "a price for what is unpaid": (
        {**PERIOD, "export": "unpaid", "export_price_per_kwh": 0.08}, ["0/export_price_per_kwh"],
    ),
    "a rate for what is unpaid": (
        {**rates({**NIGHT, "export_price_per_kwh": -0.1}), "export": "unpaid"}, ["0/rates/0/export_price_per_kwh"],
    ),
    "hours for what is unpaid": (
        {"export": "unpaid", "hourly": {**HOURS, "export_prices_per_kwh": [0.0] * 23 + [0.1]}},
        ["0/hourly/export_prices_per_kwh"],
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", SOUND)
def test_what_can_hold_together_is_let_through(name):
    assert found(SOUND[name]) == []


@pytest.mark.parametrize("name", UNSOUND)
def test_what_cannot_is_refused_where_it_stands(name):
    period, pointers = UNSOUND[name]
    assert found(period) == pointers


def test_all_of_them_are_told_at_once():
    several = found(rates({"days": "weekend"}, NIGHT, NIGHT), {**PERIOD, "hourly": HOURS})
    assert several == ["0/rates/0", "0/rates", "1/import_price_per_kwh"]


def test_a_rate_that_is_wrong_by_itself_does_not_hide_the_ones_after_it():
    assert found(rates({"from_clock": "06:00", "import_price_per_kwh": 0.2}, NIGHT)) == ["0/rates/0/to_clock"]


def test_a_meter_that_runs_backwards_keeps_no_hours_apart():
    hours = {"hourly": HOURS}
    assert found(hours, meter={"counts": "reversing"}) == ["0/hourly"]
    assert found(hours, meter={"counts": "two_way"}) == []
    assert found(rates(NIGHT), meter={"counts": "reversing"}) == []


def test_no_tariff_has_no_contradiction():
    assert contradictions_of_tariff(None) == ()
