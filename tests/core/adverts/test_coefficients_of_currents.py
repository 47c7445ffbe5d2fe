"""The coefficient of the current, told in words, is none of the volts or of the watts."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def read(body):
    return read_advert(Advert(title="", body=body), WORDS).panel


@pytest.mark.parametrize(
    "body",
    [
        "Panel 400 W, temperature coefficients: current 0.05, voltage -0.25, power -0.34 %/K. £40",
        "Panel 400 W, temperature coefficients: voltage -0.25 %/K, current 0.05 %/K, power -0.34 %/K. £40",
        "Panel 400 W, temperature coefficient (current) 0.05 %/K, (voltage) -0.25 %/K, (power) -0.34 %/K. £40",
        "Modul 400 W, Temperaturkoeffizient Strom 0,05 %/K, Spannung -0,25 %/K, Leistung -0,34 %/K. 40 Euro",
        "Paneel 400 W, temperatuurcoëfficiënten: stroom 0,05, spanning -0,25, vermogen -0,34 %/K. 40 euro",
        "Panneau 400 W, coefficients de température : courant 0,05, tension -0,25, puissance -0,34 %/K. 40 €",
        "Placa 400 W, coef. temperatura intensidad 0,05 %/K, tensión -0,25 %/K, potencia -0,34 %/K. 40 €",
        "Pannello 400 W, coefficienti di temperatura: corrente 0,05, tensione -0,25, potenza -0,34 %/K. 40 euro",
        "Panel 400 W, współczynnik temperaturowy prądu 0,05 %/K, napięcia -0,25 %/K, mocy -0,34 %/K. 150 zł",
        "Painel 400 W, coeficientes de temperatura: corrente 0,05, tensão -0,25, potência -0,34 %/K. Em mão. 40 €",
        "Panel 400 W, teplotní koeficient proudu 0,05 %/K, napětí -0,25 %/K, výkonu -0,34 %/K. 900 Kč",
        "Panel 400 W, temperaturkoefficient strøm 0,05 %/K, spænding -0,25 %/K, effekt -0,34 %/K. 300 kr.",
        "Panel 400 W, -0.25 %/K voltage, 0.05 %/K current, -0.34 %/K power. £40",
        "Panel 400 W, current 13 A, temperature coefficients Isc 0.05, Voc -0.25, Pmax -0.34 %/K. £40",
    ],
)
def test_each_coefficient_goes_with_its_own_name(body):
    found = read(body)
    assert found["voc_coefficient_pct_per_k"] == -0.25
    assert found["power_coefficient_pct_per_k"] == -0.34
