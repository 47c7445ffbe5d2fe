"""Panels that give nothing any more, an edit that leaves the inverter, hire of the goods; and what sounds like it."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
PANELS = {
    "en": "4 solar panels 300 W", "de": "4 Solarmodule 300 W", "fr": "4 panneaux solaires 300 W",
    "es": "4 placas solares 300 W", "it": "4 pannelli solari 300 W", "nl": "4 zonnepanelen 300 W",
    "pl": "4 panele 300 W", "cs": "4 panely 300 W", "da": "4 solpaneler 300 W", "pt": "4 painéis solares 300 W",
}  # fmt: skip
# No current any more; none at night; only hired out; something else hired out or promised.
TEXTS = {
    "en": ("None of them gives current.", "At night they give no current any more.", "Only for rent, price per month.",
           "Not for hire, sale only."),
    "de": ("Sie liefern keinen Strom mehr.", "Sobald die Sonne weg ist, liefern sie keinen Strom mehr.",
           "Nur zu vermieten, Preis pro Monat.", "Das Haus wird vermietet, deshalb müssen sie weg."),
    "fr": ("Ils ne donnent plus de courant.", "La nuit ils ne donnent plus de courant.",
           "Uniquement à louer, prix par mois.", "La maison est en location."),
    "es": ("Ya no dan corriente.", "Cuando se va el sol ya no dan corriente.", "Solo en alquiler, precio por mes.",
           "El piso se alquila, por eso van fuera."),
    "it": ("Non danno più corrente.", "Quando cala il sole non danno più corrente.", "Solo a noleggio, prezzo al mese.",
           "In affitto non me li lasciano tenere."),
    "nl": ("Ze leveren geen stroom meer.", "Zonder zon leveren ze geen stroom.",
           "Alleen te huur, prijs per maand.", "Het huis wordt verhuurd, vandaar."),
    "pl": ("Nie dają już prądu.", "Gdy jest ciemno, nie dają już prądu.", "Tylko wynajem, cena za miesiąc.",
           "Mieszkanie na wynajem, dlatego znikają."),
    "cs": ("Už nedávají proud.", "Pod sněhem už nedávají proud.", "Jen k pronájmu, cena za měsíc.",
           "Byt je k pronájmu, proto musí pryč."),
    "da": ("De laver ikke strøm mere.", "Når solen går ned, laver de ikke strøm mere.", "Kun til leje, pris pr. måned.",
           "Huset udlejes, så de skal væk."),
    "pt": ("Já não dão corrente.", "À noite já não dão corrente.", "Só para alugar, preço por mês.",
           "A casa é para alugar, por isso sai tudo."),
}  # fmt: skip
SETS = {
    "en": "Balcony set: 2 panels 400 W and micro inverter 600 W, £260.",
    "de": "Balkonset: 2 Module 400 W und Wechselrichter 600 W, 260 Euro.",
    "nl": "Balkonset: 2 panelen 400 W en micro-omvormer 600 W, 260 euro.",
    "pl": "Zestaw balkonowy: 2 panele 400 W i mikroinwerter 600 W, 1000 zł.",
}
EDITS = {
    "en": ("Update: panels are sold, only the inverter is left.",
           "Update: panels sold with mounts, only the inverter is boxed."),
    "de": ("Update: Module sind verkauft, nur der Wechselrichter ist noch da.",
           "Update: Module werden verkauft, nur der Wechselrichter ist noch eingebaut."),
    "nl": ("Update: panelen zijn verkocht, alleen de omvormer is er nog.",
           "Update: panelen worden samen verkocht, alleen de omvormer is nieuw."),
    "pl": ("Edit: panele sprzedane, został tylko mikroinwerter.",
           "Edit: drugie panele sprzedane, został tylko ten zestaw z mikroinwerterem."),
}  # fmt: skip
NO_FAULTS = (
    ("en", "The doorbell doesn't work any more, so ring me."), ("de", "Die Klingel geht nicht mehr."),
    ("nl", "De lift werkt niet, dus het is sjouwen."), ("pt", "O elevador está avariado, é preciso força."),
    ("fr", "Ma voiture est en panne."), ("cs", "Výtah nefunguje."), ("es", "El granizo no les hizo nada."),
    ("de", "Der Hagel vom letzten Sommer hat ihnen nichts gemacht."), ("pl", "Brak spalonych złączek."),
    ("it", "Nessun connettore bruciato."), ("da", "Ingen brændte stik."),
)  # fmt: skip


def read(language, body):
    return read_advert(Advert(title=PANELS[language], body=f"{body} 40 €/each.", language=language), WORDS)


@pytest.mark.parametrize("language", TEXTS)
def test_told_of_the_goods(language):
    gone, dark, hired, _ = TEXTS[language]
    assert read(language, gone).defects == ("dead",)
    assert read(language, dark).defects == ()
    assert not read(language, hired).is_offer


@pytest.mark.parametrize("language", ["en", "de", "fr", "es", "it", "nl", "pl", "cs", "da", "pt"])
def test_a_home_that_is_let_leaves_an_offer(language):
    assert read(language, TEXTS[language][3]).is_offer


@pytest.mark.parametrize("language", SETS)
def test_an_edit_leaves_the_inverter_alone(language):
    left, whole = EDITS[language]
    found = read_advert(Advert(title="", body=f"{SETS[language]} {left}"), WORDS)
    assert (found.kind, found.quantity_available, found.price.value) == ("inverter", 1, None)
    assert found.inverter["ac_power_w"] == 600
    found = read_advert(Advert(title="", body=f"{SETS[language]} {whole}"), WORDS)
    assert (found.kind, found.price.value is None) == ("set", False)


@pytest.mark.parametrize(("language", "body"), NO_FAULTS)
def test_no_fault_is_told(language, body):
    assert read(language, body).defects == ()


@pytest.mark.parametrize(("language", "body"), [("en", "300 people have looked at this."), ("fr", "Déjà 300 vues.")])
def test_looks_count_no_goods(language, body):
    assert read(language, body).quantity_available == 4
