"""The planner against hand and brute-force optima on small problems."""

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from problems import catalogue, cause, choice_question, random_tree, tree

from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.planner import Situation, crew, plan
from faultdoc.diagnosis.problem import pose
from faultdoc.library.load import load_plant, load_unit
from faultdoc.model.safety import PlantState, Qualification
from faultdoc.model.tree import Tree

SHEET = load_unit("bluff_30")
PLANT = load_plant()
STANDING = PlantState(
    supply="energised", panel="closed", pump="stopped", water="pressurised", compressors="stopped", oil="warm"
)
EVERYONE = frozenset(Qualification)


def planned(made, *, size=1, who=EVERYONE, state=STANDING, open_questions=None, tried=(), plant=PLANT):
    problem = pose([made], catalogue(made), SHEET, {}, size)
    belief = believe(problem.sets, [])
    team = crew(problem, plant, who, SHEET.oil_warm_up / 60)
    asked = list(problem.questions) if open_questions is None else open_questions
    return problem, belief, plan(problem, belief.weights, team, Situation(state, frozenset(tried)), asked)


@settings(deadline=None, max_examples=40)
@given(seed=st.integers(0, 2**32 - 1))
def test_probability_over_cost_is_the_best_order(seed):
    """Single fault, independent actions: trying by p/c is optimal (Kadane and Simon 1977)."""
    rng = np.random.default_rng(seed)
    rates, minutes = rng.uniform(1, 100, 5), rng.uniform(1, 60, 5)
    causes = [
        cause(f"c{i}x", float(rates[i]), minutes=float(minutes[i]), holds=1.0,
              proof={"text": "t", "points": ["water_flow"], "minutes": 0.0, "state": {}, "who": "caller"})
        for i in range(5)
    ]  # fmt: skip
    made = tree([{"id": "top_event", "title": "t", "any": [f"c{i}x" for i in range(5)]}], causes, [])
    problem, belief, found = planned(made)
    p = np.array([belief.marginal[problem.sets.causes.index(f"c{i}x")] for i in range(5)])

    def expected(order):
        left, total = 1.0, 0.0
        for i in order:
            total += left * minutes[i]
            left -= p[i]
        return total

    best = min(permutations(range(5)), key=expected)
    assert found.repair_now == pytest.approx(expected(best), rel=1e-6)
    assert found.best.id == f"c{best[0]}x"


def test_a_cheap_telling_question_comes_before_a_dear_remedy():
    told = {"default": (1.0, 0.0), "ca": (0.0, 1.0)}
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb"]}],
        [cause("ca", 10.0, minutes=60.0), cause("cb", 10.0, minutes=60.0)],
        [choice_question("cheap_look", 2, told, minutes=1.0), choice_question("dear_look", 2, told, minutes=59.0)],
    )
    _, _, found = planned(made)
    assert (found.best.kind, found.best.id) == ("question", "cheap_look")
    assert found.best.expected_minutes < found.repair_now
    assert found.best.bits == pytest.approx(1.0, abs=0.2)


def test_a_cheap_remedy_is_tried_rather_than_asked_about():
    told = {"default": (1.0, 0.0), "ca": (0.0, 1.0)}
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb"]}],
        [cause("ca", 100.0, minutes=0.5), cause("cb", 10.0, minutes=60.0)],
        [choice_question("dear_look", 2, told, minutes=30.0)],
    )
    _, _, found = planned(made)
    assert (found.best.kind, found.best.id) == ("remedy", "ca")


def test_isolating_for_a_question_is_charged_with_the_warm_up():
    told = {"default": (1.0, 0.0), "ca": (0.0, 1.0)}
    inside = {"supply": "isolated", "panel": "open"}
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb"]}],
        [cause("ca", 10.0, minutes=90.0), cause("cb", 10.0, minutes=90.0)],
        [
            choice_question("inside_look", 2, told, minutes=1.0, state=inside, who="electrical_worker"),
            choice_question("outside_look", 2, told, minutes=15.0),
        ],
    )
    _, _, found = planned(made)
    assert found.best.id == "outside_look"
    inside_option = next(option for option in found.options if option.id == "inside_look")
    assert inside_option.expected_minutes - found.best.expected_minutes > SHEET.oil_warm_up / 60 - 60


def test_the_warm_up_is_charged_once():
    """Power already off and oil cold: looking inside costs no further warm-up."""
    told = {"default": (1.0, 0.0), "ca": (0.0, 1.0)}
    inside = {"supply": "isolated", "panel": "open"}
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb"]}],
        [cause("ca", 10.0, minutes=60.0), cause("cb", 10.0, minutes=60.0)],
        [choice_question("inside_look", 2, told, minutes=1.0, state=inside, who="electrical_worker")],
    )
    off = PlantState.model_validate(
        {**STANDING.model_dump(), "supply": "isolated", "panel": "open", "oil": "cold"}
    )
    _, _, found = planned(made, state=off)
    assert found.best.id == "inside_look"
    assert found.best.path == ()


def test_what_nobody_here_may_do_costs_a_visit():
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca"]}],
        [cause("ca", 10.0, who="electrical_worker", state={"supply": "isolated"})],
        [],
    )
    _, _, alone = planned(made, who=frozenset({Qualification.CALLER}))
    _, _, together = planned(made)
    assert alone.best.visit
    assert not together.best.visit
    assert alone.expected_minutes == pytest.approx(together.expected_minutes + PLANT.visit_minutes)


def test_questions_beyond_the_people_here_are_not_options():
    told = {"default": (1.0, 0.0), "ca": (0.0, 1.0)}
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb"]}],
        [cause("ca", 10.0), cause("cb", 10.0)],
        [
            choice_question("anyone_look", 2, told, who="caller"),
            choice_question("tech_look", 2, told, who="technician"),
        ],
    )
    _, _, found = planned(made, who=frozenset({Qualification.CALLER}))
    assert [option.id for option in found.options if option.kind == "question"] == ["anyone_look"]


def test_a_remedy_already_tried_is_not_proposed_again():
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb"]}], [cause("ca", 90.0), cause("cb", 1.0)], []
    )
    _, _, found = planned(made, tried=["ca"])
    assert [option.id for option in found.options] == ["cb"]
    _, _, nothing = planned(made, tried=["ca", "cb"])
    assert nothing.best is None
    assert nothing.expected_minutes == PLANT.give_up_minutes


@settings(deadline=None, max_examples=25)
@given(seed=st.integers(0, 2**32 - 1))
def test_bits_are_the_fall_in_entropy(seed):
    """Over which single cause it is, computed another way: H(C) - sum over outcomes of P(o) H(C | o)."""
    rng = np.random.default_rng(seed)
    made = random_tree(rng, causes=4, questions=3)
    singles = Tree.model_validate(
        {**made.model_dump(mode="json", exclude_none=True), "events": [
            {"id": "top_event", "title": "t", "any": [one.id for one in made.causes]}], "conditions": []}
    )  # fmt: skip
    problem, belief, found = planned(singles, size=1)

    def entropy(weights):
        weights = weights[weights > 0]
        return -(weights * np.log2(weights)).sum()

    asked = [option for option in found.options if option.kind == "question"]
    assert len(asked) == 3
    for option in asked:
        joint = problem.models[option.id].table(problem.sets) * belief.weights[:, None]
        chance = joint.sum(axis=0)
        after = sum(p * entropy(column / p) for p, column in zip(chance, joint.T, strict=True))
        assert option.bits == pytest.approx(entropy(belief.weights) - after, abs=1e-9)


def test_spread_is_the_standard_deviation_of_the_total():
    """Three causes tried in a known order: mean and standard deviation by hand."""
    minutes, rates = [10.0, 30.0, 60.0], [40.0, 20.0, 10.0]
    causes = [
        cause(f"c{i}x", rates[i], minutes=minutes[i], holds=1.0,
              proof={"text": "t", "points": ["water_flow"], "minutes": 0.0, "state": {}, "who": "caller"})
        for i in range(3)
    ]  # fmt: skip
    made = tree([{"id": "top_event", "title": "t", "any": ["c0x", "c1x", "c2x"]}], causes, [])
    _, belief, found = planned(made)
    totals = np.cumsum(minutes)
    mean = belief.marginal @ totals
    assert found.expected_minutes == pytest.approx(mean)
    assert found.spread == pytest.approx(np.sqrt(belief.marginal @ (totals - mean) ** 2))
    assert found.repair_spread == pytest.approx(found.spread)


def situated(made, now, **changes):
    problem = pose([made], catalogue(made), SHEET, {}, 1)
    team = crew(problem, PLANT, EVERYONE, SHEET.oil_warm_up / 60)
    return plan(problem, believe(problem.sets, []).weights, team, now, list(problem.questions), **changes)


def two_looks(**changes):
    told = {"default": (1.0, 0.0), "ca": (0.0, 1.0)}
    return tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb"]}],
        [cause("ca", 10.0, minutes=60.0), cause("cb", 10.0, minutes=60.0)],
        [
            choice_question("near_look", 2, told, minutes=1.0),
            choice_question("far_look", 2, told, minutes=1.0, **changes),
        ],
    )  # fmt: skip


def minutes_of(found):
    return {option.id: option.minutes for option in found.options if option.kind == "question"}


def test_walking_between_places_counts():
    made = two_looks(place="load")
    assert minutes_of(situated(made, Situation(STANDING)))["far_look"] == 1.0
    there = minutes_of(situated(made, Situation(STANDING, place="load")))
    assert there["far_look"] == 1.0
    # By way of the water connections and the hoses: 0.5 + 1 + 4 in resources/plant.yaml.
    here = situated(made, Situation(STANDING, place="front"))
    assert minutes_of(here)["far_look"] == pytest.approx(1.0 + 0.5 + 1.0 + 4.0)
    assert here.best.id == "near_look"


def test_an_instrument_is_fetched_once():
    made = two_looks(bring=["flow_meter"])
    assert minutes_of(situated(made, Situation(STANDING)))["far_look"] == pytest.approx(16.0)
    at_hand = Situation(STANDING, at_hand=frozenset({"flow_meter"}))
    assert minutes_of(situated(made, at_hand))["far_look"] == 1.0


def test_a_device_is_reset_only_so_often():
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb", "cc"]}],
        [cause("ca", 50.0, resets="pump_overload"), cause("cb", 5.0, resets="pump_overload"), cause("cc", 1.0)],
        [],
    )
    fresh = situated(made, Situation(STANDING))
    assert [option.id for option in fresh.options] == ["ca", "cb", "cc"]
    used = situated(made, Situation(STANDING, tried=frozenset({"ca"}), resets={"pump_overload": 1}))
    assert [option.id for option in used.options] == ["cc"]
    assert used.expected_minutes > fresh.expected_minutes


def test_looking_further_ahead_finds_two_questions_that_only_tell_together():
    """Neither answer alone moves anything worth its minutes; both together settle it."""
    ids = ["ca", "cb", "cc", "cd"]
    first = {"default": (1.0, 0.0), "ca": (0.0, 1.0), "cb": (0.0, 1.0)}
    second = {"default": (1.0, 0.0), "ca": (0.0, 1.0), "cc": (0.0, 1.0)}
    made = tree(
        [{"id": "top_event", "title": "t", "any": ids}],
        [cause(id, 10.0, minutes=20.0) for id in ids],
        [
            choice_question("first_look", 2, first, minutes=14.0),
            choice_question("second_look", 2, second, minutes=14.0),
        ],
    )  # fmt: skip
    near, far = situated(made, Situation(STANDING)), situated(made, Situation(STANDING), depth=2)
    assert far.expected_minutes <= near.expected_minutes + 1e-9
    assert far.best.kind == "question"


@pytest.mark.parametrize("depth", [2, 3])
def test_looking_further_ahead_never_prices_higher(depth):
    rng = np.random.default_rng(5)
    for seed in range(5):
        made = random_tree(np.random.default_rng(seed), causes=4, questions=3)
        now = Situation(STANDING, place=str(rng.choice(["front", "load"])))
        near, far = situated_any(made, now, 1), situated_any(made, now, depth)
        priced = {option.id: option.expected_minutes for option in near.options}
        for option in far.options:
            assert option.expected_minutes <= priced[option.id] + 1e-6


def situated_any(made, now, depth):
    problem = pose([made], catalogue(made), SHEET, {}, 2)
    team = crew(problem, PLANT, EVERYONE, SHEET.oil_warm_up / 60)
    return plan(problem, believe(problem.sets, []).weights, team, now, list(problem.questions), depth)


def two_dear_causes(**work):
    """Two causes that only others may mend, and a question that tells them apart."""
    told = {"default": (0.95, 0.05), "ca": (0.05, 0.95)}
    return tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb"]}],
        [cause("ca", 10.0, who="refrigerant_handler"), cause("cb", 10.0, who="refrigerant_handler")],
        [choice_question("look", 2, told, **work)],
    )


def test_before_someone_is_sent_for_what_tells_a_lot_for_little_is_asked():
    caller = frozenset({Qualification.CALLER})
    assert planned(two_dear_causes(minutes=2.0, who="caller"), who=caller)[2].best.id == "look"
    # Not for its own sake: a long search that tells the same is left to who comes.
    assert planned(two_dear_causes(minutes=60.0, who="caller"), who=caller)[2].best.visit


def test_dangers_are_asked_about_in_the_order_of_their_file():
    told = {"default": (0.99, 0.01)}
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca", "cb"]}],
        [cause("ca", 10.0), cause("cb", 10.0)],
        [
            choice_question("smoke_seen", 2, told, minutes=9.0, first=True),
            choice_question("oil_seen", 2, told, minutes=1.0, first=True),
        ],
    )
    found = planned(made)[2]
    assert [one.id for one in found.options[:2]] == ["smoke_seen", "oil_seen"]


def test_the_walk_to_the_remedy_counts_after_a_question_too():
    """At the remedy's place, a question there and back costs both ways; that of the remedy alone is one."""
    made = tree(
        [{"id": "top_event", "title": "t", "any": ["ca"]}],
        [cause("ca", 10.0, place="front")],
        [choice_question("far_look", 2, {"default": (0.5, 0.5)}, minutes=1.0, place="load")],
    )
    found = situated(made, Situation(STANDING, place="front"))
    far = next(one for one in found.options if one.id == "far_look")
    remedy = next(one for one in found.options if one.id == "ca")
    walk = 0.5 + 1.0 + 4.0  # front, water connections, hoses, load
    assert far.expected_minutes == pytest.approx(remedy.expected_minutes + 1.0 + 2.0 * walk)
