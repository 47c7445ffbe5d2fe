"""Sending that is free only from some amount or number on costs what nobody knows."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
FREE_FROM = (
    (45, "Panel 300 W. £45. Orders above £150 ship free."),
    (45, "4 panels 300 W. £45 each. Free delivery on orders over £200."),
    (45, "4 panels 300 W. £45 each. Postage is free from 4 panels."),
    (45, "Modul 300 W, 45 €. Versand kostenlos ab 150 €."),
    (45, "Modul 300 W, 45 €. Ab 200 € liefern wir frei Haus."),
    (45, "Modul 300 W, 45 €. Lieferung frei Haus ab 10 Stück."),
    (45, "Zonnepaneel 300 Wp, 45 euro. Boven 150 euro gratis verzending."),
    (45, "Panneau 300 W, 45 €. Livraison offerte dès 150 € d'achat."),
    (45, "Placa 300 W, 45 €. Envío gratuito desde 150 € de compra."),
    (45, "Pannello 300 W, 45 €. A partire da 150 € spedizione gratuita."),
    (150, "Panel 300 W, 150 zł. Wysyłka gratis powyżej 500 zł."),
    (45, "Painel 300 W, 45 €. Portes grátis em compras superiores a 150 €."),
    (900, "Panel 300 W, 900 Kč. Poštovné zdarma při nákupu nad 3000 Kč."),
    (300, "Panel 300 W, 300 kr. Gratis fragt ved køb over 1000 kr."),
    (40, "Panel 300 W, £40. Spend £150 and delivery is on us."),
    (40, "Panel 300 W, £40. Delivery is free once your basket reaches £150."),
    (40, "Modul 300 W, 40 €. Versandkostenfrei, sobald der Warenkorb 150 € erreicht."),
    (40, "Modul 300 W, 40 €. Bei einem Bestellwert von 150 € übernehmen wir den Versand."),
    (40, "Paneel 300 W, 40 euro. Bestel je meer dan 150 euro, dan gratis verzending."),
    (40, "Panneau 300 W, 40 €. Livraison gratuite si votre panier atteint 150 €."),
    (40, "Placa 300 W, 40 €. Envío gratis al llegar a 150 € de compra."),
    (40, "Pannello 300 W, 40 €. Per ordini superiori a 150 € la spedizione la paghiamo noi."),
    (40, "Panel 300 W, 40 zł. Wysyłka gratis, gdy koszyk osiągnie 600 zł."),
    (40, "Painel 300 W, 40 €. Gastando 150 € os portes são grátis."),
    (40, "Panel 300 W, 40 Kč. Při objednávce za 3000 Kč doprava zdarma."),
    (40, "Panel 300 W, 40 kr. Gratis fragt, når kurven når 1000 kr."),
)
FREE = (
    "Painel 300 W, 45 €. Portes grátis a partir de hoje.",
    "Placa 300 W, 45 €, envío gratis a partir de hoy",
    "Pannello 300 W, 45 €, spedizione gratuita a partire da oggi",
    "4 panels 300 W, £45 each or £150 for all, free delivery",
    "Panel 300 W. £45 with free delivery",
    "4 panels 300 W, from £45 each, free delivery",
    "Modul 300 W, 45 €, Versand kostenlos",
    "Panel 300 W, 45 zł, darmowa dostawa",
)


@pytest.mark.parametrize("in_field", [True, False])
@pytest.mark.parametrize(("each", "text"), FREE_FROM)
def test_sending_that_is_free_from_an_amount_on_is_not_free(each, text, in_field):
    reading = read_advert(Advert(title="", body=text, price_text=str(each) if in_field else None), WORDS)

    assert (reading.price.each, reading.shipping_cost) == (each, None)


@pytest.mark.parametrize("text", FREE)
def test_free_sending_stays_free(text):
    reading = read_advert(Advert(title="", body=text), WORDS)

    assert (reading.price.each, reading.shipping_cost) == (45, 0)
