"""What was told of a visit and contradicts itself, or came to nothing? No verdict hangs on it; it is only said."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from math import floor

from service.core.pickup.diodes import SCHOTTKY_V
from service.core.pickup.facts import Cause, Light, PanelReading, cause
from service.core.pickup.frame import both_leads_v

# Beside a cloud's edge there is more light than the sky that was told gives; after sunset some twilight is left.
_CLOUD_EDGE, _TWILIGHT_W_PER_M2 = 1.25, 20.0
# Two readings of one leak differ by contact and by water (judgement); of one diode test by less than one diode.
_LEAK_TIMES, _LEAST_LEAK_V = 2.0, 1.0
_MOST_NAMED = 5

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


def remarks_on(readings: Sequence[PanelReading]) -> tuple[Cause, ...]:
    """Of the readings: one remark a kind, with the panels that it is about, in the order of kinds."""
    groups: dict[str, list[PanelReading]] = {}
    for reading in readings:
        groups.setdefault(reading.panel, []).append(reading)
    found = ((code, [panel for panel, group in groups.items() if applies(group)]) for code, applies in _KINDS.items())
    return tuple(
        cause(code, panels=", ".join(panels[:_MOST_NAMED]) + (", ..." if len(panels) > _MOST_NAMED else ""))
        for code, panels in found
        if panels
    )


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
