"""One half of a set is for sale, the other one stays with the seller."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


@pytest.mark.parametrize(
    "body",
    [
        "Selling my micro inverter 700 W, the panels (2x390 W) are staying with me. £50.",
        "Verkaufe Wechselrichter 700 W, die Module (2x390 W) bleiben bei mir. 50 €.",
        "Omvormer 700 W te koop, de panelen (2x390 Wp) blijven bij mij. 50 euro.",
        "Vends micro-onduleur 700 W, les panneaux (2x390 W) sont conservés. 50 €.",
        "Vendo microinversor 700 W, las placas (2x390 W) me las quedo. 50 €.",
        "Vendo microinverter 700 W, i pannelli (2x390 W) li tengo. 50 €.",
        "Sprzedam mikroinwerter 700 W, panele (2x390 W) zostają u mnie. 250 zł.",
        "Vendo microinversor 700 W, os painéis (2x390 W) ficam cá. 50 €.",
        "Prodám mikroměnič 700 W, panely (2x390 W) zůstávají. 1 200 Kč.",
        "Sælger mikroinverter 700 W, panelerne (2x390 W) beholdes. 300 kr.",
    ],
)
def test_panels_that_stay_make_no_set_and_count_no_inverters(body):
    reading = read_advert(Advert(title="", body=body), WORDS)
    assert (reading.kind, reading.quantity_available, reading.price.basis) == ("inverter", 1, "each")
    assert reading.inverter["ac_power_w"] == 700
    assert reading.panel == {}


def test_an_inverter_said_in_brackets_not_to_be_sold_is_none_on_offer():
    reading = read_advert(Advert(title="", body="Two panels 330 W on a 600 W inverter (not for sale), £70."), WORDS)
    assert (reading.kind, reading.inverter) == ("panel", {})
