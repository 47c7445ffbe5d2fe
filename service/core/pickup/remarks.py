"""What was told of a visit and contradicts itself, or came to nothing? No verdict hangs on it; it is only said."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, timedelta
from math import floor

from service.core.pickup.diodes import SCHOTTKY_V
from service.core.pickup.facts import Between, Cause, Light, PanelReading, cause
from service.core.pickup.frame import both_leads_v

# Beside a cloud's edge there is more light than the sky that was told gives; after sunset some twilight is left.
_CLOUD_EDGE, _TWILIGHT_W_PER_M2 = 1.25, 20.0
# Two readings of one leak differ by contact and by water (judgement); of one diode test by less than one diode.
_LEAK_TIMES, _LEAST_LEAK_V = 2.0, 1.0
_MOST_NAMED = 5
# A panel just carried out of a cellar is colder, one from a hot wall or car warmer than air and light make it; a probe
# is off by a few kelvin (judgement).
_CARRIED_OUT_K, _FROM_HEAT_K = 25.0, 15.0
# Somewhere it is tomorrow already; within a year a panel ages by next to nothing.
_TOMORROW, _A_YEAR = timedelta(days=1), timedelta(days=366)
# The best panels give some 240 W of each square metre, old thin film some 40; folding ones with wide rims less.
_LEAST_W_PER_M2, _MOST_W_PER_M2 = 20.0, 320.0

Group = Sequence[PanelReading]


def light_told_twice(measured: Light, otherwise: Light) -> Cause | None:
    """Was more light measured than indoors, or than place, time and sky leave? None where both can be true."""
    most = otherwise.w_per_m2.high
    if otherwise.origin == "indoors":
        how, edge = "indoors", 1.0
    else:
        how, edge = ("sky", _CLOUD_EDGE) if most > 0 else ("sun_is_down", 1.0)
    if measured.w_per_m2.low <= max(edge * most, _TWILIGHT_W_PER_M2):
        return None
    return cause("light_told_twice", measured=round(measured.w_per_m2.likely), most=round(most), otherwise=how)


def less_light_than_told(measured: Light, sky: Light) -> Cause | None:
    """Was less light measured than place, time and a sky that was told give, whether or not it was held to the sun?"""
    if sky.origin != "sky":
        return None
    askew = sky.askew_w_per_m2
    least = sky.w_per_m2.low if askew is None else min(sky.w_per_m2.low, askew)
    if measured.w_per_m2.high >= least:
        return None
    return cause("light_told_twice", measured=round(measured.w_per_m2.likely), least=floor(least), otherwise="less")


def cells_unlike_air(cell_c: float, cells: Between, air_c: float) -> Cause | None:
    """Do the cells that were measured go with the air that was told? ``cells``: as of ``cells_of``, of that air."""
    if cells.low - _CARRIED_OUT_K <= cell_c <= cells.high + _FROM_HEAT_K:
        return None
    return cause("cells_unlike_air", cell_c=round(cell_c), air_c=round(air_c), low=round(cells.low),
                 high=round(cells.high))  # fmt: skip


def another_day(read_on: date, as_of: date) -> Cause | None:
    """Were panels read on a day that is still to come, or so long ago that their age then was another?"""
    if read_on > as_of + _TOMORROW:
        return cause("another_day", otherwise="ahead", read_on=read_on.isoformat(), as_of=as_of.isoformat())
    if read_on < as_of - _A_YEAR:
        return cause("another_day", otherwise="long_ago", read_on=read_on.isoformat(), as_of=as_of.isoformat())
    return None


def size_unlike_power(rated_power_w: float, length_mm: float | None, width_mm: float | None) -> Cause | None:
    """Can a panel of this size have this power? None where it can, or where no size was told."""
    if length_mm is None or width_mm is None:
        return None
    m2 = length_mm * width_mm / 1e6
    if _LEAST_W_PER_M2 <= rated_power_w / m2 <= _MOST_W_PER_M2:
        return None
    return cause("size_unlike_power", rated_w=round(rated_power_w), m2=round(m2, 3), w_per_m2=round(rated_power_w / m2))


def names_alike(names: Iterable[str]) -> Cause | None:
    """Names of panels that differ in capitals and blanks alone: each counts as a panel of its own."""
    groups: dict[str, set[str]] = {}
    for name in names:
        groups.setdefault(" ".join(name.casefold().split()), set()).add(name)
    alike = [sorted(group) for group in groups.values() if len(group) > 1]
    return cause("names_alike", panels=", ".join(f"“{name}”" for name in alike[0][:_MOST_NAMED])) if alike else None


def columns_remark(panels: Iterable[str]) -> Cause | None:
    """Panels, as often as wished, of which volts and amperes were told the wrong way round; None for none."""
    named = list(dict.fromkeys(panels))
    return cause("columns_swapped", panels=_names(named)) if named else None


def remarks_on(readings: Sequence[PanelReading]) -> tuple[Cause, ...]:
    """Of the readings: one remark a kind, with the panels that it is about, in the order of kinds."""
    groups: dict[str, list[PanelReading]] = {}
    for reading in readings:
        groups.setdefault(reading.panel, []).append(reading)
    found = ((code, [panel for panel, group in groups.items() if applies(group)]) for code, applies in _KINDS.items())
    return tuple(cause(code, panels=_names(panels)) for code, panels in found if panels)


def _names(panels: Sequence[str]) -> str:
    return ", ".join(panels[:_MOST_NAMED]) + (", ..." if len(panels) > _MOST_NAMED else "")


def _wetted_without_frame(group: Group) -> bool:
    return any(one.wetted and not _is_frame_read(one) for one in group)


def _meter_input_without_frame(group: Group) -> bool:
    """A resistance that was told is exact; the one that is taken for it is not."""
    told = [one for one in group if one.meter_input_mohm.low == one.meter_input_mohm.high]
    return bool(told) and not any(_is_frame_read(one) for one in told)


def _shade_without_reading(group: Group) -> bool:
    return any(
        one.shaded and one.open_circuit_voltage_v is None and one.short_circuit_current_a is None for one in group
    )


def _glass_told_twice(group: Group) -> bool:
    return len({one.glass_state for one in group} - {None}) > 1


def _back_told_twice(group: Group) -> bool:
    """Chalk, cracks and burns go together; sound goes with none of them."""
    states = {one.back_state for one in group} - {None}
    return "sound" in states and len(states) > 1


def _frame_told_twice(group: Group) -> bool:
    return any(
        _far_apart([one for one in map(both_leads_v, kind) if one is not None], _LEAK_TIMES, _LEAST_LEAK_V)
        for kind in ([one for one in group if one.wetted], [one for one in group if not one.wetted])
    )


def _diodes_told_twice(group: Group) -> bool:
    """Either way: a value in one test and none in another, or values that differ by a diode."""
    ways = (
        ([one.bypass_forward_v for one in group], any(one.bypass_over_range for one in group)),
        ([one.bypass_swapped_v for one in group], any(one.bypass_swapped_over_range for one in group)),
    )
    for read, over in ways:
        values = [one for one in read if one is not None]
        if values and (over or _far_apart(values, 1.0, SCHOTTKY_V.low)):
            return True
    return False


def _far_apart(values: Iterable[float], times: float, least: float) -> bool:
    read = list(values)
    return bool(read) and max(read) > times * min(read) + least


def _is_frame_read(one: PanelReading) -> bool:
    return one.plus_to_frame_v is not None or one.frame_to_minus_v is not None


_KINDS: Mapping[str, Callable[[Group], bool]] = {
    "wetted_without_frame": _wetted_without_frame,
    "meter_input_without_frame": _meter_input_without_frame,
    "shade_without_reading": _shade_without_reading,
    "frame_told_twice": _frame_told_twice,
    "diodes_told_twice": _diodes_told_twice,
    "glass_told_twice": _glass_told_twice,
    "back_told_twice": _back_told_twice,
}
