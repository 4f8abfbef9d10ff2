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
from faultdoc.model.tree import Cause, Question, Shift, Tree
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

    def alike(self, cause: str) -> frozenset[str]:
        """Return a cause and those declared to be the same to anyone who asks: one remedy mends all of them."""
        of_others = (id for id, one in self.causes.items() if cause in one.same_as)
        return frozenset([cause, *self.causes[cause].same_as, *of_others])

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
            question = _with_all_rows(question, trees)
            questions[question.id] = question
            if question.check is not None:
                models[question.id] = residual_model(question, ids, checks[question.check].floor)
            else:
                models[question.id] = choice_model(question, ids)
    return Problem(sheet, tuple(trees), graph, {id: catalogue[id] for id in ids}, questions, sets, models)


def _with_all_rows(question: Question, trees: Sequence[Tree]) -> Question:
    """Return a question with a check, with the rows that other trees give the same check.

    A check is counted once, by whichever question; so its question must know what every tree in play
    knows of it. A row from elsewhere keeps its distance from its own default.
    """
    own = question.given["default"]
    if question.check is None or not isinstance(own, Shift):
        return question
    given = dict(question.given)
    for tree in trees:
        for other in tree.questions:
            default = other.given["default"]
            if other.check != question.check or not isinstance(default, Shift):
                continue
            for cause, row in other.given.items():
                if cause not in given and isinstance(row, Shift):
                    given[cause] = row.model_copy(update={"shift": own.shift + row.shift - default.shift})
    return question.model_copy(update={"given": given})
