"""Are lamps, brackets, boxes or knowledge what is sold, though panels or inverters are named?"""

from service.core.adverts.around_panels import sells_what_is_around
from service.core.adverts.belongings import sells_a_belonging, sells_another_inverter
from service.core.adverts.lessons import sells_knowledge
from service.core.adverts.scene import Scene

_OF_PANELS = ("cells", "t:mono", "t:poly", "t:topcon", "t:hjt", "bifacial", "voc")
_Places = dict[str, list[int]]  # by kind of goods


def sells_other_goods(scene: Scene, title: _Places, all_: _Places) -> bool:
    """Is it anything else that is sold, whatever panels and inverters are named, in the title and in all?"""
    if sells_another_inverter(scene, title, all_) or sells_a_belonging(scene, all_) or sells_what_is_around(scene):
        return True
    return sells_knowledge(scene) or _lamps_and_the_like(scene, title, all_) or _with_panel(scene, all_)


def _lamps_and_the_like(scene: Scene, title: _Places, all_: _Places) -> bool:
    """Are lamps, brackets and the like what is sold, not what comes along?"""
    along = {"panel", "inverter"} <= set(all_) and all(
        scene.items[at].what == "accessory" for at in title.get("other", ())
    )  # "plug, panel" above panels and an inverter
    if "other" not in all_ or along or {"voc", "isc"} <= set(scene.by_what):
        return False
    if all(scene.items[at].what == "accessory" for at in all_["other"]) and (
        set(all_) - {"other"} or ("cells" in scene.by_what and has_panel_ratings(scene))
    ):
        return False
    if "other" in title:
        if {"inverter", "set"} & set(title):
            rest = [scene.items[at] for good in ("inverter", "set") for at in title.get(good, ())]
            other = scene.items[title["other"][0]]
            return all(other.at < one.at and other.clause == one.clause for one in rest) and not _rated(scene)
        if "panel" not in title:
            return not has_panel_ratings(scene) or "panel" not in all_
        other, panel = scene.items[title["other"][0]], scene.items[title["panel"][0]]
        return other.at < panel.at and other.clause == panel.clause
    return not set(title) - {"other"} and not set(all_) - {"other"}


def _with_panel(scene: Scene, all_: _Places) -> bool:
    """Is a thing without ratings told of that has a panel: "garden lamp with solar panel"?"""
    for place in all_.get("other", ()) if not _rated(scene) else []:
        item, behind = scene.items[place], scene.ahead(place, 2)
        told = [one.what for one in (item, *behind) if one.at - item.to <= 3]
        if told != ["other_goods", "plus", "panel_one"]:
            continue
        if scene.tokens[item.field][behind[0].at] not in scene.small.panel_along:
            return True
    return False


def _rated(scene: Scene) -> bool:
    return "W" in scene.units or "voc" in scene.by_what


def has_panel_ratings(scene: Scene) -> bool:
    """Are there ratings that only a panel has?"""
    watts = scene.units.get("W", [])
    if "voc" in scene.by_what or any(scene.items[at].peak for at in watts):
        return True
    return bool(watts) and scene.tells(*_OF_PANELS)
