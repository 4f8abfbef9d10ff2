"""A unit with its symptoms, made ready for questions: graph, hypotheses and models, computed once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import comb

import networkx as nx

from faultdoc.checks.base import Check
from faultdoc.diagnosis.evidence import Models
from faultdoc.diagnosis.graph import causes_of, fault_graph
from faultdoc.diagnosis.hypotheses import Floats, Hypotheses, enumerate_sets, prior_odds
from faultdoc.diagnosis.likelihood import (
    ChoiceModel,
    ResidualModel,
    choice_model,
    residual_bins,
    residual_edges,
    residual_model,
)
from faultdoc.diagnosis.outlook import Outlook, outlook
from faultdoc.model.tree import Cause, Question, Tree
from faultdoc.model.unit import DataSheet

__all__ = ["Problem", "pose"]

MANY = 30_000
"""Sets that may be summed to bound what is left out; some tens of milliseconds."""


@dataclass(frozen=True)
class Problem:
    """Everything that does not change while a case goes on.

    Attributes:
        sheet: the unit.
        trees: of the symptoms seen.
        graph: their joint fault graph for this unit.
        causes: by id, those in the graph.
        questions: by id, those for this unit, each once.
        sets: the hypotheses.
        models: what each question's answers say, by question id.
    """

    sheet: DataSheet
    trees: tuple[Tree, ...]
    graph: nx.DiGraph[str]
    causes: Mapping[str, Cause]
    questions: Mapping[str, Question]
    sets: Hypotheses
    models: Models

    @cached_property
    def beyond(self) -> Hypotheses | None:
        """The sets of one cause more than those looked at, to bound what is left out; None if too many."""
        n, size = len(self.sets.causes), self.sets.size + 1
        if size > n or comb(n, size) > MANY:
            return None
        return enumerate_sets(self.graph, self.sets.odds, size, smallest=size)

    def outcome_table(self, question: str) -> Floats:
        """Return P(outcome | set) of one question, shape (H, O); a check's residual in the outlook's bins."""
        model = self.models[question]
        if isinstance(model, ChoiceModel):
            return model.table(self.sets)
        return residual_bins(model, residual_edges(model), *model.moments(self.sets))

    @cached_property
    def outlook(self) -> Outlook:
        """The questions' outcome tables, for planning."""
        return outlook(self.models, len(self.sets.causes))


def pose(
    trees: Sequence[Tree],
    catalogue: Mapping[str, Cause],
    sheet: DataSheet,
    checks: Mapping[str, Check],
    size: int = 2,
) -> Problem:
    """Return the problem of some symptoms on a unit.

    Args:
        trees: one for each symptom.
        catalogue: all causes by id.
        sheet: the unit.
        checks: the registry of checks, for their floors.
        size: largest set of causes looked at.

    Raises:
        TreeError: when the trees are not sound.
        KeyError: when a question names a check that is not registered.
        ValueError: when no set of that size explains the symptoms.
    """
    graph = fault_graph(trees, catalogue, sheet.features)
    ids = causes_of(graph)
    sets = enumerate_sets(graph, prior_odds(ids, catalogue), size)
    questions: dict[str, Question] = {}
    models: dict[str, ChoiceModel | ResidualModel] = {}
    for tree in trees:
        for question in tree.questions:
            if question.id in questions or not set(question.only_with) <= set(sheet.features):
                continue
            questions[question.id] = question
            if question.check is not None:
                models[question.id] = residual_model(question, ids, checks[question.check].floor)
            else:
                models[question.id] = choice_model(question, ids)
    return Problem(sheet, tuple(trees), graph, {id: catalogue[id] for id in ids}, questions, sets, models)
