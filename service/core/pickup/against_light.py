"""Does a panel give more than the light that was told can make it give?

Then one of the two is wrong: place, time or sky, a light meter in the shade, the range of the multimeter, or the label.
Nobody can say which, so that such a reading judges no panel.
"""

from service.core.pickup.expected import expected_current, expected_voltage
from service.core.pickup.facts import Between, Cause, Door, Light, cause

# After sunset and indoors twilight and lamps are left: some watts, near a lamp or a window some tens (judgement).
_LEAST_MOST_W_PER_M2 = 20.0
# The strongest sun on a panel turned to it, without the edge of a cloud.
FULL_SUN_W_PER_M2 = 1100.0
_ANY_METER_A = 0.05  # less than this many meters show with no current at all
_TOLD = frozenset({"sky", "measured", "indoors"})


def current_against_light(read_a: float, door: Door) -> tuple[Cause, ...]:
    """What is said of a current that the told light cannot drive; empty where it can, or where no light was told."""
    most_w = _most_w(door)
    sound = expected_current(door.ratings, _exactly(most_w, door), door.cell_c)
    if door.light.origin not in _TOLD or read_a <= sound.high + _ANY_METER_A:
        return ()
    shown_w = 1000.0 * read_a / door.ratings.short_circuit_current_a.likely
    return (_cause("current", read_a, door, shown=10 * round(shown_w / 10)),)


def voltage_against_light(read_v: float, door: Door) -> tuple[Cause, ...]:
    """What is said of a voltage that the told light cannot make; empty where it can, or where no light was told."""
    sound = expected_voltage(door.ratings, _exactly(_most_w(door), door), door.cell_c)
    if door.light.origin not in _TOLD or read_v <= sound.high:
        return ()
    return (_cause("voltage", read_v, door),)


def in_any_sun(read_a: float, door: Door) -> bool:
    """Could a panel of this label give that current in the strongest sun?"""
    light = _exactly(FULL_SUN_W_PER_M2, door)
    return read_a <= expected_current(door.ratings, light, door.cell_c).high


def widened_by(read_a: float, door: Door) -> Light:
    """The light as told, up to what that current shows: volts that are high in it may be sound ones in more light."""
    told = door.light.w_per_m2
    shown_w = min(1000.0 * read_a / door.ratings.short_circuit_current_a.likely, FULL_SUN_W_PER_M2)
    wider = Between(low=told.low, likely=told.likely, high=max(told.high, shown_w))
    return Light(w_per_m2=wider, origin=door.light.origin, askew_w_per_m2=door.light.askew_w_per_m2)


def _most_w(door: Door) -> float:
    return max(door.light.w_per_m2.high, _LEAST_MOST_W_PER_M2)


def _exactly(w_per_m2: float, door: Door) -> Light:
    return Light(w_per_m2=Between.exactly(w_per_m2), origin=door.light.origin)


def _cause(quantity: str, read: float, door: Door, **shown: int) -> Cause:
    return cause("more_than_told_light", quantity=quantity, read=read, most=round(_most_w(door)), **shown)
