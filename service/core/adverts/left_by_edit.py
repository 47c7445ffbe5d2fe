"""Does an edit leave only the inverter of a set: "Update: panels are sold, only the inverter is left"?

What was asked for all of it before is no price of the inverter then.
"""

from service.core.adverts.asked_roles import EDITED
from service.core.adverts.belongings import is_belonging
from service.core.adverts.inverter_alone import is_gone
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item

_BEFORE = frozenset(".!?\n*([;|-")
_ENDS = frozenset(".,;:!?()\n|-")
_PIECES = frozenset(("part", "piece", "extra", "gone", "sold"))
_NONE = -1
_AWAY = frozenset(("sold", "gone"))
_TO_PANELS, _TO_INVERTER, _TO_ONLY, _TO_COUNT, _TO_LEFT, _LEAST = 8, 16, 3, 2, 6, 2  # pieces


def only_inverter_left(scene: Scene) -> int:
    """The place of the last edit, behind which all panels are told to be gone and only an inverter to be left.

    Below nought where none does.
    """
    edit = _edit(scene)
    if edit < 0:
        return edit
    behind = [at for at in scene.places(PANELS | INVERTERS) if scene.items[at].field == 1 and scene.items[at].at > edit]
    if len(behind) < _LEAST or scene.items[behind[0]].what not in PANELS or scene.items[behind[1]].what in PANELS:
        return _NONE
    panels, inverter = (scene.items[at] for at in behind[:_LEAST])
    if len(behind) > _LEAST and scene.items[behind[_LEAST]].sentence == inverter.sentence:
        return _NONE
    if panels.at - edit > _TO_PANELS or inverter.at - panels.to > _TO_INVERTER:
        return _NONE
    if not scene.small.order_not.isdisjoint(scene.tokens[1][panels.to : inverter.at]):
        return _NONE
    gone = is_gone(scene, behind[0]) and _all_of_them(scene, behind[0], panels)
    return edit if gone and _only(scene, behind[1], inverter) else _NONE


def _edit(scene: Scene) -> int:
    """The place of the last edit; below nought where there is none."""
    if not scene.field_roles[1] & EDITED:
        return _NONE
    tokens, words = scene.tokens[1], scene.small.edit_words
    edits = [at for at, word in enumerate(tokens) if word in words and (not at or tokens[at - 1] in _BEFORE)]
    return edits[-1] if edits else _NONE


def _all_of_them(scene: Scene, place: int, item: Item) -> bool:
    """Is no number of them told, and no part, and nothing else of them than that they are gone?"""
    near = (one for one in scene.back(place, 3) if item.at - one.to <= _TO_COUNT)
    if item.what == "panel_one" or any(one.what == NUMBER or one.what in _PIECES for one in near):
        return False
    away = {at for one in scene.ahead(place, 6) if one.what in _AWAY for at in range(one.at, one.to)}
    tokens, light = scene.tokens[1], scene.small.beside_broken
    end = next((at for at in range(item.to, len(tokens)) if tokens[at] in _ENDS), len(tokens))
    return all(at in away or tokens[at] in light for at in range(item.to, min(end, item.to + _TO_INVERTER)))


def _only(scene: Scene, place: int, item: Item) -> bool:
    """Does "only" stand before it, and is it neither gone nor the first part of a thing of its own?"""
    tokens, small = scene.tokens[1], scene.small
    before = tokens[max(item.at - _TO_ONLY, 0) : item.at][::-1]
    cut = next((at for at, word in enumerate(before) if word in _ENDS), len(before))
    only = not (small.nothing_else.isdisjoint(before[:cut]) and small.all_that_is_left.isdisjoint(before[:cut]))
    if not only or not small.order_not.isdisjoint(before[:cut]) or scene.denied(place):
        return False
    if any(is_belonging(scene, word) for word in (*before[:cut], *tokens[item.to : item.to + 1])):
        return False
    if any(one.what in _PIECES and one.clause == item.clause for one in scene.ahead(place, 4)):
        return False
    behind = tokens[item.to : item.to + _TO_LEFT]
    end = next((at for at, word in enumerate(behind) if word in _ENDS), len(behind))
    return not (end and small.left_alone.isdisjoint(before[:cut]) and small.left_alone.isdisjoint(behind[:end]))
