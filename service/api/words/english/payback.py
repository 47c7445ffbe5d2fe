"""How is an account said: paid back or not, the rate of return, what to bid, what moves it, the greenhouse gas?

Keys: ``crossings.<code>``, ``returns.<code>``, ``break_even``, ``step.<cause>.<less|more>`` set into
``stepped.<then>.<now>``, ``co2.<code>``.
"""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "so_far": "In the {years:.1f} years of the log about {saved} {currency} were saved; {promised} {currency} were "
    "promised for that time. What gaps of the log may hide is not counted.",
    "so_far.of_outlay": "In the {years:.1f} years of the log about {saved} {currency} were saved, {paid_pct:.0f} % of "
    "the outlay; {promised} {currency} were promised for that time. What gaps of the log may hide is not counted.",
    "crossings.paid_back": "Paid back after {first_years:.1f} years, interest reckoned in; no later cost undoes it.",
    "crossings.paid_back_twice": "Paid back after {first_years:.1f} years, but a later cost undoes that; for good "
    "after {lasting_years:.1f} years.",
    "crossings.undone": "Paid back after {first_years:.1f} years, but a later cost undoes that, and by the end of the "
    "{years_kept:g} years kept it is not earned again.",
    "crossings.not_paid_back": "Not paid back within the {years_kept:g} years kept, interest reckoned in.",
    "crossings.by_selling": "Paid back only by selling it after the {years_kept:g} years kept, interest reckoned in; "
    "what it saves until then does not do it alone. The simple payback counts no sale.",
    "crossings.by_selling_at_last": "Paid back after {first_years:.1f} years, but a later cost undoes that; for good "
    "only by selling it after the {years_kept:g} years kept.",
    "crossings.nothing_to_pay_back": "Nothing is left to pay, so there is nothing to pay back.",
    "returns.one": "The money brings {rates} a year.",
    "returns.one.loss": "The money loses: its one rate of return is {rates} a year.",
    "returns.one.lent": "More comes in at first than is paid, and goes out later: the one rate of return, {rates} a "
    "year, is what having that money costs, not what it brings. Go by what is left over.",
    "returns.none": "There is no rate of return: money only comes in, only goes out, or balances at no rate.",
    "returns.several": "There are several rates of return ({rates}), because later costs turn the sum more than once. "
    "None of them alone tells what the money brings; go by what is left over.",
    "break_even": "Up to {outlay} {currency} this is paid back in {years:g} years.",
    "break_even.sold": "Up to {outlay} {currency} this is paid back in {years:g} years, with what you reckon that "
    "selling it then brings.",
    "break_even.nothing": "In {years:g} years nothing comes back that could pay for it.",
    "step.price.less": "A kWh bought costs {percent:.0f} % less",
    "step.price.more": "A kWh bought costs {percent:.0f} % more",
    "step.yield.less": "The set gives {percent:.0f} % less",
    "step.yield.more": "The set gives {percent:.0f} % more",
    "step.self_use.less": "You use {percent:.0f} % less of it at home",
    "step.self_use.more": "You use {percent:.0f} % more of it at home",
    "step.outlay.less": "You pay {percent:.0f} % less for it",
    "step.outlay.more": "You pay {percent:.0f} % more for it",
    "stepped.after.after": "{step}: paid back after {then:.1f} years instead of {now:.1f}.",
    "stepped.after.after.more": "{step}: paid back after {then:.1f} years as before, {moved} {currency} more left "
    "over.",
    "stepped.after.after.less": "{step}: paid back after {then:.1f} years as before, {moved} {currency} less left "
    "over.",
    "stepped.never.after": "{step}: not paid back within {years_kept:g} years, instead of after {now:.1f}.",
    "stepped.after.never": "{step}: paid back after {then:.1f} years, instead of not within {years_kept:g}.",
    "stepped.free": "{step}: there is nothing to pay back, before or after.",
    "stepped.never.never.more": "{step}: still not paid back within {years_kept:g} years, {moved} {currency} more left "
    "over.",
    "stepped.never.never.less": "{step}: still not paid back within {years_kept:g} years, {moved} {currency} less left "
    "over.",
    "stepped.never.never.same": "{step}: nothing changes.",
    "co2.average": "Reckoned with {grams:.0f} g of CO2 equivalent a kWh, the life-cycle average of all electricity "
    "generated in {area} in {year}. It is not the plant that would run at that moment, and the making of the set is "
    "not taken off.",
    "note.netted_by_registers": "Surplus was netted against what you draw at times of the same price only, as a meter "
    "with a register for each price does: a kWh sent out at noon takes none off the evening if that costs another "
    "price.",
    "note.netted_by_unlike_prices": "Hours or seasons of unlike price were netted together, in money: a kWh sent out "
    "was credited at the price of its own hour, until the bill of the month or year was nought. Contracts differ in "
    "this; ask your supplier.",
    "note.export_above_import": "At some time a kWh sent out earns more than one bought costs. Whatever raises the use "
    "at home then lowers the saving: a meter that sums over phases, a battery, a machine run at noon.",
    "note.dearer_costs": "If a kWh gets dearer, this set saves less and pays back later: the inverter draws more by "
    "night than is used of the set, or the meter bills what is sent out. Each tenth on the price takes up to {lost} "
    "{currency} a year off the saving.",
    "note.dearer_costs.negative": "Your tariff pays for drawing in some hours. If all its prices move away from nought "
    "by a tenth, up to {lost} {currency} a year are taken off the saving: what is used of the set is then no longer "
    "drawn in such hours, or the inverter draws by night, or the meter bills what is sent out.",
    "note.price_far_from_area": "A kWh bought was given as {price:g} {currency}, while households of {area} paid "
    "{known:g} on average ({period}). If that is no slip, nothing is to be done; prices are in whole {currency}, not "
    "in hundredths of it.",
    "co2.not_known": "No dated average of the grid is known for {area}, and a neighbour's is not borrowed.",
}
