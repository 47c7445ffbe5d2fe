"""The small words of all languages as one set a role, made of the tables and checked."""

from collections.abc import Iterable, Set
from dataclasses import fields
from sys import intern
from typing import Any, NoReturn, get_origin

from service.core.adverts.plain import plain_of
from service.core.adverts.role_signs import ALSO, SIGNS
from service.core.adverts.small_words import SmallWords
from service.core.adverts.tokens import words_of
from service.core.model.advert_words import COMMON, ByLanguage


def small_words_of(tables: ByLanguage) -> SmallWords:
    """The small words of all languages, checked.

    Raises:
        ValueError: a role that nobody knows or fills, a word that stands twice in one, or is not written as one word in
            small letters, with a star behind it where the role has beginnings of words and nowhere else.
    """
    stems = {role.name: (get_origin(role.type) or role.type) is tuple for role in fields(SmallWords)}
    told: dict[str, set[str]] = {name: set(SIGNS.get(name, ())) for name in stems}
    for language, roles in tables.items():
        for name, row in roles.items():
            if name not in stems:
                _refuse(f"{language}: {name!r} is no role; accepted: {', '.join(stems)}")
            everywhere = () if language == COMMON else tables.get(COMMON, {}).get(name, ())
            told[name] |= _checked(f"{language}, {name}", row, set(map(_plain, everywhere)), stems=stems[name])
    made: dict[str, Any] = {}
    for name, held in told.items():
        if name not in ALSO and not any(name in roles for roles in tables.values()):
            _refuse(f"no language has any for {name!r}")
        held.update(*(made[other] for other in ALSO.get(name, ())))
        made[name] = tuple(sorted(held)) if stems[name] else frozenset(held)
    return SmallWords(**made)


def _checked(where: str, row: Iterable[str], everywhere: Set[str], *, stems: bool) -> set[str]:
    """The words of a role in one language, plain; ``everywhere``: those that stand for all languages already."""
    found: set[str] = set()
    for word in row:
        bare, plain = word.removesuffix("*"), _plain(word)
        if bare != bare.lower() or words_of(plain) != [plain]:
            _refuse(f"{where}: {word!r} is not one word in small letters, such as 'für'")
        if (word != bare) != stems:
            _refuse(f"{where}: {word!r} must {'' if stems else 'not '}end in a star; so do beginnings of words alone")
        if plain in found or plain in everywhere:
            _refuse(f"{where}: {word!r} stands there twice, or in {COMMON} too; once is enough")
        found.add(plain)
    return found


def _plain(word: str) -> str:
    return intern(plain_of(word.removesuffix("*")).text)  # as words of texts are: found without comparing letters


def _refuse(what: str) -> NoReturn:
    message = f"small words of adverts: {what}"
    raise ValueError(message)
