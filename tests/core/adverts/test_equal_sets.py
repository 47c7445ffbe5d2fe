"""Panels that go in equal sets: how many pieces, and does an amount buy one set or all of them?"""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body", "pieces", "each"),
    [
        ("Solar panels 310 W", "Sold in packs of 3, £75 a pack. I have 4 packs.", 12, 25.0),
        ("Solarmodule 310 W", "Abgabe im 3er-Set zu 75 € das Set. 4 Sets vorhanden.", 12, 25.0),
        ("Zonnepanelen 310 Wp", "Gaan per set van 3, 75 euro per set. Er zijn 4 sets.", 12, 25.0),
        ("Panneaux 310 W", "Vendus en lot de 3, 75 € le lot. Il reste 4 lots.", 12, 25.0),
        ("Placas 310 W", "Se venden en lotes de 3, 75 € cada lote. Hay 4 lotes.", 12, 25.0),
        ("Pannelli 310 W", "In lotti da 3, 75 € a lotto, ne ho 4 lotti.", 12, 25.0),
        ("Panele 310 W", "Zestawy po 3 panele, 330 zł za zestaw, mam 4 zestawy.", 12, 110.0),
        ("Painéis 310 W", "Em lotes de 3, 75 € por lote. Tenho 4 lotes.", 12, 25.0),
        ("Panely 310 W", "V sadách po 3, 1800 Kč za sadu. Mám 4 sady.", 12, 600.0),
        ("Solpaneler 310 W", "Sælges i sæt à 3, 600 kr. pr. sæt. 4 sæt tilbage.", 12, 200.0),
    ],
)
def test_a_size_and_a_number_of_sets_told_apart_make_the_pieces(title, body, pieces, each):
    read = reading_of(body, title)
    assert (read.quantity_available, read.price.basis, read.price.each) == (pieces, "lot", each)


@pytest.mark.parametrize(
    ("title", "body", "each"),
    [
        ("Solar panels 280 W", "5 sets of 2, £300 for all", 30.0),
        ("Solarmodule 280 W", "5 Pakete mit 2 Modulen, zusammen 300 €", 30.0),
        ("Zonnepanelen 280 Wp", "5 pakketten van 2 panelen, 300 euro voor alles", 30.0),
        ("Panneaux 280 W", "5 lots de 2 panneaux, 300 € le tout", 30.0),
        ("Placas 280 W", "5 juegos de 2 placas, 300 € todo", 30.0),
        ("Pannelli 280 W", "5 lotti da 2 pannelli, 300 € tutto", 30.0),
        ("Panele 280 W", "5 kompletów po 2 panele, 1500 zł za całość", 150.0),
        ("Painéis 280 W", "5 conjuntos de 2 painéis, 300 € por tudo", 30.0),
        ("Panely 280 W", "5 sad po 2 panely, 9000 Kč za vše", 900.0),
        ("Solpaneler 280 W", "5 sæt med 2 paneler, 3000 kr for det hele", 300.0),
    ],
)
def test_an_amount_for_all_of_the_sets_is_shared_by_all_pieces(title, body, each):
    read = reading_of(body, title)
    assert (read.quantity_available, read.price.each) == (10, each)


@pytest.mark.parametrize(
    ("title", "body", "pieces", "each"),
    [
        ("Panele 420 W", "3 zestawy po 2 panele, 700 zł za każdy zestaw", 6, 350.0),
        ("Painéis 420 W", "3 conjuntos de 2 painéis de 420 W, 150 € cada conjunto", 6, 75.0),
        ("3 conjuntos de 2 painéis", "420 W, novos, 150 € por conjunto", 6, 75.0),
        ("Placas 420 W", "3 conjuntos de 2 placas, 150 € el conjunto", 6, 75.0),
        ("Solarmodule 420 W", "3 Sets à 2 Module, 150 € pro Set, nur komplett", 6, 75.0),
    ],
)
def test_panels_in_sets_are_panels_and_a_set_has_its_price(title, body, pieces, each):
    read = reading_of(body, title)
    assert (read.kind, read.quantity_available, read.price.each) == ("panel", pieces, each)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Solar panels 280 W", "5 lots of 2 panels, £300 for the lot"),  # one lot, or all?
        ("Placas 280 W", "5 lotes de 2 placas, 300 € el lote"),
    ],
)
def test_the_lot_of_several_lots_tells_no_price_of_one_piece(title, body):
    read = reading_of(body, title)
    assert (read.quantity_available, read.price.each) == (10, None)


@pytest.mark.parametrize(
    ("title", "body", "pieces"),
    [
        ("Solar panels 280 W", "10 panels, with packs of 4 clamps, 3 packs", 10),
        ("Solar panels 280 W", "Lot of 10 panels. Brackets in 3 bundles", 10),
        ("Solarmodule 280 W", "10 Module, dazu 2 Pakete Schrauben", 10),
    ],
)
def test_packs_of_other_things_multiply_nothing(title, body, pieces):
    assert reading_of(body, title).quantity_available == pieces
