"""What a seller changes to is not what is for sale."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "We upgraded our garage to 10 x 410W, so 6 old 240W panels are for sale, £18 each.",
        "Bin auf 410 W umgestiegen und gebe 6 alte Module mit 240 W ab, je 18 €.",
        "Wij zijn overgestapt op 410 Wp en verkopen 6 oude panelen van 240 Wp, 18 euro per stuk.",
        "Nous passons à des panneaux de 410 W et vendons 6 anciens panneaux de 240 W, 18 € pièce.",
        "Hemos cambiado a módulos de 410 W y vendemos 6 placas viejas de 240 W, 18 € cada una.",
        "Siamo passati a moduli da 410 W, vendiamo 6 pannelli vecchi da 240 W, 18 € l'uno.",
        "Przeszedłem na moduły 410 W, oddam 6 starych paneli 240 W po 70 zł za sztukę.",
        "Troquei para módulos de 410 W e vendo 6 painéis antigos de 240 W, 18 € cada.",
        "Přecházím na panely 410 W, prodám 6 starých panelů 240 W, 450 Kč za kus.",
        "Vi har opgraderet til 410 W, så 6 gamle paneler på 240 W sælges, 90 kr stk.",
    ],
)
def test_the_power_of_new_ones_is_not_that_of_those_for_sale(body):
    reading = reading_of(body)
    assert reading.panel["rated_power_w"] == 240
    assert reading.quantity_available == 6


@pytest.mark.parametrize(
    "body",
    [
        "6 Module wurden durch 410 W ersetzt: 240 W, je 18 €.",
        "Upgraded from 240W to 410W. Six panels, £18 each, 240W.",
        "Six panels of 240 W, £18 each, as I have switched to 410 W.",
    ],
)
def test_whatever_stands_first(body):
    assert reading_of(body).panel["rated_power_w"] == 240


def test_old_ones_without_a_name_are_counted():
    for body in (
        "Upgraded to 410W panels so selling 6 old 240W ones, £18 each.",
        "Auf 410 W Module gewechselt, daher 6 alte mit 240 W abzugeben, je 18 €.",
        "Passato a pannelli da 410 W, vendo i miei 6 vecchi da 240 W, 18 € l'uno.",
        "Skiftet til 410 W paneler, sælger 6 gamle på 240 W, 90 kr stk.",
    ):
        assert reading_of(body).quantity_available == 6


def test_an_inverter_that_comes_in_its_place_is_not_for_sale():
    assert reading_of("Upgraded to an 800 W inverter, so my 350 W micro inverter goes, £30.").inverter == {
        "ac_power_w": 350
    }


def test_an_upgrade_without_a_power_takes_none_away():
    assert reading_of("Upgraded the roof, so 6 panels of 240 W for sale, £18 each.").panel["rated_power_w"] == 240
