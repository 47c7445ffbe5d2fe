"""The watts of several panels together, and sizes and weights of what is beside them."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def panel_of(body):
    return read_advert(Advert(title="", body=body), WORDS).panel


@pytest.mark.parametrize(
    "body",
    [
        "900 watts of panels, 3 x 300W, £90",
        "900 W an Modulen: 3 x 300 W, 90 €",
        "900 Wp aan panelen, 3 x 300 Wp, 90 euro",
        "900 W de panneaux : 3 x 300 W, 90 €",
        "900 W de placas, 3 x 300 W, 90 €",
        "900 W di pannelli, 3 x 300 W, 90 €",
        "900 W paneli, 3 x 300 W, 400 zł",
        "900 W de painéis, 3 x 300 W, 90 €",
        "900 W v panelech, 3 x 300 W, 2 000 Kč",
        "900 W paneler, 300 W x 3, 600 kr",
    ],
)
def test_watts_of_all_together_are_not_those_of_one(body):
    assert panel_of(body)["rated_power_w"] == 300


def test_another_power_is_no_total():
    assert panel_of("Panels 2 x 300 W, also 410 W tested.")["rated_power_w"] == 300
    assert panel_of("Panel 300 W, £90")["rated_power_w"] == 300


@pytest.mark.parametrize(
    "body",
    [
        "Panel 300 W, crate 1750 x 1100 mm, 31 kg with packaging, £30",
        "Modul 300 W, Kiste 175 x 110 cm, 31 kg mit Verpackung, 30 €",
        "Paneel 300 Wp, kist 175 x 110 cm, 31 kg met verpakking, 30 euro",
        "Panneau 300 W, caisse 175 x 110 cm, 31 kg avec emballage, 30 €",
        "Placa 300 W, caja 175 x 110 cm, 31 kg con embalaje, 30 €",
        "Pannello 300 W, scatola 175 x 110 cm, 31 kg con imballo, 30 €",
        "Panel 300 W, karton 175 x 110 cm, 31 kg z opakowaniem, 130 zł",
        "Painel 300 W, caixa 175 x 110 cm, 31 kg com embalagem, 30 €",
        "Panel 300 W, krabice 175 x 110 cm, 31 kg s obalem, 700 Kč",
        "Panel 300 W, kasse 175 x 110 cm, 31 kg med emballage, 200 kr",
    ],
)
def test_the_size_and_weight_of_a_crate_are_not_those_of_the_panel(body):
    assert panel_of(body) == {"rated_power_w": 300}


def test_a_length_and_a_number_are_no_size():
    assert panel_of("Panel 300 W with lead 1.2 m x 2, £30") == {"rated_power_w": 300}
    assert panel_of("Panel 300 W, 1.65 x 0.99 m, 18 kg, £30")["length_mm"] == 1650
