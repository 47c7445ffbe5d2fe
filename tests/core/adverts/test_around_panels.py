"""Boxes, frames and power stores that panels are told beside are no panels; panels with boxes and frames stay some."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(body):
    return read_advert(Advert(title="Solar", body=body), WORDS)


@pytest.mark.parametrize(
    "body",
    [
        "Empty boxes from two 400 W solar panels, good for moving house. £5.",
        "Just the aluminium frames of four 400 W panels. £20.",
        "Power bank with a small solar panel, 20 W. £15.",
        "Leere Kartons von zwei 400-W-Solarmodulen, gut zum Umziehen. 5 Euro.",
        "Verpackungskartons von drei 410-W-Modulen, leer. 4 Euro.",
        "Powerstation 1000 W, kann mit einem 400-W-Solarmodul geladen werden (nicht dabei). 300 Euro.",
        "Cadres seuls de panneaux 410 W, sans verre. 15 euros.",
        "Station électrique 1000 W, se recharge avec un panneau solaire 400 W (non fourni). 300 euros.",
        "Cajas vacías de dos placas solares de 400 W, para mudanza. 5 euros.",
        "Solo le cornici in alluminio di quattro pannelli da 400 W. 20 euro.",
        "Powerstation 1000 W, op te laden met een zonnepaneel van 400 W (niet inbegrepen). 300 euro.",
        "Same ramy aluminiowe z czterech paneli 400 W. 20 zł.",
        "Prázdné krabice od dvou panelů 400 W, na stěhování. 50 Kč.",
        "Kun aluminiumsrammerne fra fire paneler på 400 W. 100 kr.",
        "Estação de energia 1000 W, carrega com um painel de 400 W (não incluído). 300 euros.",
    ],
)
def test_what_was_around_panels_is_none(body):
    reading = reading_of(body)
    assert (reading.kind, reading.doubts, reading.panel.get("open_circuit_voltage_v")) == (
        "other",
        ("other_goods",),
        None,
    )


@pytest.mark.parametrize(
    "body",
    [
        "Two 410 W panels in their original boxes. £80.",
        "410 W panel, charged my power station all summer. £60.",
        "Just the frame of one of the 410 W panels is scratched. £60.",
        "Empty boxes from two 410 W panels, and the panels. £60 each.",
        "Zwei 410-W-Module, nur der Rahmen hat Kratzer. 80 Euro.",
        "Karton mit zwei 410-W-Modulen. 80 Euro.",
        "Nur Rahmen aus Alu mit zwei Modulen 410 W. 80 Euro.",
        "410-W-Modul für eine Powerstation (nicht dabei). 60 Euro.",
        "Deux panneaux 410 W, cadre noir, dans leurs cartons. 80 euros.",
        "Placa de 410 W para cargar una estación de energía (no incluida). 60 euros.",
        "Pannello 410 W, solo la cornice è graffiata. 60 euro.",
        "Doos met twee panelen 410 W. 80 euro.",
        "Dwa panele 410 W w kartonach, rama czarna. 80 zł.",
        "Panel 410 W, jen rám je poškrábaný. 60 Kč.",
        "To paneler 410 W i kasser, sort ramme. 80 kr.",
        "Dois painéis 410 W, moldura preta, nas caixas. 80 euros.",
    ],
)
def test_panels_in_boxes_and_frames_stay_panels(body):
    reading = reading_of(body)
    assert (reading.kind, reading.panel["rated_power_w"]) == ("panel", 410)
