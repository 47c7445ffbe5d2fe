"""How do rows of panels do in a layout on an inverter: how do they fit, what does a year bring?

Each kind of panel is asked about once for each wiring at a place, and once more for each input.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.core.energy.kernel import OutputTable, output_table
from service.core.model.facts import Input, Inverter
from service.core.model.finding import Verdict
from service.core.model.hours import Bools, Floats, Ints
from service.core.shortlist.among import first_alike
from service.core.shortlist.fit import AtHome, Strung, surely_starts
from service.core.shortlist.grouped import Singles, Sums, some_at_a_time
from service.core.shortlist.layout import Layout, OnInput
from service.core.shortlist.offer import MOST_PANELS, InverterKind, PanelKind
from service.core.shortlist.order import LIKELY_DOES_NOT_FIT, LIKELY_FITS

_MOST_OVER_RATED = 1.3  # on a cold, bright hour

# Who draws so much of what there is loses nothing worth looking elsewhere for. Judgement.
_NEARLY_ALL = 0.99


@dataclass(frozen=True, slots=True, eq=False)
class Judged:
    """Of rows of panels in one layout on an inverter (m,): how they fit, kWh of the year and what they save.

    nan where an input refuses them; ``saving`` is None where no price is known. ``low``: has some array too few volts
    for its input, so that it loses by it?
    """

    fit: Ints
    year_kwh: Floats
    saving: Floats | None
    low: Bools

    @property
    def gain(self) -> Floats:
        """What a year brings: what it saves, or its kWh; what is closer than hundredths is equal."""
        return np.round(self.year_kwh if self.saving is None else self.saving, 2)

    def among(self, rows: Ints, size: int) -> "Judged":
        """The same as these rows of more: nan in the others."""
        fit, year, low = np.zeros(size, np.int64), np.full(size, np.nan), np.zeros(size, bool)
        fit[rows], year[rows], low[rows] = self.fit, self.year_kwh, self.low
        saving = None if self.saving is None else np.full(size, np.nan)
        if saving is not None:
            saving[rows] = self.saving
        return Judged(fit, year, saving, low)


class _Hung:
    """Of each kind of panel in one wiring at a place: what it gives where no limit holds it, and within which ends.

    ``power_w``: (kinds, k), ``ends``: (4, kinds) as of ``fit.Free``; both of the kinds that ``freed`` names.
    """

    def __init__(self, kinds: int, groups: int) -> None:
        self.strung: dict[int, Strung] = {}
        self.freed: Bools = np.zeros(kinds, bool)
        self.ends: Floats = np.zeros((4, kinds))
        self.power_w: Singles = np.empty((kinds, groups), np.float32)


class _Drawn:
    """Of each kind of panel in one wiring on one input: was it asked about, can it be, how does it fit, what is drawn.

    ``held``: does a limit of the input hold it? ``held_w``: (kinds, k) what is drawn then. ``low``: is it too few volts
    that hold it, and does it lose by that?
    """

    def __init__(self, hung: _Hung) -> None:
        kinds = hung.freed.size
        self.hung = hung
        self.asked: Bools = np.zeros(kinds, bool)
        self.fits: Bools = np.zeros(kinds, bool)
        self.fit: Ints = np.zeros(kinds, np.int64)
        self.held: Bools = np.zeros(kinds, bool)
        self.held_w: Singles | None = None
        self.low: Bools = np.zeros(kinds, bool)

    def power_w(self, kinds: Ints) -> Singles:
        """(m, k) of kinds that can be."""
        power: Singles = self.hung.power_w.take(kinds, axis=0)
        if self.held_w is not None:
            held = np.flatnonzero(self.held[kinds])
            power[held] = self.held_w[kinds[held]]
        return power


class Judge:
    """Kinds of panels, by number, on inverters at one home."""

    def __init__(self, home: AtHome, kinds: Sequence[PanelKind]) -> None:
        """``without_curve`` will hold the keys of panels whose figures make no curve."""
        self.home, self.kinds = home, kinds
        self.without_curve: set[str] = set()
        self._rated_w = np.array([kind.panel.rated_power_w for kind in kinds])
        self.two_sided = np.array([kind.panel.bifaciality_share > 0.0 for kind in kinds], bool)
        self._most_dc_w = _MOST_OVER_RATED * float(self._rated_w.max(initial=0.0)) * MOST_PANELS
        flicker = home.year.flicker_share
        self._brightest = 1.0 if flicker is None else 1.0 + float(flicker.max(initial=0.0))
        self._hung: dict[tuple[int, int, str], _Hung] = {}
        self._drawn: dict[tuple[str, int, int, int, str], _Drawn] = {}
        self._first_alike: dict[str, list[int]] = {}
        self._free_sums: dict[tuple[object, ...], Sums] = {}

    def judged(self, inverter: InverterKind, layout: Layout, kinds: tuple[Ints, ...]) -> Judged:
        """Rows of panels in one layout: of each kind of the layout their numbers, (m,)."""
        if inverter.key not in self._first_alike:
            self._first_alike[inverter.key] = first_alike(inverter)
        first, here = self._first_alike[inverter.key], [kinds[on.kind] for on in layout]
        drawn = [self._on(inverter, first[on.index], on, these) for on, these in zip(layout, here, strict=True)]
        fits, fit = drawn[0].fits[here[0]], np.maximum(drawn[0].fit[here[0]], self.home.side_fit(inverter))
        for one, these in zip(drawn[1:], here[1:], strict=True):
            fits &= one.fits[these]
            np.maximum(fit, one.fit[these], out=fit)
        if self.home.panel_cap is not None:
            watts = sum(self._rated_w[these] * on.count for on, these in zip(layout, here, strict=True))
            fit = np.maximum(fit, self.home.panel_cap.fit(np.asarray(watts)))
        low = np.any([one.low[these] for one, these in zip(drawn, here, strict=True)], axis=0)
        return self._told(inverter, fits, fit, drawn, here, low)

    def _told(
        self, inverter: InverterKind, fits: Bools, fit: Ints, drawn: Sequence[_Drawn], kinds: Sequence[Ints], low: Bools
    ) -> Judged:
        rows = np.flatnonzero(fits)
        year, saving = np.full(fits.size, np.nan), np.full(fits.size, np.nan)
        if rows.size:
            year[rows], saved = self._sums(inverter, drawn, [these[rows] for these in kinds])
            if saved is not None:
                saving[rows] = saved
        return Judged(fit, year, None if self.home.year.saved is None else saving, low)

    def _sums(self, inverter: InverterKind, drawn: Sequence[_Drawn], kinds: Sequence[Ints]) -> Sums:
        """Of sets that can be; what no input holds comes out the same on alike inverters."""
        free = not any(one.held[these].any() for one, these in zip(drawn, kinds, strict=True))
        output = _output_of(inverter.inverter)
        key = (output, *sorted((id(one.hung), these.tobytes()) for one, these in zip(drawn, kinds, strict=True)))
        if free and key in self._free_sums:
            return self._free_sums[key]
        table: OutputTable = self.home.kept.get(
            ("output", output, self._most_dc_w), lambda: output_table(inverter.inverter, self._most_dc_w)
        )

        def sums(rows: slice) -> Sums:
            power = drawn[0].power_w(kinds[0][rows])
            for one, these in zip(drawn[1:], kinds[1:], strict=True):
                power += one.power_w(these[rows])
            return self.home.year.sums(self._ac_w(table, power))

        found = some_at_a_time(kinds[0].size, sums)
        if free:
            self._free_sums[key] = found
        return found

    def _ac_w(self, table: OutputTable, dc_w: Singles) -> Singles:
        """What comes out; where even the brighter half of no hour reaches the limit, no half is looked at."""
        cut = float(table.of(dc_w.max(keepdims=True))[0, 0]) * self._brightest >= table.limit_w
        return table.of(dc_w, self.home.year.flicker_share if cut else None)

    def _on(self, inverter: InverterKind, index: int, on: OnInput, kinds: Ints) -> _Drawn:
        """What an input draws of panels of these kinds so hung, and which it does not refuse; each is asked once."""
        wiring = on.place, on.count, on.joined
        drawn = self._drawn.get((inverter.key, index, *wiring))
        if drawn is None:
            if wiring not in self._hung:
                self._hung[wiring] = _Hung(len(self.kinds), self.home.year.hours.size)
            drawn = self._drawn[inverter.key, index, *wiring] = _Drawn(self._hung[wiring])
        new = kinds[~drawn.asked[kinds]]
        if new.size:
            self._ask(drawn, np.unique(new), on, inverter, index)
        return drawn

    def _ask(self, drawn: _Drawn, kinds: Ints, on: OnInput, inverter: InverterKind, index: int) -> None:
        """Ask an input about kinds of panels."""
        drawn.asked[kinds] = True
        hung, key, numbers = drawn.hung.strung, (inverter.key, index), kinds.tolist()
        for kind in numbers:
            if kind not in hung:
                hung[kind] = self.home.strung(self.kinds[kind], on)
        stand = [hung[kind].stood.get(key) or hung[kind].stands(inverter, index) for kind in numbers]
        drawn.fit[kinds] = [LIKELY_FITS if one == Verdict.FITS else LIKELY_DOES_NOT_FIT for one in stand]
        able = [kind for kind, one in zip(numbers, stand, strict=True) if one != Verdict.DOES_NOT_FIT]
        curved = [kind for kind in able if hung[kind].wired is not None]
        self.without_curve.update(self.kinds[kind].key for kind in set(able) - set(curved))
        if curved:
            self._fill(drawn, curved, on.place, inverter, index)

    def _fill(self, drawn: _Drawn, able: list[int], place: int, inverter: InverterKind, index: int) -> None:
        """Note what is drawn of kinds that an input does not refuse."""
        hung = drawn.hung
        new = [kind for kind in able if not hung.freed[kind]]
        if new:
            free = self.home.free([hung.strung[kind] for kind in new], place)
            hung.power_w[new] = [one.power_w for one in free]
            hung.ends[:, new] = np.transpose([one.ends for one in free])
            hung.freed[new] = True
        drawn.fits[able] = True
        limits = inverter.inverter.inputs[index]
        held = np.array(able)[~within(hung.ends[:, able], limits)]
        if held.size:
            if drawn.held_w is None:
                drawn.held_w = np.empty_like(hung.power_w)
            drawn.held[held] = True
            drawn.held_w[held] = self.home.held_w([hung.strung[kind] for kind in held.tolist()], place, inverter, index)
            hours, least_v = self.home.year.hours, hung.ends[0, held]
            loses = drawn.held_w[held] @ hours < _NEARLY_ALL * (hung.power_w[held] @ hours)
            drawn.low[held] = loses & ((least_v < limits.tracking_min_v) | ~surely_starts(least_v, limits))


def _output_of(inverter: Inverter) -> tuple[object, ...]:
    """All of an inverter that ``output_table`` reads."""
    return (
        inverter.ac_power_w, inverter.set_limit_w, inverter.weighted_efficiency_share, inverter.efficiency_weighting,
    )  # fmt: skip


def within(ends: Floats, limits: Input) -> Bools:
    """Does no limit of an input bear on arrays of these ends, (4, m) as of ``fit.Free``?"""
    least_v, most_v, most_a, most_w = ends
    power = limits.max_input_power_w
    free = (least_v >= limits.tracking_min_v) & (most_v <= limits.tracking_max_v) & (most_a <= limits.max_current_a)
    free &= surely_starts(least_v, limits)
    return np.asarray(free if power is None else free & (most_w <= power))
