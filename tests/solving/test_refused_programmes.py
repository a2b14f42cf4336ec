"""A programme that HiGHS does not take is told as a mistake, never read as an answer."""

import numpy as np
import pytest

from nesting.solving import Columns, Programme, minimize_whole


def test_two_entries_in_one_place_are_refused() -> None:
    """HiGHS takes no such programme, and an empty one in its stead would have no meaning."""
    one = np.ones(1)
    twice = Columns(one, 0 * one, one, np.zeros(1, np.int32), np.zeros(2, np.int32), np.ones(2))
    with pytest.raises(ValueError, match="refused"):
        minimize_whole(Programme(twice, one, one), nodes=1, stop=lambda: False)
