"""Sellers tell what they look for, too: nothing in exchange, one once, bigger ones now, what the reader looks for."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
SELLERS = (
    ("4 panels 300 W", "Looking for nothing in exchange. £40 each"),
    ("4 panels 300 W", "Was looking for ten myself last year. £40 each"),
    ("4 panels 300 W", "For anyone looking for spares. £40 each"),
    ("4 Module 300 W", "Ich suche nichts zum Tausch. 40 € pro Stück"),
    ("4 Module 300 W", "Suche jetzt größere. 40 € pro Stück"),
    ("4 Module 300 W", "Suche keine Tauschgeschäfte. 40 € pro Stück"),
    ("4 panelen 300 W", "Ik zoek niets om te ruilen. 40 euro per stuk"),
    ("4 panelen 300 W", "Was op zoek naar tien, kreeg er veertien. 40 euro per stuk"),
    ("4 panneaux 300 W", "Je ne cherche rien à échanger. 40 € pièce"),
    ("4 placas 300 W", "Busco nada a cambio. 40 € cada una"),
    ("4 placas 300 W", "Estaba buscando diez. 40 € cada una"),
    ("4 pannelli 300 W", "Ora cerco più grandi. 40 € l'uno"),
    ("4 pannelli 300 W", "Per chi è alla ricerca di ricambi. 40 € l'uno"),
    ("4 panele 300 W", "Byłem w poszukiwaniu dziesięciu. 150 zł sztuka"),
    ("4 panele 300 W", "Szukam większych. 150 zł sztuka"),
    ("4 painéis 300 W", "Para quem anda à procura. 40 € cada"),
    ("4 painéis 300 W", "Procuro maiores. 40 € cada"),
    ("4 panely 300 W", "Hledám větší. 1000 Kč kus"),
    ("4 paneler 300 W", "Til dem der søger reserve. 400 kr. stk."),
    ("4 paneler 300 W", "Søger intet i bytte. 400 kr. stk."),
)
BUYERS = (
    ("Solar panel", "Looking for a panel, nothing fancy. Up to £40"),
    ("Solar panel", "I was looking for a 300 W panel if anyone has one. I can pay £40"),
    ("Solarmodule", "Ich suche größere Module. Zahle 50 € das Stück"),
    ("Panneaux", "Je cherche deux panneaux plus grands. Budget 80 €"),
    ("Placas", "Busco dos placas grandes. Pago 40 € cada una"),
    ("Pannelli", "Cerco pannelli grandi. Pago 40 € l'uno"),
    ("Panely", "Hledám větší panely. Zaplatím 1000 Kč"),
    ("Panel 300 W", "Jeg søger et panel. 400 kr."),
)


@pytest.mark.parametrize(("title", "body"), SELLERS)
def test_who_looks_for_no_such_goods_sells_them(title, body):
    reading = read_advert(Advert(title=title, body=body), WORDS)

    assert (reading.is_offer, reading.kind, reading.quantity_available) == (True, "panel", 4)
    assert reading.price is not None


@pytest.mark.parametrize(("title", "body"), BUYERS)
def test_who_looks_for_goods_and_pays_is_a_buyer(title, body):
    reading = read_advert(Advert(title=title, body=body), WORDS)

    assert not reading.is_offer
    assert "wanted_ad" in reading.doubts
