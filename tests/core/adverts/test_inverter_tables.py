"""Limits of inverters in tables: below their names, or behind names that tell the unit in brackets."""

import pytest

from service.core.adverts import Advert, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
LIMITS = {"tracking_min_v": 24, "tracking_max_v": 52, "start_voltage_v": 21, "max_input_voltage_v": 58,
          "max_current_a": 12.5, "max_short_circuit_current_a": 16}  # fmt: skip


def inverter_of(title, body):
    return read_advert(Advert(title=title, body=body), WORDS).inverter


@pytest.mark.parametrize(
    ("title", "head"),
    [
        ("Micro inverter, used", "MPPT range | Start voltage | Max DC voltage | Max input current | Isc max"),
        ("Mikrowechselrichter, gebraucht", "MPP-Bereich | Anlaufspannung | Max. Eingangsspannung | Max. Strom | Isc"),
        ("Micro-omvormer, gebruikt", "MPPT-bereik | Startspanning | Max. DC-spanning | Ingangsstroom | Isc"),
        ("Micro-onduleur d'occasion", "Plage MPPT | Tension de démarrage | Tension DC max | Courant max | Icc"),
        ("Microinversor usado, vendo", "Rango MPPT | Tensión de arranque | Tensión máxima | Corriente máxima | Icc"),
        ("Microinverter usato, vendo", "Intervallo MPPT | Tensione di avvio | Tensione max | Corrente max | Icc"),
        ("Mikroinwerter używany", "Zakres MPPT | Napięcie startowe | Maks. napięcie DC | Prąd wejściowy | Isc"),
        ("Microinversor usado, vendo", "Gama MPPT | Tensão de arranque | Tensão máxima | Corrente máxima | Icc"),
        ("Mikroměnič, prodám", "Rozsah MPPT | Startovací napětí | Max. DC napětí | Vstupní proud | Isc"),
        ("Mikroinverter, brugt", "MPPT-område | Startspænding | Maks. DC-spænding | Indgangsstrøm | Isc"),
    ],
)
def test_limits_stand_below_their_names(title, head):
    assert inverter_of(title, f"{head}\n24-52 V | 21 V | 58 V | 12.5 A | 16 A") == LIMITS


def test_a_row_of_units_and_outer_bars_tell_the_same():
    body = (
        "Data of the micro inverter\n| Start voltage | MPPT range | Max DC | Max current | Isc max | AC power |\n"
        "|---|---|---|---|---|---|\n| V | V | V | A | A | W |\n| 21 | 24-52 | 58 | 2 x 12.5 | 2 x 16 | 700 |"
    )
    assert inverter_of("Micro inverter for sale", body) == {**LIMITS, "ac_power_w": 700}


@pytest.mark.parametrize(
    ("title", "body"),
    [
        (
            "Micro inverter for sale",
            (
                "MPPT range (V): 24-52\nStart voltage (V): 21\nMax input voltage (V): 58\n"
                "Max input current (A): 2 x 12.5\n"
                "Max short circuit current (A): 16\nGrid voltage (V): 230\nGrid current (A): 3.0"
            ),
        ),
        (
            "Mikrowechselrichter zu verkaufen",
            (
                "MPP-Bereich (V) | 24-52\nStartspannung (V) | 21\nMax. Eingangsspannung (V) | 58\n"
                "Max. Eingangsstrom (A) | 12,5\n"
                "Max. Kurzschlussstrom (A) | 16\nNetzspannung (V) | 230\nNetzstrom (A) | 3"
            ),
        ),
        (
            "Micro-onduleur à vendre",
            (
                "Plage MPPT [V] : 24-52\nTension de démarrage [V] : 21\nTension DC max [V] : 58\n"
                "Courant max [A] : 12,5\n"
                "Courant de court-circuit [A] : 16\nTension réseau [V] : 230\nCourant de sortie [A] : 3,0"
            ),
        ),
    ],
)
def test_a_name_tells_the_unit_of_the_bare_figure_behind_it(title, body):
    assert inverter_of(title, body) == LIMITS


@pytest.mark.parametrize(
    ("head", "row"),
    [
        ("Start voltage | Max DC | Grid voltage | Grid current", "21 V | 58 V | 230 V | 3.1 A"),
        ("AC voltage | AC current | Start voltage | Max DC", "230 V | 3.1 A | 21 V | 58 V"),
        ("Max output (V) | Max output (A) | Start voltage (V) | Max DC (V)", "253 | 3.1 | 21 | 58"),
    ],
)
def test_what_the_grid_has_is_no_limit_of_an_input(head, row):
    found = inverter_of("Micro inverter for sale", f"{head}\n{row}")
    assert found == {"start_voltage_v": 21, "max_input_voltage_v": 58}


@pytest.mark.parametrize(
    "body",
    [
        # Which of the two is sold?
        (
            "Model | MPPT range | Start voltage | Max DC | AC power\nN-6 | 22-50 V | 20 V | 55 V | 600 W\n"
            "N-8 | 26-54 V | 22 V | 60 V | 800 W"
        ),
        # Volts of a grid as the greatest direct voltage.
        "Start voltage | Max voltage | Current\n | 230 V |",
    ],
)
def test_a_table_of_two_inverters_or_of_a_grid_tells_nothing(body):
    assert not inverter_of("Micro inverter for sale", body)
