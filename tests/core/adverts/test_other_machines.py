"""Generators, air conditioners, heat pumps and frequency converters have an inverter, but are none to plug in."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def kind_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS).kind


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Inverter generator 2 kW", "Petrol inverter generator, quiet. £250"),
        ("Inverter air con", "Inverter split air conditioner 3.5 kW, removed. £250"),
        ("Generator 2000 W", "Petrol inverter generator 2000 W, 230 V. £250"),
        ("Inverter Klimagerät", "Split, 2,6 kW. 300 Euro"),
        ("", "Inverter-Stromerzeuger 2000 W, 4-Takt. 250 Euro"),
        ("Airco met inverter", "3,5 kW, gedemonteerd. 200 euro"),
        ("Groupe électrogène inverter 2000 W", "Essence. 250 €"),
        ("Aire acondicionado con inverter", "Split 3,5 kW. 200 €"),
        ("Pompa di calore inverter", "5 kW. 400 euro"),
        ("Falownik do silnika, przemiennik częstotliwości", "1,5 kW. 400 zł"),
        ("Ar condicionado com inversor", "3,5 kW. Em mão. 180 €"),
        ("Frekvenční měnič 2,2 kW", "Na motor. 2000 Kč"),
        ("Varmepumpe med inverter", "Luft-luft. 2500 kr."),
        ("Roof tiles", "200 tiles removed where solar panels were fitted, 50p each"),
        ("Springbrunnen Solar", "Springbrunnen mit Solarpanel 3 W. 20 Euro"),
    ],
)
def test_other_machines_and_things_are_no_goods(title, body):
    assert kind_of(title, body) == "other"


@pytest.mark.parametrize(
    ("title", "body", "kind"),
    [
        ("Micro inverter 800 W", "Ran behind a heat pump meter, works. £60", "inverter"),
        ("Wechselrichter 800 W für Klimaanlage", "60 Euro", "inverter"),
        ("Solarmodule 400 W vom Ziegeldach", "4 Stück, 40 Euro je Stück", "panel"),
        ("Panneaux 400 W sur tuiles", "Démontés. 40 € pièce", "panel"),
        ("Inverter 3 kW off grid", "Pure sine, replaces a generator. £200", "inverter"),
        ("Low frequency inverter 3 kW", "Pure sine, off grid. £200", "inverter"),
        ("Hybridwechselrichter mit Notstrom", "5 kW, klimafreundlich. 300 Euro", "inverter"),
        ("Inverter 800 W, Heathfield", "Works. £60", "inverter"),
        ("Balkonkraftwerk mit Wechselrichter", "2 Module 400 W, Wechselrichter 800 W. 250 Euro", "set"),
    ],
)
def test_goods_that_only_stood_beside_them_stay(title, body, kind):
    assert kind_of(title, body) == kind
