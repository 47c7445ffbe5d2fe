"""What is said of a cap's watts beside the verdict: a setting, volt-amperes, a figure of practice, a whole building."""

from dataclasses import replace
from typing import Any

from service.api.schemas.finding import FindingOut
from service.core.compatibility import check
from service.core.model.assumption import Assumptions
from service.core.rules import AdvisoryCap, RuleCard, card_for
from service.data.local_rules import cards_of
from tests import builders
from tests.core.compatibility.ask import AS_OF


def said(card: RuleCard, power: float = 800, limit: float = 800, **changes: Any) -> FindingOut:
    inverter = builders.inverter(ac_power_w=power, set_limit_w=limit)
    setup = builders.setup(inverter=inverter, **changes)
    found = check(setup, Assumptions({}), (60.0,) * len(setup.arrays), card, AS_OF)
    return FindingOut.of(next(one for one in found.findings if one.code == "local_cap"), 0)


def card_of(area: str) -> RuleCard:
    return card_for(cards_of(area), AS_OF)


def test_a_setting_below_the_plate_is_told_with_the_plate() -> None:
    assert "The plate says 1200 W" in said(card_of("DE"), power=1200).text
    assert "plate says" not in said(card_of("DE")).text


def test_volt_amperes_are_told_where_the_card_counts_them() -> None:
    assert "volt-amperes" in said(card_of("DE")).text
    assert "volt-amperes" not in said(card_of("US-UT")).text


def test_a_figure_of_practice_is_told_as_no_rule() -> None:
    text = said(card_of("FR")).text
    assert "no rule: 900 W, counted per circuit" in text
    assert "no rule" not in said(card_of("DE")).text
    own = replace(card_of("DE"), advisory_cap=AdvisoryCap(w=500, scope="meter", basis="a guide"))
    assert "500 W, counted per meter (a guide)" in said(own).text


def test_a_cap_of_the_building_is_a_question_for_the_operator_that_settles_it() -> None:
    whole = said(replace(card_of("DE"), ac_cap_scope="building"), socket_circuit=None)
    assert (whole.verdict, whole.likely) == ("not_known", "fits")
    assert "whole building" in whole.text
    assert [(one.code, one.who, one.verdict_then) for one in whole.remedies] == [("ask_operator", "operator", "fits")]
