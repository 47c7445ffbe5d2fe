"""An advert of what is sold already says so: a doubt, whatever else it tells; what is sold in a manner is not sold."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def reading_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Module", "2 Module 400 Wp, gebraucht, 50 € pro Stück. VERKAUFT!"),
        ("2 Module 400 Wp - verkauft", "Gebrauchte Module, 50 € pro Stück, Abholung."),
        ("2 Module 400 Wp", "Edit: alles weg. Gebrauchte Module, 50 € pro Stück."),
        ("Verkocht", "Verkocht: 2 panelen 400 Wp, 50 euro per stuk"),
        ("2 panelen 400 Wp (verkocht)", "Gebruikte panelen, 50 euro per stuk, ophalen."),
        ("VENDU", "Vendu ! 2 panneaux 400 W, 50 € pièce"),
        ("2 panneaux solaires 400 W", "Panneaux d'occasion, 50 € pièce. Déjà vendus."),
        ("SOLD", "SOLD! 2 solar panels 400 W, £50 each"),
        ("SOLD 2 solar panels 400 W", "Used panels from our shed, £50 each"),
        ("2 solar panels 400 W", "No longer available. Used panels, £50 each."),
        ("2 placas 400 W VENDIDO", "VENDIDAS. 2 placas usadas de 400 W, 50 € cada una."),
        ("2 placas de 400 W", "Placas usadas, 50 € cada una. Ya no disponibles."),
        ("2 pannelli 400 W", "VENDUTI! Pannelli usati da 400 W, 50 € l'uno."),
        ("2 pannelli 400 W", "Pannelli usati, 50 € l'uno. Non più disponibili."),
        ("2 panele 400 W", "SPRZEDANE. Używane panele 400 W, 200 zł za sztukę."),
        ("2 panele 400 W", "Używane panele, 200 zł za sztukę. Ogłoszenie nieaktualne!"),
        ("2 painéis 400 W", "VENDIDO! Painéis usados de 400 W, 50 € cada."),
        ("2 painéis 400 W", "Painéis usados, 50 € cada. Já não disponíveis."),
        ("2 panely 400 W", "PRODÁNO! Použité panely 400 W, 1 200 Kč za kus."),
        ("2 panely 400 W", "Použité panely, 1 200 Kč za kus. Již není k dispozici."),
        ("Solgt", "Solgt! 2 brugte solpaneler 400 W, 350 kr. pr. stk."),
        ("2 solpaneler 400 W", "Brugte paneler, 350 kr. pr. stk. Er solgt."),
    ],
)
def test_what_is_sold_is_doubted(title, body):
    reading = reading_of(title, body)
    assert "sold" in reading.doubts
    assert reading.kind == "panel"


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("2 solar panels 400 W", "Sold as seen, not tested. £50 each."),
        ("4 solar panels 400 W", "One sold, three left. £50 each, not sold separately."),
        ("4 solar panels 400 W", "If the advert is up they are not sold. £50 each. Will delete when sold."),
        ("10 solar panels 400 W", "£50 each, sold in pairs. Sold by the pallet only. The inverter is already sold."),
        ("Solarmodule 400 W", "Verkauft werden 10 Stück, 40 € pro Stück. Der Wechselrichter ist schon verkauft."),
        ("10 Module 400 Wp", "Werden nur zusammen verkauft. Noch nicht verkauft, solange hier zu sehen. 300 € alle."),
        ("4 panelen 400 Wp", "Wordt verkocht als set, 150 euro samen. Omvormer is verkocht."),
        ("4 panneaux 400 W", "Vendus par lot de 4, 150 € le lot. Vendu à la palette uniquement."),
        ("4 placas 400 W", "Se venden juntas, 150 € todas. Aún no vendidas, el inversor ya vendido."),
        ("4 pannelli 400 W", "Venduti solo insieme, 150 € tutti. Non ancora venduti."),
        ("4 panele 400 W", "Sprzedawane razem, 600 zł całość. Falownik sprzedany osobno."),
        ("4 painéis 400 W", "Vendidos em conjunto, 150 € tudo. Ainda não vendido."),
        ("4 panely 400 W", "Prodám jen vše, 4 000 Kč dohromady. Měnič už prodán zvlášť."),
        ("4 solpaneler 400 W", "Sælges samlet, 1200 kr. i alt. Inverteren er solgt."),
    ],
)
def test_what_is_sold_in_some_manner_or_in_part_is_on_offer(title, body):
    assert "sold" not in reading_of(title, body).doubts


def test_a_word_for_sold_in_small_letters_is_as_good():
    for body in ("2 used solar panels 400 W, £50 each. SOLD", "2 used solar panels 400 w, £50 each. sold"):
        assert "sold" in reading_of("", body).doubts
