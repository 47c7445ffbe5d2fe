"""What does a shadow that comes by the clock take: a tree's soft one by light, a mast's hard one by whole sections?"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.core.model.place import Shade

Floats = NDArray[np.float64]
Numbers = NDArray[np.floating[Any]]
Ints = NDArray[np.int64]

# Nearly every panel has three bypass diodes, each around a third of its cells.
SECTIONS = 3


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shading:
    """The shadows of each hour, each of shape (n,).

    Attributes:
        beam_through_share: what soft shadows leave of beam and circumsolar light.
        sections_lost_share: the part of the panel whose sections a hard shadow reaches, times its part of the hour.
        hard_time_share: the part of the hour with a hard shadow.
        ways_past_bands: where edges around a panel cast shadows on it, the ways to run it, of which the cheapest
            counts: what each loses of all light and of the beam; the latter of (m, n) or (1, n).
        dimmed_past_bands: what each of these ways loses of the even sky and of the ground's light, (m, 1) each, where
            cells see them unlike each other.
    """

    beam_through_share: Floats
    sections_lost_share: Floats
    hard_time_share: Floats
    ways_past_bands: tuple[tuple[float, Numbers], ...] = ()
    dimmed_past_bands: tuple[tuple[Numbers, Numbers], ...] = ()


def sections_lost(blocked_share: float) -> int:
    """How many of the panel's three sections a hard-edged shadow of this share of its face reaches.

    >>> [sections_lost(share) for share in (0.0, 0.01, 1 / 3, 0.34, 0.7, 1.0)]
    [0, 1, 1, 2, 3, 3]
    """
    return int(np.ceil(SECTIONS * blocked_share - 1e-9))


def time_in_window(from_clock: str, to_clock: str, clock_h: Floats) -> Floats:
    """Part of each hour that lies between two times of the wall clock, 0 to 1.

    Args:
        from_clock: "HH:MM".
        to_clock: "HH:MM", "24:00" allowed. Where it is earlier than ``from_clock`` the window spans midnight; where
            both are equal, it lasts the whole day.
        clock_h: (n,) the wall clock at the beginning of each hour, 0 <= clock_h < 24.

    Returns:
        (n,) shares.

    >>> time_in_window("15:30", "17:00", np.array([14.0, 15.0, 16.0, 17.0])).tolist()
    [0.0, 0.5, 1.0, 0.0]
    """
    return _time_between(_hours(from_clock), _hours(to_clock), clock_h)


def shading_of(shades: Sequence[Shade], month: Ints, clock_h: Floats) -> Shading:
    """All shadows of the hours: soft ones take their shares one after the other, hard ones' sections add up.

    A day falls into the spans between all beginnings and ends, in each of which the same shadows lie; so shadows that
    meet within an hour take what one of both lengths would.

    Args:
        shades: the shadows described.
        month: (n,) 1 to 12.
        clock_h: (n,) wall clock at the beginning of each hour.

    Returns:
        The shadows by hour; hours outside of all windows have 1, 0, 0.
    """
    blocked, lost, time = np.zeros_like(clock_h), np.zeros_like(clock_h), np.zeros_like(clock_h)
    for begin, end, here in _spans(shades):
        part = _time_between(begin, end, clock_h)
        through, sections = np.ones_like(clock_h), np.zeros_like(clock_h)
        for shade in here:
            in_months = np.zeros(13)
            in_months[list(shade.months)] = 1.0
            if shade.edge == "hard":
                sections += sections_lost(shade.blocked_share) / SECTIONS * in_months[month]
            else:
                through *= 1.0 - shade.blocked_share * in_months[month]
        blocked += part * (1.0 - through)
        lost += part * np.minimum(sections, 1.0)
        time += part * (sections > 0.0)
    return Shading(
        beam_through_share=1.0 - np.minimum(blocked, 1.0),
        sections_lost_share=np.minimum(lost, 1.0),
        hard_time_share=np.minimum(time, 1.0),
    )


def _spans(shades: Sequence[Shade]) -> Iterator[tuple[float, float, list[Shade]]]:
    """Each span of the day between two neighbouring beginnings or ends, in hours, with the shadows that lie in it."""
    windows = [(_hours(shade.from_clock) % 24.0, _hours(shade.to_clock) % 24.0, shade) for shade in shades]
    edges = sorted({edge for begin, end, _ in windows for edge in (begin, end)})
    for begin, end in zip(edges, [*edges[1:], *edges[:1]], strict=True):
        here = [shade for first, last, shade in windows if (begin - first) % 24.0 < ((last - first) % 24.0 or 24.0)]
        if here:
            yield begin, end, here


def _time_between(begin: float, end: float, clock_h: Floats) -> Floats:
    if end <= begin:
        end += 24.0
    inside = np.zeros_like(clock_h)
    for shift in (-24.0, 0.0, 24.0):
        inside += np.maximum(np.minimum(clock_h + 1.0, end + shift) - np.maximum(clock_h, begin + shift), 0.0)
    return np.minimum(inside, 1.0)


def after_shading(
    total: Floats, beam: Floats, shading: Shading, even: Floats | None = None, ground: Floats | None = None
) -> Floats:
    """Light that still does work behind the shadows, given all light and its beam and circumsolar part, (n,) each.

    A soft shadow takes its share of the beam. Behind a hard one an inverter has two ways, and takes the better: the
    bypass diodes give up the sections that the shadow reaches, with all their light; or the whole panel runs at the
    current of its shadowed cells, which have lost the beam but keep the sky's light. So a hard shadow never takes
    more than the beam, and takes nothing under an overcast sky. Never more light than behind a soft shadow of the
    same share. Bands take the least of their ways of what is left (``taken_by_clock``). Not modelled: which way the
    panel's strings run; two shadows on the same section. ``even``, ``ground``: the parts of all light that the even
    sky and the ground send, of which only bands in front take some, from cells that see less of it than others.

    Any shape that holds the hours in its last axis will do for all kinds of light.

    >>> mast = Shading(beam_through_share=np.ones(2), sections_lost_share=np.full(2, 1 / 3), hard_time_share=np.ones(2))
    >>> after_shading(np.array([900.0, 100.0]), np.array([800.0, 10.0]), mast).tolist()
    [600.0, 90.0]
    """
    beam_left = beam * shading.beam_through_share
    left = np.maximum(total - (beam - beam_left), 0.0)

    def bands(of_all: Numbers, of_beam: Numbers) -> Numbers:
        if not shading.ways_past_bands:
            return np.zeros_like(of_all)
        if even is None or ground is None or not shading.dimmed_past_bands:
            return np.asarray(np.minimum(taken_by_bands(of_all, of_beam, shading.ways_past_bands), of_beam))
        lost = zip(shading.ways_past_bands, shading.dimmed_past_bands, strict=True)
        costs = (
            part * of_all + dark * of_beam + dim * even + dim_below * ground for (part, dark), (dim, dim_below) in lost
        )
        return np.asarray(np.minimum(reduce(np.minimum, costs), of_all))

    taken = taken_by_clock(left, beam_left, shading.sections_lost_share, shading.hard_time_share, bands)
    return np.asarray(left - taken, left.dtype)


def taken_by_clock(
    total: Numbers,
    beam: Numbers,
    sections_lost_share: Numbers,
    time_share: Numbers,
    bands: Callable[[Numbers, Numbers], Numbers],
) -> Numbers:
    """What hard shadows and bands take of all light and of its part from the sun.

    The better of two: bands take theirs from the sections that are left, or of the light without the sun.

    Args:
        total: all light, (n,) or (m, n).
        beam: its part from the sun.
        sections_lost_share: as ``Shading``'s, (n,).
        time_share: its ``hard_time_share``.
        bands: what bands alone take of so much light and so much of it from the sun.
    """
    alone = bands(total, beam)
    if not time_share.any():
        return alone
    given_up = alone + sections_lost_share * (total - alone)
    dark = beam * time_share
    return np.minimum(given_up, dark + bands(total - dark, beam - dark))


def taken_by_bands(total: Numbers, beam: Numbers, ways: Sequence[tuple[float, Numbers]]) -> Numbers:
    """What bands take of all light and its part from the sun, by the cheapest of the ways past them."""
    return reduce(np.minimum, (lost * total + dark * beam if lost else dark * beam for lost, dark in ways))


def _hours(clock: str) -> float:
    hours, minutes = clock.split(":")
    return int(hours) + int(minutes) / 60.0
