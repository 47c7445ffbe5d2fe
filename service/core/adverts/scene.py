"""What stands near what? The items of all fields of an advert in one row, with questions of nearness."""

from collections.abc import Sequence, Set

from service.core.adverts.addressed import addressed_in
from service.core.adverts.asked_roles import DISPROVED, RECANTING, SHARED_WIRE
from service.core.adverts.commands import commands_in, tells_of_himself
from service.core.adverts.disproved import without_disproved
from service.core.adverts.lexemes import Lexed
from service.core.adverts.named_by_panels import without_panels_of_name
from service.core.adverts.of_other_panels import may_tell_of_others, without_other_panels
from service.core.adverts.orders import (
    Orders,
    before_orders,
    followers,
    further_orders,
    outside_orders,
    pieces_of,
    spans_of_orders,
)
from service.core.adverts.recanted import without_recanted
from service.core.adverts.replaced import without_replacements
from service.core.adverts.shared_wires import spans_of_wires, without_shared_wires
from service.core.adverts.shortened_goods import named_in_full
from service.core.adverts.small_words import SmallWords
from service.core.adverts.tokens import Pieces
from service.core.adverts.units_first import units_of_names, without_units
from service.core.adverts.walk import MONEY_UNITS, NUMBER, PANELS, Item

FIELDS = ("title", "body", "price_text")
TITLE_FROM = -100_000  # sentences of the title are counted from here on, those of the body from nought: small numbers
_NEAR = 3
_NOTHING_BEHIND = [""] * 3  # so that nobody has to ask whether there is an item behind, or before, a place
_NO_PANELS = ("inverter_one", "inverter_many", "set_one", "set_many", "other_goods", "accessory", "thermal")


class Scene:
    """Items in order, by meaning, and the tokens of each field; ``units``: places of figures by their unit.

    ``roles``: those of all words of title and body, as bits, ``field_roles`` of each field. ``lined``: has the body
    lines?
    ``sorts``: counts of several sorts of panels, once they are looked for.

    ``whats``: the meaning of each item, and "" behind the last one. ``sentences``: the sentence of each; none is lower
    than the one before it. ``commanded``: does the title give orders to a reader?
    ``denials``: places so close to a "no" that it may deny them.
    """

    __slots__ = ("_bare", "_paid", "_sentences", "_starts", "by_what", "commanded", "denials", "field_roles", "gaps",
                 "items", "lined", "orders", "pieces", "price", "roles", "sentences", "small", "sorts", "tokens",
                 "units", "whats")  # fmt: skip

    def __init__(
        self, small: SmallWords, items: list[Item], told: tuple[list[str], dict[str, list[int]]],
        pieces: Sequence[Pieces], price: list[Item], orders: Orders, *, commanded: bool,
    ) -> None:  # fmt: skip
        self.small = small
        self.items = items
        self.whats, self.by_what = told
        self.tokens = [one.words for one in pieces]
        self.pieces = pieces
        self.lined = pieces[1].lined
        self.gaps = [one.gaps for one in pieces]
        self.field_roles = [one.roles for one in pieces]
        self.roles = pieces[0].roles | pieces[1].roles
        self.price = price
        self.orders = orders
        self.commanded = commanded
        self.units: dict[str, list[int]] = {}
        for place in numbers(self):
            self.units.setdefault(items[place].unit, []).append(place)
        self.sentences = [item.sentence for item in items]
        self.denials = _near(self.by_what.get("without", ()))
        self.sorts: list[int] | None = None
        self._sentences: dict[str, set[int]] = {}
        self._starts: dict[str, set[tuple[int, int]]] = {}
        self._paid: set[tuple[int, int]] | None = None
        self._bare: dict[tuple[int, int], Item] | None = None

    def different(self, field: int) -> frozenset[str]:
        """Each token of a field once."""
        return self.pieces[field].different

    def has(self, what: str) -> bool:
        """Is it said at all, and not denied?"""
        places = self.by_what.get(what)
        if not places or not self.denials or self.denials.isdisjoint(places):
            return bool(places)
        return any(not self.denied(place) for place in places)

    def said(self, what: str) -> list[int]:
        """Places of a meaning that is not denied."""
        places = self.by_what.get(what)
        if not places or not self.denials or self.denials.isdisjoint(places):
            return places or []
        return [place for place in places if not self.denied(place)]

    def denied(self, place: int, *, behind: bool = True) -> bool:
        """Does a "no", "without", "never" stand close before it, or directly behind it, in its clause?"""
        if place not in self.denials:
            return False
        item = self.items[place]
        for at in range(place - 1, max(place - 5, -1), -1):
            other = self.items[at]
            if other.clause != item.clause or item.at - other.to > _NEAR:
                break
            if other.what == "without" and other.to <= item.at:
                return True
        for at in range(place + 1, min(place + 4, len(self.items))) if behind else ():
            other = self.items[at]
            if other.clause != item.clause or other.at - item.to > 2:
                break
            if other.what == "without" and other.at >= item.to:  # "delivery no", but not "fetching no delivery"
                nxt = self.items[at + 1] if at + 1 < len(self.items) else None
                return nxt is None or nxt.clause != item.clause or nxt.at - other.to > 1 or nxt.at < other.to
        return False

    def back(self, place: int, most: int = 12) -> list[Item]:
        """Items of the same sentence before a place, nearest first."""
        sentences, first = self.sentences, place - most if place > most else 0
        sentence = sentences[place]
        if sentences[first] != sentence:
            first = place
            while sentences[first - 1] == sentence:  # few steps cost less than a search
                first -= 1
        found = self.items[first:place]
        found.reverse()
        return found

    def ahead(self, place: int, most: int = 12) -> list[Item]:
        """Items of the same sentence behind a place, nearest first."""
        sentences, end = self.sentences, place + 1 + most
        sentence, count = sentences[place], len(sentences)
        if end > count:  # noqa: PLR1730 - asked very often
            end = count
        if sentences[end - 1] != sentence:
            end = place + 1
            while sentences[end] == sentence:
                end += 1
        return self.items[place + 1 : end]

    def before(self, place: int) -> Item | None:
        """The item directly before a place, in the same sentence."""
        items = self.items
        one = items[place - 1]
        return one if place and one.sentence == items[place].sentence else None

    def behind(self, place: int) -> Item | None:
        """The item directly behind a place, in the same sentence."""
        items = self.items
        if place + 1 >= len(items):
            return None
        one = items[place + 1]
        return one if one.sentence == items[place].sentence else None

    def near(self, place: int, before: int, behind: int) -> list[str]:
        """Meanings of up to so many items before and behind a place, its own among them, whatever their sentence.

        A cheap question before a dear one: what is not among them stands nowhere near in the sentence either.
        """
        low = place - before
        return self.whats[low if low > 0 else 0 : place + behind + 1]  # noqa: FURB136 - asked very often

    def tells(self, *whats: str) -> bool:
        """Is one of these meanings told anywhere? Where not, nobody has to look for it near something."""
        for what in whats:  # noqa: SIM110 - asked very often
            if what in self.by_what:
                return True
        return False

    def places(self, whats: Set[str]) -> list[int]:
        """Places of several meanings, in order."""
        known = self.by_what
        return in_order([known[what] for what in whats if what in known])

    def in_sentence(self, sentence: int, what: str) -> bool:
        """Does a meaning stand in that sentence?"""
        known = self._sentences.get(what)
        if known is None:
            known = self._sentences[what] = {self.items[place].sentence for place in self.by_what.get(what, ())}
        return sentence in known

    def paid_for(self, one: Item) -> bool:
        """Is it the "for" between a price and the goods that it buys: "450 euro for 9 panels"?

        Or one that tells how many are in a set: "3 Stapel zu 4 Modulen".
        """
        if self._paid is None:
            items, named = self.items, [at for what in _NO_PANELS for at in self.by_what.get(what, ())[:1]]
            first = min(named, default=len(items))  # "inverter, 60 euro, for 2 panels"
            self._paid = {(items[at].field, items[at].at) for at in self.by_what.get("for", ())
                          if 0 < at < min(first, len(items) - 1) and (self._buys(at) or self._parts(at))}  # fmt: skip
        return (one.field, one.at) in self._paid

    def _buys(self, place: int) -> bool:
        amount, one, count = self.items[place - 1], self.items[place], self.items[place + 1]
        if count.at == one.at and place + 2 < len(self.items):  # a further meaning of the same word
            count = self.items[place + 2]
        between = self.tokens[one.field][amount.to : one.at] if amount.field == one.field else ["-"]
        goods = any(item.what in PANELS for item in self.ahead(place, 6))
        counted = count.what == NUMBER and not count.unit and 0 <= count.at - one.to <= 1
        return amount.unit in MONEY_UNITS and between in ([], ["."]) and counted and goods

    def _parts(self, place: int) -> bool:
        one, small = self.items[place], self.small
        words = self.tokens[one.field][max(one.at - 2, 0) : one.to]
        return len(words) == _NEAR and words[0].isdigit() and words[1] in small.equal_sets and words[2] in small.sets_by

    def bare_to(self, number: int, to: int) -> Item | None:
        """The figure without a unit that ends before that piece of a field."""
        if self._bare is None:
            bare = [self.items[place] for place in self.units.get("", ())]
            self._bare = {(item.field, item.to): item for item in reversed(bare)}
        return self._bare.get((number, to))

    def glued(self, number: int, at: int) -> bool:
        """Does a piece of a field stand directly behind the one before it?"""
        return not self.gaps[number][at]

    def stands(self, what: str, number: int, at: int) -> bool:
        """Does a meaning begin at that piece of a field?"""
        known = self._starts.get(what)
        if known is None:
            items = (self.items[place] for place in self.by_what.get(what, ()))
            known = self._starts[what] = {(item.field, item.at) for item in items}
        return (number, at) in known


def scene_of(title: Lexed, body: Lexed, price: Lexed, small: SmallWords, orders: Orders = ()) -> Scene:
    """One row of items: title, body; the price field apart. Orders to a reader of adverts are left out.

    ``orders``: places in the body that are known to hold some.
    """
    in_title = commands_in(title.pieces, small) + addressed_in(title.pieces, small, price.pieces.words)
    items = outside_orders(title.items, in_title) + outside_orders(body.items, orders)
    items, (whats, by_what) = _of_the_goods(items, (title.pieces, body.pieces), small)
    if "q:hostile" in by_what:
        fields = (title.pieces.words, body.pieces.words)
        kept = [
            one for one in items if one.what != "q:hostile" or not tells_of_himself(fields[one.field], one.at, small)
        ]
        if len(kept) < len(items):
            items = kept
            whats, by_what = _by_what(items)
    if "q:hostile" in by_what:
        hostile = {items[place].sentence for place in by_what["q:hostile"]}
        ordering = hostile | followers(items, hostile)
        told = sorted((*by_what["q:hostile"], *by_what.get("order", ())))
        begun = [place for place in told if items[place].sentence in hostile]
        honest = before_orders(items, begun, (title.pieces.words, body.pieces.words))
        further = further_orders(items, by_what["q:hostile"], (title.pieces.words, body.pieces.words), small)
        orders = (*orders, *spans_of_orders(items, ordering, honest), *further[1])
        within = [pieces_of(spans) for spans in further]
        items = [item for at, item in enumerate(items) if item.what == "q:hostile" or at in honest or (
                 item.sentence not in ordering and item.at not in within[item.field])]  # fmt: skip
        whats, by_what = _by_what(items)
    pieces = (title.pieces, body.pieces, price.pieces)
    return Scene(small, items, (whats, by_what), pieces, price.items, orders, commanded=bool(in_title))


def _of_the_goods(
    items: list[Item], pieces: tuple[Pieces, Pieces], small: SmallWords
) -> tuple[list[Item], tuple[list[str], dict[str, list[int]]]]:
    """The items without those of buyers, of what replaces them and of wires that several share; and ``_by_what``."""
    fields = (pieces[0].words, pieces[1].words)
    roles = pieces[0].roles | pieces[1].roles
    if roles & RECANTING:
        items = without_recanted(items, fields, small)
    if roles & DISPROVED:
        items = without_disproved(items, fields, small)
    if may_tell_of_others(roles):
        items = without_other_panels(items, fields, small, roles)
    whats, by_what = _by_what(items)
    if "taker" in by_what:  # "a buyer for 4 panels": they are for nobody else
        behind = {(items[place].field, items[place].to) for place in by_what["taker"]}
        wanted = [items[place] for place in by_what.get("wanted", ())]  # "buyer wanted for 4 panels"
        behind |= {(item.field, item.to) for item in wanted if (item.field, item.at) in behind}
        items = [item for item in items if item.what != "for" or (item.field, item.at) not in behind]
        whats, by_what = _by_what(items)
    if "share" in by_what and "new" in by_what and _price_when_new(items, by_what):
        whats, by_what = _by_what(items)
    if "inverter_maybe" in by_what or "panel_maybe" in by_what:
        items = named_in_full(items, by_what, fields)
        whats, by_what = _by_what(items)
    if "inverter_one" in by_what and not PANELS.isdisjoint(by_what):
        kept = without_panels_of_name(items, by_what, fields)
        if len(kept) < len(items):
            items = kept
            whats, by_what = _by_what(items)
    if "changes" in by_what:
        items = without_replacements(items, by_what["changes"], fields, small.changed_to)
        whats, by_what = _by_what(items)
    if (
        pieces[1].roles & SHARED_WIRE
        and ("inverter_one" in by_what or "inverter_many" in by_what)
        and (wires := spans_of_wires(items, by_what.get(NUMBER, ()), fields, small))
    ):
        items = without_shared_wires(items, wires)
        whats, by_what = _by_what(items)
    if units := units_of_names(items, by_what, fields, small.unit_behind):
        items = without_units(items, units)
        whats, by_what = _by_what(items)
    return items, (whats, by_what)


def _price_when_new(items: list[Item], by_what: dict[str, list[int]]) -> bool:
    """Where a share of a price is asked ("new 120 euro, yours for half that"), "new" before an amount names that.

    Returns whether it does anywhere.
    """
    last, found = by_what["share"][-1], False
    for place in by_what["new"]:
        item = items[place]
        amount = next((one for one in items[place + 1 : place + 3] if one.at >= item.to), None)
        if place > last or amount is None or amount.unit not in MONEY_UNITS or amount.at - item.to > _NEAR:
            continue
        if amount.clause == item.clause:
            item.what, found = "new_price", True
    return found


def _by_what(items: list[Item]) -> tuple[list[str], dict[str, list[int]]]:
    """The meanings of items with some empty ones behind them, and the places by meaning."""
    whats = [item.what for item in items]
    found: dict[str, list[int]] = {}
    for place, what in enumerate(whats):
        known = found.get(what)
        if known is None:
            found[what] = [place]
        else:
            known.append(place)
    whats += _NOTHING_BEHIND
    return whats, found


def _near(denials: Sequence[int]) -> frozenset[int]:
    """Places from three before to four behind each denial."""
    near: set[int] = set()
    for at in denials:
        near.update(range(at - 3, at + 5))
    return frozenset(near)


def numbers(scene: Scene) -> list[int]:
    """Places of all figures."""
    return scene.by_what.get(NUMBER, [])


def measured_in(scene: Scene, *units: str) -> list[int]:
    """Places of the figures with one of these units, in order."""
    known = scene.units
    return in_order([known[unit] for unit in units if unit in known])


def in_order(rows: Sequence[list[int]]) -> list[int]:
    """Places of several rows in one, in order."""
    if len(rows) == 1:
        return rows[0][:]
    found: list[int] = []
    for row in rows:
        found += row
    found.sort()
    return found
