"""What is said beside a shortlist.

Keys: ``because.code``, ``ask.code``, ``against.code``, ``note.code``, ``bid.code``, ``remark.code``, ``question.code``,
``fit.group``, ``left_over``.
"""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "because.not_an_offer": "Nothing is on offer here.",
    "because.other_goods": "Neither panels nor an inverter that would do.",
    "because.damaged": "It is damaged.",
    "because.sold": "It is sold already, the advert says.",
    "because.reserved": "It is reserved for somebody. Ask whether it comes free.",
    "because.no_price": "No price of a piece or a lot is told. Ask for one, and hand it over as `price_text`, "
    "or as `reading.price` where you send a reading.",
    "because.too_dear": "Its price is far beyond anything that could pay. Ask whether it is meant so.",
    "because.other_currency": "Its price is in another currency than your tariff.",
    "because.currency_unlike_most": "Its price is in another currency than this account, which is in {currency} as no "
    "tariff tells yours: amounts of two currencies are neither summed nor compared. Name a `tariff` with its currency.",
    "because.no_rated_power": "No rated power is told that a panel can have. Ask for a picture of the label.",
    "because.no_ac_power": "No rated power is told that an inverter of a small set can have. Ask for a picture of "
    "its plate.",
    "because.off_grid_inverter": "This inverter is not made for the grid and must not be plugged in.",
    "because.string_inverter": "This inverter wants more panels in series than a small set has.",
    "because.figures_contradict": "Its figures cannot belong together ({rating}: {problem}). Ask for the label.",
    "because.no_inverter": "There is no inverter for it: none is at hand, and no other advert offers one that could be "
    "taken.",
    "because.no_panels": "There are no panels for it: none are at hand, and no other advert offers any that could be "
    "taken.",
    "because.no_room": "There is no room for its panels, or the inverters have too few inputs.",
    "because.does_not_fit": "It fits none of the others here. {finding}",
    "because.refused": "Its best set is refused. {finding}",
    "because.no_curve": "With these figures no set could be reckoned. Ask for the label.",
    "because.others_without_curve": "With the figures of the panels that would go with it no set could be reckoned. "
    "Ask for their labels.",
    "because.double": "It is {of} once more, with the same goods, number and price: see there.",
    "because.alternative": "Its best set gave way to set {set}, of which it shares an advert. Ring up here where that "
    "one is gone.",
    "because.ranks_below": "Its best set comes after those listed.",
    "because.behind_for_doubts": "Its best set stands behind those listed, as sets with such doubts do.",
    "because.not_looked_at": "Of many adverts only some are looked at closely, with some of the others. By a rough "
    "reckoning of price and rated power this is number {place} of {of}. That proves nothing: send fewer adverts at "
    "once to have it looked at.",
    "because.nothing_told": "Neither a title nor a text nor a reading was handed over.",
    "because.never_pays": "Its best set is not paid back here.",
    "ask.open_circuit_voltage_v": "Which open-circuit voltage (Voc) does the label name?",
    "ask.short_circuit_current_a": "Which short-circuit current (Isc) does the label name?",
    "ask.max_power_voltage_v": "Which voltage at maximum power (Vmp) does the label name?",
    "ask.max_power_current_a": "Which current at maximum power (Imp) does the label name?",
    "ask.voc_coefficient_pct_per_k": "Which temperature coefficient of Voc does the data sheet name?",
    "ask.bifaciality_share": "Does the panel take in light from its rear side too?",
    "ask.bifaciality_pct": "Which bifaciality, in per cent, does the data sheet name?",
    "ask.max_input_voltage_v": "Which greatest direct voltage does the inverter's plate name?",
    "ask.tracking_min_v": "At which voltage does the inverter's tracking range begin?",
    "ask.tracking_max_v": "At which voltage does the inverter's tracking range end?",
    "ask.start_voltage_v": "From which voltage on does the inverter start?",
    "ask.max_current_a": "Which greatest input current does the inverter's plate name?",
    "ask.max_short_circuit_current_a": "Which greatest short-circuit current (Isc) does the inverter's plate name?",
    "ask.input_count": "How many inputs for panels does the inverter have?",
    "ask.label_photo": "Could you send a picture of the label?",
    "ask.panels_in_set": "How many panels belong to the set?",
    "ask.quantity": "How many are there?",
    "ask.split_lot": "Do you sell single pieces too?",
    "ask.price_basis": "Is the price for one, or for all together?",
    "ask.price_meant": "What price is really meant?",
    "ask.minimum_order": "How many have to be taken at least?",
    "ask.sending_cost": "What does sending it to you cost?",
    "ask.delivery": "Where can it be fetched, or what does sending it cost?",
    "ask.still_there": "Is it still there?",
    "against.bargain": "A bargain: even in the cautious case it does better than the new set in the middle one.",
    "against.better_than_new": "By what you want it does better than the new set, though not surely so: by too little, "
    "or with a doubt about its adverts or its fit.",
    "against.new_may_not_fit": "By what you want it does better than the new set, and even in the cautious case. But "
    "that one likely does not fit itself, so this is not called a bargain.",
    "against.new_currency_not_known": "By what you want it does better than the new set, and even in the cautious "
    "case, if that one's price is in the currency of these amounts: adverts here are in several, and nobody said which "
    "is yours. Name a `tariff` with its currency.",
    "against.no_better_than_new": "By what you want the new set does as well or better.",
    "against.new_does_not_fit": "The new set that was named does not fit itself, so it is no measure for this one.",
    "note.no_price_known": "No price per kWh is known for this place: sets are ranked by the least outlay per yearly "
    "kWh. Name a `tariff` for payback and value.",
    "note.currency_of_most": "No tariff names your currency, so all amounts are in {currency}: of the currencies in "
    "which a set can be put together (of all, where it can in none) that of most adverts, of equally many the first by "
    "its letters. "
    "Adverts in others are left out; what was told without a currency, your own amounts too, is taken as {currency}.",
    "note.no_new_set": "No price of a new set was named (`new_from_shop`), so no set is set beside one, and a bid is "
    "what the goods are worth to you here, which may be more than a new set costs. Look one up first.",
    "note.new_does_not_fit": "The new set that was named does not fit at this home (see `new_from_shop`), so nothing "
    "is called a bargain and no bid is held by it. Look up one that fits.",
    "note.new_hangs_on": "Whether the new set that was named fits hangs on what was not told of it: {missing}. It is a "
    "measure all the same; should it not fit, look up one that does.",
    "bid.new_does_not_fit": "What it earns back at this home, and no price to offer: the new set that was named does "
    "not fit, and one that does may cost far less. Look one up; until then go by `beside_others`, or by what is asked.",
    "bid.no_new_price": "What it earns back at this home, and no price to offer: nobody said what a new set costs in a "
    "shop, which may be far less. Look one up and hand it over as `new_from_shop`; until then go by "
    "`beside_others`, or by what is asked.",
    "bid.as_good_as_new": "Dearer than that, a new set from a shop does as well or better by what you want.",
    "bid.price_of_new": "For that price a whole new set comes from a shop.",
    "bid.worth_here": "Dearer than that, it is not earned back at this home.",
    "left_over": "{left} of the {must_take} that have to be taken are left over, paid for and counted for nothing.",
    "left_over.one": "1 of the {must_take} that have to be taken is left over, paid for and counted for nothing.",
    "fit.likely_fits": "Nothing that is known speaks against it.",
    "fit.likely_does_not_fit": "With the worst values usual where ratings were not told it does not fit. So it stands "
    "behind sets that nothing speaks against, however soon it would be paid back.",
    "fit.likely_does_not_fit.none_better": "With the worst values usual where ratings were not told it does not fit. "
    "No set listed here is free of that, so it costs this one no rank.",
    "fit.hangs_on": "Whether it fits hangs on this: {missing}.",
    "fit.does_not_fit": "It is refused, which can be mended. So it stands behind all that are not.",
    "fit.does_not_fit.none_better": "It is refused, which can be mended. So is every set listed here.",
    "remark.text_not_read": "A text was sent beside a reading. The reading counts, and nothing was taken from the "
    "text; leave the reading out to have it read.",
    "remark.text_differs": "The text tells otherwise than the reading beside it: {differs}. The reading counts. Where "
    "the text is right, mend the reading or leave it out.",
    "remark.posted_ahead": "It is told to be posted on {posted_on}, and this answer is of {as_of}: it cannot be that "
    "new, so how old it is counts as not known. Are day and month swapped, or is `as_of` another day?",
    "remark.no_set": "`panel_count` tells the panels of a set, and this is none: it was passed over. How many there "
    "are belongs in `reading.quantity_available`.",
    "remark.doubts_not_known": "Its reading names doubts that GET /v1/vocabulary does not list: {codes}. They were "
    "passed over.",
    "note.none_likely_fits": "With the worst values usual where ratings were not told, no set listed here fits. None "
    "is refused for that yet: what it hangs on is named beside each, with what to ask its seller. Ask before you buy, "
    "and connect nothing before the answer is there.",
    "note.all_refused": "Each set listed here is refused as it stands, which can be mended. Its findings tell why; "
    "send its `request` to `/v1/compatibility`, which tells what would mend it.",
    "note.order": "Sets that fit, or of which nothing known speaks against it, come first; then those that do not fit "
    "with the worst values usual where ratings were not told; last those that are refused, which can be mended. Of "
    "these, sets without a smell of a trick come first, then those that do best by your wish, then the cheaper. While "
    "others do nearly as well as the best (within {nearly_pct} %), no advert stands in more rows than {rows}, and "
    "while any others pay, in no more than {most}: who hears that one is sold has another row to go on with. So a row "
    "may do worse than a set that gave way to it; these are named beside a row that they share an advert with.",
    "note.doubles": "Adverts of the same goods, number and price from about the same place were taken for one told "
    "again: {adverts} of them are named beside the nearest. Where they are not one, ring up both.",
    "note.fetching_is_free": "Distances were named and no cost for a kilometre (`outlay.fetching_per_km`): driving "
    "counts for nothing.",
    "note.joined": "Panels of two adverts were joined for the {most} adverts that come out best alone.",
    "note.looked_at": "Of many adverts those were looked at closely that come out best by price, rated power and how "
    "many the inputs take: of panels {panels} at a time and of kinds of inverters {inverters}, until of each inverter "
    "{enough} were found that fit. {left} adverts were not; that none of them would stand in a row here is likely, and "
    "not proven.",
    "note.tricks_behind": "Sets with an advert that wants payment in advance or contact elsewhere, lets nobody look, "
    "has no invoice or label, or is bound to an account stand behind the others, whatever they cost. A price far under "
    "the others is told as a doubt and moves no rank.",
    "note.at_hand_not_listed": "At hand, and in no entry of `outlay.items`: {items}. Nothing was taken off for them. "
    "Name them as they are called there; what costs nothing need not be named.",
    "note.goods_in_outlay": "`outlay.items` names {items}: that comes on top of what adverts and their way here cost "
    "in each set. Leave it out unless it is something else.",
    "note.place_at_two_distances": "Of {place} distances of {least:g} and {most:g} km are told. One trip was counted, "
    "as far as the farthest advert that it fetches. Give two places two names.",
    "note.room_assumed": "Nobody said for how many panels there is room: four were taken to fit.",
    "question.distance": "How far away is the advert {advert}, and the others of which you did not say? Until then a "
    "usual way or what sending may cost is counted, with its range; nothing where a kilometre costs nothing.",
    "question.new_set": "What does such a set cost new, from a shop, with all that belongs to it? Tell its price, "
    "panel and inverter: it then stands beside each set, and no bid goes above it.",
    "question.new_ratings": "What does the label or the data sheet of the new set say? Whether that one fits hangs on "
    "this, which was not told: {missing}.",
    "question.tariff": "What does a kWh cost you? Payback, value and bids hang on it.",
    "question.room": "For how many panels is there room at each place?",
    "question.fetching": "What does a kilometre of driving cost you?",
}
