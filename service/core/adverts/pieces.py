"""How many pieces are on offer?"""

from itertools import pairwise

from service.core.adverts.asked_roles import BUNDLES, PUT_UP
from service.core.adverts.in_rows import counts_in_rows
from service.core.adverts.kinds import kinds_of_goods, pieces_of_kinds
from service.core.adverts.looked_at import leave_out_views
from service.core.adverts.multiples import multiplies_cells
from service.core.adverts.numerals import FIRST_YEAR, LAST_YEAR
from service.core.adverts.offered_of_more import offered_of_more
from service.core.adverts.on_pallets import on_all_pallets, pallets_offered, priced_by_pallet
from service.core.adverts.only_some import beside_what_is_sold
from service.core.adverts.own_use import of_own_use
from service.core.adverts.parts import paid_for_several
from service.core.adverts.scene import Scene
from service.core.adverts.totals import total_before
from service.core.adverts.walk import CURRENCIES, NUMBER, Item

_MOST_PIECES = 5000
_LONG_WORD = 6
_NO_COUNT_BEFORE = frozenset(("x", "'", "°", "%", "/", ":"))  # "only 75: panel"
_ENDS = frozenset(".,;!?()\n")
_OF_FAULTS = frozenset(("d:", "s:", "p:"))
_FARTHEST = 8
_FEWEST_TUBES = 10  # a collector of twenty tubes is one piece
_PART_OF_MORE = frozenset("-/.")
_COUNTED = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "set_one", "set_many", "other_goods",
                      "thermal", "accessory", "piece", "count", "stock", "left", "pallet"))  # fmt: skip
_BARS = frozenset(("tier", "minimum", "range", "for"))
_HEADING = frozenset(("count", "piece", "each"))  # before a number of pieces
_OF_INPUTS = frozenset(("for", "takes", "inputs", "max_in", "dc_power", "input_range", "panel_one", "panel_many"))
_LIKE_WATTS = (200, 720)
_LEAST_OUTPUT = 200
_NAMES = {"panel": ("panel_many", "panel_one"), "inverter": ("inverter_many", "inverter_one"),
          "set": ("set_many", "set_one"), "other": ("other_goods", "thermal", "accessory")}  # fmt: skip


def pieces_on_offer(scene: Scene, kind: str, bundled: tuple[int, int] | None = None) -> tuple[int | None, int]:
    """Pieces that the text counts (None where it does not say), and on how many pallets they stand.

    ``bundled``: a number of equal parts and of the pieces in each, where the text tells both.
    """
    leave_out_views(scene)
    pieces = bundled[0] * bundled[1] if bundled is not None else _pieces(scene, kind)
    pallets = pallets_offered(scene) if pieces and kind != "set" and "pallet" in scene.by_what else 1
    if pieces is None or pallets == 1 or pieces <= pallets:
        return pieces, 1
    counts = [place for place in scene.units.get("", []) if scene.items[place].value == pieces]
    if not counts:  # pallets times pieces
        return pieces, pallets
    parts = {scene.items[place].value for place in scene.units.get("", [])}
    told = {scene.items[place].sentence for place in counts if not on_all_pallets(scene, place)}
    spoken = [scene.items[place] for what in ("pallet", "lot", "each") for place in scene.by_what.get(what, [])
              if of_pallet(scene, scene.items[place])]  # fmt: skip
    if pieces / pallets in parts:  # priced by the pallet or all together, as the price tells
        return pieces, pallets if any(one.what != "pallet" for one in spoken) else 1
    if any(one.sentence in told for one in spoken):
        return pieces * pallets, pallets
    spread = not told and any(priced_by_pallet(scene, one) for one in spoken)
    return pieces, pallets if spread else 1


def _bare_pallets(scene: Scene, place: int, item: Item) -> bool:
    """Does it count pallets, not what stands on them?"""
    return scene.stands("pallet", item.field, item.to) and _times_pallets(scene, place, item) == item.value > 1


def of_pallet(scene: Scene, item: Item) -> bool:
    """Do the words of a meaning speak of a pallet: "pallet", "per pallet"?"""
    return any(word.startswith(scene.small.pallet) for word in scene.tokens[item.field][item.at : item.to])


def _pieces(scene: Scene, kind: str) -> int | None:
    """Pieces that the text counts; one where all of it is in the singular; None where it does not say."""
    offered = offered_of_more(scene, kind)
    if offered is not None:
        return offered
    kinds = kinds_of_goods(scene) if kind != "set" else None
    if kinds is not None:
        return pieces_of_kinds(scene, kinds)
    names = _NAMES[kind]
    told: list[int] = []
    counted: list[int] = []
    aside: list[int] = []  # where nothing else is told of what is sold
    counting, stocked = frozenset((*names, "piece")), scene.tells("stock", "left")
    on_pallets = "pallet" in scene.by_what
    bundled, put_up = kind != "set" and bool(scene.roles & BUNDLES), bool(scene.roles & PUT_UP)
    passed = counts_in_rows(scene, counted) if kind == "panel" else set[int]()
    for place in scene.units.get("", []):
        item = scene.items[place]
        if not _is_number(item) or not (stocked or _may_count(scene, place, item, counting)):
            continue
        if not _near_goods(scene, place, item) or _lettered(scene, item) or _barred(scene, place, item):
            continue
        if place in passed or _begins_range(scene, place, item) or (on_pallets and _bare_pallets(scene, place, item)):
            continue
        if bundled and not scene.small.bundles.isdisjoint(scene.tokens[item.field][item.to : item.to + 1]):
            continue
        if put_up and of_own_use(scene, place, item):
            aside.append(_times_pallets(scene, place, item))
        elif _told(scene, place, item) if kind != "set" else _sets_in_stock(scene, place, item):
            told.append(_times_pallets(scene, place, item))
        elif not told and _counts(scene, place, item, names, kind):
            (counted if beside_what_is_sold(scene, item) else aside).append(_times_pallets(scene, place, item))
    if not any(count > 1 for count in counted):
        counted += aside
    return max(told) if told else _most(scene, kind, counted)


def _begins_range(scene: Scene, place: int, item: Item) -> bool:
    """Is it the first figure of two with a dash between: "1-4 panels"? Not a count before watts: "2 - 400 W"."""
    tokens, to = scene.tokens[item.field], item.to
    if to >= len(tokens) or tokens[to] != "-":
        return False
    one = scene.items[place + 1] if place + 1 < len(scene.items) else item
    return one.what == NUMBER and one.at == item.to + 1 and not one.unit and item.value < one.value <= _MOST_PIECES


def _is_number(item: Item) -> bool:
    """Can a figure be a number of pieces, as far as it tells itself?"""
    if not 0 < item.value <= _MOST_PIECES or item.value % 1:
        return False
    return item.spelled or not (item.glued in _PART_OF_MORE or FIRST_YEAR <= item.value <= LAST_YEAR)  # "2016 panels"


def _may_count(scene: Scene, place: int, item: Item, counting: frozenset[str]) -> bool:
    """Does anything stand beside it without which no number of pieces is told where nothing is said of a stock?"""
    whats = scene.whats
    if whats[place - 1] in _HEADING or not counting.isdisjoint(whats[place + 1 : place + 7]):
        return True
    return _by_x(scene, item)


def _by_x(scene: Scene, item: Item) -> bool:
    """Does an x stand directly before it or behind it?"""
    tokens, at = scene.tokens[item.field], item.at
    if item.glued == "x" or (at and tokens[at - 1] == "x"):
        return True
    return item.to < len(tokens) and tokens[item.to] == "x"


def _lettered(scene: Scene, item: Item) -> bool:
    """Does a letter stand directly behind it, as in a model code: "285P"?"""
    tokens, to = scene.tokens[item.field], item.to
    letter = tokens[to] if to < len(tokens) else ""
    return len(letter) == 1 and letter != "x" and letter.isalpha() and scene.glued(item.field, to)


def counted_at(scene: Scene, kind: str, quantity: int) -> Item | None:
    """The number that told so many pieces; for one, the word in the singular; None where no single one did."""
    for place in scene.units.get("", []):
        item = scene.items[place]
        if item.value == quantity and _near_goods(scene, place, item) and not _barred(scene, place, item):
            return item
    names = _NAMES[kind]
    singular = scene.by_what.get(names[0 if kind == "other" else 1]) if quantity == 1 else None
    return scene.items[singular[0]] if singular else None


def _most(scene: Scene, kind: str, counted: list[int]) -> int | None:
    """The greatest count; else one, where all is in the singular."""
    names = _NAMES[kind]
    many = [at for at in scene.by_what.get(names[0], []) if not _behind_for(scene, at)]
    counted = [count for count in counted if count > 1] or ([] if many and kind != "other" else counted)
    if counted:
        return max(counted) if kind != "set" else counted[0]
    if kind == "set":
        return None if many else 1
    if "several" in scene.by_what and (many or kind == "other"):
        return None
    if kind == "other":
        one = not scene.by_what.keys().isdisjoint(("thermal_one", "other_one"))
        return 1 if one or ("panel_one" in scene.by_what and not many and "thermal" in scene.by_what) else None
    if names[1] not in scene.by_what or many:
        return None
    several = paid_for_several(scene)
    return 1 if several is None else several or None


def _behind_for(scene: Scene, place: int) -> bool:
    item = scene.items[place]
    return any(one.what == "for" and item.at - one.to <= 3 and one.clause == item.clause and not scene.paid_for(one)
               for one in scene.back(place, 3))  # fmt: skip


def _near_goods(scene: Scene, place: int, item: Item) -> bool:
    """Is there anything near by that a number of pieces could go with?"""
    items, whats = scene.items, scene.whats
    for at in range(max(place - 2, 0), min(place + 6, len(items))):  # itself is none of them
        if whats[at] in _COUNTED and -_FARTHEST <= items[at].at - item.at <= _FARTHEST:
            return True
    return item.to >= len(scene.tokens[item.field]) or _by_x(scene, item)


def _barred(scene: Scene, place: int, item: Item) -> bool:
    """Is it a part of a code or a size, or a number from which on something holds?"""
    if _BARS.isdisjoint(scene.near(place, 3, 1)):
        return False
    for one in scene.back(place, 3):
        if item.at - one.to > 2:
            break
        if one.what in {"tier", "minimum"} and one.clause == item.clause:
            return True
        if one.what == "range" and item.at == one.to and one.to - one.at > 1:  # "up to 31"
            return True
        if one.what == "for" and item.at - one.to <= 1 and not _on_pallets(scene, place):
            return not scene.paid_for(one)
    behind = scene.behind(place)
    return (behind is not None and behind.what in {"tier", "minimum"} and behind.at - item.to <= 1
            and behind.clause == item.clause)  # fmt: skip


def _sets_in_stock(scene: Scene, place: int, item: Item) -> bool:
    """As in "balcony kit, 2 available"?"""
    if "stock" not in scene.by_what or not scene.stands("stock", item.field, item.to):
        return False
    near = (*scene.back(place, 3), *scene.ahead(place, 3))
    return not any(one.what.startswith(("panel_", "inverter_")) and one.clause == item.clause for one in near)


def _told(scene: Scene, place: int, item: Item) -> bool:  # noqa: PLR0911 - a row of questions
    """Behind a heading for a number, or beside "in stock", "left"?"""
    if item.spelled and item.value == 1:
        return False
    before = scene.before(place)
    if before is not None and before.what == "count" and item.at - before.to <= 2:
        return True
    if (
        before is not None
        and before.what in {"piece", "each"}
        and scene.tokens[item.field][before.to : item.at] == [":"]
    ):
        return scene.stands("piece", before.field, before.at)
    if before is not None and before.what == "stock" and item.at - before.to <= 3 and not _of_money(scene, place):
        return not _of_strangers(scene, item) and not _counted_before(scene, place, item, before)
    if "left" in scene.by_what and _is_left(scene, place, item):
        return True
    if "stock" not in scene.by_what or scene.small.of_them.issuperset(scene.tokens[item.field][item.to : item.to + 1]):
        return False  # "three of them have scratches"
    for one in scene.ahead(place, 3):
        if one.at - item.to > 3 or one.clause != item.clause or one.unit in CURRENCIES:
            break
        if one.what == "stock":
            return not _have_faults(scene, place, one)
    return False


def _is_left(scene: Scene, place: int, item: Item) -> bool:
    """Do "pieces" at most and a word as "over" stand behind it, and nothing more: "5 over", "noch 5 Stück da"?"""
    tokens = scene.tokens[item.field]
    to = item.to
    for one in scene.ahead(place, 4):
        if one.what == "left" and one.at == to:
            return one.to >= len(tokens) or tokens[one.to] in _ENDS
        if one.what not in {"piece", "each"} or one.at > item.to:
            return False
        to = one.to
    return False


def _have_faults(scene: Scene, place: int, stock: Item) -> bool:
    """Is it told of some of them what they have: "three have cracked glass"?"""
    return any(one.what[:2] in _OF_FAULTS and one.clause == stock.clause and 0 <= one.at - stock.to <= 2
               for one in scene.ahead(place, 6))  # fmt: skip


def _counted_before(scene: Scene, place: int, item: Item, stock: Item) -> bool:
    """Is what is in stock counted before it: "4 left of 20"; or does a new clause with other words follow?"""
    if stock.clause != item.clause:
        return any(word.isalpha() for word in scene.tokens[item.field][stock.to : item.at])
    return any(one.what == NUMBER and not one.unit and 0 <= stock.at - one.to <= 1 and one.clause == stock.clause
               for one in scene.back(place, 4))  # fmt: skip


def _of_strangers(scene: Scene, item: Item) -> bool:
    """Does a long word that means nothing stand behind it, as in "there are two colleagues"?"""
    tokens = scene.tokens[item.field]
    word = tokens[item.to] if item.to < len(tokens) else ""
    if not word.isalpha() or len(word) < _LONG_WORD:
        return False
    return not any(scene.stands(what, item.field, item.to) for what in _COUNTED)


def _of_money(scene: Scene, place: int) -> bool:
    behind = scene.behind(place)
    return behind is not None and behind.what in {"each", "lot"} and behind.at - scene.items[place].to <= 1


def _counts(scene: Scene, place: int, item: Item, names: tuple[str, ...], kind: str) -> bool:
    """Is it followed by the goods, by "pieces", by x, or with x before it?"""
    tokens = scene.tokens[item.field]
    follow = tokens[item.to] if item.to < len(tokens) else ""
    if not item.spelled and _beside_x(scene, place, item, tokens, follow):
        return kind != "set" and not (kind == "inverter" and _of_its_inputs(scene, place, item))
    if follow in _NO_COUNT_BEFORE or item.glued == "x" or _hyphened(scene, item, names):
        return False
    if kind != "set" and not (item.spelled and item.value == 1) and scene.stands("piece", item.field, item.to):
        return True
    return _before_goods(scene, place, item, names, kind)


def _of_its_inputs(scene: Scene, place: int, item: Item) -> bool:
    """Does it count the inputs of one inverter, or what they take: "2 x 500 W max input", "for 2 x 450 W panels"?"""
    watts = next(iter(scene.ahead(place, 1)), item)
    if watts.unit != "W" or watts.at - item.to > 1:
        return False
    near = [one for one in scene.back(place, 4) if item.at - one.to <= 3]
    near += [one for one in scene.ahead(place, 6) if one.at >= watts.to and one.at - watts.to <= 3]
    tokens = scene.tokens[item.field]
    return any(one.what in _OF_INPUTS and (one.clause == item.clause or tokens[one.to : item.at] == ["("])
               for one in near)  # fmt: skip


def _hyphened(scene: Scene, item: Item, names: tuple[str, ...]) -> bool:
    """Does it only tell of what kind they are: "4-channel inverter"?"""
    tokens, to = scene.tokens[item.field], item.to
    if to >= len(tokens) or tokens[to] != "-" or not scene.glued(item.field, to + 1):
        return False
    return not any(scene.stands(name, item.field, to + 1) for name in names)


def _before_goods(scene: Scene, place: int, item: Item, names: tuple[str, ...], kind: str) -> bool:
    for one in scene.ahead(place, 6):
        if one.what in names and (one.at > item.at or one.to == item.to):
            directly = one.at - item.to <= 1
            if _like_watts(item) or (directly and kind == "inverter" and item.value >= _LEAST_OUTPUT):
                return False
            tubes = one.what == "thermal" and item.value >= _FEWEST_TUBES
            return not tubes and (one.clause == item.clause or one.at - item.to <= 3)
        if one.what in {"each", "lot", "for", "cells", "half"} or one.unit in CURRENCIES or one.at - item.to > 5:
            return False
        if (one.what == NUMBER and one.unit != "W") or (one.clause != item.clause and one.what != NUMBER):
            return False
    return False


def _like_watts(item: Item) -> bool:
    low, high = _LIKE_WATTS
    return not item.spelled and low <= item.value <= high and item.value % 5 == 0


def _beside_x(scene: Scene, place: int, item: Item, tokens: list[str], follow: str) -> bool:
    """Is it a count beside an x (4 x 410 W, 8x panels, x8), not the side of something?"""
    of_inputs = follow == "x" and any(scene.stands(what, item.field, item.to + 1) for what in ("inputs", "tracking"))
    if item.value > 200 or of_inputs or (follow == "x" and _of_an_input(scene, place, item)):  # "2 x MPPT"
        return False
    if follow == "x":
        behind = tokens[item.to + 1] if item.to + 1 < len(tokens) else ""
        if item.glued == "x" or (item.at > 0 and tokens[item.at - 1] == "x"):
            return False
        if not behind[0:1].isdigit():
            return True
        one = scene.items[place + 1] if place + 1 < len(scene.items) else None
        return one is not None and one.what == NUMBER and one.unit == "W" and one.at == item.to + 1
    if item.glued == "x" or (item.at > 0 and tokens[item.at - 1] == "x"):
        return item.at < 2 or (not tokens[item.at - 2][0:1].isdigit() and _before_x_is_no_unit(scene, place, item))
    return False


def _of_an_input(scene: Scene, place: int, item: Item) -> bool:
    """Does a word for inputs stand directly before a number that opens a bracket: "input 2x(16-60 V, 14 A)"?"""
    before = scene.before(place)
    opened = scene.tokens[item.field][item.to + 1 : item.to + 2] == ["("]
    return opened and before is not None and before.what in {"inputs", "input_range", "tracking"}


def _before_x_is_no_unit(scene: Scene, place: int, item: Item) -> bool:
    if multiplies_cells(scene, place, item):
        return False
    before = scene.items[place - 1] if place else None
    return before is None or before.what != NUMBER or before.to < item.at - 1 or before.unit == "W"


def _on_pallets(scene: Scene, place: int) -> float:
    """How many pallets, where "three pallets of" stands before; else nought."""
    if "pallet" not in scene.by_what:
        return 0.0
    item = scene.items[place]
    if total_before(scene, item):  # "2 pallets with 62 panels in all"
        return 0.0
    back = [one for one in scene.back(place, 5) if one.clause == item.clause and item.at - one.to <= 4]
    for one, before in pairwise(back):
        if one.what == "pallet" and before.what == NUMBER and not before.unit and one.at - before.to <= 1:
            return before.value
    return 0.0


def _times_pallets(scene: Scene, place: int, item: Item) -> int:
    """Pieces, or pallets times pieces."""
    on_pallets = _on_pallets(scene, place)
    if on_pallets:
        return int(on_pallets * item.value)
    behind = scene.ahead(place, 4) if "pallet" in scene.by_what else ()
    if behind and behind[0].what == "pallet" and behind[0].at - item.to <= 1:
        for one in behind[1:]:
            if one.what == NUMBER and not one.unit and one.value == int(one.value) and one.at - behind[0].to <= 3:
                return int(item.value * one.value)
    return int(item.value)
