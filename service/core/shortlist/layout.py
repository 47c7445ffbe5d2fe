"""Which panels hang where, and on which input? The few ways that are worth asking about."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache


@dataclass(frozen=True, slots=True, order=True)
class OnInput:
    """Equal panels on an input of their own: of which kind of the set, at which place, how many, how joined."""

    kind: int
    place: int
    count: int
    joined: str


Layout = tuple[OnInput, ...]


@lru_cache(maxsize=4096)
def layouts(counts: tuple[int, ...], rooms: tuple[int, ...], inputs: int) -> tuple[Layout, ...]:
    """The layouts of a set, each entry on the input of its number.

    Args:
        counts: panels of each kind.
        rooms: for how many panels each place has room, the sunniest place first.
        inputs: of the inverter.

    Returns:
        Panels at the sunniest places first, and spread over all places; each kind of panel at each place on inputs of
        its own, as evenly as it goes; where an input has several, in series and in parallel. Empty where there is no
        room, or too few inputs.

    >>> len(layouts((2,), (4,), 2)), [one.count for one in layouts((3,), (4,), 2)[0]]
    (1, [2, 1])
    """
    found: dict[Layout, None] = {}
    for slots in _places_of(sum(counts), rooms):
        kinds = [kind for kind, count in enumerate(counts) for _ in range(count)]
        for layout in _wired(Counter(zip(kinds, slots, strict=True)), inputs):
            found[layout] = None
    return tuple(found)


def _places_of(panels: int, rooms: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """The place of each panel: the first places full, and one at each in turn."""
    if panels > sum(rooms):
        return
    full = [place for place, room in enumerate(rooms) for _ in range(room)]
    yield tuple(full[:panels])
    turns = [place for turn in range(panels) for place, room in enumerate(rooms) if turn < room]
    yield tuple(sorted(turns[:panels]))


def _wired(groups: Counter[tuple[int, int]], inputs: int) -> Iterator[Layout]:
    cells = sorted(groups)
    if len(cells) > inputs:
        return
    own = dict.fromkeys(cells, 1)
    for _ in range(inputs - len(cells)):
        fullest = max(cells, key=lambda cell: groups[cell] / own[cell])
        if groups[fullest] <= own[fullest]:
            break
        own[fullest] += 1
    split = [
        (kind, place, groups[kind, place] // own[kind, place] + (at < groups[kind, place] % own[kind, place]))
        for kind, place in cells
        for at in range(own[kind, place])
    ]
    several = any(count > 1 for _, _, count in split)
    for joined in ("series", "parallel") if several else ("series",):
        yield tuple(OnInput(kind, place, count, joined) for kind, place, count in split)
