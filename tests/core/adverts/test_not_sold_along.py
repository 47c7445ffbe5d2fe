"""An inverter that is wanted in exchange, not sold or optional makes no set; one that is counted in a set does."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "2 used panels 430 W £60 each or swap for an 800 W inverter.",
        "Tausche 2 Module 430 W, je 60 €, gegen Wechselrichter 800 W.",
        "2 Module 430 W je 60 €, Tausch gegen Wechselrichter 800 W möglich.",
        "2 panneaux 430 W 60 € pièce ou échange contre micro-onduleur 800 W.",
        "2 pannelli 430 W a 60 € l'uno, oppure scambio con microinverter 800 W.",
        "2 panelen 430 W 60 euro per stuk, of ruil tegen omvormer 800 W.",
        "2 Module 430 W, 60 € pro Stück, der 800 W Wechselrichter wird nicht mitverkauft.",
        "Two 430 W panels, £60 each, 800 W micro inverter not for sale.",
        "2 pannelli 430 W, 60 € l'uno, il microinverter 800 W non è in vendita.",
        "2 placas 430 W, 60 € cada una, el microinversor 800 W no se vende.",
        "2 painéis 430 W, 60 € cada, o microinversor 800 W não se vende.",
        "2 panely 430 W, 60 Kč kus, mikroměnič 800 W není na prodej.",
        "2 panele 430 W, 60 zł sztuka, mikroinwerter 800 W nie jest na sprzedaż.",
        "2 paneler 430 W, 60 kr stk, mikroinverter 800 W sælges ikke.",
        "2 panneaux 430 W 60 € pièce, micro-onduleur 800 W en option 80 €.",
        "Two 430 W panels £60 each, optional 800 W micro inverter £80.",
        "2 panelen 430 W 60 euro per stuk, omvormer 800 W optioneel 80 euro.",
    ],
)
def test_an_inverter_that_does_not_come_along_makes_no_set(body):
    found = reading_of(body)
    assert (found.kind, found.quantity_available, found.price.each) == ("panel", 2, 60)
    assert (found.panel, dict(found.inverter)) == ({"rated_power_w": 430}, {})


@pytest.mark.parametrize(
    "body",
    [
        "Komplettset 2x430 W + 800 W Wechselrichter, 250 €",
        "Kit 2x430 W + 800 W micro inverter, £250",
        "Kit 2x430 W + micro-onduleur 800 W, 250 €",
        "Set 2x 430 W met omvormer 800 W, 250 euro",
        "Kit 2x430 W e inversor 800 W, 250 €",
    ],
)
def test_counted_watts_and_an_inverter_in_a_set_are_those_of_its_panels(body):
    found = reading_of(body)
    assert (found.kind, found.panel_count, found.price.each) == ("set", 2, 250)
    assert (found.panel["rated_power_w"], found.inverter["ac_power_w"]) == (430, 800)


@pytest.mark.parametrize(
    "body",
    [
        "2 Module 430 W mit Wechselrichter 800 W, 250 € zusammen, Tausch gegen Fahrrad möglich",
        "2 panneaux 430 W avec micro-onduleur 800 W, 250 € le tout, câble en option",
        "Set: two 430 W panels and an 800 W inverter, £250, will swap for a bike",
    ],
)
def test_a_swap_of_the_set_or_an_optional_part_leaves_it_a_set(body):
    assert reading_of(body).kind == "set"
