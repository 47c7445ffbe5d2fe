"""Labels taken off, payment before the goods, and goods that are not sold one by one."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def doubts_of(body, title="8 Module 300 W"):
    return read_advert(Advert(title=title, body=body), WORDS).doubts


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panel 300 W", "The label has been removed. £20"),
        ("Modul 300 W", "Das Typenschild wurde leider entfernt. 20 €"),
        ("Paneel 300 Wp", "Het typeplaatje is verwijderd, 20 euro"),
        ("Panneau 300 W", "L'étiquette a été arrachée, 20 €"),
        ("Placa 300 W", "La etiqueta ha sido arrancada, 20 €"),
        ("Pannello 300 W", "L'etichetta è stata rimossa, 20 €"),
        ("Panel 300 W", "Tabliczka została usunięta, 90 zł za sztukę"),
        ("Painel 300 W", "A etiqueta foi removida, 20 €"),
        ("Panel 300 W", "Štítek je strhnutý, 500 Kč za kus"),
        ("Panel 300 W", "Typeskiltet er fjernet, 150 kr stk"),
    ],
)
def test_a_label_taken_off_raises_a_doubt(title, body):
    assert "label_removed" in doubts_of(body, title)


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panel 300 W", "Label intact, rails removed. £20"),
        ("Modul 300 W", "Typenschild nicht entfernt, Folie entfernt. 20 €"),
        ("Panneau 300 W", "Retiré du toit, étiquette lisible, 20 €"),
        ("Painel 300 W", "Retirado do telhado, etiqueta legível, 20 €"),
    ],
)
def test_a_label_that_is_there_raises_none(title, body):
    assert "label_removed" not in doubts_of(body, title)


@pytest.mark.parametrize(
    ("title", "body", "doubted"),
    [
        ("Panele 300 W", "90 zł za sztukę, płatne z góry", True),
        ("Paneler 300 W", "150 kr stk, betal forud", True),
        ("Panely 300 W", "500 Kč za kus, zaplatit předem", True),
        ("Painéis 300 W", "20 € cada, pagar adiantado", True),
        ("Panneaux 300 W", "20 € pièce, paiement à l'avance", True),
        ("Panele 300 W", "90 zł za sztukę, płatne przy odbiorze", False),
        ("Paneler 300 W", "150 kr stk, betaling ved afhentning", False),
    ],
)
def test_payment_before_the_goods_raises_a_doubt(title, body, doubted):
    assert ("advance_payment" in doubts_of(body, title)) == doubted


@pytest.mark.parametrize(
    ("title", "body", "doubted"),
    [
        ("8 panels 300 W", "£160 the lot, sold only together", True),
        ("26 panels 300 W, one pallet", "£500, wont split", True),
        ("8 Module 300 W", "nur satzweise, 160 €", True),
        ("8 painéis 300 W", "160 €, não vendo à peça", True),
        ("8 zonnepanelen 300 Wp", "160 euro, alleen per set", True),
        ("8 paneler 300 W", "1200 kr, sælges kun sammen", True),
        ("8 placas 300 W", "160 €, no se venden por separado", True),
        ("8 panels 300 W", "£20 each, happy to split", False),
        ("8 Module 300 W", "je 20 €, auch einzeln", False),
    ],
)
def test_goods_that_are_not_sold_one_by_one_raise_a_doubt(title, body, doubted):
    assert ("minimum_order" in doubts_of(body, title)) == doubted
