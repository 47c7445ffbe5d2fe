"""Are all inputs of an inverter named together: "both inputs", "les deux entrées", "the pair of inputs"?

What they are said to be is what each of them is ("both inputs max. 14 A"); what is told of them is theirs together
("28 A for both inputs", "sum of both inputs 28 A"), and so may be what no single input bears.
"""

from service.core.adverts.small_words import SmallWords

MOST_OF_ONE_A = 18.0  # more may be the sum of two inputs, of which none bears less than half of it
_TO_INPUTS, _TO_ARTICLE = 4, 1  # pieces
_MOST, _VOLTS = ("max", "maks"), ("v", "u", "mppt")
_SENTENCE_ENDS = frozenset(".;!\n|")
_BEGINS = frozenset((".", ":", "(", "-", ",", ";", "\n", "|", "•", "*"))


def all_inputs_named(tokens: list[str], low: int, high: int, small: SmallWords) -> int:
    """Where such a name begins from ``low`` up to ``high``, else -1; "two" alone tells how many there are."""
    for at in range(low, high):
        word = tokens[at]
        if word not in small.all_of_inputs:
            continue
        if word in small.two_of_inputs and (at == low or tokens[at - _TO_ARTICLE] not in small.the_inputs):
            continue
        for one in tokens[at + 1 : min(at + 1 + _TO_INPUTS, high)]:
            if one.startswith(small.inputs_named):
                return at
            if not one.isalpha():
                break
    return -1


def told_of_each(tokens: list[str], low: int, at: int, figure: int, value_a: float, small: SmallWords) -> bool:
    """Does a name of all inputs at a piece begin what is said, as what each of them bears: "both inputs max. 14 A"?

    Args:
        tokens: pieces of the field.
        low: where the part of the sentence begins.
        at: where the name does.
        figure: where the amperes stand.
        value_a: how many.
        small: small words.
    """
    if value_a > MOST_OF_ONE_A or at >= figure:
        return False
    if tokens[at] in small.of_all_inputs and tokens[at] not in small.two_of_inputs:
        return False
    if at > low and tokens[at - 1] in small.the_inputs:
        at -= 1
        if tokens[at] in small.of_all_inputs:
            return False
    begins = at == low or tokens[at - 1] in _BEGINS
    return begins and _only_the_most(tokens, at, figure, small)


def _only_the_most(tokens: list[str], at: int, figure: int, small: SmallWords) -> bool:
    """Does nothing but "max." stand between the inputs and the amperes, and nothing behind these in the sentence?

    "Both inputs max. 16 A (8 A + 8 A)" and "both inputs take 16 A between them" tell of both together.
    """
    named = next((one for one in range(at, figure) if tokens[one].startswith(small.inputs_named)), figure)
    if not all(_is_light(word, small) or not word.isalpha() for word in tokens[named + 1 : figure]):
        return False
    behind = [word for word in tokens[figure + 1 : figure + 6] if not _is_light(word, small)]
    if behind and behind[0].startswith("a"):  # the unit
        del behind[0]
    if not behind or behind[0] in _SENTENCE_ENDS:
        return True
    return behind[0] == "," and (len(behind) == 1 or not behind[1].isalpha() or behind[1].startswith(_VOLTS))


def _is_light(word: str, small: SmallWords) -> bool:
    return word.startswith(_MOST) or word in small.inputs_bear
