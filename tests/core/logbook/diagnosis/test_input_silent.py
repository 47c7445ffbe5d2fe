"""Does an input stay at nothing on days on which another gives?"""

from dataclasses import replace

import numpy as np
import pytest

from service.core.logbook import Pieces, SilentInput, silent_inputs
from tests.logs import DAY_S, FIRST_S, counter_rows, log_from, power_rows, utc

FIRST_DAY = FIRST_S // DAY_S
RATED = {1: 410.0, 2: 410.0}


def pieces(days: int, share: float = 1.0, step_s: int = 3600) -> Pieces:
    """A log of one input."""
    return log_from(power_rows(days, step_s, share)).total


def silenced(days: int, first: int, last: int, share: float = 1.0) -> Pieces:
    """The same with nothing from the day ``first`` to before ``last``."""
    whole = pieces(days, share)
    day = (whole.begin_s - FIRST_S) // DAY_S
    return replace(whole, energy_wh=np.where((day >= first) & (day < last), 0.0, whole.energy_wh))


def found(one: Pieces, two: Pieces) -> tuple[SilentInput, ...]:
    return silent_inputs(((1, one), (2, two)), RATED, utc())


@pytest.mark.parametrize(("days", "since"), [(30, 15), (60, 30), (180, 120), (20, 2), (30, 27), (30, 0)])
def test_an_input_that_gives_nothing_from_a_day_on_is_named_with_that_day(days: int, since: int) -> None:
    (one,) = found(pieces(days), silenced(days, since, days))
    assert (one.number, one.other, one.since_day, one.days) == (2, 1, FIRST_DAY + since, days - since)
    assert one.to_the_end
    dead = days - since
    assert one.lost_share == pytest.approx(dead / (2 * days), abs=0.01)


def test_some_days_at_nothing_are_told_with_the_first_of_them() -> None:
    (one,) = found(silenced(60, 20, 25), pieces(60))
    assert (one.number, one.since_day, one.days, one.to_the_end) == (1, FIRST_DAY + 20, 5, False)


def test_what_an_input_gives_beside_the_other_is_read_from_its_sound_days() -> None:
    (one,) = found(pieces(40), silenced(40, 20, 40, share=0.25))
    assert one.lost_share == pytest.approx(0.5 * 0.25 / 1.25, abs=0.005)


def test_a_counter_that_stands_still_is_seen_as_well() -> None:
    still = counter_rows(20)
    stops = FIRST_S + 10 * DAY_S
    still = replace(still, value=np.where(still.at_s > stops, still.value[still.at_s <= stops][-1], still.value))
    (one,) = found(log_from(still).total, log_from(counter_rows(20)).total)
    assert (one.number, one.since_day) == (1, FIRST_DAY + 10)


def test_sound_inputs_weak_ones_and_a_day_or_two_are_no_silence() -> None:
    assert found(pieces(30), pieces(30)) == ()
    assert found(pieces(30), pieces(30, share=0.02)) == ()
    assert found(pieces(30), silenced(30, 10, 12)) == ()


def test_days_that_were_not_logged_or_gave_nothing_anywhere_are_no_silence() -> None:
    whole = pieces(30)
    lost = whole.part((whole.begin_s - FIRST_S) // DAY_S < 15)
    assert found(pieces(30), lost) == ()
    assert found(silenced(30, 10, 20), silenced(30, 10, 20)) == ()


def test_an_input_without_panels_may_give_nothing() -> None:
    assert silent_inputs(((1, pieces(30)), (2, silenced(30, 0, 30))), {1: 820.0}, utc()) == ()
