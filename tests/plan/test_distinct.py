"""Pairs that differ, against a set of them."""

import numpy as np
import pytest

from scenekit.plan.distinct import distinct_pairs


@pytest.mark.parametrize("spread", [3, 90, 1 << 24])
@pytest.mark.parametrize("count", [0, 1, 500])
def test_pairs_are_sorted_and_found_again(count: int, spread: int) -> None:
    """Few different ones are marked, those that lie far apart are sorted."""
    chosen = np.random.default_rng(count + spread)
    first, second = chosen.integers(-spread, spread, (2, count))
    a, b, which = distinct_pairs(first, second)
    pairs = list(zip(first.tolist(), second.tolist(), strict=True))
    found = list(zip(a.tolist(), b.tolist(), strict=True))
    assert found == sorted(set(pairs))
    assert [found[number] for number in which.tolist()] == pairs
