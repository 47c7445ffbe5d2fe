"""Does current leak from the cells to the frame? Two voltages and the meter's own resistance tell how much, and where.

The meter closes the circuit through a leak. With R the leak's resistance, Rm the meter's, U the panel's voltage, both
readings together are U Rm / (Rm + R), and they divide as the leak divides the string of cells.
"""

from service.core.pickup.facts import Between, Cause, PanelReading, Quantity, Seen, cause

# IEC 61215 and 61730 want 40 megohms times the panel's area at 500 V and more, dry and wet: from memory. A hand meter
# at 40 V sees a leak later than that test does, so a reading that passes here has not passed the test.
LEAST_MOHM_M2 = 40.0
_MOST_SUM_SHARE = 1.1  # above the panel's own voltage both readings together cannot be; a tenth for the meter and light
_STILL_SHARE = 0.02  # of the panel's voltage: what hum and a charged frame leave on a meter


def leak_mohm(voltage_v: float, readings_v: float, meter_mohm: float) -> float:
    """Resistance of the leak in megohms: Rm (U / (U1 + U2) - 1).

    >>> round(leak_mohm(40.0, 8.0, 10.0), 6)
    40.0
    """
    return meter_mohm * (voltage_v / readings_v - 1.0)


def most_reading_v(voltage_v: float, area_m2: float, meter_mohm: float) -> float:
    """The most that both readings together may be of a panel that is insulated as its type test wants it, in V.

    >>> round(most_reading_v(40.0, 1.6, 10.0), 2)
    11.43
    """
    return voltage_v * max(meter_mohm / (meter_mohm + LEAST_MOHM_M2 / area_m2), _STILL_SHARE)


def frame_quantity(reading: PanelReading, voltage: Between | None, area_m2: float) -> Quantity | None:
    """What the volts to the frame say; None where none was read.

    Args:
        reading: with one or both of the readings to the frame.
        voltage: the panel's open-circuit voltage then, in V; None where no light made one.
        area_m2: of the panel.
    """
    both = [one for one in (reading.plus_to_frame_v, reading.frame_to_minus_v) if one is not None]
    if not both:
        return None
    what = "frame_wetted" if reading.wetted else "frame_dry"
    measured = sum(both)
    if voltage is None or voltage.likely <= 0:
        return _open(what, measured, cause("frame_without_light"))
    if measured > _MOST_SUM_SHARE * voltage.high:
        return _open(what, measured, cause("frame_readings_disagree", voltage=voltage.likely))
    least = most_reading_v(voltage.likely, area_m2, reading.meter_input_mohm.low)
    most = most_reading_v(voltage.likely, area_m2, reading.meter_input_mohm.high)
    if measured > most:
        mohm = leak_mohm(max(voltage.likely, measured), measured, reading.meter_input_mohm.likely)
        told = cause(f"leaks_{what}", mohm=round(mohm, 1), wanted=round(LEAST_MOHM_M2 / area_m2, 1),
                     place=_place(reading, measured))  # fmt: skip
        return Quantity(what=what, verdict=Seen.SUSPICIOUS, measured=measured, low=0.0, high=least, unit="V",
                        causes=(told,))  # fmt: skip
    if len(both) < 2 or measured > least:
        why = "other_lead_not_read" if len(both) < 2 else "meter_resistance_not_known"
        return _open(what, measured, cause(why), least)
    return Quantity(what=what, verdict=Seen.AS_EXPECTED, measured=measured, low=0.0, high=least, unit="V")


def _place(reading: PanelReading, measured: float) -> float | None:
    """How far from the plus lead the leak lies, as a share of the string; None where one reading is missing."""
    if reading.plus_to_frame_v is None or reading.frame_to_minus_v is None:
        return None
    return round(reading.plus_to_frame_v / measured, 2)


def _open(what: str, measured: float, why: Cause, high: float | None = None) -> Quantity:
    return Quantity(what=what, verdict=Seen.CANNOT_TELL, measured=measured, low=None if high is None else 0.0,
                    high=high, unit="V", causes=(why,))  # fmt: skip
