"""Is a "no" taken back for some pieces: "no cracks except on two", "apart from two with broken glass no faults"?

What stands behind the count is said of those; where nothing does, what the "no" reached before.
"""

from collections.abc import Iterator, Set

from service.core.adverts.scene import Scene
from service.core.adverts.walk import NUMBER, Item

_ENDS = frozenset(".,;:!?()\n")
_SENTENCE = frozenset(".;!?\n")
_TO_COUNT, _TO_FAULT, _TO_END, _MOST = 3, 8, 6, 100  # pieces
_MOST_TOLD = 20  # more of them no seller writes
_EXCEPT, _BROKEN, _CRACKED = "except", "s:broken", "d:cracked_glass"


def tell_exceptions(scene: Scene, faults: Set[str], kind: str) -> None:
    """Faults of excepted pieces are denied no longer; broken panels of which nothing finer is told are cracked."""
    told = scene.places(faults)
    freed: set[int] = set()
    for one, _, to in _excepted(scene):
        behind = [at for at in told if _is_behind(scene, scene.items[at], one, to)]
        if behind:
            freed.update(behind)
        elif _ends(scene, one, to):
            before = [at for at in told if scene.items[at].sentence == one.sentence and scene.items[at].to <= one.at
                      and scene.denied(at)]  # fmt: skip
            freed.update(before)
            if kind == "panel":
                broken = [at for at in before if scene.items[at].what == _BROKEN]
                scene.by_what.setdefault(_CRACKED, []).extend(broken)
    if freed:
        scene.denials = scene.denials - freed


def excepted_of(scene: Scene, item: Item) -> float:
    """How many pieces are excepted in the sentence of an item; nought where none are told."""
    return max((value for one, value, _ in _excepted(scene) if one.sentence == item.sentence), default=0.0)


def _excepted(scene: Scene) -> Iterator[tuple[Item, float, int]]:
    """Words for an exception with a count of pieces behind them, the count, and the piece behind it."""
    for place in scene.by_what.get(_EXCEPT, ())[:_MOST_TOLD]:
        item = scene.items[place]
        if scene.in_sentence(item.sentence, "gone"):  # "except on the two that I keep"
            continue
        tokens = scene.tokens[item.field]
        for at in range(item.to, min(item.to + _TO_COUNT, len(tokens))):
            value = _count(scene, item.field, at, tokens[at])
            if value:
                yield item, value, at + 1
                break
            if tokens[at] in _ENDS:
                break


def _count(scene: Scene, field: int, at: int, word: str) -> float:
    if word in scene.small.ones:
        return 1.0
    if word in scene.small.twos:
        return 2.0
    one = scene.bare_to(field, at + 1)
    return one.value if one is not None and 0 < one.value <= _MOST else 0.0


def _is_behind(scene: Scene, item: Item, one: Item, to: int) -> bool:
    """Does a fault stand behind the count in that sentence, before any further "no"?"""
    if item.field != one.field or item.sentence != one.sentence or not to <= item.at <= to + _TO_FAULT:
        return False
    noes = (scene.items[at] for at in scene.by_what.get("without", ()))
    return not any(no.field == one.field and to <= no.at < item.at for no in noes)


def _ends(scene: Scene, one: Item, to: int) -> bool:
    """Is the count all that is excepted, with no other thing behind it: "except on two of them."?"""
    tokens, small = scene.tokens[one.field], scene.small
    last = min(to + _TO_END, len(tokens))
    for at in range(to, last):
        if tokens[at] in _SENTENCE or tokens[at] == ",":
            return True
        if (
            tokens[at] not in small.of_them
            and tokens[at] not in small.beside_count
            and not any(
                scene.stands(what, one.field, at) for what in ("panel_one", "panel_many", "piece", "each", NUMBER)
            )
        ):
            return False
    return last == len(tokens)
