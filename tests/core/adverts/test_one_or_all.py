"""A price of one beside one for all, behind a tax, in a scale, beside other things; and fields that hold no price."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())


def each_of(title, body, price_text=None):
    return read_advert(Advert(title=title, body=body, price_text=price_text), WORDS).price.each


@pytest.mark.parametrize(
    ("title", "body", "each"),
    [
        ("2 panels 400 W", "£80 for both or £45 singly", 45),
        ("2 Module 400 W", "80 € für beide oder 45 € einzeln", 45),
        ("2 panelen 400 W", "80 euro voor beide of 45 euro apart", 45),
        ("2 panneaux 400 W", "80 € les deux ou 45 € séparément", 45),
        ("2 paneles 400 W", "80 € los dos o 45 € por separado", 45),
        ("2 pannelli 400 W", "80 € entrambi oppure 45 € separatamente", 45),
        ("2 panele 400 W", "300 zł za oba albo 170 zł osobno", 170),
        ("2 painéis 400 W", "80 € os dois ou 45 € em separado", 45),
        ("2 panely 400 W", "1600 Kč za oba nebo 900 Kč zvlášť", 900),
        ("2 paneler 400 W", "500 kr. for begge eller 280 kr. enkeltvis", 280),
    ],
)
def test_what_one_costs_beside_what_both_cost_is_the_price_of_one(title, body, each):
    assert each_of(title, body) == each


@pytest.mark.parametrize(
    ("title", "body", "each"),
    [
        ("2 panels 400 W", "£80 for both or swap for a £500 inverter", 40),
        ("2 panels 400 W", "£80 for both or £45 delivery only", 40),
        ("2 panels 400 W", "£80 for both or £20 with a cable for one", 40),
        ("10 panels 400 W", "£300 for all or £280 cash", 30),
        ("2 Module 400 W", "80 € für beide oder 100 € inkl. Versand", 40),
        ("2 panneaux 400 W", "80 € les deux ou 95 € livraison comprise", 40),
    ],
)
def test_another_amount_behind_what_all_cost_is_none_of_one(title, body, each):
    assert each_of(title, body) == each


def test_a_word_for_each_behind_an_amount_is_not_of_the_next_one():
    assert each_of("Seks paneler 300 W", "150 kr stykket eller 750 kr samlet", "750 kr.") == 150


@pytest.mark.parametrize(
    ("title", "body", "each"),
    [
        ("12 panels 400 W", "New, £60 + VAT each.", 60),
        ("12 panels 400 W", "New, £600 + VAT for the lot.", 50),
        ("12 Module 400 W", "60 € zzgl. 19 % MwSt je Stück.", 60),
        ("12 Module 400 W", "600 € zzgl. MwSt alle zusammen.", 50),
        ("12 panelen 400 W", "60 euro excl. btw per stuk.", 60),
        ("12 panneaux 400 W", "60 € + TVA pièce.", 60),
        ("12 paneles 400 W", "12 uds nuevas en palé a 60 € + IVA cada una", 60),
        ("12 paneles 400 W", "600 € + IVA el lote completo", 50),
        ("12 pannelli 400 W", "Su bancale a 60 € + IVA cadauno", 60),
        ("12 paneli 400 W", "Na palecie, 260 zł + VAT za sztukę", 260),
        ("Painéis 455 W", "12 unid novos em palete a 60€ + iva cada, min 2.", 60),
        ("12 panelů 400 W", "Na paletě, 1500 Kč + DPH za kus", 1500),
        ("12 paneler 400 W", "På palle, 550 kr. + moms pr. stk.", 550),
    ],
)
def test_a_tax_does_not_part_an_amount_from_what_it_is_for(title, body, each):
    assert each_of(title, body) == each


@pytest.mark.parametrize("amount", ["60", "600"])
def test_whether_all_on_a_pallet_or_one_of_them_costs_so_much_stays_open(amount):
    assert each_of("12 paneles 400 W", f"12 uds en palé a {amount} €") is None


@pytest.mark.parametrize(
    ("title", "body", "each"),
    [
        ("Module 400 W", "Staffel: 1-4 Stück 50 €, 5-9 45 €, ab 10 40 €.", 50),
        ("Panels 400 W", "Bulk price: 1-4 pieces £50, 5-9 £45, 10+ £40.", 50),
        ("Panelen 400 W", "Staffelprijs: 1-4 stuks 50 euro, 5-9 stuks 45 euro.", 50),
        ("Panneaux 400 W", "Prix dégressif : 1-4 pièces 50 €, 5-9 45 €.", 50),
        ("Module 400 W", "Staffel: 5-9 Stück 45 €.", None),
    ],
)
def test_the_first_step_of_a_scale_is_the_price_of_one(title, body, each):
    assert each_of(title, body) == each


@pytest.mark.parametrize("case", [str, str.lower, str.upper])
@pytest.mark.parametrize(
    ("body", "each"),
    [
        ("Panel 200W £80, leisure battery 100Ah £120, controller £15. Sold separately.", 80),
        ("Solarmodul 200W 80 €, Batterie 100Ah 120 €, Regler 15 €. Einzeln abzugeben.", 80),
        ("Zonnepaneel 200W 80 euro, accu 100Ah 120 euro, regelaar 15 euro. Los te koop.", 80),
        ("Panneau 200W 80 €, batterie 100Ah 120 €, régulateur 15 €. Vendus séparément.", 80),
        ("Panel 200W (36 celler) 250 kr, batteri 12V 100Ah 400 kr, regulator 50 kr. Sælges enkeltvis.", 250),
    ],
)
def test_the_price_of_a_thing_listed_behind_the_panel_is_not_its_price_in_any_case(body, each, case):
    assert each_of("", case(body)) == each


def test_a_thing_that_comes_along_leaves_the_price():
    assert each_of("Panel 200 W", "£80, with controller £90") in {80, 90}
    assert each_of("Panel 200 W", "Panel med regulator 250 kr") == 250


@pytest.mark.parametrize(
    ("title", "body", "sign"),
    [
        ("Solar panel 400 W", "Used and working. Price on request.", "£"),
        ("Modul 400 W", "Preis auf Anfrage.", "€"),
        ("Modul 400 W", "Preis VS, UVP 180 €.", "€"),
        ("Zonnepaneel 400 W", "Prijs op aanvraag.", "€"),
        ("Panneau 400 W", "Prix sur demande.", "€"),
        ("Panel solar 400 W", "Precio a convenir.", "€"),
        ("Pannello 400 W", "Prezzo da concordare.", "€"),
        ("Panel 400 W", "Panel używany i sprawny. Cena na zapytanie.", "zł"),
        ("Painel 400 W", "Preço sob consulta.", "€"),
        ("Panel 400 W", "Panel je použitý a funkční. Cena na dotaz.", "Kč"),
        ("Solpanel 400 W", "Pris på forespørgsel.", "kr."),
    ],
)
def test_one_in_the_field_is_no_price_where_a_price_is_to_be_asked_for(title, body, sign):
    assert each_of(title, body, f"1 {sign}") is None
    assert each_of(title, body, f"45 {sign}") == 45


@pytest.mark.parametrize(
    ("title", "body", "pieces", "each"),
    [
        ("Panels 400 W", "Sold in pairs, £90 a pair. Six pairs available.", 12, 45),
        ("Module 400 W", "2er-Pack 90 €. 6 Packs da.", None, None),
    ],
)
def test_a_number_of_pairs_or_packs_is_none_of_pieces(title, body, pieces, each):
    found = read_advert(Advert(title=title, body=body), WORDS)
    assert (found.quantity_available, found.price.value, found.price.each) == (pieces, 90, each)
