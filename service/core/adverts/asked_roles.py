"""Which roles of small words stand in a text at all? One bit for each that rules ask for of every text.

A rule whose words stand nowhere costs one look at a whole number, however many words it has.
"""

from service.core.adverts.small_words import SmallWords

ORDER_FIRST, ORDER_READER, ORDER_PRICE, ORDER_SETTING, ORDER_MUST, MARKS = 1, 2, 4, 8, 16, 32
OTHER_AMOUNT, OLD_PRICE, PRICE_WAS, EQUAL_SETS, AT_FIRST, PART_LEFT = 64, 128, 256, 512, 1024, 2048
LEFT_OF_COUNTED, TEMPERATURE, SQUARE_METRES, FREE_FROM, ALTERNATIVE, TAX = 4096, 8192, 16384, 32768, 65536, 131072
BUNDLES, PLUS_SENDING, EQUALS, PAIRS, I_PAY, KINDS = 262144, 524288, 1048576, 2097152, 4194304, 8388608
ONCE, QUESTION, PARTS, SOME_ONLY, ISLAND = 16777216, 33554432, 67108864, 134217728, 268435456
DWELLINGS, TESTED, NOTHING_ELSE, THROWN_IN, OF_SEVERAL = 1 << 29, 1 << 30, 1 << 31, 1 << 32, 1 << 33
OF_THESE, FOR_SALE, UNDER, BIDS_NAMED, PICTURES = 1 << 34, 1 << 35, 1 << 36, 1 << 37, 1 << 38
SHARED_WIRE, COLUMNS, USED_WITH, DEPOSITS, BILLS = 1 << 39, 1 << 40, 1 << 41, 1 << 42, 1 << 43
INSTEAD, BESIDE_PRICE = 1 << 44, 1 << 45
PUT_UP, FRAGILE_OTHERS, IN_THE_DARK = 1 << 46, 1 << 47, 1 << 48
RECANTING, DISPROVED, COMPARING, THEIRS = 1 << 49, 1 << 50, 1 << 51, 1 << 52
OTHERS_PRICES, SPANS = 1 << 53, 1 << 54
TAKES, SHELLS, HARMS = 1 << 55, 1 << 56, 1 << 57
DANGERS = 1 << 58
CONTRASTING = 1 << 59
EDITED = 1 << 60


def roles_of(small: SmallWords) -> dict[str, int]:
    """The bits of each word that has a role among these."""
    bits: dict[str, int] = {}
    for bit, words in (
        (ORDER_FIRST, small.order_first), (ORDER_READER, small.order_reader), (ORDER_PRICE, small.order_price),
        (ORDER_SETTING, small.order_setting), (ORDER_MUST, small.order_must), (MARKS, frozenset("[|")),
        (OTHER_AMOUNT, small.of_other_amount), (OLD_PRICE, small.of_old_price), (PRICE_WAS, small.price_was),
        (EQUAL_SETS, small.equal_sets), (AT_FIRST, small.at_first), (PART_LEFT, small.part_left),
        (LEFT_OF_COUNTED, small.left_over | small.only_yet | small.gone_by_now | small.sold_some | small.the_rest),
        (TEMPERATURE, small.of_temperature), (SQUARE_METRES, small.square_metres),
        (FREE_FROM, small.from_so_much | small.basket), (ALTERNATIVE, small.alternative), (TAX, small.tax),
        (BUNDLES, small.bundles), (PLUS_SENDING, small.plus_sending), (EQUALS, frozenset("=")), (PAIRS, small.pairs),
        (I_PAY, small.i_pay), (KINDS, small.kinds), (ONCE, small.once), (QUESTION, frozenset("?")),
        (PARTS, small.of_parts), (SOME_ONLY, small.some_only), (ISLAND, small.island), (DWELLINGS, small.dwellings),
        (TESTED, small.tested), (NOTHING_ELSE, small.nothing_else), (THROWN_IN, small.thrown_in),
        (OF_SEVERAL, small.of_several), (OF_THESE, small.of_these), (FOR_SALE, small.for_sale), (UNDER, small.under),
        (BIDS_NAMED, small.bids_named), (PICTURES, small.pictures), (SHARED_WIRE, small.shared_wire),
        (COLUMNS, frozenset("|;")), (USED_WITH, small.was_used_with), (DEPOSITS, small.deposits), (BILLS, small.bills),
        (INSTEAD, small.instead), (BESIDE_PRICE, small.of_beside),
        (PUT_UP, small.put_up), (FRAGILE_OTHERS, small.fragile_others), (IN_THE_DARK, small.in_the_dark),
        (RECANTING, small.recanting | small.recanting_signs),
        (DISPROVED, small.believed | small.was_sold | small.title_named),
        (COMPARING, small.comparing | small.comparing_good | small.comparable | small.replacing),
        (THEIRS, small.strangers | small.of_now | small.new_ones),
        (OTHERS_PRICES, small.strangers | small.others_selling | small.offered | small.i_ask),
        (SPANS, small.between_two | small.depending),
        (TAKES, small.i_take | small.taking),
        (SHELLS, small.shells),
        (HARMS, small.harms),
        (DANGERS, small.tripping | small.overheated),
        (CONTRASTING, small.these_ones),
        (EDITED, small.edit_words),
    ):  # fmt: skip
        for word in words:
            bits[word] = bits.get(word, 0) | bit
    return bits


def may_address(roles: int) -> bool:
    """May a text speak to a reader or order a price, as far as its words tell?"""
    if roles & (ORDER_READER | MARKS):
        return True
    return bool(roles & ORDER_PRICE) and bool(roles & (ORDER_SETTING | ORDER_MUST))
