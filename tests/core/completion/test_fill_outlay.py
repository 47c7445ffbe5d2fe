"""What has to be paid, as far as was said."""

from copy import deepcopy

import pytest

from service.core.completion import as_request
from service.core.errors import ContradictionError
from tests.requests import SMALLEST, asked, with_panel

PANELS = {"what": "2 used Panels", "amount": 130}
INVERTER = {"what": "inverter", "amount": 95}


def completed(outlay, **panel):
    request = deepcopy(with_panel(**panel) if panel else SMALLEST)
    return asked({**request, "outlay": outlay})


def test_what_was_not_named_costs_nothing_and_is_not_written_down():
    done = completed({"items": [INVERTER]})
    outlay = done.setup.outlay
    assert (outlay.freight, outlay.fetching, outlay.registration, outlay.faulty_share) == (None, None, None, None)
    assert not [pointer for pointer in done.assumptions.by_pointer if pointer.startswith("/outlay")]


def test_faults_fall_on_what_is_called_panels_and_that_is_written_down():
    done = completed({"items": [PANELS, INVERTER, {"what": "panel brackets", "amount": 20}], "faulty_share": 0.1})
    assert [item.second_hand for item in done.setup.outlay.items] == [True, False, False]
    assert done.assumptions.by_pointer["/outlay/items/0/second_hand"].code == "panels_by_name"


def test_what_is_said_goes_before_the_name():
    items = [{**PANELS, "second_hand": False}, {"what": "modules", "amount": 80, "second_hand": True}]
    done = completed({"items": items, "faulty_share": 0.1})
    assert [item.second_hand for item in done.setup.outlay.items] == [False, True]


def test_a_share_of_faulty_panels_without_panels_is_refused():
    with pytest.raises(ContradictionError) as refused:
        completed({"items": [INVERTER], "faulty_share": 0.1})
    assert refused.value.pointer == "/outlay/faulty_share"


def test_silence_about_faults_is_written_down_where_panels_were_in_use():
    used = completed({"items": [PANELS]}, history="roof")
    assert used.assumptions.by_pointer["/outlay/faulty_share"].value == 0
    unused = completed({"items": [PANELS]}, history="unused", age_years=0)
    assert "/outlay/faulty_share" not in unused.assumptions.by_pointer


def test_one_trip_is_counted_and_own_hours_only_where_they_were_mentioned():
    plain = completed({"items": [INVERTER], "fetching": {"km": 40, "per_km": 0.3}})
    fetching = plain.setup.outlay.fetching
    assert (fetching.trips, fetching.hours, fetching.per_hour) == (1, None, None)
    assert "/outlay/fetching/trips" in plain.assumptions.by_pointer
    assert "/outlay/fetching/hours" not in plain.assumptions.by_pointer
    timed = completed({"items": [INVERTER], "fetching": {"km": 40, "per_km": 0.3, "hours": 2}})
    assert timed.assumptions.by_pointer["/outlay/fetching/per_hour"].value == 0


def test_an_outlay_with_faults_comes_back_as_it_was_sent():
    sent = {"items": [{**PANELS, "second_hand": True}, {**INVERTER, "second_hand": False}], "faulty_share": 0.1}
    assert as_request(completed(sent).setup)["outlay"] == sent


def test_fetching_that_is_an_item_beside_its_kilometres_is_counted_twice_and_said():
    items = [PANELS, {"what": "Fetching", "amount": 17}]
    twice = completed({"items": items, "fetching": {"km": 42, "per_km": 0.3}}).assumptions.by_pointer
    assert twice["/outlay/items/1/what"].code == "fetching_beside"
    assert "/outlay/items/0/what" not in twice
    assert "/outlay/items/1/what" not in completed({"items": items}).assumptions.by_pointer


def test_a_freight_that_may_be_less_by_more_than_it_is_is_refused():
    taken = completed({"items": [INVERTER], "freight": 80, "freight_less": 80, "freight_more": 300}).setup.outlay
    assert (taken.freight, taken.freight_less, taken.freight_more) == (80, 80, 300)
    for freight in ({"freight": 80}, {}):
        with pytest.raises(ContradictionError) as refused:
            completed({"items": [INVERTER], **freight, "freight_less": 81})
        assert refused.value.pointer == "/outlay/freight_less"
        assert refused.value.example == freight.get("freight", 0.0)
