"""Which limit of an inverter is each figure?"""

from collections.abc import Set
from itertools import takewhile

from service.core.adverts.corrected import told_otherwise
from service.core.adverts.direct import GRID_V, of_the_grid
from service.core.adverts.figures import Found, is_greatest, name_of, owner_of
from service.core.adverts.flows import amperes_of_input, by_another, watts_go_in
from service.core.adverts.inverter_tables import limits_in_tables
from service.core.adverts.ratings_of_others import at_most
from service.core.adverts.scene import Scene, numbers
from service.core.adverts.two_models import careful_of_two
from service.core.adverts.unequal import keep, lower_of
from service.core.adverts.used_with import named_for_panels, of_panels_beside
from service.core.adverts.volt_ranges import LEAST_WINDOW, end_of_range
from service.core.adverts.volts_of_others import borne_by_others, follows_others
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item
from service.core.adverts.whose import kills
from service.core.adverts.whose_ratings import of_something_else

_WINDOW_NAMES = ("tracking", "input_range", "system", "battery", "ac_out", "between")
_BATTERY_V = 60.0
_MOST_INPUTS = 8
_INPUTS = frozenset(("inputs", "tracking", "max_in", "input_range"))
_TAKEN = PANELS | _INPUTS | {"dc_power"}
_OF_INPUTS, _OPEN, _INTO = frozenset(("max_in", "start")), frozenset(("voc",)), frozenset(("isc", "input_current"))
_OUTPUT = frozenset(("ac_out", "limited"))
_TO = frozenset(("range", "between"))
_PARTS = frozenset((",", ")", "+", ";"))
_CURRENTS = frozenset(("isc", "imp", "input_current", "max_sc"))
_FARTHEST, _NAME_BEHIND, _NEAR_BEFORE = 9, 2, 6
_MOST_PEAK = 1.5  # times the rated power


def inverter_figures(scene: Scene, kind: str, own: Set[int] = frozenset()) -> Found:
    """Limits of one inverter. ``own``: places of the currents and open voltages of a set that are."""
    found, in_tables = limits_in_tables(scene, kind)
    highs: set[int] = set()
    counted, deadly = scene.tells("inputs", "tracking"), scene.tells("d:dead")
    of_all, total_of = told_otherwise(scene, kind)
    panels = kind == "inverter" and scene.tells(*PANELS, "dc_power")
    for place in numbers(scene) if not in_tables else sorted({*numbers(scene)} - in_tables):
        item = scene.items[place]
        if place in highs or place in of_all:
            continue
        total = total_of.get(place)  # its name is that of what it is a part of
        if total is not None and item.unit != "W":
            of_one: Found = {}
            _volts_or_amperes(scene, total, of_one, kind=kind, owned=kind == "inverter" or total in own, deadly=deadly)
            for name, (_, _, sure) in of_one.items():
                keep(found, name, item, sure)
        elif item.unit == "W":
            _ac(scene, place, item, kind, found)
        elif panels and item.unit in {"V", "A"} and of_panels_beside(scene, place, item):
            continue
        elif item.unit in {"V", ""} and (high := end_of_range(scene, place)) is not None:
            highs.add(high)
            _window(scene, place, high, found)
        elif item.unit in {"V", "A"}:
            _volts_or_amperes(scene, place, found, kind=kind, owned=kind == "inverter" or place in own, deadly=deadly)
        elif item.unit == "" and counted:
            _inputs(scene, place, item, found)
    lower_of(scene, found)
    careful_of_two(scene, kind, found)
    _twofold(scene, found)
    for low, high_name in (("operating_min", "tracking_min"), ("operating_max", "tracking_max")):
        if low in found:
            found.setdefault(high_name, found.pop(low))
    _count_inputs(found)
    return found


def _volts_or_amperes(scene: Scene, place: int, found: Found, *, kind: str, owned: bool, deadly: bool) -> None:
    """``owned``: it is a figure of the inverter, if it has such a name as panels have, too."""
    item = scene.items[place]
    if item.unit == "V":
        of_others = _limit_v(scene, place, item, found, kind=kind, deadly=deadly)
        if owned and not of_others:
            _named_as_panels(scene, place, item, found, kind)
    elif owned and not follows_others(scene, place, item):
        _current(scene, place, item, found)


def _count_inputs(found: Found) -> None:
    """Trackers count before inputs, and both before how many each of them has."""
    if "trackers" in found:
        found["inputs"] = found.pop("trackers")
    for name in ("trackers_each", "inputs_each"):
        each = found.pop(name, None)
        if each is not None:
            found.setdefault("inputs", each)


def volts_of_windows(scene: Scene) -> frozenset[int]:
    """Places of the ends of ranges of volts, which are no ratings of a panel."""
    found: set[int] = set()
    for place in numbers(scene) if "V" in scene.units else []:
        low = scene.items[place]
        high = end_of_range(scene, place) if low.unit in {"V", ""} else None
        if high is not None and scene.items[high].value >= LEAST_WINDOW * low.value:
            found |= {place, high}
    return frozenset(found)


def _limit_v(scene: Scene, place: int, item: Item, found: Found, *, kind: str, deadly: bool) -> bool:
    """Keeps a limit; returns whether greatest volts are those of something else than an input."""
    name = name_of(scene, place, _OF_INPUTS)
    if name is None and deadly and kills(scene, place):
        name = "max_in"
    if name == "max_in":
        if of_the_grid(scene, place, item):
            return False
        if borne_by_others(scene, place, item, kind):
            return True
    if name and not (item.value in {230.0, 240.0, 120.0, 400.0} and "system" in _before(scene, place)):
        keep(found, name, item)
    return False


def _named_as_panels(scene: Scene, place: int, item: Item, found: Found, kind: str) -> None:
    """As in "max. open voltage 60 V", and "Umax 60 V" of an inverter."""
    named = "vmp" in scene.by_what and is_greatest(scene, place, item)
    if named and not of_the_grid(scene, place, item) and not borne_by_others(scene, place, item, kind):
        keep(found, "max_in", item, 0.9)
    if "voc" in scene.by_what and name_of(scene, place, _OPEN) and at_most(scene, place, item):
        keep(found, "max_in", item)


def _before(scene: Scene, place: int, since: str | None = None) -> list[str]:
    """What stands before a figure, nearest first, back to the last figure of a unit."""
    item = scene.items[place]
    near = takewhile(lambda one: since is None or one.unit != since, scene.back(place, 6))
    return [one.what for one in near if item.at - one.to <= _NEAR_BEFORE]


def _ac(scene: Scene, place: int, item: Item, kind: str, found: Found) -> None:
    """Continuous output: a limit that holds it down counts, a peak and what panels may have do not."""
    if item.peak or item.value < 100 or (kind == "set" and owner_of(scene, place) != "inverter"):
        return
    behind = [one for one in scene.ahead(place, 3) if one.at - item.to <= 3]
    if any(one.what in {"panel_one", "panel_many"} and one.clause == item.clause for one in behind[:1]):
        return
    if of_panels_taken(scene, place) or (_times(scene, item) and _counted_panels(scene, place, item, kind)):
        return
    if watts_go_in(scene, place) or _raised_by_another(scene, item, found):
        return
    before = [one.what for one in scene.back(place, 6) if item.at - one.to <= 4 and one.clause == item.clause]
    if (
        {"surge", "dc_power"} & set(before[:2])
        or {"panel_one", "panel_many"} & set(before[:1])
        or any(one.what == "surge" and one.clause == item.clause and one.at - item.to <= 1 for one in behind)
    ):
        return
    if "limited" in before or ("without" not in before and any(
        one.what == "limited" and one.at - item.to <= 1 and one.clause == item.clause for one in behind
    )):  # fmt: skip
        found["ac_power"] = (item.value, item, 0.9)
    elif "switchable" in scene.by_what and "ac_power" in found:
        if found["ac_power"][0] < item.value:
            found["ac_power"] = (item.value, item, 0.9)
    elif "rated" in scene.by_what and "ac_power" in found and _is_rated(item, before, behind):
        if item.value < found["ac_power"][0] <= _MOST_PEAK * item.value:
            found["ac_power"] = (item.value, item, 0.95)
    elif item.glued != "-":
        keep(found, "ac_power", item, 0.95)


def _raised_by_another(scene: Scene, item: Item, found: Found) -> bool:
    """Is it more than what it puts out, and only a maker or an installer sets it so?"""
    return "ac_power" in found and found["ac_power"][0] < item.value and by_another(scene, item)


def _is_rated(item: Item, before: list[str], behind: list[Item]) -> bool:
    """Is it called the rated power, so that a greater one is a peak: "max. 880 VA, rated 800 VA"?"""
    near = [one for one in behind[:2] if one.at - item.to <= 1 and one.clause == item.clause]
    return "rated" in takewhile(NUMBER.__ne__, before) or any(one.what == "rated" for one in near)


def of_panels_taken(scene: Scene, place: int) -> bool:
    """Are they the watts of panels, or of inputs, that stand before them: "for 4 panels of up to 500 W"?"""
    if _TAKEN.isdisjoint(scene.near(place, 10, 0)):
        return False
    item = scene.items[place]
    named = any(one.what in INVERTERS and one.at - item.to <= 3 for one in scene.ahead(place, 2))
    if named or _put_out(scene, item):
        return False
    each = _a_piece(scene, place, item)
    repeated = each or _times(scene, item)
    behind: Item | None = None  # what stands behind the one that is looked at
    for one in scene.back(place, 10):
        if item.at - one.to > _FARTHEST or not (each or _in_reach(scene, one, item)):
            return False
        if one.what in _TAKEN and (
            one.what not in _INPUTS
            or repeated
            or not scene.small.an_input.isdisjoint(scene.tokens[one.field][one.at : one.to])
        ):
            return True
        powers = one.what == NUMBER and one.unit == "W" and not (behind is not None and behind.what in _TO)
        if powers or one.what in _OUTPUT or one.what in INVERTERS:
            return False
        behind = one
    return False


def _a_piece(scene: Scene, place: int, item: Item) -> bool:
    """Is it said to be the power of each of several?"""
    near = [one for one in scene.back(place, 4) if item.at - one.to <= 2 and one.clause == item.clause]
    near += [one for one in scene.ahead(place, 2) if one.at - item.to <= 1 and one.clause == item.clause]
    return any(one.what == "each" for one in near)


def _times(scene: Scene, item: Item) -> bool:
    """As in "2 x 500 W"."""
    tokens = scene.tokens[item.field]
    return item.at > 1 and tokens[item.at - 1] == "x" and tokens[item.at - 2].isdigit()


def _counted_panels(scene: Scene, place: int, item: Item, kind: str) -> bool:
    """Are the watts behind an x those of panels: of inputs, of what an inverter is for, in a set all but inverters'?"""
    if kind == "set" and not any(scene.stands(what, item.field, item.to) for what in INVERTERS):
        return True
    taken = any(one.what in {"for", "takes"} and one.to == item.at - 2 for one in scene.back(place, 3))
    return taken or _goes_in(scene, item)


def _goes_in(scene: Scene, item: Item) -> bool:
    """Does a word for an input stand directly behind it: "2 x 500 W input"?"""
    return "".join(scene.tokens[item.field][item.to : item.to + 1]).startswith(scene.small.input_begins)


def _in_reach(scene: Scene, one: Item, item: Item) -> bool:
    """Do both stand in one clause, or does only a bracket open between them?"""
    return one.clause == item.clause or (
        (between := scene.tokens[item.field][one.to : item.at]).count("(") == 1 and not _PARTS.intersection(between)
    )


def _put_out(scene: Scene, item: Item) -> bool:
    """Does a word for an output stand beside it, with nothing but words between?"""
    tokens = scene.tokens[item.field]
    near = (*reversed(tokens[max(item.at - 3, 0) : item.at]), "", *tokens[item.to - 1 : item.to + 3])
    before, behind = near[: near.index("")], near[near.index("") + 1 :]
    for words in (before, behind):
        for word in words:
            if word in scene.small.put_out:
                return True
            if not word.isalpha():
                break
    return False


def _window(scene: Scene, place: int, high: int, found: Found) -> None:
    low_item, high_item = scene.items[place], scene.items[high]
    if GRID_V[0] <= high_item.value <= GRID_V[1] and (low_item.value >= GRID_V[0] or low_item.value <= _BATTERY_V):
        return  # of the grid, or from a battery to the grid: "12 V to 230 V"
    names = [one.what for one in scene.back(place, 8) if low_item.at - one.to <= 9 and one.what in _WINDOW_NAMES
             and (one.clause == low_item.clause or one.what in {"tracking", "input_range"})]  # fmt: skip
    name = next((one for one in names if one != "between"), None)
    if name is None:
        if high_item.value < LEAST_WINDOW * low_item.value:
            return
        name = _name_behind(scene, high, high_item)
    if name in {"system", "battery", "ac_out"}:
        return
    prefix = "tracking" if name == "tracking" else "operating"
    keep(found, f"{prefix}_min", low_item, 0.9)
    keep(found, f"{prefix}_max", high_item, 0.9)


def _name_behind(scene: Scene, high: int, high_item: Item) -> str:
    """The name behind a range, where it does not head figures of its own: "16-60 V, MPPT 29-48 V"."""
    ahead = scene.ahead(high, 3)
    if not ahead or ahead[0].at - high_item.to > 2 or ahead[0].what not in _WINDOW_NAMES:
        return "input_range"
    own = any(one.at - ahead[0].to <= 2 and end_of_range(scene, high + 2 + step) for step, one in enumerate(ahead[1:])
              if one.what == NUMBER)  # fmt: skip
    return "input_range" if own else ahead[0].what


def _current(scene: Scene, place: int, item: Item, found: Found) -> None:
    before = _before(scene, place, since="A")
    behind = [one.what for one in scene.ahead(place, 2) if one.at - item.to <= 2]
    if {"ac_out", "system", "battery"} & {*before[:3], *behind[:1]} or of_something_else(scene, place, item):
        return
    if _put_out(scene, item) or not amperes_of_input(scene, place, item):
        return
    name = name_of(scene, place, _INTO)
    own = _heads_its_own(scene, place, item)  # "16 A, Isc 20 A": behind it stands the name of another one
    named_behind = any(one.what == "max_sc" and one.clause == item.clause and one.at - item.to <= _NAME_BEHIND
                       for one in scene.ahead(place, 2))  # fmt: skip
    if name == "isc" and scene.tells(*PANELS) and named_for_panels(scene, place):
        name = None
    short = (not own and (name == "isc" or named_behind)) or before[:1] == ["max_sc"]
    keep(found, "max_short_circuit" if short else "max_current", item, 0.9)


def _heads_its_own(scene: Scene, place: int, item: Item) -> bool:
    """Does the name behind a current stand before a current that has no other one: "2 x 16 A Isc max 2 x 20 A"?"""
    ahead = [one for one in scene.ahead(place, 6) if one.what != "max_sc"]  # a further meaning of the same word
    if not ahead or ahead[0].what != "isc" or ahead[0].at - item.to > _NAME_BEHIND:
        return False
    to = ahead[0].to
    for at, one in enumerate(ahead[1:], 1):
        if one.clause != ahead[0].clause or one.at - to > _NAME_BEHIND:
            return False
        if one.unit == "A":
            named = [more for more in ahead[at + 1 : at + 2] if more.at - one.to <= 1 and more.clause == one.clause]
            return not any(more.what in _CURRENTS for more in named)
        if one.what not in {NUMBER, "max_in", "input_current"} or one.unit:
            return False
        to = one.to
    return False


def _inputs(scene: Scene, place: int, item: Item, found: Found) -> None:
    """Independent trackers before inputs."""
    if not 1 <= item.value <= _MOST_INPUTS or item.value != int(item.value):
        return
    before = scene.before(place)
    if before is not None and before.what == "inputs" and scene.tokens[item.field][before.to : item.at] == [":"]:
        keep(found, "inputs", item)
        return
    for one in scene.ahead(place, 3):
        if one.at - item.to > 2 or one.clause != item.clause or one.what == NUMBER:
            break
        if one.what in {"inputs", "tracking"}:
            if item.value == 1 and _of_each(scene, place, item, one):
                return
            if not (item.spelled and item.value == 1 and _spoilt(scene, item.sentence)):
                word = scene.tokens[one.field][one.at]
                tracked = one.what == "tracking" or word.startswith(scene.small.tracker)
                name = "trackers" if tracked else "inputs"
                keep(found, f"{name}_each" if _of_each(scene, place, item, one) else name, item)
            return


def _of_each(scene: Scene, place: int, item: Item, name: Item) -> bool:
    """Is it how many each input has: "one tracker per input", "each with one tracker"?"""
    tokens, words = scene.tokens[item.field], scene.small.for_each
    before = takewhile(lambda word: word not in _PARTS, reversed(tokens[max(item.at - 3, 0) : item.at]))
    if not words.isdisjoint(before):
        return True
    behind = takewhile(lambda at: tokens[at] not in _PARTS, range(name.to, min(name.to + 2, len(tokens))))
    at = next((at for at in behind if tokens[at] in words), 0)
    return at > 0 and not any(one.what == NUMBER and one.at == at + 1 for one in scene.ahead(place, 6))


def _spoilt(scene: Scene, sentence: int) -> bool:
    """Is a dead input spoken of there, so that "one" is no number of inputs?"""
    return scene.in_sentence(sentence, "d:dead") or scene.in_sentence(sentence, "d:dead_input")


def _twofold(scene: Scene, found: Found) -> None:
    """Two by one word: dual, double."""
    for at in scene.by_what.get("twofold", []):
        item = scene.items[at]
        behind = next((one for one in scene.ahead(at, 3) if one.what in {"inputs", "tracking"}), None)
        if behind is not None and behind.at - item.to <= 1:
            found.setdefault("trackers" if behind.what == "tracking" else "inputs", (2.0, item, 0.9))
