"""What may be bid, and when is a set a bargain?"""

from dataclasses import replace

import pytest

from service.core.model.band import Band
from service.core.model.finding import Verdict
from service.core.shortlist import Bought, Offer, Row, beside, bids_of, bound_by, bounded, most_for
from tests.shortlist_kinds import SHEET, panel_of

PANEL_KIND = panel_of(SHEET)

NEW = Row(
    outlay=420.0, year_kwh=Band(560, 640, 700), payback_years=Band(4.0, 3.3, 2.8), value=Band(300, 480, 660),
    cautious_gains=(105.0,), verdict=Verdict.FITS, likely=Verdict.FITS,
)  # fmt: skip
USED = replace(NEW, outlay=240.0, payback_years=Band(2.5, 2.1, 1.8), value=Band(490, 610, 780), cautious_gains=(96.0,))


def test_the_bid_is_what_the_set_is_worth_less_all_else_at_the_price_asked() -> None:
    panels = Bought(Offer(advert="a7", panel=PANEL_KIND, each=45.0), 2)
    inverter = Bought(Offer(advert="a9", each=95.0, second_hand=False))
    bids = {one.advert: one for one in bids_of([panels, inverter], worth_up_to=400.0, outlay=200.0)}
    assert (bids["a7"].asked, bids["a7"].bid_up_to) == (90.0, 290.0)
    assert bids["a9"].bid_up_to == 295.0
    assert bids_of([panels], worth_up_to=50.0, outlay=200.0)[0].bid_up_to == 0.0


def test_no_bid_is_above_the_price_of_the_whole_new_set_nor_below_nought() -> None:
    four = Bought(Offer(advert="a7", panel=PANEL_KIND, lot=130.0, pieces=4), 4)
    inverter = Bought(Offer(advert="a9", each=120.0, second_hand=False))
    assert [one.bid_up_to for one in bids_of([four, inverter], 900.0, 300.0)] == [730.0, 720.0]
    assert [one.bid_up_to for one in bids_of([four, inverter], 900.0, 300.0, ceiling=420.0)] == [420.0, 420.0]
    assert bounded(-3.0, 420.0) == 0.0
    assert bounded(100.0, 420.0) == bounded(100.0, None) == 100.0


def test_panels_that_are_bought_again_when_faulty_bear_less() -> None:
    panels = Bought(Offer(advert="a7", panel=PANEL_KIND, each=45.0), 2)
    [sound], [risky] = (bids_of([panels], 400.0, 200.0, share) for share in (0.0, 0.25))
    assert risky.bid_up_to - 90.0 == pytest.approx((sound.bid_up_to - 90.0) / 1.25)


def test_a_set_that_is_cautiously_better_than_the_new_one_in_the_middle_is_a_bargain() -> None:
    found = beside(USED, NEW, "quick_payback", ())
    assert (found.code, found.outlay_less) == ("bargain", 180.0)
    assert found.payback_years_sooner == pytest.approx(1.2)
    assert found.paid_at_most == pytest.approx(4.0 * 96.0)
    assert beside(USED, NEW, "most_value", ()).paid_at_most == pytest.approx(240.0 + 130.0)
    assert beside(replace(USED, year_kwh=Band(280, 320, 350)), NEW, "least_outlay_per_kwh", ()).paid_at_most == 210.0


@pytest.mark.parametrize(
    ("row", "doubts"),
    [
        (replace(USED, payback_years=Band(3.5, 2.9, 2.4)), ()),  # better, but not surely
        (replace(USED, likely=Verdict.DOES_NOT_FIT), ()),
        (USED, ("advance_payment",)),
        (USED, ("too_cheap",)),
    ],
)
def test_what_may_not_fit_or_smells_of_a_trick_is_no_bargain(row: Row, doubts: tuple[str, ...]) -> None:
    assert beside(row, NEW, "quick_payback", doubts).code == "better_than_new"


def test_a_new_set_that_does_not_fit_itself_is_no_measure() -> None:
    for wish in ("quick_payback", "most_value", "least_outlay_per_kwh"):
        against = beside(USED, replace(NEW, verdict=Verdict.DOES_NOT_FIT, likely=Verdict.DOES_NOT_FIT), wish, ())
        assert (against.code, against.paid_at_most) == ("new_does_not_fit", None)
        assert most_for(900.0, against) == 900.0
        assert bound_by(900.0, 800.0, against, None) == "new_does_not_fit"
    open_ = replace(NEW, verdict=Verdict.NOT_KNOWN, likely=Verdict.DOES_NOT_FIT)
    against = beside(USED, open_, "quick_payback", ())
    assert (against.code, against.paid_at_most) == ("new_may_not_fit", pytest.approx(4.0 * 96.0))
    assert beside(USED, open_, "quick_payback", (), new_untold=True).code == "bargain"
    assert beside(USED, NEW, "quick_payback", (), one_currency=False).code == "new_currency_not_known"
    dear = replace(USED, outlay=600.0, payback_years=Band(6, 5, 4), value=Band(100, 250, 400))
    assert beside(dear, open_, "quick_payback", (), one_currency=False).code == "no_better_than_new"


def test_a_set_that_does_worse_by_what_is_wanted_is_no_better() -> None:
    dear = replace(USED, outlay=600.0, payback_years=Band(6, 5, 4), value=Band(100, 250, 400))
    for wish in ("quick_payback", "most_value", "least_outlay_per_kwh"):
        assert beside(dear, NEW, wish, ()).code == "no_better_than_new"


def test_no_bid_makes_a_set_dearer_than_what_makes_it_as_good_as_the_new_one() -> None:
    against = beside(USED, NEW, "most_value", ())
    assert against.paid_at_most is not None
    assert most_for(9000.0, against) == against.paid_at_most
    assert most_for(1.0, against) == 1.0
    assert most_for(9000.0, None) == 9000.0


def test_gains_that_change_are_added_up_and_a_new_set_that_never_pays_sets_no_bound() -> None:
    falling = replace(USED, cautious_gains=(100.0, 80.0, 20.0))
    assert beside(falling, NEW, "quick_payback", ()).paid_at_most == 100 + 80 + 20 + 20
    assert beside(falling, replace(NEW, payback_years=Band(2.25, 2, 1)), "quick_payback", ()).paid_at_most == 185.0
    assert beside(USED, replace(NEW, payback_years=Band(None, 9, 5)), "quick_payback", ()).paid_at_most is None
    assert beside(replace(USED, cautious_gains=(-5.0,)), NEW, "quick_payback", ()).paid_at_most == 0.0
