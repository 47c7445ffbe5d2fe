"""Which panel is it?

``identify`` turns facts into candidates with the range of each rating: from the public list (``listed``, ``typical``,
``codes``) and, for newer panels, from the sizes and kinds of cells (``classes``, ``cell_sizes``). ``read_label`` finds
claims in pasted text, ``with_label`` turns them into facts and doubts, ``sheet_doubts`` tells what in the ratings does
not hang together, ``read_next`` what to look for next.
"""

from service.core.identity.candidate import Candidate, Range
from service.core.identity.facts import COEFFICIENTS, IMP, ISC, POINTS, RATINGS, VMP, VOC, PanelFacts
from service.core.identity.identify import Identified, agreeing, hull, identify
from service.core.identity.label import read_label
from service.core.identity.label_claim import Claim
from service.core.identity.label_facts import (
    IdentityDoubt,
    LabelRead,
    code_doubts,
    sheet_doubts,
    with_label,
    without_points,
)
from service.core.identity.label_tokens import LONGEST_LABEL
from service.core.identity.listed import by_code, listed, listed_power_of
from service.core.identity.next_reading import Reading, read_next
from service.core.identity.typical import typical_rows

__all__ = [
    "COEFFICIENTS",
    "IMP",
    "ISC",
    "LONGEST_LABEL",
    "POINTS",
    "RATINGS",
    "VMP",
    "VOC",
    "Candidate",
    "Claim",
    "Identified",
    "IdentityDoubt",
    "LabelRead",
    "PanelFacts",
    "Range",
    "Reading",
    "agreeing",
    "by_code",
    "code_doubts",
    "hull",
    "identify",
    "listed",
    "listed_power_of",
    "read_label",
    "read_next",
    "sheet_doubts",
    "typical_rows",
    "with_label",
    "without_points",
]
