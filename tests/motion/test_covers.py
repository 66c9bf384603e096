"""The first tick at which transitions leave the whole view in sight."""

import pytest

from scenekit.model.events import Transition
from scenekit.motion.covers import covered_at, first_clear_tick, turnover_of

OPENS = Transition(name="a", kind="wipe", tick=0, ticks=20, opens=True)
LATER = Transition(name="b", kind="iris", tick=30, ticks=10, opens=True)
CLOSES = Transition(name="c", kind="dissolve", tick=60, ticks=20)


@pytest.mark.parametrize(
    "transitions", [(), (OPENS,), (OPENS, LATER), (LATER, CLOSES), (OPENS, LATER, CLOSES), (CLOSES,)]
)
def test_first_clear_tick_is_the_first_at_which_nothing_is_covered(transitions):
    def clear(tick):
        spans = [covered_at(t, turnover_of(t, (320, 200), "quay"), tick) for t in transitions]
        return all(first == last for first, last in spans)

    assert first_clear_tick(transitions, 100) == next(tick for tick in range(100) if clear(tick))


def test_a_scene_that_is_never_clear_begins_at_its_first_tick():
    early = Transition(name="d", kind="wipe", tick=5, ticks=20)
    assert first_clear_tick((OPENS, early), 100) == 0
    assert first_clear_tick((LATER,), 35) == 0
