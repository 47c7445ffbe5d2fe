"""Which question was just asked, to the byte? Its answer is told again as it was.

An answer hangs on what ``Key`` holds and on nothing else of the request: who makes it is given no more. Kept is the
whole answer in memory, as long as the process lives and there is room; of the question only a digest under a key of
this process's own. Refusals are not kept, nor is what was asked but once: most questions never come again, and what
they were answered neither stays in memory nor drives out what does come again.
"""

import hashlib
import secrets
from collections import OrderedDict
from datetime import date
from typing import NamedTuple

# Of the room, so that no single long answer drives all others out.
_LARGEST_SHARE = 1 / 8
# An answer's place in the table (the sizes of its objects added up, on 64 bits).
_BESIDE_BYTES = 1024
# A longer question, a log or a board of adverts, seldom comes again as it was, and to digest it takes a millisecond.
_LONGEST_BYTES = 1 << 18
# So many questions that were asked once are known by their digests, some 0.2 kB each.
_ASKED_ONCE = 1024


class Key(NamedTuple):
    """All that an answer hangs on: the path, the format that was chosen and which part of a page, the body, the day."""

    path: str
    form: tuple[str, str]
    body_media: str
    day: date
    body_digest: bytes


class Written(NamedTuple):
    """An answer as it is sent, and its digest."""

    content: bytes
    digest: str


class ToldAgain:
    """Whole answers, the least lately used goes. For the event loop alone, not to be shared between threads."""

    def __init__(self, room_bytes: int) -> None:
        """Start empty; without room nothing is kept."""
        self.room_bytes = room_bytes
        self.held_bytes = 0
        self._kept: OrderedDict[Key, Written] = OrderedDict()
        self._asked_once: OrderedDict[Key, None] = OrderedDict()
        self._secret = secrets.token_bytes(hashlib.blake2b.MAX_KEY_SIZE)

    def __len__(self) -> int:
        return len(self._kept)

    def key(self, path: str, form: tuple[str, str], body_media: str, day: date, body: bytes) -> Key | None:
        """What the answer to this question is found by; None where it is not kept."""
        if not self.room_bytes or len(body) > _LONGEST_BYTES:
            return None
        return Key(path, form, body_media, day, hashlib.blake2b(body, digest_size=32, key=self._secret).digest())

    def found(self, key: Key) -> Written | None:
        """The answer as it was told."""
        answer = self._kept.get(key)
        if answer is not None:
            self._kept.move_to_end(key)
        return answer

    def keep(self, key: Key, answer: Written) -> None:
        """Keep a computed answer where the question was asked before, unless it is too long."""
        size = _size(answer)
        if size > self.room_bytes * _LARGEST_SHARE or self._is_new(key):
            return
        before = self._kept.pop(key, None)  # two that asked at the same time
        if before is not None:
            self.held_bytes -= _size(before)
        self._kept[key] = answer
        self.held_bytes += size
        while self.held_bytes > self.room_bytes:
            self.held_bytes -= _size(self._kept.popitem(last=False)[1])

    def _is_new(self, key: Key) -> bool:
        """Was it never asked, or too long ago? It is known from now on."""
        if key in self._kept or self._asked_once.pop(key, key) is None:
            return False
        self._asked_once[key] = None
        if len(self._asked_once) > _ASKED_ONCE:
            self._asked_once.popitem(last=False)
        return True


def _size(answer: Written) -> int:
    return len(answer.content) + _BESIDE_BYTES
