"""A text is cut into the same pieces whatever was read before, and what is kept of it is bounded."""

import pytest

from service.core.adverts.tokens import MOST_MET, Met, Pieces


@pytest.mark.parametrize(
    ("text", "words", "apart"),
    [
        ("4x 38,5 v", ["4", "x", "38,5", "v"], [0, 2, 3]),
        ("  voc:41.0v\n- 2 ", ["voc", ":", "41.0", "v", "\n", "-", "2"], [0, 6]),
        ("", [], []),
    ],
)
def test_pieces_are_the_same_when_met_again(text, words, apart):
    met = Met({}, {}, 0)
    for _ in range(2):
        pieces = Pieces(text, met)
        assert pieces.words == words
        assert [at for at, gap in enumerate(pieces.gaps[:-1]) if gap] == apart
        starts = [pieces.start(at) for at in range(len(words))]
        assert [text[start : start + len(word)] for start, word in zip(starts, words, strict=True)] == words


@pytest.mark.parametrize("behind", [",", ",\n", " \n\n  "])
def test_each_piece_of_a_long_text_is_found_again(behind):
    text = f" a 12,5 v  is told{behind}" * 40
    pieces = Pieces(text, Met({}, {}, 0))
    for at in (*range(0, len(pieces.words) - 3, 7), 3):  # in any order
        start, end = pieces.span(at, at + 3)
        assert text[start:end].replace(" ", "") == "".join(pieces.words[at : at + 3])
        assert text[start:end].strip(" ") == text[start:end]


def test_places_of_words_with_a_role_are_those_of_the_words():
    pieces = Pieces("tested: (tested) 12 v\ntest,tested", Met({}, {"tested": 4, "test": 4, "v": 1}, 0))
    assert pieces.places(4, {"tested"}) == [0, 3, 10]
    assert pieces.places(1, {"tested", "v"}) == [6]


def test_a_piece_is_one_word_with_and_without_a_blank_before_it():
    met = Met({}, {}, 0)
    first, second = Pieces("4panels", met).words[1], Pieces("4 panels", met).words[1]
    assert first is second


def test_what_is_kept_is_bounded_and_reading_goes_on():
    met = Met({}, {}, 0)
    for number in range(MOST_MET):
        Pieces(f"{number} {'w' * 500}", met)
    assert len(met) <= MOST_MET
    assert not any(len(piece) > 100 for piece in met)
    assert Pieces("7 panels", met).words == ["7", "panels"]
