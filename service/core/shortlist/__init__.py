"""Which of these adverts is worth a call first, and what may be bid?

``told`` takes an offer from a read advert or says why there is none; ``layout`` finds the few ways to hang a set;
``grouped`` makes a home's year short; ``fit`` asks what inputs refuse and draw; ``screen`` builds and orders all sets;
``request`` writes the request of one. What is told of a set comes from the same functions as an appraisal.
"""

from service.core.shortlist.bid import Beside, Bid, Row, beside, bids_of, bounded, most_for
from service.core.shortlist.fit import AtHome
from service.core.shortlist.grouped import GroupedYear, grouped_year
from service.core.shortlist.layout import Layout, OnInput, layouts
from service.core.shortlist.offer import (
    MOST_PANELS,
    Bought,
    Delivery,
    InverterKind,
    Offer,
    OwnCosts,
    PanelKind,
    delivery_of,
)
from service.core.shortlist.request import request_of
from service.core.shortlist.screen import Candidate, Screen, Screened
from service.core.shortlist.told import Left, Market, Taken, Told, taken
from service.core.shortlist.wish import NEVER, WISHES, Terms, Wish
from service.core.shortlist.wish import told as wanted

__all__ = [
    "MOST_PANELS",
    "NEVER",
    "WISHES",
    "AtHome",
    "Beside",
    "Bid",
    "Bought",
    "Candidate",
    "Delivery",
    "GroupedYear",
    "InverterKind",
    "Layout",
    "Left",
    "Market",
    "Offer",
    "OnInput",
    "OwnCosts",
    "PanelKind",
    "Row",
    "Screen",
    "Screened",
    "Taken",
    "Terms",
    "Told",
    "Wish",
    "beside",
    "bids_of",
    "bounded",
    "delivery_of",
    "grouped_year",
    "layouts",
    "most_for",
    "request_of",
    "taken",
    "wanted",
]
