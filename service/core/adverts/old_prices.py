"""Which amount is asked no more: "was 80, now 50", "from 80 to 50", what they cost new ("new 150, yours for 40")?

Only where the other amount is less, and the words beside both tell which is which.
"""

from itertools import takewhile

from service.core.adverts.asked_roles import OLD_PRICE, PRICE_WAS
from service.core.adverts.money_told import amounts_told
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_FARTHEST, _TO_NOW, _TO_WAS, _TO_CUT = 12, 4, 2, 4  # pieces
_ENDS = frozenset(".;!?\n|()[]")
_ARROWS = frozenset("→>")
_NEW = ("new", "unused", "used")  # "new 150", "as new 150"
_OTHER_GOODS = frozenset(("shipping", "bring", "delivered", "accessory", "other_goods", "battery", "extra", "also_sold",
                          "deposit", "inverter_one", "inverter_many"))  # fmt: skip
_ASKING = frozenset(("price", "selling", "sold", "for", "takes"))
_PRICING = frozenset(("price", "selling"))
_SPLITTING = frozenset(("each", "lot", "per_set", "shipping", "piece", "extra"))
_MOST_NEW_SHARE = 0.7  # of the price when new
_UNSAID = frozenset(("", "€", "£", "$"))


def leave_out_old_prices(scene: Scene) -> None:
    """Such amounts are no prices here, and "new" beside one tells no condition, "reduced" no limit."""
    amounts = amounts_told(scene)
    if not amounts or (len(amounts) == 1 and not _other_in_field(scene, amounts[0])):
        return
    _leave_out_side_by_side(scene, amounts)
    if "new" in scene.by_what or scene.roles & OLD_PRICE:
        _leave_out(scene, amounts)


def _leave_out_side_by_side(scene: Scene, amounts: list[int]) -> None:
    """Of "£80 £50" nobody knows whether the first one was crossed out, if neither page nor words tell."""
    for number in range(len(amounts) - 1):
        first, second = amounts[number], amounts[number + 1]
        dear, cheap = scene.items[first], scene.items[second]
        if dear.value <= cheap.value or dear.field != cheap.field or cheap.at - dear.to > 1 or dear.unit != cheap.unit:
            continue
        known = scene.behind(second)
        tokens = scene.tokens[dear.field]
        between = tokens[dear.to : cheap.at]
        alike = between == tokens[max(dear.at - 1, 0) : dear.at]  # "EUR 80 EUR 50"
        if not (alike or _UNSAID.issuperset(between)) or dear.sentence != cheap.sentence:
            continue
        plain = known is None or known.at > cheap.to or known.what in {"price", "bids"}
        if plain and not any(one.value in {dear.value, cheap.value} for one in scene.price):
            for place in (first, second):
                if place in scene.units.get(dear.unit, []):
                    _forget(scene, place)


def _other_in_field(scene: Scene, place: int) -> bool:
    """Does the price field hold another amount?"""
    value = scene.items[place].value
    return any(one.what == NUMBER and one.value != value for one in scene.price)


def _leave_out(scene: Scene, amounts: list[int]) -> None:
    old: list[int] = []
    if scene.roles & PRICE_WAS:
        told = [scene.items[at].value for at in amounts]
        told += [one.value for one in scene.price if one.what == NUMBER]
        lowest = min(told)
        old += [at for at in amounts if scene.items[at].value > lowest and _was(scene, scene.items[at])]
    for number in range(len(amounts) - 1):
        first, second = amounts[number], amounts[number + 1]
        dear, cheap = scene.items[first], scene.items[second]
        if dear.field != cheap.field or dear.value <= cheap.value or cheap.at - dear.to > _FARTHEST:
            continue
        if _OTHER_GOODS.isdisjoint(scene.whats[first + 1 : second]) and _is_old(scene, (first, second)):
            old.append(first)
    for place in {*old}:
        _forget(scene, place)
    if "new" in scene.by_what and "new_price" in scene.by_what:
        for place in amounts:
            if scene.stands("new_price", scene.items[place].field, scene.items[place].to):  # "new 150 € it did cost"
                _no_state(scene, place)


def _is_old(scene: Scene, places: tuple[int, int]) -> bool:
    """Is the first of two amounts, which is more, said to be changed to the second one?"""
    small, (dear, cheap) = scene.small, (scene.items[places[0]], scene.items[places[1]])
    tokens = scene.tokens[dear.field]
    between = tokens[dear.to : cheap.at]
    if not small.price_now.isdisjoint(between) and not small.price_now.isdisjoint(
        [word for word in between if word.isalnum()][-_TO_NOW:]
    ):
        return True
    if _lowered(scene, dear, cheap, between) or _worth(scene, places, dear):
        return True
    return _when_new(scene, places, between)


def _lowered(scene: Scene, dear: Item, cheap: Item, between: list[str]) -> bool:
    """As in "from 80 to 50", "80 → 50", "lowered: 80, 50"?"""
    small, tokens = scene.small, scene.tokens[dear.field]
    told = [word for word in between[between[:1] == ["."] :] if word not in _UNSAID]  # the point of "kr."
    if not small.price_lowered_to.issuperset(told):
        return False
    if not _ARROWS.isdisjoint(told):
        return True
    before = [word for word in tokens[max(dear.at - _TO_CUT - 1, 0) : dear.at] if word not in _UNSAID]
    near = (*before, *tokens[cheap.to : cheap.to + _TO_CUT])
    cut = any(word.startswith(small.price_cut) for word in near)
    return bool(told) and (cut or bool(before[-1:] and before[-1] in small.price_from))


def _worth(scene: Scene, places: tuple[int, int], dear: Item) -> bool:
    """As in "value 80, asking 50": is a value told, and then a price by its name?"""
    named = scene.small.value_named
    if named.isdisjoint(scene.tokens[dear.field][max(dear.at - _TO_WAS - 2, 0) : dear.at]):
        return False
    words = [word for word in scene.tokens[dear.field][max(dear.at - _TO_WAS - 2, 0) : dear.at] if word.isalnum()]
    return not named.isdisjoint(words[-_TO_WAS:]) and not _PRICING.isdisjoint(scene.whats[places[0] + 1 : places[1]])


def _when_new(scene: Scene, places: tuple[int, int], between: list[str]) -> bool:
    """As in "new 150, yours for 40", "150 new, 40 takes it"?"""
    dear, cheap = scene.items[places[0]], scene.items[places[1]]
    if cheap.sentence != dear.sentence or cheap.value > _MOST_NEW_SHARE * dear.value or not _beside(scene, places[0]):
        return False
    words = [word for word in between if word.isalnum()]
    asked = not _ASKING.isdisjoint(scene.whats[places[0] + 1 : places[1]])
    known = scene.behind(places[1])
    if known is not None and known.at == cheap.to and known.what in _SPLITTING and not asked:
        return False  # "new 600, 150 each"
    here = scene.small.priced_here.issuperset(words)  # "new 600, here 300"; or nothing between
    return len(words) < _TO_NOW and (asked or scene.whats[places[1] + 1] == "takes" or here)


def _beside(scene: Scene, place: int) -> list[int]:
    """Places of "new" directly beside an amount, with nothing but a sign of money between."""
    item, tokens = scene.items[place], scene.tokens[scene.items[place].field]
    found: list[int] = []
    for at in range(max(place - 2, 0), min(place + 3, len(scene.items))):
        one = scene.items[at]
        if one.what not in _NEW or one.field != item.field or (one.what == "used" and one.to - one.at == 1):
            continue  # but "as new 150"
        before = item.at - _TO_WAS <= one.to <= item.at and _UNSAID.issuperset(tokens[one.to : item.at])
        if before or one.at == item.to:
            found.append(at)
    return found


def _was(scene: Scene, item: Item) -> bool:
    """Does a word for what was before stand before an amount, with hardly anything between?"""
    before = scene.tokens[item.field][max(item.at - _TO_WAS - 2, 0) : item.at]
    if scene.small.price_was.isdisjoint(before):
        return False
    words = [word for word in takewhile(lambda word: word not in _ENDS, reversed(before)) if word.isalnum()]
    return not scene.small.price_was.isdisjoint(words[:_TO_WAS])


def _forget(scene: Scene, place: int) -> None:
    """An amount is none, and what stands beside it says nothing of the goods."""
    item = scene.items[place]
    scene.units[item.unit] = [at for at in scene.units[item.unit] if at != place]
    if not scene.units[item.unit]:
        del scene.units[item.unit]
    _no_state(scene, place)
    limited = [at for at in scene.by_what.get("limited", []) if scene.items[at].sentence == item.sentence]
    watts = ("W" in (one.unit for one in scene.items[max(at - 1, 0) : at + 2]) for at in limited)
    if limited and not any(watts):  # "from 80 € to 50 € reduced"
        _without(scene, "limited", limited)


def _no_state(scene: Scene, place: int) -> None:
    beside = _beside(scene, place)
    for what in _NEW if beside else ():
        if what in scene.by_what:
            _without(scene, what, beside)


def _without(scene: Scene, what: str, places: list[int]) -> None:
    kept = [at for at in scene.by_what[what] if at not in places]
    if kept:
        scene.by_what[what] = kept
    else:
        del scene.by_what[what]
