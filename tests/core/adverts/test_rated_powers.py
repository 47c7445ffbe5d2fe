"""The rated power of a panel, not what it may reach at most with light from behind."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def power_of(body):
    return read_advert(Advert(title="", body=body), WORDS).panel["rated_power_w"]


@pytest.mark.parametrize(
    "body",
    [
        "Bifacial panel, up to 540 W, rated 430 W. £60",
        "Bifaziales Modul, bis zu 540 W, Nennleistung 430 W. 60 Euro",
        "Bifaciaal zonnepaneel, tot 540 W, nominaal vermogen 430 W. 60 euro",
        "Panneau bifacial jusqu'à 540 W (430 W nominal). 60 €",
        "Panel bifacial hasta 540 W, nominal 430 W. 60 €",
        "Pannello bifacciale fino a 540 W, potenza nominale 430 W. 60 euro",
        "Panel dwustronny do 540 W, moc znamionowa 430 W. 250 zł",
        "Painel bifacial até 540 W, potência nominal 430 W. Em mão. 60 €",
        "Bifaciální panel až 540 W, jmenovitý výkon 430 W. 1500 Kč",
        "Bifacialt solcellepanel op til 540 W, nominel effekt 430 W. 400 kr.",
    ],
)
def test_the_rated_power_beats_what_it_may_reach(body):
    assert power_of(body) == 430


@pytest.mark.parametrize(
    ("body", "power"),
    [
        ("Panel up to 430 W. £60", 430),
        ("4 panels rated 430 W, for inverters up to 800 W. £160", 430),
        ("Kit: 2 panels 450 W, inverter up to 800 W, rated 600 W. £200", 450),
    ],
)
def test_where_no_other_is_rated_it_stays(body, power):
    assert power_of(body) == power
