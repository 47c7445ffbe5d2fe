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


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panel 320 W", "The label on the packaging was removed, rating plate present. £30"),
        ("Panel 320 W", "No labels removed. £30"),
        ("Modul 320 W", "Aufkleber vom Karton entfernt, Typenschild vorhanden. 30 €"),
        ("Modul 320 W", "Keine Etiketten entfernt. 30 €"),
        ("Paneel 320 Wp", "Sticker van de verpakking verwijderd, typeplaatje aanwezig. 30 euro"),
        ("Paneel 320 Wp", "Geen labels verwijderd, 30 euro"),
        ("Panneau 320 W", "Étiquette de prix retirée, 30 €"),
        ("Panneau 320 W", "Aucune étiquette retirée, 30 €"),
        ("Placa 320 W", "Etiqueta del embalaje arrancada, 30 €"),
        ("Placa 320 W", "Ninguna etiqueta arrancada, 30 €"),
        ("Pannello 320 W", "Etichetta della scatola rimossa, 30 €"),
        ("Pannello 320 W", "Nessuna etichetta rimossa, 30 €"),
        ("Panel 320 W", "Etykieta z pudełka usunięta, tabliczka na miejscu, 90 zł za sztukę"),
        ("Panel 320 W", "Żadna etykieta usunięta, 90 zł za sztukę"),
        ("Painel 320 W", "Etiqueta da embalagem removida, 30 €"),
        ("Painel 320 W", "Nenhuma etiqueta removida, 30 €"),
        ("Panel 320 W", "Štítek na obalu stržený, 500 Kč za kus"),
        ("Panel 320 W", "Žádný štítek odstraněn, 500 Kč za kus"),
        ("Panel 320 W", "Mærkat på emballagen fjernet, 150 kr stk"),
        ("Panel 320 W", "Ingen mærkater fjernet, 150 kr stk"),
    ],
)
def test_labels_of_boxes_and_prices_and_none_removed_are_no_fault(title, body):
    reading = read_advert(Advert(title=title, body=body), WORDS)
    assert "label_removed" not in reading.doubts
    assert "missing_label" not in reading.defects


@pytest.mark.parametrize(
    ("title", "body"),
    [
        ("Panel 320 W", "Label gone from the junction box side, box of cables included. £30"),
        ("Modul 320 W", "Etikett fehlt, im Karton. 30 €"),
        ("Modul 320 W", "Kein Typenschild, Glas in Ordnung. 30 €"),
        ("Paneel 320 Wp", "Sticker ontbreekt, in doos, 30 euro"),
        ("Panneau 320 W", "Étiquette manquante, prix 30 €"),
        ("Placa 320 W", "Sin etiqueta, precio 30 €"),
        ("Pannello 320 W", "Senza etichetta, prezzo 30 €"),
        ("Panel 320 W", "Brak tabliczki, cena 90 zł za sztukę"),
        ("Painel 320 W", "Sem etiqueta, preço 30 €"),
        ("Panel 320 W", "Bez štítku, cena 500 Kč za kus"),
        ("Panel 320 W", "Uden mærkat, pris 150 kr stk"),
    ],
)
def test_the_label_of_the_goods_is_missed_beside_boxes_and_prices(title, body):
    assert "missing_label" in read_advert(Advert(title=title, body=body), WORDS).defects


@pytest.mark.parametrize(
    "body",
    [
        "Label removed, see photos. £30",
        "Labels removed and packed in boxes. £30",
        "Typenschild entfernt, siehe Fotos. 30 €",
    ],
)
def test_photos_and_boxes_of_the_goods_excuse_no_label_taken_off(body):
    reading = read_advert(Advert(title="Solar 320 W", body=body), WORDS)
    assert "label_removed" in reading.doubts
    assert "missing_label" in reading.defects


def test_a_plate_that_there_is_a_photo_of_is_missing_but_nobody_hides_it():
    reading = read_advert(Advert(title="Panel 320 W", body="Rating plate removed, I took a photo of it. £30"), WORDS)
    assert "label_removed" not in reading.doubts
    assert "missing_label" in reading.defects


@pytest.mark.parametrize(
    "body",
    [
        "£30 each. Payment in advance is not required",
        "30 € je Stück. Vorauszahlung verlange ich nicht",
        "30 € je Stück. Zuerst prüfen, dann überweisen",
        "30 euro per stuk. Vooruitbetaling is niet vereist",
        "30 euro per stuk. Kijken, daarna eerst betalen",
        "30 € pièce. Paiement d'avance pas demandé",
        "30 € cada una. El pago por adelantado no es necesario",
        "30 € l'uno. Il pagamento anticipato non è richiesto",
        "120 zł za sztukę. Zaliczki nie wymagam",
        "30 € cada. Pagamento antecipado não é necessário",
        "600 Kč za kus. Zálohu předem nepotřebuji",
        "200 kr stk. Forudbetaling kræves ikke",
    ],
)
def test_payment_that_is_not_asked_for_or_after_a_look_raises_none(body):
    assert "advance_payment" not in doubts_of(body)


@pytest.mark.parametrize(
    "body",
    [
        "£30 each. Payment in advance, not refundable",
        "£30 each. Prepayment required no exceptions",
        "30 € je Stück. Vorkasse, nicht verhandelbar",
        "30 € je Stück. Vorkasse erforderlich kein Umtausch",
        "30 € je Stück. Erst überweisen, dann anschauen",
        "30 euro per stuk. Vooruitbetaling, niet onderhandelbaar",
        "30 € pièce. Paiement d'avance, pas de reprise",
        "30 € cada una. Pago por adelantado, no devuelvo",
        "30 € l'uno. Pagamento anticipato, non trattabile",
        "120 zł za sztukę. Zaliczka, nie do zwrotu",
        "30 € cada. Primeiro pagamento, depois envio",
        "600 Kč za kus. Nejdřív zaplatit, pak pošlu",
        "200 kr stk. Forudbetaling, ikke til forhandling",
    ],
)
def test_another_no_beside_payment_in_advance_lets_it_stand(body):
    assert "advance_payment" in doubts_of(body)


@pytest.mark.parametrize(
    "body",
    [
        "Of these panels 14 of them left out of 40, £20 each",
        "14 left from 40 panels, £20 each",
        "Noch 14 von ehemals 40 Modulen da, 20 € je Stück",
        "Noch 14 von 40 Modulen, 20 € je Stück",
        "Nog 14 van de 40 panelen, 20 euro per stuk",
        "Nog 14 van de oorspronkelijke 40 panelen over, 20 euro per stuk",
    ],
)
def test_what_is_left_of_more_is_on_offer(body):
    assert read_advert(Advert(title="Solar 250 W", body=body), WORDS).quantity_available == 14


@pytest.mark.parametrize(
    "body",
    [
        "14 out of 40 panels are scratched, £20 each",
        "Noch 14 von 40 Modulen haben Kratzer, 20 € je Stück",
        "14 van de 40 panelen hebben krassen, 20 euro per stuk",
    ],
)
def test_of_some_that_have_faults_all_are_on_offer(body):
    assert read_advert(Advert(title="Solar 250 W", body=body), WORDS).quantity_available == 40


def test_an_amount_behind_a_pronoun_and_a_point_is_a_price():
    reading = read_advert(Advert(title="Zonnepaneel 320 W", body="Na betaling verstuur ik. 32 euro."), WORDS)
    assert (reading.price.value, reading.shipping_cost) == (32, None)


@pytest.mark.parametrize(
    ("body", "quantity", "each"),
    [
        ("6 lots de 2 panneaux 380 W, 90 € le lot", 12, None),
        ("6 juegos de 2 paneles 380 W, 90 € por juego", 12, 45),
        ("6 lotes de 2 painéis 380 W, 90 € por lote", 12, 45),
        ("4 zestawy po 2 panele 380 W, 360 zł za zestaw", 8, 180),
        ("4 sady po 2 panelech 380 W, 2400 Kč za sadu", 8, 1200),
        ("6 sæt med 2 paneler 380 W, 700 kr. pr. sæt", 12, 350),
        ("2 paneles 380 W con 6 juegos de 2 cables, 45 € cada uno", 2, 45),
        ("6 lots of 2 panels 380 W, £300 the lot", 12, None),
    ],
)
def test_equal_sets_are_counted_by_their_pieces(body, quantity, each):
    reading = read_advert(Advert(title="Solar 380 W", body=body), WORDS)
    assert (reading.quantity_available, reading.price.each) == (quantity, each)
