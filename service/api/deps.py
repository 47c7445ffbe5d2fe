"""What are handlers given? The day, the tables, the caches: made in ``app``, passed as a value."""

from collections.abc import Callable, Hashable, Mapping, Set
from dataclasses import dataclass, fields, replace
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING, Any, TypeVar

from service.core.appraisal import CautionTable
from service.core.compatibility import Column, Compatibility, Curves, Row
from service.core.completion import DefaultTables, KnownSets, KnownTerms
from service.core.energy import ArrayHours, EnergyYear
from service.core.fixing import FixingForces
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
from service.data.weather_files import WeatherFile

if TYPE_CHECKING:
    from service.core.adverts import Advert, Reading, Vocabulary  # a room of its own, which most questions do without

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
    its identity), ``terms`` the tariffs, accounts, circuits and meters, ``directs`` the d.c. hours of those sets,
    ``years`` what comes of them, before an export limit, ``told_years`` the same as it is answered, ``fits`` whether
    they fit together, on which circuit and meter and by which rule card, ``priced_fits`` the same with what remedies
    cost in energy, ``fixings`` what a storm does to them,
    ``told_fits`` and ``told_fixings`` the same as they are answered, ``curves`` what panels do in the heat and in the
    morning, ``rows`` what is asked of a panel at a place, by site, day and panel as they were sent, ``columns`` the
    input of an inverter as it was sent, both with what was assumed of it, ``movable`` the sets whose planes were asked
    about, ``listed`` what was found out about panels and inverters of shortlists at homes, ``listed_years`` the years
    of these homes (60 kB each), ``listed_sets`` what was found out about sets on closer looks, ``listed_directs`` their
    d.c. hours, ``readings`` what adverts claim, each by itself, with their bodies as a person reads them.
    ``seller_questions``: by code and language. ``own_areas``: areas whose rule cards the operator keeps instead of the
    packaged ones. ``weather_files``: those that the operator keeps, by name. What begins with ``read_`` is read or made
    once, when it is first asked for: most questions need none of it, and the words of adverts take longer than all
    other tables.
    """

    service_version: str
    data_version: str
    today: Callable[[], date]
    climate: ClimateTable
    default_tables: DefaultTables
    grid_carbon: GridCarbon
    read_advert_words: Callable[[], "Vocabulary"]
    seller_questions: Mapping[str, Mapping[str, str]]
    demand_shape: DemandShape
    rule_cards: Mapping[str, tuple[RuleCard, ...]]
    own_areas: frozenset[str]
    weather_files: Mapping[str, WeatherFile]
    cautions: CautionTable
    known_time_zones: Set[str]
    read_cause_weights: Callable[[], CauseWeights]
    places: Memo[PlaceKey, tuple[PlaceFacts, SkyYear]]
    stands: Memo[tuple[str, date], Stand]
    sets: KnownSets
    terms: KnownTerms
    directs: Directs
    years: Years
    told_years: Memo[EnergyYear, Any]
    fits: Memo[Hashable, Compatibility]
    priced_fits: Memo[tuple[Compatibility, EnergyYear], Compatibility]
    told_fits: Memo[tuple[Compatibility, int], Any]
    fixings: Memo[Hashable, FixingForces]
    told_fixings: Memo[FixingForces, Any]
    curves: Curves
    movable: Memo[tuple[SkyYear, Hashable], MovableStand]
    rows: Memo[tuple[str, date, str], Told[Row]]
    columns: Memo[str, Told[Column]]
    listed: Memo[Hashable, Any]
    listed_years: Memo[str, Any]
    listed_sets: Memo[Hashable, Any]
    listed_directs: Directs
    readings: Memo["Advert", tuple["Reading", str]]

    def only_kept(self) -> "Deps":
        """The same for an answer that has no time for what is kept in a ``Memo`` and not there yet.

        Asked for that, it raises ``NotKeptError``.
        """
        every = {one.name: getattr(self, one.name) for one in fields(self)}
        memos: dict[str, Any] = {name: one.only_kept() for name, one in every.items() if isinstance(one, Memo)}
        return replace(self, **memos)

    @property
    def cause_weights(self) -> CauseWeights:
        """How much each sign speaks for each cause of a poor log."""
        return self.read_cause_weights()

    @property
    def advert_words(self) -> "Vocabulary":
        """The words of adverts in all languages."""
        return self.read_advert_words()
