"""How does the wind on the panels read on paper? Two or three lines for each way of fixing, and the caution."""

from collections.abc import Iterator

from service.api.render.lines import wrapped
from service.api.schemas.fixing import ArrayFixingOut, FixingOut

# The cautions tell of these on paper.
_LEFT_OUT = frozenset({"carrying", "glass_over_people"})


def fixing_lines(fixing: FixingOut) -> Iterator[str]:
    """The forces, what was stated beside them, the notes; equal arrays are told once."""
    told: dict[tuple[str, ...], list[str]] = {}
    for one in fixing.arrays:
        told.setdefault(_sentences(one), []).append(one.name)
    for sentences, names in told.items():
        yield from wrapped(f"{', '.join(names)}: {' '.join(sentences)}", "- ")
    if not fixing.arrays:
        yield from wrapped("How the panels are held was not said, so no figure is made of the wind on them.")
        return
    if any(one.capacity_n is None for one in fixing.arrays):
        yield from wrapped("What the fixings are stated to carry was not said; set it beside these figures.")
    yield from wrapped(fixing.caution)


def _sentences(one: ArrayFixingOut) -> tuple[str, ...]:
    return (one.text, *(note.text for note in one.notes if note.code not in _LEFT_OUT))
