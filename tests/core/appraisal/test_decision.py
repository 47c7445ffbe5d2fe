"""One decision out of the account, the findings and what is not known."""

from dataclasses import replace

import pytest

from service.api.words.english.decisions import TEXTS
from service.core.appraisal import Choice, decide
from service.core.appraisal.open_facts import needed_share
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.finding import Part
from tests import builders
from tests.findings import LOSS, OPEN, REFUSED, account, compatibility, finding, remedy
from tests.requests import asked, with_array

NOTHING_ASSUMED = Assumptions({})
SETUP = builders.setup()
# Three per cent over fifteen years: a saving of 100 is worth 1193.79 today (annuity factor 11.93794).
ANNUITY = 11.93794


def decided(worth, *findings, setup=SETUP, assumptions=NOTHING_ASSUMED, year_kwh=None):
    return decide(setup, assumptions, compatibility(*findings), worth, year_kwh)


def codes(decision):
    return [reason.code for reason in decision.because], [condition.code for condition in decision.conditions]


def test_paid_back_even_with_bad_luck_and_all_fits_is_worth_it():
    decision = decided(account(344))
    assert decision.verdict == Choice.WORTH_IT
    assert decision.conditions == ()
    assert decision.worth_up_to == pytest.approx(100 * ANNUITY, abs=0.01)
    assert codes(decision)[0] == ["paid_back", "panel_side.fits", "local_rule.fits"]


def test_a_loss_of_energy_on_the_panel_side_does_not_stand_in_the_way():
    assert decided(account(344), finding("hot_voltage", Part.PANEL_SIDE, LOSS)).verdict == Choice.WORTH_IT


def test_an_open_question_on_any_side_that_was_described_stands_in_the_way():
    for part in (Part.LOCAL_RULE, Part.PANEL_SIDE, Part.SOCKET_SIDE):
        assert decided(account(344), finding("x", part, OPEN)).verdict == Choice.WORTH_IT_IF


def test_not_paid_back_in_the_middle_is_not_worth_it():
    decision = decided(account(1300))
    assert decision.verdict == Choice.NOT_WORTH_IT
    assert codes(decision)[0][0] == "not_paid_back"
    assert decision.conditions == ()


def test_paid_back_in_the_middle_but_not_with_bad_luck_hangs_on_the_price():
    decision = decided(account(1000))
    assert decision.verdict == Choice.WORTH_IT_IF
    [condition] = [c for c in decision.conditions if c.code == "pay_at_most"]
    assert condition.who == "you"
    assert condition.facts["amount"] == 950  # 80 x 11.93794 = 955.0, in two digits, cut


def test_a_short_stay_is_a_condition_of_its_own():
    setup = builders.setup(household=builders.household(stay_years=6))
    decision = decided(account(500, kept=6), setup=setup)  # 80 a year over six years bring back 433
    assert decision.verdict == Choice.WORTH_IT_IF
    assert {"pay_at_most", "stay_longer"} <= set(codes(decision)[1])


def test_a_refusal_without_a_remedy_is_not_worth_it_however_well_it_pays():
    decision = decided(account(100), finding("panel_cap", Part.LOCAL_RULE, REFUSED))
    assert decision.verdict == Choice.NOT_WORTH_IT
    assert codes(decision)[0] == ["refused", "panel_side.fits"]


def test_a_remedy_that_leaves_the_refusal_mends_nothing():
    useless = remedy("ask_seller", verdict_then=REFUSED)
    decision = decided(account(100), finding("cold_voltage", Part.PANEL_SIDE, REFUSED, remedies=(useless,)))
    assert decision.verdict == Choice.NOT_WORTH_IT


def test_a_refusal_with_a_remedy_is_worth_it_if_it_is_mended():
    mend = remedy("smaller_breaker", "/socket_circuit/breaker_a", 13.0, unit="A")
    decision = decided(account(344), finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=(mend,)))
    assert decision.verdict == Choice.WORTH_IT_IF
    condition = decision.conditions[0]
    assert (condition.code, condition.pointer, condition.who) == (
        "smaller_breaker", "/socket_circuit/breaker_a", "electrician",
    )  # fmt: skip
    assert condition.facts["new_value"] == 13.0


def test_the_same_remedy_of_several_findings_is_one_condition_and_open_questions_are_gathered():
    mend = remedy("lower_set_limit", "/inverter/set_limit_w", 600.0, who="you")
    decision = decided(
        account(344),
        finding("local_cap", Part.LOCAL_RULE, REFUSED, remedies=(mend,)),
        finding("circuit_cable", Part.SOCKET_SIDE, REFUSED, remedies=(mend,)),
        finding("cold_voltage", Part.PANEL_SIDE, OPEN, about="/arrays/0"),
        finding("short_circuit_current", Part.PANEL_SIDE, OPEN, about="/inverter/inputs/0"),
    )
    assert codes(decision)[1] == ["lower_set_limit", "ask_seller", "get_consent"]
    assert decision.conditions[1].facts["findings"] == "cold_voltage, short_circuit_current"
    assert decision.conditions[1].who == "seller"
    assert decision.conditions[2].who == "landlord"


@pytest.mark.parametrize(("published", "code"), [("fixed_wiring_only", "fixed_connection"),
                                                 ("special_connector", "special_connector")])  # fmt: skip
def test_a_plug_that_nobody_described_can_be_another_one(published, code):
    facts = {"plug_described": False, "published_plug": published}
    decision = decided(account(344), finding("plug", Part.LOCAL_RULE, REFUSED, facts=facts, about="/socket_circuit"))
    assert decision.verdict == Choice.WORTH_IT_IF
    assert code in codes(decision)[1]
    described = {**facts, "plug_described": True}
    assert decided(account(344), finding("plug", Part.LOCAL_RULE, REFUSED, facts=described)).verdict == "not_worth_it"


def test_without_an_outlay_the_most_that_may_be_paid_is_the_answer():
    decision = decided(account(None))
    assert decision.verdict == Choice.WORTH_IT_IF
    assert decision.conditions[0].code == "pay_at_most"
    assert decision.conditions[0].facts["amount"] == 1100  # 1193.8, in two digits, cut
    assert decided(account(None, (0.0, 0.0, 0.0))).verdict == Choice.NOT_WORTH_IT


def test_without_a_price_per_kwh_it_cannot_be_told():
    decision = decided(None)
    assert decision.verdict == Choice.CANNOT_TELL
    assert codes(decision) == (["no_price_known", "panel_side.fits", "local_rule.fits"], ["tell_price"])


def test_what_only_its_sale_pays_back_is_said_to_be():
    sold = replace(account(344), paid_by_selling=True)
    assert decided(sold).verdict == Choice.WORTH_IT
    assert codes(decided(sold))[0][0] == "paid_back_by_selling"
    in_the_middle = replace(sold, lasting_payback_years=replace(sold.lasting_payback_years, cautious=None))
    assert decided(in_the_middle).verdict == Choice.WORTH_IT_IF
    assert codes(decided(in_the_middle))[0][0] == "paid_back_by_selling_in_the_middle"


def test_a_later_cost_that_undoes_the_payback_makes_it_less_than_sure():
    worth = account(344)
    undone = replace(worth, lasting_payback_years=replace(worth.lasting_payback_years, cautious=None))
    decision = decided(undone)
    assert decision.verdict == Choice.WORTH_IT_IF
    assert codes(decision)[0][0] == "paid_back_but_for_a_later_cost"


@pytest.mark.parametrize(
    ("outlay", "verdict"), [(600, "worth_it"), (1000, "cannot_tell"), (1190, "cannot_tell"), (1300, "not_worth_it")]
)
def test_a_price_from_the_table_that_turns_the_answer_is_asked_for(outlay, verdict):
    pointer = "/tariff/periods/0/import_price_per_kwh"
    price = Assumption(pointer=pointer, value=0.4, code="price_of_area", source="table", low=0.3, high=0.4)
    decision = decided(account(outlay), assumptions=Assumptions.of([price]))
    assert decision.verdict == verdict
    if verdict == "cannot_tell":
        assert codes(decision)[1] == ["tell_price"]
        assert decision.conditions[0].pointer == pointer


def facing(setup):
    """The more to the south, the more energy; upright a little less."""
    plane = setup.arrays[0].plane
    return 500 - abs(plane.azimuth_deg - 180) - (50 if plane.tilt_deg == 90 else 0)


@pytest.mark.parametrize(("outlay", "verdict"), [(600, "worth_it_if"), (1150, "cannot_tell"), (1900, "not_worth_it")])
def test_a_face_that_nobody_told_is_asked_for_only_where_it_turns_the_answer(outlay, verdict):
    completed = asked(with_array(mount="wall"))
    rating = finding("cold_voltage", Part.PANEL_SIDE, OPEN)
    no_price = Assumptions.of(a for a in completed.assumptions.by_pointer.values() if "price" not in a.pointer)
    decision = decided(account(outlay), rating, setup=completed.setup, assumptions=no_price, year_kwh=facing)
    assert decision.verdict == verdict
    if verdict == "cannot_tell":
        assert [c.pointer for c in decision.conditions] == ["/arrays/0/plane/azimuth_deg"]


def test_each_of_the_three_faces_can_be_the_one_that_turns_the_answer():
    completed = asked(with_array(mount="wall"))
    no_price = Assumptions.of(a for a in completed.assumptions.by_pointer.values() if "price" not in a.pointer)
    for outlay, odd_face in ((1150, 90.0), (1150, 270.0)):

        def poor(setup, odd_face=odd_face):
            return 250.0 if setup.arrays[0].plane.azimuth_deg == odd_face else 500.0

        decision = decided(account(outlay), setup=completed.setup, assumptions=no_price, year_kwh=poor)
        assert decision.verdict == Choice.CANNOT_TELL, odd_face

    def rich_at_noon(setup):
        return 600.0 if setup.arrays[0].plane.azimuth_deg == 180.0 else 500.0

    away = replace(completed.setup.arrays[0], plane=replace(completed.setup.arrays[0].plane, azimuth_deg=120.0))
    aside = replace(completed.setup, arrays=(away,))
    decision = decided(account(1300), setup=aside, assumptions=no_price, year_kwh=rich_at_noon)
    assert decision.verdict == Choice.CANNOT_TELL  # 500 do not bring back 1300, 600 bring back 1432


def test_a_mount_that_nobody_told_may_be_upright_and_turned_away():
    completed = asked(with_array())
    no_price = Assumptions.of(a for a in completed.assumptions.by_pointer.values() if "price" not in a.pointer)
    decision = decided(account(1150), setup=completed.setup, assumptions=no_price, year_kwh=facing)
    assert codes(decision)[1] == ["tell_mount"]


def test_a_facade_that_nobody_told_is_turned_with_the_panel_and_asked_for():
    wall = {"side": "left", "distance_m": 0.2, "reaches_out_m": 2}
    around = {"bounds": {"low_azimuth_deg": 0, "high_azimuth_deg": 360}}
    completed = asked(with_array(mount="balcony_floor", side_walls=[wall]) | {"tilt": around})
    no_price = Assumptions.of(a for a in completed.assumptions.by_pointer.values() if "price" not in a.pointer)

    def before_the_facade(setup):
        turned = setup.arrays[0]
        assert turned == completed.setup.arrays[0] or turned.plane.azimuth_deg == turned.facade_azimuth_deg
        return 250.0 if setup.arrays[0].facade_azimuth_deg == 270 else 500.0

    decision = decided(account(1150), setup=completed.setup, assumptions=no_price, year_kwh=before_the_facade)
    assert codes(decision)[1] == ["tell_facade"]
    assert [c.pointer for c in decision.conditions] == ["/arrays/0/facade_azimuth_deg"]


def test_the_energy_is_not_asked_again_where_no_plane_could_turn_the_answer():
    completed = asked(with_array(mount="wall"))

    def never(_):
        raise AssertionError

    decided(account(100), setup=completed.setup, assumptions=completed.assumptions, year_kwh=never)


def test_the_needed_share_is_outlay_over_worth():
    worth = account(600)
    assert needed_share(worth, builders.money()) == pytest.approx(600 / (100 * ANNUITY), rel=1e-5)
    assert needed_share(account(None), builders.money()) is None


def test_what_a_sale_brings_has_not_to_be_saved():
    worth = account(600)
    *before, last = worth.yearly_flows
    sold = replace(worth, yearly_flows=(*before, replace(last, resale=200.0)))
    factor = (1 + builders.money().discount_rate_share) ** -last.year
    assert needed_share(sold, builders.money()) == pytest.approx((600 - 200 * factor) / (100 * ANNUITY), rel=1e-5)


def test_every_verdict_reason_and_condition_has_a_sentence():
    assert {f"verdict.{choice}" for choice in Choice} <= set(TEXTS)
    for code in ("paid_back", "paid_back_in_the_middle", "paid_back_but_for_a_later_cost", "not_paid_back",
                 "no_outlay_given", "no_price_known", "nothing_to_pay_back", "one_fact_turns_it", "refused",
                 "refused_but_mendable", "refused_as_asked", "paid_back_by_selling",
                 "paid_back_by_selling_in_the_middle"):  # fmt: skip
        assert code in TEXTS
    for code in ("pay_at_most", "stay_longer", "accept_the_risk", "get_consent", "ask_seller", "ask_operator",
                 "ask_electrician", "tell_price", "tell_direction", "tell_mount", "tell_facade",
                 "smaller_breaker", "own_circuit",
                 "thicker_or_shorter_lead", "lower_set_limit", "one_panel_per_input", "parallel_not_series",
                 "matched_connectors", "string_fuses", "export_limiter", "special_connector", "fixed_connection",
                 "other_inverter", "other_residual_current_device"):  # fmt: skip
        assert f"condition.{code}" in TEXTS
