"""Shocks, switches that trip, faults to earth, burnt plugs are told; what guards against them or is denied is not."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.plain_adverts import TWO_PANELS

WORDS = vocabulary_of(load_advert_words())
# A shock, a switch that trips, a fault to earth, something burnt.
DANGERS = {
    "en": ("You get a shock from the frame in the rain.", "The RCD trips with them now and then.",
           "My inverter reported an isolation fault.", "One of the plugs has melted."),
    "de": ("Bei Regen kribbelt der Rahmen.", "Mit ihnen fliegt öfter der FI.", "Es kam ein Isolationsfehler.",
           "Ein Stecker ist angeschmolzen."),
    "fr": ("On sent des picotements sur le cadre.", "Le disjoncteur saute quand il pleut.",
           "L'onduleur affichait un défaut d'isolement.", "Un connecteur a fondu."),
    "es": ("El marco da calambre.", "Cuando llueve salta el diferencial.", "Salía un fallo de aislamiento.",
           "Un conector está derretido."),
    "it": ("Il telaio dà la scossa.", "Quando piove scatta il salvavita.", "Usciva un errore di isolamento.",
           "Un connettore è bruciacchiato."),
    "nl": ("Je voelt tinteling aan het frame.", "Bij regen slaat de aardlek uit.", "Er kwam een isolatiefout.",
           "Een van de stekkers is verschroeid."),
    "pl": ("Czuć mrowienie na ramie.", "Gdy pada, wyskakuje różnicówka.", "Był błąd izolacji.",
           "Jedna złączka jest nadpalona."),
    "cs": ("Rám trochu kope.", "Když prší, vypadne jistič.", "Objevila se chyba izolace.",
           "Jeden konektor je natavený."),
    "da": ("Man får stød af rammen.", "Når det regner, slår HPFI-relæet fra.", "Der kom en isolationsfejl.",
           "Det ene stik er svedet."),
    "pt": ("A moldura dá choque.", "Quando chove dispara o disjuntor.", "Apareceu uma falha de isolamento.",
           "Uma das fichas está derretida."),
}  # fmt: skip
HARMLESS = {
    "en": ("No isolation fault, no burnt smell.", "The RCD never tripped.",
           "Surge protection and a 16 A fuse included.",
           "The old breaker tripped before we had solar.", "With ground fault detection.",
           "Hot-dip brackets, plugs too.",
           "The breaker trips at 30 mA.", "Our kettle tripped the fuse once."),
    "de": ("Kein Isolationsfehler.", "Der FI ist nie geflogen.", "Sicherung 16 A dabei, löst bei 30 mA aus.",
           "Die alte Sicherung flog, bevor wir Solar hatten.", "Die Sicherung am Herd fliegt manchmal raus.",
           "Schockpreis, stoßfest verpackt."),
    "fr": ("Aucun défaut d'isolement.", "Le différentiel n'a jamais sauté.", "Prix choc !",
           "Protection contre les défauts d'isolement."),
    "es": ("Sin fallo de aislamiento.", "El diferencial nunca ha saltado.", "Protección contra fallo de aislamiento."),
    "it": ("Nessun guasto di isolamento.", "Il salvavita non è mai scattato.", "La neve si è sciolta."),
    "nl": ("Geen isolatiefout.", "De aardlek sloeg nooit uit.", "Je hebt een aardlek nodig."),
    "pl": ("Bez błędu izolacji.", "Różnicówka nigdy nie wyskoczyła.", "Potrzebny bezpiecznik 16 A."),
    "cs": ("Žádná chyba izolace.", "Chránič nikdy nevypadl.", "Sníh roztál."),
    "da": ("Ingen isolationsfejl.", "HFI-relæet er aldrig slået fra.", "Sneen er smeltet."),
    "pt": ("Sem falha de isolamento.", "O diferencial nunca disparou.", "A neve derreteu."),
}  # fmt: skip


def told(language, words):
    reading = read_advert(Advert(title="", body=f"{TWO_PANELS[language]} {words}"), WORDS)
    assert (reading.kind, reading.is_offer) == ("panel", True), words
    return "shock_or_fire" in reading.doubts


@pytest.mark.parametrize("language", DANGERS)
def test_a_danger_that_the_seller_tells_is_a_doubt(language):
    assert [words for words in DANGERS[language] if not told(language, words)] == []


@pytest.mark.parametrize("language", HARMLESS)
def test_what_is_denied_or_guards_against_it_is_none(language):
    assert [words for words in HARMLESS[language] if told(language, words)] == []


def test_it_is_told_of_inverters_and_by_titles_too():
    assert (
        "shock_or_fire"
        in read_advert(Advert(title="", body="Micro inverter 800 W, £30. It trips the RCD."), WORDS).doubts
    )
    title = Advert(title="2 Solarmodule 400 W, Stecker verschmort", body="Je 40 Euro.")
    assert "shock_or_fire" in read_advert(title, WORDS).doubts
