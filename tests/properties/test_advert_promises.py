"""Reading adverts: blanks, capitals, markup and hidden marks move nothing, and no text at all breaks it."""

from hypothesis import given
from hypothesis import strategies as st

from service.core.adverts import MOST_CLAIMS, Advert, Reading, read_advert, vocabulary_of
from service.data.advert_words import load_advert_words

WORDS = vocabulary_of(load_advert_words())
# Pieces, watts, price of one; in the words of each language.
SENTENCES = {
    "en": "Selling {0} used solar panels, {1} W each, £{2} each. Collection only.",
    "de": "Verkaufe {0} gebrauchte Solarmodule mit je {1} W, {2} € pro Stück. Nur Abholung.",
    "nl": "Te koop: {0} gebruikte zonnepanelen van {1} W, € {2} per stuk. Alleen ophalen.",
    "fr": "Vends {0} panneaux solaires d'occasion de {1} W, {2} € pièce. À venir chercher.",
    "es": "Vendo {0} placas solares usadas de {1} W, {2} € cada una. Recogida en mano.",
    "it": "Vendo {0} pannelli usati da {1} W, {2} € cadauno. Solo ritiro a mano.",
    "pl": "Sprzedam {0} używane panele {1} W, {2} zł za sztukę. Tylko odbiór osobisty.",
    "pt": "Vendo {0} painéis usados de {1} W, {2} € cada um. Só levantamento em mão.",
    "cs": "Prodám {0} použité panely {1} W, {2} Kč za kus. Jen osobní odběr.",
    "da": "Sælger {0} brugte solpaneler på {1} W, {2} kr. pr stk. Skal hentes.",
}
MARKS = ("\u200b", "\u200f", "\u202e", "\u2066", "\x00", "\ufeff")


@st.composite
def adverts(draw: st.DrawFn) -> tuple[str, int, int, int]:
    told = draw(st.integers(2, 60)), draw(st.integers(200, 600)), draw(st.integers(5, 900))
    return (SENTENCES[draw(st.sampled_from(sorted(SENTENCES)))].format(*told), *told)


def read(body: str, title: str = "") -> Reading:
    return read_advert(Advert(title=title, body=body), WORDS)


def told(reading: Reading) -> tuple[object, ...]:
    return (
        reading.language, reading.kind, reading.is_offer, reading.quantity_available, reading.price, reading.condition,
        reading.delivery, dict(reading.panel),
    )  # fmt: skip


@given(adverts())
def test_what_is_said_is_read(advert: tuple[str, int, int, int]) -> None:
    body, pieces, watts, each = advert
    found = read(body)
    assert (found.quantity_available, found.panel["rated_power_w"], found.price.each) == (pieces, watts, each)
    assert (found.kind, found.condition, found.delivery) == ("panel", "used", "pickup")


@given(adverts(), st.lists(st.sampled_from([" ", "  ", "\t", " \u00a0 "]), min_size=1, max_size=5))
def test_more_blanks_move_nothing(advert: tuple[str, int, int, int], blanks: list[str]) -> None:
    words = advert[0].split(" ")
    spread = "".join(word + blanks[at % len(blanks)] for at, word in enumerate(words))
    assert told(read(spread)) == told(read(advert[0]))


@given(adverts())
def test_capitals_and_small_letters_move_nothing(advert: tuple[str, int, int, int]) -> None:
    assert told(read(advert[0].upper())) == told(read(advert[0])) == told(read(advert[0].lower()))


@given(adverts(), st.sampled_from(MARKS), st.integers(1, 7))
def test_hidden_marks_and_markup_move_nothing_and_are_told(
    advert: tuple[str, int, int, int], mark: str, every: int
) -> None:
    body = advert[0]
    marked = "".join(sign + mark * (at % every == 0 and not sign.isspace()) for at, sign in enumerate(body))
    for disguised in (marked, f"<div><b>{body}</b><script>var w = '999 W'</script><!-- 1 W --></div>"):
        assert told(read(disguised)) == told(read(body))
    assert "hostile_content" in read(f"<b>{body}</b>").doubts


@given(st.text(max_size=400), st.text(max_size=60), adverts())
def test_no_text_breaks_the_reading_and_claims_point_into_it(
    noise: str, title: str, advert: tuple[str, int, int, int]
) -> None:
    body = f"{noise}\n{advert[0]}\n{noise}"
    found = read(body, title)
    assert len(found.claims) <= MOST_CLAIMS
    for claim in found.claims:
        text = {"title": title, "body": body}[claim.field]
        assert text[claim.start : claim.end][:120] == claim.words
        assert 0 <= claim.start < claim.end <= len(text)
