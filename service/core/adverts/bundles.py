"""In how many equal parts are they offered ("4 sets of 2 (= 8)", "3 lots de 4 panneaux"), and what buys an amount?"""

from itertools import chain

from service.core.adverts.asked_roles import EQUAL_SETS, EQUALS, PAIRS
from service.core.adverts.priced_pairs import pairs_by_price
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_SETS = ("set_one", "set_many", "set_weak")
_GOODS = frozenset(("panel_one", "panel_many", "piece"))
_DESCRIBING = frozenset(("used", "unused", "new", "bifacial", "t:mono", "t:poly", "t:topcon", "t:hjt", "for",
                         "between"))  # fmt: skip
_OTHERS = frozenset(("accessory", "other_goods", "cells", "half", "inputs"))
_MOST, _MOST_PARTS = 5000, 200
_FEWEST, _MOST_LOOKED_AT = 2, 20
_BETWEEN, _TO_SUM, _TO_GOODS = 3, 5, 7  # pieces
_BEGINNING = 3  # letters that one set and several have in common
_NO_SET = frozenset(",;.|+/")
_ENDS = frozenset(",;.|()\n:=")
_PARTING = frozenset(",;|()\n")
_HYPHENED = frozenset(("-", "er"))  # "2-packs", "2er-Set"

Bundles = tuple[int, int]


def bundles_of(scene: Scene) -> Bundles | None:
    """The number of parts and of the pieces in each; None where the words do not tell both surely.

    Words that may name a parcel name such a part then: "3 Pakete zu je 4 Modulen, 160 € das Paket".
    """
    found = _bundles(scene)
    parcels = scene.by_what.get("shipping", []) if found else []
    for place in [at for at in parcels if _names_part(scene, scene.items[at])]:
        scene.items[place].what = scene.whats[place] = "set_weak"
        parcels.remove(place)
    if found and not parcels:
        scene.by_what.pop("shipping", None)
    return found


def _names_part(scene: Scene, item: Item) -> bool:
    tokens, small = scene.tokens[item.field], scene.small
    before = tokens[item.at - 1] if item.at else ""
    return tokens[item.at] in small.equal_set and (before in small.the_set or before in small.by_set)


def _bundles(scene: Scene) -> Bundles | None:
    items = scene.items
    if scene.roles & EQUALS:
        bare = scene.units.get("", [])
        for number in range(2, len(bare)):
            total = items[bare[number]]
            if scene.tokens[total.field][total.at - 1] == "=":
                found = _parts(scene, items[bare[number - 2]], items[bare[number - 1]])
                if found and total.at - items[bare[number - 1]].to <= _TO_SUM and total.value == found[0] * found[1]:
                    return found
    known = scene.by_what
    for place in chain.from_iterable(known[what] for what in _SETS if what in known):
        if scene.whats[place - 1] == NUMBER and not items[place - 1].unit and items[place - 1].to == items[place].at:
            found = _of_goods(scene, place)
            if found:
                return found
    places = scene.units.get("", [])[:_MOST_LOOKED_AT]
    if scene.roles & PAIRS:
        found = next(filter(None, (_in_pairs(scene, place) for place in places)), None) or pairs_by_price(scene, places)
        counts = (scene.items[place].value for place in places if _counts_goods(scene, place))
        if found and all(count <= 2 * found[0] for count in counts):
            return found
    if not scene.roles & EQUAL_SETS:
        return None
    return next(filter(None, (_by_words(scene, place) for place in places)), None) or _told_apart(scene, places)


def one_or_all(scene: Scene, amount: Item) -> str:
    """What an amount buys where equal sets are offered: "one" ("110 € par lot"), "all" of them; "" where none tells."""
    small, tokens = scene.small, scene.tokens[amount.field]
    behind = [word for word in tokens[amount.to : amount.to + _TO_SUM] if word != "."][:_BETWEEN]
    before = ["", *filter(str.isalpha, tokens[max(amount.at - _TO_SUM, 0) : amount.at])][-_FEWEST:]
    if small.by_set.issuperset(behind[:_FEWEST]):  # "za każdy zestaw"
        behind = behind[1:]
    for words in (behind[:_FEWEST], before):
        if len(words) < _FEWEST or words[1] not in small.equal_set or not _names_sets(scene, words[1]):
            continue
        named = words is before or words[0] in small.the_set  # "the set" behind it, "Satz 100 €"
        if words[0] in small.by_set or (named and _is_one(scene, amount)):
            return "one"
    end = next((at for at, word in enumerate(behind) if word in _PARTING), len(behind))
    near = {*behind[:end], *before[-1:]}
    return "all" if small.equal_set.isdisjoint(near) and not small.all_of_them.isdisjoint(near) else ""


def _is_one(scene: Scene, amount: Item) -> bool:
    """Is "the set" beside an amount one of them, not "the lot" that may be all; the more so behind "lot de 2"?"""
    near = range(max(amount.at - _BETWEEN, 0), amount.to + _FEWEST)
    lot = any(scene.stands("lot", amount.field, at) for at in near)
    return not lot or bool(_sizes_apart(scene))


def _names_sets(scene: Scene, word: str) -> bool:
    """Is it the word by which the sets are counted, "lot" of "6 lots"?"""
    return any(one.startswith(word[:_BEGINNING]) for field in (0, 1)
               for one in scene.small.equal_sets & scene.different(field))  # fmt: skip


def _by_words(scene: Scene, place: int) -> Bundles | None:
    """As "5 lots de 2 panneaux", "3 Pakete zu je 4 Modulen": equal sets, a word that joins, and a number of goods."""
    one, tokens = scene.items[place], scene.tokens[scene.items[place].field]
    words = tokens[one.to : one.to + 3]
    if len(words) < _FEWEST or words[0] not in scene.small.equal_sets or words[1] not in scene.small.sets_by:
        return None
    ahead = scene.ahead(place, 9)
    two = next((item for item in ahead if item.what == NUMBER), None)
    each = words[-1] in scene.small.by_set
    told = two is not None and two.at == one.to + 2 + each and _counts(scene, ahead, two)
    return _parts(scene, one, two) if told and two is not None else None


def _counts_goods(scene: Scene, place: int) -> bool:
    behind = scene.behind(place)
    return behind is not None and behind.what in _GOODS


def _in_pairs(scene: Scene, place: int) -> Bundles | None:
    """As "4 pairs of 300 W panels", "4 Paare Module": pairs of goods, not of plugs, nor "2 par panneau"."""
    item = scene.items[place]
    tokens = scene.tokens[item.field]
    if item.to >= len(tokens) or tokens[item.to] not in scene.small.pairs or not _is_count(item):
        return None
    if scene.stands("each", item.field, item.to):
        return None
    for one in scene.ahead(place, 8):
        if one.what in _GOODS and item.to < one.at <= item.to + _TO_GOODS:
            return int(item.value), 2
        if one.at > item.to and one.what not in _DESCRIBING and one.unit != "W":
            return None
    return None


def _of_goods(scene: Scene, place: int) -> Bundles | None:
    """As "3 sets of 4 panels": does a number of goods stand behind the number behind a word for sets?"""
    ahead = scene.ahead(place, 5)
    two = next((one for one in ahead if one.what == NUMBER), None)
    return _parts(scene, scene.items[place - 1], two) if two is not None and _counts(scene, ahead, two) else None


def _counts(scene: Scene, ahead: list[Item], two: Item) -> bool:
    """Do goods stand directly behind a number, or nothing, with a word such as "of" before it: "4 sets of 2, 350"?"""
    if any(item.what in _GOODS and item.at == two.to for item in ahead):
        return True
    tokens = scene.tokens[two.field]
    return tokens[two.at - 1] in scene.small.sets_by and _ENDS.issuperset(tokens[two.to : two.to + 1])


def _sizes_apart(scene: Scene) -> set[tuple[str, float]]:
    """How a word for a set begins, and how many are in one, where that is told without how many sets there are.

    As in "vendus par lot de 2".
    """
    places = scene.units.get("", [])[:_MOST_LOOKED_AT]
    return {(word[:_BEGINNING], scene.items[place].value) for place in places if (word := _set_beside(scene, place))}


def _set_beside(scene: Scene, place: int) -> str:
    """The word for a set with one that joins before a number, or behind it: "2er-Set"; "" where none stands there."""
    item = scene.items[place]
    tokens, behind = scene.tokens[item.field], scene.behind(place)
    if not _is_count(item) or (behind is not None and behind.what in _OTHERS and behind.at - item.to <= 1):
        return ""
    before = tokens[max(item.at - _BETWEEN, 0) : item.at]
    if len(before) >= _FEWEST and before[-1] in scene.small.sets_by:
        return before[-2] if names_set(scene, before[-2]) and not before[0][0].isdigit() else ""
    to = next((at for at in range(item.at + 1, len(tokens)) if tokens[at] not in _HYPHENED), item.to)
    return tokens[to] if item.at + 1 < to < len(tokens) and names_set(scene, tokens[to]) else ""


def names_set(scene: Scene, word: str) -> bool:
    """Is it a word for a set, or for several of them?"""
    return word in scene.small.equal_set or word in scene.small.equal_sets


def _told_apart(scene: Scene, places: list[int]) -> Bundles | None:
    """As "sold in packs of 2, 90 € a pack. 6 packs"."""
    sizes = _sizes_apart(scene)
    if len(sizes) != 1:
        return None
    beginning, size = sizes.pop()
    counts = {scene.items[place].value for place in places if _counts_sets(scene, scene.items[place], beginning)}
    count = counts.pop() if len(counts) == 1 else 0.0
    return (int(count), int(size)) if count and count * size <= _MOST else None


def _counts_sets(scene: Scene, item: Item, beginning: str) -> bool:
    word = "".join(scene.tokens[item.field][item.to : item.to + 1])
    return word.startswith(beginning) and word in scene.small.equal_sets and _is_count(item)


def _parts(scene: Scene, one: Item, two: Item) -> Bundles | None:
    """Two numbers with few words between them, in one sentence."""
    if one.field != two.field or one.sentence != two.sentence or not (_is_count(one) and _is_count(two)):
        return None
    between = scene.tokens[one.field][one.to : two.at]
    told = 1 <= len(between) <= _BETWEEN and _NO_SET.isdisjoint(between) and one.value * two.value <= _MOST
    return (int(one.value), int(two.value)) if told else None


def _is_count(one: Item) -> bool:
    return not one.unit and 1 < one.value <= _MOST_PARTS and one.value % 1 == 0 and one.glued not in {"-", "/", "."}
