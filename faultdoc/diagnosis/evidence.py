"""From a case and its checks to pieces of evidence, each reading counted once.

A piece of evidence is either one choice answer, or a group of checks whose results lean on common
inputs. Two checks that rest on one reading, or on one curve of the data sheet, share its
error, so they are judged jointly with the covariance that the checks' effects give; the same
check asked by two questions is one. A choice answer about a point whose number was read and
checked says nothing beyond the number, and is left out.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass

import networkx as nx
import numpy as np

from faultdoc.checks.base import CheckResult
from faultdoc.diagnosis.hypotheses import Floats, Hypotheses
from faultdoc.diagnosis.likelihood import (
    Bound,
    ChoiceModel,
    ResidualModel,
    residual_bound,
    residual_likelihood,
)
from faultdoc.model.tree import Question
from faultdoc.words import say

__all__ = [
    "ChoiceEvidence",
    "Evidence",
    "FixEvidence",
    "Mended",
    "Models",
    "ResidualEvidence",
    "Try",
    "fix_evidence",
    "gather",
]

BY_CHANCE = 0.02
"""Probability that a proof shows the opposite of the truth; an estimate."""

Models = Mapping[str, ChoiceModel | ResidualModel]
"""By question id."""


@dataclass(frozen=True)
class Mended:
    """Remedies carried out before an answer was taken: the causes' indices, and how often such remedies hold.

    What was seen afterwards speaks of the causes that were left. Where several remedies were tried they are
    taken to have cleared all of their causes, or none: with the chance that all did.
    """

    causes: tuple[int, ...] = ()
    holds: float = 1.0

    def mixed(self, sets: Hypotheses, of: Callable[[Hypotheses], Floats]) -> Floats:
        """Return a value per set, shape (H,), over whether the remedies cleared their causes."""
        if not self.causes:
            return of(sets)
        return self.holds * of(sets.without(self.causes)) + (1.0 - self.holds) * of(sets)


@dataclass(frozen=True)
class ChoiceEvidence:
    """An answered choice question."""

    question: str
    outcome: int
    model: ChoiceModel
    mended: Mended = Mended()

    @property
    def questions(self) -> tuple[str, ...]:
        """The questions this rests on."""
        return (self.question,)

    def log_likelihood(self, sets: Hypotheses) -> Floats:
        """Return log P(outcome | set), shape (H,)."""
        logs: Floats
        if self.mended.causes:
            logs = np.log(self.mended.mixed(sets, lambda left: self.model.table(left)[:, self.outcome]))
        else:
            logs = self.model.log_table(sets)[self.outcome]
        return logs

    def bounds(self) -> list[Bound]:
        """Return bounds on P(outcome | S) that hold for every set S."""
        bounds = self.model.bounds(self.outcome)
        if not self.mended.causes:
            return bounds
        # A cause that may be gone bounds by its own factor or by one, whichever is more.
        gone = np.isin(np.arange(len(self.model.moved)), self.mended.causes)
        return [
            Bound(one.log_common, np.where(gone, np.maximum(one.log_ratio, 0.0), one.log_ratio)) for one in bounds
        ]

    def surprise(self, sets: Hypotheses) -> Floats:
        """Return per set the probability of an outcome no more likely than the one seen, shape (H,)."""

        def tail(left: Hypotheses) -> Floats:
            table = self.model.table(left)
            seen = table[:, self.outcome][:, None]
            rarer: Floats = np.where(table <= seen * (1 + 1e-12), table, 0.0).sum(axis=1)
            return rarer

        return self.mended.mixed(sets, tail)


@dataclass(frozen=True)
class ResidualEvidence:
    """Checks made, judged jointly."""

    questions: tuple[str, ...]
    results: tuple[CheckResult, ...]
    models: tuple[ResidualModel, ...]
    meter_covariance: Floats
    mended: Mended = Mended()

    @property
    def _residuals(self) -> Floats:
        return np.array([result.residual for result in self.results])

    def likelihood(self, sets: Hypotheses) -> Floats:
        """Return the joint density of the residuals for each set, shape (H,)."""
        return self.mended.mixed(
            sets, lambda left: residual_likelihood(self.models, self._residuals, self.meter_covariance, left)
        )

    def log_likelihood(self, sets: Hypotheses) -> Floats:
        """Return the log of the same."""
        logs: Floats = np.log(self.likelihood(sets))
        return logs

    def highest(self) -> tuple[float, Floats]:
        """Return (d, r) with density(residuals | S) <= d x largest r over S (1 at least)."""
        return residual_bound(self.models, self._residuals, self.meter_covariance)

    def surprise(self, sets: Hypotheses) -> Floats:
        """Return per set the two-sided tail probability of the worst residual, shape (H,)."""
        return self.mended.mixed(sets, self._tail)

    def _tail(self, sets: Hypotheses) -> Floats:
        from scipy.special import ndtr

        tails = []
        for i, model in enumerate(self.models):
            mean, variance = model.moments(sets)
            sd = np.sqrt(variance + self.meter_covariance[i, i])
            tails.append(2.0 * ndtr(-np.abs(self._residuals[i] - mean) / sd))
        worst: Floats = np.min(tails, axis=0)
        # The worst of m is expected to lie further out than any one of them (Sidak 1967).
        return 1.0 - (1.0 - worst) ** len(tails)


@dataclass(frozen=True)
class Try:
    """A remedy carried out: the cause's index, whether its proof held, how often the remedy holds."""

    index: int
    proved: bool
    holds: float


@dataclass(frozen=True)
class FixEvidence:
    """The last of a row of remedies tried, given the ones before it.

    A remedy clears its cause with probability `holds`. Its proof holds when no cause is left, and
    is wrong either way with probability BY_CHANCE (the trouble comes and goes, or the proof was
    read wrongly).
    """

    cause: str
    tries: tuple[Try, ...]
    causes: int

    @property
    def questions(self) -> tuple[str, ...]:
        """The questions this rests on: none."""
        return ()

    def likelihood(self, sets: Hypotheses) -> Floats:
        """Return P(last proof as seen | set, proofs before), shape (H,)."""
        slots = sets.members.shape[1]
        patterns = np.arange(2**slots)
        there = (sets.members < len(sets.causes)) @ (1 << np.arange(slots))
        # P(which of the set's causes are still there), one column for each subset of slots.
        left = (patterns[None, :] == there[:, None]).astype(float)
        seen = np.ones(len(left))
        for one in self.tries:
            for slot in range(slots):
                tried = sets.members[:, slot] == one.index
                has = patterns[(patterns >> slot) & 1 == 1]
                cleared = np.where(tried[:, None], one.holds, 0.0) * left[:, has]
                left[:, has] -= cleared
                left[:, has ^ (1 << slot)] += cleared
            right = (patterns == 0) == one.proved
            left = left * np.where(right, 1.0 - BY_CHANCE, BY_CHANCE)[None, :]
            seen = left.sum(axis=1)
            left = left / seen[:, None]
        return seen

    def bounds(self) -> list[Bound]:
        """Return bounds on P(seen | S) that hold for every set S: no more than certain."""
        return [Bound(0.0, np.zeros(self.causes))]

    def log_likelihood(self, sets: Hypotheses) -> Floats:
        """Return the log of the same."""
        logs: Floats = np.log(self.likelihood(sets))
        return logs

    def surprise(self, sets: Hypotheses) -> Floats:
        """Return per set the probability of a result no more likely than the one seen, shape (H,)."""
        seen = self.likelihood(sets)
        return np.where(seen <= 0.5, seen, 1.0)


Evidence = ChoiceEvidence | ResidualEvidence | FixEvidence


def gather(
    questions: Sequence[Question],
    models: Models,
    outcomes: Mapping[str, str],
    results: Mapping[str, CheckResult],
    mended: Callable[[Collection[str]], Mended] = lambda taken: Mended(),
) -> tuple[list[ChoiceEvidence | ResidualEvidence], dict[str, str]]:
    """Return the pieces of evidence, and the answers left out with the reason.

    Args:
        questions: of the trees in play.
        models: by question id.
        outcomes: question id -> outcome id, for choice questions that were answered.
        results: check id -> result, for checks that could be made from readings.
        mended: which remedies had been carried out when the last of some answers and readings (ids of
            questions and measuring points) was taken.
    """
    left_out: dict[str, str] = {}
    measured: list[tuple[Question, CheckResult]] = []
    seen: dict[str, str] = {}
    for question in questions:
        if question.check is None or question.check not in results:
            continue
        if question.check in seen:
            left_out[question.id] = say("the same check as in '{seen}': counted once", seen=seen[question.check])
            continue
        seen[question.check] = question.id
        measured.append((question, results[question.check]))
    pieces: list[ChoiceEvidence | ResidualEvidence] = []
    numbers = frozenset[str]().union(*(result.points for _, result in measured))
    choice_points: dict[str, str] = {}
    for question in questions:
        if question.id not in outcomes or question.check is not None:
            continue
        if question.points and numbers.issuperset(question.points):
            left_out[question.id] = say("the number read there says it better: counted once")
            continue
        shared = [choice_points[point] for point in question.points if point in choice_points]
        if shared:
            left_out[question.id] = say("rests on the same reading as '{shared}': counted once", shared=shared[0])
            continue
        choice_points.update(dict.fromkeys(question.points, question.id))
        model = models[question.id]
        assert isinstance(model, ChoiceModel)
        ids = [outcome.id for outcome in question.outcomes]
        before = mended({question.id, *question.points})
        pieces.append(ChoiceEvidence(question.id, ids.index(outcomes[question.id]), model, before))
    for group in _groups(measured):
        before = mended(frozenset[str]().union(*(result.points for _, result in group)))
        pieces.append(_residual_evidence(group, models, before))
    order = {question.id: place for place, question in enumerate(questions)}
    pieces.sort(key=lambda piece: order[piece.questions[0]])
    return pieces, left_out


def fix_evidence(
    tried: Sequence[tuple[str, bool]], sets: Hypotheses, holds: Mapping[str, float]
) -> list[FixEvidence]:
    """Return one piece of evidence for each remedy tried, in order; causes not in play are passed over.

    Args:
        tried: (cause, whether its proof held), oldest first.
        sets: the hypotheses.
        holds: how often each cause's remedy holds.
    """
    pieces: list[FixEvidence] = []
    tries: tuple[Try, ...] = ()
    for cause, proved in tried:
        if cause in sets.causes:
            tries = (*tries, Try(sets.causes.index(cause), proved, holds[cause]))
            pieces.append(FixEvidence(cause, tries, len(sets.causes)))
    return pieces


def _groups(measured: Sequence[tuple[Question, CheckResult]]) -> list[list[tuple[Question, CheckResult]]]:
    """Part the checks into groups that share no input."""
    graph: nx.Graph[int | str] = nx.Graph()
    for place, (_, result) in enumerate(measured):
        graph.add_node(place)
        for name, effect in result.effects.items():
            if effect != 0.0:
                graph.add_edge(place, name)
    return [
        [measured[node] for node in sorted(part_node for part_node in part if isinstance(part_node, int))]
        for part in nx.connected_components(graph)
    ]


def _residual_evidence(
    group: Sequence[tuple[Question, CheckResult]], models: Models, mended: Mended
) -> ResidualEvidence:
    names = sorted({name for _, result in group for name in result.effects})
    # Effects are SI; the ratio of a check's two uncertainties is its scale.
    effects = np.array(
        [
            [result.effects.get(name, 0.0) * result.residual_uncertainty / result.uncertainty for name in names]
            for _, result in group
        ]
    ).reshape(len(group), len(names))
    covariance = effects @ effects.T
    # The floor of `evaluate` keeps every check's uncertainty above nothing; so does this.
    np.fill_diagonal(covariance, [result.residual_uncertainty**2 for _, result in group])
    chosen = tuple(models[question.id] for question, _ in group)
    residual_models = tuple(model for model in chosen if isinstance(model, ResidualModel))
    return ResidualEvidence(
        tuple(question.id for question, _ in group),
        tuple(result for _, result in group),
        residual_models,
        covariance,
        mended,
    )
