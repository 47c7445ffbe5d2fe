"""How are adverts handed over, and how is what they claim answered?"""

from collections.abc import Mapping, Sequence
from functools import cache
from typing import Annotated, Any, Literal, Self, TypeVar

from pydantic import ConfigDict, Field
from pydantic.json_schema import WithJsonSchema

from service.api.schemas.base import Code, In, Out, Text
from service.api.schemas.mistakes import Found
from service.api.words import say
from service.core.adverts import LONGEST_TEXT, MOST_CLAIMS, Claim, Reading
from service.core.model.bounds import BOUNDS

MOST_ADVERTS = 200
MOST_COMPARED = 220  # a page of panels, and inverters from another one beside it
Language = Literal["en", "de", "nl", "fr", "es", "it", "pl", "pt", "cs", "da"]
Field_ = Literal["title", "body", "price_text"]
# Figures of a reading that are bounded under another name, by the object that they stand in.
_BOUND_OF = {("price", "value"): "price", ("delivery", "cost"): "delivery_cost", ("", "panel_count"): "count",
             ("", "least_quantity"): "quantity_available"}  # fmt: skip

_EXAMPLE = {
    "id": "a7",
    "title": "4 Heliora HL-395 Solarmodule",
    "body": "Vom Dach der Kranichwerft: 4 Module je 395 Wp, Voc 36,9 V, Isc 13,7 A, gebraucht. 45 € pro Stück, nur "
    "Abholung in Nordmole.",
    "price_text": "45 €",
}
_EXAMPLES: dict[str, Any] = {"examples": [{"adverts": [_EXAMPLE]}]}


class AdvertIn(In):
    """Text found on a classifieds page."""

    id: Annotated[
        str,
        Field(strict=True, min_length=1, max_length=80, examples=["a7"],
              description="Your name for it, which no other advert of the request has; it stands in its reading."),
    ]  # fmt: skip
    title: (
        Annotated[
            str,
            Field(
                strict=True, min_length=0, max_length=1000, description="Its headline.", examples=[_EXAMPLE["title"]]
            ),
        ]
        | None
    ) = None
    body: (
        Annotated[
            str,
            Field(
                strict=True, min_length=0, max_length=LONGEST_TEXT, description="Its text.", examples=[_EXAMPLE["body"]]
            ),
        ]
        | None
    ) = None
    price_text: Annotated[
        str, Field(strict=True, min_length=0, max_length=200, description="What stands where the page tells the price.",
                   examples=["45 €"])
    ] | None = None  # fmt: skip
    language: Language | None = Field(default=None, description="Told from its words where absent.", examples=["de"])


class AdvertsIn(In):
    """What do these adverts claim?"""

    model_config = ConfigDict(json_schema_extra=_EXAMPLES)

    adverts: Annotated[list[AdvertIn], Field(min_length=1, max_length=MOST_ADVERTS, description="Up to 200.")]

    def contradict(self, found: Found) -> None:
        """What an advert contradicts is its own, and no mistake."""
        named_once(self.adverts, found)


def named_once(adverts: Sequence[AdvertIn], found: Found) -> None:
    """Each has a name of its own; one that tells nothing is no mistake."""
    names: set[str] = set()
    for at, advert in enumerate(adverts):
        if advert.id in names:
            accepted = say("problems", "accepted.other_name")
            found.contradiction(f"/adverts/{at}/id", advert.id, "same_advert", accepted, f"{advert.id[:70]} ({at + 1})")
        names.add(advert.id)


class AdvertClaimOut(Out):
    """One thing that an advert says, with the words that say it."""

    what: Code
    value: Any
    unit: str = Field(max_length=10)
    words: str = Field(max_length=200)
    field: Field_
    start: int = Field(ge=0, description="First code point in the field as it was sent; an emoji is one.")
    end: int = Field(ge=0, description="Behind the last one.")
    sureness_share: float


class AdvertPriceOut(Out):
    """As asked; ``each`` for one piece or one set, ``per_watt`` of a panel's rated power."""

    value: float | None = Field(ge=0)
    currency: str | None = Field(max_length=3)
    basis: Literal["each", "lot", "set", "unknown"]
    each: float | None = Field(ge=0)
    per_watt: float | None = Field(ge=0)


class DeliveryOut(Out):
    """How the goods come; ``cost`` of sending them, nought where it is included."""

    kind: Literal["pickup", "shipping", "either", "unknown"]
    cost: float | None = Field(ge=0)


class AdvertDoubtOut(Out):
    """What gives cause for doubt."""

    code: Code
    text: Text


class AdvertReadingOut(Out):
    """What an advert claims. What it does not say is absent or null; nothing is guessed."""

    id: str = Field(max_length=80)
    kind: Literal["panel", "inverter", "set", "other"]
    is_offer: bool
    language: str = Field(max_length=3, description="`und` where no word told it.")
    claims: list[AdvertClaimOut] = Field(max_length=MOST_CLAIMS)
    quantity_available: int | None = Field(ge=1)
    least_quantity: int | None = Field(ge=2, description="The fewest pieces that are sold together.")
    panel_count: int | None = Field(ge=1, description="Panels in one set.")
    price: AdvertPriceOut
    condition: Literal["new", "unused", "used", "damaged", "unknown"]
    defects: list[Code] = Field(max_length=20)
    delivery: DeliveryOut
    technology: str | None = Field(max_length=20)
    bifacial: bool | None
    doubts: list[AdvertDoubtOut] = Field(max_length=40)
    missing: list[Code] = Field(max_length=20, description="Ratings that decide about the fit and are not told.")
    panel: Annotated[dict[str, Any], WithJsonSchema({"type": "object"})] = Field(
        description="What is told of one panel, fit to be pasted into another request."
    )
    inverter: Annotated[dict[str, Any], WithJsonSchema({"type": "object"})] = Field(
        description="What is told of one inverter, fit to be pasted into another request."
    )

    @classmethod
    def of(cls, name: str, reading: Reading) -> Self:
        """A reading with its sentences."""
        return cls.model_validate(told_of(name, reading))


class ReadingsOut(Out):
    """What these adverts claim, in the order in which they were sent."""

    readings: list[AdvertReadingOut] = Field(max_length=MOST_ADVERTS)
    as_of: str = Field(description="The day of the answer.", max_length=10)
    service_version: str = Field(max_length=30)
    data_version: str = Field(max_length=30)


def bound_of(within: str, name: str) -> str:
    """The name in ``BOUNDS`` of a figure of a reading; ``within``: the object that it stands in, "" for the reading."""
    return _BOUND_OF.get((within, name), name)


def told_of(name: str, reading: Reading) -> dict[str, Any]:
    """A reading with its sentences as plain values, so that those of a whole answer are looked over once."""
    price = reading.price
    value = _told("price", price.value)
    return {
        "id": name, "kind": reading.kind, "is_offer": reading.is_offer, "language": reading.language,
        "claims": [_claim(claim) for claim in reading.claims],
        "quantity_available": _told("quantity_available", reading.quantity_available),
        "least_quantity": _told("quantity_available", reading.least_quantity),
        "panel_count": _told("count", reading.panel_count),
        "price": {"value": value, "currency": price.currency, "basis": price.basis,
                  "each": None if value is None else price.each, "per_watt": None if value is None else price.per_watt},
        "condition": reading.condition, "defects": list(reading.defects),
        "delivery": {"kind": reading.delivery, "cost": _told("delivery_cost", reading.shipping_cost)},
        "technology": reading.technology, "bifacial": reading.bifacial,
        "doubts": [_doubt(code) for code in reading.doubts], "missing": _missing(reading),
        "panel": panel_told(reading), "inverter": inverter_told(reading),
    }  # fmt: skip


def _claim(claim: Claim) -> dict[str, Any]:
    """A claim, as many digits of it as it is good for; its words on one line."""
    words = claim.words if claim.words.isprintable() else "".join(c if c.isprintable() else " " for c in claim.words)
    value = _rounded(claim.what, claim.value) if isinstance(claim.value, float) else claim.value
    return {"what": claim.what, "value": value, "unit": claim.unit, "words": " ".join(words.split()),
            "field": claim.field, "start": claim.start, "end": claim.end,
            "sureness_share": claim.sureness_share}  # fmt: skip


@cache
def _doubt(code: str) -> AdvertDoubtOut:
    return AdvertDoubtOut(code=code, text=say("adverts", f"doubt.{code}"))


_WANTED = ("rated_power_w", "open_circuit_voltage_v", "short_circuit_current_a")
_INPUT = ("tracking_min_v", "tracking_max_v", "max_input_voltage_v", "max_current_a", "max_short_circuit_current_a",
          "start_voltage_v")  # fmt: skip
_WANTED_OF_INVERTER = ("ac_power_w", "max_input_voltage_v", "max_current_a")


def _missing(reading: Reading) -> list[str]:
    if not reading.is_offer:
        return []
    panel = [name for name in _WANTED if name not in reading.panel] if reading.kind in {"panel", "set"} else []
    inverter = [name for name in _WANTED_OF_INVERTER if name not in reading.inverter]
    return panel + (inverter if reading.kind in {"inverter", "set"} else [])


def panel_told(reading: Reading) -> dict[str, Any]:
    """What is told of one panel, in the names of a request."""
    told: dict[str, Any] = _all_told(reading.panel)
    if "cells_in_series" in told:
        told["cells_in_series"] = int(told["cells_in_series"])
    if reading.technology in {"mono", "poly", "topcon", "hjt"}:
        told["cell_kind"] = reading.technology
    return told


def inverter_told(reading: Reading) -> dict[str, Any]:
    """What is told of one inverter, in the names of a request."""
    all_told = _all_told(reading.inverter)
    told: dict[str, Any] = {name: value for name, value in all_told.items() if name not in _INPUT}
    if "input_count" in told:
        told["input_count"] = int(told["input_count"])
    inputs = {name: all_told[name] for name in _INPUT if name in all_told}
    return {**told, "inputs": [inputs]} if inputs else told


Number = TypeVar("Number", int, float)


def _told(name: str, value: Number | None) -> Number | None:
    """A figure as a shortlist takes it back; None where it is beyond what anybody could mean."""
    if value is None:
        return None
    bounds = BOUNDS[name]
    return value if bounds.hold(value) or bounds.are_missed(value) else None


def _all_told(figures: Mapping[str, float | str]) -> dict[str, Any]:
    """Those of them that a shortlist takes back, as many digits of each as it is good for."""
    return {
        name: _rounded(name, value) if isinstance(value, float) else value for name, value in figures.items()
        if isinstance(value, str) or name not in BOUNDS or _told(name, value) is not None
    }  # fmt: skip


def _rounded(name: str, value: float) -> float:
    """Inches and pounds make tenths of a millimetre and hundredths of a kilogram, and no more; nought has no sign."""
    digits = 1 if name.endswith("_mm") else 2 if name.endswith("_kg") else 4
    return round(value, digits) + 0.0
