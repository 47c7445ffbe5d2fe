"""Of a sheet that tells limits of two inverters the careful ones are kept; names with a stroke keep a figure each."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
# Goods; names of greatest volts, window, greatest current, short-circuit current, start.
SHEETS = {
    "en": ("Micro inverter 600 W", "Max DC input voltage", "MPPT range", "Max input current",
           "Max short-circuit current", "Start voltage"),
    "de": ("Mikrowechselrichter 600 W", "Max. DC-Eingangsspannung", "MPPT-Bereich", "Max. Eingangsstrom",
           "Max. Kurzschlussstrom", "Startspannung"),
    "fr": ("Micro-onduleur 600 W", "Tension d'entrée DC max", "Plage MPPT", "Courant d'entrée max",
           "Courant de court-circuit max", "Tension de démarrage"),
    "es": ("Microinversor 600 W", "Tensión máxima de entrada DC", "Rango MPPT", "Corriente máxima de entrada",
           "Corriente máxima de cortocircuito", "Tensión de arranque"),
    "it": ("Microinverter 600 W", "Tensione max ingresso DC", "Intervallo MPPT", "Corrente max ingresso",
           "Corrente max di corto circuito", "Tensione di avvio"),
    "nl": ("Micro-omvormer 600 W", "Max. DC-ingangsspanning", "MPPT-bereik", "Max. ingangsstroom",
           "Max. kortsluitstroom", "Startspanning"),
    "pl": ("Mikroinwerter 600 W", "Maks. napięcie wejściowe DC", "Zakres MPPT", "Maks. prąd wejściowy",
           "Maks. prąd zwarcia", "Napięcie startu"),
    "cs": ("Mikroměnič 600 W", "Max. vstupní napětí DC", "Rozsah MPPT", "Max. vstupní proud", "Max. zkratový proud",
           "Startovací napětí"),
    "da": ("Mikroinverter 600 W", "Maks. DC-indgangsspænding", "MPPT-område", "Maks. indgangsstrøm",
           "Maks. kortslutningsstrøm", "Startspænding"),
    "pt": ("Microinversor 600 W", "Tensão máxima de entrada DC", "Faixa MPPT", "Corrente máxima de entrada",
           "Corrente máxima de curto-circuito", "Tensão de arranque"),
}  # fmt: skip
OF_TWO = (("60 V", "50 V"), ("16-55 V", "20-45 V"), ("14 A", "10 A"), ("18 A", "13 A"), ("22 V", "25 V"))
CAREFUL = {"max_input_voltage_v": 50.0, "max_current_a": 10.0, "max_short_circuit_current_a": 13.0}


def limits(title, body):
    return read_advert(Advert(title=title, body=body), WORDS)


@pytest.mark.parametrize("language", SHEETS)
@pytest.mark.parametrize(("between", "end"), [(" / ", "\n"), ("/", "; ")])
def test_the_careful_one_of_two_is_kept_and_doubted(language, between, end):
    title, *names = SHEETS[language]
    lines = [f"{name}: {between.join(pair)}" for name, pair in zip(names, OF_TWO, strict=True)]
    found = limits(title, f"{end.join(lines)}{end}")
    for name, value in CAREFUL.items():
        assert found.inverter.get(name, value) <= value, name
    assert found.inverter["max_input_voltage_v"] == 50.0
    assert "rating_conflict" in found.doubts
    turned = [f"{name}: {between.join(reversed(pair))}" for name, pair in zip(names, OF_TWO, strict=True)]
    again = limits(
        title, f"{end.join(turned)}{end}"
    ).inverter  # the volts may be left out: "50 V / 60 V" is like a range
    assert all(again.get(name, value) <= value for name, value in CAREFUL.items())


@pytest.mark.parametrize("language", SHEETS)
def test_of_columns_of_two_models_no_greater_one_is_taken(language):
    title, *names = SHEETS[language]
    lines = [f"| {name} | {one} | {two} |" for name, (one, two) in zip(names, OF_TWO, strict=True)]
    found = limits(title, "|  | A | B |\n" + "\n".join(lines))
    for name, value in CAREFUL.items():
        assert found.inverter.get(name, value) <= value, name


@pytest.mark.parametrize("language", SHEETS)
def test_names_with_a_stroke_between_them_have_a_figure_each(language):
    title, volts, _, current, short, start = SHEETS[language]
    found = limits(title, f"{current} / {short}: 14 A / 18 A. {volts} 60 V / {start} 22 V.")
    assert found.inverter["max_current_a"] == 14.0
    assert found.inverter["max_short_circuit_current_a"] == 18.0
    assert found.inverter["max_input_voltage_v"] == 60.0
    assert "rating_conflict" not in found.doubts


def test_one_figure_again_is_no_doubt_and_what_is_switchable_keeps_its_greatest_power():
    found = limits("Mikrowechselrichter", "Max. Eingangsstrom 14 A / 14 A. Umschaltbar 600/800 W.")
    assert (found.inverter["max_current_a"], found.inverter["ac_power_w"]) == (14.0, 800.0)
    assert "rating_conflict" not in found.doubts
    assert limits("Mikrowechselrichter", "Nennleistung AC: 800 W / 600 W.").inverter["ac_power_w"] == 600.0
