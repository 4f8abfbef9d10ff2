"""The best load against all loads there are (brute force), and how it moves with the limits."""

from itertools import chain, combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.record.packing import Cost, Job, Packing, Room, Thing, Wish

THINGS = [f"t{i}" for i in range(7)]
PEOPLE = [f"p{i}" for i in range(2)]


@st.composite
def packings(draw):
    """Up to seven things, two people, six jobs and eight wishes; weights on a grid, so that ties are ties."""
    things = [
        Thing(id, draw(st.integers(1, 20)) / 2, draw(st.integers(1, 20)) / 1000)
        for id in THINGS[: draw(st.integers(1, 7))]
    ]
    things += [Thing(id, person=True) for id in PEOPLE[: draw(st.integers(0, 2))]]
    ids = [thing.id for thing in things]
    needs = st.frozensets(st.sampled_from(ids), min_size=1, max_size=3)
    jobs = [Job(f"j{place}", tuple(draw(st.lists(needs, max_size=4)))) for place in range(draw(st.integers(1, 6)))]
    some = st.lists(st.sampled_from([job.id for job in jobs]), min_size=1, max_size=3, unique=True)
    parts = draw(st.lists(st.integers(1, 40), min_size=1, max_size=8))
    whole = sum(parts) + draw(st.integers(0, 20))
    wishes = [Wish(part / whole, tuple(draw(some))) for part in parts]
    return Packing(tuple(things), tuple(jobs), tuple(wishes))


rooms = st.builds(
    Room,
    st.integers(0, 60),
    st.integers(0, 60).map(lambda litres: litres / 1000),
    st.integers(0, 8),
    st.integers(0, 2),
)


def served(packing, load):
    """The chance in the plainest way."""
    needs = {job.id: job.needs for job in packing.jobs}
    return sum(
        wish.weight for wish in packing.wishes if all(need & load for job in wish.jobs for need in needs[job])
    )


def all_loads(packing, room, without=frozenset()):
    """Every load within the limits, with its chance and cost."""
    ids = [thing.id for thing in packing.things if thing.id not in without]
    for load in chain.from_iterable(combinations(ids, size) for size in range(len(ids) + 1)):
        cost = packing.cost(load)
        if not cost.over(room):
            yield served(packing, frozenset(load)), cost


@settings(max_examples=250, deadline=None, derandomize=True)
@given(packings(), rooms, st.sampled_from([0.0, 0.0, 0.03]), st.sampled_from([frozenset(), frozenset({"t0"})]))
def test_the_best_load_is_that_of_brute_force(packing, room, tie, without):
    found = packing.best(room, tie, without)
    loads = list(all_loads(packing, room, without))
    most = max(chance for chance, _ in loads)
    assert not found & without
    assert packing.cost(found).over(room) == ()
    assert packing.chance(found) == pytest.approx(served(packing, found), abs=1e-12)
    assert packing.chance(found) >= most - tie - 1e-9
    cheapest = min(cost for chance, cost in loads if chance >= most - tie - 1e-9)
    cost = packing.cost(found)
    assert (cost.people, cost.items) == (cheapest.people, cheapest.items)
    assert (cost.mass, cost.volume) == pytest.approx((cheapest.mass, cheapest.volume), abs=1e-9)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(packings(), rooms, st.sampled_from(["mass", "volume", "items", "people"]))
def test_more_room_never_makes_it_worse(packing, room, name):
    more = Room(**{**room.__dict__, name: getattr(room, name) + 1})
    assert packing.chance(packing.best(more)) >= packing.chance(packing.best(room)) - 1e-9


@settings(max_examples=60, deadline=None, derandomize=True)
@given(packings(), st.data())
def test_more_things_never_make_it_worse(packing, data):
    ids = [thing.id for thing in packing.things]
    load = data.draw(st.frozensets(st.sampled_from(ids)))
    more = load | {data.draw(st.sampled_from(ids))}
    assert packing.chance(more) >= packing.chance(load)


def test_of_equal_loads_the_lighter_goes():
    things = (Thing("heavy", 5.0, 0.001), Thing("light", 1.0, 0.9), Thing("idle", 0.1, 0.001))
    packing = Packing(things, (Job("mend", (frozenset({"heavy", "light"}),)),), (Wish(0.8, ("mend",)),))
    assert packing.best(Room(10.0, 1.0, 9, 0)) == {"light"}
    assert packing.best(Room(10.0, 0.5, 9, 0)) == {"heavy"}
    assert packing.best(Room(0.5, 0.5, 9, 0)) == frozenset()


def test_a_tie_lets_small_gains_stay_behind():
    things = (Thing("a", 1.0), Thing("b", 50.0))
    jobs = (Job("often", (frozenset({"a"}),)), Job("seldom", (frozenset({"b"}),)))
    packing = Packing(things, jobs, (Wish(0.9, ("often",)), Wish(0.004, ("seldom",))))
    assert packing.best(Room(99.0, 9.0, 9, 0)) == {"a", "b"}
    assert packing.best(Room(99.0, 9.0, 9, 0), tie=0.005) == {"a"}


def test_nothing_can_be_served():
    packing = Packing((Thing("a"),), (Job("never", (frozenset(),)),), (Wish(1.0, ("never",)),))
    assert packing.best(Room(9.0, 9.0, 9, 9)) == frozenset()
    assert packing.chance({"a"}) == 0.0


def test_limits_that_are_broken_are_named():
    room = Room(10.0, 0.1, 2, 1)
    assert Cost(2, 11.0, 3, 0.2).over(room) == ("mass", "volume", "items", "people")
    assert Cost(1, 10.0, 2, 0.1).over(room) == ()


def test_a_name_that_is_not_known_is_refused():
    with pytest.raises(KeyError):
        Packing((Thing("a"),), (Job("mend", (frozenset({"b"}),)),), ())
