"""A value that is told, a shop's price, last week's price and what another thing did cost are not what is asked."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
ASKED = (
    (40, "Panel 300 W. In the shops at £90, I want £40."),
    (40, "Panel 300 W. Valued £90, asking £40."),
    (40, "Panel 300 W, my inverter cost £120. I want £40."),
    (40, "Modul 300 W. Letzte Woche noch 60 Euro, heute 40 Euro."),
    (40, "Placa 300 W. Valor 90 €, pido 40 €."),
    (40, "Pannello 300 W. Valore 90 €, chiedo 40 €."),
    (40, "Pannello 300 W. La settimana scorsa 60 €, oggi 40 €."),
    (150, "Panel 300 W. Wartość 400 zł, cena 150 zł."),
    (40, "Painel 300 W. Na semana passada 60 €, hoje 40 €."),
    (1000, "Panel 300 W. Hodnota 2500 Kč, prodám za 1000 Kč."),
    (400, "Panel 300 W. I sidste uge 600 kr, i dag 400 kr."),
    (40.5, "Panel 300 W, GBP 40.50"),
    (40, "Panel 300 W. £40 today, £60 if it is still here next week."),
    (40, "Panneau 300 W. Valeur sûre, 40 €"),
    (40, "Pannello 300 W. Oggi 40 €"),
)
SIDE_BY_SIDE = ("GBP60 GBP40", "EUR60 EUR40", "EUR 60 EUR 40", "PLN200 PLN150", "£60 £40")


@pytest.mark.parametrize(("price", "text"), ASKED)
def test_what_is_asked_is_the_price(price, text):
    assert read_advert(Advert(title="", body=text), WORDS).price.value == pytest.approx(price)


@pytest.mark.parametrize("amounts", SIDE_BY_SIDE)
def test_of_two_amounts_without_a_word_none_is_read_nor_a_third(amounts):
    assert read_advert(Advert(title="", body=f"Panel 300 W. {amounts}"), WORDS).price.value is None
