"""In what state are the goods, how do they come, and what in the words gives cause for doubt?"""

from service.core.adverts.broken_goods import add_broken_goods, is_packing
from service.core.adverts.damage import damage_of_the_goods
from service.core.adverts.dangers import DANGER
from service.core.adverts.denials import bound_to_none, told_not_to_be
from service.core.adverts.exceptions import excepted_of
from service.core.adverts.goods import Goods
from service.core.adverts.labels import labels_taken_off, leave_out_other_labels
from service.core.adverts.new_things import leave_out_new_things
from service.core.adverts.numerals import FIRST_YEAR, LAST_YEAR
from service.core.adverts.of_goods_only import add_of_goods_only
from service.core.adverts.off_grid import off_grid_of_the_goods
from service.core.adverts.paid_first import add_paid_first
from service.core.adverts.payments import PAID_FIRST, leave_out_undemanded, sent_when_paid
from service.core.adverts.plugs import add_plugs_of_panels, leave_out_ordinary_plugs
from service.core.adverts.promised import add_promised
from service.core.adverts.scene import Scene
from service.core.adverts.walk import MONEY_UNITS, NUMBER, Item
from service.core.adverts.whose import DEFECT_MEANINGS, leave_out_strangers

BREAKING = frozenset({"cracked_glass", "hail_damage", "broken_junction_box", "backsheet_damage", "delamination", "dead",
                      "dead_input", "broken_display", "weak"})  # fmt: skip


# What is said of which part is which defect.
_DEFECT_OF = {
    ("junction_box", "broken"): "broken_junction_box", ("junction_box", "loose"): "broken_junction_box",
    ("glass", "broken"): "cracked_glass", ("backsheet", "broken"): "backsheet_damage",
    ("display", "broken"): "broken_display", ("connector", "missing"): "missing_connector",
    ("connector", "cut"): "missing_connector", ("cable", "cut"): "short_cable", ("lead", "missing"): "missing_lead",
    ("label", "missing"): "missing_label", ("label", "unreadable"): "missing_label",
}  # fmt: skip
_EVEN_DENIED = frozenset(("q:account_bound", PAID_FIRST))  # "not yet released from the account"
_OFF_GRID = "q:off_grid"
_OF_SERIALS = (("s:taken_off", "q:label_removed"), ("s:missing", "q:no_invoice"), ("s:unreadable", "q:no_invoice"))
_PAYING = ("pay_in", "q:advance_payment")
_STATES = ("s:broken", "s:loose", "s:missing", "s:cut", "s:unreadable")
_FAULTS = DEFECT_MEANINGS | frozenset((*_STATES, DANGER))
_NEAR = 7  # pieces between a part and what is said of it
_BEHIND_COSTS = 2  # what stands before a state is more often its part than what stands behind
_TO_INPUT = 3
_TO_ACCOUNT = 5
_TO_WATTS = 2
_UNCONNECTED = "d:missing_connector"
_LACKING = frozenset(("p:lead", "p:label", "p:connector"))


def put_together(scene: Scene, kind: str) -> None:
    """Defects out of a part and what is said of it close by in its clause: "the glass is cracked", "loose lid"."""
    add_of_goods_only(scene)
    damage_of_the_goods(scene, kind, _FAULTS)
    for state in _STATES:
        for place in scene.by_what.get(state, []):
            part = _nearest_part(scene, place)
            defect = _DEFECT_OF.get((part, state[2:])) if part else None
            if defect and not (scene.denied(place) or is_packing(scene, scene.items[place])):
                scene.by_what.setdefault(f"d:{defect}", []).append(place)
                if defect != "cracked_glass":  # "cracked" is then said of that part
                    _leave_out(scene, "d:cracked_glass", scene.items[place])
    _serials_taken_off(scene)
    labels_taken_off(scene)
    _accounts_of_banks(scene)
    bound_to_none(scene)
    for place in scene.by_what.get("without", []):
        item = scene.items[place]
        behind = next((one for one in scene.ahead(place, 3) if one.what in _LACKING), None)
        if behind is not None and behind.clause == item.clause and 0 <= behind.at - item.to <= 1:
            if behind.what == "p:connector" and _burnt_ones(scene, item.at, behind.to, item.field):
                continue
            scene.by_what.setdefault(f"d:{_DEFECT_OF[behind.what[2:], 'missing']}", []).append(place)
    if _UNCONNECTED in scene.by_what:
        told = [(at, scene.items[at]) for at in scene.by_what[_UNCONNECTED]]
        scene.by_what[_UNCONNECTED] = [at for at, one in told if not _burnt_ones(scene, one.at, one.to, one.field)]
    leave_out_other_labels(scene)
    add_paid_first(scene)
    leave_out_undemanded(scene)
    leave_out_ordinary_plugs(scene, kind)
    add_plugs_of_panels(scene, kind)
    add_promised(scene)
    off_grid_of_the_goods(scene, kind)
    leave_out_strangers(scene, kind)
    if "s:broken" in scene.by_what:
        add_broken_goods(scene, kind, BREAKING)
    if "new" in scene.by_what:
        leave_out_new_things(scene, kind)


def _burnt_ones(scene: Scene, low: int, high: int, field: int) -> bool:
    """Does a word for burnt stand beside connectors, so that no such ones are meant: "no burnt connectors"?"""
    return not scene.small.burnt_ones.isdisjoint(scene.tokens[field][low : high + 1])


def _serials_taken_off(scene: Scene) -> None:
    """Serial numbers that are "scratched off" make a label that is removed, no scratch; those that are lost, none."""
    if "p:serial" not in scene.by_what:
        return
    no_scratch: set[tuple[int, int]] = set()
    for state, doubt in _OF_SERIALS:
        for place in scene.by_what.get(state, []):
            item = scene.items[place]
            near = [one for one in scene.back(place, 8) if item.at - one.to <= _NEAR]
            near += [one for one in scene.ahead(place, 4) if one.at - item.to <= _BEHIND_COSTS]
            if any(one.what == "p:serial" and one.clause == item.clause for one in near) and not scene.denied(place):
                scene.by_what.setdefault(doubt, []).append(place)
                no_scratch.add((item.field, item.at))
    if no_scratch and "d:cosmetic" in scene.by_what:
        scene.by_what["d:cosmetic"] = [
            at for at in scene.by_what["d:cosmetic"] if (scene.items[at].field, scene.items[at].at) not in no_scratch
        ]


def _accounts_of_banks(scene: Scene) -> None:
    """An account that is paid into binds no goods."""
    if "q:account_bound" not in scene.by_what:
        return
    kept = [place for place in scene.by_what["q:account_bound"] if not _paid_into(scene, place)]
    if kept:
        scene.by_what["q:account_bound"] = kept
    else:
        del scene.by_what["q:account_bound"]


def _paid_into(scene: Scene, place: int) -> bool:
    item = scene.items[place]
    near = (*scene.back(place, 6), *scene.ahead(place, 4))
    if any(one.what in _PAYING and one.clause == item.clause and abs(one.at - item.at) <= _NEAR for one in near):
        return True
    before = scene.tokens[item.field][max(item.at - _TO_ACCOUNT, 0) : item.at]
    money = next((at for at, word in enumerate(before) if word.startswith(scene.small.money_named)), None)
    return money is not None and all(word.isalnum() for word in before[money:])  # "your money is in my account"


def _leave_out(scene: Scene, what: str, item: Item) -> None:
    """A meaning that is told by the same words as ``item`` is none."""
    places = [
        at for at in scene.by_what.get(what, []) if (scene.items[at].field, scene.items[at].at) != (item.field, item.at)
    ]
    if what in scene.by_what:
        scene.by_what[what] = places


def _nearest_part(scene: Scene, place: int) -> str | None:
    """The part of the goods nearest to a word for its state, in the same clause."""
    item = scene.items[place]
    state, clause = item.what[2:], item.clause
    before = [(item.at - one.to, one.what[2:]) for one in scene.back(place, 8)
              if one.clause == clause and one.what.startswith("p:")]  # fmt: skip
    behind = [(one.at - item.to + _BEHIND_COSTS, one.what[2:]) for one in scene.ahead(place, 5)
              if one.clause == clause and one.what.startswith("p:")]  # fmt: skip
    fitting = [(away, part) for away, part in before + behind if 0 <= away <= _NEAR and (part, state) in _DEFECT_OF]
    return min(fitting)[1] if fitting else None


def defects_of(scene: Scene, kind: str) -> tuple[str, ...]:
    """Defects that are said and not denied, in the order of the alphabet."""
    found = {what[2:] for what in scene.by_what.keys() & DEFECT_MEANINGS if scene.has(what)}
    if kind == "inverter":
        found -= {"cracked_glass", "backsheet_damage", "delamination"}
    elif kind == "panel":
        found -= {"dead_input", "broken_display", "missing_lead"}
    if kind == "inverter" and "dead" in found and any(_of_input(scene, place) for place in scene.said("d:dead")):
        found.add("dead_input")
    if kind == "inverter" and "dead_input" in found:  # "broken, one input does not work"
        found.discard("dead")
    if "cracked_glass" in found and "dead" in found:  # one word as "broken" then means the glass
        dead = [scene.items[place] for place in scene.said("d:dead")]
        if all(item.to - item.at == 1 for item in dead):
            found.discard("dead")
    return tuple(sorted(found))


def _of_input(scene: Scene, place: int) -> bool:
    """Is it an input that is dead, not all of the inverter?"""
    item = scene.items[place]
    if any(one.what == "inputs" and item.at - one.to <= 8 for one in scene.back(place, 8)):
        return True
    for one in scene.ahead(place, 6):  # "dead second input"
        if one.clause != item.clause or one.at - item.to > _TO_INPUT or one.what.startswith("inverter_"):
            return False
        if one.what == "inputs":
            return True
    return False


def partly(scene: Scene, defects: tuple[str, ...], goods: Goods) -> tuple[bool, bool]:
    """Is a breaking defect said of some pieces only, and of at least half of them?"""
    names = {*defects, "dead"} if "dead_input" in defects else set(defects)
    names.discard("cosmetic")
    if goods.quantity == 1 or not names:
        return False, False
    places = {name: scene.said(f"d:{name}") for name in names}
    some = {name: [place for place in found if _of_some(scene, place, goods)] for name, found in places.items()}
    pieces = goods.quantity or 0
    broken = [place for name, found in some.items() if name in BREAKING for place in found]
    most = max((_counted(scene, place) for place in broken), default=0.0)
    return any(some.values()), 0 < pieces <= 2 * max(most, len({scene.items[place].at for place in broken}))


def _counted(scene: Scene, place: int) -> float:
    """How many pieces have a defect, as far as a number stands before it?"""
    item = scene.items[place]
    if excepted := excepted_of(scene, item):
        return excepted
    part = item.at  # where a word for some begins: "4 perfect and one of them with", "3 of them with"
    for one in scene.back(place, 8):
        if one.clause != item.clause or item.at - one.to > _NEAR:
            continue
        if one.what == NUMBER and not one.unit:
            return one.value if part in {item.at, one.to} else 0.0
        if one.what == "part":
            part = one.at
    return 0.0


def _of_some(scene: Scene, place: int, goods: Goods) -> bool:
    """Is a defect said of fewer pieces than there are?"""
    item = scene.items[place]
    if excepted_of(scene, item):
        return True
    if scene.in_sentence(item.sentence, "all"):
        return False
    if scene.in_sentence(item.sentence, "part"):
        return True
    for one in scene.back(place, 8):
        if (
            one.what in {"panel_one", "inverter_one"}
            and item.at - one.to <= 4
            and one.clause == item.clause
            and one.field
        ):
            return goods.quantity is not None
        if one.what == NUMBER and not one.unit and item.at - one.to <= 8 and one.value != 0:
            return goods.quantity is not None and one.value < goods.quantity and not one.glued
    return False


def condition_of(scene: Scene, defects: tuple[str, ...], *, part: bool) -> str:
    """damaged, used, new, unused or unknown, in this order."""
    whole = set(defects) & BREAKING
    if whole and (not part or "hail_damage" in whole):
        return "damaged"
    if _never(scene):
        return "new" if scene.has("new") else "unused"
    if _used(scene) or "q:account_bound" in scene.by_what or _served(scene):
        return "used"
    if _new(scene):
        return "new"
    if scene.by_what.get("unused"):
        return "unused"
    return "unknown"


def _used(scene: Scene) -> bool:
    """Is it said that they were, not only what they are left over of: "left over from the carport"?"""
    return any(not _left_over(scene, place) for place in scene.said("used"))


def _left_over(scene: Scene, place: int) -> bool:
    """Does a word for what is left over stand directly beside the place where they came from?"""
    item = scene.items[place]
    if item.to - item.at < 2 or "unused" not in scene.near(place, 2, 2):
        return False
    near = [one for one in (*scene.back(place, 2), *scene.ahead(place, 2)) if one.what == "unused"]
    return any(one.clause == item.clause and item.to == one.at for one in near) or any(
        one.clause == item.clause and one.to == item.at for one in near
    )


def _new(scene: Scene) -> bool:
    """Is it said that they are new, not only that so much was paid for them new?"""
    return any(
        not any(one.what == "new_price" and one.clause == scene.items[place].clause for one in scene.back(place, 6))
        for place in scene.said("new")
    )


def _never(scene: Scene) -> bool:
    """Is it said that they were never up ("nie montiert"), and at most once anything that sounds used ("vom Dach")?"""
    if len(scene.said("used")) > 1:
        return False
    for place in scene.by_what.get("unused", []):
        item = scene.items[place]
        if item.to - item.at > 1 and scene.tokens[item.field][item.at] in scene.small.never:
            return True
    return False


def _served(scene: Scene) -> bool:
    """Is a time told for which they were up: "two years on the roof", "war ein Jahr am Balkon"?"""
    sentences = {scene.items[place].sentence for what in ("served", "site") for place in scene.by_what.get(what, [])}
    if not sentences:
        return False
    for place in (*scene.units.get("y", []), *scene.units.get("", [])):
        item = scene.items[place]
        if item.sentence not in sentences or scene.in_sentence(item.sentence, "warranty"):
            continue
        if not item.unit and (item.glued or not FIRST_YEAR <= item.value <= LAST_YEAR):
            continue
        told = {"served", "site"} if item.unit else {"site"}  # "since 1998" may be the seller
        near = (*scene.back(place, 6), *scene.ahead(place, 6))
        if any(one.what in told and abs(one.at - item.at) <= _NEAR for one in near):
            return True
    return "unused" not in scene.by_what and any(_was_there(scene, place) for place in scene.said("site"))


def _was_there(scene: Scene, place: int) -> bool:
    """Is it said without a time that they were there: "waren am Gartenhaus montiert"?"""
    item = scene.items[place]
    near = (*scene.back(place, 4), *scene.ahead(place, 3))
    return not scene.in_sentence(item.sentence, "warranty") and any(
        one.what == "stood" and one.clause == item.clause and abs(one.at - item.at) <= _NEAR for one in near
    )


def sends(scene: Scene) -> bool:
    """Is sending or bringing offered? Electricity is not sent."""
    return scene.has("delivered") or scene.has("bring") or any(
        not any(one.what == "p:output" and one.clause == scene.items[place].clause for one in scene.ahead(place, 3))
        and not _broke(scene, place)
        and not _of_label(scene, place)
        for place in scene.said("shipping")
    )  # fmt: skip


def _broke(scene: Scene, place: int) -> bool:
    """Did sending do harm: "damaged in shipping", "rota por el transporte"?"""
    item = scene.items[place]
    return any(
        one.what[:2] in {"d:", "s:"} and one.clause == item.clause and 1 <= item.at - one.to <= 2
        for one in scene.back(place, 3)
    )


def _of_label(scene: Scene, place: int) -> bool:
    """Is it a label of a carrier that is told of: "étiquette du transporteur"?"""
    item = scene.items[place]
    return any(one.what == "p:label" and one.clause == item.clause and item.at - one.to <= 2
               for one in scene.back(place, 2))  # fmt: skip


def delivery_of(scene: Scene) -> str:
    """pickup, shipping, either or unknown."""
    when_paid = PAID_FIRST in scene.by_what and sent_when_paid(scene)
    sent = when_paid or sends(scene)
    fetched = scene.has("pickup")
    refused = "refused" in scene.by_what or (
        not sent and any(scene.denied(place) for place in scene.by_what.get("shipping", []))
    )
    if sent and (fetched or scene.has("bring") or scene.has("viewing") or _on_wish(scene)):
        return "either"
    if sent:
        return "shipping"
    return "pickup" if fetched or refused else "unknown"


def _on_wish(scene: Scene) -> bool:
    """Is sending only a possibility?"""
    for place in (*scene.said("shipping"), *scene.said("delivered")):
        item = scene.items[place]
        near = [one for one in scene.ahead(place, 3) if one.at - item.to <= 2]
        near += [one for one in scene.back(place, 3) if item.at - one.to <= 2]
        if any(one.what == "possible" and one.clause == item.clause for one in near):
            return True
    return False


def word_doubts(scene: Scene) -> set[str]:
    """Doubts that the words alone raise."""
    names = {"unsafe": "unsafe_practice", "hostile": "hostile_content", "off_grid": "off_grid_inverter",
             "paid_first": "advance_payment"}  # fmt: skip
    found = {
        names.get(what[2:], what[2:])
        for what in scene.by_what
        if ":" in what and what.startswith("q:") and what != DANGER  # which is looked into further
        if what in _EVEN_DENIED or any(_is_said(scene, what, at) for at in scene.by_what[what])
    }
    if any(not _lowered_price(scene, place) for place in scene.said("limited")):
        found.add("output_limited")
    if scene.by_what.get("whole") or scene.by_what.get("sets_only"):
        found.add("minimum_order")
    return found


def _lowered_price(scene: Scene, place: int) -> bool:
    """Is it a price that is reduced, with no watts beside: "reduziert: statt 80 nur noch 60 Euro"?"""
    item = scene.items[place]
    if not scene.tokens[item.field][item.at].startswith(scene.small.price_cut):
        return False
    if any(
        scene.items[at].sentence == item.sentence and abs(at - place) <= _TO_WATTS for at in scene.units.get("W", [])
    ):
        return False
    near = (*scene.back(place, 4), *scene.ahead(place, 4))
    return any(one.unit in MONEY_UNITS or one.what == "new_price" for one in near)


def _is_said(scene: Scene, what: str, place: int) -> bool:
    return not scene.denied(place, behind=False) and not (what == _OFF_GRID and told_not_to_be(scene, place))
