"""Made-up fleets: closed cases drawn from the trees themselves with hidden true rates and rows."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

import numpy as np

from faultdoc.library.load import Library
from faultdoc.model.tree import Question
from faultdoc.record.closedcases import DEFAULT, Answered, Told
from faultdoc.record.learning import ANSWERS, VISITS

FIRST = datetime(2026, 1, 5, 8, 0, tzinfo=UTC)


@dataclass(frozen=True)
class Truth:
    """What is so in a fleet: each cause's share of the visits, and every row as answers show it."""

    shares: dict[str, float]
    rows: dict[tuple[str, str], np.ndarray]


def authored_shares(bench) -> dict[str, float]:
    """Return each cause's share of the visits by the rates as they are."""
    from faultdoc.diagnosis.belief import believe

    sets = bench.problem.sets
    marginal = believe(sets, []).marginal
    return dict(zip(sets.causes, (marginal / marginal.sum()).tolist(), strict=True))


def row_of(question: Question, row: str) -> np.ndarray:
    """Return an authored row as answers show it: with the slips."""
    p = np.array([question.given[row].p.get(outcome.id, 0.0) for outcome in question.outcomes])
    return (1.0 - question.slip) * p / p.sum() + question.slip / len(p)


def choices(bench, library: Library) -> list[Question]:
    """Return the choice questions of a bench, as authored."""
    return [library.questions[id] for id, one in bench.problem.questions.items() if one.check is None]


def as_believed(bench, library: Library) -> Truth:
    """Return a fleet in which every authored number is exactly right."""
    rows = {(q.id, row): row_of(q, row) for q in choices(bench, library) for row in q.given}
    return Truth(authored_shares(bench), rows)


def drawn(bench, library: Library, rng: np.random.Generator) -> Truth:
    """Return a fleet drawn from what the authored numbers are believed to be worth: from the priors."""
    believed = as_believed(bench, library)
    weights = {
        cause: rng.gamma(shape := VISITS[library.causes[cause].basis] * share, 1.0 / shape) * share
        for cause, share in believed.shares.items()
    }
    total = sum(weights.values())
    rows = {}
    for (question, row), p in believed.rows.items():
        strength = ANSWERS[library.questions[question].given[row].basis]
        rows[question, row] = rng.dirichlet(strength * p)
    return Truth({cause: weight / total for cause, weight in weights.items()}, rows)


def fleet(bench, library: Library, truth: Truth, cases: int, rng: np.random.Generator) -> list[Told]:
    """Return closed cases; which question comes next depends on the answer before, as a planner's would."""
    expected = authored_shares(bench)
    causes = list(truth.shares)
    p = np.array([truth.shares[cause] for cause in causes])
    asked = choices(bench, library)
    told = []
    for number in range(cases):
        cause = causes[rng.choice(len(causes), p=p)]
        answers = []
        place = int(rng.integers(len(asked)))
        for _ in range(6):
            question = asked[place]
            row = cause if cause in bench.problem.questions[question.id].given else DEFAULT
            if row in question.given:
                found = int(rng.choice(len(question.outcomes), p=truth.rows[question.id, row]))
                answers.append(Answered(question.id, row, question.outcomes[found].id))
            else:
                found = 0
            place = (place + 1 + 3 * found) % len(asked)
        told.append(
            Told(
                f"{number:032x}", f"Case {number}", f"unit_{number}", FIRST + timedelta(days=number), (cause,),
                expected, tuple({one.question: one for one in answers}.values()), (),
            )
        )  # fmt: skip
    return told
