"""An inverter that is named with panels' words is an inverter of its watts; what lists both stays a set."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
NAMED = ("Onduleur panneaux solaires 600W", "Inversor placas solares 600 W", "Inverter pannelli solari 600W",
         "Omvormer zonnepanelen 600W", "Inwerter panele słoneczne 600 W", "Střídač solární panely 600W",
         "Inverter solceller 600 W", "Inversor painéis solares 600W", "Solcelleinverter 600 W",
         "Solar panel inverter 600 W", "Wechselrichter Solarmodule 600 W")  # fmt: skip
OTHERS = {
    "Inverter, 2 pannelli solari 400 W": "set", "Onduleur 600 W + panneaux solaires 400 W": "set",
    "Omvormer en 2 zonnepanelen 400 W": "set", "Solar panel 400 W for micro inverter": "panel",
}  # fmt: skip


def read(title, body="60 €."):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize("title", NAMED)
def test_it_is_an_inverter_of_its_watts(title):
    found = read(title)
    assert (found.kind, dict(found.inverter), dict(found.panel)) == ("inverter", {"ac_power_w": 600.0}, {})


def test_panels_of_the_text_that_are_its_purpose_change_nothing():
    assert read("Onduleur panneaux solaires 600W", "Pour 2 panneaux de 410 W. 60 €.").kind == "inverter"


@pytest.mark.parametrize("title", OTHERS)
def test_what_lists_both_or_is_for_an_inverter_is_as_before(title):
    assert read(title).kind == OTHERS[title]


def test_panels_that_the_text_offers_too_are_not_left_out():
    assert read("Onduleur panneaux solaires 600W", "Vendu avec 2 panneaux de 410 W. 260 €.").kind != "inverter"
