"""A fault tree for its author, as text: list, cut sets, importance, sensitivity."""

from __future__ import annotations

from dataclasses import replace
from math import prod
from typing import TYPE_CHECKING

from faultdoc.diagnosis.assess import situation
from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.cutsets import basic_probabilities, importance, minimal_cut_sets, top_probability
from faultdoc.diagnosis.graph import causes_of, fault_graph
from faultdoc.diagnosis.hypotheses import Hypotheses, enumerate_sets, prior_odds
from faultdoc.diagnosis.planner import plan
from faultdoc.diagnosis.sensitivity import RateMargin, RowMargin, first_cause, rate_margins, row_margins
from faultdoc.library.load import Library

if TYPE_CHECKING:
    import networkx as nx

    from faultdoc.diagnosis.assess import Assessment

__all__ = ["cut_sets_text", "importance_text", "sensitivity_text", "shown_tree", "tree_list"]

RISE, FALL = "rise {:.2g}-fold", "fall to 1/{:.2g}"


def tree_list(library: Library) -> str:
    """Return one line a tree: id and title."""
    width = max(len(id) for id in library.trees)
    return "\n".join(f"{id:<{width}}  {tree.title}" for id, tree in library.trees.items())


def shown_tree(
    library: Library, id: str, assessment: Assessment | None
) -> tuple[nx.DiGraph[str], dict[str, float]]:
    """Return a tree's graph and the probabilities to show: the case's belief, else the rates' own."""
    if assessment is not None:
        belief = assessment.belief
        chances = dict(zip(belief.sets.causes, map(float, belief.marginal), strict=True))
        return assessment.bench.problem.graph, chances
    graph = fault_graph([library.trees[id]], library.causes)
    chances = basic_probabilities(graph, library.causes)
    return graph, {cause: chances[cause] for cause in causes_of(graph)}


def cut_sets_text(graph: nx.DiGraph[str], library: Library) -> str:
    """Return the minimal cut sets with their probabilities, and the exact probability of the symptom."""
    chances = basic_probabilities(graph, library.causes)
    found = minimal_cut_sets(graph)
    lines = [f"Minimal cut sets: {len(found)}. Probability of the symptom: {top_probability(graph, chances):.4g}."]
    for cut_set in found:
        chance = prod(chances[event] for event in cut_set)
        lines.append(f"  {chance:9.2e}  {' and '.join(sorted(cut_set))}")
    return "\n".join(lines)


def importance_text(graph: nx.DiGraph[str], library: Library) -> str:
    """Return the importance of every cause and condition, by share of the symptom (Fussell-Vesely)."""
    found = importance(graph, basic_probabilities(graph, library.causes))
    lines = ["  share of symptom   Birnbaum  achievement  reduction  event"]
    for event, one in sorted(found.items(), key=lambda item: -item[1].fussell_vesely):
        numbers = f"{one.fussell_vesely:16.1%}  {one.birnbaum:9.4f}  {one.achievement:11.2f}  {one.reduction:9.3f}"
        lines.append(f"  {numbers}  {event}")
    return "\n".join(lines)


def sensitivity_text(library: Library, id: str, assessment: Assessment | None) -> str:
    """Return how far rates and answers' rows may be off before another cause comes first."""
    if assessment is not None:
        sets, evidence = assessment.belief.sets, assessment.belief.evidence
    else:
        graph = fault_graph([library.trees[id]], library.causes)
        causes = causes_of(graph)
        sets, evidence = enumerate_sets(graph, prior_odds(causes, library.causes), 2), ()
    first = first_cause(evidence)
    lines = [f"First now: {first(sets)}. Another comes first when"]
    margins = [way for one in rate_margins(sets, first) for way in _ways(one, f"the odds of {one.cause}")]
    for row in row_margins(sets, evidence):
        margins += _ways(row, f"in {row.question}, the odds of the answer given under {row.cause}")
    lines += [f"  {text}" for _, text in sorted(margins)] or ["  no single number is off, up to a factor of 100."]
    if assessment is not None:
        lines += _step_margins(assessment)
    return "\n".join(lines)


def _ways(one: RateMargin | RowMargin, what: str) -> list[tuple[float, str]]:
    """Return (factor, sentence) for each way in which a number may be off."""
    return [
        (factor, f"{what} {way.format(factor)}")
        for factor, way in ((one.up, RISE), (one.down, FALL))
        if factor is not None
    ]


def _step_margins(assessment: Assessment) -> list[str]:
    """Return how far the rates may be off before another step is proposed."""
    problem, case = assessment.bench.problem, assessment.case
    team, now = assessment.bench.crew(case), situation(problem, case)
    still_open = [option.id for option in assessment.plan.options if option.kind == "question"]

    def proposed(sets: Hypotheses) -> str:
        weights = believe(sets, assessment.belief.evidence).weights
        best = plan(replace(problem, sets=sets), weights, team, now, still_open).best
        return "giving up" if best is None else best.id

    margins = [
        way for one in rate_margins(problem.sets, proposed) for way in _ways(one, f"  the odds of {one.cause}")
    ]
    first = f"Proposed now: {proposed(problem.sets)}. Another step is proposed when"
    return [first, *(text for _, text in sorted(margins)), *([] if margins else ["  no single rate is off."])]
