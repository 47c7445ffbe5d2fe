"""Each doubt is raised by what is said in several languages, and not by what is said of sound goods."""

import pytest

from service.core.adverts import Advert, read_advert, read_board, vocabulary_of
from service.data.advert_words import LANGUAGES, load_advert_words

WORDS = vocabulary_of(load_advert_words())

# Panels, used, with what is added to them; so that a doubt is of the added words alone.
SOUND = {
    "en": "Selling two used solar panels, 400 W, £40 each.",
    "de": "Verkaufe zwei gebrauchte Solarmodule mit 400 W, je 40 Euro.",
    "nl": "Te koop: twee gebruikte zonnepanelen van 400 W, 40 euro per stuk.",
    "fr": "Vends deux panneaux solaires d'occasion de 400 W, 40 euros pièce.",
    "es": "Vendo dos placas solares usadas de 400 W, 40 euros cada una.",
    "it": "Vendo due pannelli solari usati da 400 W, 40 euro l'uno.",
    "pl": "Sprzedam dwa używane panele 400 W, 150 zł za sztukę.",
    "pt": "Vendo dois painéis solares usados de 400 W, 40 euros cada um.",
    "cs": "Prodám dva použité panely 400 W, 900 Kč za kus.",
    "da": "Sælger to brugte solpaneler på 400 W, 300 kr. stykket.",
}
ADDED = {
    "advance_payment": {
        "en": "Payment in advance by bank transfer, then I post them.",
        "de": "Versand nur gegen Vorkasse.",
        "nl": "Eerst betalen, daarna stuur ik ze op.",
        "fr": "Paiement d'avance par virement.",
        "es": "Pago por adelantado.",
        "it": "Pagamento anticipato.",
        "pl": "Tylko przedpłata na konto.",
        "pt": "Pagamento antecipado.",
        "cs": "Platba předem na účet.",
        "da": "Betaling på forhånd.",
    },
    "no_invoice": {
        "en": "No invoice, no receipt.",
        "de": "Ohne Rechnung und ohne Papiere.",
        "nl": "Geen factuur of bon.",
        "fr": "Sans facture.",
        "es": "Sin factura.",
        "it": "Senza fattura.",
        "pl": "Bez faktury i paragonu.",
        "pt": "Sem fatura.",
        "cs": "Bez faktury a dokladů.",
        "da": "Ingen kvittering eller faktura.",
    },
    "label_removed": {
        "en": "The labels have been removed, serial numbers scratched off.",
        "de": "Typenschild entfernt, Seriennummern abgekratzt.",
        "nl": "Typeplaatje verwijderd, serienummers weggekrast.",
        "fr": "Étiquette retirée, numéros de série effacés.",
        "es": "Etiqueta arrancada, números de serie borrados.",
        "it": "Etichetta rimossa, numeri di serie cancellati.",
        "pl": "Tabliczka usunięta, numery seryjne zdarte.",
        "pt": "Etiqueta removida, números de série apagados.",
        "cs": "Štítek odstraněn, sériová čísla seškrábaná.",
        "da": "Mærkat fjernet, serienumre skrabet af.",
    },
    "no_viewing": {
        "en": "Viewing not possible, I am abroad.",
        "de": "Besichtigung nicht möglich, bin im Ausland.",
        "nl": "Bezichtigen niet mogelijk, ik zit in het buitenland.",
        "fr": "Visite impossible, je suis à l'étranger.",
        "es": "No se pueden ver, estoy en el extranjero.",
        "it": "Non è possibile vederli, sono all'estero.",
        "pl": "Nie ma możliwości obejrzenia, jestem za granicą.",
        "pt": "Não é possível ver, estou no estrangeiro.",
        "cs": "Prohlídka není možná, jsem v zahraničí.",
        "da": "De kan ikke ses, jeg er i udlandet.",
    },
}
INVERTERS = {
    "account_bound": {
        "en": "Micro inverter 800 W, £30. Still registered to the previous owner's account.",
        "de": "Mikrowechselrichter 800 W, 30 Euro. Noch an das Konto des Vorbesitzers gebunden.",
        "nl": "Micro omvormer 800 W, 30 euro. Staat nog op het account van de vorige eigenaar.",
        "fr": "Micro-onduleur 800 W, 30 euros. Encore lié au compte de l'ancien propriétaire.",
        "es": "Microinversor 800 W, 30 euros. Sigue vinculado a la cuenta del anterior dueño.",
        "it": "Microinverter 800 W, 30 euro. Ancora legato all'account del vecchio proprietario.",
        "pl": "Mikroinwerter 800 W, 150 zł. Nadal przypisany do konta poprzedniego właściciela.",
        "pt": "Microinversor 800 W, 30 euros. Ainda associado à conta do antigo dono.",
        "cs": "Mikroměnič 800 W, 800 Kč. Stále vázaný na účet předchozího majitele.",
        "da": "Mikroinverter 800 W, 200 kr. Stadig knyttet til den tidligere ejers konto.",
    },
    "off_grid_inverter": {
        "en": "Off-grid inverter 2000 W, pure sine, 12 V battery, £60. Just plug it into a socket at home!",
        "de": "Inselwechselrichter 2000 W, 12 V Batterie, 60 Euro. Auch fürs Balkonkraftwerk.",
        "nl": "Off-grid omvormer 2000 W, 12 V accu, 60 euro. Zo in het stopcontact.",
        "fr": "Onduleur site isolé 2000 W, batterie 12 V, 60 euros.",
        "es": "Inversor aislada 2000 W, batería 12 V, 60 euros.",
        "it": "Inverter ad isola 2000 W, batteria 12 V, 60 euro.",
        "pl": "Inwerter wyspowy off-grid 2000 W, akumulator 12 V, 300 zł.",
        "pt": "Inversor fora da rede 2000 W, bateria 12 V, 60 euros.",
        "cs": "Ostrovní měnič 2000 W, baterie 12 V, 1500 Kč.",
        "da": "Off-grid inverter 2000 W, 12 V batteri, 400 kr.",
    },
    "string_inverter": {
        "en": "Plug-in inverter for one panel, 3 kW, MPPT range 120-500 V, £90.",
        "de": "Wechselrichter für die Steckdose, 3 kW, MPPT-Bereich 120-500 V, 90 Euro.",
        "nl": "Omvormer met stekker, 3 kW, MPPT bereik 120-500 V, 90 euro.",
        "fr": "Onduleur à brancher, 3 kW, plage MPPT 120-500 V, 90 euros.",
        "es": "Inversor enchufable, 3 kW, rango MPPT 120-500 V, 90 euros.",
        "it": "Inverter da presa, 3 kW, range MPPT 120-500 V, 90 euro.",
        "pl": "Falownik do gniazdka, 3 kW, zakres MPPT 120-500 V, 400 zł.",
        "pt": "Inversor de tomada, 3 kW, gama MPPT 120-500 V, 90 euros.",
        "cs": "Měnič do zásuvky, 3 kW, rozsah MPPT 120-500 V, 2000 Kč.",
        "da": "Inverter til stikkontakt, 3 kW, MPPT område 120-500 V, 600 kr.",
    },
}
FIGURES = {
    "power_vs_vi": " Vmp 31.0 V, Imp 9.0 A, Voc 37.0 V, Isc 13.8 A.",
    "voc_vs_cells": " Voc 49.5 V, 54 {cells}.",
}
CELLS = {"en": "cells", "de": "Zellen", "nl": "cellen", "fr": "cellules", "es": "células", "it": "celle",
         "pl": "ogniw", "pt": "células", "cs": "článků", "da": "celler"}  # fmt: skip
OTHERS = {
    "not_photovoltaic": {
        "en": "Solar thermal collector for hot water, £100.",
        "de": "Flachkollektor für Warmwasser, 100 Euro.",
        "nl": "Zonneboiler met collector, 100 euro.",
        "fr": "Chauffe-eau solaire avec capteur, 100 euros.",
        "es": "Captador solar térmico con depósito, 100 euros.",
        "it": "Pannello solare termico per acqua calda, 100 euro.",
        "pl": "Kolektor słoneczny do ciepłej wody, 500 zł.",
        "pt": "Painel solar térmico para água quente, 100 euros.",
        "cs": "Solární kolektor na ohřev vody, 2000 Kč.",
        "da": "Solfanger til varmt vand, 800 kr.",
    },
    "wanted_ad": {
        "en": "Wanted: two solar panels, up to £40 each.",
        "de": "Suche zwei Solarmodule, bis 40 Euro.",
        "nl": "Gezocht: twee zonnepanelen, tot 40 euro.",
        "fr": "Recherche deux panneaux solaires, 40 euros maximum.",
        "es": "Busco dos placas solares, hasta 40 euros.",
        "it": "Cerco due pannelli solari, massimo 40 euro.",
        "pl": "Kupię dwa panele słoneczne, do 150 zł.",
        "pt": "Procuro dois painéis solares, até 40 euros.",
        "cs": "Koupím dva solární panely, do 900 Kč.",
        "da": "Søger to solpaneler, op til 300 kr.",
    },
}


def doubts(body):
    return read_advert(Advert(title="", body=body), WORDS).doubts


def cases(table):
    return [(code, language) for code, bodies in table.items() for language in bodies]


@pytest.mark.parametrize("language", LANGUAGES)
def test_sound_goods_raise_no_doubt(language):
    assert doubts(SOUND[language]) == ()


@pytest.mark.parametrize(("code", "language"), cases(ADDED))
def test_what_is_said_of_the_deal_raises_its_doubt(code, language):
    assert code in doubts(f"{SOUND[language]} {ADDED[code][language]}")


@pytest.mark.parametrize(("code", "language"), cases(INVERTERS))
def test_an_inverter_that_cannot_serve_here_is_doubted(code, language):
    assert code in doubts(INVERTERS[code][language])


@pytest.mark.parametrize(("code", "language"), cases(OTHERS))
def test_what_offers_no_panels_is_told(code, language):
    assert code in doubts(OTHERS[code][language])


@pytest.mark.parametrize("code", FIGURES)
@pytest.mark.parametrize("language", LANGUAGES)
def test_figures_that_exclude_each_other_are_doubted(code, language):
    assert code in doubts(SOUND[language] + FIGURES[code].format(cells=CELLS[language]))


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_price_far_under_the_others_and_the_same_advert_again_are_doubted(language):
    places = ("Wick", "Diss", "Hythe", "Settle", "Alston", "Bude")
    board = [Advert(title="", body=f"{SOUND[language]} {place}.") for place in places]
    number = next(word for word in ("40", "150", "900", "300") if f" {word} " in SOUND[language].replace("£", " "))
    cheap = Advert(title="", body=SOUND[language].replace(f"{number} ", "9 ", 1) + " Ely.")
    found = [set(reading.doubts) for reading in read_board([*board, cheap, board[0]], WORDS)]
    assert "far_under_others" in found[6]
    assert "same_advert_again" in found[7]
    assert not any("far_under_others" in one or "same_advert_again" in one for one in found[:6])
