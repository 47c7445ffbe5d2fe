"""What stands near what? The items of all fields of an advert in one row, with questions of nearness."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from service.core.adverts.lexemes import NUMBER, Item, Lexed

FIELDS = ("title", "body", "price_text")
_NEAR = 2


@dataclass(slots=True)
class Scene:
    """Items in order, by meaning, and the tokens of each field."""

    items: list[Item] = field(default_factory=list)
    by_what: dict[str, list[int]] = field(default_factory=dict)
    tokens: list[list[str]] = field(default_factory=list)
    price: list[Item] = field(default_factory=list)

    def has(self, what: str) -> bool:
        """Is it said at all, and not denied?"""
        return any(not self.denied(place) for place in self.by_what.get(what, ()))

    def said(self, what: str) -> Iterator[int]:
        """Places of a meaning that is not denied."""
        return (place for place in self.by_what.get(what, ()) if not self.denied(place))

    def denied(self, place: int) -> bool:
        """Does a "no", "without", "never" stand close before it, or directly behind it?"""
        item = self.items[place]
        for other in self.by_what.get("without", ()):
            no = self.items[other]
            if no.sentence == item.sentence and (0 <= item.at - no.to <= _NEAR or 0 <= no.at - item.to <= 1):
                return no.clause == item.clause and no is not item
        return False

    def back(self, place: int, most: int = 12) -> Iterator[Item]:
        """Items of the same sentence before a place, nearest first."""
        sentence = self.items[place].sentence
        for at in range(place - 1, max(place - most, 0) - 1, -1):
            if self.items[at].sentence != sentence:
                return
            yield self.items[at]

    def ahead(self, place: int, most: int = 12) -> Iterator[Item]:
        """Items of the same sentence behind a place, nearest first."""
        sentence = self.items[place].sentence
        for at in range(place + 1, min(place + most, len(self.items) - 1) + 1):
            if self.items[at].sentence != sentence:
                return
            yield self.items[at]

    def in_sentence(self, sentence: int, what: str) -> bool:
        """Does a meaning stand in that sentence?"""
        places = self.by_what.get(what)
        return bool(places) and any(self.items[place].sentence == sentence for place in places or ())


def scene_of(title: Lexed, body: Lexed, price: Lexed) -> Scene:
    """One row of items: title, body; the price field apart. From instructions to a reader on, nothing is taken."""
    scene = Scene(tokens=[title.tokens, body.tokens], price=price.items)
    base = 0
    for number, lexed in enumerate((title, body)):
        dropped = min((item.sentence for item in lexed.items if item.what == "q:hostile"), default=None)
        most = 0
        for item in lexed.items:
            most = max(most, item.sentence)
            if dropped is not None and item.sentence >= dropped and item.what != "q:hostile":
                continue
            item.field = number
            item.sentence += base
            item.clause += base
            scene.by_what.setdefault(item.what, []).append(len(scene.items))
            scene.items.append(item)
        base += most + 10_000
    return scene


def numbers(scene: Scene) -> list[int]:
    """Places of all figures."""
    return scene.by_what.get(NUMBER, [])
