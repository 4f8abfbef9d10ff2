"""Orders of remedies that ask nothing, against the policies and the planner's own pricing of tests/diagnosis."""

import sys
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "diagnosis"))
from optimum import fixed
from problems import catalogue, cause, tree
from test_optimum import PLANT, STANDING, bed_of, random_bed

from faultdoc.diagnosis.assess import bench_for
from faultdoc.diagnosis.planner import Situation, crew, plan
from faultdoc.library.load import load_library, load_unit
from faultdoc.model.safety import Qualification
from faultdoc.practice.simple import Order, likely, minutes_taken, order_of, per_minute, quick


def prior(problem):
    weights = np.exp(problem.sets.log_prior - problem.sets.log_prior.max())
    return weights / weights.sum()


def expected(bed, order):
    """Mean of an order's minutes over what may be hidden, by the rates; some remedies do not hold."""
    problem, total = bed.problem, 0.0
    lost = order.until[order.stop] + order.back[order.stop] + order.give_up
    for place, id in enumerate(problem.sets.causes):
        weight = prior(problem)[problem.sets.holding(place)].sum()
        holds = problem.causes[id].remedy.holds
        total += weight * (holds * minutes_taken(order, [{id}]) + (1 - holds) * lost)
    return total


def most_likely_to_hold(bed, weights, moves):
    problem = bed.problem
    return max(
        (move for move in moves if move.kind == "remedy"),
        key=lambda move: (
            weights[problem.sets.holding(problem.sets.causes.index(move.id))].sum()
            * problem.causes[move.id].remedy.holds
        ),
    )


@pytest.mark.parametrize("seed", range(6))
def test_an_order_never_given_up_costs_what_exact_recursion_over_it_costs(seed):
    bed = random_bed(seed)
    order = order_of(bed.problem, bed.team, Situation(STANDING), likely, gives_up=False)
    assert order.stop == len(bed.problem.causes)
    assert expected(bed, order) == pytest.approx(fixed(bed, STANDING, most_likely_to_hold), rel=1e-9)


@pytest.mark.parametrize(("give_up", "stop"), [(20, 0), (60, None), (150, None), (1440, 4)])
def test_most_probable_per_minute_costs_what_the_planner_says_of_repair_without_questions(give_up, stop):
    plant = PLANT.model_copy(update={"give_up_minutes": give_up})
    stops = set()
    for seed in range(12):
        bed = random_bed(seed)
        bed = replace(bed, team=replace(bed.team, plant=plant))
        order = order_of(bed.problem, bed.team, Situation(STANDING), per_minute)
        theirs = plan(bed.problem, prior(bed.problem), bed.team, Situation(STANDING), [])
        assert expected(bed, order) == pytest.approx(theirs.repair_now, rel=1e-9)
        stops.add(order.stop)
    # It gives up at once where that is cheap, and never before the end where it is dear.
    assert stop is None or stop in stops


def test_minutes_by_hand():
    order = Order(("a", "b", "c"), np.array([0.0, 10, 30, 60]), np.array([5.0, 5, 20, 1]), 2, 100.0)
    assert minutes_taken(order, [{"a"}]) == 10 + 5
    assert minutes_taken(order, [{"b", "twin_of_b"}]) == 30 + 20
    assert minutes_taken(order, [{"b"}, {"a"}]) == 30 + 20
    given_up = 30 + 20 + 100
    assert minutes_taken(order, [{"c"}]) == minutes_taken(order, [{"a"}, {"c"}]) == given_up
    assert minutes_taken(replace(order, stop=0), [{"a"}]) == 0 + 5 + 100
    assert minutes_taken(replace(order, stop=3), [{"c"}]) == 60 + 1


def test_the_rules_order_as_they_say():
    # Price with proof: 5 min more each; rates in proportion to the chances.
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["rare_quick", "often_slow", "middling"]}],
        [cause("rare_quick", 1, minutes=1), cause("often_slow", 6, minutes=95), cause("middling", 3, minutes=10)],
        [],
    )
    bed = bed_of(made, catalogue(made), warm_up=60.0)

    def order(rule):
        return order_of(bed.problem, bed.team, Situation(STANDING), rule).causes

    assert order(quick) == ("rare_quick", "middling", "often_slow")
    assert order(likely) == ("often_slow", "middling", "rare_quick")
    # 3 in 15, 1 in 6, 6 in 100.
    assert order(per_minute) == ("middling", "rare_quick", "often_slow")


def test_walks_are_paid_and_a_device_is_reset_no_more_often_than_it_may():
    library, sheet = load_library(), load_unit("marten_60")
    bench = bench_for(library, sheet, ("compressor_protection",))
    team = crew(bench.problem, library.plant, frozenset(Qualification), sheet.oil_warm_up / 60)
    start = Situation(STANDING, place="front")
    order = order_of(bench.problem, team, start, per_minute, gives_up=False)
    devices = [bench.problem.causes[id].remedy.resets for id in order.causes]
    limits = library.plant.reset_limits
    assert any(device in limits for device in devices)
    assert all(devices.count(device) <= limit for device, limit in limits.items())
    left_out = set(bench.problem.sets.causes) - set(order.causes)
    assert all(bench.problem.causes[id].remedy.resets in devices for id in left_out)
    walks = [bench.problem.causes[id].remedy.place for id in order.causes]
    paid, here = 0.0, "front"
    for place in walks:
        paid += team.walks[here][place] if place else 0.0
        here = place or here
    free = team.plant.model_copy(
        update={"walks": tuple(one.model_copy(update={"minutes": 0.0}) for one in team.plant.walks)}
    )
    # The order itself does not look at walks.
    unpaid = order_of(bench.problem, replace(team, plant=free), start, per_minute, gives_up=False)
    assert unpaid.causes == order.causes
    assert order.until[-1] - unpaid.until[-1] == pytest.approx(paid)
    assert paid > 0
