"""By how much do volts and watts change with each degree? A figure goes with the name before it or behind it."""

from collections.abc import Iterable

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

Found = dict[str, tuple[float, Item, float]]

UNITS = frozenset(("%/K", "V/K"))
_OF_UNIT = frozenset((*UNITS, "A/K"))
_NAMED = frozenset(("voc", "isc", "power", "vmp", "imp", "coef_voltage"))
_BEHIND = frozenset(("voc", "isc", "power", "coef_voltage"))
_GREATEST_PCT = 1.0  # of a panel: some 0.25 to 0.5 of volts and watts, 0.05 of amperes
_TO_NAME, _TO_HEADING, _FAR, _TO_CURRENT = 3, 40, 8, 4
_MEANINGS = 4  # at most, of one word
_BESIDE_NAME = frozenset("()[]:=+-")


def bare_coefficients(scene: Scene) -> set[int]:
    """Places of figures without a unit that are such: "temp coeff: Isc 0.05, Voc -0.27, Pmax -0.34 %/C"."""
    found: set[int] = set()
    for heading in scene.by_what.get("coefficient", []):
        head = scene.items[heading]
        for step, one in enumerate(scene.ahead(heading, 24), 1):
            if one.at - head.to > _TO_HEADING:
                break
            if one.what != NUMBER:
                continue
            if one.unit in _OF_UNIT:
                continue
            name = _name_before(scene, heading + step)
            named = (name is not None and one.at - name.to <= _TO_NAME) or _of_current(scene, one)
            if one.unit or not named or one.value > _GREATEST_PCT or one.spelled:
                break
            found.add(heading + step)
    return found


def _name_before(scene: Scene, place: int) -> Item | None:
    """The name directly before a place, among the meanings of one word."""
    last = scene.items[place - 1]
    for one in reversed(scene.items[max(place - _MEANINGS, 0) : place]):
        if one.at != last.at or one.field != last.field:
            return None
        if one.what in _NAMED:
            return one
    return None


def keep_coefficients(scene: Scene, places: Iterable[int], bare: Iterable[int], found: Found) -> None:
    """Keeps those of the open voltage and the power, told with a unit at ``places`` and without at ``bare``."""
    for place in places:
        _coefficient(scene, place, scene.items[place], found)
    for place in bare:
        _bare(scene, place, found)


def _bare(scene: Scene, place: int, found: Found) -> None:
    """Keeps one without a unit where the sentence tells the unit for them all."""
    item, told = scene.items[place], _name_before(scene, place)
    if told is None or _of_current(scene, item):
        return
    units = scene.units.get("%/K", [])
    if not any(scene.items[at].sentence == item.sentence for at in units):
        return
    if told.what in {"voc", "coef_voltage", "power"}:
        key = "power_coefficient" if told.what == "power" else "voc_coefficient"
        found.setdefault(key, (-abs(item.value), item, 0.9))


def _coefficient(scene: Scene, place: int, item: Item, found: Found) -> None:
    """Keeps what a figure of a coefficient tells of the open voltage or the power."""
    if _of_current(scene, item):
        return
    ahead_of = scene.back(place, 4)
    near = [one for one in ahead_of if one.what in _NAMED]
    behind = [one for one in scene.ahead(place, 2) if one.what in _BEHIND and one.at - item.to <= 2]
    before = [one for one in near if item.at - one.to <= _FAR]
    taken = next((one for one in ahead_of if one.unit in _OF_UNIT), None)
    if taken is not None:
        before = [one for one in before if one.at > taken.at]
    own = [one for one in behind if one.clause == item.clause]
    if (
        before
        and taken is not None
        and before[-1].at - taken.to <= 2
        and behind
        and (own or before[0].clause != item.clause)
        and not _names_lead(scene, place)
    ):
        before = []
    one = before[0] if before else behind[0] if behind else None
    if one is None:
        return
    if one.what in {"voc", "coef_voltage"}:
        voc = found.get("voc")
        if item.unit == "V/K" and voc is None:
            return
        value = 100 * item.value / voc[0] if item.unit == "V/K" and voc else item.value
        found.setdefault("voc_coefficient", (-abs(value), item, 0.95))
    elif one.what == "power" and item.unit == "%/K":
        found.setdefault("power_coefficient", (-abs(item.value), item, 0.95))


def _of_current(scene: Scene, item: Item) -> bool:
    """Does a word for a current stand directly before it, at most in brackets: "current 0.05", "(current): +0.05"?"""
    tokens = scene.tokens[item.field]
    for at in range(item.at - 1, max(item.at - 1 - _TO_CURRENT, -1), -1):
        if tokens[at] not in _BESIDE_NAME:
            return tokens[at].startswith(scene.small.currents)
    return False


def _names_lead(scene: Scene, place: int) -> bool:
    """Does a name stand directly before the first coefficient of the sentence, so that each has its own before it?"""
    row = [at for at in range(place, max(place - 12, -1), -1) if scene.items[at].unit in _OF_UNIT
           and scene.items[at].sentence == scene.items[place].sentence]  # fmt: skip
    first = row[-1]
    if _of_current(scene, scene.items[first]):
        return True
    one = scene.before(first)
    return one is not None and one.what in _NAMED and scene.items[first].at - one.to <= _TO_NAME
