"""Is only a thing sold that panels came in, charge or sit on: empty boxes, bare frames, power banks, houses?

Asked of the first words. Who names panels elsewhere too sells them.
"""

from service.core.adverts.asked_roles import SHELLS
from service.core.adverts.houses import sells_a_house
from service.core.adverts.scene import Scene
from service.core.adverts.walk import INVERTERS, NUMBER, PANELS, Item

_FIRST, _MOST_BETWEEN, _TO_BARE, _TO_LOADED = 6, 6, 4, 10  # pieces
_MOST_BANK_W = 60.0
_ENDS = frozenset(".,;:!?()\n|+&/")
_SENTENCE = frozenset(".;!?\n")
_STATES = ("d:cosmetic", "s:broken", "s:loose", "d:cracked_glass", "d:discolouration", "used")


def sells_what_is_around(scene: Scene) -> bool:
    """Is it a house with panels, what panels were packed in or framed by, or a store that a panel can charge?"""
    if sells_a_house(scene):
        return True
    if "power_store" in scene.by_what and _sells_a_store(scene):
        return True
    return bool(scene.roles & SHELLS) and _sells_shells(scene)


def _sells_shells(scene: Scene) -> bool:
    """As in "empty boxes from two 400 W panels", "just the frames of four panels"?"""
    panels = [scene.items[at] for at in scene.places(PANELS)]
    if not panels or scene.tells("voc", "isc", *INVERTERS):
        return False
    first = panels[0]
    if any(one.sentence != first.sentence or one.at > first.to for one in panels):
        return False
    if any(scene.in_sentence(first.sentence, what) for what in _STATES):
        return False
    tokens, small = scene.tokens[first.field], scene.small
    at = next((at for at, word in enumerate(tokens[: min(_FIRST, first.at)]) if word in small.shells), None)
    if at is None or not _is_bare(scene, tokens, at, first):
        return False
    between = tokens[at + 1 : first.at]
    if len(between) > _MOST_BETWEEN or small.out_of.isdisjoint(between):
        return False
    others = set(between) - small.out_of  # "z" says both in Polish
    joined = not (small.set_joining.isdisjoint(others) and small.coming_with.isdisjoint(others))
    return not joined and small.beside_broken.isdisjoint(tokens[first.to : first.to + 1])


def _is_bare(scene: Scene, tokens: list[str], at: int, first: Item) -> bool:
    """Is it empty, bare, or all that is sold?"""
    small = scene.small
    if not _ENDS.isdisjoint(tokens[:at]):
        return False
    beside = tokens[max(at - _TO_BARE, 0) : at + 2]
    if not (small.bare.isdisjoint(beside) and small.nothing_else.isdisjoint(beside)):
        return True
    return not small.emptied.isdisjoint(_to_end(tokens, first.to))


def _to_end(tokens: list[str], at: int) -> list[str]:
    """The next pieces of the same sentence."""
    behind = tokens[at : at + _TO_LOADED]
    return behind[: next((to for to, word in enumerate(behind) if word in _SENTENCE), len(behind))]


def _sells_a_store(scene: Scene) -> bool:
    """Do the first words name a power bank or station, and all panels tell only what charges it, or sits on it?"""
    panels = scene.places(PANELS)
    store = scene.items[scene.by_what["power_store"][0]]
    if store.at >= _FIRST or not _ENDS.isdisjoint(scene.tokens[store.field][: store.at]):
        return False
    return bool(panels) and all(_charges(scene, place, store) for place in panels)


def _charges(scene: Scene, place: int, store: Item) -> bool:
    item, small = scene.items[place], scene.small
    tokens = scene.tokens[item.field]
    if (item.field, item.at) < (store.field, store.at):
        return False
    beside = [*tokens[max(item.at - _TO_LOADED, 0) : item.at][::-1]]
    before = beside[: next((at for at, word in enumerate(beside) if word in _SENTENCE), len(beside))]
    behind = _to_end(tokens, item.to)
    if not small.charging.isdisjoint(before + behind):
        return True
    if any(one.what == "without" and one.clause - item.clause in {0, 1} for one in scene.ahead(place, 5)):
        return True
    watts = [one for one in (*scene.back(place, 3), *scene.ahead(place, 3)) if one.what == NUMBER and one.unit == "W"]
    small_one = bool(watts) and all(one.value <= _MOST_BANK_W for one in watts if one.at > store.to)
    return small_one and not small.coming_with.isdisjoint(before)
