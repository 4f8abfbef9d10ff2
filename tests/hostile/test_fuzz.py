"""Some thousand hostile inputs at every door; `start.py bench hostile` feeds a hundred thousand, with limits."""

import pytest
from doors import DOORS
from mutate import mutated

from faultdoc.plain import plain

INPUTS = 2_500
SEED = 40_000_000
"""Another range than the bench's."""


@pytest.mark.parametrize("door", DOORS, ids=lambda door: door.name)
def test_a_door_takes_or_refuses_whatever_comes(door, tmp_path, monkeypatch):
    # Doors to one's own folder set it; it is put back.
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path))
    corpus = door.corpus()
    whole = sum(one.share for one in DOORS)
    taken, refused = 0, 0
    for seed in range(SEED, SEED + INPUTS * door.share // whole):
        data = mutated(seed, corpus)
        said = ""
        try:
            door.feed(data, tmp_path)
            taken += 1
        except door.refuses as refusal:
            refused += 1
            said = str(refusal)
        assert len(said) < 1_000_000, seed
        assert plain(said) == said, seed
    assert taken
    assert refused or not door.refuses


def test_the_same_seed_gives_the_same_input():
    corpus = DOORS[0].corpus()
    assert mutated(7, corpus) == mutated(7, corpus)
    assert len({mutated(seed, corpus) for seed in range(50)}) > 45


@pytest.mark.parametrize("door", DOORS, ids=lambda door: door.name)
def test_good_examples_are_let_in(door, tmp_path, monkeypatch):
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path))
    door.feed(door.corpus()[0][0], tmp_path)
