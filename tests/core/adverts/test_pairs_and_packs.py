"""Pairs and packs of panels multiply; a parcel that holds panels is no postage; pairs of other things do not."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
# Pieces; what one costs.
EQUAL = (
    (8, 40, "4 pairs of 300 W panels, £80 a pair."),
    (12, 40, "3 packs of 4 panels 300 W, £160 per pack."),
    (8, 40, "4 Paare 300-W-Module, das Paar 80 Euro."),
    (12, 40, "3 Pakete zu je 4 Modulen 300 W, 160 Euro das Paket."),
    (12, 40, "3 Stapel zu 4 Modulen, Stapel 160 Euro"),
    (8, 40, "4 paren zonnepanelen 300 W, 80 euro per paar."),
    (8, 40, "4 paires de panneaux 300 W, 80 € la paire."),
    (8, 40, "4 pares de placas 300 W, 80 € el par."),
    (8, 40, "4 coppie di pannelli 300 W, 80 € la coppia."),
    (8, 150, "4 pary paneli 300 W, 300 zł za parę."),
    (8, 40, "4 pares de painéis 300 W, 80 € o par."),
    (8, 1000, "4 páry panelů 300 W, 2000 Kč za pár."),
    (8, 400, "4 par paneler 300 W, 800 kr. parret."),
)
OTHERS = (
    (4, "4 panels 300 W, sent in 2 parcels, £40 each."),
    (4, "4 Module 300 W, 2 Pakete Schrauben dabei, 160 Euro zusammen."),
    (8, "8 Module 300 W, 2 Paar Module haben Kratzer, 40 Euro pro Stück"),
    (6, "6 panelen 300 W, 2 paar stekkers erbij, 40 euro per stuk"),
    (6, "6 panneaux 300 W, 2 paires de connecteurs, 40 € pièce"),
    (6, "6 panneaux 300 W, 2 par panneau de connecteurs, 40 € pièce"),
)


@pytest.mark.parametrize(("pieces", "each", "text"), EQUAL)
def test_equal_parts_multiply_and_have_their_price(pieces, each, text):
    reading = read_advert(Advert(title="", body=text), WORDS)
    assert (reading.quantity_available, reading.price.each) == (pieces, pytest.approx(each))


def test_a_parcel_of_panels_is_no_postage():
    text = "3 Pakete mit je 4 Modulen, 300 W, 160 Euro das Paket. Abholung"
    reading = read_advert(Advert(title="", body=text), WORDS)
    assert (reading.delivery, reading.shipping_cost) == ("pickup", None)


@pytest.mark.parametrize(("pieces", "text"), OTHERS)
def test_pairs_of_other_things_count_no_panels(pieces, text):
    assert read_advert(Advert(title="", body=text), WORDS).quantity_available == pieces
