"""What does the diode test of a dark panel say of its bypass diodes, read with the meter's leads either way?

Each section of cells has a bypass diode across it, all in a row, their cathodes towards plus. With red on the minus
lead the meter's current passes all of them and the volts add up; with red on plus they block, and so do the cells, a
whole row of which needs far more volts than a meter has.
"""

from collections.abc import Iterator, Sequence
from math import floor

from service.core.pickup.facts import Between, Cause, PanelReading, Quantity, Seen, cause

# Volts of one bypass diode at the milliampere or so of a meter's diode test, at hand-warm to cold: Schottky barrier and
# p-n junction of silicon; from memory.
SCHOTTKY_V, JUNCTION_V = Between(low=0.15, likely=0.25, high=0.40), Between(low=0.45, likely=0.6, high=0.75)
_HALF_A_SECTION = 0.5  # by so much the volts in sun must show more sections than the test in the dark has left
FORWARD, SWAPPED = "bypass_forward_v", "bypass_swapped_v"


def row_v(sections: float) -> Between:
    """Least and most volts of so many sound diodes in a row, of whichever kind.

    >>> round(row_v(3).low, 2), round(row_v(3).high, 2)
    (0.45, 2.25)
    """
    likely = sections * SCHOTTKY_V.likely
    return Between(low=sections * SCHOTTKY_V.low, likely=likely, high=sections * JUNCTION_V.high)


def could_be_fewer(read_v: float, sections: int) -> bool:
    """Are those the volts of a row of which some are shorted, too?

    >>> could_be_fewer(0.6, 3), could_be_fewer(0.85, 3)
    (True, False)
    """
    kinds = (SCHOTTKY_V, JUNCTION_V)
    return any(left * kind.low <= read_v <= left * kind.high for left in range(1, sections) for kind in kinds)


def diode_quantities(
    group: Sequence[PanelReading], sections: Between, *, volts_sound: bool, sun_share: float | None = None
) -> Iterator[Quantity]:
    """What the diode test in the dark says, of all readings of one panel; nothing where it was not made.

    Args:
        group: readings of one panel.
        sections: with a diode each; low is 0 where there may be none.
        volts_sound: was the open-circuit voltage as expected? A shorted diode takes its section's share of it.
        sun_share: what share of a sound panel's volts was read in daylight; None where none were.
    """
    swapped = sorted(one.bypass_swapped_v for one in group if one.bypass_swapped_v is not None)
    forward = [one for one in group if one.bypass_forward_v is not None or one.bypass_over_range]
    row = row_v(sections.likely)
    for reading in forward:
        over = reading.bypass_over_range or reading.bypass_forward_v is None
        verdict, why = _of_forward(
            None if over else reading.bypass_forward_v, sections, swapped, volts_sound=volts_sound, sun_share=sun_share
        )
        yield _quantity(FORWARD, verdict, reading.bypass_forward_v, why, row)
    if swapped and not any(one.bypass_over_range for one in forward):
        why = cause("bypass_both_ways", measured=swapped[-1])
        yield _quantity(SWAPPED, Seen.CANNOT_TELL, swapped[-1], why)
    elif any(one.bypass_swapped_over_range for one in group):
        told = None if forward else cause("bypass_other_way_not_read")
        yield _quantity(SWAPPED, Seen.CANNOT_TELL if told else Seen.AS_EXPECTED, None, told)


def _of_forward(
    read_v: float | None, sections: Between, swapped: Sequence[float], *, volts_sound: bool, sun_share: float | None
) -> tuple[Seen, Cause | None]:
    """Red on the minus lead; ``read_v`` None: no value."""
    count, row = round(sections.likely), row_v(sections.likely)
    if read_v is None and swapped:
        return Seen.CANNOT_TELL, cause("bypass_leads_mixed_up", measured=swapped[-1])
    if (read_v is None or read_v > row.high) and sections.low < 1:
        return Seen.CANNOT_TELL, cause("bypass_perhaps_none")
    if read_v is None or read_v > row.high:
        return Seen.SUSPICIOUS, cause("bypass_open", sections=count, high=round(row.high, 2))
    if read_v < row.low:
        return _of_shorted(read_v, count, row, sun_share)
    if could_be_fewer(read_v, count) and not volts_sound:
        return Seen.CANNOT_TELL, cause("bypass_count_not_known", measured=read_v, sections=count)
    return Seen.AS_EXPECTED, None


def _of_shorted(read_v: float, count: int, row: Between, sun_share: float | None) -> tuple[Seen, Cause]:
    """Volts of fewer diodes; where the panel gives the volts of more sections in sun, one of the two is wrong."""
    left = floor(read_v / SCHOTTKY_V.low + 1e-9)
    facts = {"measured": read_v, "sections": count, "low": round(row.low, 2), "shorted": count - left}
    if sun_share is not None and sun_share * count > left + _HALF_A_SECTION:
        return Seen.CANNOT_TELL, cause("bypass_against_volts", **facts)
    return Seen.SUSPICIOUS, cause("bypass_shorted", **facts)


def _quantity(
    what: str, verdict: Seen, measured: float | None, why: Cause | None, row: Between | None = None
) -> Quantity:
    return Quantity(
        what=what, verdict=verdict, measured=measured, low=None if row is None else row.low,
        high=None if row is None else row.high, unit="V", causes=() if why is None else (why,),
    )  # fmt: skip
