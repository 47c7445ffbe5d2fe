"""Labels and sheets that mislead: other conditions, tables, letters in figures, limits, models, prose. All invented."""

import pytest

from service.core.identity import VOC, PanelFacts, read_label, with_label

ISC, POWER = "short_circuit_current_a", "rated_power_w"
THREE = ("Model XX-320 XX-330 XX-340\nPmax (W) 320 330 340\nVoc (V) 40.5 40.9 41.2\nIsc (A) 10.1 10.2 10.3",
         "Pmax (W) Voc (V) Isc (A)\n320 40.5 10.1\n330 40.9 10.2\n340 41.2 10.3",
         "Model Pmax Voc Isc\nXX-320 320 W 40.5 V 10.1 A\nXX-330 330 W 40.9 V 10.2 A\nXX-340 340 W 41.2 V 10.3 A",
         "Pmax\nVoc\nIsc\n320 330 340\n40.5 40.9 41.2\n10.1 10.2 10.3",
         "Pmax 320W 330W 340W\nVoc 40.5V/40.9V/41.2V\nIsc 10.1 10.2 10.3 A")  # fmt: skip


def told(text, **given):
    read = with_label(PanelFacts(**given), read_label(text))
    return {name: getattr(read.facts, name) for name in read.read}, {(d.code, d.what) for d in read.doubts}


@pytest.mark.parametrize(
    "text",
    ["Voc 34.9 V (NOCT)", "Voc 34.9 V at NMOT", "Voc 34.9V NOCT", "Voc 34.9 V, NOCT", "Voc 34.9 V (NOCT 45 °C)",
     "Voc 34.9 V @ 800 W/m²", "Voc 34.9 V (800 W/m2, 20 C)", "Voc 42.1 V at -10 °C", "Voc 42.1 V (-10 C)",
     "Voc at NOCT 45 °C: 34.9 V", "Uoc 34,9 V bei NMOT", "Voc 34.9 V (BNPI)"],
)  # fmt: skip
def test_a_condition_behind_the_figure_is_heard(text):
    assert told(text) == ({}, {("not_at_stc", VOC)})


@pytest.mark.parametrize(
    "text",
    ["Voc 40.9 V (STC)", "Voc 40.9 V (25 °C)", "Voc 40.9 V (1000 W/m2, 25 °C)", "Voc 40.9 V, NOCT 45 °C",
     "Voc 40.9 V NOCT 45 °C", "Voc 40.9 V (STC) 38.1 V (NOCT)", "Voc 38.1 V (NOCT) / 40.9 V (STC)",
     "Voc at 25 C 40.9 V", "Voc (STC: 1000 W/m2, 25 °C, AM 1.5) 40.9 V", "Voc (AM1.5) 40.9 V",
     "NMOT STC\nVoc 38.1 V 40.9 V", "STC (1000 W/m2) NOCT (800 W/m2)\nVoc (V) 40.9 38.1"],
)  # fmt: skip
def test_the_figure_at_standard_conditions_is_found_beside_others(text):
    assert told(text)[0] == {VOC: 40.9}


@pytest.mark.parametrize("text", ["NMOT STC\nVoc 38.1", "STC NOCT\nVoc 40.9 39.0 38.1"])
def test_a_row_with_fewer_or_more_figures_than_columns_of_conditions_is_not_taken(text):
    assert told(text) == ({}, {("unclear_which", VOC)})


@pytest.mark.parametrize(
    "text",
    ["Pmax (W) Voc (V) Isc (A)\n330 40.9 10.25", "Pmax Voc Isc\n330 W 40.9 V 10.25 A",
     "Pmax (W) | Voc (V) | Isc (A)\n330 | 40.9 | 10.25",
     "Model | Pmax (W) | Voc (V) | Isc (A)\nXX-330M | 330 | 40.9 | 10.25",
     "Pmax\nVoc\nIsc\n330 W\n40.9 V\n10.25 A", "Pmax Voc Isc\nSTC 330 40.9 10.25\nNOCT 246 38.1 8.3"],
)  # fmt: skip
def test_a_row_of_figures_below_a_row_of_names_is_read_column_by_column(text):
    assert told(text)[0] == {POWER: 330, VOC: 40.9, ISC: 10.25}


def test_many_columns_keep_their_order():
    text = "Pmax (W) | Vmp (V) | Imp (A) | Voc (V) | Isc (A)\n330 | 34.1 | 9.68 | 40.9 | 10.25"
    assert told(text)[0] == {POWER: 330, "max_power_voltage_v": 34.1, "max_power_current_a": 9.68, VOC: 40.9,
                             ISC: 10.25}  # fmt: skip


@pytest.mark.parametrize(
    "text",
    ["Pmax (W) Vmp (V) Voc (V)\n330 40.9", "Pmax Efficiency Voc\n330 20.1 40.9", "Pmax Voc Isc\n330 10.25 A 40.9 V",
     "Pmax (W) Voc (V) Isc (A)\n330"],
)  # fmt: skip
def test_a_row_that_does_not_agree_with_its_names_is_not_read_at_all(text):
    read, doubts = told(text)
    assert read == {}
    assert {code for code, _ in doubts} == {"unclear_which"}


@pytest.mark.parametrize(
    ("text", "what"),
    [("Voc 4O.9 V", VOC), ("Voc: 4o,9V", VOC), ("Isc l0.5 A", ISC), ("Isc I0.5A", ISC), ("Isc 1O.25 A", ISC),
     ("Voc S0.9 V", VOC), ("Voc 40.g V", VOC), ("Voc 40,g V", VOC), ("Pmax 33O W", POWER), ("Voc 40. 9 V", VOC)],
)  # fmt: skip
def test_a_letter_inside_a_figure_is_doubted(text, what):
    assert told(text) == ({}, {("illegible_figure", what)})


def test_the_pieces_of_a_code_are_no_figures():
    assert told("Voc XX-330M 40.9 V")[0] == {VOC: 40.9}


@pytest.mark.parametrize(
    "text",
    ["Voc max 60 V", "Max. Voc 60 V", "Voc < 60 V", "Voc ≤ 60V", "Uoc max. 60 V", "Voc 60 V max", "Voc 60 V (max.)",
     "max open circuit voltage 60 V", "max input Voc 60 V"],
)  # fmt: skip
def test_a_limit_is_not_the_panels_rating(text):
    assert told(text) == ({}, {("limit_not_rating", VOC)})


@pytest.mark.parametrize(
    "text",
    ["max. input voltage < 60 V", "max system voltage 100 V", "Inverter: max. input voltage 60 V, MPPT 16-60 V"],
)
def test_limits_of_inverters_and_systems_are_nobodys_open_circuit_voltage(text):
    assert VOC not in told(text)[0]


@pytest.mark.parametrize(
    "text", ["Inverter data\nVoc 60 V", "Voc 60 V per input", "Input Voc 60 V", "Wechselrichter: Uoc 60 V"]
)
def test_a_figure_beside_words_of_an_inverter_is_not_the_panels(text):
    assert told(text) == ({}, {("not_the_panels", VOC)})


def test_the_panels_own_line_is_read_beside_an_inverters():
    assert told("Panel Voc 40.9 V, inverter max. Voc 60 V")[0] == {VOC: 40.9}
    assert told("Inverter\nmax. Voc 60 V\nModule\nVoc 40.9 V")[0] == {VOC: 40.9}


@pytest.mark.parametrize("text", THREE)
def test_of_several_models_none_is_taken_before_it_is_said_which(text):
    read, doubts = told(text)
    assert read == {}
    assert ("several_models", POWER) in doubts


@pytest.mark.parametrize("text", THREE)
def test_the_model_with_the_power_that_was_said_is_taken_and_told(text):
    read, doubts = told(text, rated_power_w=330.0)
    assert (read[VOC], read[ISC]) == (40.9, 10.2)
    assert doubts == {("column_taken", POWER)}


def test_the_model_with_the_code_that_was_said_is_taken_and_told():
    read, doubts = told(THREE[0], model_code="xx-340")
    assert (read[POWER], read[VOC], read[ISC]) == (340, 41.2, 10.3)
    assert ("column_taken", POWER) in doubts


@pytest.mark.parametrize("power", [325.0, 410.0])
def test_a_power_that_no_column_has_takes_none(power):
    read, doubts = told(THREE[0], rated_power_w=power)
    assert read == {}
    assert ("several_models", POWER) in doubts


@pytest.mark.parametrize("text", ["Pmax 330 W 0/+5 W", "Pmax 330 W ± 5 W", "Pmax 330 W +5 W", "Pmax 330 W -0/+5 W"])
def test_a_tolerance_is_no_second_model(text):
    assert told(text)[0] == {POWER: 330}


@pytest.mark.parametrize(
    ("text", "code"),
    [("I measured Voc of about 36 V in the sun", "not_a_rating"), ("Voc 36 V measured", "not_a_rating"),
     ("Voc 36-41 V", "not_a_rating"), ("Voc is some 4 V higher than mine, 36 V", "not_a_rating"),
     ("Voc of this one was so low that day that 36 V", "unclear_which"), ("40.9 V Voc, 34.1 V", "unclear_which"),
     ("Voc 40.9 V ... Voc 37.9 V", "said_twice"), ("Voc 40.9 V or 37.9 V", "several_models")],
)  # fmt: skip
def test_what_prose_leaves_open_is_asked(text, code):
    read, doubts = told(text)
    assert VOC not in read
    assert code in {one for one, _ in doubts}


@pytest.mark.parametrize("text", ["Voc 38.1/40.9 V (NOCT/STC)", "Voc 38.1 V 40.9 V (NOCT, STC)"])
def test_two_conditions_behind_two_figures_leave_both_open(text):
    assert told(text)[0] == {}


def test_plain_prose_is_read():
    text = "The panel has an open circuit voltage of 40.9 V and a short circuit current of 10.25 A."
    assert told(text) == ({VOC: 40.9, ISC: 10.25}, set())


@pytest.mark.parametrize(
    "text",
    ["Pmax 323 W, Voc 37.1 V, Isc 11.4 A at NMOT", "Voc 37.1 V Isc 11.4 A @ 800 W/m2",
     "Pmax 323 W Voc 37.1 V bei NOCT",
     "323 W, 37.1 V, 11.4 A at NMOT", "Pmax 323 W, Voc 37.1 V, Isc 11.4 A under NMOT conditions",
     "Pmax 323 W, Voc 37.1 V, Isc 11.4 A (NMOT)", "Pmax 323 W, Voc 37.1 V, Isc 11.4 A (at NMOT).",
     "Pmax 323 W, Voc 37.1 V, Isc 11.4 A measured at NMOT", "Voc 37.1 V, Isc 11.4 A (800 W/m2, 20 °C, 1 m/s)",
     "Pmax 430 W Voc 39.4 V\nPmax 323 W Voc 37.1 V at NMOT"],
)  # fmt: skip
def test_a_condition_at_the_end_of_a_line_holds_for_all_of_its_figures(text: str) -> None:
    read = with_label(PanelFacts(), read_label(text)).facts
    assert read.open_circuit_voltage_v in {None, 39.4}
    assert read.rated_power_w in {None, 430}


@pytest.mark.parametrize(
    "text",
    [
        "Pmax 430 W, Voc 39.4 V, NOCT 45 °C",
        "Voc 39.4 V, Isc 14 A at 1000 W/m2",
        "Voc 39.4 V (NMOT 37.1 V)",
        "Voc 39.4 V (NOCT: 37.1 V)",
        "Voc 39.4 V at STC, 37.1 V at NMOT",
        "Voc 39.4 V\nPmax 323 W at NMOT",
    ],
)
def test_a_condition_of_one_figure_or_of_another_line_doubts_no_other(text: str) -> None:
    assert with_label(PanelFacts(), read_label(text)).facts.open_circuit_voltage_v == 39.4


@pytest.mark.parametrize(
    "text", ["Set of 2, 860 W", "2 panels, 860 W", "Lot of 2 panels 860 W total", "2er Set 860 W", "860 W insgesamt",
             "860 Wp for both",
     "300W (2 panels, 150W each) Voc 22V"],
)  # fmt: skip
def test_watts_of_several_panels_are_no_rating_of_one(text: str) -> None:
    assert with_label(PanelFacts(), read_label(text)).facts.rated_power_w is None


@pytest.mark.parametrize(
    "text",
    [
        "2 x 430 W",
        "2 x 430 W panels",
        "Panel 430 W",
        "430 W, 2 years old",
        "Pmax 430 W, set of 2",
        "Solar panels 430 W",
        "430 W mono panels, Voc 39.4 V",
        "All black panels 430 W",
    ],
)
def test_watts_of_each_are_read(text: str) -> None:
    assert with_label(PanelFacts(), read_label(text)).facts.rated_power_w == 430


@pytest.mark.parametrize(
    "text",
    ["Electrical data at NMOT (45 °C)\nPmax 323 W\nVoc 37.1 V\nIsc 11.4 A",
     "Values at NOCT (45 C): Pmax 323 W Voc 37.1 V",
     "NMOT (43±2°C)\nPmax 323 W\nVoc 37.1 V", "bei NMOT 45 °C: Pmax 323 W, Voc 37.1 V"],
)  # fmt: skip
def test_a_heading_of_other_conditions_with_its_temperature_is_a_condition(text: str) -> None:
    read = with_label(PanelFacts(), read_label(text)).facts
    assert (read.rated_power_w, read.open_circuit_voltage_v) == (None, None)


@pytest.mark.parametrize("text", ["Two panels, 860 W", "twin pack 860 W", "Doppelpack 860 W", "860 Wp (2x430 W)"])
def test_watts_of_two_in_words_are_no_rating_of_one(text: str) -> None:
    assert with_label(PanelFacts(), read_label(text)).facts.rated_power_w != 860
