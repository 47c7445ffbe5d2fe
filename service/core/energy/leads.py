"""How much does a lead resist? D.c. leads from the panels to the inverter."""

# IEC 60228, class 5 (flexible), plain copper, greatest resistance at 20 C in ohm/km, by section in mm2. 1.0, 1.5 and
# 4 mm2 read on two public pages, the others from memory. A lead at 50 C resists 12 % more; that is left out.
CLASS_5_OHM_PER_KM = {
    0.5: 39.0, 0.75: 26.0, 1.0: 19.5, 1.5: 13.3, 2.5: 7.98, 4.0: 4.95, 6.0: 3.30, 10.0: 1.91, 16.0: 1.21,
}  # fmt: skip
_OHM_MM2_PER_KM = 19.8  # for sections in between: the table's resistance times section at 4 mm2


def lead_resistance_ohm(length_m: float, section_mm2: float) -> float:
    """Resistance of both cores of a lead ``length_m`` long (one way), in ohm.

    >>> round(lead_resistance_ohm(10, 1.5), 4)
    0.266
    """
    per_km = CLASS_5_OHM_PER_KM.get(section_mm2, _OHM_MM2_PER_KM / section_mm2)
    return 2 * length_m / 1000 * per_km
