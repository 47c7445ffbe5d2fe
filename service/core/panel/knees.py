"""At which currents does one string of unlike panels give most? Each kind of panel puts a knee into its curve.

With the panels in order of their photocurrents, either all work, or the weakest is passed by, or the two weakest, and
so on: the power at a current is the highest of these, since each panel alone settles whether its curve or its bypass
diode has more voltage. Each of them is concave in the current, so Newton finds its top, in the diode's voltage of the
weakest panel at work (there the current is explicit and does not end) and in those of the others at once.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.core.model.hours import Bools, Floats
from service.core.panel.branch import Branch
from service.core.panel.curve import Curve, near_peak_v, voltage_at
from service.core.panel.joined import falling_root

# Three sections to a panel, a Schottky diode of some 0.5 V at its current beside each (trade figure, from memory).
PASSED_BY_V = 1.5
_ROUNDS = 12  # four to six are taken
_ENOUGH = 1e-3  # of the voltage scale: at its top the power hangs on the square of what is left
_FARTHEST = 3.0  # voltage scales in one step
_LEAST_A = 1e-12

Rows = NDArray[np.intp]


@dataclass(frozen=True, slots=True, eq=False)
class Member:
    """Equal panels of a string: the curve of one at each row, panels in series, and what of its current is left.

    ``most_a`` is its photocurrent and its saturation current.
    """

    curve: Curve
    in_series: int
    strings: float
    most_a: Floats

    def at(self, rows: Rows) -> "Member":
        """At some rows only."""
        return Member(self.curve.at(rows), self.in_series, self.strings, self.most_a[rows])

    def voltage_v(self, current_a: Floats) -> Floats:
        """Of all its panels at the string's current; they are passed by where they cannot carry it."""
        asked, _, panel_v = self._able(current_a)
        carried = asked < self.curve.light_a
        return np.asarray(self.in_series * np.where(carried, np.maximum(panel_v, -PASSED_BY_V), -PASSED_BY_V))

    def voltage_and_slope(self, current_a: Floats) -> tuple[Floats, Floats]:
        """The same, and its derivative by the current."""
        curve = self.curve
        asked, own, panel_v = self._able(current_a)
        carried = (asked < curve.light_a) & (panel_v > -PASSED_BY_V)
        through = np.exp((panel_v + curve.series_ohm * own) / curve.scale_v + curve.log_saturation)
        slope = 1.0 / (through / curve.scale_v + curve.shunt_s) + curve.series_ohm
        return (
            self.in_series * np.where(carried, panel_v, -PASSED_BY_V),
            -self.in_series / self.strings * np.where(carried, slope, 0.0),
        )

    def _able(self, current_a: Floats) -> tuple[Floats, Floats, Floats]:
        """A panel's part of the current, what of that it can carry, and its voltage there."""
        asked = current_a / self.strings
        own = np.minimum(asked, (1 - 1e-9) * self.curve.light_a)
        return asked, own, voltage_at(self.curve, own)


String = tuple[Member, ...]


def string_of(branches: Sequence[Branch], curves: Sequence[Curve]) -> String:
    """The members of a string by their branches, at the rows of their curves."""
    return tuple(
        Member(curve, one.in_series, one.strings, curve.light_a + np.exp(curve.log_saturation))
        for one, curve in zip(branches, curves, strict=True)
    )


def at_rows(string: String, rows: Rows) -> String:
    """The same string at some rows only."""
    return tuple(member.at(rows) for member in string)


def voltages(string: String, current_a: Floats) -> Floats:
    """The voltage of each member at the string's current, (members, n)."""
    return np.array([member.voltage_v(current_a) for member in string])


def best_current_a(string: String) -> Floats:
    """The current of the highest power at each row, (n,)."""
    found = np.empty(string[0].curve.light_a.size)
    for rows, order in _by_strength(string):
        found[rows] = _best_of(tuple(string[k].at(rows) for k in order))
    return found


def knee_currents_a(string: String) -> Floats:
    """The current of the highest power with one, two, ... of the strongest members at work, (members, n)."""
    found = np.empty((len(string), string[0].curve.light_a.size))
    for rows, order in _by_strength(string):
        ordered = tuple(string[k].at(rows) for k in order)
        for working in range(1, len(string) + 1):
            found[working - 1, rows] = _top(ordered, working)[0]
    return found


def _by_strength(string: String) -> list[tuple[Rows, tuple[int, ...]]]:
    """Rows by the order of the members' photocurrents, strongest first."""
    order = np.argsort([-member.curve.light_a * member.strings for member in string], axis=0, kind="stable")
    number = (order * len(string) ** np.arange(len(string))[:, None]).sum(axis=0)
    rows_of = [np.flatnonzero(number == one) for one in np.unique(number)]
    return [(rows, tuple(order[:, rows[0]].tolist())) for rows in rows_of]


def _best_of(string: String) -> Floats:
    """The same of members in the order of their strength, each way of working only where it may be the best."""
    most_w, some_w, some_a = _bounds(string)
    found, power = some_a, some_w
    for working in range(len(string), 0, -1):
        rows = np.flatnonzero(most_w[working - 1] > power)
        if rows.size:
            current, top_w = _top(at_rows(string, rows), working)
            better = top_w > power[rows]
            found[rows[better]], power[rows[better]] = current[better], top_w[better]
    return found


def _bounds(string: String) -> tuple[list[Floats], Floats, Floats]:
    """What each way of working gives at most; what the strongest alone give near their own peak, and their current.

    A panel's power is concave in its voltage: it stays below its tangent at any point.
    """
    own_w, open_v, most_w = np.zeros(1), np.zeros(1), []
    some_w, some_a = np.zeros(1), np.zeros(1)
    passed = sum(member.in_series for member in string)
    for place, member in enumerate(string):
        curve, many = member.curve, member.in_series
        vd = near_peak_v(curve)
        current, through = _current_and_through(member, vd)
        falls = through / curve.scale_v + curve.shunt_s
        voltage = vd - curve.series_ohm * current
        rises = current - voltage * falls / (1.0 + curve.series_ohm * falls)
        end = curve.scale_v * (np.log(member.most_a) - curve.log_saturation)
        most = voltage * current + np.maximum(rises * (end - voltage), -rises * voltage)
        own_w, open_v = own_w + many * member.strings * most, open_v + many * end
        most_w.append(np.minimum(own_w, open_v * member.strings * curve.light_a))
        if not place:
            some_a = current * member.strings
            some_w = some_a * (many * voltage - PASSED_BY_V * (passed - many))
    return most_w, some_w, some_a


def _top(string: String, working: int) -> tuple[Floats, Floats]:
    """Current and power at the top of the curve with the first members at work and the others passed by."""
    passed_v = PASSED_BY_V * sum(member.in_series for member in string[working:])
    with np.errstate(over="ignore", divide="ignore", invalid="ignore"):  # what runs away there is sought once more
        current, power, near = _top_at_once(string[:working], passed_v)
    rows = np.flatnonzero(~near)
    if rows.size:
        current[rows], power[rows] = _sought(at_rows(string[:working], rows), passed_v)
    return current, power


def _top_at_once(string: String, passed_v: float) -> tuple[Floats, Floats, Bools]:
    """The same with all of these members at work, and at which rows it was reached."""
    *others, weakest = string
    curve, strings = weakest.curve, weakest.strings
    vd, others_v = _start(weakest, others, passed_v)
    for _ in range(_ROUNDS):
        own, through = _current_and_through(weakest, vd)
        current, total = strings * own, _Total.of(weakest, vd, own, through, passed_v)
        for k, other in enumerate(others):
            own = current / other.strings
            others_v[k], through_it = _moved_along(other, own, others_v[k])
            total.add(other, others_v[k], own, through_it)
        # Towards where d(I V)/dI is nought; the current falls by strings * falls for each volt of the diode.
        falls = strings * (through / curve.scale_v + curve.shunt_s)
        step = (total.voltage_v + current * total.slope) / ((2.0 * total.slope + current * total.bend) * falls)
        step = np.clip(step, -_FARTHEST * curve.scale_v, _FARTHEST * curve.scale_v)
        near = np.asarray(np.abs(step) <= _ENOUGH * curve.scale_v)
        if near.all():
            break
        vd = np.maximum(vd + step, 0.0)
    return current, current * total.voltage_v, near


@dataclass(slots=True, eq=False)
class _Total:
    """The voltage of members at a string's current, and its first and second derivative by that."""

    voltage_v: Floats
    slope: Floats
    bend: Floats

    @classmethod
    def of(cls, member: Member, vd: Floats, own_a: Floats, through_a: Floats, passed_v: float) -> "_Total":
        """Of one member, at its diode's voltage and current, less what others take."""
        total = cls(np.full_like(vd, -passed_v), np.zeros_like(vd), np.zeros_like(vd))
        total.add(member, vd, own_a, through_a)
        return total

    def add(self, member: Member, vd: Floats, own_a: Floats, through_a: Floats) -> None:
        """One more."""
        curve, many, strings = member.curve, member.in_series, member.strings
        falls = through_a / curve.scale_v + curve.shunt_s
        self.voltage_v += many * (vd - curve.series_ohm * own_a)
        self.slope -= many / strings * (1.0 / falls + curve.series_ohm)
        own_scale = falls * curve.scale_v  # a third power costs more than all the rest
        self.bend -= many / strings**2 * through_a / (own_scale * own_scale * falls)


def _start(weakest: Member, others: Sequence[Member], passed_v: float) -> tuple[Floats, list[Floats]]:
    """The diodes' voltages near the top, the weakest member's first.

    From its own peak on: where d(I V)/dI is nought, the joint voltage over the current is how steeply all voltages fall
    together, which leaves so much for the weakest's own and says what flows through its diode.
    """
    curve = weakest.curve
    vd = near_peak_v(curve)
    own, through = _current_and_through(weakest, vd)
    current = weakest.strings * own
    voltage, slope, others_v = weakest.in_series * (vd - curve.series_ohm * own) - passed_v, np.zeros_like(vd), []
    for other in others:
        own = current / other.strings
        left = np.maximum(other.most_a - own, _LEAST_A)
        others_v.append(other.curve.scale_v * (np.log(left) - other.curve.log_saturation))
        voltage += other.in_series * (others_v[-1] - other.curve.series_ohm * own)
        slope += other.in_series / other.strings * (other.curve.scale_v / left + other.curve.series_ohm)
    rest = (voltage / current - slope) * (weakest.strings / weakest.in_series) - curve.series_ohm
    wanted = curve.scale_v * (1.0 / rest - curve.shunt_s)
    good = (rest > 0.0) & (wanted > _LEAST_A) & (wanted < curve.light_a)
    through = np.where(good, wanted, through)
    return np.asarray(curve.scale_v * (np.log(through) - curve.log_saturation)), others_v


def _current_and_through(member: Member, vd: Floats) -> tuple[Floats, Floats]:
    """A panel's current, and that through its diode, at the diode's voltage."""
    through = np.exp(vd / member.curve.scale_v + member.curve.log_saturation)
    return member.most_a - through - member.curve.shunt_s * vd, through


def _moved_along(member: Member, own_a: Floats, vd: Floats) -> tuple[Floats, Floats]:
    """A step of Newton, on a logarithm's scale, towards the diode's voltage at a current; and what flows through it."""
    curve, left = member.curve, member.most_a - own_a
    through = np.maximum(left - curve.shunt_s * vd, _LEAST_A)
    off = vd - curve.scale_v * (np.log(through) - curve.log_saturation)
    moved = vd - off / (1.0 + curve.scale_v * curve.shunt_s / through)
    return np.asarray(moved), np.asarray(np.maximum(left - curve.shunt_s * moved, _LEAST_A))


def _sought(string: String, passed_v: float) -> tuple[Floats, Floats]:
    """The top with all of these members at work by a bracketed search: slower, and it always ends."""

    def total_at(current: Floats) -> _Total:
        total = _Total(np.full_like(current, -passed_v), np.zeros_like(current), np.zeros_like(current))
        for member in string:
            own = current / member.strings
            vd = voltage_at(member.curve, own) + member.curve.series_ohm * own
            total.add(member, vd, own, _moved_along(member, own, vd)[1])
        return total

    def slope_of_power(current: Floats) -> tuple[Floats, Floats]:
        total = total_at(current)
        return total.voltage_v + current * total.slope, 2.0 * total.slope + current * total.bend

    high = string[-1].curve.light_a * string[-1].strings * (1 - 1e-9)
    current = falling_root(slope_of_power, 0.9 * high, np.zeros_like(high), high)
    return current, current * total_at(current).voltage_v
