"""How is the vocabulary answered: what may be written, and what is assumed where nothing is?"""

from pydantic import Field
from pydantic.json_schema import SkipJsonSchema

from service.api.schemas.base import Anything, Code, Out, absent


class WordOut(Out):
    """A code and what it stands for."""

    code: Code
    text: str | SkipJsonSchema[None] = Field(
        default=None, exclude_if=absent, description="Its sentence, where that is the same for every answer."
    )


class NumberOut(Out):
    """A number of a request: bounds, unit, meaning."""

    name: str
    low: float
    high: float
    whole: bool
    unit: str
    description: str
    example: Anything


class ClosedListOut(Out):
    """A field that takes one of a few words."""

    name: str
    words: list[str]


class FieldOut(Out):
    """A field of a request, what it takes, and an example."""

    pointer: str = Field(description="RFC 6901, with 0 for each entry of a list.")
    accepted: str
    example: str


class DefaultOut(Out):
    """What is taken where nothing is given."""

    pointer: str = Field(description="RFC 6901, with * for each entry of a list.")
    code: Code
    value: Anything = Field(description="The value; null where `rule` tells how it is found.")
    rule: str
    unit: str
    source: str
    low: float | None
    high: float | None


class WeatherFileOut(Out):
    """A weather file that a request may name."""

    name: str = Field(max_length=80)
    latitude_deg: float
    longitude_deg: float


class VocabularyOut(Out):
    """Every word, code and default."""

    fields: list[FieldOut]
    numbers: list[NumberOut]
    words: list[ClosedListOut]
    verdicts: list[str]
    decisions: list[str]
    severities: list[str]
    moments: list[str]
    findings: list[WordOut]
    remedies: list[WordOut]
    conditions: list[WordOut]
    cost_reasons: list[WordOut]
    steps: list[WordOut]
    cautions: list[WordOut]
    fixing: list[WordOut]
    losses: list[WordOut]
    spread: list[WordOut]
    crossings: list[WordOut]
    rates_of_return: list[WordOut]
    sensitivity: list[WordOut]
    co2: list[WordOut]
    storage: list[WordOut]
    tilt: list[WordOut]
    assumptions: list[WordOut]
    identity_doubts: list[WordOut]
    identity_readings: list[WordOut]
    pickup_verdicts: list[str]
    pickup_causes: list[WordOut]
    pickup: list[WordOut]
    pickup_assumptions: list[WordOut]
    advert_claims: list[str] = Field(description="What an advert may claim.")
    advert_defects: list[str]
    advert_doubts: list[WordOut]
    shortlist_reasons: list[WordOut]
    shortlist_questions: list[WordOut]
    shortlist: list[WordOut]
    log_conclusions: list[str]
    log_reasons: list[WordOut]
    log_suspects: list[WordOut]
    log_gaps: list[WordOut]
    log_findings: list[WordOut]
    commissioning: list[WordOut] = Field(description="The first minutes after plugging in, by area where that matters.")
    problems: list[WordOut]
    defaults: list[DefaultOut]
    weather_files: list[WeatherFileOut] = Field(description="Those that the operator keeps; empty where none.")
    service_version: str
    data_version: str
