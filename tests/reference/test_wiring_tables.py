"""Published tables of the wiring standards, as the compatibility room uses them.

NEC (NFPA 70:2017) Table 690.7(A), crystalline silicon: the 13 rows were seen in a public transcription of the code and
agree with memory (so does the edition: Table 690.7 before). Agreement: exact.

IEC 60228:2004, highest resistance at 20 C, plain copper: class 5 and class 1 as printed in two public cable-trade
tables. Agreement: exact.

IEC 60364-5-52:2009 Table B.52.2, PVC, two loaded copper conductors, 30 C in air: 1.5 and 2.5 mm2 seen in two secondary
copies, 4 to 16 mm2, B.52.10 and B.52.14 from memory. Agreement: exact. The standard itself was not at hand.

DIN VDE 0298-4, 25 C, 1.5 mm2: method A1 read in an excerpt; B, C and E computed back from the reserves over 16 A that a
German trade page prints (0.5, 1.5, 5 and 7 A; 115, 345, 1150 and 1610 W at 230 V). Agreement: exact.

Voltage rise 2 L r I over the lead, 800 W: arithmetic, to 0.01.
"""

import pytest

from service.core.compatibility.cold import nec_factor, voltage_at_cell
from service.core.compatibility.conductors import METHODS, carrying_capacity, resistance_ohm_per_km
from service.core.compatibility.current import DESIGN_FACTOR
from tests import builders
from tests.core.compatibility.ask import answer, one

NEC_ROWS = [
    (24, 20, 1.02), (19, 15, 1.04), (14, 10, 1.06), (9, 5, 1.08), (4, 0, 1.10), (-1, -5, 1.12), (-6, -10, 1.14),
    (-11, -15, 1.16), (-16, -20, 1.18), (-21, -25, 1.20), (-26, -30, 1.21), (-31, -35, 1.23), (-36, -40, 1.25),
]  # fmt: skip


@pytest.mark.parametrize(("warm_end", "cold_end", "factor"), NEC_ROWS)
def test_nec_690_7_a(warm_end: float, cold_end: float, factor: float) -> None:
    assert nec_factor(warm_end) == nec_factor(cold_end) == factor


@pytest.mark.parametrize(("mm2", "ohm_per_km"), [(1.0, 19.5), (1.5, 13.3), (4.0, 4.95)])
def test_iec_60228_class_5(mm2: float, ohm_per_km: float) -> None:
    assert resistance_ohm_per_km(mm2, flexible=True) == ohm_per_km


@pytest.mark.parametrize(("mm2", "ohm_per_km"), [(1.5, 12.1), (2.5, 7.41)])
def test_iec_60228_class_1(mm2: float, ohm_per_km: float) -> None:
    assert resistance_ohm_per_km(mm2, flexible=False) == ohm_per_km


IEC_52 = [
    ("in_insulated_wall", "A1", 14.5, 19.5), ("in_conduit_in_insulated_wall", "A2", 14.0, 18.5),
    ("in_conduit", "B2", 16.5, 23.0), ("under_plaster", "C", 19.5, 27.0),
    ("on_wall", "C", 19.5, 27.0),
]  # fmt: skip


@pytest.mark.parametrize(("laying", "method", "at_1_5", "at_2_5"), IEC_52)
def test_iec_60364_5_52_table_b_52_2(laying: str, method: str, at_1_5: float, at_2_5: float) -> None:
    assert METHODS[laying] == method
    for mm2, amperes in ((1.5, at_1_5), (2.5, at_2_5)):
        carrying = carrying_capacity(mm2, laying, 30, "PT")
        assert carrying is not None
        assert (carrying.current_a, carrying.table_ambient_c) == (amperes, 30)


# IEC 60364-5-52:2009 Table B.52.2 (two loaded conductors, PVC, copper, 30 C) and B.52.10 for E; from memory.
IEC_52_THICK = [
    ("in_insulated_wall", (26, 34, 46, 61)), ("in_conduit_in_insulated_wall", (25, 32, 43, 57)),
    ("in_conduit", (30, 38, 52, 69)), ("on_wall", (36, 46, 63, 85)), ("in_air", (40, 51, 70, 94)),
]  # fmt: skip


@pytest.mark.parametrize(("laying", "amperes"), IEC_52_THICK)
def test_iec_60364_5_52_from_4_to_16_mm2(laying: str, amperes: tuple[float, ...]) -> None:
    found = [carrying_capacity(mm2, laying, 30, "PT") for mm2 in (4.0, 6.0, 10.0, 16.0)]
    assert [one.current_a for one in found if one is not None] == list(amperes)


# IEC 60364-5-52:2009 Table B.52.14, PVC; from memory. The standard's rows follow sqrt((70 - T) / 40) to two digits.
@pytest.mark.parametrize(
    ("ambient_c", "factor"),
    [(10, 1.22), (15, 1.17), (20, 1.12), (25, 1.06), (35, 0.94), (40, 0.87), (45, 0.79), (50, 0.71), (55, 0.61),
     (60, 0.50)],
)  # fmt: skip
def test_iec_60364_5_52_table_b_52_14(ambient_c: float, factor: float) -> None:
    carrying = carrying_capacity(2.5, "on_wall", ambient_c, "PT")
    assert carrying is not None
    assert carrying.current_a == pytest.approx(27 * factor)
    assert factor == pytest.approx(((70 - ambient_c) / 40) ** 0.5, abs=0.006)


VDE_0298 = [
    ("in_insulated_wall", 16.5, 0.5, 115), ("in_conduit", 17.5, 1.5, 345), ("on_wall", 21, 5, 1150),
    ("in_air", 23, 7, 1610),
]  # fmt: skip


@pytest.mark.parametrize(("laying", "amperes", "reserve_a", "reserve_w"), VDE_0298)
def test_din_vde_0298_4_at_25_c(laying: str, amperes: float, reserve_a: float, reserve_w: float) -> None:
    carrying = carrying_capacity(1.5, laying, 25, "DE")
    assert carrying is not None
    assert (carrying.current_a, carrying.table_ambient_c) == (amperes, 25)
    assert carrying.current_a - 16 == reserve_a
    assert (carrying.current_a - 16) * 230 == reserve_w


def test_800_w_just_pass_behind_13_a_in_an_insulated_wall_at_25_c_and_fail_behind_16_a() -> None:
    verdicts = {}
    for breaker in (13, 16):
        circuit = builders.socket_circuit(breaker_a=breaker, laying="in_insulated_wall", ambient_c=25)
        verdicts[breaker] = str(one("circuit_cable", answer(socket_circuit=circuit)).verdict)
    assert verdicts == {13: "fits", 16: "does_not_fit"}


LEADS = [
    (230, 1.0, 10, 1.357, 0.59, 4.72), (230, 1.5, 10, 0.925, 0.40, 3.22), (230, 1.5, 20, 1.85, 0.80, 6.44),
    (230, 2.5, 20, 1.11, 0.48, 3.86), (120, 1.5, 10, 1.773, 1.48, 11.82), (120, 2.5, 20, 2.128, 1.77, 14.19),
]  # fmt: skip


@pytest.mark.parametrize(("volts", "mm2", "metres", "rise_v", "rise_pct", "heat_w"), LEADS)
def test_voltage_rise_of_a_lead(
    volts: float, mm2: float, metres: float, rise_v: float, rise_pct: float, heat_w: float
) -> None:
    circuit = builders.socket_circuit(voltage_v=volts, lead_mm2=mm2, lead_length_m=metres)
    finding = one("lead_voltage_rise", answer(socket_circuit=circuit))
    assert finding.facts["rise_v"] == pytest.approx(rise_v, abs=0.01)
    assert finding.measured == pytest.approx(rise_pct, abs=0.01)
    assert finding.facts["eaten_w"] == pytest.approx(heat_w, abs=0.01)


@pytest.mark.parametrize(("volts", "per_k", "cell_c", "cold_v"), [(49.5, -0.25, -10, 53.83), (37.5, -0.27, -20, 42.06)])
def test_cold_voltage_by_the_coefficient(volts: float, per_k: float, cell_c: float, cold_v: float) -> None:
    assert voltage_at_cell(volts, per_k, cell_c) == pytest.approx(cold_v, abs=0.01)


def test_design_current_is_a_quarter_above_the_label() -> None:
    assert pytest.approx(17.375, abs=0.001) == DESIGN_FACTOR * 13.9


def test_a_96_cell_panel_of_the_public_list_exceeds_a_60_v_input_at_minus_ten() -> None:
    """Median open-circuit voltage 60.1 V of the Californian commission's 96-cell entries (edition of 2019-03-05)."""
    factor = nec_factor(-10)
    assert factor is not None
    assert 60.1 * factor == pytest.approx(68.5, abs=0.1)
