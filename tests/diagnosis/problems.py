"""Small random trees for the engine's tests: made here, not read from trees/."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from faultdoc.diagnosis.graph import causes_of, fault_graph
from faultdoc.diagnosis.hypotheses import Hypotheses, enumerate_sets, prior_odds
from faultdoc.model.tree import Cause, Question, Tree

Dict = dict[str, Any]

WORK: Dict = {"minutes": 5.0, "state": {}, "who": "technician"}


def cause(id: str, rate: float, **changes: Any) -> Dict:
    return {
        "id": id,
        "title": f"Cause {id}",
        "system": "water",
        "rate": rate,
        "basis": "estimate",
        "mechanism": "made for a test",
        "remedy": {
            "title": f"Mend {id}",
            "steps": ["mend it"],
            "proof": {"text": "it runs", "points": ["water_flow"], **WORK},
            **WORK,
            **changes,
        },
    }


def choice_question(id: str, outcomes: int, given: dict[str, Sequence[float]], **changes: Any) -> Dict:
    names = [f"o{i}x" for i in range(outcomes)]
    return {
        "id": id,
        "ask": {"tech": f"Question {id}?", "caller": f"Question {id}?"},
        "how": "look",
        "where": "there",
        "instrument": "eye",
        "outcomes": [{"id": name, "title": name} for name in names],
        "given": {
            row: {"p": dict(zip(names, map(float, p), strict=True)), "basis": "estimate"}
            for row, p in given.items()
        },
        **WORK,
        **changes,
    }


def check_question(id: str, check: str, given: dict[str, tuple[float, float]], **changes: Any) -> Dict:
    return {
        "id": id,
        "ask": {"tech": f"Read {id}", "caller": f"Read {id}"},
        "how": "read",
        "where": "there",
        "instrument": "gauge",
        "points": ["water_flow"],
        "check": check,
        "given": {
            row: {"shift": float(shift), "spread": float(spread), "basis": "estimate"}
            for row, (shift, spread) in given.items()
        },
        **WORK,
        **changes,
    }


def tree(events: list[Dict], causes: list[Dict], questions: list[Dict], conditions: Sequence[Dict] = ()) -> Tree:
    return Tree.model_validate(
        {
            "id": "made_up",
            "title": "Made up",
            "symptom": "It stops.",
            "top": events[0]["id"],
            "events": events,
            "causes": causes,
            "questions": questions,
            "conditions": list(conditions),
        }
    )


def random_tree(rng: np.random.Generator, causes: int, questions: int) -> Tree:
    """A random coherent tree: gates of all three kinds, a condition, shared causes, choice questions."""
    ids = [f"c{i}x" for i in range(causes)]
    made = [cause(id, float(rng.uniform(1, 300))) for id in ids]
    half = max(2, causes // 2)
    events: list[Dict] = [
        {"id": "top_event", "title": "top", "any": ["g_any", "g_all", "g_some"]},
        {"id": "g_any", "title": "any", "any": [str(x) for x in rng.choice(ids, half, replace=False)]},
        {"id": "g_all", "title": "all", "all": [*(str(x) for x in rng.choice(ids, 2, replace=False)), "damp_air"]},
        {
            "id": "g_some",
            "title": "some",
            "at_least": 2,
            "of": ids,
        },
    ]
    asked = []
    for q in range(questions):
        size = int(rng.integers(2, 5))
        moved = rng.choice(ids, int(rng.integers(1, causes + 1)), replace=False)
        rows = {str(row): rng.dirichlet(np.ones(size)) for row in ["default", *moved]}
        asked.append(choice_question(f"q{q}x", size, rows))
    damp = {"id": "damp_air", "title": "damp", "probability": float(rng.uniform(0.1, 0.9)), "basis": "estimate"}
    return tree(events, made, asked, [damp])


def catalogue(made: Tree) -> dict[str, Cause]:
    return {one.id: one for one in made.causes}


def sets_of(made: Tree, size: int, smallest: int = 1) -> Hypotheses:
    graph = fault_graph([made], catalogue(made))
    return enumerate_sets(graph, prior_odds(causes_of(graph), catalogue(made)), size, smallest)


def questions_of(made: Tree) -> dict[str, Question]:
    return {one.id: one for one in made.questions}
