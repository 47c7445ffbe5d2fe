"""Which small words join, part, price and deny others? What each of them does, in all languages together.

They mean nothing of their own, as what stands in a lexicon does; only their place beside figures and goods counts. An
advert mixes languages, and in which it is written is no more than likely, so a role has the words of all of them. The
tables tell which language has which; here stand the signs that do the same, and which roles hold others.
"""

from collections.abc import Iterable, Mapping, Set
from dataclasses import dataclass, fields
from sys import intern
from typing import Any, NoReturn, get_origin

from service.core.adverts.plain import HALVES, plain_of
from service.core.adverts.tokens import words_of
from service.core.model.advert_words import COMMON, ByLanguage

Words = frozenset[str]
Stems = tuple[str, ...]  # what words begin with


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SmallWords:
    """The words of each role, plain and in small letters. Each field has the name that its role has in the tables."""

    joining: Words
    per: Words
    number_behind: Words  # "5no 250 W"

    # Where goods are fetched.
    before_a_town: Words
    saint: Words  # "Sint", "Ste": one town is written with several

    # Money.
    for_so_much: Words
    paid_for: Words  # so much was or is paid for it
    sending_for: Words  # "postage for 6.95"
    for_so_many: Words  # "450 € por 9 placas"
    for_so_many_kr: Words  # the same behind a point: "450 kr. for 9"
    at_so_much: Words  # "ten panels à 20"
    a_piece: Words  # behind an "a" that is no ampere
    is_priced: Words  # between what names a price and the price
    per_watt: Words
    per_pallet: Words
    watts: Words
    instead: Words  # "180 € instead of 329 €"
    only: Words  # "postage only: £25"
    plus_sending: Words
    less_sending: Words
    not_in_price: Words
    of_which: Words  # "69 € with postage (of which 7 €)"
    with_sending: Words
    alternative: Words  # "80 for both or 45 singly"
    tax: Words  # between an amount and what it is for
    tax_beside: Words  # before the name of a tax
    standing_on: Words  # before the pallet that they stand on
    sending_or: Words  # parts a price from one with sending
    sending_joining: Words  # "with postage for 66 €"
    from_so_much: Words  # "free delivery over £200"
    basket: Words  # "free once your basket reaches £200"
    pair: Words  # "90 the pair"
    pair_or_not: Words  # some: only behind one of the next
    beside_pair: Words
    pair_of_more: Words  # behind it: "a pair of cables"
    per_so_many: Words  # "je 2 Stück 90"
    price_now: Words  # "was 80, now 50"
    price_was: Words
    price_from: Words  # "from 80 to 50"
    price_to: Words
    price_cut: Stems  # "lowered"
    price_lowered_to: Words  # what may stand between the two
    of_old_price: Words  # without one of these there is no old price

    # Amounts that are no price of the goods.
    energy: Words  # "0.35 € per kWh"
    per_energy: Words  # between an amount and that
    energy_price: Words  # "Strompreis 0,35 €"
    yearly: Words
    year: Words  # "200 € a year"
    per_year: Words  # before it
    aged: Words  # "a year old"
    not_paid: Words  # saved, granted, worth
    under: Words  # "offers under 30 ignored"
    bids_named: Words
    of_other_amount: Words  # without one of these there are no such amounts

    # What is not asked of a buyer.
    no_payment: Words  # "payment in advance is not needed"
    demanded: Stems
    undemanded: Words  # says both in one
    lacking: Words  # "no postage without payment in advance"
    only_then: Words  # "look first, then transfer"
    looked_at: Stems
    at_first: Words  # "first transfer, then I post"
    money_sent: Stems
    reserves: Stems  # behind a deposit

    # Plugs.
    plug: Stems
    on_each: Words
    own_leads: Words  # "a mains plug on each lead"
    lead_ends: Words
    solar_plug: Stems
    mains_plug: Stems

    inverting: Stems  # of an inverter off the grid

    # What is denied.
    tied: Stems  # to an account
    released: Stems  # from one

    # What is told of defects.
    unbroken: Words  # "the glass is whole"
    wrappings: Words  # cracked they are no glass: cartons, frames
    strangers: Words  # whose panels are others: neighbours
    mine: Words  # set against those

    # Labels.
    label_of: Stems  # "price sticker"
    label_on: Stems  # "label on the box"
    label_none: Words  # "no label removed"
    label_pictured: Stems  # "the plate is gone, but I have a photo of it"
    label_kept: Words  # who has it

    # What goods are there for.
    against: Words  # "swap for an inverter"
    optional: Stems
    before_reason: Words  # between "because of" and the thing that is the reason
    own: Words
    panel_along: Words  # "garden lamp and panel"
    second: Words  # "a second inverter"
    other_inverters: Stems  # beside "inverter" in a title: welders, microwave ovens
    belongings: Words  # sold by themselves: "inverter cable"
    belonging_ends: Stems  # what such a word of several parts ends with, not how it begins: "Netzkabel"
    coming_with: Words  # before what comes along
    coming_along: Words  # before what comes along, or does not
    ran_with: Words  # before goods that a thing was used with: "läuft bei mir mit zwei Modulen"
    dwellings: Words  # houses, boats and vehicles that have panels
    of_place: Words  # before the place where goods were or shall be
    thrown_in: Words  # behind goods: "two panels come with it"
    nothing_else: Words  # "selling only the inverter"
    another: Words  # "bought a bigger inverter"
    known_one: Words  # before such a word: "the new inverter does not suit them"
    other_new: Stems  # things that are new where the goods are not: "new roof, so they must go"
    project: Stems  # "left from a campervan project"
    changed_to: Words  # "upgraded to 430 W"
    sold_manner: Words  # behind "sold" that is no more than how it is sold: "sold as seen"
    sold_how: Words  # behind "sold" of what is on offer: "sold with its cable", "verkauft werden 4 Module"
    sold_lot: Words  # the same behind a manner: "vendus en bloc"
    being_sold: Words  # before it: "werden wegen Umzug verkauft"

    # Who is asked.
    to_you: Words  # before "looking for", said to a buyer: "are you still"
    helpers: Words
    anybody: Words
    buyer_pays: Words

    asks_who: Words
    i_pay: Words  # before what a buyer offers
    too: Words  # "so am I", behind a question who looks for goods
    of_myself: Words  # the other words of it

    # Orders to a reader.
    nothing: Words  # "looking for nothing in exchange", "nothing up front"
    looked_once: Words  # "was looking for one"
    looks_himself: Words  # "for those looking for", "if you are looking for"
    greater: Words  # "looking for bigger ones now"
    order_aside: Words  # "ignore"
    order_no_account: Words  # with a "no" before it: "take no account of"
    order_first: Words
    order_told: Stems  # "instructions"
    order_above: Words  # "everything said above"
    order_small: Words  # between an order to forget and "above" they name nothing, as "the price above" does
    order_verbs: Words  # "answer", "set"
    order_first_only: Words  # the same as first word; elsewhere they mean other things
    order_and: Words
    order_not: Words
    order_telling: Words  # who tells of himself: "before I forget"
    order_cut_short: Words  # a point behind them ends no sentence
    order_machines: Words  # that read only where they are called automatic
    order_reader: Words  # machines that read
    order_automatic: Stems
    order_reading: Words  # or of which it is said that they read
    order_called: Words  # called by themselves they are no goods: "bots: condition new"
    order_for: Words  # begin what is said to them: "note to the parser"
    order_if: Words  # "if you are a robot"
    order_marks: Words  # in brackets they part what is said to such a machine
    order_setting: Words  # verbs before "the price to"
    order_to_set: Words  # the same behind "you must"
    order_price: Words
    order_price_to: Words  # between "price" and the amount that it is to be set to
    order_must: Words  # "you must put the price at"

    # How many.
    of_them: Words  # "three of them"
    pallet: Stems  # pallets and boxes
    bundles: Words  # counted, they tell no number of pieces: "6 pairs"
    equal_sets: Words  # "5 lots of 2 panels"
    sets_by: Words
    equal_set: Words  # "110 € par lot" of several; "le lot" may be all of them
    by_set: Words
    the_set: Words  # "90 € le lot" where "lot de 2" is told before
    all_of_them: Words  # "350 for all" of several sets
    part_of: Words  # "4 of 12"
    part_articles: Words  # "4 of my 12"
    part_left: Words
    left_over: Words  # beside a number of what is left of more: "7 remain"
    only_yet: Words  # directly before it, behind one of the next row: "nur noch 9"
    yet: Words
    left_linking: Words  # between the number and such a word: "11 sind schon weg"
    gone_by_now: Words  # behind a number of what is gone: "11 gone"
    sold_some: Words  # before it or behind it: "já vendi 11"
    them: Words  # "4 of them left out of 12"
    by_now: Words  # between a number and "sold": "5 already sold"
    still: Words  # "noch 4 von 12"
    still_there: Words
    set_joining: Words  # panels and an inverter
    parting_sets: Words  # "inverter and balcony set"
    others: Words  # "some of 230 W, others of 250 W"
    sorts_joining: Words
    sorts_of: Words
    sorts_between: Words
    count_words: Words  # between a count and watts: "3 times 400 W"

    # Ratings.
    rating_is: Words
    before_power: Words  # between "power" and a bare figure
    before_figure: Words  # what a figure is glued to that is no part of a code: "ca410"
    after_figure: Words  # what may be glued to a figure: "20er"
    growing: Words  # makes another figure of the one before it
    chaining: Words
    peak_units: Words  # watts of panels alone
    peak_behind: Words  # "410 W peak"
    peak_dashed: Words  # "watt-peak"
    behind_watts: Words
    per_degree: Words  # "-0.3 % per degree"
    degree_of_coefficient: Words
    degree_in_bracket: Words  # "(at 25 degrees)"
    celsius: Words
    degree_short: Words  # degrees only with the scale behind them: "25 st. C"
    of_temperature: Words
    degree_range: Words  # "-40 °C a 85 °C"
    square_metres: Words
    at_condition: Words  # "43 V at -10 °C"
    minus: Words
    beside_condition: Words
    never: Words  # "never fitted"

    # Limits, and what lies beyond them.
    volts_up_to: Words  # behind "16 v"
    volts_range: Words  # "16 to 60 V"
    code_before: Stems  # "order code 22/58 V", "charging voltage 14/28 V"
    code_short: Words  # the same where longer words begin alike
    tracker: Stems
    an_input: Words
    input_begins: Stems  # "inputs"
    put_out: Words
    direct: Words  # "1000 W DC"
    alternating: Words
    flowing_in: Words  # the same as "input", where nothing goes on behind it: "1000 W in, 800 W out"
    beside_watts: Words  # between such a word and the watts: "input up to 1000 W"
    for_each: Words  # "two inputs with one tracker each"
    other_wires: Stems  # whose amperes are no input's: "branch of 20 A"
    by_another: Stems  # who may raise an output: "the maker can set it to 800 W"
    placed: Words  # before a thing that something else happened to: "tried on my inverter, dead"
    beyond: Words  # "above 60 V it is dead"

    # Line ends. No separable prefixes of verbs ("hole es ab") among them.
    line_cut_short: Words  # the same with a point: "max."
    line_waiting: Words  # behind them a sentence goes on


# Signs, and letters that are signs of units, which do what the words of a role do.
_SIGNS: Mapping[str, Iterable[str]] = {
    "joining": "+",
    "is_priced": ":=",
    "per_watt": "/",
    "only": ",:-€£$",
    "plus_sending": "+",
    "sending_or": ",/;|(",
    "tax_beside": "(+,.%",
    "sending_joining": ":=€£$",
    "price_lowered_to": ",:→>-=",
    "of_old_price": "→>",
    "beside_pair": ".",
    "before_reason": "'",
    "by_set": "/",
    "set_joining": "&,",
    "sorts_joining": "&/",
    "sorts_between": ",",
    "count_words": ("x", "w", "."),
    "rating_is": ":=(",
    "before_power": (*":=()[]~|", "w", "wp"),
    "before_figure": "xui",
    "after_figure": "x",
    "growing": HALVES,
    "chaining": "-/",
    "peak_behind": "p",
    "behind_watts": ("dc", "ac"),
    "per_degree": "/",
    "degree_of_coefficient": ("°", "k", "c", "o", "oc"),
    "degree_in_bracket": "°c",
    "celsius": ("c", "oc", "f"),
    "degree_short": "°",
    "square_metres": ("m", "m2"),
    "at_condition": "(@",
    "minus": "-+",
    "beside_condition": ("=", "t", "tc"),
    "volts_up_to": "-",
    "volts_range": "-.~",
    "put_out": ("ac",),
    "direct": ("dc",),
    "alternating": ("ac",),
    "line_waiting": "x",
}
# Roles that have all that others have, too.
_ALSO: Mapping[str, tuple[str, ...]] = {
    "paid_for": ("for_so_much",),
    "sending_for": ("for_so_much",),
    "per_watt": ("per",),
    "per_pallet": ("per",),
    "sending_or": ("alternative",),
    "tax_beside": ("plus_sending",),
    "price_lowered_to": ("price_to", "price_now", "only"),
    "per_energy": ("per_watt",),
    "per_year": ("per",),
    "of_other_amount": ("energy", "energy_price", "yearly", "year", "not_paid", "under"),
    "of_old_price": ("price_now", "price_was", "price_from"),
    "not_in_price": ("plus_sending", "less_sending"),
    "order_reader": ("order_machines",),
    "panel_along": ("joining",),
    "anybody": ("helpers",),
    "order_first": ("order_aside", "order_no_account"),
    "set_joining": ("joining",),
    "sorts_joining": ("joining",),
    "sorts_between": ("sorts_joining", "others", "sorts_of"),
    "count_words": ("sorts_of",),
    "growing": ("number_behind",),
    "chaining": ("growing",),
    "behind_watts": ("peak_behind",),
    "per_degree": ("per",),
    "of_temperature": ("celsius", "degree_short"),
    "beside_condition": ("at_condition", "minus"),
    "input_begins": ("an_input",),
    "coming_along": ("coming_with",),
    "parting_sets": ("coming_with", "joining"),
}


def small_words_of(tables: ByLanguage) -> SmallWords:
    """The small words of all languages, checked.

    Raises:
        ValueError: a role that nobody knows or fills, a word that stands twice in one, or is not written as one word in
            small letters, with a star behind it where the role has beginnings of words and nowhere else.
    """
    stems = {role.name: (get_origin(role.type) or role.type) is tuple for role in fields(SmallWords)}
    told: dict[str, set[str]] = {name: set(_SIGNS.get(name, ())) for name in stems}
    for language, roles in tables.items():
        for name, row in roles.items():
            if name not in stems:
                _refuse(f"{language}: {name!r} is no role; accepted: {', '.join(stems)}")
            everywhere = () if language == COMMON else tables.get(COMMON, {}).get(name, ())
            told[name] |= _checked(f"{language}, {name}", row, set(map(_plain, everywhere)), stems=stems[name])
    made: dict[str, Any] = {}
    for name, held in told.items():
        if name not in _ALSO and not any(name in roles for roles in tables.values()):
            _refuse(f"no language has any for {name!r}")
        held.update(*(made[other] for other in _ALSO.get(name, ())))
        made[name] = tuple(sorted(held)) if stems[name] else frozenset(held)
    return SmallWords(**made)


def _checked(where: str, row: Iterable[str], everywhere: Set[str], *, stems: bool) -> set[str]:
    """The words of a role in one language, plain; ``everywhere``: those that stand for all languages already."""
    found: set[str] = set()
    for word in row:
        bare, plain = word.removesuffix("*"), _plain(word)
        if bare != bare.lower() or words_of(plain) != [plain]:
            _refuse(f"{where}: {word!r} is not one word in small letters, such as 'für'")
        if (word != bare) != stems:
            _refuse(f"{where}: {word!r} must {'' if stems else 'not '}end in a star; so do beginnings of words alone")
        if plain in found or plain in everywhere:
            _refuse(f"{where}: {word!r} stands there twice, or in {COMMON} too; once is enough")
        found.add(plain)
    return found


def _plain(word: str) -> str:
    return intern(plain_of(word.removesuffix("*")).text)  # as words of texts are: found without comparing letters


def _refuse(what: str) -> NoReturn:
    message = f"small words of adverts: {what}"
    raise ValueError(message)
