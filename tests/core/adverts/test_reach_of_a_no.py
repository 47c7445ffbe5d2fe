"""How far a "no" reaches in the ten languages: lists of faults, kinds of goods, ties to an account; both sides."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
PANEL = {"en": "Solar panel 400 W", "de": "Solarmodul 400 W", "nl": "Zonnepaneel 400 Wp", "fr": "Panneau solaire 400 W",
         "es": "Panel solar 400 W", "it": "Pannello solare 400 W", "pl": "Panel słoneczny 400 W",
         "pt": "Painel solar 400 W", "cs": "Solární panel 400 W", "da": "Solpanel 400 W"}  # fmt: skip
INVERTER = {"en": "Microinverter 800 W", "de": "Mikrowechselrichter 800 W", "nl": "Micro-omvormer 800 W",
            "fr": "Micro-onduleur 800 W", "es": "Microinversor 800 W", "it": "Microinverter 800 W",
            "pl": "Mikroinwerter 800 W", "pt": "Microinversor 800 W", "cs": "Mikroměnič 800 W",
            "da": "Mikroinverter 800 W"}  # fmt: skip


def read(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize(
    ("language", "body"),
    [
        ("en", "Free of scratches and cracks."),
        ("en", "Free from cracked glass, scratches or dents."),
        ("de", "Frei von Kratzern und Rissen."),
        ("de", "Ohne Glasbruch, Kratzer oder Dellen."),
        ("nl", "Vrij van krassen en barsten."),
        ("nl", "Zonder barsten, krassen of deuken."),
        ("fr", "Exempt de rayures et de fissures."),
        ("fr", "Sans fissure, rayures ou bosses."),
        ("es", "Libre de arañazos y grietas."),
        ("es", "Sin grietas, arañazos o abolladuras."),
        ("it", "Privo di graffi e crepe."),
        ("it", "Senza crepe, graffi o ammaccature."),
        ("pl", "Wolny od rys i pęknięć."),
        ("pl", "Bez pęknięcia, rysy i wgnieceń."),
        ("pt", "Livre de riscos e rachas."),
        ("pt", "Sem rachas, riscos ou mossas."),
        ("cs", "Bez prasklin a škrábanců."),
        ("cs", "Bez praskliny, škrábance a oděrky."),
        ("da", "Fri for ridser og revner."),
        ("da", "Uden revner, ridser eller buler."),
    ],
)
def test_a_no_reaches_every_member_of_a_list(language, body):
    found = read(PANEL[language], body)
    assert (found.defects, found.condition) == ((), "unknown")


@pytest.mark.parametrize(
    ("language", "body", "defects"),
    [
        ("en", "No cracked glass, scratches on the frame.", ("cosmetic",)),
        ("en", "No cracked glass but scratches.", ("cosmetic",)),
        ("en", "No dents. Scratches and cracked glass.", ("cosmetic", "cracked_glass")),
        ("de", "Kein Glasbruch, Kratzer am Rahmen.", ("cosmetic",)),
        ("de", "Kein Glasbruch, aber Kratzer.", ("cosmetic",)),
        ("nl", "Geen glasbreuk, krassen op het frame.", ("cosmetic",)),
        ("fr", "Pas de verre cassé, rayures sur le cadre.", ("cosmetic",)),
        ("fr", "Livraison libre de frais, rayures.", ("cosmetic",)),
        ("es", "Sin cristal roto, arañazos en el marco.", ("cosmetic",)),
        ("es", "Envío libre de gastos. Arañazos y grietas en el cristal.", ("cosmetic", "cracked_glass")),
        ("it", "Senza vetro rotto, graffi sulla cornice.", ("cosmetic",)),
        ("pl", "Bez zbitej szyby, rysy na ramie.", ("cosmetic",)),
        ("pt", "Sem vidro partido, riscos na moldura.", ("cosmetic",)),
        ("cs", "Bez prasklého skla, škrábance na rámu.", ("cosmetic",)),
        ("da", "Intet knust glas, ridser på rammen.", ("cosmetic",)),
    ],
)
def test_a_no_does_not_reach_over_a_comma_that_begins_anew_or_a_but(language, body, defects):
    assert read(PANEL[language], body).defects == defects


@pytest.mark.parametrize(
    ("language", "none", "bound", "not_yet"),
    [
        ("en", "Not bound to any account.", "Bound to the account of the previous owner.",
         "Not yet released from the account."),
        ("de", "An kein Konto gebunden.", "An das Konto des Vorbesitzers gebunden.", "Noch nicht vom Konto gelöst."),
        ("nl", "Niet gekoppeld aan een account.", "Gekoppeld aan het account van de vorige eigenaar.",
         "Nog niet ontkoppeld van het account."),
        ("fr", "Lié à aucun compte.", "Lié au compte de l'ancien propriétaire.", "Pas encore libéré du compte."),
        ("es", "No está vinculado a ninguna cuenta.", "Vinculado a la cuenta del anterior dueño.",
         "Aún no liberado de la cuenta."),
        ("it", "Non è legato a nessun account.", "Legato all'account del vecchio proprietario.",
         "Non ancora svincolato dall'account."),
        ("pl", "Nie jest przypisany do żadnego konta.", "Przypisany do konta poprzedniego właściciela.",
         "Jeszcze nie odpięty od konta."),
        ("pt", "Não está ligado a nenhuma conta.", "Ligado à conta do anterior dono.",
         "Ainda não desvinculado da conta."),
        ("cs", "Není vázán na žádný účet.", "Vázán na účet předchozího majitele.", "Ještě není odpojen od účtu."),
        ("da", "Ikke bundet til en konto.", "Knyttet til tidligere ejers konto.", "Endnu ikke frigivet fra kontoen."),
    ],
)  # fmt: skip
def test_who_is_tied_to_no_account_raises_no_doubt_but_who_is_not_yet_released_does(language, none, bound, not_yet):
    title = INVERTER[language]
    assert (read(title, none).doubts, read(title, none).condition) == ((), "unknown")
    assert "account_bound" in read(title, bound).doubts
    assert "account_bound" in read(title, not_yet).doubts


@pytest.mark.parametrize(
    ("language", "none", "some"),
    [
        ("en", "Not a 12 V camping panel, a proper roof panel.", "A 12 V camping panel."),
        ("de", "Kein 12 V Campingmodul.", "Ein 12 V Modul für Camping."),
        ("de", "Wurde nie im Wohnwagen oder am 12V-Akku benutzt.", "Wurde im Wohnwagen am 12V-Akku benutzt."),
        ("nl", "Geen 12 V paneel voor de camper.", "12 V paneel voor de camper."),
        ("fr", "Ce n'est pas un panneau 12 V pour camping-car.", "Panneau 12 V pour camping-car."),
        ("es", "No es un panel de 12 V para caravana.", "Es un panel de 12 V para caravana."),
        ("it", "Non è un pannello da 12 V per camper.", "È un pannello da 12 V per camper."),
        ("pl", "To nie jest panel 12 V na kampera.", "Panel 12 V do kampera."),
        ("pt", "Não é um painel de 12 V para caravana.", "Painel de 12 V para caravana."),
        ("cs", "Není to panel 12 V pro karavan.", "Panel 12 V pro karavan."),
        ("da", "Ikke et 12 V panel til campingvogn.", "12 V panel til campingvogn."),
    ],
)
def test_a_panel_that_is_said_to_be_none_for_a_caravan_is_not_doubted(language, none, some):
    assert read(PANEL[language], none).doubts == ()
    assert "camping_12v" in read(PANEL[language], some).doubts
