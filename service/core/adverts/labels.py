"""Is the label of the goods taken off, or one of a box, a price or an address: "price sticker removed"?"""

from collections.abc import Iterator
from itertools import takewhile

from service.core.adverts.scene import Scene
from service.core.adverts.walk import Item

_REMOVED, _MISSING = "q:label_removed", "d:missing_label"
_LABELS = frozenset(("p:label", _MISSING))  # "the label is" tells of a missing one
_STATES = frozenset(("s:taken_off", "s:missing", "s:unreadable", "used"))
_WHOLE = frozenset(("p:glass", "p:junction_box", "panel_one", "panel_many"))
_ARTICLE = 3  # letters
_AUXILIARIES = 5  # "has been", "ist leider"
_NEAR, _TO_NAME, _TO_OWNER, _TO_PHOTO = 5, 3, 8, 8  # pieces
_PARTS = frozenset((",", ";", ".", ":", "!", "?", "\n", "|"))


def labels_taken_off(scene: Scene) -> None:
    """A label that "has been removed" close by, in a word that tells of both: gone, and taken off."""
    if "s:taken_off" not in scene.by_what or not scene.tells(*_LABELS):
        return
    gone = {(scene.items[at].field, scene.items[at].at) for at in scene.by_what.get("s:missing", [])}
    used = {(scene.items[at].field, scene.items[at].at) for at in scene.by_what.get("used", [])}
    unused: set[tuple[int, int]] = set()  # "the label was taken down" tells nothing of panels
    for place in scene.by_what["s:taken_off"]:
        item = scene.items[place]
        where = (item.field, item.at)
        scraped = any(word.startswith(scene.small.scraped) for word in scene.tokens[item.field][item.at : item.to])
        if where not in gone and where not in used and not scraped:
            continue
        if where in used and any(one.what in _LABELS and one.at - item.to <= 1 for one in scene.ahead(place, 3)):
            unused.add(where)
        label = next((one for one in scene.back(place, 6) if one.what in _LABELS and one.clause == item.clause
                      and 0 <= item.at - one.to <= _AUXILIARIES), None)  # fmt: skip
        label = label or _label_behind(scene, place, item)
        if label is None or scene.denied(place):
            continue
        if where in used:
            unused.add(where)
        if (where in gone or scraped) and not _none_of_them(scene, label):
            scene.by_what.setdefault(_REMOVED, []).append(place)
            _no_fault(scene, where)
    if unused:
        scene.by_what["used"] = [at for at in scene.by_what["used"]
                                 if (scene.items[at].field, scene.items[at].at) not in unused]  # fmt: skip


def _no_fault(scene: Scene, where: tuple[int, int]) -> None:
    """What was done to a label is no fault of anything else, as the same words may be: "revet af"."""
    for what in [what for what in scene.by_what if what.startswith("d:") and what != _MISSING]:
        kept = [at for at in scene.by_what[what] if (scene.items[at].field, scene.items[at].at) != where]
        if kept:
            scene.by_what[what] = kept
        else:
            del scene.by_what[what]


def _label_behind(scene: Scene, place: int, item: Item) -> Item | None:
    """The label directly behind a verb, with at most an article between: "han quitado la placa"."""
    for one in scene.ahead(place, 4):
        if one.what == "p:label" and one.clause == item.clause and 0 <= one.at - item.to <= 1:
            article = scene.tokens[item.field][item.to : one.at]
            return one if all(len(word) <= _ARTICLE for word in article) else None
    return None


def leave_out_other_labels(scene: Scene) -> None:
    """Labels of boxes, prices, addresses and panes are no labels of goods; nor is one removed where none was."""
    for what in (_REMOVED, _MISSING):
        places = scene.by_what.get(what)
        if not places:
            continue
        kept = [at for at in places if not (_of_another(scene, at) or _not_removed(scene, at))]
        if what == _REMOVED:
            kept = [at for at in kept if not _pictured(scene, scene.items[at])]
        if kept:
            scene.by_what[what] = kept
        else:
            del scene.by_what[what]


def _none_of_them(scene: Scene, label: Item) -> bool:
    """As in "no label", whose "no" may be for what was done to it."""
    tokens = scene.tokens[label.field]
    words = [*tokens[max(label.at - 1, 0) : label.at], tokens[label.at]]
    return not scene.small.label_none.isdisjoint(words)


def _not_removed(scene: Scene, place: int) -> bool:
    """Is it "no label removed": none was, and none is missing?"""
    item = scene.items[place]
    if item.what != _MISSING and item.what not in _STATES and item.what != _REMOVED:
        return False
    behind = next((one for one in scene.ahead(place, 4) if one.what == "s:taken_off" and one.at >= item.to), None)
    if behind is not None and behind.clause == item.clause and behind.at - item.to <= 1 and _none_of_them(scene, item):
        return True
    if item.what == _REMOVED or (item.what == _MISSING and item.to - item.at > 1):
        tokens = scene.tokens[item.field]
        return tokens[item.at - 1] in scene.small.label_none if item.at else False
    labels = (one for one in scene.back(place, 6) if one.what in _LABELS and item.at - one.to <= _AUXILIARIES)
    return any(_none_of_them(scene, one) and one.clause == item.clause for one in labels)


def _of_another(scene: Scene, place: int) -> bool:
    """Is a label said to be one of a price or an address, or to be on a box or a pane?"""
    item, small = scene.items[place], scene.small
    tokens = scene.tokens[item.field]
    behind = list(_until(tokens, range(item.to, min(item.to + _NEAR, len(tokens)))))
    behind = list(takewhile(lambda at: tokens[at] not in small.joining, behind))  # "removed and packed in boxes"
    before = list(_until(tokens, range(item.at - 1, max(item.at - _NEAR, 0) - 1, -1)))
    if any(tokens[at].startswith(small.label_on) and not _within(scene, place, at, behind=True) for at in behind):
        return True
    if any(tokens[at].startswith(small.label_on) and not _within(scene, place, at, behind=False) for at in before):
        return True
    if before and tokens[before[0]].startswith(small.label_of):
        return True
    if _sticker_of_frame(scene, place, item):
        return True
    for one in (*scene.back(place, 6), *scene.ahead(place, 4)):
        if one.what == "p:label" and one.clause == item.clause and item.at - one.to <= _TO_OWNER:
            named = list(tokens[one.to : min(one.to + _TO_OWNER, item.at)])
            if one.at >= item.at:
                named = [tokens[at] for at in _until(tokens, range(one.to, min(one.to + _TO_NAME, len(tokens))))]
                named += tokens[max(one.at - _TO_NAME, item.to) : one.at]
            if one.at:
                named.append(tokens[one.at - 1])
            if any(word.startswith(small.label_of) for word in named):
                return True
    return False


def _sticker_of_frame(scene: Scene, place: int, item: Item) -> bool:
    """Is it no rating plate but a sticker on a frame: "old stickers scraped off the frame"?"""
    small, tokens = scene.small, scene.tokens[item.field]
    if any(word.startswith(small.legible) for word in tokens[item.at : item.to]):
        return False  # only of one that had something to tell it is told that nobody can read it
    first = item.at
    while first > max(item.at - _NEAR, 0) and tokens[first - 1] not in _PARTS:
        first -= 1
    last = item.to
    while last < min(item.to + _NEAR, len(tokens)) and tokens[last] not in _PARTS:
        last += 1
    if not any(word.startswith(small.frames) for word in tokens[first:last]):
        return False
    named = [one for one in (*scene.back(place, 6), *scene.ahead(place, 4)) if one.what == "p:label"
             and first <= one.at < last]  # fmt: skip
    if not named:  # it is told in one phrase
        return not small.stickers.isdisjoint(tokens[item.at : item.to])
    return all(one.to - one.at == 1 and tokens[one.at] in small.stickers for one in named)


def _within(scene: Scene, place: int, at: int, *, behind: bool) -> bool:
    """Is a piece part of another name: of a junction box, of a panel of glass; before a label, of its glass?"""
    near = scene.ahead(place, 8) if behind else scene.back(place, 8)
    if not behind and any(one.what == "p:label" and one.to <= at for one in near):
        return False
    return any(one.what in _WHOLE and one.at <= at < one.to and (one.to - one.at > 1 or not behind) for one in near)


def _until(tokens: list[str], places: range) -> Iterator[int]:
    for at in places:
        if tokens[at] in _PARTS:
            return
        yield at


def _pictured(scene: Scene, item: Item) -> bool:
    """Does the seller say that he has a picture of it: not only "see photos"?"""
    small = scene.small
    tokens = scene.tokens[item.field][item.to : item.to + _TO_PHOTO]
    at = next((at for at, word in enumerate(tokens) if word.startswith(small.label_pictured)), 0)
    return bool(at) and not small.label_kept.isdisjoint(tokens[max(at - _TO_NAME, 0) : at])
