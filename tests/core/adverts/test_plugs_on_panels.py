"""A mains plug on the lead of a panel is dangerous; one on an inverter's lead, or between panels, is ordinary."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
UNSAFE = (
    "Panel 300 W, I put a 13 A plug on the panel cable. £40",
    "Modul 300 W, Schukostecker direkt am Modulkabel, einfach in die Steckdose. 40 Euro",
    "Panel 300 W, 13 A plug wired onto its lead. £40",
    "Panel 300 W, household plug fitted to its cable. £40",
    "Modul 300 W, Schukostecker ans Kabel geklemmt, ohne Wechselrichter. 40 Euro",
    "Paneel 300 W, stekker voor het stopcontact aan de kabel. 40 euro",
    "Panneau 300 W, fiche secteur montée sur son câble. 40 €",
    "Placa solar 300 W, clavija schuko puesta en su cable. 40 €",
    "Pannello solare 300 W, spina di casa collegata al suo cavo. 40 €",
    "Panel fotowoltaiczny 300 W, wtyczka sieciowa na jego kablu. 160 zł",
    "Painel solar 300 W, ficha de tomada montada no seu cabo. 40 €",
    "Solární panel 300 W, síťová zástrčka na jeho kabelu. 900 Kč",
    "Solpanel 300 W, schukostik sat på ledningen. 300 kr",
    "Paneel 300 W, stekker direct aan de paneelkabel, zo het stopcontact in. 40 euro",
)
ORDINARY = (
    "Panel 300 W with MC4 plug on its lead. £40",
    "Micro inverter 600 W with 13 A plug on its lead, £60",
    "Panel 300 W. Never put a 13 A plug on the panel cable! £40",
    "Mikrowechselrichter 600 W mit Schukostecker am Kabel, 60 Euro",
    "Modul 300 W mit Stecker am Modulkabel (MC4), 40 Euro",
    "Set: 2 Module 400 W, Wechselrichter 800 W mit Schukostecker, 250 Euro",
    "Micro inverter 600 W, 13 A plug wired onto its lead, £60",
    "Mikroinverter 600 W, schukostik sat på ledningen, 400 kr",
    "Panel 300 W, MC4 plugs wired onto its lead. £40",
    "Panel 300 W. Needs an inverter with a 13 A plug on its lead. £40",
    "Panel 300 W. No 13 A plug on the lead. £40",
    "Panel 300 W. Had a 13 A plug on the lead, cut off. £40",
    "Panel 300 W. Comes with a phone charger, mains plug on its lead. £40",
    "Modul 300 W. Bitte keinen Schukostecker ans Kabel montieren. 40 Euro",
    "Panneau 300 W. Pas de fiche secteur sur le câble. 40 €",
    "Omvormer 600 W met stekker, zo het stopcontact in. 60 euro",
)


@pytest.mark.parametrize("text", UNSAFE)
def test_a_mains_plug_on_a_panel_is_unsafe(text):
    assert "unsafe_practice" in read_advert(Advert(title="", body=text), WORDS).doubts


@pytest.mark.parametrize("text", ORDINARY)
def test_other_plugs_are_ordinary(text):
    assert "unsafe_practice" not in read_advert(Advert(title="", body=text), WORDS).doubts
