"""Does current leak from the cells to the frame? Two voltages and the meter's own resistance tell how much, and where.

The meter closes the circuit through a leak. With R the leak's resistance, Rm the meter's, U the panel's voltage, both
readings together are U Rm / (Rm + R), and they divide as the leak divides the string of cells.
"""

from service.core.pickup.facts import Between, Cause, PanelReading, Quantity, Seen, cause

# IEC 61215 and 61730 want 40 megohms times the panel's area at 500 V and more, dry and wet: from memory. A hand meter
# at 40 V sees a leak later than that test does, so a reading that passes here has not passed the test.
LEAST_MOHM_M2 = 40.0
_MOST_SUM_SHARE = 1.1  # above the panel's own voltage both readings together cannot be; a tenth for the meter and light
STILL_SHARE = 0.02  # of the panel's voltage: what hum and a charged frame leave on a meter
# Dry, sound insulation has far more than that limit, which is what has to be left when it is wet (judgement).
_DRY_TIMES = 20.0
# Water never takes a leak away: wetted, half of what was read dry is left where the probe had contact (judgement).
_WET_OF_DRY_SHARE = 0.5
_LEAST_TOLD_V = 0.1  # less than this no hand meter tells from nought


def leak_mohm(voltage_v: float, readings_v: float, meter_mohm: float) -> float:
    """Resistance of the leak in megohms: Rm (U / (U1 + U2) - 1).

    >>> round(leak_mohm(40.0, 8.0, 10.0), 6)
    40.0
    """
    return meter_mohm * (voltage_v / readings_v - 1.0)


def least_mohm(area_m2: float) -> float:
    """The least insulation to the frame of a panel of this size, in megohms.

    >>> round(least_mohm(1.9), 2)
    21.05
    """
    return LEAST_MOHM_M2 / area_m2


def most_reading_v(voltage_v: float, area_m2: float, meter_mohm: float) -> float:
    """The most that both readings together may be of a panel that is insulated as its type test wants it, in V.

    >>> round(most_reading_v(40.0, 1.6, 10.0), 2)
    11.43
    """
    return voltage_v * meter_mohm / (meter_mohm + least_mohm(area_m2))


def most_dry_v(voltage_v: float, area_m2: float, meter_mohm: float) -> float:
    """The most that both readings together may be, in V, of a dry panel that need not be read wetted to be cleared.

    >>> round(most_dry_v(40.0, 1.9, 10.0), 2)
    0.93
    """
    still = max(STILL_SHARE * voltage_v, _LEAST_TOLD_V)
    return max(most_reading_v(voltage_v, area_m2 / _DRY_TIMES, meter_mohm), still)


def both_leads_v(reading: PanelReading) -> float | None:
    """Both readings to the frame together, in V; None where one was not taken."""
    plus, minus = reading.plus_to_frame_v, reading.frame_to_minus_v
    return None if plus is None or minus is None else plus + minus


def frame_quantity(
    reading: PanelReading,
    voltage: Between | None,
    area_m2: Between,
    *,
    wet_passed: bool = False,
    dry_v: float | None = None,
) -> Quantity | None:
    """What the volts to the frame say; None where none was read.

    Wetted, the type test's limit judges. Dry, a panel that leaks more than next to nothing is not cleared before it has
    passed wetted: water takes most of what is left.

    Args:
        reading: with one or both of the readings to the frame.
        voltage: the panel's open-circuit voltage then, in V; None where no light made one.
        area_m2: of the panel.
        wet_passed: did the same panel pass wetted?
        dry_v: what both leads of the same panel showed dry, in V; None where that was not read.
    """
    both = [one for one in (reading.plus_to_frame_v, reading.frame_to_minus_v) if one is not None]
    if not both:
        return None
    measured, meter = sum(both), reading.meter_input_mohm
    what = _what(reading)
    if voltage is None or voltage.likely <= 0:
        return _quantity(what, Seen.CANNOT_TELL, measured, cause("frame_without_light"))
    if measured > _MOST_SUM_SHARE * voltage.high:
        return _quantity(
            what, Seen.CANNOT_TELL, measured, cause("frame_readings_disagree", voltage=round(voltage.likely, 1))
        )
    still = max(STILL_SHARE * voltage.likely, _LEAST_TOLD_V)
    least = most_reading_v(voltage.likely, area_m2.low, meter.low)
    most = most_reading_v(voltage.likely, area_m2.high, meter.high)
    dry = most_dry_v(voltage.likely, area_m2.low, meter.likely)
    mohm = leak_mohm(max(voltage.likely, measured), max(measured, still), meter.likely)
    wanted = least_mohm(area_m2.likely)
    facts = {"mohm": round(mohm, 1), "wanted": round(wanted, 1), "together": round(measured, 1)}
    verdict, why = Seen.AS_EXPECTED, None
    if measured > max(most, still):
        verdict, why = Seen.SUSPICIOUS, cause(f"leaks_{what}", **facts, place=_place(reading, measured))
    elif len(both) < 2:
        verdict, why = Seen.CANNOT_TELL, cause("other_lead_not_read")
    elif max(least, _LEAST_TOLD_V) < measured <= still or least < _LEAST_TOLD_V:
        verdict, why = Seen.CANNOT_TELL, cause("meter_too_coarse", meter=meter.likely)
    elif measured > least:
        verdict, why = Seen.CANNOT_TELL, cause(_what_is_open(meter))
    elif reading.wetted and dry_v is not None and dry_v > still and measured < _WET_OF_DRY_SHARE * dry_v:
        verdict, why = Seen.CANNOT_TELL, cause("frame_wet_below_dry", dry=round(dry_v, 1), together=round(measured, 1))
    elif measured > dry and not reading.wetted and not wet_passed:
        verdict, why = Seen.CANNOT_TELL, cause("frame_not_read_wetted", **facts)
    return _quantity(what, verdict, measured, why, high=least, leak=mohm, wanted=wanted)


def _what(reading: PanelReading) -> str:
    return "frame_wetted" if reading.wetted else "frame_dry"


def _what_is_open(meter: Between) -> str:
    return "panel_size_not_known" if meter.low == meter.high else "meter_resistance_not_known"


def _place(reading: PanelReading, measured: float) -> float | None:
    """How far from the plus lead the leak lies, as a share of the string; None where one reading is missing."""
    if reading.plus_to_frame_v is None or reading.frame_to_minus_v is None:
        return None
    return round(reading.plus_to_frame_v / measured, 2)


def _quantity(
    what: str, verdict: Seen, measured: float, why: Cause | None, *,
    high: float | None = None, leak: float | None = None, wanted: float | None = None,
) -> Quantity:  # fmt: skip
    """One reading; without a panel's voltage nothing is known of the leak."""
    return Quantity(
        what=what, verdict=verdict, measured=measured, low=None if high is None else 0.0, high=high, unit="V",
        causes=() if why is None else (why,), leak_mohm=leak, least_mohm=wanted,
    )  # fmt: skip
