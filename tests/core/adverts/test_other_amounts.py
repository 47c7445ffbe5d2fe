"""An amount that is told of something else than the goods is no price of theirs, wherever it stands."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.growth import grows_within

WORDS = vocabulary_of(load_advert_words())
OF_A_KILOWATT_HOUR = (
    "Panel 400 W, electricity is £0.27 a kWh now. £70",
    "Modul 400 W. Strompreis 0,35 EUR/kWh, da lohnt es sich. 70 EUR",
    "Modul 400 W, Strom kostet 0,38 € die Kilowattstunde. 70 €",
    "Paneel 400 W, stroom is 0,28 euro per kilowattuur. 70 euro",
    "Panneau 400 W, électricité à 0,25 € le kWh. 70 €",
    "Placa 400 W, la luz está a 0,20 € el kWh. 70 €",
    "Pannello 400 W, corrente 0,30 € al kWh. 70 €",
    "Panel 400 W. Prąd po 1,10 zł za kWh. 70 zł",
    "Painel 400 W, luz 0,22 € o kWh. 70 €",
    "Panel 400 W. Elektřina za 6 Kč/kWh. 70 Kč",
    "Panel 400 W. Strøm til 2,50 kr. pr. kWh. 70 kr.",
)
SAVED_OR_GRANTED = (
    "Balcony kit: 2 panels 400 W and 800 W inverter, saved us £180 last year. £300",
    "Balcony kit: 2 panels 400 W and 800 W inverter. The council pays a £100 grant. £300",
    "Balkonkraftwerk, 2 Module 400 W und Wechselrichter 800 W. Spart 200 Euro pro Jahr. VB 300",
    "Balkonkraftwerk, 2 Module 400 W und Wechselrichter 800 W. Die Gemeinde gibt 100 € Zuschuss. 300 €",
    "Balkonset 2 panelen 400 W en omvormer 800 W, levert 180 euro per jaar op. Vraagprijs 300 euro",
    "Balkonset 2 panelen 400 W en omvormer 800 W. Subsidie van 100 euro mogelijk. 300 euro",
    "Kit balcon 2 panneaux 400 W et micro-onduleur 800 W, 180 € d'économie par an. 300 €",
    "Kit balcon 2 panneaux 400 W et micro-onduleur 800 W. Prime de 100 € possible. 300 €",
    "Kit balcón 2 placas 400 W y microinversor 800 W, 180 € de ahorro al año. 300 €",
    "Kit balcone 2 pannelli 400 W e microinverter 800 W, 180 € di risparmio all'anno. 300 €",
    "Zestaw balkonowy 2 panele 400 W i mikroinwerter 800 W, 200 zł oszczędności rocznie. 300 zł",
    "Kit varanda 2 painéis 400 W e microinversor 800 W. Apoio de 100 € do município. 300 €",
    "Balkonová sada 2 panely 400 W a mikroměnič 800 W, úspora 200 Kč ročně. 300 Kč",
    "Altansæt 2 paneler 400 W og mikroinverter 800 W, sparer 200 kr. om året. 300 kr.",
)
LEAST_BIDS = (
    "Panel 300 W. Offers under £30 ignored. £40",
    "Modul 300 W. Angebote unter 30 € ignoriere ich. 40 €",
    "Paneel 300 W. Biedingen onder 30 euro negeer ik. 40 euro",
    "Panneau 300 W. Offres en dessous de 30 € refusées. 40 €",
    "Placa 300 W. Ofertas por debajo de 30 € no las contesto. 40 €",
    "Pannello 300 W. Offerte sotto i 30 € ignorate. 40 €",
    "Panel 300 W. Ofert poniżej 30 zł nie rozpatruję. 40 zł",
    "Painel 300 W. Propostas abaixo de 30 € ignoradas. 40 €",
    "Panel 300 W. Nabídky pod 30 Kč ignoruji. 40 Kč",
    "Panel 300 W. Bud under 30 kr. ignoreres. 40 kr.",
)
THINGS_FIRST = (
    "4 panels 300 W. Rails 12 each, panels 40 each",
    "4 panels 300 W. Rails £12 each, panels £40 each",
    "4 Module 300 W. Schienen je 12 Euro, Module je 40 Euro",
    "4 panelen 300 W. Rails 12 euro per stuk, panelen 40 euro per stuk",
    "4 panneaux 300 W. Rails 12 € pièce, panneaux 40 € pièce",
    "4 placas 300 W. Soportes 12 € cada uno, placas 40 € cada una",
    "4 pannelli 300 W. Binari 12 € l'uno, pannelli 40 € l'uno",
    "4 panele 300 W. Uchwyty po 12 zł, panele po 40 zł",
    "4 painéis 300 W. Calhas 12 € cada, painéis 40 € cada",
    "4 panely 300 W. Lišty 12 Kč kus, panely 40 Kč kus",
    "4 paneler 300 W. Skinner 12 kr stk, paneler 40 kr stk",
    "Panel 300 W. Comes with a £15 bracket. £40",
    "Modul 300 W. Inklusive Halter im Wert von 15 Euro. 40 Euro",
)
PRICES = (
    "Panel 300 W with brackets £40",
    "Panel 300 W, brackets and cable, £40",
    "Cable and panel 300 W £40",
    "Panel 300 W, £40 a year old",
    "Modul 300 W. Platz sparen: nur 40 €",
    "Spare solar panel 300 W, worth a look, £40",
    "Panel 300 W. £40. Saves £30 a year",
)


@pytest.mark.parametrize("in_field", [True, False])
@pytest.mark.parametrize("text", OF_A_KILOWATT_HOUR)
def test_the_price_of_a_kilowatt_hour_is_none_of_the_goods(text, in_field):
    body, _, amount = text.rpartition(". ")
    sent = Advert(title="", body=body, price_text=amount) if in_field else Advert(title="", body=text)
    reading = read_advert(sent, WORDS)

    assert reading.price.each == 70
    assert "price_conflict" not in reading.doubts


@pytest.mark.parametrize("text", SAVED_OR_GRANTED)
def test_what_is_saved_or_granted_is_no_price(text):
    assert read_advert(Advert(title="", body=text), WORDS).price.value == 300


@pytest.mark.parametrize("text", [*LEAST_BIDS, *THINGS_FIRST, *PRICES])
def test_bids_refused_and_things_beside_are_no_price_and_what_only_looks_so_stays_one(text):
    assert read_advert(Advert(title="", body=text), WORDS).price.each == 40


def test_a_saving_alone_leaves_the_price_open():
    assert read_advert(Advert(title="", body="Panel 300 W. Saves £30 a year"), WORDS).price.value is None


@pytest.mark.parametrize("piece", ["rails £12 each ", "£12 per kWh, ", "offers under £30 "])
def test_many_such_amounts_are_read_in_time_that_grows_with_them(piece):
    few, many = (Advert(title="", body=piece * times) for times in (100, 800))

    assert grows_within(lambda: read_advert(few, WORDS), lambda: read_advert(many, WORDS), 12)
