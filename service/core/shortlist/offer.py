"""What does an advert offer, and what do some pieces of it cost, delivered?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from service.core.compatibility import Column, column_of
from service.core.model.assumption import Assumptions
from service.core.model.facts import Inverter, Panel

MOST_PANELS = 4
_DECIDING = ("max_input_voltage_v", "max_short_circuit_current_a")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PanelKind:
    """A panel as it was told and as it was completed; ``key`` is the same for panels of which the same was told."""

    key: str
    given: Mapping[str, Any]
    panel: Panel
    assumed: Assumptions


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class InverterKind:
    """An inverter likewise."""

    key: str
    given: Mapping[str, Any]
    inverter: Inverter
    assumed: Assumptions
    _columns: dict[int, Column] = field(default_factory=dict, init=False)

    @property
    def limits_told(self) -> bool:
        """Were the limits of its first input told that decide whether panels may hang on it?"""
        return not any(self.assumed.assumed(f"/inverter/inputs/0/{name}") for name in _DECIDING)

    def column(self, index: int) -> Column:
        """An input, counted from 0, to be asked about panels."""
        if index not in self._columns:
            self._columns[index] = column_of(self.inverter, self.assumed, index)
        return self._columns[index]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Offer:
    """What can be had: by an advert, or at hand already.

    Attributes:
        advert: the caller's name of it; None: at hand, and paid for.
        panel, inverter: what it is; both for a set, which is bought whole.
        pieces: how many there are; None: nobody said, and as many as are wanted are taken to be there.
        least: the fewest that are sold; they are paid for, though fewer be hung.
        panels_each: panels in one piece: 1 of a panel, those of a set, 0 of an inverter.
        each: price of a piece.
        lot: price of all pieces together, where they are sold only so.
        freight: what sending them costs; None: they are not sent, or nobody said for how much.
        freight_less, freight_more: how far below and above that it may be, where it is a guess.
        km: one way to them; None: nobody said, or they are not handed over.
        trip: of one name are fetched on one trip; None: on a trip of their own.
        towns: that its advert names for the handing over.
        freight_told: what of the freight was told; None: nothing, or it is a guess.
        only_sent: it is not handed over, as far as was told.
        second_hand: not said to be unused.
        tricky: its advert smells of a trick, whatever its price; sets without such come first.
        words: its whole text, where it is long enough to be alike by no chance; None: it came as figures, or is short.
    """

    advert: str | None
    panel: PanelKind | None = None
    inverter: InverterKind | None = None
    pieces: int | None = None
    least: int = 1
    panels_each: int = 1
    each: float = 0.0
    lot: float | None = None
    freight: float | None = None
    freight_less: float = 0.0
    freight_more: float = 0.0
    km: float | None = None
    trip: str | None = None
    towns: frozenset[str] = frozenset()
    freight_told: float | None = None
    only_sent: bool = False
    second_hand: bool = True
    tricky: bool = False
    words: str | None = None

    @property
    def most(self) -> int:
        """The most panels or inverters of it that a set takes."""
        return MOST_PANELS if self.pieces is None else min(self.pieces, MOST_PANELS)

    @property
    def name(self) -> str:
        """Of its advert; empty: at hand."""
        return "" if self.advert is None else self.advert

    @property
    def place_in_lists(self) -> tuple[object, ...]:
        """An order that hangs on no list and, but among equals, on no name: at hand first, then by what it is."""
        panel, inverter, lot, freight, km = self.panel, self.inverter, self.lot, self.freight, self.km
        return (
            self.advert is not None, "" if panel is None else panel.key, "" if inverter is None else inverter.key,
            self.each, -1.0 if lot is None else lot, self.pieces or 0, self.least, self.panels_each,
            -1.0 if freight is None else freight, -1.0 if km is None else km, self.second_hand, self.tricky,
            self.only_sent, self.trip or "", self.name,
        )  # fmt: skip

    def must_take(self, pieces: int) -> int:
        """How many have to be taken, and paid for, so that there are so many.

        >>> Offer(advert="a7", pieces=10, lot=300.0).must_take(2), Offer(advert="a9", pieces=10, least=3).must_take(2)
        (10, 3)
        """
        return max(pieces, self.least if self.lot is None else self.pieces or 1)

    def goods(self, pieces: int) -> float:
        """What so many of it cost: all of them where they are sold only together, and never fewer than are sold."""
        return self.each * max(pieces, self.least) if self.lot is None else self.lot


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnCosts:
    """What comes with every set: things that are not at hand, and terms of fetching.

    ``items``: what and how much.
    """

    items: tuple[tuple[str, float], ...] = ()
    freight: float = 0.0
    registration: float = 0.0
    per_km: float = 0.0
    faulty_share: float = 0.0

    @property
    def every_set(self) -> float:
        """Paid whatever is bought."""
        return sum(amount for _, amount in self.items) + self.freight + self.registration


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery:
    """How a set's things come: freight in all, and kilometres one way in all, each trip counted once.

    ``freight_less``, ``freight_more``: how far below and above that the freight may be.
    """

    freight: float = 0.0
    freight_less: float = 0.0
    freight_more: float = 0.0
    km: float = 0.0
    unknown: tuple[str, ...] = ()

    def cost(self, per_km: float) -> float:
        """There and back."""
        return self.freight + 2.0 * self.km * per_km


@dataclass(frozen=True, slots=True)
class Bought:
    """So many pieces of an offer."""

    offer: Offer
    pieces: int = field(default=1)

    @property
    def goods(self) -> float:
        """What they cost where they are."""
        return self.offer.goods(self.pieces)


def delivery_of(bought: Sequence[Bought], per_km: float) -> Delivery:
    """The cheapest mix of sending and fetching; offers of one trip are fetched on one drive.

    A drive takes along all of its trip that lie no further than it goes; what lies beyond is sent. An offer of which
    nobody told how to get it is named in ``unknown``.

    >>> near = Offer(advert="a7", km=20.0, trip="port")
    >>> delivery_of([Bought(near), Bought(Offer(advert="a9", km=22.0, freight=9.0, trip="port"))], 0.3).cost(0.3)
    13.2
    """
    trips: dict[str, list[Offer]] = {}
    freight, less, more, unknown = 0.0, 0.0, 0.0, []
    for one in sorted({id(b.offer): b.offer for b in bought}.values(), key=lambda offer: offer.place_in_lists):
        if one.advert is None:
            continue
        if one.km is not None:
            trips.setdefault(f"own {one.advert}" if one.trip is None else f"trip {one.trip}", []).append(one)
        elif one.freight is not None:
            freight, less, more = freight + one.freight, less + one.freight_less, more + one.freight_more
        else:
            unknown.append(one.name)
    drives = [_drive(trip, per_km) for trip in trips.values()]
    return Delivery(
        freight=freight + sum(sent for _, sent in drives), freight_less=less, freight_more=more,
        km=sum(km for km, _ in drives), unknown=tuple(unknown),
    )  # fmt: skip


def _drive(trip: Sequence[Offer], per_km: float) -> tuple[float, float]:
    """How far to drive for the offers of a trip, and the freight of those beyond; of equal ones the longest drive."""
    ways = []
    for km in (0.0, *(one.km or 0.0 for one in trip)):
        beyond = [one.freight for one in trip if (one.km or 0.0) > km]
        if None not in beyond:
            sent = sum(freight or 0.0 for freight in beyond)
            ways.append((2.0 * km * per_km + sent, -km, sent))
    _, km, sent = min(ways)
    return -km, sent
