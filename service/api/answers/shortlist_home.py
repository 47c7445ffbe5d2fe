"""Which home is a shortlist for: completed once, with its places, its costs and its year at hand?"""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from typing import Any, TypeVar

from service.api.answers.question import Question, day_of
from service.api.answers.shortlist_remarks import called
from service.api.deps import Deps
from service.api.schemas.inverter import InverterIn
from service.api.schemas.requests import AppraisalIn
from service.api.schemas.shortlist import ShortlistIn
from service.core.compatibility import beside_panels
from service.core.completion import inverter_alone, moved_to, panel_alone
from service.core.errors import ContradictionError
from service.core.model.assumption import Assumptions
from service.core.model.memo import Memo
from service.core.rules import described_plug, in_force, most_panel_w
from service.core.shortlist import (
    LIKELY_DOES_NOT_FIT,
    REFUSED,
    AtHome,
    InverterKind,
    Market,
    OwnCosts,
    PanelCap,
    PanelKind,
    Terms,
    Wish,
    fit_of,
    grouped_year,
)
from service.core.shortlist.offer import MOST_PANELS

_STAND_IN_PANEL: Mapping[str, Any] = {"rated_power_w": 410}
_MOST_AC_W = 5000.0  # no request takes an inverter of more
_SHARED = ("site", "household", "meter", "tariff", "money", "socket_circuit", "downtime_days_per_year")
_OF_IT = "/inverter"
_LISTED: Wish = "quick_payback"
T = TypeVar("T")


@dataclass(frozen=True)
class ShortlistHome:
    """The home at its places, with panels and an inverter that stand for any.

    ``shared``: of the request, what every set's own request begins with; ``places`` as they were sent, ``rooms`` for
    how many panels each has room.
    """

    question: Question
    shared: Mapping[str, Any]
    places: tuple[Mapping[str, Any], ...]
    rooms: tuple[int, ...]
    costs: OwnCosts
    wish: Wish

    @classmethod
    def of(cls, request: ShortlistIn, deps: Deps) -> "ShortlistHome":
        """Complete the home.

        Raises:
            RefusedRequest, ContradictionError, NoClimateError: there is no answer.
        """
        as_of = day_of(request.as_of, deps)
        given = request.model_dump(exclude_unset=True, exclude_none=True, include=set(_SHARED))
        shared = {**given, "as_of": as_of.isoformat()}
        places = tuple(place.given() for place in request.places or ()) or ({},)
        arrays = [
            {**_bare(place), "input": at, "panel": dict(_STAND_IN_PANEL)} for at, place in enumerate(places, start=1)
        ]
        inverter = {"ac_power_w": 800, "input_count": len(places)}
        own = AppraisalIn.model_validate({**shared, "arrays": arrays, "inverter": inverter})
        with_memory = replace(deps, directs=deps.listed_directs, years=Memo(1), sets=Memo(1))
        try:
            question = Question.of(own, with_memory)
        except ContradictionError as error:
            raise _at_places(error) from error
        return cls(
            question=question, shared=shared, places=places,
            rooms=tuple(min(place.get("count", MOST_PANELS), MOST_PANELS) for place in places),
            costs=_costs(request), wish=request.wish or _LISTED,
        )  # fmt: skip

    @property
    def as_of(self) -> date:
        """The day of the question."""
        return self.question.as_of

    @property
    def currency(self) -> str | None:
        """Of the account; None where no price per kWh is known."""
        tariff = self.question.setup.tariff
        return None if tariff is None else tariff.currency

    @cached_property
    def terms(self) -> Terms:
        """By what sets are put in an order."""
        account, setup = self.question.account(), self.question.setup
        saving = None if account is None else account.saving_first_year
        return Terms.of(self.wish, saving, setup.money, setup.household)

    @cached_property
    def key(self) -> str:
        """The same for questions about the same home and day."""
        return json.dumps([self.shared, self.places], sort_keys=True)

    @cached_property
    def at_home(self) -> AtHome:
        """The home, to be asked about many panels and inverters."""
        question, deps, key = self.question, self.question.deps, self.key
        year = deps.listed_years.get(
            key, lambda: grouped_year(question.setup, question.sky, question.meter, _MOST_AC_W, self.as_of)
        )
        first = year.sunniest_first()[0]
        return AtHome(
            key=key,
            setup=question.setup,
            assumptions=_around(question.assumptions, first),
            cells_c=(question.hottest_cell_c[first], question.cool_cell_c[first]),
            year=year,
            side_fit=self.side_fit,
            panel_cap=self._panel_cap,
            kept=deps.listed,
        )

    @cached_property
    def market(self) -> Market:
        """What offers are measured by."""
        return Market(
            currency=self.currency, as_of=self.as_of, panel_of=self.panel_of, inverter_of=self.inverter_of,
            per_km=self.costs.per_km,
        )  # fmt: skip

    def panel_of(self, given: Mapping[str, Any]) -> PanelKind:
        """A panel, completed; of one asked about lately it is kept. Raises ContradictionError."""
        key, deps = json.dumps(given, sort_keys=True), self.question.deps

        def made() -> PanelKind:
            panel, assumed = panel_alone(given, self.as_of, deps.default_tables)
            return PanelKind(key=key, given=given, panel=panel, assumed=assumed)

        found: PanelKind = deps.listed.get(("panel", self.as_of, key), made)
        return found

    def inverter_of(self, given: Mapping[str, Any]) -> InverterKind:
        """An inverter likewise."""
        key, deps = json.dumps(given, sort_keys=True), self.question.deps

        def made() -> InverterKind:
            inverter, assumed = inverter_alone(given)
            return InverterKind(key=key, given=given, inverter=inverter, assumed=assumed)

        found: InverterKind = deps.listed.get(("inverter", key), made)
        return found

    def at_hand_inverter(self, inverter: InverterIn) -> InverterKind:
        """The inverter at hand.

        Raises:
            ContradictionError: its limits exclude each other.
        """
        return at_pointer("/at_hand/inverter", lambda: self.inverter_of(inverter.given()))

    def at_hand_panel(self, given: Mapping[str, Any], index: int) -> PanelKind:
        """A panel at hand; raises likewise."""
        return at_pointer(f"/at_hand/panels/{index}", lambda: self.panel_of(given))

    def side_fit(self, inverter: InverterKind) -> int:
        """How the socket's side and the rules judge an inverter, whatever hangs on it; as of ``order.fit_of``."""
        question = self.question

        def asked() -> int:
            home = {name: one for name, one in question.assumptions.by_pointer.items() if not name.startswith(_OF_IT)}
            told = Assumptions({**home, **inverter.assumed.by_pointer})
            setup = replace(question.setup, inverter=inverter.inverter)
            found = beside_panels(setup, told, question.card, self.as_of)
            return fit_of((one.verdict, one.likely) for one in found if one.code != "panel_cap")

        return int(question.deps.listed.get(("sides", self.key, inverter.key), asked))

    @property
    def _panel_cap(self) -> PanelCap | None:
        """What the rules say of the panels alone."""
        setup, card = self.question.setup, self.question.card
        most = most_panel_w(setup, card)
        if most is None:
            return None
        refused = described_plug(setup) is not None and in_force(card, self.as_of)
        return PanelCap(most_w=most[0], inclusive=most[1], beyond=REFUSED if refused else LIKELY_DOES_NOT_FIT)


def _around(assumptions: Assumptions, place: int) -> Assumptions:
    """What was assumed of the site and of how an array stands at a place, told of the first array."""
    here = tuple(f"/arrays/{place}/{name}" for name in ("mount", "plane", "rear_light_share"))
    found = []
    for pointer, one in assumptions.by_pointer.items():
        if pointer.startswith(here):
            found.append(replace(one, pointer=pointer.replace(f"/arrays/{place}/", "/arrays/0/", 1)))
        elif pointer.startswith("/site"):
            found.append(one)
    return Assumptions.of(found)


def _bare(place: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in place.items() if name not in {"name", "input", "count", "joined"}}


def _costs(request: ShortlistIn) -> OwnCosts:
    outlay, at_hand = request.outlay, request.at_hand
    if outlay is None:
        return OwnCosts()
    have = {called(item) for item in (at_hand.items if at_hand else None) or ()}
    return OwnCosts(
        items=tuple((item.what, item.amount) for item in outlay.items or () if called(item.what) not in have),
        freight=outlay.freight or 0.0,
        registration=outlay.registration or 0.0,
        per_km=outlay.fetching_per_km or 0.0,
        faulty_share=outlay.faulty_share or 0.0,
    )


def at_pointer(pointer: str, make: Callable[[], T]) -> T:
    """What is made; what contradicts itself in it is told at its place in the request."""
    try:
        return make()
    except ContradictionError as error:
        raise moved_to(error, pointer) from error


def _at_places(error: ContradictionError) -> ContradictionError:
    return ContradictionError(
        error.pointer.replace("/arrays/", "/places/", 1), error.problem, given=error.given, accepted=error.accepted,
        example=error.example,
    )  # fmt: skip
