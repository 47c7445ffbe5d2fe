"""Beside the other adverts of a request shows a price far under theirs, and the same advert again."""

from service.core.adverts import Advert, read_advert, read_board, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
PLACES = ("Ely", "Wick", "Diss", "Hythe", "Settle", "Alston", "Bude")


def board(*prices):
    text = "Four used solar panels, 400 W, £{} each, collection from {} only, bring a van."
    return [Advert(title="", body=text.format(*one)) for one in zip(prices, PLACES, strict=False)]


def doubts(adverts):
    return [set(reading.doubts) for reading in read_board(adverts, WORDS)]


def test_a_price_far_under_the_others_is_doubted_and_only_that():
    found = doubts(board(40, 42, 38, 45, 39, 12))
    assert ["far_under_others" in one for one in found] == [False] * 5 + [True]


def test_a_fair_bargain_is_not_doubted():
    assert not any("far_under_others" in one for one in doubts(board(40, 42, 38, 45, 39, 25)))


def test_few_adverts_are_no_market():
    assert not any("far_under_others" in one for one in doubts(board(40, 42, 12)))


def test_broken_panels_may_be_cheap():
    cheap = Advert(title="", body="One solar panel, 400 W, cracked glass, £5, collection from Ely only, bring a van.")
    assert "far_under_others" not in doubts([*board(40, 42, 38, 45, 39), cheap])[-1]


def test_the_same_words_again_are_doubted_whatever_the_blanks_and_capitals():
    first, other = board(40, 42)
    again = Advert(title="Another title", body=first.body.upper().replace(" ", "  "))
    found = doubts([first, other, again])
    assert ["same_advert_again" in one for one in found] == [False, False, True]


def test_alone_an_advert_is_read_the_same():
    for advert in board(40, 42, 38):
        assert read_board([advert], WORDS) == [read_advert(advert, WORDS)]
