"""What do all readings of one visit say of each panel?

A panel may come in several readings (volts and amperes, then dry and wet to the frame): they are joined by its name.
Panels of one type are compared with one another first, since the light cancels; the estimate of it comes second.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from service.core.pickup.against_light import current_against_light, widened_by
from service.core.pickup.diodes import diode_quantities
from service.core.pickup.electric import (
    ISC,
    LEAST_FOR_VOLTAGE_W_PER_M2,
    LEAST_SHARES,
    VOC,
    current_of_more_cells,
    is_enough_light,
    judged_current,
    judged_voltage,
    light_causes,
    no_contact,
    no_daylight,
    no_voltage,
)
from service.core.pickup.expected import expected_current, expected_voltage
from service.core.pickup.facts import Between, Cause, Door, PanelReading, Quantity, Seen, cause
from service.core.pickup.frame import both_leads_v, frame_quantity
from service.core.pickup.left import Measure, power_left
from service.core.pickup.light import light_shown
from service.core.pickup.looks import looked_at
from service.core.pickup.lot import Beside
from service.core.pickup.remarks import columns_remark
from service.core.pickup.rounds import Rounds, no_current_on_any, rounds_apart, rounds_of
from service.core.pickup.side_by_side import LEAST_CURRENT_SHARE, SideBySide, side_by_side, sound_rounds
from service.core.pickup.swapped import columns_swapped, not_judged, set_aside
from service.core.pickup.unseen import not_seen
from service.core.pickup.worth import MENDED_WITH_EASE, WorthNow, worth_now

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """What a sound panel must read now. None where there is no light to read anything by."""

    voltage: Between | None
    current: Between | None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Visit:
    """What holds for all panels of a visit, by quantity: door, what a sound one reads, how each stands, measures.

    ``swapped``: by panel, quantities of readings whose columns were exchanged; ``flows``: did any panel give current?
    """

    doors: Mapping[str, Door]
    expected: Mapping[str, Between]
    sides: Mapping[str, SideBySide]
    measures: Mapping[str, Measure]
    swapped: Mapping[str, tuple[Quantity, ...]]
    flows: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelSeen:
    """What is said of one panel, and why; ``lot``: by quantity how it stands, as of ``side_by_side``, or silent.

    ``not_seen``: what its volts and amperes cannot show, as of ``unseen``; of one that is worth nothing, nothing.
    """

    panel: str
    verdict: Seen
    quantities: tuple[Quantity, ...]
    causes: tuple[Cause, ...]
    worth: WorthNow
    lot: Mapping[str, str]
    not_seen: tuple[Cause, ...] = ()


def expected_at(door: Door) -> Expected:
    """What a sound panel must read at this door."""
    if no_daylight(door):
        return Expected(voltage=None, current=None)
    return Expected(
        voltage=expected_voltage(door.ratings, door.light, door.cell_c),
        current=expected_current(door.ratings, door.light, door.cell_c),
    )


def panels_seen(door: Door, readings: Sequence[PanelReading]) -> tuple[PanelSeen, ...]:
    """The verdict on each panel, in the order in which the panels were first named; no other order matters.

    Suspicious where anything is that is not mended with ease; cannot tell where anything is open, or where no voltage
    was read: a voltage alone can be as expected, a current alone hides a lost section. A quantity whose rating nobody
    read is never as expected.
    """
    expected = _expected(door)
    groups: dict[str, list[PanelReading]] = {}
    swapped: dict[str, tuple[Quantity, ...]] = {}
    for reading in readings:
        exchanged = columns_swapped(reading, door, expected)
        if exchanged:
            swapped[reading.panel] = not_judged(reading, expected)
        groups.setdefault(reading.panel, []).append(set_aside(reading) if exchanged else reading)
    currents = side_by_side(groups, ISC, door, expected[ISC])
    best = max((value for group in groups.values() for value in sound_rounds(group, ISC)), default=0.0)
    lit = _lit_by_the_current(door, best if currents.middle is None else currents.middle)
    if no_current_on_any(groups, expected[VOC], expected[ISC]):
        currents = replace(currents, stands=dict.fromkeys(groups, "silent"))
    doors, by_light = {VOC: lit, ISC: door}, {VOC: _expected(lit)[VOC], ISC: expected[ISC]}
    sides = {VOC: side_by_side(groups, VOC, door, by_light[VOC]), ISC: currents}
    visit = _Visit(
        doors=doors, expected=by_light, sides=sides, measures=_measures(doors, by_light, expected, sides),
        swapped=swapped, flows=best >= LEAST_SHARES[ISC] * expected[ISC].likely,
    )  # fmt: skip
    return tuple(_seen(panel, group, visit) for panel, group in groups.items())


def swapped_columns(door: Door, readings: Sequence[PanelReading]) -> Cause | None:
    """The remark on panels whose volts and amperes were told the wrong way round; None where none were."""
    expected = _expected(door)
    return columns_remark(one.panel for one in readings if columns_swapped(one, door, expected))


def _lit_by_the_current(door: Door, shown_a: float) -> Door:
    """The same door for volts: the current shows what light there is where nobody told it, or more than was told."""
    rating = door.ratings.short_circuit_current_a
    if door.light.origin in {"sky", "measured"} and not no_daylight(door):
        return replace(door, light=widened_by(shown_a, door)) if current_against_light(shown_a, door) else door
    if door.light.origin != "not_known" or shown_a < LEAST_CURRENT_SHARE * rating.high:
        return door
    return replace(door, light=light_shown(shown_a, rating))


def _seen(
    panel: str,
    group: Sequence[PanelReading],
    visit: _Visit,
) -> PanelSeen:
    rounds = {what: rounds_of(group, what) for what in (VOC, ISC)}
    found = _quantities(panel, group, rounds, visit)
    quantities = sorted(found, key=lambda one: (one.what, one.measured or 0.0, str(one.causes)))
    causes = list(_told(quantities))
    verdict = _verdict(quantities)
    if not quantities:
        causes = [cause("nothing_read")]
    elif verdict is Seen.CANNOT_TELL and not any(one.verdict is verdict for one in quantities):
        causes.append(cause("voltage_not_read"))
    lot = {what: side.of(panel) for what, side in visit.sides.items()}
    measures = {what: replace(one, below_lot=lot[what] == "low") for what, one in visit.measures.items()}
    left = power_left([one for one in quantities if not _is_silent(one)], measures)
    current_read = any(one.what == ISC and one.verdict is Seen.AS_EXPECTED for one in quantities)
    contact = min(one.share for one in rounds.values())
    ratings = visit.doors[VOC].ratings
    worth = worth_now(verdict, quantities, current_read, left, ratings, contact, flows=visit.flows)
    return PanelSeen(
        panel=panel, verdict=verdict, quantities=tuple(quantities), causes=tuple(causes), worth=worth, lot=lot,
        not_seen=not_seen(quantities, ratings, visit.expected[VOC]) if worth.share else (),
    )  # fmt: skip


def _measures(
    doors: Mapping[str, Door],
    by_light: Mapping[str, Between],
    as_told: Mapping[str, Between],
    sides: Mapping[str, SideBySide],
) -> dict[str, Measure]:
    """By quantity what a low reading is held against; a guessed light measures nobody's current.

    Volts that are likely are those of the light as it was told: by the light that its own current shows, a panel that
    gives less of it would be left with more.
    """
    trusted = {
        VOC: not light_causes(doors[VOC], LEAST_FOR_VOLTAGE_W_PER_M2),
        ISC: is_enough_light(doors[ISC]) and not doors[ISC].light.guessed,
    }
    return {
        what: Measure(
            low=by_light[what].low,
            likely=as_told[what].likely,
            high=by_light[what].high,
            trusted=trusted[what],
            lot=side.middle,
            below_lot=False,
            alike=side.all_alike,
        )
        for what, side in sides.items()
    }


def _is_silent(one: Quantity) -> bool:
    return any(why.code == "no_contact" for why in one.causes)


def _quantities(
    panel: str,
    group: Sequence[PanelReading],
    rounds: Mapping[str, Rounds],
    visit: _Visit,
) -> Iterable[Quantity]:
    doors, sides = visit.doors, visit.sides
    door, lit, voltage, current = doors[ISC], doors[VOC], visit.expected[VOC], visit.expected[ISC]
    read_v = max(_there(one.open_circuit_voltage_v for one in rounds[VOC].counted), default=None)
    current = current_of_more_cells(read_v, voltage, current, lit.ratings)
    flows = any((one.short_circuit_current_a or 0.0) > current.low for one in rounds[ISC].counted)

    def stands(reading: PanelReading, what: str) -> Beside:
        return sides[what].of_round(panel, getattr(reading, what))

    volts = _there(judged_voltage(one, voltage, lit, stands(one, VOC), flows=flows) for one in rounds[VOC].counted)
    yield from volts
    yield from _there(judged_current(one, current, door, stands(one, ISC)) for one in rounds[ISC].counted)
    for what, expected in ((VOC, voltage), (ISC, current)):
        silent, all_rounds = len(rounds[what].silent), len(rounds[what].silent) + len(rounds[what].counted)
        for reading in rounds[what].silent:
            yield no_contact(reading, what, expected, doors[what], all_rounds, silent)
    yield from _there(rounds_apart(rounds[what], what, doors[what]) for what in (VOC, ISC))
    read = [one for one in rounds[VOC].counted if one in rounds[ISC].counted]
    yield from () if read else visit.swapped.get(panel, ())
    yield from _frame(group, lit, voltage)
    volts_sound = {one.verdict for one in volts} == {Seen.AS_EXPECTED}
    yield from diode_quantities(
        group, door.ratings.sections, volts_sound=volts_sound, sun_share=_in_sun(rounds[VOC], lit, voltage)
    )
    for reading in group:
        yield from looked_at(reading, door.ratings)


def _in_sun(rounds: Rounds, door: Door, voltage: Between) -> float | None:
    """What share of a sound panel's volts was read in daylight; None where none were."""
    read = [one.open_circuit_voltage_v for one in rounds.counted if one.open_circuit_voltage_v is not None]
    return None if not read or no_daylight(door) or voltage.likely <= 0 else max(read) / voltage.likely


def _expected(door: Door) -> dict[str, Between]:
    """What a sound panel reads, whether or not anything may be judged by it."""
    return {
        VOC: expected_voltage(door.ratings, door.light, door.cell_c),
        ISC: expected_current(door.ratings, door.light, door.cell_c),
    }


def _frame(group: Sequence[PanelReading], door: Door, voltage: Between) -> Iterable[Quantity]:
    """The leak to the frame, wetted first: a dry panel that leaks a little is cleared by water alone."""
    own, area = _own_voltage(group, door, voltage), door.ratings.area_m2
    dry_v = max(_there(both_leads_v(reading) for reading in group if not reading.wetted), default=None)
    wet = _there(frame_quantity(reading, own, area, dry_v=dry_v) for reading in group if reading.wetted)
    passed = {one.verdict for one in wet} == {Seen.AS_EXPECTED}
    dry = (frame_quantity(reading, own, area, wet_passed=passed) for reading in group if not reading.wetted)
    return [*wet, *_there(dry)]


def _there(found: Iterable[T | None]) -> list[T]:
    return [one for one in found if one is not None]


def _own_voltage(group: Sequence[PanelReading], door: Door, expected: Between) -> Between | None:
    """The panel's voltage while the frame was read: its own reading, else the expected one; None where it has none."""
    read = [reading.open_circuit_voltage_v for reading in group if reading.open_circuit_voltage_v is not None]
    if read:
        rating = door.ratings.open_circuit_voltage_v
        lit = not no_voltage(max(read), Between.exactly(rating.likely))
        return Between.exactly(max(read)) if lit else None
    return None if light_causes(door, LEAST_FOR_VOLTAGE_W_PER_M2) else expected


def _told(quantities: Sequence[Quantity]) -> Iterable[Cause]:
    """Causes of suspicion first, then what keeps from telling; of several with one code and quantity the last.

    What can be mended for a tenth of the price comes after what cannot.
    """
    for verdict in (Seen.SUSPICIOUS, Seen.CANNOT_TELL):
        causes = [one for quantity in quantities if quantity.verdict is verdict for one in quantity.causes]
        causes.sort(key=lambda one: one.code in MENDED_WITH_EASE)
        yield from {(one.code, one.facts.get("quantity")): one for one in causes}.values()


def _verdict(quantities: Sequence[Quantity]) -> Seen:
    """What can be mended with ease says nothing of the panel: where all else is open, nobody can tell."""
    found = {one.verdict for one in quantities}
    suspicious = [one for one in quantities if one.verdict is Seen.SUSPICIOUS]
    if any(one.code not in MENDED_WITH_EASE for quantity in suspicious for one in quantity.causes):
        return Seen.SUSPICIOUS
    if Seen.CANNOT_TELL in found or not any(one.what == VOC for one in quantities):
        return Seen.CANNOT_TELL
    return Seen.SUSPICIOUS if suspicious else Seen.AS_EXPECTED
