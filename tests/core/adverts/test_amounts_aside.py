"""Noughts for fetching or a tax, deposits, bills and what a share is asked of are no price."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title="", price_text=None):
    return read_advert(Advert(title=title, body=body, price_text=price_text), WORDS)


@pytest.mark.parametrize(
    ("title", "body", "price_text", "value", "sending"),
    [
        ("Modul", "Abholung 0 €, Versand 20 €. 400W", "60 €", 60, 20),
        ("Panel", "Collection £0, delivery £25. 400W", "£60", 60, 25),
        ("Panel 400W", "Dostawa: kurier 40 zł, odbiór osobisty 0 zł", "200 zł", 200, 40),
        ("Pannello", "Ritiro 0 €, spedizione 15 €. 400W", "60 €", 60, 15),
        ("Paneel", "Ophalen €0, verzenden €15, 400W", "€60", 60, 15),
        ("Panneau", "Retrait 0 €, envoi 20 €. 400W", "60 €", 60, 20),
        ("Panel", "Odběr 0 Kč, zásilka 150 Kč, 400W", "900 Kč", 900, 150),
        ("Panel", "Afhentning 0 kr, fragt 99 kr, 400W", "300 kr", 300, 99),
        ("Placa", "Recogida 0€, envío 15€. 400W", "60€", 60, 15),
        ("Painel", "Levantamento 0 €, envio 12 €. 400W", "60 €", 60, 12),
        ("Modul", "MwSt 0 € ausgewiesen, 400W, 60 €", None, 60, None),
        ("Pannello", "IVA 0 €. Pannello 400W 50 €", None, 50, None),
    ],
)
def test_fetching_or_a_tax_for_nothing(title, body, price_text, value, sending):
    reading = reading_of(body, title, price_text)
    assert (reading.price.value, reading.shipping_cost) == (value, sending)
    assert "price_conflict" not in reading.doubts


@pytest.mark.parametrize("title", ["Solarmodul zu verschenken, 400 W, 0 €", "Solar panel 400W, free, £0"])
def test_goods_for_nothing_stay_for_nothing(title):
    assert reading_of("Abholung bis Freitag", title).price.value == 0


@pytest.mark.parametrize(
    "body",
    [
        "20 panels. £50 deposit secures, balance £950 on collection.",
        "10 Module 400W, 50 € Anzahlung, Rest 450 € bei Abholung",
        "10 panneaux 400 W, acompte 50 €, solde 450 € au retrait",
        "10 pannelli 400W, acconto 50 €, saldo 450 € al ritiro",
        "10 placas 400W. Señal 50 €, resto 450 € al recoger",
    ],
)
def test_a_deposit_and_the_rest_are_the_price_of_all_together_and_neither_by_itself(body):
    reading = reading_of(body)
    price, pieces = reading.price, reading.quantity_available
    assert (price.value, price.basis, price.each) == ((1000, "lot", 50) if pieces == 20 else (500, "lot", 50))


@pytest.mark.parametrize(
    ("title", "body", "value"),
    [
        ("Solar set 800 W, 2 panels", "£50 deposit, rest £950 on collection.", 1000),
        ("Micro inverter 800 W", "50 deposit, rest 100 on collection", 150),
        ("Mikrowechselrichter 800 W", "Anzahlung 20 €, der Rest von 130 € bar bei Abholung", 150),
        ("Micro-omvormer 800 W", "aanbetaling 50 euro, restant 100 euro bij afhalen", 150),
        ("Kit solaire 800 W, 2 panneaux", "50 € d'acompte, le reste 950 € à l'enlèvement.", 1000),
        ("Microinversor 800 W", "señal de 50 €, el resto (100 €) al recoger", 150),
        ("Microinverter 800 W", "acconto 50 €, resto 100 € alla consegna", 150),
        ("Mikroinwerter 800 W", "zadatek 100 zł, pozostałe 300 zł przy odbiorze", 400),
        ("Microinversor 800 W", "caução 50 €, restante 100 € na entrega", 150),
        ("Mikroměnič 800 W", "záloha 500 Kč, zbytek 1500 Kč při odběru", 2000),
        ("Mikroinverter 800 W", "depositum 200 kr, rest 600 kr ved afhentning", 800),
    ],
)
def test_what_is_paid_first_and_later_makes_the_price(title, body, value):
    reading = reading_of(body, title)
    assert reading.price.value == value
    claim = next(one for one in reading.claims if one.what == "price")
    assert any(word in claim.words for word in ("50", "20", "100", "500", "200"))


@pytest.mark.parametrize(
    ("title", "body", "value"),
    [
        ("Micro inverter 800 W", "£150. £50 deposit, balance £100 on collection.", 150),
        ("Mikrowechselrichter 800 W", "Reservierung gegen 50 € Anzahlung, Rest bei Abholung.", None),
        ("Micro inverter 800 W", "£20 deposit each, rest £80 each on collection, 2 available", None),
        ("10 Module 400 W", "Anzahlung 50 €, Rest 7 Module bis Freitag", None),
        ("10 panels 400 W", "deposit 50, the rest of the 10 panels on Friday", None),
        ("10 panelen 400 W", "borg 50 euro, rest 12 stuks later", None),
        ("Mikroinwerter 800 W", "Cena 400 zł, zaliczka 100 zł, reszta przy odbiorze.", 400),
    ],
)
def test_a_price_beside_a_deposit_stays_and_no_other_rest_is_added(title, body, value):
    assert reading_of(body, title).price.value == value


@pytest.mark.parametrize(
    ("body", "value", "each"),
    [
        ("Warranty 25 years, invoice £180. 400W panel £60", 60, 60),
        ("Rechnung über 180 € vorhanden. Modul 400W 60 €", 60, 60),
        ("Facture de 180 € fournie, panneau 400 W, 60 €", 60, 60),
        ("Fattura da 180 €, pannello 400W 60 €", 60, 60),
        ("Modul 400W mit Rechnung 60 €", 60, 60),
        ("Panel 400W with invoice £60", 60, 60),
        ("No deposit needed, £60 each, 4 panels 400W", 60, 60),
        ("Palette 30 Stk. Modulpreis 45€ 400W", 45, 45),
        ("Panels, pallet of 30, panel price £45, 400W", 45, 45),
        ("2x2 Module 400W 50€ je", 50, 50),
    ],
)
def test_what_stands_on_a_bill_is_not_asked_and_a_price_beside_one_is(body, value, each):
    price = reading_of(body).price
    assert (price.value, price.each) == (value, each)


@pytest.mark.parametrize(
    "body",
    [
        "Was £180 each new, asking a third of that. 405W panels x3.",
        "Neu 180 € das Stück, will ein Drittel davon. 3 Module 405W",
        "Neuf 180 € pièce, j'en demande un tiers. 3 panneaux 405W",
    ],
)
def test_where_a_share_of_the_new_price_is_asked_that_price_is_not(body):
    reading = reading_of(body)
    assert reading.price.value is None
    assert reading.condition != "new"


def test_a_price_that_is_reduced_limits_no_output_but_an_inverter_may_be():
    reduced = reading_of("Reduziert: statt 80 nur noch 60 Euro/Stk.", "Module 400W")
    assert (reduced.price.value, reduced.doubts) == (60, ())
    assert "output_limited" in reading_of("Wechselrichter 800W, reduziert auf 600 W, 60 €").doubts
