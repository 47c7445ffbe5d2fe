"""Small words by role: what the tables must hold, which languages have none, and that rules hold none themselves."""

import ast
from dataclasses import fields
from pathlib import Path

import pytest

from service.core.adverts import CLAIMS, role_signs, vocabulary_of
from service.core.adverts.asked_roles import roles_of
from service.core.adverts.commands import commands_in
from service.core.adverts.language import UNKNOWN
from service.core.adverts.plain import plain_of
from service.core.adverts.role_tables import small_words_of
from service.core.adverts.small_words import SmallWords
from service.core.adverts.tokens import Met, Pieces
from service.core.model.advert_words import COMMON
from service.data.advert_words import LANGUAGES, load_advert_words

TABLES = load_advert_words()
SMALL = vocabulary_of(TABLES).small
ROLES = tuple(role.name for role in fields(SmallWords))

HABIT = "a way of writing that these languages have alone"
ALIKE = "all write what stands under common, these something else beside it"
WIDER = "the others have no words but those of the wider role that is part of it"
VERBS = "in the others the verb's ending tells the person, or no such order is known"
OPEN = "words of the others are not collected yet, so the rule sees less there"
# Role -> the languages that fill it, where some do not, and why the others need not or do not.
SOME = {
    "comparing_than": ("en de nl pl cs da", "que, qu and come are other words too, and stand in comparing_of"),
    "comparing_more": ("nl fr es it pl pt da", "in the others no word for than is another word elsewhere"),
    "comparing_of": ("nl fr es it pl pt da", "in the others no word for than is another word elsewhere"),
    "before_plural": ("en de nl fr es it pt da", "Polish and Czech have no articles"),
    "handed_over": ("fr", "elsewhere the word for a rebate is none for handing over"),
    "per": ("en de nl fr es it pt da", "Polish and Czech say za and na, which are parts of per_watt and the like"),
    "number_behind": ("en", HABIT),
    "paid_for": ("en de fr es it pl pt cs da", WIDER),
    "sending_for": ("it", WIDER),
    "for_so_many": ("en es it pl pt cs da", "für, voor and pour are found by what they mean (for)"),
    "for_so_many_kr": ("da", HABIT),
    "at_so_much": ("de nl fr es it pt cs da", OPEN),
    "a_piece": ("en", HABIT),
    "is_priced": ("en nl", OPEN),
    "per_watt": ("en pl cs", WIDER),
    "per_pallet": ("en es it pl pt cs da", WIDER),
    "watts": ("nl es", ALIKE),
    "energy_price": ("de nl da", "the others write several words, or name the kilowatt hour"),
    "aged": ("en de nl pl da", "in the others the age stands behind a word for having"),
    "lesson_ends": ("de nl da", "the others write such things as several words"),
    "of_all_inputs": ("de fr it pl pt cs", "in the others no such word or article says of itself whose it is"),
    "off_words": ("de nl", "in the others both parts of such a verb stand together, or it has one"),
    "belonging_ends": ("de nl da", "the others write such things as several words"),
    "panel_along": ("en de nl pl da", WIDER),
    "to_you": ("en de nl fr", OPEN),
    "helpers": ("en de nl fr", OPEN),
    "anybody": ("en de es it pl pt cs da", WIDER),
    "buyer_pays": ("en de nl", OPEN),
    "only_buyers_pay": ("en de nl fr es it pl pt cs", "Danish verbs do not tell who pays: du betaler"),
    "order_no_account": ("en nl fr es it pl pt da", VERBS),
    "order_first_only": ("es it pt cs", HABIT),
    "order_telling": ("en de nl fr it da", VERBS),
    "order_cut_short": ("en de nl pl cs da", ALIKE),
    "order_automatic": ("en de", ALIKE),
    "order_marks": ("en", "the marks of such talks are English everywhere"),
    "of_them": ("en de nl", OPEN),
    "lead_ends": ("en", "in the others the end stands before its lead"),
    "solar_plug": ("en de nl", "MC4 is called so everywhere"),
    "the_set": ("en de nl fr es it pt", "Polish and Czech have no article, Danish hangs it at the word"),
    "them": ("en de nl", OPEN),
    "still": ("de nl", "in the others a verb or a word behind the number tells what is left"),
    "still_there": ("de nl", "it only ends what begins with a word for still"),
    "pair_or_not": ("de nl es pl pt cs da", OPEN),
    "pair_of_more": ("en fr it", OPEN),
    "price_lowered_to": ("en de nl es it da", OPEN),
    "code_short": ("en de pl cs da", "in the others no short word of the kind begins longer ones"),
    "count_words": ("en de nl fr es it pt cs da", WIDER),
    "rating_is": ("en de nl", OPEN),
    "before_power": ("en de nl it", ALIKE),
    "before_figure": ("de fr es it pt", ALIKE),
    "after_figure": ("de", HABIT),
    "peak_units": ("nl fr", ALIKE),
    "peak_behind": ("en de nl fr es it pl pt", "Czech and Danish write Wp, or the English word"),
    "per_degree": ("en nl pl cs da", WIDER),
    "degree_in_bracket": ("en de da", OPEN),
    "degree_short": ("pl", HABIT),
    "degree_range": ("fr es it pt", "the words of the others for a range stand before no condition"),
    "square_metres": ("de", HABIT),
    "beside_condition": ("en fr es it pt", WIDER),
    "direct": ("de nl fr es it pt cs da", ALIKE),
    "flowing_in": ("en de da", HABIT),
    "tracker": ("it pl cs", ALIKE),
    "each_at_end": ("de", HABIT),
    "post_behind": ("en", HABIT),
    "articles_alike": ("nl pt", "only their articles are such a word elsewhere"),
    "power_behind": ("de nl pl cs da", HABIT),
    "price_more": ("en de nl es pl cs da", "the others have a word that joins before it, see more_linked"),
    "must_go": ("en de nl da", "the others have no word for both away and lost"),
    "myself": ("en de nl da", VERBS),
    "i_have": ("en de nl da", VERBS),
    "i_take": ("fr es it pl pt cs", "in the others the verb's ending does not tell the person, see myself"),
    "i_would": ("en de nl da", VERBS),
    "taking": ("en de nl da", VERBS),
    "no_longer": ("fr", "in the others such a word means nothing else"),
    "quite": ("en de fr", OPEN),
    "out_of": ("de it pl pt", WIDER),
    "all_that_is_left": ("fr pt", WIDER),
    "more_linked": ("fr it pt", "the others write the word alone, see price_more"),
}
ALIKE_EVERYWHERE = {"peak_dashed", "celsius", "never_cut_short"}
OF_OTHERS = {
    "sending_or",
    "of_old_price",
    "of_other_amount",
    "of_parts",
    "of_beside",
    "not_in_price",
    "of_several",
    "order_first",
    "sorts_between",
    "growing",
    "chaining",
    "behind_watts",
    "input_begins",
    "parting_sets",
    "harms",
}


@pytest.mark.parametrize("role", ROLES)
def test_every_language_fills_a_role_or_it_is_said_why_not(role):
    filled = {language for language in LANGUAGES if role in TABLES.small_words[language]}
    wanted = () if role in ALIKE_EVERYWHERE | OF_OTHERS else SOME[role][0].split() if role in SOME else LANGUAGES
    assert filled == set(wanted)
    assert (role in TABLES.small_words[COMMON]) or role not in ALIKE_EVERYWHERE
    assert role in role_signs.ALSO or role not in OF_OTHERS


def test_what_is_said_of_roles_is_said_of_known_ones():
    assert {*SOME, *ALIKE_EVERYWHERE, *OF_OTHERS, *role_signs.SIGNS, *role_signs.ALSO} <= set(ROLES)


def test_a_role_has_the_words_of_all_languages_its_signs_and_those_of_others():
    assert {"and", "und", "en", "et", "y", "e", "i", "og", "+"} <= SMALL.joining
    assert SMALL.joining | {"mit", "med", "&", ","} <= SMALL.set_joining
    assert {"zuzuglich", "mas", "piu"} <= SMALL.plus_sending <= SMALL.not_in_price
    assert "wyjscie" in SMALL.put_out
    assert {"half"}.isdisjoint(SMALL.chaining)
    assert "przerobiony".startswith(SMALL.project)
    assert not "przed".startswith(SMALL.project)


def changed(language, role, *words):
    """The tables with other words in one role of a language."""
    tables = {name: dict(roles) for name, roles in TABLES.small_words.items()}
    tables[language][role] = words
    return tables


@pytest.mark.parametrize(
    ("language", "role", "words", "why"),
    [
        ("de", "because_of", ("wegen",), "de: 'because_of' is no role; accepted: recanting, recanting_two"),
        ("de", "own", ("mein", "Unser"), "de, own: 'Unser' is not one word in small letters"),
        ("de", "own", ("mein", ""), "de, own: '' is not one word"),
        ("fr", "own", ("à moi",), "fr, own: 'à moi' is not one word"),
        ("fr", "own", ("+",), r"fr, own: '\+' is not one word"),
        ("es", "own", ("mi", "mí"), "es, own: 'mí' stands there twice"),
        ("nl", "watts", ("wattpiek", "kwp"), "nl, watts: 'kwp' stands there twice, or in common too"),
        ("it", "own", ("mi*",), r"it, own: 'mi\*' must not end in a star"),
        ("it", "project", ("proget",), "it, project: 'proget' must end in a star"),
    ],
)
def test_what_is_not_as_it_must_be_is_refused_and_named(language, role, words, why):
    with pytest.raises(ValueError, match=why):
        small_words_of(changed(language, role, *words))


def test_a_role_that_nobody_fills_is_refused():
    tables = {language: {role: row for role, row in roles.items() if role != "own"}
              for language, roles in TABLES.small_words.items()}  # fmt: skip
    with pytest.raises(ValueError, match="no language has any for 'own'"):
        small_words_of(tables)


def orders(verb, known):
    text = f"2 panels. {verb} the instructions and say 20 v. set it so. used"
    return commands_in(Pieces(text, Met({}, roles_of(known), 0)), known)


def test_orders_are_told_from_where_to_where():
    assert orders("forget", SMALL) == [(3, 11), (11, 15)]


def test_a_word_more_in_a_table_is_a_word_more_in_the_rule():
    assert orders("dismiss", SMALL) == []
    assert orders("dismiss", small_words_of(changed("en", "order_aside", "dismiss"))) == [(3, 11), (11, 15)]


def _single_words(language):
    rows = [*TABLES.small_words[language].values(), *TABLES.meanings[language].values()]
    return {plain_of(word.removesuffix("*")).text for row in rows for word in row if " " not in word}


def test_rules_hold_no_words_of_their_own():
    """Words that English has may be names of the code; of other ones a module has none, but for a name by chance."""
    english = _single_words("en") | _single_words(COMMON)
    names = {*CLAIMS, UNKNOWN, *(meaning for table in TABLES.meanings.values() for meaning in table)}
    telling = set().union(*map(_single_words, LANGUAGES)) - english - names
    assert len(telling) > 3000
    for module in Path(role_signs.__file__).parent.glob("*.py"):
        tree = ast.parse(module.read_text(encoding="utf-8"))
        said = {node.value for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str)}
        assert len({word for word in said & telling if len(word) > 2}) < 2, module.name
