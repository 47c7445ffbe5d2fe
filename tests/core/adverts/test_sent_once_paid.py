"""Goods that are sent as soon as the money has come are paid for in advance; "nothing up front" asks for none."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
PAID_FIRST = (
    "Panel 300 W, £40. I post once the funds have landed.",
    "Modul 300 W, 40 €. Versand, sobald die Zahlung da ist.",
    "Paneel 300 W, 40 euro. Ik verstuur zodra de betaling binnen is.",
    "Panneau 300 W, 40 €. J'envoie dès que je reçois le paiement.",
    "Placa 300 W, 40 €. Envío en cuanto reciba el dinero.",
    "Pannello 300 W, 40 €. Spedisco appena ricevo il bonifico.",
    "Panel 300 W, 150 zł. Wysyłam po wpłynięciu przelewu.",
    "Painel 300 W, 40 €. Envio assim que o dinheiro chegar.",
    "Panel 300 W, 1000 Kč. Odešlu, jakmile dorazí platba.",
    "Panel 300 W, 400 kr. Sendes, så snart pengene er her.",
)
NOT_ASKED = (
    "Panel 300 W, £40. Pay when you've seen it, nothing up front.",
    "Placa 300 W, 40 €. Pagas al recogerla, nada por adelantado.",
)


@pytest.mark.parametrize("text", PAID_FIRST)
def test_sending_once_paid_is_payment_in_advance(text):
    assert "advance_payment" in read_advert(Advert(title="", body=text), WORDS).doubts


@pytest.mark.parametrize("text", NOT_ASKED)
def test_nothing_in_advance_is_none(text):
    assert "advance_payment" not in read_advert(Advert(title="", body=text), WORDS).doubts
