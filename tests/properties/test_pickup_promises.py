"""Pick-up check: what holds for any panel, light and warmth at the door."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from service.core.pickup import Between, Door, Light, Multimeter, PanelReading, Ratings, Seen, panels_seen
from service.core.pickup.expected import expected_current, expected_voltage

LIGHT = st.floats(1, 1300)
WARMTH = st.floats(-20, 80)


@st.composite
def labels(draw: st.DrawFn, *, voltage_known: bool = True, current_known: bool = True) -> Ratings:
    cells = draw(st.sampled_from([36, 54, 60, 66, 72, 96]))
    return Ratings(
        open_circuit_voltage_v=Between.exactly(cells * draw(st.floats(0.58, 0.74))),
        short_circuit_current_a=Between.exactly(draw(st.floats(2, 18))),
        voc_coefficient_pct_per_k=Between.exactly(draw(st.floats(-0.45, -0.2))),
        isc_coefficient_pct_per_k=Between.exactly(draw(st.floats(0.0, 0.1))),
        cells_in_series=Between.exactly(cells),
        sections=Between.exactly(3),
        age_years=Between.exactly(draw(st.floats(0, 25))),
        area_m2=Between.exactly(1.7),
        voltage_known=voltage_known,
        current_known=current_known,
        connector="locking_4mm",
    )


def measured(w_per_m2: float) -> Light:
    return Light(w_per_m2=Between(low=0.9 * w_per_m2, likely=w_per_m2, high=1.1 * w_per_m2), origin="measured")


def door(ratings: Ratings, light: Light, cell_c: float) -> Door:
    meter = Multimeter(current_limit_a=10, voltage_limit_v=600, clamps_dc=False)
    return Door(ratings=ratings, light=light, cell_c=Between.exactly(cell_c), multimeter=meter)


@st.composite
def readings(draw: st.DrawFn) -> list[PanelReading]:
    def some(most: float) -> float | None:
        return draw(st.none() | st.floats(0, most))

    return [
        PanelReading(
            panel=draw(st.sampled_from("abcd")), open_circuit_voltage_v=some(60), short_circuit_current_a=some(18),
            plus_to_frame_v=some(20), frame_to_minus_v=some(20), bypass_forward_v=some(3), shaded=draw(st.booleans()),
            bypass_swapped_v=some(3), wetted=draw(st.booleans()), bypass_swapped_over_range=draw(st.booleans()),
            back_state=draw(st.sampled_from([None, "sound", "chalky"])),
        )
        for _ in range(draw(st.integers(1, 6)))
    ]  # fmt: skip


@given(labels(), st.lists(LIGHT, min_size=2, max_size=10), WARMTH)
def test_more_light_never_lowers_the_expected_current_or_voltage(ratings, light, cell_c):
    warmth = Between.exactly(cell_c)
    for less, more in pairwise(sorted(light)):
        for expected in (expected_current, expected_voltage):
            before, after = (expected(ratings, measured(one), warmth).likely for one in (less, more))
            assert after >= before - 1e-9


@given(labels(), LIGHT, st.lists(WARMTH, min_size=2, max_size=10))
def test_warmer_never_raises_the_expected_voltage(ratings, light, cells_c):
    found = [expected_voltage(ratings, measured(light), Between.exactly(one)).likely for one in sorted(cells_c)]
    assert all(warm <= cold + 1e-9 for cold, warm in pairwise(found))


@given(labels(), LIGHT, WARMTH, readings(), st.randoms(use_true_random=False))
def test_the_order_of_the_readings_does_not_matter(ratings, light, cell_c, read, chance):
    at, shuffled = door(ratings, measured(light), cell_c), list(read)
    chance.shuffle(shuffled)
    first, second = ({seen.panel: seen for seen in panels_seen(at, order)} for order in (read, shuffled))
    assert {panel: (seen.verdict, seen.causes, seen.worth) for panel, seen in first.items()} == {
        panel: (seen.verdict, seen.causes, seen.worth) for panel, seen in second.items()
    }


@given(labels(voltage_known=False, current_known=False), LIGHT, WARMTH, readings())
def test_a_missing_rating_never_yields_as_expected_on_its_quantity(ratings, light, cell_c, read):
    for seen in panels_seen(door(ratings, measured(light), cell_c), read):
        for quantity in seen.quantities:
            if quantity.what in {"open_circuit_voltage_v", "short_circuit_current_a"}:
                assert quantity.verdict is not Seen.AS_EXPECTED


@given(labels(), WARMTH, readings())
def test_indoors_no_reading_of_volts_or_amperes_judges_a_panel(ratings, cell_c, read):
    light = Light(w_per_m2=Between(low=0.5, likely=5, high=50), origin="indoors")
    for seen in panels_seen(door(ratings, light, cell_c), read):
        for quantity in seen.quantities:
            if quantity.what in {"open_circuit_voltage_v", "short_circuit_current_a"}:
                assert quantity.verdict is Seen.CANNOT_TELL


@given(labels(), st.floats(0.01, 1000), st.booleans(), st.lists(st.floats(0, 30), min_size=2, max_size=8))
def test_more_volts_to_the_frame_never_better_the_verdict(ratings, meter_mohm, wetted, volts):
    worse = [Seen.AS_EXPECTED, Seen.CANNOT_TELL, Seen.SUSPICIOUS]
    found = []
    for both in sorted(volts):
        frame = PanelReading(
            panel="a", open_circuit_voltage_v=30.0, plus_to_frame_v=both / 3, frame_to_minus_v=2 * both / 3,
            wetted=wetted, meter_input_mohm=Between.exactly(meter_mohm),
        )  # fmt: skip
        [seen] = panels_seen(door(ratings, measured(800), 25), [frame])
        [leak] = [one for one in seen.quantities if one.least_mohm is not None]
        found.append(worse.index(leak.verdict))
    assert found == sorted(found)


@given(labels(), LIGHT, st.floats(0, 3))
def test_less_than_any_sound_row_or_more_than_any_is_never_a_sound_diode(ratings, light, volts):
    [seen] = panels_seen(door(ratings, measured(light), 25), [PanelReading(panel="a", bypass_forward_v=volts)])
    [row] = seen.quantities
    if not row.low <= volts <= row.high:
        assert seen.verdict is Seen.SUSPICIOUS
