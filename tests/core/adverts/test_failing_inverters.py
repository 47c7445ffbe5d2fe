"""Inverters that go off, show errors or only hum are dead; those off at night sound; those of boats off the grid."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.plain_adverts import ONE_INVERTER

WORDS = vocabulary_of(load_advert_words())
FAILING = {
    "en": ("Turns itself off after a few minutes.", "Shows an error code.", "It only hums."),
    "de": ("Schaltet nach fünf Minuten ab.", "Zeigt eine Fehlermeldung.", "Es brummt nur.", "Geht von allein aus."),
    "fr": ("Il se coupe après quelques minutes.", "Affiche un code d'erreur.", "Il bourdonne mais ne donne rien."),
    "es": ("Se apaga cada pocos minutos.", "Marca error.", "Solo zumba."),
    "it": ("Si spegne ogni pochi minuti.", "Dà errore.", "Ronza soltanto."),
    "nl": ("Schakelt na enkele minuten uit.", "Geeft een foutmelding.", "Hij bromt alleen."),
    "pl": ("Wyłącza się po kilku minutach.", "Zgłasza błąd.", "Tylko buczy."),
    "cs": ("Vypíná se po pár minutách.", "Hlásí chybu.", "Jen bručí."),
    "da": ("Slår fra efter få minutter.", "Viser en fejlkode.", "Den brummer kun."),
    "pt": ("Desliga-se após poucos minutos.", "Dá erro.", "Só zumbe."),
}  # fmt: skip
SOUND = {
    "en": ("Switches off at night and comes back by itself.", "Never an error code.",
           "Shuts down when the mains fails."),
    "de": ("Schaltet nachts immer ab.", "Keine Fehlermeldungen.", "Schaltet bei Netzausfall sofort ab.",
           "Geht aus Platzgründen wieder weg.", "Schaltet 22 V ein, zwei Minuten später Einspeisung."),
    "fr": ("S'éteint seul la nuit.", "Aucun code d'erreur."), "es": ("Se apaga solo por la noche.", "Sin errores."),
    "it": ("Si spegne da solo di notte.", "Nessun codice errore."),
    "nl": ("Schakelt 's nachts steeds uit.", "Geen foutcode."),
    "pl": ("Sam się wyłącza w nocy.", "Bez kodów błędów."), "cs": ("V noci se sám vypne.", "Bez chybových kódů."),
    "da": ("Slår selv fra om natten.", "Ingen fejlkoder."),
    "pt": ("Desliga-se sozinho à noite.", "Sem códigos de erro."),
}  # fmt: skip
FROM_BATTERIES = {
    "en": ("Makes 230 V from a 12 V battery.", "Plugs into the cigarette lighter."),
    "de": ("Macht aus 24 V Batterie 230 V.", "Für den Zigarettenanzünder."),
    "fr": ("Fait du 230 V avec une batterie 12 V.", "Se branche sur l'allume-cigare."),
    "es": ("Saca 230 V de una batería de 12 V.", "Se enchufa al mechero."),
    "it": ("Fa 230 V da una batteria 12 V.", "Si attacca all'accendisigari."),
    "nl": ("Maakt 230 V uit een 12 V accu.", "Gaat in de sigarettenaansteker."),
    "pl": ("Robi 230 V z akumulatora 12 V.", "Do gniazda zapalniczki."),
    "cs": ("Dělá 230 V z 12 V baterie.", "Do zapalovače."),
    "da": ("Laver 230 V af et 12 V batteri.", "Til cigartænderen."),
    "pt": ("Faz 230 V de uma bateria de 12 V.", "Liga ao isqueiro."),
}  # fmt: skip


def reading(language, words):
    found = read_advert(Advert(title="", body=f"{ONE_INVERTER[language]} {words}"), WORDS)
    assert (found.kind, found.is_offer) == ("inverter", True), words
    return found


@pytest.mark.parametrize("language", FAILING)
def test_what_fails_is_dead(language):
    wrong = [words for words in FAILING[language] if "dead" not in reading(language, words).defects]
    assert wrong == []
    assert reading(language, FAILING[language][0]).condition == "damaged"


@pytest.mark.parametrize("language", SOUND)
def test_what_goes_off_rightly_or_never_fails_is_sound(language):
    assert [words for words in SOUND[language] if reading(language, words).defects] == []


def test_errors_of_an_inverter_that_is_not_sold_are_none_of_the_panels():
    assert (
        read_advert(Advert(title="", body="2 panels 400 W, £40 each. Only hums: the old radio."), WORDS).defects == ()
    )


@pytest.mark.parametrize("language", FROM_BATTERIES)
def test_an_inverter_of_a_battery_is_off_the_grid(language):
    wrong = [words for words in FROM_BATTERIES[language] if "off_grid_inverter" not in reading(language, words).doubts]
    assert wrong == []


@pytest.mark.parametrize("words", ["Mains 230 V, starts at 24 V.", "Not for 12 V batteries at 230 V.",
                                   "Grid 230 V; I also sell a 12 V battery."])  # fmt: skip
def test_volts_of_the_mains_and_of_its_input_make_it_none(words):
    assert "off_grid_inverter" not in reading("en", words).doubts
