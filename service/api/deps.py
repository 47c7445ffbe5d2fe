"""What are handlers given? The day, the tables, the caches: made in ``app``, passed as a value."""

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, fields, replace
from datetime import UTC, date, datetime
from typing import Any, TypeVar

from service.core.adverts import Vocabulary
from service.core.appraisal import CautionTable
from service.core.compatibility import Column, Curves, Row
from service.core.completion import DefaultTables, KnownSets
from service.core.energy import ArrayHours, EnergyYear
from service.core.household import DemandShape
from service.core.model.assumption import Assumptions
from service.core.model.carbon import GridCarbon
from service.core.model.cause_weights import CauseWeights
from service.core.model.facts import Setup
from service.core.model.hours import SkyYear
from service.core.model.memo import Memo
from service.core.model.place_facts import PlaceFacts
from service.core.rules import RuleCard
from service.core.tilt import Stand as MovableStand
from service.data.climate import ClimateTable

T = TypeVar("T")
# A thing with what was assumed of it, in the form in which it is answered; that form stands above this module.
Told = tuple[T, tuple[Any, ...]]
PlaceKey = tuple[float, float, float | None, str | None]
Directs = Memo[tuple[SkyYear, Hashable], tuple[ArrayHours, ...]]
Years = Memo[tuple[SkyYear, Hashable], EnergyYear]


def today() -> date:
    """The day in UTC, by which dated rules and prices go where nobody says one. The one place that reads the clock."""
    return datetime.now(UTC).date()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """An array at a place as it is taken to stand where nobody said how: what many panels there have in common.

    ``cells_c``: how hot its cells get and how cool they are in light.
    """

    setup: Setup
    assumptions: Assumptions
    cells_c: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Deps:
    """Everything that an answer may draw on beside the request.

    ``known_time_zones`` are IANA names; ``places`` keeps the year of hours of the places asked about lately, ``stands``
    how a panel stands there, ``sets`` the arrays and inverters asked about there as completed (a place's year goes by
    its identity), ``directs`` the d.c. hours of those sets, ``years`` what comes of them, before an export limit,
    ``told_years`` the same as it is answered, ``curves`` what panels do in the heat and in the morning, ``rows`` what
    is asked of a panel at a place, by site, day and panel as they were sent, ``columns`` the input of an inverter as it
    was sent, both with what was assumed of it, ``movable`` the sets whose planes were asked about, ``listed`` what was
    found out about homes, panels and inverters of shortlists, ``listed_directs`` the d.c. hours of the sets on them.
    ``seller_questions``: by code and language. ``own_areas``: areas whose rule cards the operator keeps instead of the
    packaged ones. ``read_advert_words`` makes the words of adverts once, when they are first asked for: it takes longer
    than all other tables and most questions need none.
    """

    service_version: str
    data_version: str
    today: Callable[[], date]
    climate: ClimateTable
    default_tables: DefaultTables
    grid_carbon: GridCarbon
    read_advert_words: Callable[[], Vocabulary]
    seller_questions: Mapping[str, Mapping[str, str]]
    demand_shape: DemandShape
    rule_cards: Mapping[str, tuple[RuleCard, ...]]
    own_areas: frozenset[str]
    cautions: CautionTable
    known_time_zones: frozenset[str]
    cause_weights: CauseWeights
    places: Memo[PlaceKey, tuple[PlaceFacts, SkyYear]]
    stands: Memo[tuple[str, date], Stand]
    sets: KnownSets
    directs: Directs
    years: Years
    told_years: Memo[EnergyYear, Any]
    curves: Curves
    movable: Memo[tuple[SkyYear, Hashable], MovableStand]
    rows: Memo[tuple[str, date, str], Told[Row]]
    columns: Memo[str, Told[Column]]
    listed: Memo[Hashable, Any]
    listed_directs: Directs

    def only_kept(self) -> "Deps":
        """The same for an answer that has no time for what is kept in a ``Memo`` and not there yet.

        Asked for that, it raises ``NotKeptError``.
        """
        every = {one.name: getattr(self, one.name) for one in fields(self)}
        memos: dict[str, Any] = {name: one.only_kept() for name, one in every.items() if isinstance(one, Memo)}
        return replace(self, **memos)

    @property
    def advert_words(self) -> Vocabulary:
        """The words of adverts in all languages."""
        return self.read_advert_words()
