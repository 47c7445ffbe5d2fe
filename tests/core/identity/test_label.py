"""What pasted labels say: clear cases, and cases that mislead. All labels are invented."""

import pytest

from service.core.identity import PanelFacts, read_label, sheet_doubts, with_label
from service.core.identity.label_tokens import LONGEST_LABEL
from tests.growth import grows_within

FOUR = ("rated_power_w", "open_circuit_voltage_v", "short_circuit_current_a", "max_power_voltage_v",
        "max_power_current_a")  # fmt: skip
LABELS = {
    "English": "Rated Maximum Power (Pmax) [W] 330  Open Circuit Voltage (Voc) [V] 40.90  Short Circuit Current "
    "(Isc) [A] 10.25 Maximum Power Voltage (Vmp) [V] 34.1 Maximum Power Current (Imp) [A] 9.68",
    "German": "Nennleistung 330 Wp\nLeerlaufspannung (Uoc) 40,9 V\nKurzschlussstrom (Isc) 10,25 A\nMPP-Spannung 34,1 "
    "V\nMPP-Strom 9,68 A",
    "French": "Puissance maximale 0,330 kWc\nTension à vide (Voc) [V] 40,9\nCourant de court-circuit Icc [A] 10,25\n"
    "Tension à puissance maximale 34,1 V\nCourant à puissance maximale 9,68 A",
    "Spanish": "Potencia máxima 330 W; Tensión de circuito abierto 40,9 V; Corriente de cortocircuito 10,25 A; "
    "Tensión de máxima potencia 34,1 V; Corriente de máxima potencia 9,68 A",
    "Italian": "Potenza massima 330 W\nTensione a circuito aperto 40,9 V\nCorrente di cortocircuito 10,25 A\n"
    "Tensione alla massima potenza 34,1 V\nCorrente alla massima potenza 9,68 A",
    "Dutch": "Maximaal vermogen 330 W\nOpenklemspanning 40,9 V\nKortsluitstroom 10,25 A\nSpanning bij maximaal "
    "vermogen 34,1 V\nStroom bij maximaal vermogen 9,68 A",
    "names first, figures below": "Pmax\n330W\nVoc\n40.9V\nIsc\n10.25 A\nVmpp/Impp: 34.1 V / 9.68 A",
    "two columns": "STC NOCT\nPmax 330 W 246 W\n"
    "Voc 40.9 V 38.1 V\nIsc 10.25 A 8.3 A\nVmp 34.1 V 31.7 V\nImp 9.68A 7.7A",
}


def facts(text):
    return with_label(PanelFacts(), read_label(text))


@pytest.mark.parametrize("text", LABELS.values(), ids=LABELS)
def test_the_five_ratings_are_read(text):
    read = facts(text).facts
    assert [getattr(read, name) for name in FOUR] == pytest.approx([330, 40.9, 10.25, 34.1, 9.68])


@pytest.mark.parametrize("text", LABELS.values(), ids=LABELS)
def test_every_claim_points_at_its_words_in_the_text_as_sent(text):
    for claim in read_label("🔆 " + text):
        assert ("🔆 " + text)[claim.start : claim.end] == claim.words


def test_all_else_on_a_label_is_read_too():
    read = facts("Model: HL-330 Pmax 330 W Power tolerance 0~+5 W Max. system voltage 1.000 V DC Max series fuse 20 A "
                 "1684 x 1002 x 35 mm 18.5 kg 60 cells")  # fmt: skip
    assert (read.facts.model_code, read.facts.cells_visible) == ("HL-330", 60)
    assert (read.facts.length_mm, read.facts.width_mm) == (1684, 1002)
    assert read.also == {"max_system_voltage_v": 1000, "max_series_fuse_a": 20, "weight_kg": 18.5,
                         "power_tolerance_pct": (0.0, 1.52)}  # fmt: skip


@pytest.mark.parametrize(
    ("text", "name", "value"),
    [("Voc -0.29 %/°C", "voc_coefficient_pct_per_k", -0.29),
     ("Voc 40 V TK Uoc: -116 mV/K", "voc_coefficient_pct_per_k", -0.29),
     ("Voc 40 V, temperature coefficient Voc −0,116 V/K", "voc_coefficient_pct_per_k", -0.29),
     ("Isc 10 A, Isc +5 mA/°C", "isc_coefficient_pct_per_k", 0.05),
     ("Pmax 330 W, Pmax -0.37 % / K", "power_coefficient_pct_per_k", -0.37)],
)  # fmt: skip
def test_coefficients_are_read_in_the_units_that_labels_have(text, name, value):
    assert getattr(facts(text).facts, name) == pytest.approx(value)


@pytest.mark.parametrize("text", ["Isc +5 mA/K", "Voc -116 mV/K"])
def test_a_coefficient_in_volts_or_amperes_waits_for_what_it_belongs_to(text):
    read = facts(text).facts
    assert (read.voc_coefficient_pct_per_k, read.isc_coefficient_pct_per_k) == (None, None)


@pytest.mark.parametrize(
    "text",
    ["Voc at -10 °C: 42.1 V", "Electrical data at NOCT\nVoc 38.1 V", "800 W/m2, 20 °C, Voc 38.1 V",
     "Leerlaufspannung bei NMOT 38,1 V", "NOCT: Uoc 38,1 V"],
)  # fmt: skip
def test_a_voltage_at_other_than_standard_conditions_is_doubted_and_not_taken(text):
    read = facts(text)
    assert read.facts.open_circuit_voltage_v is None
    assert [(doubt.code, doubt.what) for doubt in read.doubts] == [("not_at_stc", "open_circuit_voltage_v")]


@pytest.mark.parametrize(
    "text", ["STC 1000 W/m2, 25 °C: Voc 40.9 V", "NOCT 45 ± 2 °C\nVoc 40.9 V", "Voc (25°C) 40.9 V"]
)
def test_a_voltage_at_standard_conditions_is_taken_though_others_are_named(text):
    assert facts(text).facts.open_circuit_voltage_v == 40.9


@pytest.mark.parametrize(
    "text", ["Voc:\nVmp: 34.1 V", "Voc see sheet, Vmp 34.1 V", "Open circuit voltage\nSystem voltage 100 V"]
)
def test_a_figure_that_two_names_wait_for_is_given_to_none(text):
    read = facts(text)
    assert read.facts.open_circuit_voltage_v is None
    assert read.facts.max_power_voltage_v is None
    assert [doubt.code for doubt in read.doubts] == ["unclear_which"]


def test_two_names_and_two_figures_are_matched_in_order():
    read = facts("Voc / Vmp: 40.9 V / 34.1 V").facts
    assert (read.open_circuit_voltage_v, read.max_power_voltage_v) == (40.9, 34.1)


def test_a_name_that_has_its_coefficient_does_not_take_the_next_voltage():
    read = facts("Uoc 40,9 V\nTK Uoc -0,29 %/K\nMax. Systemspannung 1000 V  Vorsicherung 20 A")
    assert read.facts.open_circuit_voltage_v == 40.9
    assert read.also == {"max_system_voltage_v": 1000, "max_series_fuse_a": 20}
    assert read.doubts == ()


def test_light_on_the_panel_is_not_its_power():
    assert facts("at 1000 W/m² Voc 40.9 V").facts.rated_power_w is None


def test_what_is_said_twice_differently_is_doubted():
    assert [doubt.code for doubt in facts("Voc 40.9 V\nVoc 37.9 V").doubts] == ["said_twice"]


def test_what_no_panel_has_is_not_taken():
    read = facts("Voc 4090 V")
    assert read.facts.open_circuit_voltage_v is None
    assert [doubt.code for doubt in read.doubts] == ["out_of_bounds"]


def test_what_the_request_says_stands_and_the_difference_is_told():
    read = with_label(PanelFacts(rated_power_w=300.0), read_label("Pmax 330 W"))
    assert read.facts.rated_power_w == 300
    assert [doubt.code for doubt in read.doubts] == ["differs_from_request"]


@pytest.mark.parametrize(
    ("given", "codes"),
    [({"rated_power_w": 330, "open_circuit_voltage_v": 40.9, "short_circuit_current_a": 10.25,
       "max_power_voltage_v": 34.1, "max_power_current_a": 9.68, "cells_visible": 60}, []),
     ({"rated_power_w": 330, "max_power_voltage_v": 34.1, "max_power_current_a": 9.0}, ["power_product"]),
     ({"rated_power_w": 330, "open_circuit_voltage_v": 30.9, "short_circuit_current_a": 10.25}, ["fill_factor"]),
     ({"open_circuit_voltage_v": 34.1, "max_power_voltage_v": 40.9}, ["voltages_swapped"]),
     ({"short_circuit_current_a": 9.68, "max_power_current_a": 10.25}, ["currents_swapped"]),
     ({"open_circuit_voltage_v": 40.9, "cells_visible": 72, "cell_kind": "cdte"}, []),
     ({"open_circuit_voltage_v": 40.9, "cells_visible": 96}, ["voltage_per_cell"]),
     ({"open_circuit_voltage_v": 40.9, "cells_in_series": 120}, ["half_cells_counted"]),
     ({"open_circuit_voltage_v": 40.9, "cells_visible": 120}, [])],
)  # fmt: skip
def test_ratings_that_contradict_each_other_are_doubted(given, codes):
    assert [doubt.code for doubt in sheet_doubts(PanelFacts(**given))] == codes


HOSTILE = ("1 x ", "pmax ", "9", "\0", "voc (", "tolerance +", "\u202e38,5 V Voc ", "max power ", "0,", "cells ",
           "1x1x1mm ", "é", "noct ", "model ", "-", "tension en el punto de ", "((((", "%/", "Voc 38 V\n", "²", "１",
           "ﷺ", "\U0001f506", "4o.", "l0,", "40,g ", "Voc 40 ", "40.9 V / ", "330 40.9\n", "Pmax Voc Isc\n330 40 9\n",
           "STC NOCT\n", "NOCT (", "max input ", "x330-", "Model A1 ")  # fmt: skip


@pytest.mark.parametrize("piece", HOSTILE, ids=ascii)
def test_hostile_text_is_read_in_time_that_grows_with_its_length_alone(piece):
    """Four times the text, at most some eight times the CPU time: noise of a shared machine, no square."""

    long, short = ((piece * length)[:length] for length in (LONGEST_LABEL, LONGEST_LABEL // 4))
    assert len(read_label(long)) <= 100
    assert grows_within(lambda: read_label(short), lambda: read_label(long), 8)


def test_millivolts_are_not_volts():
    assert facts("Voc 40900 mV").facts.open_circuit_voltage_v == pytest.approx(40.9)
    assert facts("Voc 100 mV").facts.open_circuit_voltage_v is None
