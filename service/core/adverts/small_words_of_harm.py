"""Which small words tell of damage and danger, or that it is none of the goods'?

A part of ``SmallWords``, which tells how such words are used.
"""

from dataclasses import dataclass

from service.core.adverts.small_words_of_others import Stems, Words, WordsOfOthers


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WordsOfHarm(WordsOfOthers):
    """The words of each role, plain and in small letters; beside those of others, since slots come in one line."""

    # Damage in everyday words.
    ones: Words  # "no cracks except on one"
    twos: Words
    wet: Words  # "water under the glass"
    beneath: Words
    runs_off: Words  # water that does
    stars: Words  # "a star in the glass", "like a spider's web"
    halves: Words  # "one gives only half"
    yields: Words
    of_my_needs: Words  # "half of my consumption"
    dim_times: Words  # winter, night
    diodes: Words  # "bypass diodes gone"
    blown: Words
    stopped: Words  # "stopped giving current"
    current_of: Words
    since: Words  # "gives nothing since spring"
    by_now_none: Words  # "since last winter they give no current", "they give no current any more"
    not_now: Words  # at night, in the shade, when the sun is gone: then no panel does
    did_nothing: Words  # "the hail did nothing to them"
    nothing_to: Words  # behind "nothing" that is no current: "es gibt nichts zu bemängeln"

    # What is broken.
    unbroken: Words  # "the glass is whole"
    breaks_all: Stems  # how the last word for what is broken begins, where the goods can be it: "broken", "for parts"
    beside_broken: Words  # between it and the goods: "both are"
    behind_broken: Words  # further ones behind it: "broken by hail"
    burnt_ones: Words  # "no burnt connectors" lacks none
    wrappings: Words  # cracked they are no glass: cartons, frames
    fragile_others: Words  # things that break besides goods: "fence broken, so they go"
    thing_placed: Words  # before such a thing: "fell off the roof and cracked"
    articles_alike: Words  # articles that are such a word in another language: "de", "o"
    in_the_dark: Words  # "no current at night"
    needed_words: Words  # "spares only, never needed" are whole ones
    thrown_away: Words  # where a broken one went that is not sold: the tip

    # Danger, and inverters that fail.
    breakers: Words  # what trips where current leaks to earth: "the RCD trips"
    tripping: Words  # that it does
    hot_places: Words  # plugs and leads, and that it smells: "one plug has melted"
    overheated: Words  # hot, melted, burnt
    guarding: Words  # "ground fault detection", "earth fault alarm built in"
    shocking_places: Words  # where one gets a shock, or when: frames, touch, rain
    household_things: Words  # what else trips a switch or is hot: "our kettle tripped the fuse"
    old_things: Words  # "the old breaker tripped before we had solar"
    before_then: Words
    amiss: Words  # that an inverter should not go off so: after minutes, again and again, nobody knows why
    off_words: Words  # the other part of a verb for that: "schaltet ab"
    rightly_off: Words  # at night, when the mains fail
    showing_now: Words  # "shows an error code", where one in a manual is none
    explained: Words  # who tells what such codes mean, and where: "the manual"
    ever: Words  # "never gives an error"
