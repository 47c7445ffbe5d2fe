"""What may be bid for what is in an advert, and how does a set stand beside the same, new, from a shop?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from service.core.model.band import Band
from service.core.model.finding import Verdict
from service.core.payback import outlay_met_in
from service.core.shortlist.offer import Bought
from service.core.shortlist.told import SUSPICIOUS
from service.core.shortlist.wish import Wish
from service.core.shortlist.wish import told as wanted

NEW_REFUSED = "new_does_not_fit"
_OF_NONE: Mapping[str, float | None] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Bid:
    """The most that an advert's goods are worth in a set, all else at the price asked; ``pieces`` are used of it.

    ``must_take``: so many have to be taken and are paid for, as they are sold only together.

    ``beside_others``: the price at which the set does as well as the best one listed without this advert; None where
    there is none, or where it sets no bound.
    """

    advert: str
    pieces: int
    must_take: int
    asked: float
    bid_up_to: float
    beside_others: float | None = None

    @property
    def left_over(self) -> int:
        """What is paid for and not used."""
        return self.must_take - self.pieces


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A set's figures as they were told; ``cautious_gains`` of its years and ``cautious_more``, as of the account."""

    outlay: float
    year_kwh: Band
    payback_years: Band | None
    value: Band | None
    cautious_gains: tuple[float, ...]
    verdict: Verdict
    likely: Verdict
    cautious_more: float = 0.0

    @property
    def refused(self) -> bool:
        """Does it not fit, by what was told of it?"""
        return self.verdict == Verdict.DOES_NOT_FIT

    @property
    def may_fit(self) -> bool:
        """Does nothing refuse it, neither what was told nor the worst values usual of the rest?"""
        return Verdict.DOES_NOT_FIT not in {self.verdict, self.likely}


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """A set beside the new one: what it costs less, yields more, is paid back sooner and is worth more.

    ``code``: bargain, better_than_new, no_better_than_new, new_does_not_fit; of what else were a bargain
    new_may_not_fit, new_currency_not_known. ``paid_at_most``: for the whole set, so that by what is wanted it does as
    well as the new one; None where the new one sets no such bound.
    """

    code: str
    outlay_less: float
    year_kwh_more: float
    payback_years_sooner: float | None
    value_more: float | None
    paid_at_most: float | None


def bids_of(
    bought: Sequence[Bought],
    worth_up_to: float,
    outlay: float,
    faulty_share: float = 0.0,
    ceiling: float | None = None,
    beside_others: Mapping[str, float | None] = _OF_NONE,
) -> list[Bid]:
    """The bid for each advert of a set.

    Args:
        bought: all that the set is made of.
        worth_up_to: the most that may be paid for the whole set (``most_for``).
        outlay: what is paid for it at the prices asked.
        faulty_share: of second-hand panels; what is paid for them is paid so much more often.
        ceiling: price of the whole new set, for which nobody has to bid; None: not known.
        beside_others: of adverts, the outlay at which the set does as well as the best one listed without them.

    Never below nought: then nothing is to be bid.
    """
    bids = []
    for one in bought:
        if one.offer.advert is not None:
            again = 1.0 + (faulty_share if one.offer.panel is not None and one.offer.second_hand else 0.0)
            others = beside_others.get(one.offer.advert)
            bid = bounded(one.goods + (worth_up_to - outlay) / again, ceiling)
            bids.append(
                Bid(
                    advert=one.offer.advert, pieces=one.pieces, must_take=one.offer.must_take(one.pieces),
                    asked=one.goods, bid_up_to=bid,
                    beside_others=None if others is None else min(max(one.goods + (others - outlay) / again, 0.0), bid),
                )
            )  # fmt: skip
    return bids


def bounded(bid: float, ceiling: float | None) -> float:
    """A bid that is neither below nought nor above the price of the whole new set."""
    return max(bid if ceiling is None else min(bid, ceiling), 0.0)


def most_for(worth_up_to: float, against: Beside | None) -> float:
    """The most that may be paid for a whole set: what it is worth, and no more than makes it as good as the new one."""
    if against is None or against.paid_at_most is None:
        return worth_up_to
    return min(worth_up_to, against.paid_at_most)


def bound_by(worth_up_to: float, goods_up_to: float, against: Beside | None, ceiling: float | None) -> str:
    """What holds a bid: ``no_new_price``, ``new_does_not_fit``, ``price_of_new``, ``as_good_as_new``, ``worth_here``.

    Args:
        worth_up_to: the most that the whole set is worth here.
        goods_up_to: the bid for all its goods.
        against: the set beside the new one; None where none was named.
        ceiling: as of ``bids_of``.
    """
    if against is not None and against.code == NEW_REFUSED:
        return NEW_REFUSED
    if against is None or ceiling is None:
        return "no_new_price"
    if goods_up_to >= ceiling:
        return "price_of_new"
    as_good = against.paid_at_most is not None and against.paid_at_most < worth_up_to
    return "as_good_as_new" if as_good else "worth_here"


def as_good_at(row: Row, other: Row, wish: Wish) -> float | None:
    """The outlay at which a set does as well as another one by what is wanted; None where that sets no bound."""
    if wish == "quick_payback":
        years = None if other.payback_years is None else other.payback_years.cautious
        if years is None or not row.cautious_gains:
            return None
        return max(outlay_met_in(years, np.array(row.cautious_gains)) - row.cautious_more, 0.0)
    if wish == "most_value":
        more = _less(row.value, other.value)
        return None if more is None else max(row.outlay + more, 0.0)
    return other.outlay / other.year_kwh.middle * (row.year_kwh.middle or 0.0) if other.year_kwh.middle else None


def beside(
    row: Row, new: Row, wish: Wish, doubts: Sequence[str], *, one_currency: bool = True, new_untold: bool = False
) -> Beside:
    """A set beside the new one by what is wanted.

    A bargain is better in its cautious case than the new set in its middle one, is not refused and likely fits, and
    nothing in its adverts smells of a trick. A new set that does not fit itself is no measure, nor one that likely does
    not; one of which too little was told is.

    Args:
        row: of the set.
        new: of the new one.
        wish: what is wanted.
        doubts: about the adverts of the set.
        one_currency: is the price of the new one in that of the account, as far as anybody can know?
        new_untold: does nothing speak against the fit of the new one but what was not told of it?
    """
    mine = wanted(wish, row.outlay, row.year_kwh, row.payback_years, row.value)
    theirs = wanted(wish, new.outlay, new.year_kwh, new.payback_years, new.value)
    careful = _cautiously(row, wish)
    usual = _in_the_middle(new, wish)
    sound = row.may_fit and not SUSPICIOUS & set(doubts)
    if new.refused:
        code = NEW_REFUSED
    elif sound and mine < theirs and careful is not None and usual is not None and careful < usual:
        code = _no_bargain_for(new, one_currency=one_currency, new_untold=new_untold) or "bargain"
    else:
        code = "better_than_new" if mine < theirs else "no_better_than_new"
    return Beside(
        code=code,
        outlay_less=new.outlay - row.outlay,
        year_kwh_more=(row.year_kwh.middle or 0.0) - (new.year_kwh.middle or 0.0),
        payback_years_sooner=_less(new.payback_years, row.payback_years),
        value_more=_less(row.value, new.value),
        paid_at_most=None if new.refused else as_good_at(row, new, wish),
    )


def _no_bargain_for(new: Row, *, one_currency: bool, new_untold: bool) -> str | None:
    """Why the new set is no measure for what else were a bargain; None where it is one."""
    if not new.may_fit and not new_untold:
        return "new_may_not_fit"
    return None if one_currency else "new_currency_not_known"


def _cautiously(row: Row, wish: Wish) -> float | None:
    """What is wanted, in the cautious case; the less the better."""
    if wish == "quick_payback":
        return None if row.payback_years is None else row.payback_years.cautious
    if wish == "most_value":
        return None if row.value is None or row.value.cautious is None else -row.value.cautious
    return row.outlay / row.year_kwh.cautious if row.year_kwh.cautious else None


def _in_the_middle(row: Row, wish: Wish) -> float | None:
    if wish == "quick_payback":
        return None if row.payback_years is None else row.payback_years.middle
    if wish == "most_value":
        return None if row.value is None or row.value.middle is None else -row.value.middle
    return row.outlay / row.year_kwh.middle if row.year_kwh.middle else None


def _less(one: Band | None, other: Band | None) -> float | None:
    if one is None or other is None or one.middle is None or other.middle is None:
        return None
    return one.middle - other.middle
