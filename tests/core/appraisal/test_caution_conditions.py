"""Conditions that were taken apart say what each of them says by itself, on tables and requests that were made up."""

from hypothesis import given
from hypothesis import strategies as st

from service.core.appraisal import CautionTable
from service.core.appraisal.caution_conditions import State
from service.core.model.caution import Caution, Need

WORDS = ("wall", "fence", "not_known", "")
values = st.one_of(
    st.none(), st.booleans(), st.integers(-2, 4), st.floats(-2, 4), st.sampled_from([*WORDS, "roof"]),
    st.just([]), st.just(["wall"]), st.just({"x": 1}),
)  # fmt: skip
POINTERS = ("/a", "/a/x", "/r/*/x", "/r/*/y", "/r/*/s/*/x", "/a/s/*/x", "/q/*", "/r")
limits = st.one_of(st.integers(0, 3), st.sampled_from([0.5, 1.5]))
one_value = st.one_of(limits, st.booleans(), st.sampled_from(WORDS))
needs = st.one_of(
    st.builds(Need, test=st.sampled_from(["is", "is_not"]), pointer=st.sampled_from(POINTERS), value=one_value),
    st.builds(Need, test=st.sampled_from(["above", "below"]), pointer=st.sampled_from(POINTERS), value=limits),
    st.builds(
        Need, test=st.just("one_of"), pointer=st.sampled_from(POINTERS),
        value=st.lists(one_value, min_size=1, max_size=3),
    ),
    st.builds(Need, test=st.sampled_from(["known", "not_known"]), pointer=st.sampled_from(POINTERS)),
    st.builds(
        Need, test=st.just("finding"), finding=st.sampled_from(["f", "g"]),
        value=st.lists(st.sampled_from(["fits", "does_not_fit", "not_known"]), min_size=1),
    ),
)  # fmt: skip
tables = st.lists(
    st.builds(
        Caution, code=st.just("c"), severity=st.just("danger"), step=st.just("living"), rank=st.integers(1, 3),
        always=st.booleans(), shown_if_open=st.booleans(), needs=st.lists(needs, max_size=4).map(tuple),
        topic=st.just("t"), source=st.just("s"), status=st.just("memory"),
    ),
    max_size=6,
)  # fmt: skip
inner = st.lists(st.fixed_dictionaries({}, optional={"x": values}), max_size=2)
entries = st.lists(
    st.one_of(st.fixed_dictionaries({}, optional={"x": values, "y": values, "s": inner}), st.just({}), values),
    max_size=3,
)
requests = st.fixed_dictionaries(
    {}, optional={
        "a": st.one_of(st.fixed_dictionaries({}, optional={"x": values, "s": inner}), values),
        "r": st.one_of(entries, values), "q": st.one_of(st.lists(values, max_size=3), values),
    },
)  # fmt: skip
verdicts = st.dictionaries(st.sampled_from(["f", "g"]), st.sets(st.sampled_from(["fits", "does_not_fit", "not_known"])))


def alone(need: Need, value):
    """What a condition says of one value."""
    if need.test in {"known", "not_known"}:
        return State.HOLDS if (value not in (None, "not_known", [])) == (need.test == "known") else State.FAILS
    if value is None or value == "not_known":
        return State.OPEN
    number = isinstance(value, int | float) and not isinstance(value, bool)
    same = [value == one and isinstance(value, bool) == isinstance(one, bool)
            for one in (need.value if need.test == "one_of" else [need.value])]  # fmt: skip
    holds = {
        "is": any(same), "is_not": not any(same), "one_of": any(same),
        "above": number and need.test == "above" and value > need.value,
        "below": number and need.test == "below" and value < need.value,
    }[need.test]  # fmt: skip
    return State.HOLDS if holds else State.FAILS


def within(node, way):
    """The values at the end of a way, of all entries of lists on it."""
    if not way:
        return [node]
    if way[0] == "*":
        return [one for entry in node for one in within(entry, way[1:])] if isinstance(node, list) else [None]
    return within(node.get(way[0]) if isinstance(node, dict) else None, way[1:])


def plain_state(caution: Caution, request, seen):
    """All conditions of a caution, those on one list in one entry, the best one."""
    states = []
    by_list = {}
    for need in caution.needs:
        if need.test == "finding":
            had = seen.get(need.finding) or ()
            states.append(
                State.OPEN if not had else State.HOLDS if set(had) & set(need.value)
                else State.OPEN if "not_known" in had else State.FAILS
            )  # fmt: skip
        else:
            place, star, rest = need.pointer.partition("/*/")
            by_list.setdefault(place if star else "", []).append((need, rest if star else need.pointer[1:]))
    for place, together in by_list.items():
        found = within(request, place.split("/")[1:])[0] if place else [request]
        in_each = [
            min(max((alone(need, one) for one in within(entry, rest.split("/"))), default=State.FAILS)
                for need, rest in together)
            for entry in (found if isinstance(found, list) else [{}])
        ]  # fmt: skip
        states.append(max(in_each, default=State.FAILS))
    return min(states, default=State.HOLDS)


@given(tables, requests, verdicts)
def test_conditions_taken_apart_say_what_they_say_alone(table, request, seen):
    assert CautionTable.of(table).states(request, seen) == [plain_state(caution, request, seen) for caution in table]
