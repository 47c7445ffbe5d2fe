"""What may be written, and what is assumed where nothing is?"""

from collections.abc import Iterable, Iterator
from typing import Any

from pydantic import BaseModel

from service.api.answers.question import editions
from service.api.deps import Deps
from service.api.long_lists import long_lists
from service.api.says import SAYS
from service.api.schemas.advice import Severity
from service.api.schemas.guide import guide_of
from service.api.schemas.logbook import LogbookIn
from service.api.schemas.pickup import PickupCheckIn
from service.api.schemas.requests import AppraisalIn, PaybackIn
from service.api.schemas.shortlist import ShortlistIn
from service.api.schemas.vocabulary import (
    ClosedListOut,
    DefaultOut,
    FieldOut,
    NumberOut,
    VocabularyOut,
    WeatherFileOut,
    WordOut,
)
from service.api.words import codes_of, template_of
from service.core.adverts import CLAIMS, DEFECTS
from service.core.appraisal import MOMENTS, Choice
from service.core.completion import default_rows
from service.core.logbook import Conclusion
from service.core.model.bounds import BOUNDS
from service.core.model.finding import WORST_FIRST
from service.core.pickup import Seen


def vocabulary(deps: Deps) -> VocabularyOut:
    """The answer of GET /v1/vocabulary."""
    return VocabularyOut(
        fields=[
            FieldOut(pointer=pointer, accepted=accepted, example=example)
            for pointer, accepted, example in guide_of(PaybackIn).fields()
        ],
        numbers=[
            NumberOut(
                name=name,
                low=bounds.low,
                high=bounds.high,
                whole=bounds.whole,
                unit=bounds.unit,
                description=SAYS[name].description,
                example=SAYS[name].example,
            )
            for name, bounds in BOUNDS.items()
            if name in SAYS
        ],
        words=[ClosedListOut(name=name, words=words) for name, words in sorted(_all_closed_lists().items())],
        verdicts=[str(verdict) for verdict in WORST_FIRST],
        decisions=[str(choice) for choice in Choice],
        severities=[str(severity) for severity in Severity],
        moments=list(MOMENTS),
        findings=_words("findings"),
        remedies=_words("remedies"),
        conditions=_words("decisions", _of_decision("condition."), "condition."),
        cost_reasons=_words("decisions", _of_decision("cost_because."), "cost_because."),
        steps=_words("steps", (code for code in _bare("steps") if code != "when")),
        cautions=_words("cautions", (caution.code for caution in deps.cautions.cautions)),
        fixing=_words("fixing", (code for code in _bare("fixing") if code not in {"forces", "caution"})),
        losses=_words("losses"),
        spread=_words("spread"),
        crossings=_words("payback", codes_of("payback", "crossings."), "crossings."),
        rates_of_return=_words("payback", _first_parts("returns."), "returns."),
        sensitivity=_words("payback", _first_parts("step."), "step."),
        co2=_words("payback", codes_of("payback", "co2."), "co2."),
        storage=_words("storage"),
        tilt=[
            word
            for prefix in ("schedule.", "rule.", "facing.", "obstacle.", "note.")
            for word in _words("tilt", codes_of("tilt", prefix), prefix)
        ],
        assumptions=_words("assumptions", dict.fromkeys(row.code for row in default_rows())),
        identity_doubts=_words("identity", codes_of("identity", "doubt."), "doubt."),
        identity_readings=_words("identity", codes_of("identity", "read."), "read."),
        **_for_sale_and_running(),
        problems=_words("problems", codes_of("problems", "title."), "title."),
        defaults=[DefaultOut.from_core(row) for row in default_rows()],
        weather_files=[WeatherFileOut.from_core(file, name=name) for name, file in deps.weather_files.items()],
        **editions(deps),
    )


def _for_sale_and_running() -> dict[str, Any]:
    """Words of what is for sale, at the door, and of a set that runs."""
    return {
        "pickup_verdicts": [str(seen) for seen in Seen],
        "pickup_causes": _words("pickup", _first_codes("pickup", "cause."), "cause."),
        "pickup": [
            word
            for prefix in ("how.", "look.", "ask.", "worth.", "light.", "remark.")
            for word in _words("pickup", codes_of("pickup", prefix), prefix)
        ],
        "pickup_assumptions": _words("pickup", codes_of("pickup", "assumed."), "assumed."),
        "advert_claims": list(CLAIMS),
        "advert_defects": list(DEFECTS),
        "advert_doubts": _words("adverts", codes_of("adverts", "doubt."), "doubt."),
        "shortlist_reasons": _words("shortlist", codes_of("shortlist", "because."), "because."),
        "shortlist_questions": _words("shortlist", codes_of("shortlist", "ask."), "ask."),
        "shortlist": [
            word
            for prefix in ("against.", "note.", "bid.", "remark.", "question.")
            for word in _words("shortlist", codes_of("shortlist", prefix), prefix)
        ],
        "log_conclusions": [str(conclusion) for conclusion in Conclusion],
        "log_reasons": _words("logbook", _first_codes("logbook", "because."), "because."),
        "log_suspects": _words("logbook", codes_of("logbook", "suspect."), "suspect."),
        "log_gaps": _words("logbook", _first_codes("logbook", "gap."), "gap."),
        "log_findings": _words("logbook", _first_codes("logbook", "note."), "note."),
        "commissioning": _words("commissioning"),
    }


def _all_closed_lists() -> dict[str, list[str]]:
    """Words by field; a name that stands for two lists, such as ``kind``, has the words of both."""
    found: dict[str, list[str]] = {}
    for model in (PickupCheckIn, LogbookIn, ShortlistIn, AppraisalIn):
        for name, words in _closed_lists(model).items():
            found[name] = list(dict.fromkeys([*found.get(name, ()), *words]))
    return found


def _first_codes(noun: str, prefix: str) -> list[str]:
    """Codes with a prefix; those of one kind that differ by how many are one."""
    codes = codes_of(noun, prefix)
    return [code for code in codes if code.rpartition(".")[0] not in codes]


def _of_decision(prefix: str) -> list[str]:
    """Codes of a decision's conditions or costs; their variants count as one."""
    return list(dict.fromkeys(code.split(".")[0] for code in codes_of("decisions", prefix)))


def _words(noun: str, codes: Iterable[str] | None = None, prefix: str = "") -> list[WordOut]:
    """Codes with their sentence, where it needs no facts; variants of a code count as one."""
    listed = _bare(noun) if codes is None else codes
    found = []
    for code in listed:
        text = template_of(noun, prefix + code)
        found.append(WordOut(code=code, text=None if text is None or "{" in text else text))
    return found


def _first_parts(prefix: str) -> Iterable[str]:
    """The codes of the account's sentences, variants counted as one."""
    return dict.fromkeys(code.split(".")[0] for code in codes_of("payback", prefix))


def _bare(noun: str) -> Iterable[str]:
    """The codes of a noun, without their variants."""
    return dict.fromkeys(code.split(".")[0] for code in codes_of(noun))


def _closed_lists(model: type[BaseModel]) -> dict[str, list[str]]:
    """Every field of a request that takes one of a few words."""
    schema = model.model_json_schema()
    found = dict(_fields_with_words([schema, *schema.get("$defs", {}).values()]))
    return found | {name: list(words) for name, words in long_lists().items()}


def _fields_with_words(schemas: list[Any]) -> Iterator[tuple[str, list[str]]]:
    for schema in schemas:
        for name, field in schema.get("properties", {}).items():
            for one in (field, *field.get("anyOf", ())):
                words = one.get("enum") or one.get("items", {}).get("enum")
                if words:
                    yield name, [str(word) for word in words]
