"""What is one set worth, exactly? By the functions of an appraisal, asked with the set's own request."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from pydantic import ValidationError

from service.api.answers.compatibility import checked
from service.api.answers.question import Question
from service.api.answers.shortlist_home import ShortlistHome, at_pointer
from service.api.schemas.mistakes import Found, RefusedRequest
from service.api.schemas.requests import AppraisalIn
from service.api.schemas.shortlist import NewFromShopIn, ShortlistIn
from service.api.words import say
from service.core.appraisal.conditions import hopeless
from service.core.compatibility import Compatibility, Curves
from service.core.errors import ContradictionError
from service.core.model.finding import Finding, Part, Verdict, worst
from service.core.shortlist import (
    MOST_PANELS,
    Bought,
    Candidate,
    Hanging,
    Offer,
    Row,
    Wish,
    behind,
    fit_of,
    ratings_that_decide,
    request_of,
    wanted,
)
from service.core.shortlist.judged import Judge

_NEW = "new set"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ListedSet:
    """A set with its figures, and the request that an appraisal would be asked with.

    ``hopeless``: the finding that refuses it for good; None where none does. ``worth_up_to``: the most that may be
    paid for all of it; None where no price per kWh is known.
    """

    candidate: Candidate
    request: Mapping[str, Any]
    compatibility: Compatibility
    row: Row
    worth_up_to: float | None
    hopeless: Finding | None

    def wanted(self, wish: Wish) -> float:
        """By what is wanted, the less the better."""
        return wanted(wish, self.row.outlay, self.row.year_kwh, self.row.payback_years, self.row.value)

    @property
    def fit(self) -> int:
        """How it fits, as of ``order.fit_of``."""
        return fit_of([(self.row.verdict, self.row.likely)])

    @property
    def hangs_on(self) -> str:
        """What was not told and decides whether it fits, by names; empty where it is refused as it is."""
        return "" if self.row.refused else ", ".join(ratings_that_decide(self.compatibility.findings))

    @property
    def behind(self) -> int:
        """In which row of places it stands, as of ``order.behind``."""
        return behind(self.fit, tricky=self.candidate.tricky)


def listed_set(candidate: Candidate, home: ShortlistHome, outlay: Mapping[str, Any] | None = None) -> ListedSet:
    """The set's figures.

    Args:
        candidate: the set.
        home: where it would stand.
        outlay: in place of what its offers cost.

    Raises:
        ContradictionError: its figures exclude each other.
    """
    request = request_of(home.shared, home.places, candidate, home.costs)
    if outlay is not None:
        request["outlay"] = dict(outlay)
    try:
        read = AppraisalIn.model_validate(request)
    except ValidationError as error:  # sums of what was asked, such as all freight, may pass the bounds of a request
        place = "".join(f"/{part}" for part in error.errors()[0]["loc"])
        raise ContradictionError(place, "is out of bounds for an appraisal") from error
    question = Question.of(read, home.question.deps)
    kinds = [one.offer.panel.key for one in candidate.panels if one.offer.panel is not None]
    curves = home.question.deps.listed_sets.get((home.at_home.key, *kinds), Curves)
    question = replace(question, curves=curves, lights=home.question.lights)
    energy, account = question.energy, question.account()
    compatibility = checked(question, mending=False)
    if compatibility.verdict == Verdict.DOES_NOT_FIT:  # whether that can be mended decides if it is listed at all
        compatibility = checked(question)
    paid = None if account is None else account.outlay
    row = Row(
        outlay=candidate.outlay if paid is None else paid,
        year_kwh=energy.year_kwh,
        payback_years=None if account is None else account.simple_payback_years,
        value=None if account is None else account.net_present_value,
        cautious_gains=() if account is None else account.cautious_gains,
        cautious_more=0.0 if account is None else account.cautious_more,
        verdict=compatibility.verdict,
        likely=worst(finding.likely for finding in compatibility.findings),
    )
    return ListedSet(
        candidate=candidate,
        request=request,
        compatibility=compatibility,
        row=row,
        worth_up_to=None if account is None else account.worth_up_to.middle,
        hopeless=_hopeless(compatibility),
    )


def _hopeless(compatibility: Compatibility) -> Finding | None:
    """What refuses the set for good, or its panels: what is bought must not be wired that way."""
    for finding in compatibility.findings:
        if finding.verdict == Verdict.DOES_NOT_FIT and (finding.part == Part.PANEL_SIDE or hopeless(finding)):
            return finding
    return None


def new_set(request: ShortlistIn, home: ShortlistHome) -> ListedSet | None:
    """The new set from a shop at this home; None where none was named.

    Raises:
        RefusedRequest, ContradictionError: it cannot be, or there is no room for it.
    """
    asked = request.new_from_shop
    if asked is None:
        return None
    told = json.dumps(asked.model_dump(exclude_unset=True, exclude_none=True), sort_keys=True)
    key = "new set", home.key, home.wish, told
    found: ListedSet = home.question.deps.listed_sets.get(key, lambda: _new_set(asked, home))
    return found


def _new_set(asked: NewFromShopIn, home: ShortlistHome) -> ListedSet:
    panel = at_pointer("/new_from_shop/panel", lambda: home.panel_of({"history": "unused"} | asked.panel.given()))
    inverter = at_pointer("/new_from_shop/inverter", lambda: home.inverter_of(asked.inverter.given()))
    inputs, room = len(inverter.inverter.inputs), sum(home.rooms)
    count = asked.panel_count or min(inputs, room, MOST_PANELS)
    hanging = Hanging(home.at_home, home.rooms, by_money=home.terms.wish != "least_outlay_per_kwh")
    found, judge = hanging.layouts((count,), inverter), Judge(home.at_home, (panel,))
    if any(judge.judged(inverter, layout, (np.zeros(1, np.int64),)).low.any() for layout in found):
        found = [*found, *hanging.with_fewer_inputs((count,), inverter)]
    if not found:
        told = Found()
        accepted = say("problems", "accepted.whole", {"low": 1, "high": min(room, MOST_PANELS)})
        told.contradiction("/new_from_shop/panel_count", count, "no_room", accepted, 1)
        raise RefusedRequest("contradiction", tuple(told.mistakes))
    panels = (Bought(Offer(advert=_NEW, panel=panel, second_hand=False), count),)
    ways = [
        Candidate(
            panels=panels,
            inverter=Offer(advert=_NEW, inverter=inverter, panels_each=0),
            layout=layout,
            outlay=asked.outlay,
            fit=0,
            rough=0.0,
            gain=0.0,
            adverts=(_NEW,),
        )
        for layout in found
    ]
    outlay = {"items": [{"what": _NEW, "amount": asked.outlay}]}
    return min((listed_set(way, home, outlay) for way in ways), key=lambda one: (one.fit, one.wanted(home.terms.wish)))
