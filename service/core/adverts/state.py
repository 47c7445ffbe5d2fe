"""In what state are the goods, how do they come, and what in the words gives cause for doubt?"""

from service.core.adverts.goods import Goods
from service.core.adverts.scene import Scene

BREAKING = frozenset({"cracked_glass", "hail_damage", "broken_junction_box", "backsheet_damage", "delamination", "dead",
                      "dead_input", "broken_display"})  # fmt: skip


def defects_of(scene: Scene, kind: str) -> tuple[str, ...]:
    """Defects that are said and not denied, in the order of the alphabet."""
    found = {what[2:] for what in scene.by_what if what[:2] == "d:" and scene.has(what)}
    if kind == "inverter":
        found -= {"cracked_glass", "backsheet_damage", "delamination"}
    elif kind == "panel":
        found -= {"dead_input", "broken_display", "missing_lead"}
    return tuple(sorted(found))


def partly(scene: Scene, defects: tuple[str, ...], goods: Goods) -> bool:
    """Is a breaking defect said of some pieces only?"""
    if goods.quantity == 1:
        return False
    for defect in defects:
        if defect != "cosmetic":
            for place in scene.said(f"d:{defect}"):
                if scene.in_sentence(scene.items[place].sentence, "part"):
                    return True
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
    if sent and fetched:
        return "either"
    if sent:
        return "shipping"
    return "pickup" if fetched or refused else "unknown"


def word_doubts(scene: Scene) -> set[str]:
    """Doubts that the words alone raise."""
    names = {"unsafe": "unsafe_practice", "hostile": "hostile_content", "off_grid": "off_grid_inverter"}
    found = {names.get(what[2:], what[2:]) for what in scene.by_what if what[:2] == "q:"}
    if scene.has("limited"):
        found.add("output_limited")
    if scene.has("minimum") or scene.by_what.get("whole"):
        found.add("minimum_order")
    return found
