"""What do the volts and the amperes that were read say of the panel?"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import floor
from types import MappingProxyType

from service.core.model.finding import Fact
from service.core.pickup.against_light import current_against_light, in_any_sun, voltage_against_light
from service.core.pickup.expected import LABEL_VOLTAGE_SHARE, METER_VOLTAGE_SHARE
from service.core.pickup.facts import Between, Cause, Door, PanelReading, Quantity, Ratings, Seen, cause
from service.core.pickup.lot import Beside

VOC, ISC = "open_circuit_voltage_v", "short_circuit_current_a"
# Below, nobody can predict a current: standards for measuring in the field want far more (IEC 61829: 700 W/m2; from
# memory), and this is a wary floor for a hand meter. Volts hardly move with light and are looked at from 50 W/m2 on.
LEAST_FOR_CURRENT_W_PER_M2, LEAST_FOR_VOLTAGE_W_PER_M2 = 200.0, 50.0
# A current is as expected where even the most light that there can be leaves no more than this share of it to be seen:
# by less a panel would pass that lacks a third (judgement).
_PROVEN_SHARE = 0.7
# Below these shares of what is likely, or of the same panel's best round, a meter shows nothing rather than little.
LEAST_SHARES: Mapping[str, float] = MappingProxyType({VOC: 0.1, ISC: 0.05})
# A cell that leaks a little loses nothing to speak of in the sun and a tenth of its volts at dusk: only what takes a
# third is seen there (from memory of how a shunt weighs against the photocurrent).
_SEEN_IN_DULL_LIGHT = frozenset({"no_reading", "no_voltage_yet_current", "bypass_section_lost"})
# Beyond the range, which has the error of a probe: a panel out of a cold barn, or in wind, is colder than was thought
# (judgement).
_COOLER_K = 15.0
# Hotter no cells get in the sun, against a roof in still air (judgement).
_HOTTEST_C = 90.0
# Cells in series that are usual; what has more of them is thin film, whose count no voltage tells.
_USUAL_CELLS = (32, 36, 40, 44, 48, 54, 60, 66, 72, 78, 96)


@dataclass(frozen=True, slots=True, kw_only=True)
class Expectation:
    """What a sound panel must read."""

    voltage: Between
    current: Between


def judged_voltage(
    reading: PanelReading, expected: Between, door: Door, beside: Beside, *, flows: bool = False
) -> Quantity | None:
    """What the open-circuit voltage says; None where it was not read.

    Volts hardly move with light, so each panel of a lot that is low as a whole is suspicious. ``beside``: the others,
    which tell nothing in the dusk that was told: there a cell that leaks takes more than it does in the sun.
    ``flows``: the same panel gave the current of a sound one.
    """
    read = reading.open_circuit_voltage_v
    if read is None:
        return None
    causes = no_daylight(door)
    if not causes and reading.shaded and read < expected.low:
        causes = (cause("shaded"),)
    if causes:
        causes = (*voltage_against_light(read, door), *causes)
        return _quantity(VOC, Seen.CANNOT_TELL, read, expected, causes)
    causes = light_causes(door, LEAST_FOR_VOLTAGE_W_PER_M2)
    if not causes and read < expected.low:
        found = _low_voltage(read, expected, door, beside)
        found = (cause("no_voltage_yet_current"),) if flows and found[0].code == "no_reading" else found
        dull = light_causes(door, LEAST_FOR_CURRENT_W_PER_M2)
        seen = tuple(one for one in found if one.code in _SEEN_IN_DULL_LIGHT) if dull else found
        return _quantity(VOC, Seen.SUSPICIOUS if seen else Seen.CANNOT_TELL, read, expected, seen or dull)
    apart = beside.stands in {"low", "high"} and (not causes or door.light.origin == "not_known")
    high = not causes and read > expected.high
    if high and not (apart and _may_have_more_cells(read, expected, door.ratings)):
        return _high_voltage(read, expected, door.ratings, beside)
    if apart:
        return _voltage_apart(read, expected, door, beside)
    if causes:
        causes = (*voltage_against_light(read, door), *causes)
    if not causes:
        causes = _no_measure(beside, "voltage")
    if not causes:
        causes = _of_the_label(door.ratings, door.ratings.voltage_known, "open-circuit voltage")
    return _quantity(VOC, Seen.CANNOT_TELL if causes else Seen.AS_EXPECTED, read, expected, causes)


def _high_voltage(read: float, expected: Between, ratings: Ratings, beside: Beside) -> Quantity:
    """More than a sound panel gives: a colder one, as long as its lot does as it does, or another type.

    Where neither volts nor cells of the label were told, it may be a panel of that label with more cells.
    """
    if _may_have_more_cells(read, expected, ratings) and not _could_be_cooler(read, expected, ratings):
        causes = _of_the_label(ratings, ratings.voltage_known, "open-circuit voltage")
        return _quantity(VOC, Seen.CANNOT_TELL, read, expected, causes)
    if not _could_be_cooler(read, expected, ratings):
        told = _of_other_cells(read, expected, ratings) or cause("wrong_panel.voltage_high")
    elif beside.stands == "high":
        told = cause("wrong_panel.voltage_high")
    else:
        over_k = (read / expected.likely - 1.0) / (-ratings.voc_coefficient_pct_per_k.likely / 100.0)
        over_pct = round(100 * (read / expected.high - 1), 1)
        facts: dict[str, Fact] = {"over_pct": over_pct, "cooler_k": round(over_k)}
        facts |= {} if over_pct > 0 else {"over": "hardly"}
        return _quantity(VOC, Seen.CANNOT_TELL, read, expected, (cause("cooler_than_thought", **facts),))
    return _quantity(VOC, Seen.SUSPICIOUS, read, expected, (told,))


def _may_have_more_cells(read: float, expected: Between, ratings: Ratings) -> bool:
    """Are the cells only taken of the power, and could so many volts be those of any usual number of them?"""
    taken = not ratings.voltage_known and not ratings.cells_known
    return taken and read <= _USUAL_CELLS[-1] / ratings.cells_in_series.likely * expected.high


def current_of_more_cells(volts: float | None, voltage: Between, current: Between, ratings: Ratings) -> Between:
    """What current a sound panel drives whose volts tell of more cells than were taken: the rated power is the same."""
    if ratings.current_known or volts is None or volts <= voltage.high:
        return current
    if not _may_have_more_cells(volts, voltage, ratings):
        return current
    share = voltage.likely / volts
    return Between(low=share * current.low, likely=share * current.likely, high=current.high)


def _could_be_cooler(read: float, expected: Between, ratings: Ratings) -> bool:
    """Does it lie nearer to what is expected than to the next usual number of cells, and within what cold can do?"""
    cells, coefficient = ratings.cells_in_series.likely, ratings.voc_coefficient_pct_per_k.likely
    more = next((count for count in _USUAL_CELLS if count > round(cells)), None)
    over = read - expected.high
    if more is None or coefficient >= 0 or over > -coefficient / 100.0 * _COOLER_K * expected.likely:
        return False
    return over < abs(more / cells * expected.likely - read)


def _no_measure(beside: Beside, quantity: str) -> tuple[Cause, ...]:
    """Why the others do not tell whether this one is sound; empty where they do, or where there are none."""
    if beside.stands == "outdone":
        return (cause("most_outdone", quantity=quantity),)
    return (cause("lot_scatters"),) if beside.stands == "scattered" else ()


def _voltage_apart(read: float, expected: Between, door: Door, beside: Beside) -> Quantity:
    """A voltage within what is expected, and well below or above those of the others in the same light."""
    if beside.stands == "high":
        lot_v = beside.middle
        other = None if lot_v is None else _of_other_cells(read, Between.exactly(lot_v), door.ratings)
        return _higher(VOC, read, expected, other)
    told = _of_the_lot(read, beside, door.ratings)
    dull = () if told.code in _SEEN_IN_DULL_LIGHT else _too_low(door, LEAST_FOR_CURRENT_W_PER_M2)
    return _quantity(VOC, Seen.CANNOT_TELL if dull else Seen.SUSPICIOUS, read, expected, dull or (told,))


def judged_current(reading: PanelReading, expected: Between, door: Door, beside: Beside) -> Quantity | None:
    """What the short-circuit current says; None where it was not read.

    A panel that stands apart from its lot is suspicious whatever the daylight was thought to be; a lot that is low as
    a whole under a guessed light says that there was less of it.
    """
    read = reading.short_circuit_current_a
    if read is None:
        return None
    causes = (cause("shaded"),) if reading.shaded else no_daylight(door)
    if causes:
        causes = (*current_against_light(read, door), *causes)
        return _quantity(ISC, Seen.CANNOT_TELL, read, expected, causes)
    causes = light_causes(door, LEAST_FOR_CURRENT_W_PER_M2)
    if beside.stands in {"low", "high"}:
        return _current_apart(read, expected, door, beside, judged=not causes)
    if not causes and read < expected.low:
        return _low_current(read, expected, door, beside)
    if not causes and read > expected.high:
        return _high_current(read, expected, door, beside)
    if causes:
        causes = (*current_against_light(read, door), *causes)
    if not causes:
        causes = _no_measure(beside, "current")
    if not causes:
        causes = _of_the_label(door.ratings, door.ratings.current_known, "short-circuit current")
    # Those of a lot that agree are alike: what is shown of one is shown of all.
    shown = beside.middle if beside.stands == "agrees" and beside.middle is not None else read
    if not causes and shown < _PROVEN_SHARE * expected.high:
        causes = (cause("light_too_unsure", high=round(expected.high, 2), **_of_a_lot(beside)),)
    return _quantity(ISC, Seen.CANNOT_TELL if causes else Seen.AS_EXPECTED, read, expected, causes)


def _high_current(read: float, expected: Between, door: Door, beside: Beside) -> Quantity:
    """More than a sound panel gives in this light: there was more of it, unless no sun there is makes that of a label.

    The others of the lot are no higher or lower, else that would have been told.
    """
    if door.light.origin != "measured":
        told = cause("more_light_than_thought", **_of_a_lot(beside))
    elif in_any_sun(read, door):
        told = (current_against_light(read, door) or (cause("more_light_than_measured"),))[0]
    else:
        return _quantity(ISC, Seen.SUSPICIOUS, read, expected, (cause("wrong_panel.current_high"),))
    return _quantity(ISC, Seen.CANNOT_TELL, read, expected, (told,))


def _of_a_lot(beside: Beside) -> dict[str, Fact]:
    """A word where others of the lot were read, too, so that nobody is sent to read them."""
    return {} if beside.stands == "alone" else {"lot": "read"}


def no_contact(reading: PanelReading, what: str, expected: Between, door: Door, rounds: int, silent: int) -> Quantity:
    """A round that showed nothing beside others of the same panel that did (``rounds.rounds_of``).

    The best round proves that the circuit can be closed, so that no lost section or dead panel is told of the silent
    one; a joint that opens and closes is not ruled out either.
    """
    dark, name = no_daylight(door), "voltage" if what == VOC else "current"
    causes = dark or (cause("no_contact", quantity=name, silent=silent, rounds=rounds),)
    read: float = getattr(reading, what)
    return _quantity(what, Seen.CANNOT_TELL if dark else Seen.SUSPICIOUS, read, expected, causes)


def light_causes(door: Door, least_w_per_m2: float) -> tuple[Cause, ...]:
    """Why the light is no good for judging; empty where it is."""
    light, dark = door.light, no_daylight(door)
    if dark:
        return dark
    return (cause("light_not_known"),) if light.origin == "not_known" else _too_low(door, least_w_per_m2)


def _too_low(door: Door, least_w_per_m2: float) -> tuple[Cause, ...]:
    likely = door.light.w_per_m2.likely
    if likely >= least_w_per_m2:
        return ()
    return (_light_too_low(likely),)


def is_enough_light(door: Door) -> bool:
    """Is there light to judge both voltage and current by?"""
    return not light_causes(door, LEAST_FOR_CURRENT_W_PER_M2)


def no_daylight(door: Door) -> tuple[Cause, ...]:
    """Indoors, after sunset and without any light nothing is judged, whatever the meter shows; empty in daylight."""
    if door.light.origin == "indoors":
        return (cause("light_indoors"),)
    if door.light.w_per_m2.high > 0:
        return ()
    if door.light.origin == "sky":
        return (cause("sun_is_down"),)
    return (_light_too_low(0.0),)


def _light_too_low(w_per_m2: float) -> Cause:
    """One rule, told whole, whichever reading it keeps from being judged; rounded down, so that it never seems met."""
    gross, least = round(LEAST_FOR_VOLTAGE_W_PER_M2), round(LEAST_FOR_CURRENT_W_PER_M2)
    return cause("light_too_low", w_per_m2=floor(w_per_m2), least_for_gross_voltage=gross, least=least)


def no_voltage(read: float, expected: Between) -> bool:
    """Is that no reading at all rather than a low one?"""
    return read < LEAST_SHARES[VOC] * expected.likely


def _of_the_label(ratings: Ratings, known: bool, quantity: str) -> tuple[Cause, ...]:
    """Why the rating proves nothing; empty where it was read and suits the others."""
    if not known:
        return (cause("rating_not_known", quantity=quantity),)
    return () if ratings.doubt is None else (cause("label_doubtful", doubt=ratings.doubt),)


def _low_current(read: float, expected: Between, door: Door, beside: Beside) -> Quantity:
    askew = door.light.askew_w_per_m2
    open_, told = False, _current_low(read, expected)
    if read < LEAST_SHARES[ISC] * expected.likely:
        open_, told = (True, cause("no_current_on_any")) if beside.stands == "silent" else (False, cause("no_current"))
    elif door.light.guessed and (unsure := _no_measure(beside, "current")):
        open_, told = True, unsure[0]
    elif door.light.guessed and beside.stands == "agrees":
        open_, told = True, cause("whole_lot_low" if beside.all_alike else "measure_low")
    elif askew is not None and read >= expected.low * askew / max(door.light.w_per_m2.low, 1e-9):
        open_, told = True, cause("turned_to_the_sun")
    return _quantity(ISC, Seen.CANNOT_TELL if open_ else Seen.SUSPICIOUS, read, expected, (told,))


def _low_voltage(read: float, expected: Between, door: Door, beside: Beside) -> tuple[Cause, ...]:
    """What a voltage below the range says: of panels that agree the same, of one below its lot by the lot, too.

    A lot of another type, or one that is sick itself, hides no lost section of the one that lies below it.
    """
    if no_voltage(read, expected):
        return (cause("no_reading"),)
    lot_v = beside.middle if beside.stands in {"agrees", "low"} else None
    if lot_v is not None and beside.stands == "agrees":
        return (_of_low_voltage(read, lot_v, expected, door),)
    own = _of_low_voltage(read, read, expected, door)
    if lot_v is None or own.code == "bypass_section_lost":
        return (own,)
    of_lot = _of_the_lot(read, beside, door.ratings)
    lost = of_lot.code == "bypass_section_lost"
    if lot_v >= expected.low:
        return (of_lot if lost else own,)
    mates = _of_low_voltage(read, lot_v, expected, door)
    if lost and mates.code != "bypass_section_lost":
        return cause(of_lot.code, **of_lot.facts, among="mates"), _of_mates(mates)
    return _lower("voltage", beside), _of_mates(mates)


def _of_mates(told: Cause) -> Cause:
    """The same, said of the others rather than of the panel where it holds for them alone."""
    return cause(told.code, **told.facts, among="mates") if told.code == "wrong_panel.other_cells" else told


def _of_low_voltage(read: float, about: float, expected: Between, door: Door) -> Cause:
    """By the label alone; ``about``: the voltage that tells the kind, its own or that of the lot it agrees with."""
    kind = None
    if about < expected.low:
        kind = _of_lost_sections(about, expected, door.ratings) or _of_other_cells(about, expected, door.ratings)
    return kind or _voltage_low(read, expected, door)


def _voltage_low(read: float, expected: Between, door: Door) -> Cause:
    """Heat is named as long as the hottest cells could make up what the range leaves unexplained."""
    hotter_k = max(_HOTTEST_C - door.cell_c.likely, 0.0)
    hot_v = expected.low + door.ratings.voc_coefficient_pct_per_k.low / 100.0 * hotter_k * expected.likely
    heat = {} if read >= hot_v else {"heat": "no"}
    return cause("voltage_low", missing_pct=round(100 * (1 - read / expected.likely), 1), **heat)


def _of_the_lot(read: float, beside: Beside, ratings: Ratings) -> Cause:
    """A panel that the others outdo in the same light: sections lost where the volts show it."""
    lot_v = beside.middle
    if lot_v is not None:
        slack = LABEL_VOLTAGE_SHARE + METER_VOLTAGE_SHARE
        sound = Between(low=(1 - slack) * lot_v, likely=lot_v, high=(1 + slack) * lot_v)
        lost = _of_lost_sections(read, sound, ratings)
        if lost is not None:
            return lost
    return _lower("voltage", beside)


def _lower(quantity: str, beside: Beside) -> Cause:
    """Lower than the measure of the lot; where most are, that is told."""
    return cause("lower_than_the_lot", quantity=quantity, **({"among": "most"} if beside.most_low else {}))


def _current_apart(read: float, expected: Between, door: Door, beside: Beside, *, judged: bool) -> Quantity:
    """Well below or above the others in the same light; ``judged``: can it be, by what is expected?

    Where these lack something themselves by a light that was measured well, that is told of each.
    """
    if beside.stands == "high":
        other = cause("wrong_panel.current_high") if judged and read > expected.high else None
        return _higher(ISC, read, expected, other)
    lot_a = beside.middle or 0.0
    if read < LEAST_SHARES[ISC] * (lot_a or expected.likely):
        return _quantity(ISC, Seen.SUSPICIOUS, read, expected, (cause("no_current"),))
    all_low = judged and not door.light.guessed and max(read, lot_a) < expected.low
    told = (_lower("current", beside), _current_low(read, expected)) if all_low else (_lower("current", beside),)
    return _quantity(ISC, Seen.SUSPICIOUS, read, expected, told)


def _current_low(read: float, expected: Between) -> Cause:
    return cause("current_low", missing_pct=round(100 * (1 - read / expected.likely)))


def _higher(what: str, read: float, expected: Between, other: Cause | None) -> Quantity:
    """What the others do not reach in the same light: another panel, or more light just then."""
    name = "voltage" if what == VOC else "current"
    told = other or cause("higher_than_the_lot", quantity=name)
    return _quantity(what, Seen.CANNOT_TELL if other is None else Seen.SUSPICIOUS, read, expected, (told,))


def _of_lost_sections(read: float, expected: Between, ratings: Ratings) -> Cause | None:
    sections = round(ratings.sections.likely)
    for lost in range(1, sections):
        share = (sections - lost) / sections
        if share * expected.low <= read <= share * expected.high:
            return cause("bypass_section_lost", lost=lost, sections=sections)
    return None


def _of_other_cells(read: float, expected: Between, ratings: Ratings) -> Cause | None:
    """Does the voltage suit a panel with another usual number of cells, and by far better than this one?"""
    cells = ratings.cells_in_series.likely
    fits = cells * read / expected.likely
    nearest = min(_USUAL_CELLS, key=lambda count: abs(count - fits))
    if cells > _USUAL_CELLS[-1] or nearest == round(cells) or abs(nearest / fits - 1) > 0.04:
        return None
    return cause("wrong_panel.other_cells", cells=nearest, label_cells=round(cells))


def _quantity(what: str, verdict: Seen, read: float, expected: Between, causes: tuple[Cause, ...]) -> Quantity:
    return Quantity(
        what=what, verdict=verdict, measured=read, low=expected.low, high=expected.high,
        unit="V" if what == VOC else "A", causes=causes,
    )  # fmt: skip
