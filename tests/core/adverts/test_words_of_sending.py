"""Headings, parcels, post codes, pictures and the past are no sending; behind refused sending stands no cost."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title="", price_text=None):
    return read_advert(Advert(title=title, body=body, price_text=price_text), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panel 400W", "Delivery: collection only"),
        ("Modul 400W", "Versand: Selbstabholung"),
        ("Paneel 400W", "Verzending: afhalen"),
        ("Panneau 400W", "Livraison : remise en main propre"),
        ("Placa 400W", "Envío: recogida en persona"),
        ("Pannello 400W", "Consegna: ritiro di persona"),
        ("Panel 400W", "Wysyłka: odbiór osobisty"),
        ("Painel 400W", "Entrega: levantamento no local"),
        ("Panel 400W", "Doprava: osobní odběr"),
        ("Panel 400W", "Levering: afhentning"),
        ("Panel 400W", "£60. I will post more pictures tomorrow. Collection only."),
        ("Paneel 400W", "50 euro. Foto's kan ik sturen. Afhalen"),
        ("Panel 400W", "Bought new, delivered in 2022. £60, collection only"),
        ("Pannello 400W", "Consegnato nel 2022, mai montato. 60 €. Ritiro a mano"),
        ("Panels", "12 panels 400W £20 each, you will need a trailer"),
        ("Placas", "20 placas 400W 20 € cada una. Se cargan en camión."),
        ("Panel 400W", "£60. No shipping"),
        ("Pannello", "Spedizione non disponibile 420W 60€"),
    ],
)
def test_only_fetched(title, body):
    reading = reading_of(body, title)
    assert (reading.delivery, reading.shipping_cost) == ("pickup", None)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("4er Paket Solarmodule", "4 Module 400W 260 €"),
        ("Module", "Paket aus 4 Modulen 400W, 260 €"),
        ("Panneaux", "Colis de 4 panneaux 400 W, 260 €"),
        ("Panel", "Panel 400W £60. Post code NR1"),
        ("Panel", "Panel 400W £60. Will post photos on request."),
        ("Modul", "Modul 400W 60 €, schicke gern Bilder"),
        ("Modul", "Modul 400W 60 €. Lieferung erfolgte 2023, nie montiert."),
        ("Panneau", "Livré en 2021, jamais monté. 400 W 60 €"),
    ],
)
def test_nothing_is_said_of_sending(title, body):
    reading = reading_of(body, title)
    assert (reading.delivery, reading.shipping_cost) == ("unknown", None)


@pytest.mark.parametrize(
    ("title", "body", "delivery", "sending"),
    [
        ("Panel 400W", "Delivery: courier or collection, £60", "either", None),
        ("Modul 400W", "Versand: 20 € oder Selbstabholung", "either", 20),
        ("Paneel 400W", "Levering: ophalen of verzenden €15", "either", 15),
        ("Panelen", "4 panelen 400W 40 € per stuk. Ophalen, evt. langsbrengen regio Zwolle", "either", None),
        ("Modul", "Modul 400W 60 €, als Paket 12 €", "shipping", 12),
        ("Modul", "Modul 400W 55 € zzgl. 6,99 Versand", "shipping", 6.99),
        ("Panel", "Panel 400W £60. Delivery £15 in 2 days", "shipping", 15),
    ],
)
def test_what_is_sent_stays_so(title, body, delivery, sending):
    reading = reading_of(body, title)
    assert (reading.delivery, reading.shipping_cost) == (delivery, sending)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panel", "No shipping £60 420W"),
        ("Panel", "Geen verzending €60 420W"),
        ("Placa", "Envío no incluido 420W 60€"),
        ("Pannello", "Spedizione non disponibile 420W 60€"),
        ("Panneau", "Livraison non comprise, 420 W 60 €"),
        ("Painel", "Sem envio 60€ 420W"),
    ],
)
def test_an_amount_behind_refused_sending_is_the_price(title, body):
    reading = reading_of(body, title)
    assert (reading.price.value, reading.shipping_cost) == (60, None)
    assert reading.panel["rated_power_w"] == 420
