"""Sets that figures alone tell, what must be taken together, buyers looked for in a title, and fetching."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body, title=""):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "Kit 860Wp/800W, 2 panels, £250",
        "Solarpaket 860Wp/800W, 2 Module, 250 €",
        "Kit 860 Wp / 800 W met 2 zonnepanelen, 250 euro",
        "Kit solaire 860Wc/800W, 2 modules, 250 €",
        "Kit solar 860Wp/800W con 2 placas, 250 €",
        "Kit solare 860Wp/800W, 2 moduli, 250 €",
    ],
)
def test_watts_of_panels_over_those_of_an_inverter_tell_a_set(body):
    reading = reading_of(body)
    assert (reading.kind, reading.price.basis, reading.panel_count) == ("set", "set", 2)
    assert reading.panel == {}


@pytest.mark.parametrize(
    "body",
    [
        "4x 415W, 1x 1600W WR, 400 €",
        "4 x 415 Wp + 1 x 1600 W WR 400 €",
        "4x 415W, 1x Wechselrichter 1600W, 400 €",
        "4x 415 W, 1x micro inverter 1600 W, £400 collected",
        "4x 415 W, 1x micro-onduleur 1600 W, 400 € à retirer",
    ],
)
def test_counted_watts_that_only_panels_have_beside_an_inverter_tell_a_set(body):
    reading = reading_of(body)
    assert (reading.kind, reading.quantity_available, reading.panel_count) == ("set", 1, 4)
    assert (reading.panel, reading.inverter) == ({"rated_power_w": 415}, {"ac_power_w": 1600})


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Wechselrichter 1600 W", "für 4x 415 W Module, 100 €"),
        ("", "2x 300 W, 1x 600 W WR, zusammen 100 €"),
        ("", "2x Wechselrichter 350 W, 1x Wechselrichter 600 W, zusammen 100 €"),
    ],
)
def test_inverters_stay_inverters(title, body):
    assert reading_of(body, title).kind == "inverter"


@pytest.mark.parametrize(
    "body",
    [
        "12 panels 300 W, £20 each, all in one purchase only",
        "12 Module 300 W, je 20 €, alles in einem Kauf",
        "12 panneaux 300 W, 20 € pièce, tout en un seul achat",
        "12 placas solares de 300 W, 20 € cada una, todo en una compra",
        "12 paneler 300 W, 150 kr stykket, alt i ét køb",
    ],
)
def test_all_in_one_purchase_is_a_least_number(body):
    reading = reading_of(body)
    assert (reading.least_quantity, reading.doubts) == (12, ("minimum_order",))


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Buyer wanted for 4 solar panels", "300 W, £30 each"),
        ("Käufer gesucht für 4 Solarmodule", "300 W, 30 € das Stück"),
        ("Koper gezocht voor 4 zonnepanelen", "300 Wp, 30 euro per stuk"),
        ("Køber søges til 4 solpaneler", "300 W, 200 kr stykket"),
    ],
)
def test_panels_for_which_a_buyer_is_looked_for_are_offered(title, body):
    reading = reading_of(body, title)
    assert (reading.kind, reading.is_offer, reading.quantity_available) == ("panel", True, 4)


@pytest.mark.parametrize(
    "body",
    [
        "4 panneaux 300 W, 30 € pièce. Venez les chercher à Lyon.",
        "4 placas solares de 300 W, 30 € cada una. Venid a buscarlas a Vigo.",
        "4 panele 300 W, 100 zł sztuka. Trzeba przyjechać i zabrać.",
        "4 painéis 300 W, 30 € cada. Venham buscá-los a Braga.",
        "4 panely 300 W, 500 Kč kus. Přijeďte si pro ně.",
    ],
)
def test_come_and_fetch_them_is_pickup(body):
    assert reading_of(body).delivery == "pickup"
