"""Plugs of the mains on each inverter's own lead, and plugs between panels, are no danger; others are."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def is_doubted(title, body):
    return "unsafe_practice" in read_advert(Advert(title=title, body=body), WORDS).doubts


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Three micro inverters 300 W", "All working, 13 amp plug on each cable. £40 each"),
        ("Two micro inverters", "Plugs on both cables, £40 each"),
        ("2 micro-omvormers 300 W", "Stekker aan elk snoer, 40 euro per stuk"),
        ("2 microinversores de 300 W", "Enchufe en los dos cables, 40 € cada uno"),
        ("Due microinverter 300 W", "Spina su entrambi cavi, 40 € l'uno"),
        ("Dwa mikroinwertery 300 W", "Wtyczki na obu kablach, 150 zł za sztukę"),
        ("Dois microinversores 300 W", "Ficha em cada cabo, 40 € cada"),
        ("Dva mikroměniče 300 W", "Zástrčka na obou kabelech, 900 Kč za kus"),
        ("To mikroinvertere 300 W", "Stikprop i hver ledning, 300 kr stk"),
        ("4 panels 300 W", "MC4 plugs on both leads, £20 each"),
        ("Panel 300 W, 2 inverters", "13A plug on each inverter, £120"),
    ],
)
def test_a_plug_on_each_own_lead_or_between_panels_raises_no_doubt(title, body):
    assert not is_doubted(title, body)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("4 panels 300 W", "I put a 13A plug on each lead, £20 each"),
        ("Two micro inverters", "13A plug on each lead of the solar panels"),
        ("Micro inverter 300 W", "Comes with a lead, plug on each end"),
        ("Micro inverter 300 W", "Lead has a plug on each cable end"),
        ("Micro inverter 300 W", "Mains and MC4, plug on both ends"),
        ("Micro inverter 300 W", "Lead with 13A and MC4 plug on each end"),
        ("Mikrowechselrichter 300 W", "Kabel mit Schuko an beiden Enden"),
        ("Microinversor 300 W", "Cable con clavija en cada extremo"),
        ("Microinversor 300 W", "Cabo com ficha em cada ponta"),
        ("Mikroinverter 300 W", "Kabel med stikprop i hver ende"),
        ("Mikroinwerter 300 W", "Kabel, wtyczki na obu końcach"),
    ],
)
def test_a_lead_with_two_plugs_and_a_mains_plug_on_a_panel_stay_doubted(title, body):
    assert is_doubted(title, body)


@pytest.mark.parametrize("title", ["Micro inverter", "Mikroinverter"])
@pytest.mark.parametrize("body", ["spina 16 A", "zástrčka 16 A", "Stecker 16 A", "gniazdo 16 A"])
def test_a_current_behind_an_unknown_word_is_no_limit(title, body):
    assert "max_current_a" not in read_advert(Advert(title=title, body=body), WORDS).inverter
