"""Payment before the goods that two denials ask for: "no postage without payment in advance"."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Solar panels 300 W", "£25 each. I don't post without full payment before."),
        ("Solarmodule 300 W", "25 € das Stück, kein Versand ohne Vorauszahlung."),
        ("Zonnepanelen 300 Wp", "25 euro per stuk. Zonder aanbetaling, geen verzending."),
        ("Panneaux 300 W", "25 € pièce. Sans acompte je n'envoie pas."),
        ("Placas 300 W", "25 € cada una. No envío nada sin pago previo."),
        ("Pannelli 300 W", "25 € l'uno. Non spedisco senza bonifico anticipato."),
        ("Panele 300 W", "100 zł za sztukę. Nie wysyłam bez zaliczki."),
        ("Painéis 300 W", "25 € cada. Não envio sem pagamento prévio."),
        ("Panely 300 W", "500 Kč za kus. Bez zálohy nezasílám."),
        ("Solpaneler 300 W", "150 kr stk. Sender ikke uden betaling på forhånd."),
    ],
)
def test_no_sending_without_payment_asks_for_it_and_offers_sending(title, body):
    read = reading_of(title, body)
    assert "advance_payment" in read.doubts
    assert read.delivery in {"shipping", "either"}


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Solarmodule 300 W", "Keine Reservierung ohne Anzahlung, 25 € das Stück"),
        ("Panneaux 300 W", "25 € pièce, aucune réservation sans acompte"),
    ],
)
def test_nothing_is_kept_without_payment(title, body):
    assert "advance_payment" in reading_of(title, body).doubts


@pytest.mark.parametrize(
    ("title", "body", "delivery"),
    [
        ("Solarmodule 300 W", "25 € das Stück. Versand gern, ohne Vorkasse.", "shipping"),
        ("Solarmodule 300 W", "25 €. Keine Anzahlung, kein Versand, nur Abholung.", "pickup"),
        ("Solar panels 300 W", "£25 each, posted without payment in advance", "shipping"),
        ("Panneaux 300 W", "25 € pièce. Sans acompte. Pas d'envoi.", "pickup"),
        ("Panele 300 W", "100 zł, bez zaliczki i bez ryzyka. Odbiór osobisty", "pickup"),
    ],
)
def test_sending_without_payment_and_two_denials_of_two_things_ask_for_none(title, body, delivery):
    read = reading_of(title, body)
    assert ("advance_payment" in read.doubts, read.delivery) == (False, delivery)
