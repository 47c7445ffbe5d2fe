"""Worth at the door: is less never worth more, whichever lot a panel stands in and whatever light was told?"""

from dataclasses import replace

from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from service.core.pickup import Between, Door, Light, PanelReading, expected_at, light_not_known, panels_seen
from tests.core.pickup.door import door, measured, reading

ROUNDED = 0.0051
# A mate that falls out of the measure leaves one that is higher by what sound panels of one label differ.
LABELS_DIFFER = 0.08
# Of what a sound panel reads: sound ones, faults that are usual, and anything else.
SHARES = st.one_of(
    st.floats(0.96, 1.04), st.floats(0.7, 0.95), st.floats(0.3, 0.7), st.sampled_from([0.0, 1 / 3, 2 / 3, 1.2, 1.35])
)  # fmt: skip
LOTS = st.lists(st.tuples(SHARES, SHARES), min_size=1, max_size=7)
VOC, ISC = "open_circuit_voltage_v", "short_circuit_current_a"
# What was read on each panel of the lot, in turn.
BOTH: list[tuple[str, ...]] = [(VOC, ISC)]
WHATS = st.lists(st.sampled_from([(VOC, ISC), (VOC,), (ISC,)]), min_size=1, max_size=7)


@st.composite
def lights(draw: st.DrawFn) -> Light:
    """Measured well or badly, guessed from any sky, or not told."""
    kind, likely = draw(st.sampled_from(["measured", "sky", "not_known"])), draw(st.floats(30, 1100))
    if kind == "not_known":
        return light_not_known()
    if kind == "measured":
        return measured(likely, draw(st.sampled_from([0.05, 0.15, 0.3])))
    low, high = draw(st.floats(0.3, 0.95)) * likely, draw(st.floats(1.05, 2.5)) * likely
    askew = draw(st.none() | st.floats(0.2, 1.0))
    return Light(
        w_per_m2=Between(low=low, likely=likely, high=high), origin="sky",
        askew_w_per_m2=None if askew is None else askew * low,
    )  # fmt: skip


DOORS = lights().map(door)


def lot_of(
    at: Door, shares: list[tuple[float, float]], true_share: float = 1.0, whats: list[tuple[str, ...]] = BOTH
) -> list[PanelReading]:
    """One reading a panel; ``true_share``: of the likely light there really is; ``whats``: what was read, in turn."""
    sound = expected_at(at)
    assert sound.voltage is not None
    assert sound.current is not None
    found = []
    for number, (volts, amperes) in enumerate(shares):
        read = {VOC: volts * sound.voltage.likely, ISC: amperes * sound.current.likely * true_share}
        what = whats[number % len(whats)]
        found.append(
            reading(f"p{number}", voc=read[VOC] if VOC in what else None, isc=read[ISC] if ISC in what else None)
        )
    return found


def worths(at: Door, lot: list[PanelReading]) -> list[float | None]:
    return [seen.worth.share for seen in panels_seen(at, lot)]


def lowered(lot: list[PanelReading], number: int, what: str, to: float) -> list[PanelReading]:
    """The same lot, with one reading of one panel lower; the other one where that was not read."""
    found = list(lot)
    what = what if getattr(lot[number], what) is not None else {VOC: ISC, ISC: VOC}[what]
    found[number] = replace(lot[number], **{what: to * getattr(lot[number], what)})
    return found


QUANTITIES = st.sampled_from([VOC, ISC])
TRUE = st.sampled_from([1.0, 1.0, 0.4, 0.6, 1.3])
SICK = door(measured(700.0, 0.15)), [(1.0, 0.42), (1.0, 0.43), (1.0, 0.42), (1.0, 0.42)], 1.0
WORSE = *SICK, BOTH, ISC, 3, 0.6
STRANGER = door(light_not_known()), [(0.7, 1.0), (1.0, 1.0), (1.2, 1.0)], 1.0, BOTH, VOC, 0, 0.0
ONE_WORSE = door(measured(700.0, 0.15)), [*SICK[1][:3], (1.0, 0.26)], 1.0, BOTH
# A little below the range: what is left of it is more than the tenth that is taken off for a current nobody saw.
VOLTS_ALONE = door(measured(800.0, 0.15)), [(0.97, 1.0), (0.955, 1.0)], 1.0, [(VOC,)]


@example(*WORSE)
@example(*VOLTS_ALONE[:2], 1.0, [(VOC,)], VOC, 0, 0.985)
@settings(max_examples=100)
@given(DOORS, LOTS, TRUE, WHATS, QUANTITIES, st.integers(0, 6), st.floats(0, 1))
def test_a_lower_reading_never_raises_what_its_panel_is_worth(at, shares, true_share, whats, what, number, to):
    lot = lot_of(at, shares, true_share, whats)
    number %= len(lot)
    before, after = worths(at, lot)[number], worths(at, lowered(lot, number, what, to))[number]
    assume(before is not None and after is not None)
    assert after <= before + ROUNDED


@example(*STRANGER)
@settings(max_examples=100)
@given(DOORS, LOTS, TRUE, WHATS, QUANTITIES, st.integers(1, 6), st.floats(0, 1))
def test_a_mate_that_reads_less_never_takes_a_panel_below_what_it_is_worth_alone(
    at, shares, true_share, whats, what, number, to
):
    lot = lot_of(at, shares, true_share, whats)
    assume(len(lot) > 1)
    number = 1 + number % (len(lot) - 1)
    [alone] = worths(at, lot[:1])
    before, after = worths(at, lot)[0], worths(at, lowered(lot, number, what, to))[0]
    assume(alone is not None and before is not None and after is not None)
    assert after >= (1 - LABELS_DIFFER) * min(alone, before) - ROUNDED


@example(*ONE_WORSE)
@example(*VOLTS_ALONE)
@settings(max_examples=100)
@given(DOORS, LOTS, TRUE, WHATS)
def test_of_two_panels_of_a_lot_the_one_that_reads_less_is_not_worth_more(at, shares, true_share, whats):
    lot = lot_of(at, shares, true_share, whats)
    found = [(one, worth) for one, worth in zip(lot, worths(at, lot), strict=True) if worth is not None]
    for less, less_worth in found:
        for more, more_worth in found:
            if reads_less(less, more):
                assert less_worth <= more_worth + ROUNDED


def reads_less(one: PanelReading, other: PanelReading) -> bool:
    """Was the same read on both, and nothing on the one above what was on the other?"""
    pairs = [(getattr(one, what), getattr(other, what)) for what in (VOC, ISC)]
    alike = all((less is None) is (more is None) for less, more in pairs)
    return alike and all(less <= more for less, more in pairs if less is not None)
