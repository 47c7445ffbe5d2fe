"""For hire is no offer, what is promised is reserved, what wants repairing is dead, what nobody tried untested."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
PANELS = {
    "en": "2 solar panels 400 W", "de": "2 Solarmodule 400 W", "fr": "2 panneaux solaires 400 W",
    "es": "2 placas solares 400 W", "it": "2 pannelli solari 400 W", "nl": "2 zonnepanelen 400 W",
    "pl": "2 panele 400 W", "cs": "2 panely 400 W", "da": "2 solpaneler 400 W", "pt": "2 painéis solares 400 W",
}  # fmt: skip
# For hire; promised; to repair; not tried.
TEXTS = {
    "en": ("For hire, £40 a week.", "Promised to a friend. £60 each.", "For someone who can fix them. £60 each.",
           "Never got round to testing. £60 each."),
    "de": ("Zu vermieten, 40 Euro pro Woche.", "Schon versprochen. Je 60 Euro.", "Brauchen eine neue Anschlussdose.",
           "Nie dazu gekommen, sie zu testen. Je 60 Euro."),
    "fr": ("En location, 40 euros la semaine.", "Déjà promis. 60 euros pièce.", "Pour qui sait réparer. 60 euros.",
           "Jamais essayés. 60 euros pièce."),
    "es": ("Alquiler, 40 euros por semana.", "Ya prometidas. 60 euros cada una.", "Necesitan reparación. 60 euros.",
           "Nunca las probé. 60 euros cada una."),
    "it": ("A noleggio, 40 euro a settimana.", "Già promessi. 60 euro l'uno.", "Per chi sa ripararli. 60 euro.",
           "Mai avuto modo di provarli. 60 euro."),
    "nl": ("Te huur, 40 euro per week.", "Al beloofd. 60 euro per stuk.", "Reparatie nodig. 60 euro per stuk.",
           "Nooit geprobeerd. 60 euro per stuk."),
    "pl": ("Na wynajem, 40 zł tygodniowo.", "Już obiecane. 260 zł za sztukę.", "Wymagają naprawy. 260 zł.",
           "Nigdy nie wypróbowane. 260 zł."),
    "cs": ("Jen k pronájmu, 40 Kč za týden.", "Už slíbené. 1500 Kč za kus.", "Potřebují opravu. 1500 Kč.",
           "Nikdy jsem je nezkusil. 1500 Kč."),
    "da": ("Til leje, 40 kr. pr. uge.", "Allerede lovet. 450 kr. stykket.", "Trænger til reparation. 450 kr.",
           "Aldrig fået prøvet dem. 450 kr."),
    "pt": ("Para alugar, 40 euros por semana.", "Já prometidos. 60 euros cada.", "Precisam de reparação. 60 euros.",
           "Nunca os experimentei. 60 euros."),
}  # fmt: skip
SOUND = {
    "en": ("They were on a rented house. Collect this week. £60 each.", "I promise they work. £60 each.",
           "Nothing to repair. £60 each."),
    "de": ("Waren auf einem Mietshaus. Abholung diese Woche. Je 60 Euro.", "Ich verspreche, sie laufen. Je 60 Euro.",
           "Nichts zu reparieren. Je 60 Euro."),
    "fr": ("À venir chercher cette semaine. 60 euros pièce.", "Rien à réparer. 60 euros pièce."),
    "es": ("Recogida esta semana. 60 euros cada una.", "Prometo que funcionan. 60 euros cada una."),
    "it": ("Ritiro questa settimana. 60 euro l'uno.", "Niente da riparare. 60 euro l'uno."),
    "nl": ("Ophalen deze week. 60 euro per stuk.", "De aansluitdoos is vorig jaar vervangen. 60 euro per stuk."),
    "pl": ("Odbiór w tym tygodniu. 260 zł za sztukę.", "Nic do naprawy. 260 zł za sztukę."),
    "cs": ("Odběr tento týden. 1500 Kč za kus.", "Slibuji, že fungují. 1500 Kč za kus."),
    "da": ("Afhentning i denne uge. 450 kr. stykket.", "Jeg lover, at de virker. 450 kr. stykket."),
    "pt": ("Levantamento esta semana. 60 euros cada.", "Prometo que funcionam. 60 euros cada."),
}  # fmt: skip


def read(language, body):
    return read_advert(Advert(title=PANELS[language], body=body), WORDS)


@pytest.mark.parametrize("language", TEXTS)
def test_each_is_told(language):
    hire, promised, broken, untried = TEXTS[language]
    assert not read(language, hire).is_offer
    assert "reserved" in read(language, promised).doubts
    assert read(language, broken).condition == "damaged"
    assert "untested" in read(language, untried).doubts


@pytest.mark.parametrize("language", SOUND)
def test_words_that_are_alike_tell_none_of_it(language):
    for body in SOUND[language]:
        found = read(language, body)
        assert found.is_offer, body
        assert found.price.each == found.price.value, body
        assert (found.defects, set(found.doubts) & {"reserved", "untested"}) == ((), set()), body
