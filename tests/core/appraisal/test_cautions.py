"""Cautions are chosen by the facts of the request as sent, and open facts count where the danger is great."""

from types import SimpleNamespace

import pytest

from service.core.appraisal import CautionTable, chosen_cautions
from service.core.appraisal.caution_conditions import State
from service.core.appraisal.cautions import AT_MOST
from service.core.model.caution import Caution, Need
from service.data.cautions import load_cautions
from tests.requests import FULL, SMALLEST, with_array

TABLE = load_cautions()
FAILS, OPEN, HOLDS = State.FAILS, State.OPEN, State.HOLDS


def need(test, where, value=None):
    return Need(test="finding", finding=where, value=value) if test == "finding" else Need(
        test=test, pointer=where, value=value)  # fmt: skip


def caution(needs=(), rank=1, *, always=False):
    return Caution(
        code=f"c{rank}", severity="danger", step="living", rank=rank, always=always, shown_if_open=False,
        needs=tuple(needs), topic="t", source="s", status="memory",
    )  # fmt: skip


def state_of(needs, request, verdicts):
    return CautionTable.of([caution(needs)]).states(request, verdicts)[0]


@pytest.mark.parametrize(
    ("needs", "request_", "verdicts", "state"),
    [
        ([("is", "/a/x", 1)], {"a": {"x": 1}}, {}, HOLDS),
        ([("is", "/a/x", 1)], {"a": {"x": 2}}, {}, FAILS),
        ([("is", "/a/x", 1)], {}, {}, OPEN),
        ([("is", "/a/x", 1)], {"a": {"x": None}}, {}, OPEN),
        ([("is", "/a/x", 1)], {"a": {"x": True}}, {}, FAILS),  # true is not 1
        ([("is", "/a/x", True)], {"a": {"x": 1}}, {}, FAILS),
        ([("is_not", "/a/x", True)], {"a": {"x": "not_known"}}, {}, OPEN),
        ([("is_not", "/a/x", True)], {"a": {"x": False}}, {}, HOLDS),
        ([("above", "/a/x", 3)], {"a": {"x": 3}}, {}, FAILS),
        ([("above", "/a/x", 3)], {"a": {"x": "4"}}, {}, FAILS),
        ([("below", "/a/x", 3)], {"a": {"x": 2.5}}, {}, HOLDS),
        ([("known", "/a", None)], {"a": {"x": 0}}, {}, HOLDS),
        ([("known", "/a", None)], {}, {}, FAILS),
        ([("known", "/a", None)], {"a": []}, {}, FAILS),
        ([("not_known", "/a/x", None)], {"a": {"x": []}}, {}, HOLDS),
        ([("not_known", "/a/x", None)], {}, {}, HOLDS),
        ([("not_known", "/a/x", None)], {"a": {"x": "not_known"}}, {}, HOLDS),
        ([("above", "/r/*/n", 1)], {"r": []}, {}, FAILS),  # no entry, nothing that could be open
        ([("above", "/r/*/n", 1)], {}, {}, OPEN),
        ([("known", "/r/*/n", None)], {}, {}, FAILS),
        (
            [("one_of", "/r/*/m", ("w",)), ("below", "/a/x", 3)],
            {"r": [{"m": "g"}, {"m": "w"}], "a": {"x": 2}},
            {},
            HOLDS,
        ),
        ([("finding", "f", ("does_not_fit",))], {}, {}, OPEN),
        ([("finding", "f", ("does_not_fit",))], {}, {"f": {"not_known"}}, OPEN),
        ([("finding", "f", ("does_not_fit",))], {}, {"f": {"fits"}}, FAILS),
        ([("finding", "f", ("not_known",))], {}, {"f": {"fits", "not_known"}}, HOLDS),
        ([("is", "/r/*/j", "p"), ("is", "/b", 2)], {"r": [{"j": "s"}], "b": 2}, {}, FAILS),
        ([("is", "/b", 2), ("finding", "f", ("fits",))], {"b": 2}, {"f": {"does_not_fit"}}, FAILS),
        ([("is", "/b", 2), ("finding", "f", ("fits",))], {"b": 2}, {}, OPEN),
        ([("is", "/a/x", 1), ("is", "/b", 2)], {"a": {"x": 3}}, {}, FAILS),  # one that fails outweighs one open
    ],
)
def test_a_condition_holds_fails_or_is_open(needs, request_, verdicts, state):
    assert state_of([need(*n) for n in needs], request_, verdicts) is state


@pytest.mark.parametrize(
    ("entries", "state"),
    [([{"n": 2, "j": "s"}, {"n": 1, "j": "p"}], FAILS), ([{"n": 1, "j": "p"}, {"n": 2}], OPEN),
     ([{"n": 1, "j": "s"}, {"n": 2, "j": "p"}], HOLDS)],
)  # fmt: skip
def test_conditions_on_one_list_must_meet_in_one_entry(entries, state):
    needs = [need("above", "/r/*/n", 1), need("is", "/r/*/j", "p")]
    assert state_of(needs, {"r": entries}, {}) is state


def codes(request, findings=(), **more):
    found = [SimpleNamespace(code=code, verdict=verdict) for code, verdict in findings]
    return [caution.code for caution in chosen_cautions(TABLE, request, found, **more).shown]


def test_what_is_always_said_is_said_to_everybody_and_alone_without_a_set():
    always = {c.code for c in TABLE if c.always}
    assert set(codes({})) == always
    assert always <= set(
        codes(FULL, [("plug", "not_known"), ("cold_voltage", "not_known"), ("local_cap", "not_known")])
    )


@pytest.mark.parametrize(
    ("request_", "findings", "chosen", "left_out"),
    [
        (with_array(mount="hung_on_rail"), [], {"wind_load", "railing_strength", "landlord"}, {"ballast", "theft"}),
        (with_array(mount="ground_frame"), [], {"wind_load"}, {"railing_strength", "landlord"}),
        (SMALLEST, [], {"wind_load", "pins_live", "no_strip"}, {"rcd_missing", "railing_strength"}),
        ({**SMALLEST, "socket_circuit": {"breaker_a": 16}}, [], {"rcd_missing", "old_wiring", "one_set_one_socket"},
         set()),
        ({**SMALLEST, "socket_circuit": {"residual_current_device": "type_b", "plug": "fixed", "dedicated": True}}, [],
         set(), {"rcd_missing", "one_set_one_socket", "no_strip"}),
        (with_array(count=2, joined="series"), [], {"dc_series"}, {"dc_parallel", "y_lead"}),
        (with_array(count=2, joined="parallel"), [], {"dc_parallel", "y_lead"}, {"dc_series"}),
        (with_array(count=2), [], {"dc_series"}, {"dc_parallel"}),  # open and severe: said; open and mild: not
        (SMALLEST, [("cold_voltage", "not_known")], {"dc_over_voltage"}, set()),
        (SMALLEST, [("cold_voltage", "fits")], set(), {"dc_over_voltage"}),
        (SMALLEST, [("plug", "not_known")], {"rule_unknown", "two_plug_lead"}, {"no_home_plug"}),
        (SMALLEST, [("plug", "does_not_fit")], {"no_home_plug"}, {"rule_unknown"}),
        (SMALLEST, [("wet_trips", "suspected")], {"wet_trip"}, set()),
        ({**SMALLEST, "storage": {"usable_kwh": 1}}, [], {"storage", "damaged_battery"}, set()),
    ],
)  # fmt: skip
def test_the_facts_choose_the_cautions(request_, findings, chosen, left_out):
    found = set(codes(request_, findings))
    assert chosen <= found
    assert not left_out & found


def test_a_pick_up_check_is_read_as_of_a_used_panel_and_keeps_to_its_step():
    request = {"panel": {"rated_power_w": 330, "short_circuit_current_a": 9.9}}
    assert "damaged_panel" in codes(request, steps=("at_the_door",))
    assert codes({"panel": {"rated_power_w": 330, "age_years": 0}}, steps=("at_the_door",)) == []
    assert all(c.step == "at_the_door" for c in chosen_cautions(TABLE, request, (), ("at_the_door",)).shown)


def test_at_most_five_a_step_the_worst_first_and_the_rest_are_counted():
    needs = (Need(test="known", pointer="/arrays"),)
    rows = [caution(() if rank == 9 else needs, rank, always=rank == 9) for rank in (9, 3, 7, 1, 5, 2, 8)]
    chosen = chosen_cautions(rows, SMALLEST, ())
    assert [c.rank for c in chosen.shown] == [1, 2, 3, 5, 9]
    assert len(chosen.shown) == AT_MOST
    assert chosen.kept_back == {"living": 2}


def test_steps_come_in_order_and_ranks_within_them():
    shown = chosen_cautions(TABLE, FULL, ()).shown
    order = [(["before_buying", "at_the_door", "before_fitting", "fitting", "before_plugging_in", "living",
               "after_storm", "moving_out"].index(c.step), c.rank) for c in shown]  # fmt: skip
    assert order == sorted(order)
