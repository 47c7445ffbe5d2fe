"""The whole answer: verdicts, order, what was not looked at, and remedies that were asked again."""

from collections.abc import Hashable
from dataclasses import fields, replace
from typing import Any

import pytest

from service.core.compatibility import Checked, check, check_key
from service.core.compatibility.wiring import Curves, Wiring, with_panels_moved
from service.core.model.assumption import Assumptions
from service.core.model.facts import OtherSet, Setup
from service.core.model.finding import WORST_FIRST
from service.core.model.pointer import replaced_at, value_at
from service.core.rules import card_for
from service.data.local_rules import cards_of
from tests import builders
from tests.core.compatibility.ask import AS_OF, answer, assumed, inputs, one
from tests.findings import told

SEVERAL = [
    {"arrays": (builders.array(count=2),)},
    {"arrays": (builders.array(count=2),), "inverter": builders.inverter(inputs=(builders.one_input(),))},
    {"arrays": (builders.array(), builders.array(name="right"))},
    {"arrays": (builders.array(count=3, joined="parallel"),)},
    {"socket_circuit": builders.socket_circuit()},
    {"socket_circuit": builders.socket_circuit(lead_length_m=60, residual_current_device="type_ac")},
    {"site": builders.site(rule_area="AT")},
    {"site": builders.site(rule_area="GB"), "socket_circuit": builders.socket_circuit()},
    {"site": builders.site(rule_area="IT")},
    {"arrays": (builders.array(panel=builders.panel(connector="bare")),)},
]  # fmt: skip


def test_a_plain_pair_without_a_circuit_fits() -> None:
    compatibility = answer()
    assert compatibility.verdict == "fits"
    assert {str(part): str(verdict) for part, verdict in compatibility.by_part.items()} == {
        "panel_side": "fits", "local_rule": "fits",
    }  # fmt: skip
    assert "/socket_circuit" in compatibility.not_looked_at


def test_the_scenario_circuit_refuses_the_whole_and_only_the_socket_side() -> None:
    compatibility = answer(socket_circuit=builders.socket_circuit())
    assert compatibility.verdict == "does_not_fit"
    assert {str(part): str(verdict) for part, verdict in compatibility.by_part.items()} == {
        "panel_side": "fits", "socket_side": "does_not_fit", "local_rule": "fits",
    }  # fmt: skip
    assert "/socket_circuit" not in compatibility.not_looked_at


def test_the_worst_finding_comes_first() -> None:
    for changes in SEVERAL:
        ranks = [WORST_FIRST.index(f.verdict) for f in answer(**changes).findings]
        assert ranks == sorted(ranks)


@pytest.mark.parametrize("changes", SEVERAL, ids="+".join)
def test_a_remedy_that_names_a_field_truly_mends_the_finding(changes: dict[str, object]) -> None:
    setup = builders.setup(**changes)
    card = card_for(cards_of(setup.site.rule_area), AS_OF)
    tried = 0
    for finding in answer(**changes).findings:
        for remedy in finding.remedies:
            if remedy.pointer is None:
                continue
            tried += 1
            mended = replaced_at(setup, remedy.pointer, remedy.new_value)
            after = check(mended, Assumptions.of([]), (60,) * len(mended.arrays), card, AS_OF)
            same = [f for f in after.findings if f.code == finding.code and f.about == finding.about]
            assert all(f.verdict == remedy.verdict_then for f in same), (finding.code, remedy)
            assert WORST_FIRST.index(remedy.verdict_then) > WORST_FIRST.index(finding.verdict)
    assert tried or changes.get("site", builders.site()).rule_area != "DE"  # type: ignore[attr-defined]


def test_two_in_series_are_mended_by_parallel_wiring_or_by_the_free_input() -> None:
    finding = one("cold_voltage", answer(arrays=(builders.array(count=2),)))
    told = {r.code: (r.pointer, r.new_value) for r in finding.remedies}
    assert told["one_panel_per_input"] == (None, 1)
    assert told["other_inverter"] == ("/inverter/inputs/0/max_input_voltage_v", 90.0)
    assert "parallel_not_series" not in told, "it would push 35 A into an input that stands 18 A"


def test_parallel_wiring_is_told_where_the_input_stands_the_current() -> None:
    finding = one("cold_voltage", answer(arrays=(builders.array(count=2),), **inputs(max_short_circuit_current_a=40)))
    assert "parallel_not_series" in {r.code for r in finding.remedies}


def test_two_arrays_on_one_input_are_parted_where_an_input_is_free() -> None:
    shared = (builders.array(), builders.array(name="right"))
    finding = one("short_circuit_current", answer(arrays=shared))
    parted = [r for r in finding.remedies if r.code == "one_panel_per_input"]
    assert {(r.pointer, r.new_value, str(r.verdict_then)) for r in parted} == {
        ("/arrays/0/input", 2, "fits"), ("/arrays/1/input", 2, "fits"),
    }  # fmt: skip


def test_moved_panels_keep_what_was_assumed_of_them() -> None:
    guess = assumed("/arrays/0/panel/voc_coefficient_pct_per_k", -0.26, -0.4, -0.2)
    finding = one("cold_voltage", answer(guess, arrays=(builders.array(count=2),)))
    moved = next(r for r in finding.remedies if r.code == "one_panel_per_input")
    assert moved.verdict_then == "not_known"


def test_panels_are_not_moved_to_an_input_that_they_would_break() -> None:
    strong, weak = builders.one_input(), builders.one_input(max_input_voltage_v=40)
    compatibility = answer(arrays=(builders.array(count=2),), inverter=builders.inverter(inputs=(strong, weak)))
    assert "one_panel_per_input" not in {r.code for r in one("cold_voltage", compatibility).remedies}


def test_a_moved_panel_takes_its_assumptions_along() -> None:
    guess = assumed("/arrays/0/panel/open_circuit_voltage_v", 39.4, 38.0, 41.0)
    wiring = Wiring(builders.setup(arrays=(builders.array(count=2),)), Assumptions.of([guess]), (60.0,), Curves())
    moved = with_panels_moved(wiring, 0, (2,))
    assert [array.input for array in moved.setup.arrays] == [1, 2]
    assert moved.assumptions.low("/arrays/1/panel/open_circuit_voltage_v", 39.4) == 38.0


def test_another_inverter_with_a_printed_rating_settles_what_was_only_assumed() -> None:
    guess = assumed("/inverter/inputs/0/max_input_voltage_v", 60, 50, 65)
    finding = one("cold_voltage", answer(guess, arrays=(builders.array(count=2),)))
    assert (finding.verdict, finding.limit) == ("does_not_fit", None)
    other = next(r for r in finding.remedies if r.code == "other_inverter")
    assert other.verdict_then == "fits"


def test_each_of_two_arrays_with_bare_leads_is_mended_by_its_own_connectors() -> None:
    bare = builders.panel(connector="bare")
    refused = [f for f in answer(arrays=(builders.array(panel=bare), builders.array(input=2, panel=bare))).findings
               if f.code == "connectors"]  # fmt: skip
    assert [[(r.code, r.pointer, str(r.verdict_then)) for r in f.remedies] for f in refused] == [
        [("matched_connectors", f"/arrays/{at}/panel/connector", "fits")] for at in (0, 1)
    ]


def test_panels_insulated_for_too_little_are_mended_by_others_where_no_wiring_helps() -> None:
    low = builders.panel(max_system_voltage_v=40)  # 39.4 V are 43.4 V at -14 C
    [remedy] = one("system_voltage", answer(arrays=(builders.array(panel=low),))).remedies
    assert (remedy.code, remedy.pointer, remedy.new_value, str(remedy.verdict_then)) == (
        "other_panels", "/arrays/0/panel/max_system_voltage_v", 50.0, "fits",
    )  # fmt: skip


def test_an_input_that_refuses_by_both_of_its_limits_is_mended_by_fewer_panels_in_parallel() -> None:
    three = builders.array(count=3, joined="parallel", panel=builders.panel(max_series_fuse_a=60))
    limits = inputs(max_short_circuit_current_a=40, max_panel_short_circuit_current_a=30)  # 1.25 x 2 x 14.1 A = 35.25 A
    told = {r.code: r for r in one("short_circuit_current", answer(arrays=(three,), **limits)).remedies}
    fewer = told["fewer_panels"]
    assert (fewer.pointer, fewer.new_value, str(fewer.verdict_then)) == ("/arrays/0/count", 2, "fits")


def test_fuses_mend_a_reverse_current_only_where_a_size_lies_between_the_bounds() -> None:
    def told(fuse: float) -> list[object]:
        panel = builders.panel(max_series_fuse_a=fuse)
        compatibility = answer(arrays=(builders.array(panel=panel, count=3, joined="parallel"),),
                               **inputs(max_short_circuit_current_a=99))  # fmt: skip
        return [r.new_value for r in one("reverse_current", compatibility).remedies if r.code == "string_fuses"]

    assert told(25) == [25.0]
    assert told(22) == []  # 1.5 x 14.1 A is 21.2 A, and no size lies up to 22 A
    assert told(20) == []


def test_a_cap_is_mended_by_the_highest_limit_below_it() -> None:
    exclusive = one("local_cap", answer(site=builders.site(rule_area="AT")))
    assert [(r.code, r.new_value) for r in exclusive.remedies] == [("lower_set_limit", 790.0)]
    other = OtherSet(ac_power_w=300, panel_power_w=300, same_circuit=False)
    shared = one("local_cap", answer(socket_circuit=builders.socket_circuit(other_sets=(other,))))
    assert [(r.code, r.new_value) for r in shared.remedies] == [("lower_set_limit", 500.0)]


def test_an_open_rule_is_for_the_operator_to_settle() -> None:
    finding = one("plug", answer(site=builders.site(rule_area="PT")))
    assert [(r.code, r.who, str(r.verdict_then)) for r in finding.remedies] == [("ask_operator", "operator", "fits")]


def test_a_wired_connection_is_told_where_only_that_is_admitted() -> None:
    circuit = builders.socket_circuit()
    finding = one("plug", answer(site=builders.site(rule_area="GB"), socket_circuit=circuit))
    assert [(r.code, r.pointer, r.new_value) for r in finding.remedies] == [
        ("fixed_connection", "/socket_circuit/plug", "fixed")
    ]


def test_the_seller_is_asked_for_each_missing_rating_once() -> None:
    finding = one("short_circuit_current", answer(
        assumed("/arrays/0/panel/short_circuit_current_a", 14.1, 13.0, 14.2), **inputs(max_short_circuit_current_a=None)
    ))  # fmt: skip
    assert [r.facts["rating"] for r in finding.remedies] == ["short_circuit_current_a", "max_short_circuit_current_a"]


def test_pointers_reach_into_the_request() -> None:
    for changes in SEVERAL:
        setup = builders.setup(**changes)
        compatibility = answer(**changes)
        for pointer in (*compatibility.not_looked_at, *(f.about for f in compatibility.findings)):
            value_at(setup, pointer)


def test_panels_above_a_cap_are_mended_by_weaker_ones_or_fewer() -> None:
    # DE as published: 2000 W of panels in all, 960 W where a household plug is used
    strong = builders.panel(rated_power_w=490)
    circuit = builders.socket_circuit(plug="household")
    pair = (builders.array(panel=strong), builders.array(input=2, panel=strong))
    finding = one("panel_cap", answer(arrays=pair, socket_circuit=circuit))
    assert (finding.verdict, finding.measured) == ("does_not_fit", 980)
    told = {r.code: (r.pointer, r.new_value, r.verdict_then) for r in finding.remedies}
    assert told["weaker_panels"] == (None, 480, "fits")
    assert told["fewer_panels"] == (None, 1, "fits")
    assert "special_connector" in told


def test_fewer_panels_of_one_array_is_a_change_that_can_be_sent_again() -> None:
    three = (builders.array(count=3, joined="parallel", panel=builders.panel(rated_power_w=800)),)
    circuit = builders.socket_circuit(plug="fixed")
    finding = one("panel_cap", answer(arrays=three, socket_circuit=circuit))
    remedy = next(r for r in finding.remedies if r.code == "fewer_panels")
    assert (remedy.pointer, remedy.new_value, remedy.verdict_then) == ("/arrays/0/count", 2, "fits")
    setup = replaced_at(builders.setup(arrays=three, socket_circuit=circuit), remedy.pointer, remedy.new_value)
    assert one("panel_cap", answer(arrays=setup.arrays, socket_circuit=circuit)).verdict == "fits"


def test_a_set_that_would_have_to_lose_most_of_its_panels_has_no_such_remedy() -> None:
    twelve = (builders.array(count=12, joined="parallel", panel=builders.panel(rated_power_w=410)),)
    finding = one("panel_cap", answer(arrays=twelve, socket_circuit=builders.socket_circuit(plug="fixed")))
    assert finding.verdict == "does_not_fit"
    assert not {r.code for r in finding.remedies} & {"weaker_panels", "fewer_panels"}


@pytest.mark.parametrize(
    ("published", "codes"),
    [("fixed_wiring_only", ["fixed_connection"]), ("special_connector", ["special_connector", "fixed_connection"])],
)
def test_a_refused_plug_that_nobody_described_has_its_remedy_in_the_finding(published: str, codes: list[str]) -> None:
    card = replace(card_for(cards_of("GB"), AS_OF), plug=published)
    setup = builders.setup(site=builders.site(rule_area="GB"))
    compatibility = check(setup, Assumptions({}), (60,) * len(setup.arrays), card, AS_OF)
    plug = one("plug", compatibility)
    assert plug.verdict == "does_not_fit"
    assert [(r.code, r.pointer, r.who, str(r.verdict_then)) for r in plug.remedies] == [
        (code, None, "electrician", "fits") for code in codes
    ]


@pytest.mark.parametrize("changes", SEVERAL)
def test_without_remedies_the_verdicts_are_the_same(changes) -> None:
    mended = answer(**changes)
    setup = builders.setup(**changes)
    card = card_for(cards_of(setup.site.rule_area), AS_OF)
    bare = check(setup, Assumptions.of(()), (60,) * len(setup.arrays), card, AS_OF, mending=False)
    assert (bare.verdict, bare.by_part) == (mended.verdict, mended.by_part)
    assert [(f.code, f.verdict) for f in bare.findings] == [(f.code, f.verdict) for f in mended.findings]
    assert not any(f.remedies for f in bare.findings)


@pytest.mark.parametrize("changes", SEVERAL)
@pytest.mark.parametrize("inverter", [{"set_limit_w": 300.0}, {"inputs": (builders.one_input(max_current_a=3.0),) * 2}])
def test_a_set_like_one_that_was_checked_is_told_the_same_as_alone(changes, inverter) -> None:
    first = builders.setup(**changes)
    then = replace(first, inverter=replace(first.inverter, **inverter))
    card, cells = card_for(cards_of(first.site.rule_area), AS_OF), (60.0,) * len(first.arrays)
    guessed = assumed("/arrays/0/panel/open_circuit_voltage_v", 39.4, 37.0, 61.0)
    known = Assumptions.of(())
    like = Checked(setup=first, assumptions=known, found=check(first, known, cells, card, AS_OF))
    for now in (known, Assumptions.of([guessed])):
        assert told(check(then, now, cells, card, AS_OF, like=like)) == told(check(then, now, cells, card, AS_OF))


class Untouched:
    """Stands for a part of a request that nobody may look at."""

    def __getattr__(self, name: str) -> object:
        raise AssertionError(name)


@pytest.mark.parametrize("changes", SEVERAL)
def test_what_is_found_hangs_on_nothing_that_the_key_leaves_out(changes: dict[str, object]) -> None:
    setup = builders.setup(**changes)
    parts = ("downtime_days_per_year", "household", "tariff", "outlay", "money", "storage")
    set_alone = replace(setup, **dict.fromkeys(parts, Untouched()))
    card, cells = card_for(cards_of(setup.site.rule_area), AS_OF), (60.0,) * len(setup.arrays)
    guessed = assumed("/arrays/0/panel/open_circuit_voltage_v", 39.4, 37.0, 61.0)
    elsewhere = assumed("/household/demand_kwh_per_year", 1900, 900, 4000)
    alone = check(set_alone, Assumptions.of([guessed]), cells, card, AS_OF)
    assert told(check(setup, Assumptions.of([guessed, elsewhere]), cells, card, AS_OF)) == told(alone)
    keys = [
        check_key(one, Assumptions.of(known), cells, card, AS_OF)
        for one, known in ((set_alone, [guessed]), (setup, [guessed, elsewhere]))
    ]
    assert keys[0] == keys[1]


@pytest.mark.parametrize(
    "changes",
    [
        {"site": builders.site(coldest_air_c=-40)},
        {"site": builders.site(rule_area="AT")},
        {"arrays": (builders.array(count=2),)},
        {"inverter": builders.inverter(set_limit_w=300.0)},
        {"inverter": builders.inverter(grid_voltage_v=120.0)},
        {"socket_circuit": builders.socket_circuit(breaker_a=10)},
        {"meter": replace(builders.setup().meter, counts="one_way")},
        {"assumptions": [assumed("/arrays/0/panel/open_circuit_voltage_v", 39.4, 37.0, 61.0)]},
        {"assumptions": [assumed("/arrays/0/panel/open_circuit_voltage_v", 39.4, 37.0, 39.5)]},
        {"assumptions": [assumed("/inverter/inputs/0/max_input_voltage_v", 60)]},
        {"assumptions": [assumed("/socket_circuit/dedicated", False)]},
        {"assumptions": [assumed("/meter/counts", "two_way")]},
        {"assumptions": [assumed("/site/coldest_air_c", -14, -30, -10)]},
        {"hottest_cell_c": 85.0},
        {"cool_cell_c": 5.0},
        {"card": replace(card_for(cards_of("DE"), AS_OF), ac_cap_w=300.0)},
        {"as_of": AS_OF.replace(year=AS_OF.year + 3)},
    ],
)
def test_whatever_moves_what_is_found_moves_the_key(changes: dict[str, Any]) -> None:
    def asked(**given: Any) -> tuple[Hashable, Any]:
        parts = {name: one for name, one in given.items() if name in {f.name for f in fields(Setup)}}
        narrow = builders.inverter(inputs=(builders.one_input(tracking_max_v=35.0),) * 2)
        setup = builders.setup(**{"socket_circuit": builders.socket_circuit(), "inverter": narrow, **parts})
        arguments = (
            setup,
            Assumptions.of(given.get("assumptions", ())),
            (given.get("hottest_cell_c", 60.0),) * len(setup.arrays),
            given.get("card", card_for(cards_of(setup.site.rule_area), AS_OF)),
            given.get("as_of", AS_OF),
        )
        cool_c = (given.get("cool_cell_c", 25.0),) * len(setup.arrays)
        return check_key(*arguments, cool_c), told(check(*arguments, cool_cell_c=cool_c))

    (key, found), (key_then, found_then) = asked(), asked(**changes)
    assert found_then != found, "the change is one that is told"
    assert key_then != key
    assert asked()[0] == key
