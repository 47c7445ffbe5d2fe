"""Tariff and meter are filled from what was said, and a rule that ends is a period that ends."""

from datetime import date

import pytest

from service.core.completion import DefaultTables, as_request, complete_account
from service.core.errors import ContradictionError
from service.core.model.price import Prices
from tests.core.rules.card_builder import card
from tests.requests import asked, with_panel

PERIOD = {"valid_from": "2026-01-01", "import_price_per_kwh": 0.34}
NIGHT = {"name": "night", "from_clock": "22:00", "to_clock": "06:00", "import_price_per_kwh": 0.22}


def request(*periods, meter=None):
    said = {**with_panel(), "tariff": {"currency": "EUR", "periods": list(periods)}}
    return said if meter is None else {**said, "meter": meter}


def filled(*periods, meter=None, **changes):
    return asked(request(*periods, meter=meter), **changes)


def periods_of(*periods, **changes):
    return filled(*periods, **changes).setup.tariff.periods


def told(completed, pointer):
    return completed.assumptions.by_pointer[pointer].code


def test_rates_fees_and_tax_are_kept_as_said():
    said = {
        **PERIOD,
        "export": "paid",
        "export_price_per_kwh": -0.01,
        "rates": [NIGHT, {"months": [7], "days": "weekend", "export_price_per_kwh": 0.02}],
        "fee_per_year": 24,
        "fee_per_kva_year": 60,
        "export_tax_share": 0.2,
    }
    (period,) = periods_of(said)
    night, july = period.rates
    assert (night.name, night.from_clock, night.to_clock, night.import_price_per_kwh) == (
        "night",
        "22:00",
        "06:00",
        0.22,
    )
    assert (night.months, night.days, night.export_price_per_kwh) == (None, None, None)
    assert (july.months, july.days, july.export_price_per_kwh) == ((7,), "weekend", 0.02)
    assert (period.fee_per_year, period.fee_per_kva_year, period.export_tax_share) == (24, 60, 0.2)
    assert period.export_price_per_kwh == -0.01


def test_of_fees_and_tax_that_nobody_named_nothing_is_said():
    completed = filled(PERIOD)
    (period,) = completed.setup.tariff.periods
    assert (period.rates, period.hourly) == ((), None)
    assert (period.fee_per_year, period.fee_per_kva_year, period.export_tax_share) == (None, None, None)
    assert not any("fee" in pointer or "tax" in pointer for pointer in completed.assumptions.by_pointer)


def test_hourly_prices_need_no_price_beside_them_and_none_is_assumed():
    completed = filled({"valid_from": "2026-01-01", "hourly": {"import_prices_per_kwh": [0.2, 0.4] * 12}})
    (period,) = completed.setup.tariff.periods
    assert period.hourly.import_prices_per_kwh == (0.2, 0.4) * 12
    assert period.import_price_per_kwh == pytest.approx(0.3)
    assert not completed.assumptions.assumed("/tariff/periods/0/import_price_per_kwh")


def test_hourly_prices_are_known_where_no_price_of_the_area_is():
    assert filled({"hourly": {"import_prices_per_kwh": [0.3] * 24}}, country="UY").setup.tariff is not None


@pytest.mark.parametrize(
    "priced",
    [
        {"export_price_per_kwh": 0.08},
        {"export_price_per_kwh": -0.02},
        {"rates": [{**NIGHT, "export_price_per_kwh": 0.02}]},
    ],
)
def test_a_price_for_what_is_sent_out_says_that_it_is_paid(priced):
    completed = filled({**PERIOD, **priced})
    assert completed.setup.tariff.periods[0].export == "paid"
    assert told(completed, "/tariff/periods/0/export") == "paid_as_priced"


def test_without_a_price_surplus_is_taken_as_unpaid():
    assert told(filled(PERIOD), "/tariff/periods/0/export") == "surplus_unpaid"


def test_a_tariff_that_nets_does_so_over_the_year_unless_somebody_said():
    netted = {**PERIOD, "export": "netted"}
    completed = filled(netted)
    assert completed.setup.meter.netting == "year"
    assert told(completed, "/meter/netting") == "netted_over_the_year"
    assert filled(netted, meter={"netting": "month"}).setup.meter.netting == "month"
    assert told(filled(PERIOD), "/meter/netting") == "usual_netting"


@pytest.mark.parametrize(
    ("netting", "export", "said"),
    [("month", "unpaid", "nets_where_a_period_does"), ("year", "netted", None), ("hour", "unpaid", None)],
)
def test_netting_by_the_bill_that_no_period_has_is_written_down(netting, export, said):
    completed = filled({**PERIOD, "export": export}, meter={"netting": netting})
    assert completed.setup.meter.netting == netting
    found = completed.assumptions.by_pointer.get("/meter/netting")
    assert (found and found.code) == said


def test_a_completed_tariff_is_complete():
    hours = {"import_prices_per_kwh": [0.3] * 168, "export_prices_per_kwh": [0.05] * 24}
    for said in ([{**PERIOD, "rates": [NIGHT], "fee_per_year": 12}], [{"export": "paid", "hourly": hours}],
                 [{**PERIOD, "export": "netted"}, {**PERIOD, "valid_from": "2027-01-01"}]):  # fmt: skip
        once = filled(*said).setup
        again = asked(as_request(once))
        assert again.setup == once
        assert not any(pointer.startswith(("/tariff", "/meter/netting")) for pointer in again.assumptions.by_pointer)


def test_periods_out_of_order_are_refused_with_an_example():
    with pytest.raises(ContradictionError) as error:
        filled({**PERIOD, "valid_from": "2027-01-01"}, PERIOD)
    assert error.value.pointer == "/tariff/periods/1/valid_from"
    assert error.value.accepted
    assert error.value.example == "2028-01-01"


ENDS = card(id="DE", export_payment="netted", valid_from=None, valid_to=date(2026, 12, 31))
NETTED = {**PERIOD, "export": "netted"}


def with_cards(*cards, periods=(NETTED,)):
    return asked(request(*periods), rule_cards={"DE": cards})


def later(payment, **changes):
    base = {"id": "DE", "valid_from": date(2027, 1, 1), "status": "adopted_not_yet_in_force"}
    return card(**{**base, "export_payment": payment, **changes})


def test_netting_that_ends_by_the_areas_card_ends_on_that_day():
    completed = with_cards(ENDS, later("depends"))
    first, second = completed.setup.tariff.periods
    assert (first.export, second.valid_from, second.export) == ("netted", "2027-01-01", "unpaid")
    assert second.import_price_per_kwh == first.import_price_per_kwh
    ends = completed.assumptions.by_pointer["/tariff/periods/1/valid_from"]
    assert (ends.code, ends.value) == ("card_ends", "2027-01-01")
    assert "2026-12-31" in ends.source
    assert told(completed, "/tariff/periods/1/export") == "netting_ends"


def test_after_netting_surplus_earns_the_price_that_was_given_for_it():
    _, second = with_cards(
        ENDS, later("depends"), periods=({**NETTED, "export_price_per_kwh": 0.05},)
    ).setup.tariff.periods
    assert (second.export, second.export_price_per_kwh) == ("paid", 0.05)


def test_after_netting_nothing_is_paid_where_the_next_card_says_so():
    priced = {
        **NETTED,
        "export_price_per_kwh": 0.05,
        "export_tax_share": 0.1,
        "rates": [{**NIGHT, "export_price_per_kwh": 0.02}, {"months": [5], "export_price_per_kwh": 0.01}],
    }
    completed = with_cards(ENDS, later("unpaid"), periods=(priced,))
    second = completed.setup.tariff.periods[1]
    assert (second.export, second.export_price_per_kwh, second.export_tax_share) == ("unpaid", 0, None)
    assert [(rate.name, rate.export_price_per_kwh) for rate in second.rates] == [("night", None)]
    assert asked(as_request(completed.setup)).setup == completed.setup


def test_a_next_card_that_nets_too_changes_nothing():
    completed = with_cards(ENDS, later("netted"))
    assert len(completed.setup.tariff.periods) == 1
    assert not completed.assumptions.assumed("/tariff/periods/0/export")


def test_an_end_without_a_known_next_rule_is_said():
    """A proposal is no rule to reckon with."""
    for cards in ((ENDS,), (ENDS, later("unpaid", status="proposal"))):
        completed = with_cards(*cards)
        (only,) = completed.setup.tariff.periods
        note = completed.assumptions.by_pointer["/tariff/periods/0/export"]
        assert (only.export, note.code) == ("netted", "no_later_rule_known")
        assert "2026-12-31" in note.source


def test_a_period_of_the_callers_own_from_that_day_is_left_alone():
    own = {**PERIOD, "valid_from": "2027-01-01", "export": "paid", "export_price_per_kwh": 0.06}
    completed = with_cards(ENDS, later("unpaid"), periods=(NETTED, own))
    assert [p.export for p in completed.setup.tariff.periods] == ["netted", "paid"]
    assert not completed.assumptions.assumed("/tariff/periods/1/export")


def test_a_period_that_begins_after_the_end_of_netting_does_not_net():
    beyond = {**NETTED, "valid_from": "2027-06-01", "export_price_per_kwh": 0.05}
    for payment, export in (("unpaid", "unpaid"), ("depends", "paid")):
        completed = with_cards(ENDS, later(payment), periods=(NETTED, beyond))
        assert [(p.valid_from, p.export) for p in completed.setup.tariff.periods] == [
            ("2026-01-01", "netted"), ("2027-01-01", "unpaid"), ("2027-06-01", export)
        ]  # fmt: skip
        note = completed.assumptions.by_pointer["/tariff/periods/2/export"]
        assert (note.code, note.value) == ("netting_ends", export)
        assert "2026-12-31" in note.source
        assert asked(as_request(completed.setup), rule_cards={"DE": (ENDS, later(payment))}).setup == completed.setup
    assert told(with_cards(ENDS, periods=(beyond,)), "/tariff/periods/0/export") == "no_later_rule_known"


def test_netting_without_a_date_does_not_outlive_a_card_that_ended_before_this_year():
    undated = {"import_price_per_kwh": 0.34, "export": "netted"}
    ended = card(id="DE", export_payment="netted", valid_from=None, valid_to=date(2025, 12, 31))
    completed = with_cards(ended, later("depends", valid_from=date(2026, 1, 1)), periods=(undated,))
    (only,) = completed.setup.tariff.periods
    assert (only.valid_from, only.export) == ("2026-01-01", "unpaid")
    assert told(completed, "/tariff/periods/0/valid_from") == "from_this_year"
    assert told(completed, "/tariff/periods/0/export") == "netting_ends"


def test_a_card_that_follows_and_nets_too_carries_netting_to_its_own_end():
    follows = later("netted", valid_to=date(2027, 12, 31))
    completed = with_cards(ENDS, follows, later("unpaid", valid_from=date(2028, 1, 1)))
    assert [(p.valid_from, p.export) for p in completed.setup.tariff.periods][1:] == [("2028-01-01", "unpaid")]


TURNS = {"counts": "reversing"}


def exports(*periods, cards=()):
    completed = asked({**request(*periods), "meter": TURNS}, rule_cards={"DE": cards})
    again = asked(as_request(completed.setup), rule_cards={"DE": cards})
    assert again.setup == completed.setup
    return [p.export for p in completed.setup.tariff.periods]


def test_a_meter_that_runs_backwards_nets_whatever_was_agreed():
    """And goes on at another price, until a later period says otherwise."""
    dearer = {**PERIOD, "valid_from": "2027-01-01", "import_price_per_kwh": 0.36}
    for export in (None, "unpaid", "paid", "netted"):
        assert exports({**PERIOD, "export": export}, dearer) == ["netted", "netted"]
    assert told(filled(PERIOD, meter=TURNS), "/tariff/periods/0/export") == "meter_runs_backwards"
    later_yet = {**dearer, "valid_from": "2028-01-01"}
    assert exports(PERIOD, {**dearer, "export": "unpaid"}, later_yet) == ["netted", "unpaid", "unpaid"]
    assert exports(PERIOD, {**dearer, "export_price_per_kwh": 0.08}, later_yet) == ["netted", "paid", "unpaid"]


def test_a_meter_that_runs_backwards_stops_netting_where_the_card_ends():
    cards = (ENDS, later("unpaid"))
    assert exports(PERIOD, cards=cards) == ["netted", "unpaid"]
    assert exports({**PERIOD, "valid_from": "2027-02-01"}, cards=cards) == ["unpaid"]


def test_a_later_period_of_the_callers_own_keeps_its_day():
    own = {**PERIOD, "valid_from": "2029-01-01", "import_price_per_kwh": 0.4}
    periods = with_cards(ENDS, later("unpaid"), periods=(NETTED, own)).setup.tariff.periods
    assert [(p.valid_from, p.export, p.import_price_per_kwh) for p in periods] == [
        ("2026-01-01", "netted", 0.34), ("2027-01-01", "unpaid", 0.34), ("2029-01-01", "unpaid", 0.4),
    ]  # fmt: skip


def test_a_card_ends_nothing_but_netting():
    paid = {**PERIOD, "export": "paid", "export_price_per_kwh": 0.08}
    assert len(with_cards(ENDS, later("unpaid"), periods=(paid,)).setup.tariff.periods) == 1


def test_the_cards_of_a_country_count_for_its_regions():
    said = request(NETTED)
    said["site"] = {**said["site"], "rule_area": "DE-MV"}
    assert len(asked(said, rule_cards={"DE": (ENDS, later("unpaid"))}).setup.tariff.periods) == 2


def test_a_first_price_that_has_yet_to_begin_is_taken_to_hold_already_and_said_so():
    late = {**PERIOD, "valid_from": "2031-01-01"}
    completed = filled(late)
    assert completed.setup.tariff.periods[0].valid_from == "2031-01-01"
    found = completed.assumptions.by_pointer["/tariff/periods/0/valid_from"]
    assert (found.code, found.value) == ("holds_before", "2031-01-01")


def test_a_price_that_holds_on_the_day_has_no_need_to_be_stretched():
    for first in (PERIOD, {"import_price_per_kwh": 0.34}):
        completed = filled(first, {**PERIOD, "valid_from": "2031-01-01"})
        noted = completed.assumptions.by_pointer.get("/tariff/periods/0/valid_from")
        assert noted is None or noted.code == "from_this_year"
        assert "/tariff/periods/1/valid_from" not in completed.assumptions.by_pointer


def test_an_account_takes_the_rules_of_the_country_that_it_is_asked_for():
    prices = Prices(read_on="2026-11-25", household=(), export_examples=())
    tables = DefaultTables(prices=prices, rule_cards={"DE": (ENDS, later("unpaid"))})
    given = {"tariff": {"currency": "EUR", "periods": [NETTED]}}
    placed = {**given, "site": {"latitude_deg": 54.2, "longitude_deg": 12.3}}
    told_of = complete_account(placed, tables, date(2026, 11, 25), "DE")
    assert [p.export for p in told_of.tariff.periods] == ["netted", "unpaid"]
    assert told_of.assumptions.by_pointer["/site/rule_area"].value == told_of.rule_area == "DE"
    for nowhere in (given, placed):
        unknown = complete_account(nowhere, tables, date(2026, 11, 25))
        assert (unknown.rule_area, [p.export for p in unknown.tariff.periods]) == (None, ["netted"])
        assert unknown.assumptions.by_pointer["/tariff/periods/0/export"].code == "no_rule_known"
