"""A mains plug on the lead of a panel is dangerous; one on an inverter's lead, or between panels, is ordinary."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
UNSAFE = (
    "Panel 300 W, I put a 13 A plug on the panel cable. £40",
    "Modul 300 W, Schukostecker direkt am Modulkabel, einfach in die Steckdose. 40 Euro",
    "Paneel 300 W, stekker direct aan de paneelkabel, zo het stopcontact in. 40 euro",
)
ORDINARY = (
    "Panel 300 W with MC4 plug on its lead. £40",
    "Micro inverter 600 W with 13 A plug on its lead, £60",
    "Panel 300 W. Never put a 13 A plug on the panel cable! £40",
    "Mikrowechselrichter 600 W mit Schukostecker am Kabel, 60 Euro",
    "Modul 300 W mit Stecker am Modulkabel (MC4), 40 Euro",
    "Set: 2 Module 400 W, Wechselrichter 800 W mit Schukostecker, 250 Euro",
    "Omvormer 600 W met stekker, zo het stopcontact in. 60 euro",
)


@pytest.mark.parametrize("text", UNSAFE)
def test_a_mains_plug_on_a_panel_is_unsafe(text):
    assert "unsafe_practice" in read_advert(Advert(title="", body=text), WORDS).doubts


@pytest.mark.parametrize("text", ORDINARY)
def test_other_plugs_are_ordinary(text):
    assert "unsafe_practice" not in read_advert(Advert(title="", body=text), WORDS).doubts
