"""How do read adverts read on paper? What each offers, what is doubtful, what is missing, and the words it rests on."""

from collections.abc import Iterator

from service.api.render.notes import name_and_unit
from service.api.render.sheet import Item, Section, Sheet, listed
from service.api.schemas.adverts import AdvertClaimOut, AdvertReadingOut, ReadingsOut

_MOST_CLAIMS = 40


def readings_sheet(answer: ReadingsOut) -> Sheet:
    """The whole answer, made of nothing but the answer; the claims as far as a reader follows."""
    return Sheet(
        title="What these adverts claim",
        sections=tuple(
            Section(f"Advert {one.id}", tuple(_lines(one)), paragraphs=(_offer(one),)) for one in answer.readings
        ),
        foot=f"As of {answer.as_of}. Sunsill {answer.service_version}, tables {answer.data_version}. Words between "
        "quotation marks are the advert's; what it does not say is left out, never guessed.",
    )


def _offer(one: AdvertReadingOut) -> str:
    offer = "On offer" if one.is_offer else "Nothing on offer"
    told = [f"{offer}: {_word(one.kind)}", f"condition {_word(one.condition)}", f"language {one.language}"]
    if one.quantity_available is not None:
        told.append(f"{one.quantity_available} there")
    if one.least_quantity is not None:
        told.append(f"at least {one.least_quantity} together")
    return ", ".join(told) + "."


def _lines(one: AdvertReadingOut) -> Iterator[Item]:
    yield Item(_price(one), "Price")
    cost = "" if one.delivery.cost is None else f", sending costs {one.delivery.cost:g}"
    yield Item(f"{_word(one.delivery.kind)}{cost}", "How it comes")
    if one.doubts:
        yield Item("", "Doubts", listed(doubt.text for doubt in one.doubts))
    if one.defects:
        yield Item(", ".join(map(_word, one.defects)), "Defects")
    if one.missing:
        yield Item(", ".join(map(_named, one.missing)), "Not told")
    if one.claims:
        more = len(one.claims) - _MOST_CLAIMS
        rest = (Item(f"and {more} more"),) if more > 0 else ()
        yield Item("", "What it says", (*(map(_claim, one.claims[:_MOST_CLAIMS])), *rest))


def _price(one: AdvertReadingOut) -> str:
    price = one.price
    if price.value is None:
        return "none is told"
    basis = "" if price.basis == "unknown" else f" ({_word(price.basis)})"
    each = "" if price.each is None or price.each == price.value else f", {price.each:g} each"
    per_watt = "" if price.per_watt is None else f", {price.per_watt:.3g} a watt"
    return f"{price.value:g} {price.currency or ''}".rstrip() + f"{basis}{each}{per_watt}"


def _claim(claim: AdvertClaimOut) -> Item:
    value = f"{claim.value:g}" if isinstance(claim.value, int | float) and not isinstance(claim.value, bool) else None
    text = _word(str(claim.value)) if value is None else f"{value} {claim.unit}".rstrip()
    return Item(f'{text} ("{claim.words}")', _named(claim.what))


def _named(field: str) -> str:
    return name_and_unit(field)[0]


def _word(code: str) -> str:
    return code.replace("_", " ")
