"""A cable, a fan, a battery or a house with panels is none of the goods; goods with a cable or a battery stay them."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Micro inverter cable", "Micro inverter mains cable 600W £12"),
        ("Kabel Wechselrichter", "Netzkabel für Wechselrichter 600 W, 5 m, 12 €"),
        ("Lüfter Wechselrichter", "Ersatzlüfter für Wechselrichter 800 W, neu, 15 €"),
        ("Kabel micro omvormer", "Kabel voor omvormer 600W 12 euro"),
        ("Boîtier onduleur", "Boîtier vide d'onduleur 600 W, 10 €"),
        ("Manual inversor 800W", "Manual impreso del inversor de 800 W, 3 €"),
        ("Cavo microinverter", "Cavo per microinverter 600W 12€"),
        ("Obudowa falownika 600W", "Pusta obudowa od falownika 600 W, 20 zł"),
        ("Cabo microinversor", "Cabo para microinversor 600W 12€"),
        ("Kabel mikroměnič", "Kabel k mikroměniči 600W 200 Kč"),
        ("Kabinet til inverter 600W", "Tomt kabinet til inverter 600 W, 50 kr"),
        ("Glas", "Glasscheibe von Solarmodul 400W 10€"),
        ("Steun zonnepaneel", "Steun voor 2 panelen 400W 30 euro"),
        ("Aufständerung", "Aufständerung für 2 Solarmodule 410W, WR nicht dabei. 40€"),
        ("Anschlusskabel Balkonkraftwerk", "Kabel 10m für Balkonkraftwerk 600W 15€"),
        ("Balkonkraftwerk Speicher", "Balkonkraftwerk Speicher 1 kWh 250€ passend zu 800W WR und 2x 400W Module"),
        ("Batterie 2 kWh", "Batterie 2 kWh pour kit solaire, 350 €. Fonctionnait avec deux panneaux de 400 W."),
        ("Batería balcón", "Batería 2 kWh para kit balcón de 800 W con 2 placas de 400 W. 400 €"),
        ("Batteria kit balcone", "Batteria 2 kWh per kit balcone 800W con 2 pannelli 400W. 300€"),
        ("Garantie", "Garantieverlängerung Balkonkraftwerk 800W 2 Module, 30 €"),
        ("Camper van", "Camper van with 2x 150W solar panels and inverter 1000W, £9500"),
        ("Gartenhaus", "Gartenhaus mit 2 Solarmodulen 300W und Wechselrichter 600W, 1200 €"),
        ("Camping-car", "Camping-car avec panneau solaire 150 W, 18000 €"),
        ("Welding inverter 200A", "£80"),
        ("Poste à souder inverter", "Poste à souder inverter 160 A, 90 €"),
        ("Svářecí invertor", "Svářecí invertor 160 A, 2000 Kč"),
    ],
)
def test_what_belongs_to_the_goods_is_not_the_goods(title, body):
    found = reading_of(title, body)
    assert (found.kind, found.panel, found.inverter) == ("other", {}, {})
    assert "other_goods" in found.doubts


@pytest.mark.parametrize(
    ("kind", "title", "body"),
    [
        ("inverter", "Micro inverter 600W", "Micro inverter 600W with mains cable, £60"),
        ("inverter", "Wechselrichter, Kabel", "Mikrowechselrichter 600 W und Anschlusskabel, zusammen 60 €"),
        ("inverter", "Inverter fan cooled 800W", "800 W micro inverter, fan works fine, £60"),
        ("inverter", "Onduleur 800 W et support", "Onduleur 800 W avec support mural, 80 €"),
        ("inverter", "Mikrofalownik 600 W", "Mikrofalownik 600 W, nowy. 390 zł"),
        ("panel", "Solar panel 410W with bracket", "410W panel incl. bracket £70"),
        ("panel", "Black frame solar panel 400W", "All black, £60"),
        ("panel", "Solar panel from camper van", "100W panel from my camper van, £30"),
        ("panel", "Panneau 150 W de camping-car", "Panneau 150 W démonté d'un camping-car, 60 €"),
        ("set", "Balkonkraftwerk Speicher Komplettpaket", "4 Module 430 W, WR 800 W und Speicher 2 kWh, 1100 €"),
        ("set", "Kit solaire avec batterie", "Kit solaire, 2 panneaux 430 W, micro-onduleur et batterie, 600 €"),
        ("set", "Altansæt med batteri", "2 paneler 430 W, inverter 800 W og batteri, 5000 kr"),
    ],
)
def test_goods_with_what_belongs_to_them_stay_the_goods(kind, title, body):
    assert reading_of(title, body).kind == kind


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Balkonkraftwerk zu vermieten", "Vermiete Balkonkraftwerk 800 W, 20 € im Monat"),
        ("Solar panels for rent", "Renting out 4 solar panels 400W, £10 a month"),
        ("Panneaux à louer", "Loue 2 panneaux 400 W, 10 € par mois"),
        ("Noleggio pannelli", "Noleggio 2 pannelli 400 W, 10 € al mese"),
        ("Udlejes: solpaneler", "Udlejer 2 solpaneler 400 W, 80 kr om måneden"),
        ("Solar panel cleaning", "Panels cleaned and serviced from £5 per panel, any make"),
    ],
)
def test_goods_to_let_and_work_on_them_are_no_offer(title, body):
    found = reading_of(title, body)
    assert (found.is_offer, found.doubts) == (False, ("service",))


@pytest.mark.parametrize(
    "body",
    [
        "Vermieter erlaubt keine Module, daher 2 Module 400 W zu verkaufen, je 50 €",
        "Je vends car je suis en location, 2 panneaux 400 W, 50 € pièce",
        "Two clean panels 400W, £50 each",
    ],
)
def test_a_landlord_in_the_reason_lets_nothing(body):
    found = reading_of("", body)
    assert (found.kind, found.is_offer, found.price.each) == ("panel", True, 50)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Solar panel for heating water", "2 m2, £60"),
        ("Panneau solaire pour chauffer l'eau", "2 m2, 60 €"),
        ("Placa solar para calentar agua", "2 m2, 60 €"),
        ("Pannello solare per scaldare l'acqua", "2 m2, 60 €"),
    ],
)
def test_a_panel_that_heats_water_is_not_photovoltaic(title, body):
    found = reading_of(title, body)
    assert (found.kind, found.doubts) == ("other", ("not_photovoltaic",))
