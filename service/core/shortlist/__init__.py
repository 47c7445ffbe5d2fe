"""Which of these adverts is worth a call first, and what may be bid?

``told`` takes an offer from a read advert or says why there is none (``getting``: what nobody tells of how it comes;
``town``: where it is; ``currency``: in which one may sum); ``layout`` finds the ways to hang a set, ``hanging`` the few
of them for a home; ``double`` finds what is advertised twice; ``grouped`` makes a home's year short; ``fit`` asks what
inputs refuse and draw, ``judged`` does so for rows of panels; ``paid`` adds up outlays; ``screen`` builds all sets
(``candidate``) and puts them in the order of ``order``; ``variety`` chooses among them; ``request`` writes the request
of one; ``asks`` finds what its sellers must be asked; ``beside_text``: what a text tells otherwise than a reading of
it. What is told of a set comes from the same functions as an appraisal.
"""

from service.core.shortlist.asks import only_untold, questions_of, ratings_that_decide
from service.core.shortlist.beside_text import differing
from service.core.shortlist.bid import Beside, Bid, Row, as_good_at, beside, bids_of, bound_by, bounded, most_for
from service.core.shortlist.candidate import Candidate, Screened
from service.core.shortlist.currency import currency_of_most
from service.core.shortlist.double import doubles_of
from service.core.shortlist.fit import AtHome
from service.core.shortlist.grouped import GroupedYear, grouped_year
from service.core.shortlist.hanging import Hanging
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
from service.core.shortlist.order import (
    FIT_GROUPS,
    LIKELY_DOES_NOT_FIT,
    LIKELY_FITS,
    REFUSED,
    PanelCap,
    behind,
    fit_of,
)
from service.core.shortlist.request import request_of
from service.core.shortlist.screen import Screen
from service.core.shortlist.told import Left, Market, Taken, Told, taken
from service.core.shortlist.town import place_of, places_of, towns_of
from service.core.shortlist.variety import NEARLY, Chosen, chosen, most_rows, rows_at_most
from service.core.shortlist.wish import NEVER, WISHES, Terms, Wish
from service.core.shortlist.wish import told as wanted

__all__ = [
    "FIT_GROUPS",
    "LIKELY_DOES_NOT_FIT",
    "LIKELY_FITS",
    "MOST_PANELS",
    "NEARLY",
    "NEVER",
    "REFUSED",
    "WISHES",
    "AtHome",
    "Beside",
    "Bid",
    "Bought",
    "Candidate",
    "Chosen",
    "Delivery",
    "GroupedYear",
    "Hanging",
    "InverterKind",
    "Layout",
    "Left",
    "Market",
    "Offer",
    "OnInput",
    "OwnCosts",
    "PanelCap",
    "PanelKind",
    "Row",
    "Screen",
    "Screened",
    "Taken",
    "Terms",
    "Told",
    "Wish",
    "as_good_at",
    "behind",
    "beside",
    "bids_of",
    "bound_by",
    "bounded",
    "chosen",
    "currency_of_most",
    "delivery_of",
    "differing",
    "doubles_of",
    "fit_of",
    "grouped_year",
    "layouts",
    "most_for",
    "most_rows",
    "only_untold",
    "place_of",
    "places_of",
    "questions_of",
    "ratings_that_decide",
    "request_of",
    "rows_at_most",
    "taken",
    "towns_of",
    "wanted",
]
