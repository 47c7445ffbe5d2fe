"""What does each of many planes bring: energy, use at home, money, day by day? And which of them is wanted most?"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from service.core.model.hours import Floats
from service.core.model.place import Plane
from service.core.tilt.home import Home, Singles
from service.core.tilt.lattice import compass
from service.core.tilt.stand import Nearest, Stand

OBJECTIVES = ("energy", "self_used", "money")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sums:
    """Of m planes, by day, (m, 365): kWh, kWh used at home, money saved; None: not asked, or no price.

    ``years``: (m,) of objectives that were summed by the year alone.
    """

    energy: Floats
    self_used: Floats | None
    money: Floats | None
    years: Mapping[str, Floats] = field(default_factory=dict)

    def of(self, objective: str) -> Floats:
        """(m, 365) of what is wanted."""
        found = {"energy": self.energy, "self_used": self.self_used, "money": self.money}[objective]
        if found is None:
            message = f"{objective} was not summed"
            raise ValueError(message)
        return found

    def year_of(self, objective: str) -> Floats:
        """(m,) of what is wanted."""
        by_year = self.years.get(objective)
        return np.asarray(self.of(objective).sum(axis=1)) if by_year is None else by_year

    def with_more(self, other: "Sums") -> "Sums":
        """These planes and those, by day."""

        def joined(mine: Floats | None, theirs: Floats | None) -> Floats | None:
            return None if mine is None or theirs is None else np.concatenate((mine, theirs))

        return Sums(
            energy=np.concatenate((self.energy, other.energy)),
            self_used=joined(self.self_used, other.self_used),
            money=joined(self.money, other.money),
        )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Together:
    """A set of which some arrays are moved together, each turned by its own offset from the plane asked about.

    Attributes:
        moving: the numbers of the arrays that move, and by how many degrees each is turned.
        still: the planes of all arrays while nobody moves them; those of the moving ones are not read.
    """

    stand: Stand
    home: Home | None
    moving: Mapping[int, float]
    still: tuple[Plane, ...]

    def planes_of(self, plane: Plane) -> tuple[Plane, ...]:
        """The plane of each array."""
        return tuple(
            _turned((plane,), self.moving[at])[0] if at in self.moving else still for at, still in enumerate(self.still)
        )

    def dc_w(self, planes: Sequence[Plane]) -> Singles:
        """D.c. power of all arrays together, (m, n)."""
        return np.concatenate(list(self.dc_blocks(planes)))

    def dc_blocks(self, planes: Sequence[Plane], nearest: Nearest = ()) -> Iterator[Singles]:
        """The same, a few planes after the other."""
        kinds = self.stand.kind_of
        moved = Counter((kinds[at], turned) for at, turned in self.moving.items())
        parts = [self.stand.dc_blocks(kind, _turned(planes, turned), nearest) for kind, turned in moved]
        resting = [self.stand.dc_w(kinds[at], [one])[0] for at, one in enumerate(self.still) if at not in self.moving]
        beside = np.sum(resting, axis=0, dtype=np.float32) if resting else None
        for blocks in zip(*parts, strict=True):
            total = np.zeros(1, np.float32)
            for dc, count in zip(blocks, moved.values(), strict=True):
                if count > 1:
                    np.multiply(dc, np.float32(count), out=dc)
                total = dc if total.size == 1 else np.add(total, dc, out=total)
            yield total if beside is None else np.add(total, beside, out=total)

    def sums(self, planes: Sequence[Plane], wanted: str | None = None, *, years: bool = False) -> Sums:
        """Sums of planes that the arrays are moved to together: all, or energy and what is wanted alone.

        With ``years`` the other objectives, too, by the year.
        """
        return sums_of(self.stand, self.home, self.dc_blocks(planes), wanted, years=years)

    def year_sums(self, planes: Sequence[Plane]) -> tuple[Floats, Floats | None]:
        """(m,) energy of the year in kWh, and (m,) money saved where a price is known."""
        found = self.objective_years(planes)
        return found["energy"], found.get("money")

    def objective_years(self, planes: Sequence[Plane], *, used: bool = False) -> dict[str, Floats]:
        """By objective (m,) of the year: energy, money where a price is known, use at home where it is asked for.

        The quickest way to a map: tables are read at their nearest cells.
        """
        found: dict[str, list[Floats]] = {"energy": []}
        hours = self.stand.hours  # a product sums at a third of the cost
        for dc in self.dc_blocks(planes, self.stand.nearest()):
            ac = self.stand.ac_w(dc)
            if self.home is not None:
                ac, used_w = self.home.left_and_used_w(ac)
                money = self.home.saved_in_year(ac, used_w)
                if money is not None:
                    found.setdefault("money", []).append(money)
                if used:
                    at_home = np.asarray(used_w @ hours, np.float64) / 1000.0
                    found.setdefault("self_used", []).append(at_home)
            found["energy"].append(np.asarray(ac @ hours, np.float64) / 1000.0)
        return {objective: np.concatenate(values) for objective, values in found.items()}


def _turned(planes: Sequence[Plane], by_deg: float) -> Sequence[Plane]:
    if by_deg == 0.0:
        return planes
    return [Plane(tilt_deg=one.tilt_deg, azimuth_deg=compass(one.azimuth_deg + by_deg)) for one in planes]


def sums_of(
    stand: Stand, home: Home | None, blocks: Iterable[Singles], wanted: str | None = None, *, years: bool = False
) -> Sums:
    """By day, of the d.c. power of all inputs, a few planes after the other, (m, n).

    Where one objective is ``wanted``, energy and that are summed, the rest is None, or by the year with ``years``.
    """
    energy, used, saved = [], [], []
    by_year: dict[str, list[Floats]] = {}
    for dc in blocks:
        ac = stand.ac_w(dc)
        if home is None or (wanted == "energy" and home.leaves is None and not years):
            energy.append(stand.by_day(ac))
            continue
        ac, at_home = home.left_and_used_w(ac)
        energy.append(stand.by_day(ac))
        if wanted in {None, "self_used"}:
            used.append(stand.by_day(at_home))
        money = home.saved(ac, at_home) if wanted in {None, "money"} else None
        if money is not None:
            saved.append(stand.by_day(money))
        if years:
            for objective, value in _other_years(home, ac, at_home, wanted):
                by_year.setdefault(objective, []).append(value)
    return Sums(
        energy=np.concatenate(energy),
        self_used=np.concatenate(used) if used else None,
        money=np.concatenate(saved) if saved else None,
        years={objective: np.concatenate(values) for objective, values in by_year.items()},
    )


def _other_years(home: Home, ac_w: Singles, used_w: Singles, wanted: str | None) -> Iterator[tuple[str, Floats]]:
    """(m,) of the year, of what is not wanted by day."""
    if wanted not in {None, "self_used"}:
        yield "self_used", np.asarray(used_w.sum(axis=1), np.float64) / 1000.0
    saved = home.saved_in_year(ac_w, used_w) if wanted not in {None, "money"} else None
    if saved is not None:
        yield "money", saved


def worth_of(objective: str, stand: Stand, home: Home | None) -> Callable[[Singles], Floats]:
    """How much is wanted of each row of d.c. powers, (m, n) to (m,)."""

    def of(dc: Singles) -> Floats:
        ac = stand.ac_w(dc)
        if home is None or (objective == "energy" and home.leaves is None):
            return np.asarray(ac.sum(axis=1, dtype=np.float64)) / 1000.0
        ac, used = home.left_and_used_w(ac)
        if objective == "energy":
            return np.asarray(ac.sum(axis=1, dtype=np.float64)) / 1000.0
        if objective == "self_used":
            return np.asarray(used.sum(axis=1, dtype=np.float64)) / 1000.0
        saved = home.saved_in_year(ac, used)
        if saved is None:
            message = "money was asked for without a price"
            raise ValueError(message)
        return saved

    return of
