"""How deep a body may be: brackets count where they are structure, not within texts."""

import pytest

from service.api.schemas.mistakes import RefusedRequest
from service.api.schemas.strict_json import DEEPEST, parsed

FULL = b"[" * DEEPEST + b"]" * DEEPEST


@pytest.mark.parametrize("body", [
    FULL,
    b'{"a": "' + b"[" * 100 + b'"}',
    b'["\\"' + b"{" * 100 + b'", 1]',
    b'["\\\\", ' + FULL[1:-1] + b"]",
    b"[" + b"[]," * 100 + b"[]]",
])  # fmt: skip
def test_what_is_no_deeper_than_we_read_is_read(body):
    parsed(body)


@pytest.mark.parametrize("body", [
    b"[" + FULL + b"]",
    b'["\\\\", [' + FULL[1:-1] + b"]]",
    b'["a", {"b": ' * 100_000,
    b'{"a": "' + b'\\"' * 1_000_000,
    b'"' * 1_000_001 + b"[" * 100_000,
    b'\\"' * 100 + b"[" * 100_000,
])  # fmt: skip
def test_what_is_deeper_or_never_ends_is_refused_at_once(body):
    with pytest.raises(RefusedRequest):
        parsed(body)
