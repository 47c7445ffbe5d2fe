"""Which small words tell that a figure is taken back, only thought, or somebody or something else's?

A part of ``SmallWords``, which tells how such words are used.
"""

from dataclasses import dataclass

Words = frozenset[str]
Stems = tuple[str, ...]  # what words begin with


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WordsOfOthers:
    """The words of each role, plain and in small letters."""

    # Figures that are taken back.
    recanting: Words  # "60 V, sorry, 50 V"
    recanting_two: Words  # the same of two words, written as one: "60 V, no wait, 50 V"
    recanting_signs: Words  # the rarer words of such pairs
    recanting_beside: Words  # further ones that may stand between the two figures
    that_is: Words  # some of them may only tell the same otherwise: "cioè"

    # Figures that were only thought, or stand wrongly in the title.
    believed: Words  # "I thought 400 W, but it says 300 W"
    was_sold: Words  # "sold to me as 800 W, but it only gives 600 W"
    sold_as: Words  # before such a figure
    turning: Words  # between the two
    mistaken: Words  # "typo in the title"
    title_named: Words

    # Panels and inverters that are not sold.
    comparing: Words  # "stronger than a 440 W one", "as strong as a 440 W one"
    comparing_good: Words  # the same before one of several: "as good as a 440 W one", but "as good as new, 440 W"
    comparing_than: Words
    comparing_more: Words  # "más pequeñas que las de 440 W", but "placas grandes que dan 440 W"
    comparing_of: Words  # only behind one of those, or before one of several
    comparable: Words  # "comparable to a 440 W one"
    comparable_to: Words
    one_of_them: Words
    replacing: Words  # "replaces the 250 W ones"
    of_now: Words  # "we now have 440 W, these are smaller"
    we_have: Words
    new_ones: Words  # "my new ones have 440 W, these are smaller"
    before_plural: Words  # "the new ones"
    these_ones: Words
    bears: Words  # "mine takes 60 V open circuit", beside panels

    # Amounts that are not asked.
    others_selling: Words  # "my brother sold his at 40, I want 90 each"
    i_ask: Words
    offered: Words  # "I was offered 40, but it's 90"
    to_me: Words
    then: Words  # "first 120, then 105, last price 90"
    between_two: Words  # "between 40 and 60 each"
    and_two: Words
    up_to_sum: Words  # "40 to 60 depending on condition"
    depending: Words
