"""What a row of coefficients tells is no current; cells in series are no panels; a sticker on a frame is no plate."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def read(body, title=""):
    found = read_advert(Advert(title=title, body=body), WORDS)
    assert found.kind == "panel"
    return found


@pytest.mark.parametrize(
    ("panel", "row"),
    [
        ("Solar panel", "temp coefs: Isc 0.05 Voc -0.28 Pmax -0.35"),
        ("Solar panel", "Tempco Isc 0.05 Voc -0.28"),
        ("Solar panel", "temperature coefficients alpha Isc 0.05, beta Voc -0.28, gamma Pmax -0.35 %/K"),
        ("Solarmodul", "Temperaturkoeffizienten (%/K): Isc 0,05 / Voc -0,28 / Pmax -0,35"),
        ("Solarmodul", "Temp. Koeff. alpha Isc 0,05, beta Uoc -0,28, gamma Pmpp -0,35 %/K"),
        ("Zonnepaneel", "temp. coëff. Isc 0,05 Voc -0,28"),
        ("Panneau solaire", "coefficients de température : alpha Isc 0,05 ; bêta Voc -0,28"),
        ("Placa solar", "coeficientes de temperatura: alfa Isc 0,05, beta Voc -0,28"),
        ("Pannello solare", "coefficienti di temperatura: alfa Isc 0,05, beta Voc -0,28"),
        ("Panel słoneczny", "wsp. temp. Isc 0,05 Voc -0,28"),
        ("Painel solar", "coeficientes de temperatura: alfa Isc 0,05, beta Voc -0,28"),
        ("Solární panel", "tepl. koef. Isc 0,05 Voc -0,28"),
        ("Solpanel", "temp. koeff. Isc 0,05 Voc -0,28"),
    ],
)
def test_a_coefficient_is_no_current_and_hides_none(panel, row):
    assert "short_circuit_current_a" not in read(f"{panel} 400 W, {row}.").panel
    for body in (f"{panel} 400 W, {row}. Voc 37.1 V, Isc 13.8 A.", f"{panel} 400 W, Voc 37.1 V, Isc 13.8 A, {row}."):
        found = read(body).panel
        assert (found["open_circuit_voltage_v"], found["short_circuit_current_a"]) == (37.1, 13.8)


def test_a_small_panel_has_a_small_current():
    assert read("Solar panel 5 W, 18 V, Isc 0.3 A.").panel["short_circuit_current_a"] == 0.3


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 400 W Voc 37.1 V in series of 54 cells Isc 13.8 A",
        "Solarmodul 400 W, Uoc 37,1 V in Reihe von 54 Zellen, Isc 13,8 A",
        "Panneau solaire 400 W Voc 37,1 V en série de 54 cellules, Isc 13,8 A",
    ],
)
def test_volts_beside_cells_in_series_are_those_of_the_panel(body):
    assert read(body).panel["open_circuit_voltage_v"] == 37.1


def test_volts_of_panels_in_series_are_not_those_of_one_beside_cells_told_apart():
    assert "open_circuit_voltage_v" not in read("2 solar panels 400 W, Voc 74 V in series, 54 cells").panel


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 400 W. Old stickers scraped off the frame.",
        "Solarmodul 400 W. Aufkleber auf dem Rahmen abgekratzt, Typenschild vorhanden.",
        "Zonnepaneel 400 W. Oude stickers van het frame afgekrast.",
        "Panneau solaire 400 W. Autocollants grattés sur le cadre.",
        "Placa solar 400 W. Pegatinas del marco raspadas.",
        "Pannello solare 400 W. Adesivo raschiato dal telaio.",
        "Panel słoneczny 400 W. Naklejki zdrapane z ramy.",
        "Painel solar 400 W. Autocolantes raspados da moldura.",
        "Solární panel 400 W. Nálepky seškrábané z rámu.",
        "Solpanel 400 W. Klistermærker skrabet af rammen.",
    ],
)
def test_a_sticker_on_the_frame_is_no_label_of_the_ratings(body):
    assert "label_removed" not in read(body).doubts


@pytest.mark.parametrize(
    "body",
    [
        "Solar panel 400 W. Rating label scraped off the frame.",
        "Solar panel 400 W. Rating sticker scraped off the frame.",
        "Solarmodul 400 W. Typenschild am Rahmen abgekratzt.",
        "Solar panel 400 W. Sticker on the back scraped off, frame fine.",
        "Solarmodul 400 W. Aufkleber abgekratzt.",
    ],
)
def test_a_plate_scraped_off_a_frame_is_a_removed_label(body):
    assert "label_removed" in read(body).doubts
