"""How do rows of panels do in a layout on an inverter: how do they fit, what does a year bring?

Each kind of panel is asked about once for each wiring at a place, and once more for each input.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.core.energy.kernel import OutputTable, output_table
from service.core.model.facts import Input
from service.core.model.finding import Verdict
from service.core.model.hours import Bools, Floats, Ints
from service.core.shortlist.among import first_alike
from service.core.shortlist.fit import AtHome, Strung
from service.core.shortlist.grouped import Singles
from service.core.shortlist.layout import Layout, OnInput
from service.core.shortlist.offer import MOST_PANELS, InverterKind, PanelKind
from service.core.shortlist.order import LIKELY_DOES_NOT_FIT, LIKELY_FITS

_MOST_OVER_RATED = 1.3  # on a cold, bright hour


@dataclass(frozen=True, slots=True, eq=False)
class Judged:
    """Of rows of panels in one layout on an inverter (m,): how they fit, kWh of the year and what they save.

    nan where an input refuses them; ``saving`` is None where no price is known.
    """

    fit: Ints
    year_kwh: Floats
    saving: Floats | None


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

    ``held``: does a limit of the input hold it? ``held_w``: (kinds, k) what is drawn then.
    """

    def __init__(self, hung: _Hung) -> None:
        kinds = hung.freed.size
        self.hung = hung
        self.asked: Bools = np.zeros(kinds, bool)
        self.fits: Bools = np.zeros(kinds, bool)
        self.fit: Ints = np.zeros(kinds, np.int64)
        self.held: Bools = np.zeros(kinds, bool)
        self.held_w: Singles | None = None

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
        self._most_dc_w = _MOST_OVER_RATED * float(self._rated_w.max(initial=0.0)) * MOST_PANELS
        flicker = home.year.flicker_share
        self._brightest = 1.0 if flicker is None else 1.0 + float(flicker.max(initial=0.0))
        self._hung: dict[tuple[int, int, str], _Hung] = {}
        self._drawn: dict[tuple[str, int, int, int, str], _Drawn] = {}
        self._first_alike: dict[str, list[int]] = {}

    def judged(self, inverter: InverterKind, layout: Layout, kinds: tuple[Ints, ...]) -> Judged:
        """Rows of panels in one layout: of each kind of the layout their numbers, (m,)."""
        if inverter.key not in self._first_alike:
            self._first_alike[inverter.key] = first_alike(inverter)
        first, here = self._first_alike[inverter.key], [kinds[on.kind] for on in layout]
        drawn = [self._on(inverter, first[at], on, here[at]) for at, on in enumerate(layout)]
        fits, fit = drawn[0].fits[here[0]], np.maximum(drawn[0].fit[here[0]], self.home.side_fit(inverter))
        for one, these in zip(drawn[1:], here[1:], strict=True):
            fits &= one.fits[these]
            np.maximum(fit, one.fit[these], out=fit)
        if self.home.panel_cap is not None:
            watts = sum(self._rated_w[these] * on.count for on, these in zip(layout, here, strict=True))
            fit = np.maximum(fit, self.home.panel_cap.fit(np.asarray(watts)))
        return self._told(inverter, fits, fit, drawn, here)

    def _told(
        self, inverter: InverterKind, fits: Bools, fit: Ints, drawn: Sequence[_Drawn], kinds: Sequence[Ints]
    ) -> Judged:
        rows = np.flatnonzero(fits)
        year, saving = np.full(fits.size, np.nan), np.full(fits.size, np.nan)
        if rows.size:
            power = drawn[0].power_w(kinds[0][rows])
            for one, these in zip(drawn[1:], kinds[1:], strict=True):
                power += one.power_w(these[rows])
            year[rows], saved = self.home.year.sums(self._ac_w(inverter, power))
            if saved is not None:
                saving[rows] = saved
        return Judged(fit, year, None if self.home.year.saved is None else saving)

    def _ac_w(self, inverter: InverterKind, dc_w: Singles) -> Singles:
        """What comes out, (m, k); where even the brighter half of no hour reaches the limit, no half is looked at."""
        table: OutputTable = self.home.kept.get(
            ("output", inverter.key, self._most_dc_w), lambda: output_table(inverter.inverter, self._most_dc_w)
        )
        most = float(table.of(dc_w.max(keepdims=True))[0, 0])
        cut = most * self._brightest >= table.limit_w
        return table.of(dc_w, self.home.year.flicker_share if cut else None)

    def _on(self, inverter: InverterKind, index: int, on: OnInput, kinds: Ints) -> _Drawn:
        """What an input draws of panels of these kinds so hung, and which it does not refuse; each is asked once."""
        wiring = on.place, on.count, on.joined
        drawn = self._drawn.get((inverter.key, index, *wiring))
        if drawn is None:
            if wiring not in self._hung:
                self._hung[wiring] = _Hung(len(self.kinds), self.home.year.hours.size)
            drawn = self._drawn[inverter.key, index, *wiring] = _Drawn(self._hung[wiring])
        able: list[int] = []
        hung = drawn.hung
        for kind in np.unique(kinds[~drawn.asked[kinds]]).tolist():
            drawn.asked[kind] = True
            strung = hung.strung.get(kind)
            if strung is None:
                strung = hung.strung[kind] = self.home.strung(self.kinds[kind], on)
            stands = strung.stands(inverter, index)
            if stands == Verdict.DOES_NOT_FIT:
                continue
            drawn.fit[kind] = LIKELY_FITS if stands == Verdict.FITS else LIKELY_DOES_NOT_FIT
            if strung.diode is None:
                self.without_curve.add(self.kinds[kind].key)
            else:
                able.append(kind)
        if able:
            self._fill(drawn, able, on.place, inverter, index)
        return drawn

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


def within(ends: Floats, limits: Input) -> Bools:
    """Does no limit of an input bear on arrays of these ends, (4, m) as of ``fit.Free``?"""
    least_v, most_v, most_a, most_w = ends
    power = limits.max_input_power_w
    free = (least_v >= limits.tracking_min_v) & (most_v <= limits.tracking_max_v) & (most_a <= limits.max_current_a)
    return np.asarray(free if power is None else free & (most_w <= power))
