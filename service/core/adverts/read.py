"""What does an advert claim? The steps in order: plain text, tokens, items, goods, figures, price, state, doubts."""

from collections import Counter
from collections.abc import Sequence

from service.core.adverts.addressed import addressed_in
from service.core.adverts.asked_by_edit import priced_by_edit
from service.core.adverts.bids import sells_for_so_much
from service.core.adverts.by_meter import readings_of_tests
from service.core.adverts.claims import State, Told, told_in_words
from service.core.adverts.commands import commands_in
from service.core.adverts.dangers import danger_told
from service.core.adverts.denials import told_not_to_be
from service.core.adverts.doubts import figure_doubts, too_cheap
from service.core.adverts.figures import Found, other_figures, panel_figures
from service.core.adverts.goods import Goods, goods_of
from service.core.adverts.language import language_left, language_of, tied_languages
from service.core.adverts.least import least_of, orders
from service.core.adverts.lexemes import lexed
from service.core.adverts.lexicon import Vocabulary
from service.core.adverts.limits import inverter_figures, volts_of_windows
from service.core.adverts.lines import edged, joined
from service.core.adverts.no_prices import leave_out_no_prices
from service.core.adverts.orders import Orders
from service.core.adverts.panels import panels_of_set
from service.core.adverts.plain import Plain, plain_of
from service.core.adverts.price import Asked, asked_of
from service.core.adverts.reading import Advert, Claim, Price, Reading
from service.core.adverts.scene import FIELDS, TITLE_FROM, Scene, scene_of
from service.core.adverts.sold import is_sold
from service.core.adverts.state import condition_of, defects_of, delivery_of, partly, put_together, word_doubts
from service.core.adverts.tokens import NO_PIECES, Pieces
from service.core.adverts.total_powers import power_of_one
from service.core.adverts.walk import NUMBER, Item
from service.core.adverts.whose_ratings import limits_in_set

LONGEST_TEXT = 25_000
MOST_CLAIMS = 60
_LONGEST_WORDS = 120  # of a claim
_BATTERY_V = 12.0
_VOLTS = frozenset(("V", ""))
_FEW_WORDS = 200  # signs, in which two languages may look alike
_FLOOD_FROM = 4_000
_FLOOD_SHARE = 0.12
_MOST_REPEATS = 3
_NONE: frozenset[int] = frozenset()
_ALL_FOUR = [True] * 4
_PANEL = {"power": ("rated_power_w", "W"), "voc": ("open_circuit_voltage_v", "V"),
          "isc": ("short_circuit_current_a", "A"),
          "vmp": ("max_power_voltage_v", "V"), "imp": ("max_power_current_a", "A"),
          "voc_coefficient": ("voc_coefficient_pct_per_k", "%/K"),
          "power_coefficient": ("power_coefficient_pct_per_k", "%/K"), "cells": ("cells_in_series", ""),
          "length": ("length_mm", "mm"), "width": ("width_mm", "mm"), "weight": ("weight_kg", "kg")}  # fmt: skip
_INVERTER = {"ac_power": ("ac_power_w", "W"), "inputs": ("input_count", ""), "tracking_min": ("tracking_min_v", "V"),
             "tracking_max": ("tracking_max_v", "V"), "max_in": ("max_input_voltage_v", "V"),
             "max_current": ("max_current_a", "A"), "max_short_circuit": ("max_short_circuit_current_a", "A"),
             "start": ("start_voltage_v", "V")}  # fmt: skip
_Fields = tuple[list[Plain], list[Pieces], list[str]]
_KINDS = ("topcon", "hjt", "thin_film", "mono", "poly")


def read_advert(advert: Advert, vocabulary: Vocabulary) -> Reading:
    """What an advert claims. Time is linear in its length; nothing in a text is obeyed.

    Args:
        advert: its fields as sent; each of at most 25,000 signs.
        vocabulary: made ready by ``vocabulary_of``.
    """
    return read_with_text(advert, vocabulary)[0]


def read_with_text(advert: Advert, vocabulary: Vocabulary) -> tuple[Reading, str]:
    """The same, with its body as a person reads it."""
    sent = [advert.title, advert.body, advert.price_text or ""]
    small = vocabulary.small
    body = joined(edged(plain_of(sent[1])), small.line_waiting, small.line_cut_short)
    plains = [edged(plain_of(sent[0])), body, edged(plain_of(sent[2]))]
    cut = [Pieces(plain.text, vocabulary.met) if plain.text else NO_PIECES for plain in plains]
    return _reading(advert.language, sent, plains, cut, vocabulary), plains[1].text


def _reading(
    told: str | None, sent: list[str], plains: list[Plain], cut: list[Pieces], vocabulary: Vocabulary
) -> Reading:
    """In the language told or found; few words in each that they may be, of which what knows most is left."""
    language = told or language_of(cut[1].telling, cut[0].telling, vocabulary)
    reading = _read_in(language, told, sent, plains, cut, vocabulary)
    if told or len(plains[0].text) + len(plains[1].text) > _FEW_WORDS or not reading.is_offer:
        return reading
    best = reading
    for other in tied_languages(cut[1].telling, cut[0].telling, vocabulary):
        if other != reading.language:
            further = _read_in(other, other, sent, plains, cut, vocabulary)
            alike = (further.kind, further.is_offer) == (reading.kind, reading.is_offer)
            best = further if alike and _knows(further) > _knows(best) else best
    doubts = sorted({*reading.doubts, *best.doubts})  # what one of them raises is asked about
    return best._replace(language=reading.language, doubts=tuple(doubts))


def _knows(reading: Reading) -> tuple[bool, int]:
    """Does a reading tell of damage, and of how much in all?"""
    return reading.condition == "damaged", len(reading.claims) + len(reading.doubts) + len(reading.defects)


def _read_in(
    language: str, told: str | None, sent: list[str], plains: list[Plain], cut: list[Pieces], vocabulary: Vocabulary
) -> Reading:
    body, small = cut[1], vocabulary.small
    orders = commands_in(body, small) + addressed_in(body, small, cut[2].words)
    scene, flooded = _scene(plains, cut, language, vocabulary, orders)
    if scene.orders and not told:  # the orders may be in another language than the advert
        own = language_left(_without(cut[1].words, scene.orders), cut[0].telling, language, vocabulary)
        if own != language:
            language, (scene, flooded) = own, _scene(plains, cut, own, vocabulary, scene.orders)
    if "bid" in scene.by_what:
        sells_for_so_much(scene)
    goods = goods_of(scene)
    disguised = plains[0].disguised or plains[1].disguised or plains[2].disguised
    extra = {"hostile_content"} if flooded or scene.orders or scene.commanded or disguised else set()
    if goods.why:
        extra.add(goods.why)
    if not goods.is_offer:
        extra |= {"hostile_content"} & word_doubts(scene)
        return Reading(kind=goods.kind, is_offer=False, language=language, doubts=tuple(sorted(extra)))
    return _offer(scene, goods, language, extra, plains, cut, sent)


def _scene(
    plains: list[Plain], cut: list[Pieces], language: str, vocabulary: Vocabulary, orders: Orders = ()
) -> tuple[Scene, bool]:
    """The items of an advert in a language, and whether it is flooded; without what stands in known orders."""
    lexicon = vocabulary.lexicons.get(language, vocabulary.lexicons["und"])
    flood = _flood(cut[1]) if len(plains[1].text) > _FLOOD_FROM else None
    fields = [lexed(plain, pieces, lexicon, number, TITLE_FROM * (number != 1), flood if number == 1 else None)
              for number, (plain, pieces) in enumerate(zip(plains, cut, strict=True))]  # fmt: skip
    return scene_of(fields[0], fields[1], fields[2], vocabulary.small, orders), flood is not None


def _without(words: Sequence[str], orders: Orders) -> list[str]:
    kept = list(words)
    for low, high in orders:
        kept[low:high] = [""] * (high - low)
    return kept


def _flood(pieces: Pieces) -> list[bool] | None:
    """Which pieces of a long text are repeated over and over; None where there is not much of it."""
    words = pieces.words
    rows = list(zip(words, words[1:], words[2:], words[3:], strict=False))
    counts = Counter(rows)
    if len(counts) > _FLOOD_SHARE * len(rows):
        return None
    often = {row for row, count in counts.items() if count > _MOST_REPEATS}
    flood = [False] * len(words)
    for at, row in enumerate(rows):
        if row in often:
            flood[at : at + 4] = _ALL_FOUR
    return flood


def _offer(
    scene: Scene,
    goods: Goods,
    language: str,
    extra: set[str],
    plains: list[Plain],
    cut: list[Pieces],
    sent: list[str],
) -> Reading:
    leave_out_no_prices(scene, goods.kind)
    asked = asked_of(scene, goods)
    figured = "set" if goods.left_by_edit >= 0 else goods.kind  # whose figures stand beside those of panels
    asked = priced_by_edit(asked, goods.left_by_edit) if goods.left_by_edit >= 0 else asked
    limits, unsure = limits_in_set(scene) if figured == "set" else (_NONE, _NONE)
    inverter = inverter_figures(scene, figured, limits) if figured in {"inverter", "set"} else {}
    others = limits | unsure | volts_of_windows(scene) if goods.kind == "set" else _NONE
    panel, two_powers = panel_figures(scene, goods.kind, others) if goods.kind in {"panel", "set"} else ({}, False)
    too_much = power_of_one(scene, goods, panel)
    if goods.kind == "other":
        panel = other_figures(scene)
    put_together(scene, goods.kind)
    photovoltaic = goods.kind in {"panel", "set"}
    if asked.mixed and goods.kind == "panel":  # of which of them?
        panel, two_powers = {}, False
    defects = defects_of(scene, goods.kind)
    told_of = (*defects, "weak") if "d:weak" in scene.by_what else defects  # of which no defect has the name
    part, mostly = partly(scene, told_of, goods)
    condition = condition_of(scene, told_of, part=part and not mostly)
    technology = _technology(scene) if photovoltaic else None
    counted = panels_of_set(scene, panel["power"][1] if "power" in panel else None) if goods.kind == "set" else None
    least = least_of(scene, goods)
    power = panel["power"][0] if "power" in panel else None
    doubts = (
        word_doubts(scene) | figure_doubts(panel, inverter) | _doubts(scene, goods, panel, condition, asked) | extra
    )
    doubts |= {code for code, true in (("part_damaged", part), ("power_conflict", two_powers),
                                  ("power_of_several", too_much)) if true}  # fmt: skip
    if least is not None:
        doubts.add("minimum_order")
    if scene.has("again"):  # "sold? no, available again"
        doubts -= {"sold", "reserved"}
    if figured == "set" and goods.quantity == 1:
        doubts.discard("minimum_order")
    state = State(goods.kind, goods.quantity, condition, defects, delivery_of(scene), asked.shipping_cost,
                  asked.price.currency, technology, _bifacial(scene) if photovoltaic else None)  # fmt: skip
    told = told_in_words(scene, state, (("least_quantity", least), ("panel_count", counted)))
    # As Reading(...) without its frame of the interpreter: a fifth of the cost; the row is in the order of its names.
    return tuple.__new__(Reading, (
        goods.kind, True, language, _claims(panel, inverter, asked, told, (plains, cut, sent)),
        goods.quantity, None if least is None else least[0], None if counted is None else counted[0],
        _per_watt(asked.price, power, goods), condition, defects, state.delivery, asked.shipping_cost,
        tuple(sorted(doubts)), {_PANEL[name][0]: one[0] for name, one in panel.items()},
        {_INVERTER[name][0]: one[0] for name, one in inverter.items()}, technology, state.bifacial,
    ))  # fmt: skip


def _doubts(scene: Scene, goods: Goods, panel: Found, condition: str, asked: Asked) -> set[str]:
    """Doubts that words and figures raise together."""
    power = panel["power"][0] if "power" in panel else None
    cheap = condition in {"new", "unused"} and too_cheap(asked.price.each, asked.price.currency, power)
    raised = (
        ("sold", is_sold(scene)),
        ("shock_or_fire", danger_told(scene)),
        ("minimum_order", bool(orders(scene, goods.kind))),
        ("measured_not_rated", "voc" not in panel and _metered(scene)),
        ("price_conflict", asked.conflict),
        ("too_cheap", goods.kind == "panel" and cheap),
        ("camping_12v", goods.kind == "panel" and (_camping(scene) or _for_battery(scene))),
    )
    return {code for code, true in raised if true}


def _camping(scene: Scene) -> bool:
    """Is it said to be for camping or a boat, not that the seller would swap it for such things or had it for one?"""
    return any(
        not any(one.what in {"swap", "bought"} for one in scene.back(place, 6))
        and not _project(scene, place)
        and not told_not_to_be(scene, place)
        for place in scene.said("camping")
    )


def _project(scene: Scene, place: int) -> bool:
    """Is a work of the seller spoken of: "left from a campervan project"?"""
    item = scene.items[place]
    return any(word.startswith(scene.small.project) for word in scene.tokens[item.field][item.to : item.to + 2])


def _for_battery(scene: Scene) -> bool:
    """Is it a panel "of 12 V"?"""
    return any(
        scene.items[at].value == _BATTERY_V and not (scene.denied(at, behind=False) or told_not_to_be(scene, at))
        for at in scene.units.get("V", ())
    )


def _metered(scene: Scene) -> bool:
    """Is a voltage told as a reading?"""
    if any(scene.items[at].unit in _VOLTS for at in readings_of_tests(scene)):
        return True
    read = {scene.items[at].sentence for at in scene.by_what.get("measured", ())}
    if read and any(scene.whats[at + 1] == NUMBER and not scene.items[at + 1].unit and scene.items[at].sentence in read
                    for at in scene.by_what.get("voc", ())):  # fmt: skip
        return True
    return bool(read) and any(scene.items[at].sentence in read for at in scene.units.get("V", ()))


def _technology(scene: Scene) -> str | None:
    """What is told first of the kinds, finer ones before others; none where mono and poly stand side by side."""
    told = next((kind for kind in _KINDS if scene.has(f"t:{kind}")), None)
    return None if told == "mono" and scene.has("t:poly") else told


def _bifacial(scene: Scene) -> bool | None:
    if scene.by_what.get("monofacial"):
        return False
    return not scene.denied(scene.by_what["bifacial"][0]) if scene.by_what.get("bifacial") else None


def _per_watt(price: Price, power_w: float | None, goods: Goods) -> Price:
    if price.each is None or not power_w or goods.kind != "panel":
        return price
    per_watt = round(price.each / power_w, 4)
    return tuple.__new__(Price, (price.value, price.currency, price.basis, price.each, per_watt))


def _claims(panel: Found, inverter: Found, asked: Asked, told: Sequence[Told], fields: _Fields) -> tuple[Claim, ...]:
    claims: list[Claim] = []
    for found, names in ((panel, _PANEL), (inverter, _INVERTER)):
        for name, (figure, item, sure) in found.items():
            what, unit = names[name]
            claims.append(_claim(what, figure, unit, item, sure, fields))
    if asked.item is not None and asked.price.value is not None:
        claims.append(_claim("price", asked.price.value, asked.price.currency or "", asked.item, 0.9, fields))
    claims += [_claim(what, value, unit, item, sure, fields) for what, value, unit, item, sure in told]
    return tuple(claims[:MOST_CLAIMS])


def _claim(what: str, value: float | str | bool, unit: str, item: Item, sure: float, fields: _Fields) -> Claim:
    plains, cut, sent = fields
    field = item.field
    start, end = cut[field].span(item.at, item.to)
    places = plains[field].places
    if places is not None:
        start, end = places[start], places[end - 1] + 1
    words = sent[field][start : start + _LONGEST_WORDS if end - start > _LONGEST_WORDS else end]
    # As Claim(...) without its frame of the interpreter: a tenth of the cost.
    return tuple.__new__(Claim, (what, value, unit, words, FIELDS[field], start, end, sure))
