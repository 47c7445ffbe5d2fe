"""Which small words join, part, price and deny others? What each of them does, in all languages together.

They mean nothing of their own, as what stands in a lexicon does; only their place beside figures and goods counts. An
advert mixes languages, and in which it is written is no more than likely, so a role has the words of all of them. The
tables tell which language has which; which signs do the same, and which roles hold others, stands in ``role_signs``.
"""

from dataclasses import dataclass

from service.core.adverts.small_words_of_harm import WordsOfHarm
from service.core.adverts.small_words_of_others import Stems, Words


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class SmallWords(WordsOfHarm):
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
    piece_named: Stems  # "400 W, the piece for 40"
    on_request: Words  # "price each on request"
    per_watt: Words
    per_pallet: Words
    sent_measures: Words  # "delivery £1 a mile"
    per_measure: Words  # between the two
    first_sent: Words  # "postage £20 for the first, £10 for each further"
    further_sent: Words
    watts: Words
    instead: Words  # "180 € instead of 329 €"
    each_at_end: Words  # "50 € je."
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
    spread_over: Words  # before the pallets that all of them stand on
    total_linking: Words  # "62 in total", "total of 62"
    of_these: Words  # "20 panels, of these 12 left"
    included: Words  # behind a "not": it comes on top
    parcel: Words  # "parcel of 2 panels"
    post_behind: Words  # "post code"
    pictures: Words  # "will post pictures"
    pictures_joining: Words  # "pictures I can send"
    sending_or: Words  # parts a price from one with sending
    sending_joining: Words  # "with postage for 66 €"
    from_so_much: Words  # "free delivery over £200"
    basket: Words  # "free once your basket reaches £200"
    pair: Words  # "90 the pair"
    pair_or_not: Words  # some: only behind one of the next
    beside_pair: Words
    pair_of_more: Words  # behind it: "a pair of cables"
    per_so_many: Words  # "je 2 Stück 90"
    costing: Words  # between a number or a pair and a price: "vier Stück kosten 160"
    price_now: Words  # "was 80, now 50"
    price_was: Words
    price_from: Words  # "from 80 to 50"
    price_to: Words
    priced_here: Words  # "new 600, here 300"
    value_named: Words  # "value 80, asking 50"
    price_cut: Stems  # "lowered"
    token_named: Stems  # "1 € is only a placeholder"
    to_list: Words  # "£1 is just to get it listed"
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
    deposits: Words  # "£50 deposit"
    balances: Words  # "balance £950", where a deposit is told
    deposit_as: Words  # "50 € as deposit"
    bills: Words  # "invoice £180"
    billed_over: Words  # "invoice over £180"
    of_parts: Words  # deposits and bills
    of_other_amount: Words  # without one of these there are no such amounts
    price_change: Words  # "10 € discount", "surcharge of £20"
    price_less: Words  # behind an amount: "£10 off"
    price_more: Words  # the same: "£15 more with the bracket"
    more_linked: Words  # the same only behind a word that joins: "15 € de plus"
    change_linking: Words  # between the two: "10 € de remise"
    change_after: Words  # before such a word: "with the discount £50" is a price
    returned: Words  # "pallet deposit £20"
    returnable: Words  # before such a word: "refundable deposit"
    other_costs: Words  # parking, tolls, storing, repairs, parts in place of others
    in_shops: Words  # "lead missing, £12 online"
    adding: Words  # "I'll add the plugs for £5"
    of_beside: Words  # without one of these, a missing part or a swap there are no such amounts

    # What is not asked of a buyer.
    no_payment: Words  # "payment in advance is not needed"
    demanded: Stems
    undemanded: Words  # says both in one
    lacking: Words  # "no postage without payment in advance"
    only_then: Words  # "look first, then transfer"
    looked_at: Stems
    at_first: Words  # "first transfer, then I post"
    money_sent: Stems
    once: Words  # "once the transfer has arrived, I post"
    money_named: Stems  # by what it is called, and "paid"
    reserves: Stems  # behind a deposit

    # Plugs.
    plug: Stems
    on_each: Words
    own_leads: Words  # "a mains plug on each lead"
    lead_ends: Words
    solar_plug: Stems
    mains_plug: Stems
    panel_lead: Stems  # "a 13 A plug on the panel's cable"
    plug_leads: Words  # "a 13 A plug wired onto its lead"
    put_on: Words  # between the two

    left_alone: Words  # "panels sold, only the inverter is left"
    views: Words  # "300 views already"
    island: Words  # "48 V battery, 3000 W island"
    battery_word: Stems
    inverting: Stems  # of an inverter off the grid

    # What is denied.
    tied: Stems  # to an account
    released: Stems  # from one

    edit_words: Words  # "EDIT: now £90 each"
    before_edited: Words  # all that may stand between an edit and the price that is asked since: "now reduced to"
    before_promised: Words  # before "promised" where it is said of the goods: "these are already"
    to_car_socket: Words  # "into the cigarette lighter"
    hire_times: Words  # "for hire only, £40 a week"

    # Whose damage it is.
    strangers: Words  # whose panels are others: neighbours
    mine: Words  # set against those
    these_here: Words  # the same: "bei uns nicht"

    # Labels.
    label_of: Stems  # "price sticker"
    label_on: Stems  # "label on the box"
    label_none: Words  # "no label removed"
    label_pictured: Stems  # "the plate is gone, but I have a photo of it"
    label_kept: Words  # who has it
    stickers: Words  # may be any, not only that of the ratings
    frames: Stems  # on which they stick
    scraped: Stems  # what is done to a label on purpose
    legible: Stems  # "the sticker on the frame cannot be read"

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
    lessons: Words  # books, courses, calculators
    lesson_ends: Stems  # what such words of several parts end with: "Solarrechner"
    plans: Words  # "planning of your solar plant"
    yours: Words  # between the two
    plant_named: Stems
    work: Stems  # behind a plan: "PV planning service"
    coming_with: Words  # before what comes along
    coming_along: Words  # before what comes along, or does not
    ran_with: Words  # before goods that a thing was used with: "läuft bei mir mit zwei Modulen"
    was_used_with: Words  # those and further ones before panels that hung on an inverter: "used with 18 A panels"
    dwellings: Words  # houses, boats and vehicles that have panels
    of_place: Words  # before the place where goods were or shall be
    shells: Words  # sold empty they are no panels: boxes, frames
    emptied: Words  # "empty boxes", "boxes of two panels, empty"
    bare: Words  # those and others beside it: "frames alone"
    out_of: Words  # between those and the panels that were in them
    charging: Words  # "power station, can be charged by a panel"
    thrown_in: Words  # behind goods: "two panels come with it"
    nothing_else: Words  # "selling only the inverter"
    all_that_is_left: Words  # that and others before goods of a title: "il ne reste que l'onduleur"
    went_away: Words  # "inverter, the panels are gone"
    another: Words  # "bought a bigger inverter"
    known_one: Words  # before such a word: "the new inverter does not suit them"
    other_new: Stems  # things that are new where the goods are not: "new roof, so they must go"
    no_longer: Words  # "plus neufs"
    quite: Words  # between the two
    project: Stems  # "left from a campervan project"
    changed_to: Words  # "upgraded to 430 W"
    sold_manner: Words  # behind "sold" that is no more than how it is sold: "sold as seen"
    sold_how: Words  # behind "sold" of what is on offer: "sold with its cable", "verkauft werden 4 Module"
    sold_lot: Words  # the same behind a manner: "vendus en bloc"
    must_go: Words  # before "away", which tells of no loss then: "muss weg"
    being_sold: Words  # before it: "werden wegen Umzug verkauft"

    # Who is asked.
    to_you: Words  # before "looking for", said to a buyer: "are you still"
    helpers: Words
    anybody: Words
    buyer_pays: Words

    asks_who: Words
    i_pay: Words  # before what a buyer offers
    only_buyers_pay: Words  # those that no seller says of himself
    before_bid: Words  # between such a word and the amount: "pay up to", "give you"
    bid_for: Words  # behind it: "£40 for a panel"
    too: Words  # "so am I", behind a question who looks for goods
    of_myself: Words  # the other words of it
    myself: Words  # "I", "we", where verbs do not tell
    i_have: Words  # "heb er twee nodig"
    i_take: Words  # verbs that tell of the writer: "prendrais"
    i_would: Words  # before verbs that do not: "ich würde zwei abnehmen"
    taking: Words
    beside_count: Words  # between such a word and a number: "er twee", "two of these"
    if_you: Words  # "if you have two to spare, I pay 40"
    to_spare: Words

    # Orders to a reader.
    nothing: Words  # "looking for nothing in exchange", "nothing up front"
    harms: Words  # that and words for damage in everyday words: without one none is told so
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
    kinds: Words  # "two kinds of panel"
    kind: Words  # "5 of each kind"
    pallet: Stems  # pallets and boxes
    bundles: Words  # counted, they tell no number of pieces: "6 pairs"
    equal_sets: Words  # "5 lots of 2 panels"
    pairs: Words  # "4 pairs of panels"
    sets_by: Words
    equal_set: Words  # "110 € par lot" of several; "le lot" may be all of them
    by_set: Words
    the_set: Words  # "90 € le lot" where "lot de 2" is told before
    all_of_them: Words  # "350 for all" of several sets
    before_all: Words  # before it: "120 € in tutto"
    part_of: Words  # "4 of 12"
    part_articles: Words  # "4 of my 12"
    part_left: Words
    handed_over: Words  # behind what else means a rebate: "50 € remise en main propre"
    inputs_bear: Words  # all that may stand between "both inputs" and what each of them bears
    free_words: Words  # said of goods, and of parking and coffee
    light_words: Words  # articles, "is", "unfortunately": beside goods they tell nothing else
    beside_kept: Words  # between a number and that the seller keeps so many: "four of them I keep"
    part_of_them: Words  # in a sentence of its own: "I keep 4 of them"
    left_over: Words  # beside a number of what is left of more: "7 remain"
    only_yet: Words  # directly before it, behind one of the next row: "nur noch 9"
    yet: Words
    the_rest: Words  # "bought 10, fitted 6, the rest £40 each"
    used_up: Words  # behind the number of those that are used
    used_before: Words  # before it
    put_up: Words  # "I put 12 panels on my roof"
    of_his_own: Words
    own_places: Words
    left_linking: Words  # between the number and such a word: "11 sind schon weg"
    gone_by_now: Words  # behind a number of what is gone: "11 gone"
    sold_some: Words  # before it or behind it: "já vendi 11"
    some_only: Words  # "12 on the roof but only 5 are for sale"
    for_sale: Words
    some_joining: Words  # between the number and that
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
    power_behind: Words  # "415er", "400'ers": panels of so many watts
    packs: Stems  # but "200er Pack"
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
    together: Words  # "25 A in all"
    together_in: Words  # some: only behind one of the next
    in_before: Words
    two_of_inputs: Words  # "for the two inputs", only behind one of the next
    the_inputs: Words
    all_of_inputs: Words  # those and "28 A for both inputs"
    inputs_named: Stems  # behind these
    of_all_inputs: Words  # those of them, and articles, that say "of": "Summe beider Eingänge"
    sharing: Stems  # "both inputs share 14 A"
    never_cut_short: Words  # short words that are whole: a point behind "MPPT" ends a sentence
    in_series: Words  # "120 V in series"
    series_in: Words  # some: the same
    in_parallel: Words  # "28 A with inputs in parallel"
    of_several: Words  # both
    of_mine: Words  # "my panels were 37 V"
    on_a_wire: Words  # "5 units per string"
    one_wire: Words  # between it and the wire
    shared_wire: Words
    tested: Words  # "tested: 36 V"
    tested_with: Words  # between the two
    test_day: Words  # "tested yesterday"
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
    carriers: Words  # further ones: "connectors rated 30 A"
    others_volts: Stems  # whose volts are no input's: "system voltage 1500 V", "cable 1500 V"
    unit_behind: Words  # between a name and its unit: "Isc in A: 14"
    currents: Stems  # of a coefficient: "current 0.05 %/K"
    batteries: Stems  # "battery terminals max. 58 V"
    by_another: Stems  # who may raise an output: "the maker can set it to 800 W"
    placed: Words  # before a thing that something else happened to: "tried on my inverter, dead"
    beyond: Words  # "above 60 V it is dead"

    # Line ends. No separable prefixes of verbs ("hole es ab") among them.
    line_cut_short: Words  # the same with a point: "max."
    line_waiting: Words  # behind them a sentence goes on
