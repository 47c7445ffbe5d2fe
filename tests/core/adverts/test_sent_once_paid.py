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
    "Panel 300 W, £40. I'll post it once the transfer has arrived.",
    "Panel 300 W, £40. As soon as your money is in my account I send it.",
    "Modul 300 W, 40 €. Ohne Vorkasse kein Versand.",
    "Modul 300 W, 40 €. Versende sofort nach Geldeingang.",
    "Panneau 300 W, 40 €. J'envoie une fois le virement reçu.",
    "Placa 300 W, 40 €. La envío una vez recibida la transferencia.",
    "Panel 300 W, 1000 Kč. Pošlu hned, jak přijdou peníze na účet.",
    "Panel 300 W, 400 kr. Sendes efter modtaget betaling.",
)
NOT_ASKED = (
    "Panel 300 W, £40. Pay when you've seen it, nothing up front.",
    "Placa 300 W, 40 €. Pagas al recogerla, nada por adelantado.",
    "Panel 300 W, £40. You see it, you pay, no money up front.",
    "Panel 300 W, £40. I can post it, pay when it arrives.",
    "Modul 300 W, 40 €. Kein Vorkasse, Zahlung bei Übergabe.",
    "Modul 300 W, 40 €. Versand möglich, Zahlung nach Erhalt der Ware.",
    "Paneel 300 W, 40 euro. Verzenden kan, betalen na ontvangst.",
    "Panneau 300 W, 40 €. Rien à payer d'avance.",
    "Placa 300 W, 40 €. Envío contra reembolso, pagas cuando llega.",
    "Painel 300 W, 40 €. Envio à cobrança, paga quando receber.",
    "Panel 300 W, 150 zł. Wysyłka za pobraniem, płatność po otrzymaniu.",
    "Panel 300 W, 400 kr. Kan sendes, betaling efter modtagelse.",
)


@pytest.mark.parametrize("text", PAID_FIRST)
def test_sending_once_paid_is_payment_in_advance(text):
    reading = read_advert(Advert(title="", body=text), WORDS)
    assert "advance_payment" in reading.doubts
    assert "account_bound" not in reading.doubts


@pytest.mark.parametrize("text", NOT_ASKED)
def test_nothing_in_advance_is_none(text):
    assert "advance_payment" not in read_advert(Advert(title="", body=text), WORDS).doubts
