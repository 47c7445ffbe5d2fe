"""A sign shows the same whatever stands beside it."""

from hypothesis import given
from hypothesis import strategies as st

from service.core.adverts.plain import GONE, plain_of

# Letters that become a letter which alone becomes another one: with an accent, joined, or a sign for a unit.
CHAINED = "µǢǽΆΈΉΊΌΎΪΫάέήίϋόύЁЇЎёїўѝӐӧ"
BASES = "μæÆαΑεΕηΗιΙοΟυΥеЕіІуУаАоО"


@given(st.lists(st.sampled_from(CHAINED + BASES), min_size=2, max_size=40))
def test_signs_show_the_same_beside_any_others(signs):
    apart = [plain_of(sign).text for sign in signs]
    assert plain_of("".join(signs)).text == "".join(apart)


def test_every_such_letter_is_one_sign_beside_what_it_becomes():
    for sign in CHAINED:
        becomes = plain_of(sign).text
        assert plain_of(sign + becomes).text == becomes + plain_of(becomes).text
        assert len(becomes) == 1
        assert becomes != GONE
