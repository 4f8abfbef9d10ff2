"""The planner against the exhaustive optimum, and against simpler rules."""

import numpy as np
import pytest
from bounds import bounded
from optimum import Bed, fixed, optimal, optimal_by_recursion, planned, prices_of
from problems import catalogue, cause, choice_question, tree

from faultdoc.diagnosis.graph import causes_of, fault_graph
from faultdoc.diagnosis.planner import crew
from faultdoc.diagnosis.problem import pose
from faultdoc.library.load import load_library, load_plant, load_unit
from faultdoc.model.safety import PlantState, Qualification
from faultdoc.model.tree import Tree

SHEET = load_unit("bluff_30")
PLANT = load_plant()
SHIPPED = load_library().trees
STANDING = PlantState.model_validate(
    {"supply": "energised", "panel": "closed", "pump": "stopped", "water": "pressurised",
     "compressors": "stopped", "oil": "warm"}
)  # fmt: skip
NEEDS = [{}, {"pump": "running"}, {"pump": "stopped"}, {"water": "depressurised"},
         {"supply": "isolated", "panel": "open"}]  # fmt: skip


def random_bed(seed, causes=4, questions=3):
    """Remedies and questions of all minutes and plant states, answers more or less telling."""
    rng = np.random.default_rng(seed)
    ids = [f"c{i}x" for i in range(causes)]

    def need():
        return NEEDS[rng.choice(5, p=[0.35, 0.25, 0.15, 0.15, 0.1])]

    made_causes = [
        cause(
            id,
            float(rng.uniform(1, 60)),
            minutes=float(rng.uniform(1, 60)),
            state=need(),
            who="electrical_worker",
            holds=float(rng.uniform(0.8, 1)),
            proof={
                "text": "t",
                "points": ["water_flow"],
                "minutes": 2.0,
                "state": {"pump": "running"},
                "who": "crew",
            },
        )
        for id in ids
    ]
    made_questions = []
    for q in range(questions):
        size = int(rng.integers(2, 4))
        moved = rng.choice(ids, int(rng.integers(1, causes)), replace=False)
        rows = {str(row): rng.dirichlet(np.full(size, 0.4)) for row in ["default", *moved]}
        work = {"minutes": float(rng.uniform(0.5, 15)), "state": need(), "who": "electrical_worker"}
        made_questions.append(choice_question(f"q{q}x", size, rows, **work))
    made = tree([{"id": "top_event", "title": "t", "any": ids}], made_causes, made_questions)
    return bed_of(made, catalogue(made), warm_up=60.0)


def bed_of(made, causes, warm_up):
    problem = pose([made], causes, SHEET, {}, 1)
    return Bed(problem, crew(problem, PLANT, frozenset(Qualification), warm_up))


def ratios(beds):
    return np.array([planned(bed, STANDING, 1e-7) / optimal(bed, STANDING) for bed in beds])


@pytest.mark.parametrize("seed", range(4))
def test_the_table_of_optima_equals_plain_recursion(seed):
    bed = random_bed(seed)
    assert optimal(bed, STANDING) == pytest.approx(optimal_by_recursion(bed, STANDING), rel=1e-9)


@pytest.mark.parametrize("most_cells", [0.0, 1e7], ids=["pairs", "groups of four"])
@pytest.mark.parametrize("seed", range(10))
def test_the_search_finds_the_optimum_of_the_table(seed, most_cells):
    bed = random_bed(seed, causes=4 if most_cells else 5)
    found = bounded(prices_of(bed, STANDING), most_cells=most_cells)
    best = optimal(bed, STANDING)
    assert found.low == pytest.approx(best, rel=1e-9)
    assert found.high == pytest.approx(best, rel=1e-9)


@pytest.mark.parametrize("tree", list(SHIPPED.values())[:4], ids=list(SHIPPED)[:4])
def test_the_search_stopped_early_has_the_optimum_between_its_bounds(tree):
    made = cut_down(tree, 5, 4, seed=1)
    bed = bed_of(made, catalogue(made), SHEET.oil_warm_up / 60)
    best, prices = optimal(bed, STANDING), prices_of(bed, STANDING)
    rounding = 1e-9 * best
    wide = np.inf
    for most_nodes in (1, 10, 100):
        found = bounded(prices, most_nodes=most_nodes)
        assert found.low - rounding <= best <= found.high + rounding
        assert found.high - found.low <= wide + rounding
        wide = found.high - found.low


def test_close_to_the_optimum_on_random_problems():
    found = ratios(random_bed(seed) for seed in range(100))
    assert found.min() >= 1.0 - 1e-9
    assert found.mean() <= 1.05
    assert found.max() <= 1.25


def cut_down(shipped: Tree, causes: int, questions: int, seed: int) -> Tree:
    """A shipped tree with some of its causes under one gate and some of its choice questions."""
    rng = np.random.default_rng(seed)
    library = load_library()
    reached = causes_of(fault_graph([shipped], library.causes, SHEET.features))
    fitting = [library.causes[id] for id in reached]
    kept = [fitting[i] for i in sorted(rng.choice(len(fitting), causes, replace=False))]
    ids = {one.id for one in kept}
    telling = [
        one
        for one in shipped.questions
        if one.outcomes and ids & set(one.given) and set(one.only_with) <= set(SHEET.features)
    ]
    asked = [telling[i] for i in sorted(rng.choice(len(telling), questions, replace=False))]
    data = shipped.model_dump(mode="json", exclude_none=True)
    return Tree.model_validate(
        {
            **data,
            "top": "top_event",
            "events": [{"id": "top_event", "title": "t", "any": sorted(ids)}],
            "conditions": [],
            "causes": [one.model_dump(mode="json", exclude_none=True) for one in kept],
            "questions": [one.model_dump(mode="json", exclude_none=True) for one in asked],
        }
    )


@pytest.mark.parametrize("tree", SHIPPED.values(), ids=list(SHIPPED))
def test_close_to_the_optimum_on_shipped_trees_cut_down(tree):
    """Six causes and five questions of every tree; the bench prints the ratios."""
    made = cut_down(tree, 6, 5, seed=0)
    found = ratios([bed_of(made, catalogue(made), SHEET.oil_warm_up / 60)])
    assert 1.0 - 1e-9 <= found[0] <= 1.25


def fixed_order(bed, weights, moves):
    """Ask all that can be asked as the file has it, then mend as the file has it."""
    return moves[0]


def most_likely_first(bed, weights, moves):
    """Never ask; mend what is most likely."""
    remedies = [move for move in moves if move.kind == "remedy"]
    return max(remedies, key=lambda move: weights[bed.problem.sets.causes.index(move.id)])


def most_bits_first(bed, weights, moves):
    """Ask what tells most, whatever it costs, until nothing tells a tenth of a bit; then mend by likelihood."""

    def bits(id):
        joint = bed.problem.outcome_table(id) * weights[:, None]
        chance = joint.sum(axis=0)
        return (joint * np.log2(joint / (weights[:, None] * chance + 1e-300) + 1e-300)).sum()

    questions = [move for move in moves if move.kind == "question"]
    best = max(questions, key=lambda move: bits(move.id), default=None)
    if best is not None and bits(best.id) > 0.1:
        return best
    return most_likely_first(bed, weights, moves)


RULES = [fixed_order, most_likely_first, most_bits_first]


@pytest.mark.parametrize("rule", RULES, ids=[rule.__name__ for rule in RULES])
def test_cheaper_than_simpler_rules(rule):
    beds = [random_bed(seed) for seed in range(20)]
    found = np.array([planned(bed, STANDING) / fixed(bed, STANDING, rule) for bed in beds])
    assert found.mean() < 0.97
    assert found.max() < 1.03
