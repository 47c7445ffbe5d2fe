"""What is taken off a price, put on it, given back or paid for other things is no price, with a field or without."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.growth import grows_within

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, price_text=None, title=""):
    return read_advert(Advert(title=title, body=body, price_text=price_text), WORDS)


@pytest.mark.parametrize(
    ("body", "price_text", "value"),
    [
        ("Modul 380 W. Wer heute abholt, bekommt 15 € Nachlass.", "70 €", 70),
        ("Panel 380 W. I'll take £15 off if you fetch it today.", "£70", 70),
        ("Panneau 380 W. Remise de 15 € pour un retrait rapide.", "70 €", 70),
        ("Paneel 380 W. 15 euro korting bij afhalen.", "€ 70", 70),
        ("Microinversor 600 W. Con soporte son 20 € más.", "60 €", 60),
        ("Microinverter 600 W. 20 euro in più con staffa.", "60 €", 60),
        ("Mikroinwerter 600 W. Z uchwytem 50 zł więcej.", "250 zł", 250),
        ("Microinversor 600 W. Mais 20 € com suporte.", "60 €", 60),
        ("2 panely 400 W. Chybí konektor, stojí 60 Kč.", "3000 Kč", 3000),
        ("4 paneler 400 W. Depositum for pallen 150 kr.", "1600 kr.", 1600),
        ("Modul 400 W. Parken kostet hier 4 Euro.", "50 €", 50),
        ("Panel 400 W. I can store it for £5 a week.", "£50", 50),
        ("Panneau 400 W. Pour 5 € j'ajoute les connecteurs.", "50 €", 50),
        ("Modul 400 W. Tausch gegen Bohrmaschine plus 10 Euro möglich.", "50 €", 50),
        ("Modul 380 W. 15 Euro Rabatt bei Abholung. 70 Euro", None, 70),
        ("Panel 380 W. Sleva 200 Kč při osobním odběru. 1000 Kč", None, 1000),
        ("Micro inverter 800 W, missing lead costs £12 online. £60", None, 60),
        ("Inversor 600 W, falta el cable, cuesta 12 €.", None, None),
        ("Panneau 380 W. 15 € de moins si retrait aujourd'hui.", None, None),
        ("Solpanel 380 W. Parkering koster 20 kr.", None, None),
    ],
)
def test_amounts_beside_the_price_are_none(body, price_text, value):
    assert reading_of(body, price_text).price.value == value


@pytest.mark.parametrize(
    ("body", "value"),
    [
        ("Solarmodul 400 W mit 20 Euro Rabatt jetzt 50 Euro", 50),
        ("Modul 400 W, Preis mit Rabatt 50 Euro", 50),
        ("Modul 400 W, 50 Euro, mehr Bilder auf Anfrage", 50),
        ("Panel 400 W. £50, no less", 50),
        ("Modul 400 W nach Reparatur 50 Euro", 50),
        ("Placa 400 W 50 € menos de un año de uso", 50),
        ("Panneau 400 W, connecteur manquant, donc 50 €", 50),
        ("Panel 400 W, lead missing, so only £50", 50),
        ("Pannello 400 W per 50 euro, aggiungo i cavi", 50),
        ("Panel 400 W for £50, I'll throw in the cable", 50),
        ("Painel 400 W 50 €, portes mais 20 €", 50),
    ],
)
def test_a_price_beside_such_words_stays(body, value):
    assert reading_of(body).price.value == value


@pytest.mark.parametrize(
    ("body", "price_text", "value", "conflict"),
    [
        ("Solarmodul 400 W, gebraucht. 50 €", "70 €", 70, True),
        ("Solarmodul 400 W, gebraucht. Preis: 50 €", "70 €", 50, True),
        ("Solarmodul 400 W für 50 €", "70 €", 50, True),
        ("Solar panel 400 W. Now £50", "£70", 50, True),
        ("4 Module 400 W. 40 € pro Stück", "70 €", 40, True),
        ("4 panneaux 400 W. 160 €", "40 €", 160, False),
        ("2 paneler 400 W. Færgen hertil er 90 kr.", "800 kr.", 800, False),
    ],
)
def test_beside_a_field_only_words_make_an_amount_the_price(body, price_text, value, conflict):
    reading = reading_of(body, price_text)
    assert (reading.price.value, "price_conflict" in reading.doubts) == (value, conflict)


def test_time_grows_with_the_length():
    row = "Modul 400 W, 10 € Nachlass bei Abholung, Parken 4 €, Kabel fehlt, 12 € online, "
    few, many = row * 25, row * 200
    assert grows_within(lambda: reading_of(few, "50 €"), lambda: reading_of(many, "50 €"), 12)


@pytest.mark.parametrize(
    "body",
    [
        "Panneau 400 W. 50 € remise en main propre.", "Panel 400 W. £50 less than a year old.",
        "Modul 400 W. 50 € weniger als ein Jahr alt.", "Paneel 400 W. 50 euro minder dan een jaar oud.",
        "Panel 400 W. 50 zł mniej niż rok.", "Panel 400 W. 50 Kč méně než rok starý.",
        "Panel 400 W. 50 kr mindre end et år gammel.",
    ],
)  # fmt: skip
@pytest.mark.parametrize("field", [None, "1 €"])
def test_a_price_before_being_handed_over_or_an_age_is_the_price(body, field):
    assert reading_of(body, field).price.value == 50
