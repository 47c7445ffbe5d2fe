"""Words for what breaks, shocks, was not needed or not tried are said of much besides the goods, and tell nothing then.

Of the goods, alone in their clause, they do.
"""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.plain_adverts import TWO_PANELS

WORDS = vocabulary_of(load_advert_words())
SETS = {
    "en": "Used balcony solar set: two panels 400 W and a micro inverter 800 W, £260.",
    "de": "Gebrauchtes Balkonkraftwerk: zwei Module 400 W und Wechselrichter 800 W, 260 Euro.",
    "fr": "Kit solaire d'occasion : deux panneaux de 400 W et un micro-onduleur de 800 W, 260 euros.",
    "es": "Kit solar usado: dos placas de 400 W y un microinversor de 800 W, 260 euros.",
    "it": "Kit solare usato: due pannelli da 400 W e un microinverter da 800 W, 260 euro.",
    "nl": "Gebruikte balkonset: twee zonnepanelen van 400 W en een micro-omvormer van 800 W, 260 euro.",
    "pl": "Używany zestaw balkonowy: dwa panele 400 W i mikroinwerter 800 W, 1100 zł.",
    "cs": "Použitá balkonová sestava: dva panely 400 W a mikroměnič 800 W, 6000 Kč.",
    "da": "Brugt altansæt: to solpaneler på 400 W og en mikroinverter på 800 W, 1900 kr.",
    "pt": "Kit solar usado: dois painéis de 400 W e um microinversor de 800 W, 260 euros.",
}  # fmt: skip
# What broke or wants repairing; what shocks, tingles, kicks; what was not needed or tried.
OTHERS = {
    "en": ("The lawnmower needs fixing, so come after ten.", "It would suit someone who can fix things to a wall.",
           "One broke in transit years ago and was binned.", "The new price gave me a shock.",
           "It has an earth fault alarm built in.", "A crane was not needed.", "I haven't tried to post it yet.",
           "The moisture inside the shed is why they must go."),
    "de": ("Das Auto muss repariert werden, daher keine Lieferung.", "Im Schuppen liegen Scherben.",
           "Die Brennnesseln am Tor, das kribbelt.", "Die Garantie haben wir nie gebraucht."),
    "fr": ("La voiture a lâché, donc pas de livraison.", "Il y a des picotements dans les orties du garage.",
           "La garantie, on n'en a jamais eu besoin.", "Je n'ai jamais essayé de les envoyer."),
    "es": ("La lavadora se rompió y el dinero viene bien.", "La placa da corriente perfectamente.",
           "Me dio un calambre en la pierna al bajarlas.", "La garantía nunca hizo falta."),
    "it": ("Si è rotta la macchina, solo ritiro.", "Dietro casa c'è l'ortica che pizzica.",
           "La garanzia non è mai servita."),
    "nl": ("Mijn fiets is stukgegaan, alleen ophalen.", "De nieuwprijs was een schok.",
           "De garantie hebben we nooit nodig gehad.", "Verzenden heb ik nooit geprobeerd."),
    "pl": ("Rozbił się karton przy przeprowadzce.", "Droga wymaga naprawy.", "Kopnęło go w nogę."),
    "cs": ("Auto se rozbilo, nepřivezu.", "Pozor, kůň za plotem kope.", "Opravy nikdy nebyly potřeba."),
    "da": ("Bilen skal repareres.", "Prisen fra ny var et stød.", "Vi har aldrig haft brug for garantien."),
    "pt": ("O nosso telhado precisa de reparação, por isso vai tudo.", "O preço novo foi um choque."),
}  # fmt: skip
BROKEN = {
    "en": ("Both need repairing.", "For someone who can fix them."), "de": ("Für jemanden, der sie reparieren kann.",),
    "fr": ("Un panneau s'est cassé.",), "es": ("Se rompieron en la mudanza.",), "it": ("Per chi sa aggiustarli.",),
    "nl": ("Voor iemand die ze kan repareren.",), "pl": ("Wymagają naprawy.",), "cs": ("Potřebují opravu.",),
    "da": ("Den ene gik i stykker.",), "pt": ("Um partiu-se.",),
}  # fmt: skip


def read(body):
    return read_advert(Advert(title="", body=body), WORDS)


@pytest.mark.parametrize("goods", [TWO_PANELS, SETS], ids=["panels", "sets"])
@pytest.mark.parametrize("language", OTHERS)
def test_of_another_thing_they_tell_nothing(language, goods):
    for words in OTHERS[language]:
        found = read(f"{goods[language]} {words}")
        assert (found.condition, found.defects, found.doubts) == ("used", (), ()), words


@pytest.mark.parametrize("language", BROKEN)
def test_of_the_goods_they_tell_damage(language):
    for words in BROKEN[language]:
        assert read(f"{TWO_PANELS[language]} {words}").condition == "damaged", words


def test_a_part_that_broke_is_what_is_damaged():
    assert read("Placa solar de 400 W, se regala. El cristal se rompió al bajarla.").defects == ("cracked_glass",)


def test_of_the_goods_not_needed_and_not_tried_are_told():
    assert read("Zwei Solarmodule 400 W, je 40 Euro. Als Reserve gekauft, nie gebraucht.").condition == "unused"
    assert "untested" in read(f"{TWO_PANELS['nl']} Nooit geprobeerd.").doubts
