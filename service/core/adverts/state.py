"""In what state are the goods, how do they come, and what in the words gives cause for doubt?"""

from service.core.adverts.goods import Goods
from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER

BREAKING = frozenset({"cracked_glass", "hail_damage", "broken_junction_box", "backsheet_damage", "delamination", "dead",
                      "dead_input", "broken_display"})  # fmt: skip


# What is said of which part is which defect.
_DEFECT_OF = {
    ("junction_box", "broken"): "broken_junction_box", ("junction_box", "loose"): "broken_junction_box",
    ("glass", "broken"): "cracked_glass", ("backsheet", "broken"): "backsheet_damage",
    ("display", "broken"): "broken_display", ("connector", "missing"): "missing_connector",
    ("connector", "cut"): "missing_connector", ("cable", "cut"): "short_cable", ("lead", "missing"): "missing_lead",
    ("label", "missing"): "missing_label", ("label", "unreadable"): "missing_label",
}  # fmt: skip
_EVEN_DENIED = frozenset(("q:account_bound",))  # "not yet released from the account"
_STATES = ("s:broken", "s:loose", "s:missing", "s:cut", "s:unreadable")
_NEAR = 7  # pieces between a part and what is said of it
_BEHIND_COSTS = 2  # what stands before a state is more often its part than what stands behind
_LACKING = frozenset(("p:lead", "p:label", "p:connector"))


def put_together(scene: Scene) -> None:
    """Defects out of a part and what is said of it close by in its clause: "the glass is cracked", "loose lid"."""
    for state in _STATES:
        for place in scene.by_what.get(state, ()):
            part = _nearest_part(scene, place)
            defect = _DEFECT_OF.get((part, state[2:])) if part else None
            if defect and not scene.denied(place):
                scene.by_what.setdefault(f"d:{defect}", []).append(place)
    for place in scene.by_what.get("without", ()):
        item = scene.items[place]
        behind = next((one for one in scene.ahead(place, 3) if one.what in _LACKING), None)
        if behind is not None and behind.clause == item.clause and 0 <= behind.at - item.to <= 1:
            scene.by_what.setdefault(f"d:{_DEFECT_OF[behind.what[2:], 'missing']}", []).append(place)


def _nearest_part(scene: Scene, place: int) -> str | None:
    """The part of the goods nearest to a word for its state, in the same clause."""
    item = scene.items[place]
    near = [(item.at - one.to, one) for one in scene.back(place, 5)]
    near += [(one.at - item.to + _BEHIND_COSTS, one) for one in scene.ahead(place, 5)]
    parts = [(away, one.what[2:]) for away, one in near
             if one.what[:2] == "p:" and one.clause == item.clause and 0 <= away <= _NEAR]  # fmt: skip
    fitting = [(away, part) for away, part in parts if (part, item.what[2:]) in _DEFECT_OF]
    return min(fitting)[1] if fitting else None


def defects_of(scene: Scene, kind: str) -> tuple[str, ...]:
    """Defects that are said and not denied, in the order of the alphabet."""
    found = {what[2:] for what in scene.by_what if what[:2] == "d:" and scene.has(what)}
    if kind == "inverter":
        found -= {"cracked_glass", "backsheet_damage", "delamination"}
    elif kind == "panel":
        found -= {"dead_input", "broken_display", "missing_lead"}
    if kind == "inverter" and "dead" in found and any(_of_input(scene, place) for place in scene.said("d:dead")):
        found = (found - {"dead"}) | {"dead_input"}
    if "cracked_glass" in found and "dead" in found:  # one word as "broken" then means the glass
        dead = [scene.items[place] for place in scene.said("d:dead")]
        if all(item.to - item.at == 1 for item in dead):
            found.discard("dead")
    return tuple(sorted(found))


def _of_input(scene: Scene, place: int) -> bool:
    """Is it an input that is dead, not all of the inverter?"""
    item = scene.items[place]
    return any(one.what == "inputs" and item.at - one.to <= 8 for one in scene.back(place, 8))


def partly(scene: Scene, defects: tuple[str, ...], goods: Goods) -> bool:
    """Is a breaking defect said of some pieces only?"""
    if goods.quantity == 1:
        return False
    return any(
        _of_some(scene, place, goods)
        for defect in defects
        if defect != "cosmetic"
        for place in scene.said(f"d:{defect}")
    )


def _of_some(scene: Scene, place: int, goods: Goods) -> bool:
    """Is a defect said of fewer pieces than there are?"""
    item = scene.items[place]
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
    if scene.has("used") or "q:account_bound" in scene.by_what:
        return "used"
    if scene.has("new"):
        return "new"
    if scene.by_what.get("unused"):
        return "unused"
    return "unknown"


def delivery_of(scene: Scene) -> str:
    """pickup, shipping, either or unknown."""
    sent = scene.has("shipping") or scene.has("delivered")
    fetched = scene.has("pickup")
    refused = bool(scene.by_what.get("shipping")) and not sent
    if sent and (fetched or _on_wish(scene)):
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
    names = {"unsafe": "unsafe_practice", "hostile": "hostile_content", "off_grid": "off_grid_inverter"}
    found = {
        names.get(what[2:], what[2:])
        for what, places in scene.by_what.items()
        if what[:2] == "q:" and any(what in _EVEN_DENIED or not scene.denied(at, behind=False) for at in places)
    }
    if scene.has("limited"):
        found.add("output_limited")
    if scene.has("minimum") or scene.by_what.get("whole"):
        found.add("minimum_order")
    return found
