"""Which panels hang where, and on which input? The ways that are worth asking about."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import permutations, product

# Of groups of equal panels at one place the kind, the place and how many, in order.
Groups = tuple[tuple[int, int, int], ...]


@dataclass(frozen=True, slots=True, order=True)
class OnInput:
    """Equal panels on an input of their own: of which kind of the set, at which place, how many, how joined.

    ``index``: of the input, from 0.
    """

    kind: int
    place: int
    count: int
    joined: str
    index: int


Layout = tuple[OnInput, ...]


@lru_cache(maxsize=4096)
def layouts(stands: tuple[Groups, ...], inputs: tuple[int, ...], *, every: bool = False) -> tuple[Layout, ...]:
    """The layouts of a set, by inputs.

    Args:
        stands: the ways in which its panels stand at places.
        inputs: of the inverter: of each the number of the first one that has the same limits.
        every: where inputs are alike, too, as few as there may be, and each group joined in its own way.

    Returns:
        Each kind of panel at each place on inputs of its own, as evenly as it goes; where an input has several, in
        series and in parallel. Where inputs are alike all are used, and it makes no odds which; where they differ as
        few as there may be, too, and each group on each of them. Empty where there are too few inputs. All of alike
        inputs is best where a panel alone has the volts for one; where it has not, see ``every``.

    >>> len(layouts((((0, 0, 2),),), (0, 0))), [one.count for one in layouts((((0, 0, 3),),), (0, 0))[0]]
    (1, [2, 1])
    >>> [[(one.kind, one.index) for one in layout] for layout in layouts((((0, 0, 1), (1, 0, 1)),), (0, 1))]
    [[(0, 0), (1, 1)], [(1, 0), (0, 1)]]
    """
    found: dict[Layout, None] = {}
    for groups in stands:
        if len(groups) <= len(inputs):
            found |= dict.fromkeys(_each_way(groups, inputs) if every or any(inputs) else _alike(groups, len(inputs)))
    return tuple(found)


def stands_of(counts: Sequence[int], rooms: Sequence[int], kind: int = 0) -> Iterator[Groups]:
    """So many panels of each kind at places of such room, in every way; kinds are numbered from ``kind``.

    >>> list(stands_of((2,), (2, 1)))
    [((0, 0, 2),), ((0, 0, 1), (0, 1, 1))]
    """
    if not counts:
        yield ()
        return
    for here in _spread(counts[0], rooms):
        left = [room - count for room, count in zip(rooms, here, strict=True)]
        for rest in stands_of(counts[1:], left, kind + 1):
            yield *((kind, place, count) for place, count in enumerate(here) if count), *rest


def _spread(panels: int, rooms: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """How many panels stand at each place, the first places fullest first."""
    if not rooms:
        if not panels:
            yield ()
        return
    for here in range(min(panels, rooms[0]), -1, -1):
        for rest in _spread(panels - here, rooms[1:]):
            yield here, *rest


def _alike(groups: Groups, inputs: int) -> Iterator[Layout]:
    split = _split(groups, inputs)
    several = any(count > 1 for _, _, count in split)
    for joined in ("series", "parallel") if several else ("series",):
        yield tuple(OnInput(*one, joined, index) for index, one in enumerate(split))


def _each_way(groups: Groups, inputs: Sequence[int]) -> Iterator[Layout]:
    """On as many inputs as there are groups and on more, in all ways that differ by the inputs' limits."""
    unlike = any(inputs)
    seen: set[tuple[tuple[int, int, int, str, int], ...]] = set()
    for split in dict.fromkeys(_split(groups, used) for used in range(len(inputs), len(groups) - 1, -1)):
        joinings: Iterable[tuple[str, ...]] = product(
            *(("series", "parallel") if count > 1 else ("series",) for _, _, count in split)
        )
        orders = permutations(range(len(inputs)), len(split)) if unlike else (range(len(split)),)
        for joined, order in product(joinings, orders):
            layout = [OnInput(*one, how, at) for one, how, at in zip(split, joined, order, strict=True)]
            like = tuple(sorted((on.kind, on.place, on.count, on.joined, inputs[on.index]) for on in layout))
            if like not in seen:
                seen.add(like)
                yield tuple(sorted(layout, key=lambda on: on.index))


def _split(groups: Groups, inputs: int) -> Groups:
    """Kind, place and number of what hangs on one input each: groups spread over no more inputs, the fullest first."""
    own = dict.fromkeys(groups, 1)
    for _ in range(inputs - len(groups)):
        fullest = max(groups, key=lambda group: group[-1] / own[group])
        if fullest[-1] <= own[fullest]:
            break
        own[fullest] += 1
    return tuple(
        (kind, place, count // own[kind, place, count] + (at < count % own[kind, place, count]))
        for kind, place, count in groups
        for at in range(own[kind, place, count])
    )
