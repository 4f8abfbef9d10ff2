"""Somebody presses anything: no exception, no lost answer, no window without a way on.

Here 2,000 events; `start.py bench walk` does 20,000 with the same checks.
"""

import pytest

from faultdoc.library.places import resources_folder
from tests.app.walker import RandomUser, walk

EVENTS, SEEDS = 250, range(8)


@pytest.mark.slow
@pytest.mark.parametrize("seed", SEEDS)
def test_pressing_anything_breaks_and_loses_nothing(shipped, seed):
    window = shipped.window
    user = RandomUser(window, seed)
    looked = walk(window, user, sorted((resources_folder() / "cases").glob("*.yaml"))[seed % 6], EVENTS)
    assert looked == EVENTS // 125
    bad = [words for severity, words in shipped.told if "Something went wrong" in words]
    assert bad == [], user.log[-20:]
