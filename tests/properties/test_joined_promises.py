"""Whatever panels share an input, it finds the best point that its limits admit: that of a fine scan of their curve."""

from collections.abc import Callable

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.core.model.facts import Input
from service.core.model.hours import Floats
from service.core.panel import (
    Branch,
    current_at,
    curve_at,
    drawn_in_string,
    drawn_together,
    five_parameters_of,
    voltage_at,
)
from service.core.panel.knees import PASSED_BY_V
from tests.builders import one_input, panel

ROWS = 4
POINTS = 400
PANELS = [
    five_parameters_of(one)
    for one in (
        panel(),
        # Fennwerk FW-300 (invented): 60 cells, a smaller current
        panel(
            rated_power_w=300, open_circuit_voltage_v=39.8, short_circuit_current_a=9.7, max_power_voltage_v=32.6,
            max_power_current_a=9.2, cells_in_series=60,
        ),
        # Fennwerk FW-100 (invented): 36 cells
        panel(
            rated_power_w=101.9, open_circuit_voltage_v=22.3, short_circuit_current_a=6.05, max_power_voltage_v=18.2,
            max_power_current_a=5.6, cells_in_series=36, voc_coefficient_pct_per_k=-0.33,
            isc_coefficient_pct_per_k=0.055,
        ),
    )
]  # fmt: skip
LIGHT = st.one_of(st.just(0.0), st.floats(0.1, 60), st.floats(60, 1300))
CURRENTS = st.sampled_from([5.0, 9.0, 14.0, 40.0])


@st.composite
def branches(draw: st.DrawFn, *, strings: st.SearchStrategy[float]) -> list[Branch]:
    """Two or three: often the same panels in other light, sometimes in light that is nearly or quite the same."""
    first = draw(st.lists(LIGHT, min_size=ROWS, max_size=ROWS))
    found = []
    for _ in range(draw(st.integers(2, 3))):
        light = draw(st.one_of(st.lists(LIGHT, min_size=ROWS, max_size=ROWS), st.just(first)))
        share = draw(st.sampled_from([1.0, 1.0, 0.97]))
        air_c = draw(st.sampled_from([-15.0, 10.0, 30.0]))
        found.append(
            Branch(
                diode=draw(st.sampled_from([PANELS[0], PANELS[0], *PANELS])),
                irradiance_w_per_m2=np.array(light) * share,
                cell_c=air_c + np.array(light) * share / 35.0,
                in_series=draw(st.sampled_from([1, 1, 2])),
                strings=draw(strings),
            )
        )
    return found


@st.composite
def inputs(draw: st.DrawFn, volts: tuple[float, ...]) -> Input:
    low, high = sorted((draw(st.sampled_from(volts)), draw(st.sampled_from(volts))))
    return one_input(
        max_input_voltage_v=600, tracking_min_v=low, tracking_max_v=high + 15.0, start_voltage_v=1,
        max_current_a=draw(CURRENTS), max_panel_power_w=None,
    )  # fmt: skip


def scanned_w(of: Callable[[Floats], tuple[Floats, Floats]], along: Floats, limits: Input) -> float:
    """The highest power of points (voltage, current), looked at closer about the three highest hills."""

    def power_at(line: Floats) -> Floats:
        volts, amps = of(line)
        good = (volts >= limits.tracking_min_v) & (volts <= limits.tracking_max_v) & (amps <= limits.max_current_a)
        return np.where(good & (amps > 0), volts * amps, 0.0)

    power = np.pad(power_at(along), 1)
    hills = np.flatnonzero((power[1:-1] >= power[:-2]) & (power[1:-1] >= power[2:]) & (power[1:-1] > 0))
    best = 0.0
    for hill in hills[np.argsort(-power[1:-1][hills])[:3]]:
        line, at = along, int(hill)
        for _ in range(2):
            line = np.linspace(line[max(at - 1, 0)], line[min(at + 1, POINTS - 1)], POINTS)
            closer = power_at(line)
            at = int(closer.argmax())
            best = max(best, float(closer[at]))
    return best


def lit_row(branch: Branch, row: int, points: int):
    light = max(float(branch.irradiance_w_per_m2[row]), 1e-3)
    return curve_at(branch.diode, np.full(points, light), branch.cell_c[row])


def of_voltage(parts: list[Branch], row: int) -> Callable[[Floats], tuple[Floats, Floats]]:
    curves = [lit_row(one, row, POINTS) for one in parts]

    def at(volts: Floats) -> tuple[Floats, Floats]:
        amps = [
            one.strings * current_at(curve, volts / one.in_series) for one, curve in zip(parts, curves, strict=True)
        ]
        return volts, np.sum(amps, axis=0)

    return at


def of_current(parts: list[Branch], row: int) -> Callable[[Floats], tuple[Floats, Floats]]:
    curves = [lit_row(one, row, POINTS) for one in parts]

    def at(amps: Floats) -> tuple[Floats, Floats]:
        volts = []
        for one, curve in zip(parts, curves, strict=True):
            own = amps / one.strings
            able = voltage_at(curve, np.minimum(own, (1 - 1e-9) * curve.light_a))
            passed = np.maximum(able, -PASSED_BY_V)
            volts.append(one.in_series * np.where(own < curve.light_a, passed, -PASSED_BY_V))
        return np.sum(volts, axis=0), amps

    return at


def currents(parts: list[Branch], row: int) -> Floats:
    """To each panel's photocurrent, close together before it."""
    before = 1.0 - np.geomspace(1e-5, 0.999, POINTS // len(parts))
    most = [one.strings * float(lit_row(one, row, 1).light_a[0]) for one in parts]
    along = np.concatenate([before * one for one in most])
    return np.sort(np.append(along, np.full(POINTS - along.size, max(most))))


@settings(max_examples=12)
@given(branches(strings=st.sampled_from([1.0, 0.98, 2.0])), inputs((1.0, 20.0, 30.0, 34.0, 60.0, 90.0)))
def test_parallel_panels_give_the_best_point_of_their_common_voltage(parts: list[Branch], limits: Input) -> None:
    power = sum(one.power_w for one in drawn_together(parts, limits))
    for row in range(ROWS):
        scanned = 0.0
        if any(one.irradiance_w_per_m2[row] > 0 for one in parts):
            scanned = scanned_w(of_voltage(parts, row), np.linspace(0.01, 100.0, POINTS), limits)
        assert power[row] == pytest.approx(scanned, rel=1e-4, abs=0.01)


@settings(max_examples=12)
@given(branches(strings=st.sampled_from([1.0, 0.98, 0.9])), inputs((1.0, 30.0, 50.0, 62.0, 90.0, 200.0)))
def test_one_string_gives_the_best_point_of_its_common_current(parts: list[Branch], limits: Input) -> None:
    power = sum(one.power_w for one in drawn_in_string(parts, limits))
    for row in range(ROWS):
        scanned = 0.0
        if any(one.irradiance_w_per_m2[row] > 0 for one in parts):
            scanned = scanned_w(of_current(parts, row), currents(parts, row), limits)
        assert power[row] == pytest.approx(scanned, rel=1e-4, abs=0.01)
