"""Is a plug that sounds dangerous an ordinary one: of the mains on each inverter's own lead, or between panels?

A mains plug at both ends of one lead, and one on the lead of a panel, stay what they are; the latter is found here.
"""

from itertools import takewhile

from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, PANELS

_UNSAFE = "q:unsafe"
_NOT_ITS_OWN = ("without", "accessory", "other_goods", "battery", "thing")  # before a plug of others, or of none
_MAINS = frozenset(("10", "13", "16", "230", "240"))  # amperes and volts of a household plug
_ENDS = frozenset(".;!?\n()|")
_FAR_BEHIND, _TO_AMPS, _TO_LEAD = 16, 3, 8  # pieces
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


def add_plugs_of_panels(scene: Scene, kind: str) -> None:
    """A mains plug on the lead of a panel, where no inverter is named in the sentence, raises the doubt."""
    if kind != "panel" or _UNSAFE in scene.by_what or "wiring" not in scene.by_what:
        return
    plug = scene.small.plug
    alone = all(scene.denied(place, behind=False) for place in scene.places(INVERTERS))
    for place in scene.by_what["wiring"]:
        item = scene.items[place]
        tokens = scene.tokens[item.field]
        if item.field and any(stem in tokens[item.at] for stem in plug) and _on_panel(scene, tokens, item.at, alone):
            scene.by_what[_UNSAFE] = [place]
            return


def _on_panel(scene: Scene, tokens: list[str], at: int, alone: bool) -> bool:
    """Does a word for a lead of a panel stand close behind a plug of the mains: "13 A plug on the panel's cable"?

    ``alone``: no inverter is told of that comes along.
    """
    small = scene.small
    before = list(takewhile(lambda word: word not in _ENDS, reversed(tokens[max(at - _FAR_BEFORE, 0) : at])))
    behind = list(takewhile(lambda word: word not in _ENDS, tokens[at : at + _FAR_BEHIND]))
    near = (*before, *behind)
    if any(word.startswith(small.solar_plug) for word in near):
        return False
    if any(tokens[to].startswith(small.inverting) and small.lacking.isdisjoint(tokens[max(to - 2, 0) : to])
           for to in range(at - len(before), at + len(behind))):  # fmt: skip
        return False
    if not small.no_payment.isdisjoint(before) or any(
        word in small.no_payment and word not in small.put_on
        for word in behind  # "no" is "in the" in Portuguese
    ):
        return False
    places = range(at - len(before), at + len(behind))
    named = [to for what in INVERTERS for to in places if scene.stands(what, 1, to)]
    if any(small.lacking.isdisjoint(tokens[max(to - 2, 0) : to]) for to in named):  # but "without inverter"
        return False
    if not any(word in _MAINS or word.startswith(small.mains_plug) for word in (*before[:_TO_AMPS], *behind)):
        return False
    close = behind[1:_TO_LEAD]
    return any(word.startswith(small.panel_lead) for word in close) or (alone and _on_the_lead(scene, at, close))


def _on_the_lead(scene: Scene, at: int, close: list[str]) -> bool:
    """Is a plug, where no inverter is told of anywhere, put on a lead that can only be the panel's: "onto its lead"?"""
    small = scene.small
    others = [to for to in range(max(at - _FAR_BEFORE, 0), at) for what in _NOT_ITS_OWN if scene.stands(what, 1, to)]
    if others or "d:missing_connector" in scene.by_what or "s:cut" in scene.by_what:  # it is off again
        return False
    lead = next((step for step, word in enumerate(close) if word in small.plug_leads), 0)
    between = close[:lead]
    return not small.put_on.isdisjoint(between) and all(map(str.isalpha, between)) and (
        small.coming_with.isdisjoint(between)
    )  # fmt: skip


def _between_panels(scene: Scene, place: int) -> bool:
    """Is a connector of panels named there, and none of the mains: "MC4 plugs on both leads"?"""
    item, small = scene.items[place], scene.small
    if not any(word.startswith(small.plug) for word in scene.tokens[item.field][item.at : item.to]):
        return False
    tokens, to = scene.tokens[item.field], item.to + _BEHIND
    if not any(word.startswith(small.solar_plug) for word in tokens[max(item.at - _BEFORE, 0) : to]):
        return False
    around = tokens[max(item.at - _FAR_BEFORE, 0) : to]
    return not any(word in _MAINS or word.startswith(small.mains_plug) for word in around)


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
