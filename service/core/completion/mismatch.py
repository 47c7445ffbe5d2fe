"""What do panels lose by differing from those that they share an input with, where nobody said?

Several share an input whether they are told as one array or as several; on inputs of their own none binds another.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from service.core.completion.node import Guess, Node
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Array, Setup

_USUAL_SHARE = 0.01


def mismatch_of(node: Node, panels_on_input: int) -> float:
    """The share told of an array, else that of so many panels on its input, written down."""
    alone = panels_on_input == 1
    guess = Guess(value=0.0, code="one_panel_an_input") if alone else Guess(value=_USUAL_SHARE, code="usual_mismatch")
    return float(node.take("mismatch_share", guess))


def panels_by_input(arrays: Sequence[Array]) -> Counter[int]:
    """How many panels are on each input, by its number."""
    found: Counter[int] = Counter()
    for array in arrays:
        found[array.input] += array.count
    return found


def with_mismatch_again(setup: Setup, assumptions: Assumptions) -> tuple[Setup, Assumptions]:
    """A changed set with what completion would take of its arrays now, where nobody told it."""
    panels, known, arrays = panels_by_input(setup.arrays), dict(assumptions.by_pointer), list(setup.arrays)
    for at, array in enumerate(setup.arrays):
        here = f"/arrays/{at}"
        if f"{here}/mismatch_share" not in known:
            continue
        log: list[Assumption] = []
        arrays[at] = replace(array, mismatch_share=mismatch_of(Node(None, here, log), panels[array.input]))
        known |= {one.pointer: one for one in log}
    if arrays == list(setup.arrays):
        return setup, assumptions
    return replace(setup, arrays=tuple(arrays)), Assumptions(known)
