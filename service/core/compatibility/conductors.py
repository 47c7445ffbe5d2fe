"""How much may a cable of the home carry, and what does a lead resist?

Two loaded copper conductors, PVC insulation (70 C). The letters are the standard's reference methods of installation,
one behind each plain word.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

# Plain word -> reference method. In an insulated wall: A1, a cable laid direct in it; A2, one in a conduit there (items
# 3 and 2 of Table A.52.3, from memory). In conduit: B2, a multi-core cable in it (B1, single wires, would carry more).
METHODS: Mapping[str, str] = MappingProxyType(
    {
        "in_insulated_wall": "A1", "in_conduit_in_insulated_wall": "A2", "in_conduit": "B2", "under_plaster": "C",
        "on_wall": "C", "in_air": "E",
    }
)  # fmt: skip

SECTIONS_MM2 = (1.5, 2.5, 4.0, 6.0, 10.0, 16.0)

# IEC 60364-5-52:2009 Table B.52.2 (A1, A2, B1, B2, C) and B.52.10 (E), 30 C in air. 1.5 and 2.5 mm2 of A1 to C were
# read in two secondary copies, the rest is from memory.
IEC_30_C: Mapping[str, tuple[float, ...]] = MappingProxyType(
    {
        "A1": (14.5, 19.5, 26, 34, 46, 61),
        "A2": (14, 18.5, 25, 32, 43, 57),
        "B1": (17.5, 24, 32, 41, 57, 76),
        "B2": (16.5, 23, 30, 38, 52, 69),
        "C": (19.5, 27, 36, 46, 63, 85),
        "E": (22, 30, 40, 51, 70, 94),
    }
)

# IEC 60364-5-52:2009 Table B.52.14, PVC: factor by ambient, from memory (it follows sqrt((70 - T) / 40)).
AMBIENT_FACTORS = (
    (10, 1.22), (15, 1.17), (20, 1.12), (25, 1.06), (30, 1.00), (35, 0.94), (40, 0.87), (45, 0.79), (50, 0.71),
    (55, 0.61), (60, 0.50),
)  # fmt: skip

# DIN VDE 0298-4, 25 C. 1.5 mm2: A1 read in an excerpt, B2, C and E computed back from a trade page's reserves; the
# rest is from memory.
VDE_25_C: Mapping[str, tuple[float, ...]] = MappingProxyType(
    {
        "A1": (16.5, 21, 28, 36, 49, 65),
        "B2": (17.5, 24, 32, 40, 55, 73),
        "C": (21, 29, 38, 49, 67, 90),
        "E": (23, 32, 42, 54, 74, 100),
    }
)

# NEC: AWG number, section in mm2, ampacity at 60 C (Table 310.16, as 334.80 wants for non-metallic cable), which for
# 14 to 10 AWG is also the largest breaker of 240.4(D). From memory.
AWG = ((14, 2.08, 15.0), (12, 3.31, 20.0), (10, 5.26, 30.0), (8, 8.37, 40.0), (6, 13.3, 55.0))
# NEC Table 310.15(B)(1), 60 C column: factor up to that ambient. From memory; nothing is gained below 26 C here.
AWG_AMBIENT = ((30, 1.00), (35, 0.91), (40, 0.82), (45, 0.71), (50, 0.58), (55, 0.41))
SECTION_TOLERANCE = 0.05  # "2.0 mm2" means 14 AWG

# IEC 60228:2004, highest resistance at 20 C in ohm/km: class 5 (flexible leads), class 1 (solid, house wiring).
CLASS_5_OHM_PER_KM = (
    (0.5, 39.0), (0.75, 26.0), (1.0, 19.5), (1.5, 13.3), (2.5, 7.98), (4.0, 4.95), (6.0, 3.30), (10.0, 1.91),
    (16.0, 1.21),
)  # fmt: skip
CLASS_1_OHM_PER_KM = (
    (0.5, 36.0), (0.75, 24.5), (1.0, 18.1), (1.5, 12.1), (2.5, 7.41), (4.0, 4.61), (6.0, 3.08), (10.0, 1.83),
    (16.0, 1.15),
)  # fmt: skip

# HD 516 (use of low-voltage leads): what a flexible lead may carry, A by mm2. From memory.
LEAD_AMPACITY_A = ((0.5, 3.0), (0.75, 6.0), (1.0, 10.0), (1.5, 16.0), (2.5, 25.0), (4.0, 32.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrying:
    """What a cable may carry continuously (Iz, A), by which table and method, at which ambient."""

    current_a: float
    method: str
    table: str
    table_ambient_c: float
    factor: float


def carrying_capacity(
    section_mm2: float, laying: str, ambient_c: float, rule_area: str, voltage_v: float = 230.0
) -> Carrying | None:
    """The current that a final circuit's cable may carry (Iz); None where no table covers it.

    Args:
        section_mm2: of one copper conductor; between two sections of the table the smaller one counts.
        laying: a plain word of ``METHODS``.
        ambient_c: of the air around the cable. Between two rows the hotter one's factor counts.
        rule_area: US areas have sections by AWG number; in DE, up to 25 C, DIN VDE 0298-4 is read (its own reference
            ambient); everywhere else, and hotter, IEC 60364-5-52 at 30 C with its correction.
        voltage_v: of the circuit; the US table is for its 120 and 240 V.

    >>> carrying_capacity(1.5, "in_conduit", 30, "DE").current_a
    16.5
    >>> carrying_capacity(2.08, "in_insulated_wall", 30, "US-UT", 120).current_a
    15.0
    """
    if is_us(rule_area) and voltage_v < 260:
        return _by_awg(section_mm2, ambient_c)
    method = METHODS[laying]
    in_germany = rule_area.split("-", maxsplit=1)[0] == "DE" and ambient_c <= 25 and method in VDE_25_C
    current = _at_section(section_mm2, (VDE_25_C if in_germany else IEC_30_C)[method])
    factor = 1.0 if in_germany else _factor(ambient_c, AMBIENT_FACTORS)
    if current is None or factor is None:
        return None
    if in_germany:
        return Carrying(current_a=current, method=method, table="DIN VDE 0298-4", table_ambient_c=25, factor=factor)
    table = f"IEC 60364-5-52:2009 Table {'B.52.10' if method == 'E' else 'B.52.2'}"
    return Carrying(current_a=current * factor, method=method, table=table, table_ambient_c=30, factor=factor)


def is_us(rule_area: str) -> bool:
    """Is this an area of the National Electrical Code?"""
    return rule_area.split("-", maxsplit=1)[0] == "US"


def awg_of(section_mm2: float) -> int | None:
    """The AWG number whose section this is or at least reaches; None below 14.

    >>> awg_of(2.08), awg_of(2.0), awg_of(1.5)
    (14, 14, None)
    """
    fitting = [number for number, section, _ in AWG if section <= section_mm2 * (1 + SECTION_TOLERANCE)]
    return fitting[-1] if fitting else None


def resistance_ohm_per_km(section_mm2: float, *, flexible: bool) -> float | None:
    """Highest resistance of one copper conductor at 20 C (IEC 60228); the next smaller section's; None below 0.5.

    >>> resistance_ohm_per_km(1.5, flexible=True), resistance_ohm_per_km(2.5, flexible=False)
    (13.3, 7.41)
    """
    return _next_smaller(section_mm2, CLASS_5_OHM_PER_KM if flexible else CLASS_1_OHM_PER_KM)


def lead_ampacity_a(section_mm2: float) -> float | None:
    """What a flexible lead may carry, A; that of the next smaller section."""
    return _next_smaller(section_mm2, LEAD_AMPACITY_A)


def _by_awg(section_mm2: float, ambient_c: float) -> Carrying | None:
    number, factor = awg_of(section_mm2), _factor(ambient_c, AWG_AMBIENT)
    if number is None or factor is None:
        return None
    ampacity = next(amps for awg, _, amps in AWG if awg == number)
    return Carrying(
        current_a=ampacity * factor, method=f"{number} AWG", table="NEC (NFPA 70) Table 310.16, 60 C, and 240.4(D)",
        table_ambient_c=30, factor=factor,
    )  # fmt: skip


def _at_section(section_mm2: float, row: tuple[float, ...]) -> float | None:
    return _next_smaller(section_mm2, tuple(zip(SECTIONS_MM2, row, strict=True)))


def _next_smaller(section_mm2: float, rows: tuple[tuple[float, float], ...]) -> float | None:
    fitting = [value for section, value in rows if section <= section_mm2 + 1e-9]
    return fitting[-1] if fitting else None


def _factor(ambient_c: float, rows: tuple[tuple[float, float], ...]) -> float | None:
    return next((factor for up_to, factor in rows if ambient_c <= up_to), None)
