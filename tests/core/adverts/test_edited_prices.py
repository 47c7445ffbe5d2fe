"""A price or a damage that is told in an edit counts; what an edit tells of sending or of new ones changes no price."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
# Title and price before; price afterwards; damage afterwards; another amount afterwards.
TEXTS = {
    "en": ("4 solar panels 300 W", "£60 each.", "EDIT: now £90 each.", "Edit: one got broken.", "Edit: post for £20."),
    "de": ("4 Solarmodule 300 W", "60 Euro pro Stück.", "EDIT: jetzt 90 Euro pro Stück.",
           "Nachtrag: eins ist kaputtgegangen.", "Edit: Versand für 20 Euro möglich."),
    "fr": ("4 panneaux solaires 300 W", "60 euros pièce.", "EDIT : maintenant 90 euros pièce.",
           "Edit : l'un s'est cassé.", "Edit : envoi possible pour 20 euros."),
    "es": ("4 placas solares 300 W", "60 euros cada una.", "Edito: ahora 90 euros cada una.",
           "Edito: se rompió una.", "Edito: envío por 20 euros."),
    "it": ("4 pannelli solari 300 W", "60 euro l'uno.", "EDIT: ora 90 euro l'uno.", "Edit: uno si è rotto.",
           "Edit: spedizione a 20 euro."),
    "nl": ("4 zonnepanelen 300 W", "60 euro per stuk.", "EDIT: nu 90 euro per stuk.", "Edit: eentje is stukgegaan.",
           "Edit: verzenden kan voor 20 euro."),
    "pl": ("4 panele 300 W", "60 zł za sztukę.", "EDIT: teraz 90 zł za sztukę.", "Edit: jeden się zbił.",
           "Edit: wysyłka 20 zł."),
    "cs": ("4 solární panely 300 W", "60 Kč za kus.", "EDIT: nyní 90 Kč za kus.", "Edit: jeden se rozbil.",
           "Edit: zaslání za 20 Kč."),
    "da": ("4 solpaneler 300 W", "60 kr. pr. stk.", "RETTELSE: nu 90 kr. pr. stk.", "Rettelse: ét gik i stykker.",
           "Rettelse: kan sendes for 20 kr."),
    "pt": ("4 painéis solares 300 W", "60 euros cada.", "EDIT: agora 90 euros cada.", "Edit: partiu-se um.",
           "Edit: envio por 20 euros."),
}  # fmt: skip


def read(language, edit):
    title, before, *_ = TEXTS[language]
    return read_advert(Advert(title=title, body=f"{before} {edit}"), WORDS)


@pytest.mark.parametrize("language", TEXTS)
def test_the_later_price_and_the_damage_count(language):
    _, _, price, damage, other = TEXTS[language]
    assert read(language, price).price.value == 90.0
    assert read(language, damage).defects
    assert read(language, other).price.value == 60.0
    assert read(language, other).defects == ()


@pytest.mark.parametrize("edit", ["Update: new they cost £190 each.", "Updated photos.", "Edit: still here.",
                                  "We edit films, £90 each."])  # fmt: skip
def test_other_edits_change_no_price(edit):
    assert read("en", edit).price.value == 60.0


@pytest.mark.parametrize(
    ("language", "edit"),
    [
        ("en", "Edit: the price was wrong, it's £90 each."),
        ("de", "Edit: Preis war falsch, es sind 90 Euro pro Stück."),
        ("fr", "Edit : le prix était faux, c'est 90 € pièce."),
        ("es", "Edito: el precio estaba mal, son 90 € cada una."),
        ("nl", "Edit: prijs was fout, het is 90 euro per stuk."),
    ],
)
def test_a_price_that_was_wrong_is_not_asked(language, edit):
    assert read(language, edit).price.each == 90.0
