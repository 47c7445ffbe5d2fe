"""Which panels, how sure, and what is read next."""

import pytest

from service.core.identity import ISC, VOC, PanelFacts, identify, read_next, typical_rows
from tests.panel_lists import invented_list

LABEL = frozenset({VOC, ISC})


def answered(**facts):
    read = facts.pop("read", frozenset())
    return identify(PanelFacts(**facts), invented_list(), read)


def test_shares_leave_room_for_panels_that_nobody_listed():
    found = answered(rated_power_w=330)
    assert 0.9 < sum(share for _, share in found.candidates) < 1
    assert found.candidates[0][1] == max(share for _, share in found.candidates)


def test_a_given_rating_stands_as_given():
    reach = answered(rated_power_w=330, open_circuit_voltage_v=40.9).ranges[VOC]
    assert (reach.low, reach.likely, reach.high, reach.source) == (40.9, 40.9, 40.9, "given")


def test_a_code_is_believed_for_the_most_part_and_no_further():
    coded, share = answered(rated_power_w=330, model_code="HL-330-60").candidates[0]
    assert coded.by_code
    assert 0.5 < share < 0.95


def test_a_label_comes_first_and_what_it_does_not_say_reaches_over_all_that_agree():
    found = answered(rated_power_w=330, open_circuit_voltage_v=40.9, short_circuit_current_a=10.2, read=LABEL)
    label, others = found.candidates[0][0], [one for one, _ in found.candidates[1:]]
    assert label.found_in == "label"
    assert label.ranges[VOC].source == "label"
    for one in others:
        for name, reach in one.ranges.items():
            assert label.ranges[name].low <= reach.low <= reach.high <= label.ranges[name].high


def test_where_nothing_agrees_a_wide_range_for_any_panel_is_told():
    [(only, _)] = answered(rated_power_w=330, cells_in_series=50).candidates
    assert (only.found_in, only.cell) == ("class", "")


def test_without_power_or_code_there_is_no_candidate_and_the_power_is_asked_for():
    facts = PanelFacts(cells_visible=60)
    found = identify(facts, invented_list())
    assert found.candidates == ()
    assert [one.what for one in read_next(facts, found)] == ["rated_power_w"]


def test_what_narrows_most_is_asked_first_and_what_is_known_is_not_asked():
    facts = PanelFacts(rated_power_w=330, open_circuit_voltage_v=40.9)
    asked = read_next(facts, identify(facts, invented_list()), frozenset({"max_series_fuse_a"}))
    gains = [one.narrows_share for one in asked]
    assert gains == sorted(gains, reverse=True)
    assert not {"open_circuit_voltage_v", "max_series_fuse_a"} & {one.what for one in asked}
    assert asked[0].what == ISC


@pytest.mark.parametrize("what", [VOC, ISC])
def test_the_rating_itself_is_asked_before_counting_of_an_old_panel(what):
    facts = PanelFacts(rated_power_w=330, cells_visible=60)
    assert what in [one.what for one in read_next(facts, identify(facts, invented_list()))][:2]


def test_small_neighbourhoods_keep_their_rows_and_misprints_lose_theirs():
    table = invented_list()
    assert typical_rows(table)[30:].all()  # ten rows: nothing tells there what is usual
    misprinted = table.open_circuit_voltage_v.copy()
    misprinted[0] = 4.05
    assert not typical_rows(type(table)(**{**{n: getattr(table, n) for n in table.__slots__},
                                          "open_circuit_voltage_v": misprinted}))[0]  # fmt: skip
