"""What is offered: panels, inverters, a set, something else; and is it an offer?"""

from typing import NamedTuple

from service.core.adverts.also_wanted import is_looked_for
from service.core.adverts.aside import in_exchange, is_optional, is_reason, is_supposed
from service.core.adverts.asked_for import is_asked_for, needs_goods
from service.core.adverts.bids import kind_of_bids
from service.core.adverts.bundles import bundles_of
from service.core.adverts.left_by_edit import only_inverter_left
from service.core.adverts.looked_for import looks_for_none
from service.core.adverts.missing_inverters import inverter_missing
from service.core.adverts.only_mentioned import is_only_mentioned, told_for_panels
from service.core.adverts.only_this import come_along, is_kit_with_panels, is_of_set, leave_out_panels, only_sold
from service.core.adverts.other_goods import has_panel_ratings, sells_other_goods
from service.core.adverts.pieces import pieces_on_offer
from service.core.adverts.priced_apart import priced_apart
from service.core.adverts.scene import Scene, numbers
from service.core.adverts.services import is_let, is_service
from service.core.adverts.set_figures import counted_in_set, figures_tell_set, listed, stroked
from service.core.adverts.sold_how import is_gone_behind, stays
from service.core.adverts.sorts import single_count
from service.core.adverts.walk import CURRENCIES, NUMBER, Item
from service.core.adverts.would_take import is_buyers

_GOODS = {"panel_one": "panel", "panel_many": "panel", "inverter_one": "inverter", "inverter_many": "inverter",
          "set_one": "set", "set_many": "set", "other_goods": "other", "accessory": "other"}  # fmt: skip
_TWO_KINDS = frozenset(("panel", "inverter"))
_FIRST_WORDS, _FARTHEST, _FARTHEST_TAKER = 4, 14, 3
_DASHES = frozenset("-:(|")
_TOLD_OFF = frozenset(("for", "takes", "range"))


class Goods(NamedTuple):
    """Kind, offer or not, pieces; on how many pallets, or in how many equal sets, where more than one is offered."""

    kind: str
    is_offer: bool
    quantity: int | None
    why: str | None
    pallets: int = 1
    bundles: int = 1
    left_by_edit: int = -1  # the place of an edit that leaves only the inverter


class _Named:
    """Goods that are named as offered: by kind, in the title, in all."""

    def __init__(self) -> None:
        self.title: dict[str, list[int]] = {}
        self.all: dict[str, list[int]] = {}


def goods_of(scene: Scene) -> Goods:
    """Kind, offer and quantity; ``why`` is the doubt that goes with goods that are no panels, inverters or sets."""
    kind, why = _kind(scene, named := _named(scene))
    if kind == "set" and "set" not in named.all and priced_apart(scene):
        kind = "panel"  # of which there may be several; the inverter goes by itself
    asked = _wanted(scene) or is_asked_for(scene) or needs_goods(scene)
    if asked or is_buyers(scene):
        return Goods(kind if why or kind != "other" else kind_of_bids(scene), False, None, "wanted_ad")
    if is_service(scene, kind) or is_let(scene):
        return Goods("other", False, None, "service")
    if kind == "other" and why is None:
        priced = bool(scene.price) or any(scene.items[at].unit in CURRENCIES for at in numbers(scene))
        return Goods("other", priced, None, "nothing_described")
    if kind == "set" and (edit := only_inverter_left(scene)) >= 0:
        return Goods("inverter", True, 1, None, left_by_edit=edit)
    if kind == "inverter" and "set" in named.title:
        leave_out_panels(scene)
    bundled = bundles_of(scene) if kind in {"panel", "inverter"} else None
    quantity, pallets = pieces_on_offer(scene, kind, bundled)
    return Goods(kind, True, single_count(scene, kind, quantity), why, pallets, bundled[0] if bundled else 1)


def _named(scene: Scene) -> _Named:
    named = _Named()
    told = scene.by_what
    told_off, taken = scene.tells("without", *_TOLD_OFF), "gone" in told or "maybe" in told
    panels, swapped = "panel_one" in told or "panel_many" in told, "swap" in told
    both = panels and ("inverter_one" in told or "inverter_many" in told)
    reasons = both and scene.tells("because", "d:dead", "s:broken")
    missing = inverter_missing(scene)
    for place in scene.places(_GOODS.keys()):
        item = scene.items[place]
        good = _GOODS[item.what]
        if told_off and (is_purpose(scene, place) or scene.denied(place, behind=False)):
            continue
        if taken and (_gone(scene, place) or is_supposed(scene, place)):
            continue
        if (swapped and in_exchange(scene, place)) or (good == "inverter" and panels and is_optional(scene, place)):
            continue
        if good == "inverter" and (missing or (reasons and is_reason(scene, place))):
            continue
        if both and good in _TWO_KINDS and is_only_mentioned(scene, place):
            continue
        if _modifies(scene, place, good) or (good == "set" and _origin(scene, place)):
            continue
        if item.field == 0:
            named.title.setdefault(good, []).append(place)
        named.all.setdefault(good, []).append(place)
    if "panel" in named.title and told_for_panels(scene, named.title.get("inverter", []), named.all["panel"]):
        del named.title["panel"], named.all["panel"]
    only = only_sold(scene) or ("inverter" if is_of_set(scene, named.title, named.all) else None)
    for other in ("set", "panel", "inverter") if only in named.all else ():
        if other != only:
            named.title.pop(other, None)
            named.all.pop(other, None)
    return named


def is_purpose(scene: Scene, place: int) -> bool:
    """Does "for" stand close before it: "for two panels"?"""
    if _TOLD_OFF.isdisjoint(scene.near(place, 8, 0)):
        return False
    item = scene.items[place]
    if _up_to(scene, place, item):
        return True
    for one in scene.back(place, 6):
        if one.clause != item.clause or item.at - one.to > 4 or one.what == "selling":
            return False
        if one.what == "for" or (one.what == "takes" and _GOODS[scene.items[place].what] == "panel"):
            close = item.at - one.to <= 3 and ":" not in scene.tokens[item.field][one.to : item.at]
            return close and (not scene.paid_for(one) if one.what == "for" else _of_inverter(scene, place))
        if one.what in _GOODS:
            if item.at - one.to > 1:
                return False
            item = one  # "for balcony-set inverters": one word of several parts
        elif one.what == NUMBER and one.unit in {"", "W"} and item.at - one.to <= 2:
            item = one  # "for 2 x 450 W panels"
    return False


def _up_to(scene: Scene, place: int, item: Item) -> bool:
    """Does it tell how many panels an inverter takes: "inverter up to 4 panels"?"""
    if _GOODS[item.what] != "panel" or "range" not in scene.by_what:
        return False
    before = [one for one in scene.back(place, 8) if one.clause == item.clause and item.at - one.to <= 6]
    told = [one for one in before if one.what == NUMBER and not one.unit and item.at - one.to <= 1]
    if not told or told[0] is not before[0]:
        return False
    from_ = next((one for one in before[1:] if one.what == "range" and told[0].at == one.to), None)
    if from_ is None:
        return False
    rest = [one for one in before[1:] if one.to <= from_.at]
    return bool(rest) and rest[0].what in {"inverter_one", "inverter_many"} and from_.at == rest[0].to


def _of_inverter(scene: Scene, place: int) -> bool:
    """Is an inverter told of before it in its sentence, or in the title, so that "takes" tells what that one takes?"""
    near = any(one.what.startswith("inverter_") for one in scene.back(place))
    return near or any(
        scene.items[at].field == 0 for what in ("inverter_one", "inverter_many") for at in scene.by_what.get(what, [])
    )


def _origin(scene: Scene, place: int) -> bool:
    """Does it only tell what the goods were taken out of?"""
    item, before = scene.items[place], scene.before(place)
    return before is not None and before.what == "origin" and item.at - before.to <= 1


def _gone(scene: Scene, place: int) -> bool:
    """Is it said in its clause that the seller keeps it, has sold it, or sells it apart?"""
    if "gone" not in scene.by_what:
        return False
    item, ahead = scene.items[place], scene.ahead(place, 5)
    near = (*scene.back(place, 4), *ahead)
    if any(one.what == "gone" and one.clause == item.clause and not stays(scene, item, one) for one in near):
        return True
    tokens = scene.tokens[item.field]
    return tokens[item.to : item.to + 1] == ["("] and any(
        one.what == "gone" and one.at == item.to + 1 and tokens[one.to : one.to + 1] == [")"] for one in ahead
    )


def _modifies(scene: Scene, place: int, good: str) -> bool:
    """Do other goods stand directly behind it, so that it only tells of what kind those are?"""
    item = scene.items[place]
    behind = scene.behind(place)
    if behind is None or behind.clause != item.clause or behind.at - item.to > (1 if good != "other" else 0):
        return False
    other = _GOODS.get(behind.what)
    return other is not None and other != good and behind.at >= item.to and other != "set" and good != "other"


def _wanted(scene: Scene) -> bool:
    spoiled = {scene.items[at].sentence for at in scene.by_what.get("wanted_not", [])}
    for at in scene.by_what.get("wanted", []):
        item = scene.items[at]
        if item.sentence in spoiled or scene.denied(at) or _takers(scene, at, item) or looks_for_none(scene, at):
            continue
        behind = next((one for one in scene.ahead(at, 4) if one.at >= item.to and one.what != "between"), None)
        if behind is not None and behind.unit in CURRENCIES and behind.at - item.to <= 2:
            continue
        first = item.at - _start(scene, at) < _FIRST_WORDS
        if item.field == 0 and (first or _ends_title(scene, item)):
            return True
        if item.field == 1 and first and not scene.by_what.get("selling"):
            return not _offered_before(scene, at)
    return False


def _ends_title(scene: Scene, item: Item) -> bool:
    """Does it stand alone behind a dash at the end of the title: "solar panels 400 W - wanted"?"""
    tokens = scene.tokens[0]
    return item.to == len(tokens) and item.at > 0 and tokens[item.at - 1] in _DASHES and "selling" not in scene.by_what


def _takers(scene: Scene, place: int, item: Item) -> bool:
    """Is it a buyer or a new home that is looked for: "looking for a buyer", "buyer wanted"?"""
    if "taker" not in scene.by_what:
        return False
    for one in scene.ahead(place, 4):
        if one.clause != item.clause or one.at - item.to > _FARTHEST_TAKER or one.what in _GOODS:
            break
        if one.what == "taker":
            return True
    return any(one.what == "taker" and item.at - one.to <= 1 for one in scene.back(place, 2))


def _offered_before(scene: Scene, place: int) -> bool:
    """Is an amount of money told before it, so that it asks for something in exchange?"""
    return any(at < place for unit in CURRENCIES for at in scene.units.get(unit, [])[:1])


def _start(scene: Scene, place: int) -> int:
    """The first token of the sentence of an item, as far as its items tell: nought at the beginning of a field."""
    item = scene.items[place]
    back = scene.back(place, 12)
    before = scene.items[place - 1 - len(back)] if place > len(back) else None
    tokens = scene.tokens[item.field]
    from_ = before.to if before is not None and before.field == item.field else 0
    for at in range(item.at - 1, max(from_ - 1, item.at - 12), -1):
        if tokens[at] in {".", "!", "?", "\n", ";"}:
            return at + 1
    return from_


def _kind(scene: Scene, named: _Named) -> tuple[str, str | None]:  # noqa: PLR0911 - a row of questions
    title, all_ = named.title, named.all
    if "panel" in all_ and "inverter" in all_ and _panels_at_most(title) and _kept(scene):
        del all_["inverter"]
        all_.pop("set", None)
        title.pop("inverter", None)
    if "thermal" in scene.by_what and "inverter" not in all_ and not has_panel_ratings(scene):
        return "other", "not_photovoltaic"
    if sells_other_goods(scene, named.title, named.all):
        return "other", "other_goods"
    if "panel" in all_ and "inverter" in all_:
        if "set" in title or ("panel" in title and "inverter" in title) or _together(scene, named):
            return "set", None
        if "set" in all_ and not {"panel", "inverter"} & set(title):
            return "set", None
    elif "set" in title or ("set" in all_ and not {"panel", "inverter"} & set(title)):
        lone = "panel" if "panel" in all_ or inverter_missing(scene) else "inverter" if "inverter" in all_ else None
        sets = [scene.items[at] for at in all_["set"]]
        weak = all(_weak(scene, item) for item in sets) and not is_kit_with_panels(scene, all_["set"])
        lacks = _lacks(scene, "inverter" if lone == "panel" else "panel")
        first = lone and "panel" in title and "set" in title and title[lone][0] < title["set"][0]
        return (
            (lone, None)
            if lone and ((weak and not stroked(scene) and not counted_in_set(scene)) or lacks or first)
            else ("set", None)
        )
    elif "inverter" in all_ and figures_tell_set(scene):
        return "set", None
    for good in ("inverter", "panel", "set"):
        if good in title and not (good == "inverter" and "panel" in title):
            return good, None
    found = {good: places for good, places in all_.items() if good != "other"}
    if found:
        best = max(found, key=lambda good: (len(found[good]), -found[good][0]))
        return best, None
    return ("panel", None) if has_panel_ratings(scene) else ("other", None)


def _weak(scene: Scene, item: Item) -> bool:
    """Is it a word for any set, as "kit", not one for panels with an inverter?"""
    return scene.stands("set_weak", item.field, item.at)


def _lacks(scene: Scene, good: str) -> bool:
    """Is it said that such goods do not come along?"""
    places = [at for what in (f"{good}_one", f"{good}_many") for at in scene.by_what.get(what, [])]
    if good == "inverter" and inverter_missing(scene):
        return True
    return any(scene.denied(at) or _gone(scene, at) or is_looked_for(scene, at) for at in places)


def _panels_at_most(title: dict[str, list[int]]) -> bool:
    """Does the title name no set, and an inverter only beside panels?"""
    return "set" not in title and ("inverter" not in title or "panel" in title)


def _kept(scene: Scene) -> bool:
    """Is it said that the inverter does not come along, not a second one or one of several?"""
    for place in sorted(at for what in ("inverter_one", "inverter_many") for at in scene.by_what.get(what, [])):
        item = scene.items[place]
        before = scene.tokens[item.field][max(item.at - 2, 0) : item.at]
        one_of = any(one.what == NUMBER and item.at - one.to <= 1 for one in scene.back(place, 2) if not one.unit)
        sold = is_gone_behind(scene, place)
        if item.field and not one_of and scene.small.second.isdisjoint(before) and (sold or _gone(scene, place)):
            return True
    return False


def _spelled_out(scene: Scene, named: _Named) -> bool:
    """Do panels and an inverter stand behind a word for a set in its sentence: "kit: one panel, an inverter"?"""
    last = [{scene.items[at].sentence: at for at in named.all[good]} for good in ("panel", "inverter")]
    return any(
        all(of_good.get(scene.items[place].sentence, -1) > place for of_good in last)
        for place in (*named.all.get("set", ()), *scene.by_what.get("set_weak", []))
    )


def _together(scene: Scene, named: _Named) -> bool:
    """Does an inverter come along with panels: "panels with inverter", "two panels, an inverter"?"""
    title = set(named.title) - {"other"}
    if title != {"panel"} and (_listed(scene, named) or come_along(scene, named.all["panel"])):
        return True
    if any(_along(scene, at, title) for at in named.all["inverter"]) or _spelled_out(scene, named):
        return True
    ahead = scene.ahead(min(named.all["inverter"][0], named.all["panel"][0]), 8)
    return not title and any(one.what in {"plus", "per_set"} for one in ahead)


def _along(scene: Scene, place: int, title: set[str]) -> bool:
    """Is an inverter joined to panels before it by a plus?"""
    item = scene.items[place]
    plus = False
    for one in scene.back(place, 8):
        if (one.what in {"extra", "each"} and one.clause == item.clause) or item.at - one.to > _FARTHEST:
            return False
        plus = plus or one.what == "plus"
        if _GOODS.get(one.what) == "panel" and title != {"inverter"}:
            return not title or plus or "+" in scene.tokens[one.field][one.to : item.at]
        if one.what == "plus" and item.at - one.to <= 4 and title == {"panel"}:
            return True
    return False


def _listed(scene: Scene, named: _Named) -> bool:
    """Do a number of panels and an inverter stand in one sentence, or panels' watts in a title beside an inverter?"""
    if listed(scene, named.all["panel"], named.all["inverter"]):
        return True
    return "inverter" in named.title and any(
        scene.items[at].peak and not scene.items[at].field for at in scene.units.get("W", [])
    )
