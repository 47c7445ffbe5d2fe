"""Vans for hire, codes in manuals, prices of shops, promised bicycles, sockets denied: none of it is of the goods."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words
from tests.plain_adverts import ONE_INVERTER

WORDS = vocabulary_of(load_advert_words())
PANELS = {
    "en": "4 used solar panels 300 W, £60 each.", "de": "4 Solarmodule 300 W gebraucht, 60 Euro pro Stück.",
    "fr": "4 panneaux solaires 300 W, 60 euros pièce.", "es": "4 placas solares 300 W usadas, 60 euros cada una.",
    "it": "4 pannelli solari 300 W usati, 60 euro l'uno.", "nl": "4 zonnepanelen 300 W, 60 euro per stuk.",
    "pl": "4 używane panele 300 W, 60 zł za sztukę.", "cs": "4 použité solární panely 300 W, 60 Kč za kus.",
    "da": "4 brugte solpaneler 300 W, 60 kr. pr. stk.", "pt": "4 painéis solares 300 W usados, 60 euros cada.",
}  # fmt: skip
HIRED = {
    "en": "Trailer for hire at the garage, £25 a day.", "de": "Beim Verleih im Ort: Anhänger 20 Euro am Tag.",
    "nl": "Aanhanger te huur bij de garage voor 20 euro per dag.", "fr": "Une location de remorque : 40 € par jour.",
    "es": "El alquiler de un remolque sale por 40 € al día.", "it": "Siamo in affitto, 40 euro al mese in più.",
    "pl": "Przyczepka do wynajęcia obok, 80 zł za dzień.", "pt": "O aluguer de um reboque custa 40 € por dia.",
    "cs": "Půjčovné za vozík je 400 Kč na den.", "da": "Trailer til leje hos naboen, 200 kr. om dagen.",
}  # fmt: skip
EXPLAINED = {
    "en": "Error codes are explained in the manual.", "de": "Eine Liste der Fehlercodes liegt bei.",
    "nl": "Alle foutcodes staan in het boekje.", "fr": "Les codes d'erreur sont dans la notice.",
    "es": "El manual explica los códigos de error.", "it": "I codici di errore sono nel manuale.",
    "pl": "Kody błędów są w instrukcji.", "pt": "Os códigos de erro estão no manual.",
    "cs": "Chybové kódy jsou v návodu.", "da": "Alle fejlkoder står i vejledningen.",
}  # fmt: skip
AT_NIGHT = {
    "en": "At night it gives nothing, of course.", "de": "Nachts gibt er natürlich nichts ab.",
    "nl": "'s Nachts levert hij niets.", "fr": "La nuit il ne donne rien.", "es": "De noche no da nada.",
    "it": "Di notte non dà niente.", "pl": "W nocy nic nie daje.", "pt": "De noite não dá nada.",
    "cs": "V noci nic nedává.", "da": "Om natten giver den intet.",
}  # fmt: skip
SHOPS = {
    "en": "Update: the shop now asks £90 each.", "de": "Update: der Baumarkt verlangt jetzt 90 Euro pro Stück.",
    "nl": "Update: de winkel vraagt nu 90 euro per stuk.", "fr": "Edit : le voisin demande maintenant 90 € pièce.",
    "es": "Edito: la tienda pide ahora 90 € cada una.", "it": "Edit: il negozio ora chiede 90 € l'uno.",
    "pl": "Edit: sklep chce teraz 90 zł za sztukę.", "pt": "Edit: a loja agora pede 90 € cada.",
    "cs": "Oprava: obchod teď chce 90 Kč za kus.", "da": "Rettelse: butikken vil nu have 90 kr. stykket.",
}  # fmt: skip
PROMISED = {
    "en": "The bike is already promised to a friend.", "de": "Die Kabelrolle ist schon versprochen.",
    "nl": "De fiets is beloofd aan mijn broer.", "fr": "La remorque est déjà promise à un voisin.",
    "es": "El remolque ya está prometido.", "it": "Sabato siamo già impegnati.",
    "pl": "Rower już obiecany koledze.", "pt": "O reboque já está prometido.", "cs": "Vozík je už slíbený.",
    "da": "Cyklen er allerede lovet til en ven.",
}  # fmt: skip
OURS = {
    "en": "These panels are already promised.", "de": "Die Module sind schon versprochen.",
    "nl": "De panelen zijn beloofd.", "fr": "Les panneaux sont déjà promis.", "es": "Todas ya prometidas.",
    "it": "I pannelli sono già promessi.", "pl": "Panele są obiecane koledze.", "pt": "Já estão prometidos.",
    "cs": "Panely jsou už slíbené.", "da": "Panelerne er lovet til en nabo.",
}  # fmt: skip
NO_SOCKET = {
    "en": "There is no 12V socket or cigarette lighter on it.",
    "de": "In den Zigarettenanzünder steckt man den nicht.", "nl": "Een sigarettenplug zit er niet op.",
    "fr": "Une prise allume-cigare, il n'y en a pas.", "es": "No lleva toma de 12 V ni mechero.",
    "it": "Non è roba da accendisigari.", "pl": "To nie do gniazda zapalniczki.",
    "pt": "Não é para o isqueiro do carro.", "cs": "Není to do zapalovače v autě.",
    "da": "Det er ikke noget til cigarstikket i bilen.",
}  # fmt: skip


def reading(words):
    return read_advert(Advert(title="", body=words), WORDS)


@pytest.mark.parametrize("language", HIRED)
def test_a_van_or_a_home_that_is_let_makes_no_service_of_an_offer(language):
    found = reading(f"{PANELS[language]} {HIRED[language]}")
    assert (found.kind, found.is_offer, found.price.value) == ("panel", True, 60.0)


def test_panels_with_a_price_of_their_own_are_no_hire():
    assert reading("4 solar panels 300 W, £60 each. For hire, £25 a day: a trailer.").is_offer
    assert not reading("4 solar panels 300 W. For hire, £25 a day.").is_offer


@pytest.mark.parametrize("language", EXPLAINED)
def test_codes_in_a_manual_and_nights_make_no_inverter_dead(language):
    for words in (EXPLAINED[language], AT_NIGHT[language]):
        found = reading(f"{ONE_INVERTER[language]} {words}")
        assert (found.defects, found.condition) == ((), "used"), words


@pytest.mark.parametrize("words", ["The app shows an error when the wifi is down.", "If it shows an error, tell me.",
                                   "It has never shown an error code.", "In the dark it gives nothing."])  # fmt: skip
def test_errors_of_other_things_or_that_never_came_are_none(words):
    assert reading(f"{ONE_INVERTER['en']} {words}").defects == ()


@pytest.mark.parametrize("language", SHOPS)
def test_a_price_of_others_in_an_edit_is_not_asked(language):
    assert reading(f"{PANELS[language]} {SHOPS[language]}").price.value == 60.0


@pytest.mark.parametrize("language", PROMISED)
def test_only_promised_goods_are_reserved(language):
    assert "reserved" not in reading(f"{PANELS[language]} {PROMISED[language]}").doubts
    assert "reserved" in reading(f"{PANELS[language]} {OURS[language]}").doubts


@pytest.mark.parametrize("language", NO_SOCKET)
def test_a_socket_that_is_denied_raises_no_doubt(language):
    assert "off_grid_inverter" not in reading(f"{ONE_INVERTER[language]} {NO_SOCKET[language]}").doubts


@pytest.mark.parametrize(
    ("language", "words"),
    [("en", "It is promised that rain comes on Saturday."), ("de", "Das ist versprochen, Ehrenwort."),
     ("it", "È promesso, vi aiuto a caricare."), ("pt", "Está prometido, ajudo a carregar.")],
)  # fmt: skip
def test_a_word_of_honour_reserves_nothing(language, words):
    assert "reserved" not in reading(f"{PANELS[language]} {words}").doubts


@pytest.mark.parametrize(
    ("language", "words"),
    [("fr", "Au démarrage la led rouge clignote un instant, c'est normal."),
     ("de", "Die rote LED blinkt beim Start kurz, das gehört so."), ("en", "My old one kept showing an error code.")],
)  # fmt: skip
def test_a_light_at_the_start_and_an_old_one_that_failed_are_no_fault(language, words):
    assert reading(f"{ONE_INVERTER[language]} {words}").defects == ()


@pytest.mark.parametrize(("language", "words"), [("es", "Edito: ahora están a 90 € en la tienda."),
                                                 ("it", "Edit: ora sono a 90 € in negozio.")])  # fmt: skip
def test_a_shop_told_behind_the_price_of_an_edit_is_seen(language, words):
    assert reading(f"{PANELS[language]} {words}").price.value == 60.0


@pytest.mark.parametrize(
    ("language", "words"),
    [("en", "I also sell a phone charger for the cigarette lighter."), ("cs", "Prodám i nabíječku do zapalovače."),
     ("de", "Für den Zigarettenanzünder habe ich einen anderen."), ("en", "Nothing here works without the grid.")],
)  # fmt: skip
def test_other_things_for_a_car_make_no_inverter_off_the_grid(language, words):
    assert "off_grid_inverter" not in reading(f"{ONE_INVERTER[language]} {words}").doubts
