"""Every shipped tree, played by its own numbers: each cause is found, and one wrong answer does not hide it."""

import numpy as np
import pytest

from faultdoc.checks.all import registry
from faultdoc.cli import _check_facts
from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.evidence import ChoiceEvidence
from faultdoc.diagnosis.hypotheses import Hypotheses
from faultdoc.diagnosis.likelihood import ChoiceModel, ResidualModel, residual_likelihood
from faultdoc.diagnosis.problem import Problem, pose
from faultdoc.library.lint import lint
from faultdoc.library.load import load_library, load_unit, units
from faultdoc.model.safety import Qualification

LIBRARY = load_library()
SHEETS = [load_unit(id) for id in units()]
PAIRS = [
    pytest.param(tree, sheet, id=f"{tree.id}-{sheet.id}")
    for tree in LIBRARY.trees.values()
    for sheet in SHEETS
    if set(tree.applies_to) <= set(sheet.features)
]


class Played:
    """A residual read off a question's check, with its usual meter; stands in for the check's result."""

    def __init__(self, question: str, model: ResidualModel, residual: float):
        self.questions = (question,)
        self.model, self.residual = model, residual

    def log_likelihood(self, sets: Hypotheses) -> np.ndarray:
        meter = np.array([[self.model.meter**2]])
        return np.log(residual_likelihood([self.model], np.array([self.residual]), meter, sets))


def best_set(problem: Problem, cause: str) -> int:
    """The likeliest set, before any answer, that holds a cause and brings the symptom about."""
    holding = problem.sets.holding(problem.sets.causes.index(cause))
    return int(np.where(holding, problem.sets.log_prior, -np.inf).argmax())


def usual_answers(problem: Problem, place: int) -> list:
    """The likeliest answer to every question where a set of causes is there."""
    one = problem.sets.only(np.array([place]))
    answers = []
    for id, model in problem.models.items():
        if isinstance(model, ChoiceModel):
            answers.append(ChoiceEvidence(id, int(model.table(one)[0].argmax()), model))
        else:
            answers.append(Played(id, model, float(model.moments(one)[0][0])))
    return answers


def drawn_answers(problem: Problem, place: int, rng: np.random.Generator) -> list:
    """Answers drawn from what the set of causes makes likely."""
    one = problem.sets.only(np.array([place]))
    answers = []
    for id, model in problem.models.items():
        if isinstance(model, ChoiceModel):
            row = model.table(one)[0]
            answers.append(ChoiceEvidence(id, int(rng.choice(len(row), p=row)), model))
        else:
            mean, variance = model.moments(one)
            answers.append(Played(id, model, float(rng.normal(mean[0], np.sqrt(variance[0] + model.meter**2)))))
    return answers


def made_wrong(answers: list, rng: np.random.Generator) -> list:
    """The same answers, one of them wrong: another outcome, or a residual of another cause."""
    k = int(rng.integers(len(answers)))
    one = answers[k]
    if isinstance(one, ChoiceEvidence):
        others = [x for x in range(len(one.model.default)) if x != one.outcome]
        wrong = ChoiceEvidence(one.question, int(rng.choice(others)), one.model)
    else:
        shifts = one.model.default_shift + np.append(one.model.shift[one.model.moved], 0.0)
        wrong = Played(one.questions[0], one.model, float(rng.choice(shifts)))
    return [*answers[:k], wrong, *answers[k + 1 :]]


def alike(cause: str) -> set[str]:
    """A cause and those declared equivalent to it."""
    known = LIBRARY.causes
    return {cause, *known[cause].same_as, *(other for other, one in known.items() if cause in one.same_as)}


def test_lint_has_nothing_to_say():
    assert [str(warning) for warning in lint(LIBRARY, _check_facts())] == []


@pytest.mark.parametrize(("tree", "sheet"), PAIRS)
def test_every_cause_is_found_by_its_usual_answers(tree, sheet):
    problem = pose([tree], LIBRARY.causes, sheet, registry, 2)
    lost = {}
    for cause in problem.sets.causes:
        belief = believe(problem.sets, usual_answers(problem, best_set(problem, cause)))
        found = max(belief.marginal[problem.sets.causes.index(one)] for one in alike(cause) & set(problem.causes))
        if found < 0.9:
            lost[cause] = round(float(found), 3)
    assert lost == {}


@pytest.mark.parametrize(("tree", "sheet"), PAIRS)
def test_one_wrong_answer_leaves_the_cause_in_the_first_three(tree, sheet):
    problem = pose([tree], LIBRARY.causes, sheet, registry, 2)
    rng = np.random.default_rng(7)
    plays = hits = 0
    for cause in problem.sets.causes:
        for _ in range(4):
            place = best_set(problem, cause)
            belief = believe(problem.sets, made_wrong(drawn_answers(problem, place, rng), rng))
            first_three = {problem.sets.causes[i] for i in np.argsort(-belief.marginal)[:3]}
            hits += bool(first_three & alike(cause))
            plays += 1
    assert hits >= 0.9 * plays, f"{hits} of {plays}"


@pytest.mark.parametrize("tree", LIBRARY.trees.values(), ids=list(LIBRARY.trees))
def test_both_registers_are_there_and_callers_need_nothing(tree):
    for question in tree.questions:
        assert question.ask.tech != question.ask.caller, question.id
        if question.who is Qualification.CALLER:
            assert not question.bring, question.id
