"""Are all inputs of an inverter named together: "both inputs", "les deux entrées", "the pair of inputs"?"""

from collections.abc import Sequence

from service.core.adverts.small_words import SmallWords

_TO_INPUTS, _TO_ARTICLE = 3, 1  # pieces


def all_inputs_named(tokens: Sequence[str], low: int, high: int, small: SmallWords) -> int:
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
