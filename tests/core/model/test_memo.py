import pytest

from service.core.model.memo import Memo, NotKeptError


def test_a_kept_value_is_not_made_again():
    memo: Memo[str, object] = Memo(2)
    first = memo.get("a", object)
    assert memo.get("a", object) is first


def test_the_least_lately_used_value_goes_first():
    memo: Memo[str, object] = Memo(2)
    a, b = memo.get("a", object), memo.get("b", object)
    memo.get("a", object)
    memo.get("c", object)
    assert len(memo) == 2
    assert memo.get("a", object) is a
    assert memo.get("b", object) is not b


def test_an_error_while_making_is_not_kept():
    memo: Memo[str, int] = Memo(1)
    with pytest.raises(ZeroDivisionError):
        memo.get("a", lambda: 1 // 0)
    assert memo.get("a", lambda: 3) == 3


def test_whoever_looks_at_what_is_kept_makes_nothing_and_keeps_it_young():
    memo: Memo[str, object] = Memo(2)
    only_kept = memo.only_kept()
    with pytest.raises(NotKeptError):
        only_kept.get("a", object)
    a, _ = memo.get("a", object), memo.get("b", object)
    assert only_kept.get("a", object) is a
    memo.get("c", object)
    assert memo.kept("a") is a
    with pytest.raises(NotKeptError):
        only_kept.get("b", object)
    assert len(memo) == len(only_kept) == 2
