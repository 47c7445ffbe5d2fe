"""What is the complete request, and what in it did the caller not say?"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from service.core.completion.fill_home import account_ends, site_of
from service.core.completion.fill_household import household_of
from service.core.completion.fill_outlay import outlay_of
from service.core.completion.fill_set import KnownSets, set_of
from service.core.completion.fill_storage import storage_of
from service.core.completion.fill_terms import KnownTerms, terms_of
from service.core.completion.fill_weather import note_weather
from service.core.completion.node import Node
from service.core.completion.tables import DefaultTables
from service.core.model.assumption import Assumption, Assumptions
from service.core.model.facts import Array, Panel, Setup
from service.core.model.hours import SkyYear
from service.core.model.place_facts import PlaceFacts
from service.core.model.weather import GivenSky
from service.core.tilt import Facing


@dataclass(frozen=True, slots=True)
class Known:
    """What was completed lately: arrays with their inverter; tariff, account, circuit and meter."""

    sets: KnownSets
    terms: KnownTerms


@dataclass(frozen=True, slots=True, kw_only=True)
class Completed:
    """A complete request, and everything in it that was assumed."""

    setup: Setup
    assumptions: Assumptions


def complete(
    given: Mapping[str, Any],
    place: PlaceFacts,
    sky: SkyYear,
    tables: DefaultTables,
    as_of: date,
    weather: GivenSky | None = None,
    facing: Facing | None = None,
    known: Known | None = None,
) -> Completed:
    """Fill what is missing from the one table of defaults, write it down, then settle the planes left open.

    Args:
        given: the request as sent, nested mappings and lists under the caller's names, only what was given (null
            counts as not given). Shapes and bounds of single fields have been checked before.
        place: what the tables know of the place.
        sky: the year at the place, for planes left open.
        tables: dated tables that defaults draw on.
        as_of: the day of the question.
        weather: what the caller's own weather made; None where the climate is asked.
        facing: which way the railing faces by when the sun was seen; None where nobody noted that.
        known: what was completed lately, to be looked in and added to; None: nothing is kept.

    Returns:
        The setup and its assumptions. Pointers resolve in the completed request. A rating that decides about harm is
        either given, or assumed with its range and written down, or None; never filled in silently.

    Raises:
        ContradictionError: parts exclude each other; figures that make no sense are compatibility's.
    """
    log: list[Assumption] = []
    root = Node(given, "", log)
    site = site_of(root.child("site"), place)
    sets, known_terms = (None, None) if known is None else (known.sets, known.terms)
    measured = weather is not None and weather.sky.plane_w_per_m2 is not None
    arrays, inverter = set_of(
        root, sky, site.ground_reflectance_share, tables.panels, as_of, facing, sets, measured=measured
    )
    household = household_of(root.child("household"), sky.calendar, site.latitude_deg)
    terms = terms_of(root, site.rule_area, tables, as_of, known_terms)
    log += terms.assumed
    account_ends(root.child("household"), terms.money)
    log += terms.assumed_then
    setup = Setup(
        site=site,
        arrays=arrays,
        inverter=inverter,
        socket_circuit=terms.circuit,
        downtime_days_per_year=terms.downtime_days_per_year,
        household=household,
        meter=terms.meter,
        tariff=terms.tariff,
        outlay=outlay_of(root.child("outlay"), used_panels=_any_used(arrays, Assumptions.of(log))),
        money=terms.money,
        storage=storage_of(root.child_if_given("storage"), inverter, household),
    )
    if weather is not None:
        note_weather(root.child("weather"), weather, place.climate, [array.plane for array in arrays])
    return Completed(setup=setup, assumptions=Assumptions.of(log))


def _any_used(arrays: tuple[Array, ...], assumptions: Assumptions) -> bool:
    """Were any of the panels in use before, as far as was said?"""

    def used(at: int, panel: Panel) -> bool:
        told = panel.age_years >= 1 and not assumptions.assumed(f"/arrays/{at}/panel/age_years")
        return told or panel.history in {"roof", "storage"}

    return any(used(at, array.panel) for at, array in enumerate(arrays))
