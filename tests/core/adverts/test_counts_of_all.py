"""A number of goods may be that of all of them: on all pallets, of those still there, of pairs that are priced."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def pieces(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS).quantity_available


@pytest.mark.parametrize(
    "text",
    [
        "62 panels on 2 pallets, 300 W, £25 each",
        "62 Module auf zwei Paletten, 300 W, 25 € das Stück",
        "62 panneaux sur 2 palettes, 300 W, 25 € pièce",
        "62 panelen op 2 pallets, 300 W, 25 euro per stuk",
        "62 placas en 2 palets, 300 W, 25 € cada una",
        "62 pannelli su 2 bancali, 300 W, 25 € l'uno",
        "62 panele na 2 paletach, 300 W, 80 zł szt.",
        "62 painéis em 2 paletes, 300 W, 25 € cada",
        "62 panelů na 2 paletách, 300 W, 500 Kč/ks",
        "62 paneler på 2 paller, 300 W, 150 kr. stk.",
        "Two pallets, 62 panels in total, 300 W, £25 each",
        "2 Paletten, insgesamt 62 Module, je 25 €",
        "Insgesamt 62 Module auf 2 Paletten, 300 W, je 25 €",
        "2 palettes, 62 panneaux au total, 300 W, 25 € pièce",
        "2 pallets, in totaal 62 panelen, 300 W, 25 euro per stuk",
        "2 palets, 62 placas en total, 300 W, 25 € cada una",
        "2 bancali, 62 pannelli in totale, 300 W, 25 € l'uno",
        "2 palety, łącznie 62 panele, 300 W, 80 zł szt.",
        "2 paletes, 62 painéis no total, 300 W, 25 € cada",
        "2 palety, celkem 62 panelů, 300 W, 500 Kč/ks",
        "2 paller, i alt 62 paneler, 300 W, 150 kr. stk.",
    ],
)
def test_all_that_stand_on_several_pallets_are_counted_once(text):
    assert pieces(text) == 62


@pytest.mark.parametrize(
    "text",
    [
        "6 panels in 3 boxes, 300 W, £25 each",
        "6 Module in 3 Kartons, 300 W, 25 € je Stück",
        "6 panelen in 3 dozen, 300 W, 25 euro per stuk",
        "6 panneaux dans 3 cartons, 300 W, 25 € pièce",
        "6 placas en 3 cajas, 300 W, 25 € cada una",
        "6 pannelli in 3 scatole, 300 W, 25 € l'uno",
        "6 painéis em 3 caixas, 300 W, 25 € cada",
        "6 paneler i 3 kasser, 300 W, 150 kr. stk.",
    ],
)
def test_all_that_lie_in_several_boxes_are_counted_once(text):
    assert pieces(text) == 6


@pytest.mark.parametrize(
    "text",
    [
        "2 pallets of 31 panels, 300 W, £25 each",
        "31 panels per pallet, 2 pallets, 300 W, £25 each",
        "31 panels on a pallet, two pallets in stock, 300 W, £25 each",
        "31 panels on each of 2 pallets, £25 each",
        "2 pallets, 31 panels each, all 300 W, £25 each",
        "2 pallets, 31 panels all in good order, 300 W, £25 each",
        "Insgesamt 31 Module je Palette, 2 Paletten, je 25 €",
        "31 Module je Palette, 2 Paletten, 300 W, je 25 €",
    ],
)
def test_those_on_one_pallet_are_multiplied(text):
    assert pieces(text) == 62


@pytest.mark.parametrize(
    "text",
    [
        "Partij van 20 zonnepanelen, 270 Wp, poly, hiervan nog 12 beschikbaar. 20 euro per paneel.",
        "Batch of 20 panels, 270 Wp, poly, of these 12 still available. £20 each.",
        "Posten von 20 Modulen, 270 Wp, poly, davon noch 12 verfügbar. 20 € je Modul.",
        "Lot de 20 panneaux, 270 Wc, poly, dont encore 12 disponibles. 20 € pièce.",
        "20 placas, 270 W, policristalinas, usadas, de las cuales 12 disponibles. 20 € cada una.",
        "20 pannelli, 270 W, poli, usati, di cui 12 disponibili. 20 € l'uno.",
        "20 paneli, 270 W, poli, używane, z tego 12 dostępnych. 80 zł sztuka.",
        "20 painéis, 270 W, poli, usados, dos quais 12 disponíveis. 20 € cada.",
        "20 panelů, 270 W, poly, použité, z toho 12 k dispozici. 500 Kč kus.",
        "20 paneler, 270 W, poly, brugte, heraf 12 til salg. 150 kr. stk.",
    ],
)
def test_of_these_so_many_are_left(text):
    assert pieces(text) == 12


@pytest.mark.parametrize(
    "text",
    [
        "Batch of 20 panels, 270 Wp, poly, of these 12 have scratches. £20 each.",
        "Partij van 20 zonnepanelen, 270 Wp, poly, hiervan 12 met krasjes. 20 euro per paneel.",
        "20 Module, 270 Wp, poly, davon 12 von 2019. 20 € je Modul.",
    ],
)
def test_of_these_so_many_are_something_else(text):
    assert pieces(text) == 20


@pytest.mark.parametrize(
    "text",
    [
        "Pair of panels, 300 W. I have 5 pairs, £50 per pair",
        "Module 300 W, 5 Paare vorhanden, 50 € je Paar",
        "Module 300 W, je Paar 50 €, 5 Paare",
        "Paire de panneaux 300 W. J'ai 5 paires, 50 € la paire",
        "Par de placas 300 W. Tengo 5 pares, 50 € el par",
        "Coppia di pannelli 300 W. Ho 5 coppie, 50 € la coppia",
        "Panelen 300 W. Heb 5 paar, 50 euro per paar",
        "Para paneli 300 W. Mam 5 par, 200 zł za parę",
        "Par de painéis 300 W. Tenho 5 pares, 50 € por par",
        "Pár panelů 300 W. Mám 5 párů, 1000 Kč za pár",
        "Paneler 300 W. 5 par haves, 500 kr. pr. par",
    ],
)
def test_pairs_that_are_priced_are_two_each(text):
    assert pieces(text) == 10


@pytest.mark.parametrize(
    "text",
    [
        "Pair of panels, 300 W, 5 pairs of gloves, £50 per pair",
        "Pair of panels, 300 W, 5 pairs MC4, £50 per pair",
        "Ein Paar Module 300 W, 5 Paare Stecker, 50 € je Paar",
    ],
)
def test_pairs_of_other_things_are_no_pairs_of_panels(text):
    assert pieces(text) == 2
