"""What the promises are tried on: plausible sheets, inputs, weather and sets."""

from hypothesis import strategies as st

from service.core.model.facts import Array, Input, Inverter, Panel, Setup
from service.core.model.place import Plane
from tests.builders import array, inverter, one_input, panel, setup

irradiances = st.floats(1, 1300)
cell_temperatures = st.floats(-30, 85)
planes = st.builds(Plane, tilt_deg=st.floats(0, 90), azimuth_deg=st.floats(0, 360))
ac_limits = st.floats(0, 800)


@st.composite
def sheets(draw: st.DrawFn) -> Panel:
    """Crystalline panels of 32 to 96 cells, old and new, good and middling; fill factors 0.69 to 0.83."""
    cells = draw(st.integers(32, 96))
    voc, isc = cells * draw(st.floats(0.57, 0.75)), draw(st.floats(2, 18.5))
    vmp, imp = voc * draw(st.floats(0.77, 0.86)), isc * draw(st.floats(0.90, 0.965))
    return panel(
        rated_power_w=vmp * imp, open_circuit_voltage_v=voc, short_circuit_current_a=isc, max_power_voltage_v=vmp,
        max_power_current_a=imp, cells_in_series=cells, voc_coefficient_pct_per_k=draw(st.floats(-0.40, -0.22)),
        isc_coefficient_pct_per_k=draw(st.floats(0.02, 0.09)), age_years=draw(st.integers(0, 25)),
    )  # fmt: skip


@st.composite
def inputs(draw: st.DrawFn) -> Input:
    """Inputs with all their limits, some of them at odds with any panel."""
    low = draw(st.floats(10, 60))
    return one_input(
        tracking_min_v=low, tracking_max_v=low + draw(st.floats(0, 60)), start_voltage_v=draw(st.floats(10, 60)),
        max_current_a=draw(st.floats(2, 40)), max_input_power_w=draw(st.none() | st.floats(50, 1500)),
    )  # fmt: skip


@st.composite
def arrays(draw: st.DrawFn) -> Array:
    """One or two panels anywhere, on one of two inputs."""
    return array(
        input=draw(st.integers(1, 2)), count=draw(st.integers(1, 2)),
        joined=draw(st.sampled_from(["series", "parallel"])),
        mount=draw(st.sampled_from(["hung_on_rail", "wall", "flat_roof"])), plane=draw(planes), panel=draw(sheets()),
        dirt_share=draw(st.floats(0, 0.2)), mismatch_share=draw(st.floats(0, 0.1)),
        lead_length_m=draw(st.floats(0, 30)), lead_mm2=draw(st.sampled_from([1.5, 2.5, 4.0, 6.0])),
    )  # fmt: skip


@st.composite
def inverters(draw: st.DrawFn) -> Inverter:
    """Two inputs, 300 to 2000 W, set to anything."""
    rated = draw(st.floats(300, 2000))
    return inverter(
        ac_power_w=rated, set_limit_w=draw(st.floats(0, 2000)), inputs=(draw(inputs()), draw(inputs())),
        weighted_efficiency_share=draw(st.floats(0.85, 0.985)),
        efficiency_weighting=draw(st.sampled_from(["european", "californian"])),
    )  # fmt: skip


def sets() -> st.SearchStrategy[Setup]:
    """One to three arrays on two inputs, with downtime."""
    return st.builds(
        lambda arrays, inverter, days: setup(arrays=tuple(arrays), inverter=inverter, downtime_days_per_year=days),
        st.lists(arrays(), min_size=1, max_size=3),
        inverters(),
        st.floats(0, 30),
    )
