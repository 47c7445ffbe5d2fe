"""What a cleaned log looks like."""

import dataclasses

import numpy as np
import pytest

from service.core.logbook import LoggedSeries


def test_a_cleaned_log_cannot_be_changed_and_is_of_the_whole_set_unless_it_says_so() -> None:
    one = LoggedSeries(
        start_s=np.array([0, 300]), step_s=300, energy_wh=np.array([1.0, np.nan]), time_zone="Europe/Berlin"
    )
    assert one.input is None
    with pytest.raises(dataclasses.FrozenInstanceError):
        one.step_s = 600  # type: ignore[misc]
