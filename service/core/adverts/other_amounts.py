"""Which amounts are no price of the goods: of a kilowatt hour, saved in a year, granted, least bids, of things beside?

As in "power at 0.35 €/kWh", "saves £200 a year", "grant of 200 €", "offers under 30 ignored", "rails 12 each".
"""

from bisect import bisect_left
from collections.abc import Set

from service.core.adverts.asked_roles import BIDS_NAMED, OTHER_AMOUNT, PARTS, UNDER
from service.core.adverts.bills_and_deposits import told_of_parts
from service.core.adverts.money_told import amounts_told
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_ENDS = frozenset(".,;!?\n|():")
_THINGS = frozenset(("other_goods", "accessory", "battery"))
_GOODS = frozenset(("panel_one", "panel_many", "inverter_one", "inverter_many", "set_one", "set_many", "piece"))
_PRICING = frozenset(("price", "selling"))
_BEHIND, _BEFORE, _UNDER, _TO_PRICE, _FAR = 4, 4, 6, 3, 8


def leave_out_other_amounts(scene: Scene) -> None:
    """Such amounts are no prices here."""
    told, parts = scene.roles & OTHER_AMOUNT, scene.roles & PARTS or "share" in scene.by_what
    if not (told or parts) and scene.by_what.keys().isdisjoint(_THINGS):
        return
    amounts = amounts_told(scene)
    if parts:
        amounts = without_amounts(scene, amounts, told_of_parts(scene, amounts))
    if told:
        marks = words_of_role(scene, OTHER_AMOUNT, scene.small.of_other_amount)
        amounts = without_amounts(scene, amounts, {at for at in amounts if _told_so(scene, at, marks)})
        if scene.roles & UNDER and scene.roles & BIDS_NAMED:
            without_amounts(scene, [], {at for at in scene.units.get("", []) if _least_bid(scene, scene.items[at])})
    if _begins_a_part(scene) and (len(amounts) != 1 or scene.price or "each" in scene.by_what):
        amounts = [*amounts, *_bare_prices(scene)]
        beside = {at for at in amounts if _of_thing(scene, at)}
        if beside and (len(beside) < len(amounts) or any(one.what == NUMBER for one in scene.price)):
            without_amounts(scene, amounts, beside)


def _begins_a_part(scene: Scene) -> bool:
    """Does a thing stand first in a part of a sentence, or directly behind a figure? A cheap question first."""
    for what in _THINGS:
        for place in scene.by_what.get(what, []):
            item = scene.items[place]
            before = scene.tokens[item.field][item.at - 1] if item.at else "."
            if before in _ENDS or before[0].isdigit():
                return True
    return False


def without_amounts(scene: Scene, amounts: list[int], gone: Set[int]) -> list[int]:
    """Amounts without those that are none, which stand among no figures any more."""
    for unit in {scene.items[at].unit for at in gone}:
        kept = [at for at in scene.units[unit] if at not in gone]
        if kept:
            scene.units[unit] = kept
        else:
            del scene.units[unit]
    return [at for at in amounts if at not in gone]


def words_of_role(scene: Scene, role: int, words: Set[str]) -> list[list[int]]:
    """The pieces of title and body where words of a role stand."""
    return [scene.pieces[field].places(role, words) if scene.field_roles[field] & role else [] for field in (0, 1)]


def stand_near(marks: list[list[int]], item: Item, before: int, behind: int) -> bool:
    """Does one of these pieces stand within so many before and behind an amount? A cheap question before dear ones."""
    places = marks[item.field]
    if not places or places[-1] < item.at - before:
        return False
    first = bisect_left(places, item.at - before)
    return places[first] < item.to + behind


def _told_so(scene: Scene, place: int, marks: list[list[int]]) -> bool:
    item = scene.items[place]
    if not stand_near(marks, item, 2 * _BEFORE, 2 * _BEHIND):
        return False
    tokens = scene.tokens[item.field]
    behind = _words(tokens, item.to, item.to + 2 * _BEHIND)
    return (
        _of_energy(scene, item)
        or _of_year(scene, behind)
        or _saved_or_granted(scene, place, item, behind)
        or _least_bid(scene, item)
    )


def _words(tokens: list[str], at: int, to: int) -> list[str]:
    """Words between two pieces, up to the end of a part of a sentence."""
    found: list[str] = []
    for word in tokens[at:to]:
        if word in _ENDS:
            break
        if word.isalnum():
            found.append(word)
    return found


def words_behind(scene: Scene, item: Item, most: int) -> list[str]:
    """Words behind an amount in its part of a sentence; the point of "kr." ends none."""
    tokens, to = scene.tokens[item.field], item.to
    if item.unit == "DKK" and tokens[to : to + 1] == ["."]:
        to += 1
    return _words(tokens, to, to + 2 * most)[:most]


def words_before(scene: Scene, item: Item, most: int) -> list[str]:
    """Words before an amount in its part of a sentence, nearest first."""
    tokens, at = scene.tokens[item.field], item.at
    found: list[str] = []
    for place in range(at - 1, max(at - 2 * most, 0) - 1, -1):
        word = tokens[place]
        if word in _ENDS or len(found) == most:
            break
        if word.isalnum():
            found.append(word)
    return found


def _of_energy(scene: Scene, item: Item) -> bool:
    """Is it for a kilowatt hour, or directly behind the name of a price of electricity?"""
    small, points = scene.small, item.unit == "DKK"  # "2,50 kr. pr. kWh"
    behind = scene.tokens[item.field][item.to : item.to + _BEHIND + 2 * points]
    near = [word for word in behind if not (points and word == ".")]
    at = next((at for at, word in enumerate(near) if word in small.energy), 0)
    if at and small.per_energy.issuperset(near[:at]):
        return True
    return not small.energy_price.isdisjoint(words_before(scene, item, _BEFORE))


def _of_year(scene: Scene, behind: list[str]) -> bool:
    """Does it come every year?"""
    small, near = scene.small, behind[:_BEHIND]
    if not small.yearly.isdisjoint(near):
        return True
    for at, word in enumerate(near):
        if at and word in small.year and near[at - 1] in small.per_year:
            return small.aged.isdisjoint(behind[at + 1 : at + 2])
    return False


def _saved_or_granted(scene: Scene, place: int, item: Item, behind: list[str]) -> bool:
    """Does a word for what is saved, granted or worth stand close beside, and none for a price nearer?"""
    not_paid = scene.small.not_paid
    if not not_paid.isdisjoint(behind[:_TO_PRICE]):
        return True
    before = words_before(scene, item, _BEFORE)
    if not_paid.isdisjoint(before):
        return False
    known = scene.before(place)
    return known is None or known.what not in _PRICING or item.at - known.to > 1


def _least_bid(scene: Scene, item: Item) -> bool:
    """Are offers under it refused?"""
    before, small = words_before(scene, item, _UNDER), scene.small
    return not small.under.isdisjoint(before[:2]) and not small.bids_named.isdisjoint(before)


def _bare_prices(scene: Scene) -> list[int]:
    """Places of figures without a currency and with "each" directly behind them."""
    bare = scene.units.get("") if "each" in scene.by_what else None
    if bare is None:
        return []
    near = {at for place in scene.by_what["each"] for at in (place - 1, place - 2)}
    return [at for at in near.intersection(bare) if scene.stands("each", scene.items[at].field, scene.items[at].to)]


def _of_thing(scene: Scene, place: int) -> bool:
    """Is it the price of a thing that its part of the sentence begins with, and is none of the goods named in that?"""
    if _THINGS.isdisjoint(scene.near(place, _FAR, 3)):
        return False
    item, tokens = scene.items[place], scene.tokens[scene.items[place].field]
    if _article(scene, item) and any(scene.stands(what, item.field, item.to) for what in _THINGS):
        return True  # "comes with a £15 bracket"
    before = scene.back(place, _FAR)
    thing = next((one for one in before if one.what in _THINGS), None)
    if thing is None or thing.clause != item.clause:
        return False
    begin = thing.at - 1
    if begin >= 0 and tokens[begin].isdecimal():
        begin -= 1
    if (begin >= 0 and tokens[begin] not in _ENDS) or len(_words(tokens, thing.to, item.at)) > _TO_PRICE:
        return False
    part = [one for one in (*before, *scene.ahead(place, 6)) if one.clause == item.clause]
    return all(one.what not in _GOODS or _same_word(part, one) for one in part)


def _article(scene: Scene, item: Item) -> bool:
    """Does "a" stand before an amount and its sign?"""
    before = scene.tokens[item.field][max(item.at - 2, 0) : item.at]
    return "a" in before and [word for word in before if word.isalnum()][-1] == "a"


def _same_word(part: list[Item], one: Item) -> bool:
    """Is it another meaning of the word of a thing, or "each" beside an amount?"""
    return one.what == "piece" or any(two.what in _THINGS and two.at <= one.at < two.to for two in part)


def is_road(scene: Scene, item: Item) -> bool:
    """Is a bare figure behind "a" the number of a road: "5 minutes from the A3", "an der A 3"?"""
    tokens, at = scene.tokens[item.field], item.at - 1
    if at < 0 or tokens[at] != "a":
        return False
    return scene.glued(item.field, item.at) or (at > 0 and tokens[at - 1] in scene.small.light_words)
