"""Which rating of a panel is each figure? A figure belongs to the name that waits for it, or to the one behind it."""

from collections.abc import Set
from itertools import pairwise

from service.core.adverts.by_meter import read_by_meter
from service.core.adverts.coefficients import UNITS as COEFFICIENT_UNITS
from service.core.adverts.coefficients import bare_coefficients, keep_coefficients
from service.core.adverts.conditions import at_other_conditions
from service.core.adverts.corrected import told_otherwise
from service.core.adverts.missing_inverters import watts_of_missing
from service.core.adverts.multiples import multiplied
from service.core.adverts.pairs import figures_first
from service.core.adverts.rated_powers import without_up_to
from service.core.adverts.ratings_of_others import of_inverters_input
from service.core.adverts.scene import Scene, in_order, numbers
from service.core.adverts.sides import keep_size, of_a_wrapping
from service.core.adverts.sorts import of_one_sort, without_totals
from service.core.adverts.tables import below_names, in_columns
from service.core.adverts.two_conditions import conditions_behind, of_two_conditions
from service.core.adverts.unequal import keep_of_label, leave_out_unsure
from service.core.adverts.walk import INVERTERS, NUMBER, Item

Found = dict[str, tuple[float, Item, float]]

UNIT_OF = {"voc": "V", "isc": "A", "vmp": "V", "imp": "A", "max_in": "V", "start": "V", "input_current": "A",
           "output_current": "A"}  # fmt: skip
_HEADINGS = UNIT_OF.keys() | {"power"}
_NAMED = UNIT_OF.keys() | {"mpp_point"}
_RATINGS = frozenset(("voc", "isc", "vmp", "imp"))
_OWNERS = {"panel_one": "panel", "panel_many": "panel", "inverter_one": "inverter", "inverter_many": "inverter"}
_MORE = frozenset(("surge", "dc_power"))
_OF_MORE = _MORE | {"lot"}
_PARTING = frozenset((NUMBER, "plus", "for", "because", "used_beside"))
_OF_CELLS = frozenset(("cells", "half"))
_AT_POINT = {"V": "vmp", "A": "imp"}
_OF_PANELS = ("W", "kg", "%/K", "V/K")
_OF_NAMED_PANELS = (*_OF_PANELS, "V", "A")
_LONGEST_OTHER_MM = 6000.0
_REACH, _LIKE_SHARE = 8, 0.03
_TO_DEGREES = 4
_HEAVIEST_KG = 80
_MOST_POWERS = 4  # further ones say nothing new
_LEAST_HALVES = 100  # modules of half cells have 108 and more; 54 "half-cut cells" are 54 in series
_GREATEST = frozenset(("umax",))
_HALVES = frozenset((108.0, 110.0, 120.0, 126.0, 132.0, 144.0, 156.0))
_BOUNDS = {"V": (5.0, 1500.0), "A": (0.2, 30.0)}  # below: a coefficient


def other_figures(scene: Scene) -> Found:
    """Size and weight of goods that are no panels."""
    found: Found = {}
    for place in numbers(scene):
        item = scene.items[place]
        if item.unit == "kg" and 0.1 <= item.value < 200:
            _keep(found, "weight", item.value, item, 0.9)
    keep_size(scene, found, _LONGEST_OTHER_MM)
    return found


def panel_figures(scene: Scene, kind: str, others: Set[int] = frozenset()) -> tuple[Found, bool]:
    """Ratings, size, weight, cells and coefficients of one panel; and whether two powers exclude each other.

    ``others``: places of figures that are an inverter's, or may be.
    """
    found: Found = {}
    powers: list[Item] = []
    coefficients: list[int] = []
    together, bare = told_otherwise(scene, kind), bare_coefficients(scene)
    gone = _at_standard(scene, _no_ratings(scene, kind, found) | others | together.of_all | bare, found)
    known = scene.by_what.keys()
    named, counted = not known.isdisjoint(_NAMED), "cells" in known or "half" in known
    if ratings := scene.places(_RATINGS):
        gone |= in_columns(scene, found)
        gone |= below_names(scene, ratings, found)
        gone |= figures_first(scene, found, gone)
        _rows(scene, ratings, found, gone)
    in_rows = [one[1] for one in found.values()]
    rows = [scene.units[unit] for unit in (_OF_NAMED_PANELS if named else _OF_PANELS) if unit in scene.units]
    for place in in_order([*rows, _bare(scene, near_cells=counted)]):
        if place in gone:
            continue
        item = scene.items[place]
        unit, before = item.unit, scene.whats[place - 1]
        if unit in _BOUNDS:
            _rating(scene, together.total_of.get(place, place), item, found, in_rows)
        elif unit == "W" or (not unit and before == "power" and _named_power(scene, place, item)):
            if len(powers) < _MOST_POWERS and _is_power(scene, place, item, kind):
                powers.append(item)
        elif not unit:
            in_cells = counted and _cells(scene, place, item, found)
            if not in_cells and before in UNIT_OF and not item.spelled:  # it stands behind the name of a rating
                _rating(scene, place, item, found, in_rows)
        elif unit in COEFFICIENT_UNITS:
            coefficients.append(place)
        elif kind == "panel" and 1 <= item.value < _HEAVIEST_KG and not of_a_wrapping(scene, place, item):
            _keep(found, "weight", item.value, item, 0.95)
    leave_out_unsure(found)
    if "Hz" in scene.units and "cells" not in found:
        _halves(scene, found)
    keep_coefficients(scene, coefficients, sorted(bare), found)
    keep_size(scene, found)
    powers = without_up_to(scene, without_totals(scene, powers))
    return found, _choose(scene, of_one_sort(scene, kind, powers, found), found)


def _bare(scene: Scene, *, near_cells: bool) -> list[int]:
    """Places of the figures without a unit that stand behind a heading for one; or near cells, where these count."""
    bare, whats = scene.units.get("", []), scene.whats
    if not near_cells:
        return [place for place in bare if whats[place - 1] in _HEADINGS]
    near = {at for what in _OF_CELLS for told in scene.by_what.get(what, []) for at in range(told - 4, told + 2)}
    return [place for place in bare if whats[place - 1] in _HEADINGS or place in near]


def _keep(found: Found, name: str, value: float, item: Item, sure: float) -> None:
    found.setdefault(name, (value, item, sure))


def _no_ratings(scene: Scene, kind: str, found: Found) -> set[int]:
    """Places of what a meter shows, of what holds at other conditions, of limits of inverters; keeps a label's own."""
    shown, labelled = read_by_meter(scene)
    for name, place in labelled.items():
        if _fits(name, scene.items[place]):
            _keep(found, name, scene.items[place].value, scene.items[place], 0.9)
    gone = _elsewhere(scene) | shown
    if kind == "panel" and "s:missing" in scene.by_what:
        gone |= watts_of_missing(scene)
    return gone | of_inverters_input(scene) if kind == "panel" and scene.tells(*INVERTERS) else gone


def _tells_degrees(scene: Scene, one: Item) -> bool:
    """Is it only told how warm cells get then: "NOCT 45 °C", "NOCT 45 C"?"""
    behind = scene.tokens[one.field][one.to : one.to + _TO_DEGREES]
    return "°" in behind or any(number.isdigit() and scale in scene.small.celsius for number, scale in pairwise(behind))


def _elsewhere(scene: Scene) -> set[int]:
    """Figures at other conditions."""
    gone = at_other_conditions(scene)
    if "elsewhere" not in scene.by_what:
        return gone
    for place in numbers(scene):
        item = scene.items[place]
        if not scene.in_sentence(item.sentence, "elsewhere"):
            continue
        told = conditions_behind(scene, place, item)
        if told == "elsewhere":
            gone.add(place)
        for one in scene.back(place, 20) if told is None else []:
            if one.what == "standard":
                break
            if one.what == "elsewhere" and not _tells_degrees(scene, one):
                gone.add(place)
                break
    return gone


def _at_standard(scene: Scene, gone: set[int], found: Found) -> set[int]:
    """Keeps of pairs of figures those at standard conditions; places of the figures that are not to be read."""
    if "elsewhere" not in scene.by_what:
        return gone
    gone_too, standard = of_two_conditions(scene)
    for name, place in standard.items():
        item = scene.items[place]
        if name in _RATINGS and _fits(name, item):
            _keep(found, name, item.value, item, 0.9)
    return (gone | gone_too) - {place for name, place in standard.items() if name == "power"}


def _rows(scene: Scene, ratings: list[int], found: Found, gone: set[int]) -> None:
    """Names in a row, then as many figures in a row: "Voc/Vmp/Isc/Imp 37.5/31.2/13.9/13.1"."""
    items, count = scene.items, len(scene.items)
    done = -1
    for place in ratings:
        if place <= done:
            continue
        to = place
        while to < count and items[to].what in UNIT_OF and items[to].at - items[place].at < 3 * _REACH:
            to += 1
        names, last = items[place:to], to + (to - place)
        done = to
        figures = items[to:last]
        if len(names) < 2 or len(figures) < len(names) or any(one.what != NUMBER or one.spelled for one in figures):
            continue
        if figures[0].at - names[-1].to > 4 or any(at in gone for at in range(to, last)):
            continue
        if all(_fits(name.what, one) for name, one in zip(names, figures, strict=True)):
            for name, one in zip(names, figures, strict=True):
                if name.what in _RATINGS:  # a limit of an inverter may stand in the row
                    _keep(found, name.what, one.value, one, 0.9)


def _fits(name: str, item: Item) -> bool:
    unit = UNIT_OF[name]
    low, high = _BOUNDS[unit]
    return (item.unit == unit or not item.unit) and low <= item.value <= high


def _rating(scene: Scene, place: int, item: Item, found: Found, in_rows: list[Item]) -> None:
    name = name_of(scene, place, _RATINGS)
    if name == "vmp" and scene.tells("inverter_one", "inverter_many") and is_greatest(scene, place, item):
        return  # of the inverter's input
    if name and name in found and _fits(name, item) and not any(kept is item for _, kept, _ in found.values()):
        keep_of_label(scene, found, name, item)  # a figure with a name of its own is no second value of another
    if name and name not in found and _fits(name, item) and item not in in_rows:
        found[name] = (item.value, item, 0.97 if item.unit else 0.9)


def is_greatest(scene: Scene, place: int, item: Item) -> bool:
    """Is it "Umax", of an inverter what it bears, of a panel the volts at full power?"""
    before = scene.before(place)
    return (before is not None and before.what == "vmp" and item.at - before.to <= 2
            and scene.tokens[item.field][before.at] in _GREATEST)  # fmt: skip


def name_of(scene: Scene, place: int, names: frozenset[str]) -> str | None:
    """The name of a figure: the nearest before it that no other figure of its unit took; else directly behind it."""
    items, item = scene.items, scene.items[place]
    unit, sentence = item.unit, item.sentence
    reach = _REACH if unit else 4
    for at in range(place - 1, max(place - 11, -1), -1):  # as Scene.back, without a row of them
        one = items[at]
        away = item.at - one.to
        if (
            one.sentence != sentence
            or (away > reach and away - scene.tokens[item.field][one.to : item.at].count(".") > reach)
            or (one.what == NUMBER and (one.unit == unit or not unit))
        ):
            break
        if one.what in UNIT_OF and (not unit or UNIT_OF[one.what] == unit):
            return one.what if one.what in names else None
        if one.what == "mpp_point" and unit and "vmp" in names:
            return _AT_POINT[unit]
    if unit and "vmp" in names and "mpp_point" in scene.by_what and _point_behind(scene, place, item):
        return _AT_POINT[unit]
    return _name_behind(scene, place, item, names) if unit else None


def _point_behind(scene: Scene, place: int, item: Item) -> bool:
    """As in: 31 V and 13 A at full power."""
    pair = [one for one in scene.ahead(place, 2) if one.at - item.to <= 5]
    if pair and pair[0].what == NUMBER and pair[0].unit != item.unit:
        pair = pair[1:]
    return bool(pair) and pair[0].what == "mpp_point"


def _name_behind(scene: Scene, place: int, item: Item, names: frozenset[str]) -> str | None:
    items = scene.items
    last = min(place + 5, len(items))
    for at in range(place + 1, last):
        one = items[at]
        if one.sentence != item.sentence or one.at - item.to > 2 or one.what == NUMBER:
            return None
        if one.what in names and UNIT_OF[one.what] == item.unit:
            if one.clause == item.clause or at + 1 == last:
                return one.what
            after = items[at + 1]
            waits = after.sentence == item.sentence and after.what == NUMBER and after.at - one.to <= 2
            return None if waits else one.what
    return None


def _named_power(scene: Scene, place: int, item: Item) -> bool:
    """A figure without a unit: does it stand directly behind the heading for power before it?"""
    if not 40 <= item.value <= 800 or item.spelled:
        return False
    before = scene.items[place - 1]
    return (before.sentence == item.sentence and item.at - before.to <= 4
            and set(scene.tokens[item.field][before.to : item.at]) <= scene.small.before_power)  # fmt: skip


def _is_power(scene: Scene, place: int, item: Item, kind: str) -> bool:  # noqa: PLR0911 - a row of questions
    """Is it the rated power of one panel, as far as its neighbours tell?"""
    if not 3 <= item.value <= 1000 or scene.denied(place):
        return False
    tokens = scene.tokens[item.field]
    if item.glued in {"-", "/"} and item.at > 1 and tokens[item.at - 2][0:1].isdigit():
        return False
    if item.value > 500 and item.at > 0 and tokens[item.at - 1] == "=":
        return False
    if _slashed(scene, place, item):
        return False  # "820 Wp / 800 W": panels together, and their inverter
    if not _OF_MORE.isdisjoint(scene.near(place, 3, 1)) and _of_more(scene, place, item):
        return False
    if kind == "set" and item.value <= 720 and _behind_times(tokens, item):  # "2x 430 W + 800 W"
        return True
    if kind != "set":
        lone = "inverter_one" not in scene.by_what and "inverter_many" not in scene.by_what
        return lone or item.peak or owner_of(scene, place) != "inverter"
    small = item.value <= 720
    return (small and item.peak) or ((small or item.peak) and owner_of(scene, place) == "panel")


def _slashed(scene: Scene, place: int, item: Item) -> bool:
    """Is it one of two powers with a stroke between, the first in watts of panels and greater?"""
    tokens, to = scene.tokens[item.field], item.to
    if tokens[item.at - 1] != "/" and (to >= len(tokens) or tokens[to] != "/"):
        return False
    for one in (scene.before(place), scene.behind(place)):
        if one is None:
            continue
        first, second = (one, item) if one.at < item.at else (item, one)
        greater = one.unit == "W" and first.peak and not second.peak and first.value > second.value
        if greater and tokens[first.to : second.at] == ["/"]:
            return True
    return False


def _of_more(scene: Scene, place: int, item: Item) -> bool:
    """Is it the power of a whole lot, a peak, or what an inverter takes?"""
    panels = False
    for one in scene.back(place, 3):
        if item.at - one.to <= 3 and one.clause == item.clause:
            if one.what in _MORE or (one.what == "lot" and not panels):  # "lot of ten panels 330 W"
                return True
            panels = panels or one.what in {"panel_one", "panel_many"}
    behind = scene.behind(place)
    return behind is not None and behind.what == "lot" and behind.at - item.to <= 1 and behind.clause == item.clause


def _behind_times(tokens: list[str], item: Item) -> bool:
    at = item.at
    return at > 1 and tokens[at - 1] == "x" and tokens[at - 2].isdigit()


def owner_of(scene: Scene, place: int) -> str | None:
    """Whose figure: of the goods close behind it, where nothing parts them; else of the last goods before it."""
    item = scene.items[place]
    for one in scene.ahead(place, 4):
        if one.at - item.to > 5 or one.clause != item.clause or one.what in _PARTING:
            break
        if one.what in _OWNERS:
            return _OWNERS[one.what]
    for one in scene.back(place, 8):
        if one.what in _OWNERS and item.at - one.to <= 10:
            return _OWNERS[one.what]
    return None


def _choose(scene: Scene, powers: list[Item], found: Found) -> bool:
    """What the label says wins, then the title, then what is said first; are there two that exclude each other?"""
    if not powers:
        return False
    labels = {scene.items[at].sentence for at in scene.by_what.get("label", [])}
    on_label = [item for item in powers if item.sentence in labels]
    chosen = (on_label or powers)[0]
    _keep(found, "power", chosen.value, chosen, 0.97 if chosen.unit else 0.9)
    cleared = {scene.items[at].sentence for name in ("cleared", "without") for at in scene.by_what.get(name, [])}
    for item in powers:
        low, high = item.value, chosen.value
        if low > high:
            low, high = high, low
        differ = _LIKE_SHARE < high / low - 1 < 0.9
        if differ and item.field != chosen.field and not {item.sentence, chosen.sentence} & cleared:
            return True
    return False


def _halves(scene: Scene, found: Found) -> None:
    """Half cells written with letters that are hertz elsewhere: "144 HZ"; grids have 50 and 60."""
    for place in scene.units["Hz"]:
        item = scene.items[place]
        if item.value in _HALVES and item.glued not in {"-", "/", "x"}:
            _keep(found, "cells", item.value // 2, item, 0.9)


def _cells(scene: Scene, place: int, item: Item, found: Found) -> bool:
    """A number of cells: halved where it is said to be of half cells; large ones without that word say nothing."""
    if _OF_CELLS.isdisjoint(scene.near(place, 1, 4)) or item.glued == "x":
        return False
    if item.value != int(item.value) or not 8 <= item.value <= 160:
        return False
    before = scene.before(place)
    named = before is not None and before.what == "cells" and item.at - before.to <= 2
    halves: list[Item] = []
    for one in scene.ahead(place, 4):
        if one.what == NUMBER or one.at - item.to > 3:
            break
        named = named or (one.what == "cells" and one.at - item.to <= 2)
        if one.what == "half":
            halves.append(one)
    half = bool(halves) and (named or halves[0].at - item.to <= 1)
    many = item.value >= _LEAST_HALVES
    before = scene.before(place)
    half = half or (many and before is not None and before.what == "half" and item.at == before.to)
    half = half or (named and many and "half" in scene.by_what)
    if half and many:
        _keep(found, "cells", item.value // 2, item, 0.93)
    elif named and item.value < _LEAST_HALVES and not multiplied(scene, place, item):
        found["cells"] = (item.value, item, 0.95)
    return named or half
