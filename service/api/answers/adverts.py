"""What do these adverts claim?"""

from service.api.answers.question import dated
from service.api.answers.readings import readings_of
from service.api.deps import Deps
from service.api.schemas.adverts import AdvertIn, AdvertsIn, ReadingsOut, told_of
from service.api.schemas.reading import read_body
from service.core.adverts import Advert


def adverts_reading(body: bytes, deps: Deps) -> ReadingsOut:
    """The answer of /v1/adverts/reading."""
    request = read_body(AdvertsIn, body)
    readings = readings_of([_advert(one) for one in request.adverts], deps)
    told = [told_of(one.id, reading) for one, reading in zip(request.adverts, readings, strict=True)]
    return ReadingsOut.model_validate({"readings": told, **dated(deps.today(), deps)})


def _advert(one: AdvertIn) -> Advert:
    return Advert(title=one.title or "", body=one.body or "", price_text=one.price_text, language=one.language)
