import pytest

from service.core.model.memo import Memo


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
