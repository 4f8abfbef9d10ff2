"""The same troubleshooting problem as an explicit Bayesian network, solved by pyagrum.

Causes are binary roots, gates deterministic tables, questions full tables over the causes that
move them: every entry written out, none of the library's own noisy-or shortcuts.
"""

from __future__ import annotations

from itertools import product

import numpy as np
import pyagrum as gum

from faultdoc.model.tree import Gate, Question, Tree, Weights


def network(made: Tree, answers: dict[str, int]) -> gum.BayesNet:
    """The problem as a network, with the questions that were answered."""
    net = gum.BayesNet()
    for one in made.causes:
        net.add(gum.LabelizedVariable(one.id, one.id, 2))
        net.cpt(one.id)[:] = [1 - one.rate / 1000, one.rate / 1000]
    for condition in made.conditions:
        net.add(gum.LabelizedVariable(condition.id, condition.id, 2))
        net.cpt(condition.id)[:] = [1 - condition.probability, condition.probability]
    for gate in made.events:
        net.add(gum.LabelizedVariable(gate.id, gate.id, 2))
    for gate in made.events:
        _gate(net, gate)
    for question in made.questions:
        if question.id in answers:
            _question(net, question)
    return net


def exact_marginals(made: Tree, answers: dict[str, int]) -> dict[str, float]:
    """P(cause | the top event, the answers), by pyagrum's exact inference."""
    net = network(made, answers)
    inference = gum.LazyPropagation(net)
    inference.setEvidence({made.top: 1, **answers})
    inference.makeInference()
    return {one.id: float(inference.posterior(one.id)[1]) for one in made.causes}


def _gate(net: gum.BayesNet, gate: Gate) -> None:
    children = gate.any or gate.all or gate.of or ()
    need = gate.at_least or (1 if gate.any else len(children))
    for child in children:
        net.addArc(child, gate.id)
    for values in product((0, 1), repeat=len(children)):
        happens = sum(values) >= need
        net.cpt(gate.id)[dict(zip(children, values, strict=True))] = [0.0, 1.0] if happens else [1.0, 0.0]


def _question(net: gum.BayesNet, question: Question) -> None:
    ids = [outcome.id for outcome in question.outcomes]
    size = len(ids)
    net.add(gum.LabelizedVariable(question.id, question.id, size))
    moved = [row for row in question.given if row != "default"]
    for row in moved:
        net.addArc(row, question.id)

    def smoothed(row: str) -> np.ndarray:
        given = question.given[row]
        assert isinstance(given, Weights)
        p = np.array([given.p.get(id, 0.0) for id in ids])
        return (1 - question.slip) * p + question.slip / size

    for values in product((0, 1), repeat=len(moved)):
        present = [row for row, value in zip(moved, values, strict=True) if value]
        # The maximum of independent outcomes, summed out by hand.
        table = np.zeros(size)
        if present:
            for picks in product(range(size), repeat=len(present)):
                chance = np.prod([smoothed(row)[pick] for row, pick in zip(present, picks, strict=True)])
                table[max(picks)] += chance
        else:
            table = smoothed("default")
        net.cpt(question.id)[dict(zip(moved, values, strict=True))] = list(table)
