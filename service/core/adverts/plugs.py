"""Is a plug that sounds dangerous an ordinary one: of the mains on each inverter's own lead, or between panels?

A mains plug at both ends of one lead, and one on the lead of a panel, stay what they are.
"""

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, PANELS

_UNSAFE = "q:unsafe"
_MAINS_A = frozenset(("10", "13", "16"))  # what a household plug carries
_BEFORE, _FAR_BEFORE, _BEHIND, _TO_PANEL = 2, 8, 3, 6  # pieces


def leave_out_ordinary_plugs(scene: Scene, kind: str) -> None:
    """Plugs between panels, and a mains plug on each lead of inverters, raise no doubt."""
    places = scene.by_what.get(_UNSAFE)
    if not places:
        return
    kept = [at for at in places if not (_between_panels(scene, at) or _on_own_lead(scene, at, kind))]
    if kept:
        scene.by_what[_UNSAFE] = kept
    else:
        del scene.by_what[_UNSAFE]


def _between_panels(scene: Scene, place: int) -> bool:
    """Is a connector of panels named there, and none of the mains: "MC4 plugs on both leads"?"""
    item, small = scene.items[place], scene.small
    if not any(word.startswith(small.plug) for word in scene.tokens[item.field][item.at : item.to]):
        return False
    tokens, to = scene.tokens[item.field], item.to + _BEHIND
    if not any(word.startswith(small.solar_plug) for word in tokens[max(item.at - _BEFORE, 0) : to]):
        return False
    around = tokens[max(item.at - _FAR_BEFORE, 0) : to]
    return not any(word in _MAINS_A or word.startswith(small.mains_plug) for word in around)


def _on_own_lead(scene: Scene, place: int, kind: str) -> bool:
    """Does a word for a lead or an inverter stand directly behind "a plug on each", and nothing of panels near it?"""
    item, small = scene.items[place], scene.small
    tokens = scene.tokens[item.field]
    behind = [*tokens[item.to : item.to + 2], "", ""]
    if tokens[item.to - 1] not in small.on_each or behind[0] not in small.own_leads or behind[1] in small.lead_ends:
        return False
    near = (*scene.back(place, 4), *scene.ahead(place, 4))
    if any(one.what in PANELS and -_TO_PANEL <= one.at - item.to <= _TO_PANEL for one in near):
        return False
    return kind == "inverter" or any(scene.stands(what, item.field, item.to) for what in INVERTERS)
