"""The planner's price of a repair and its order, against a worked example.

Source: cs.stackexchange.com/questions/144646, "Minimize the expected value of money spent on boxes
until the prize is found": one prize, boxes opened at a cost until it is found; the best order is by
probability over cost. Two boxes with p = 0.8 and 0.2, at 3 and 2 coins: first before second costs
0.8 x 3 + 0.2 x (3 + 2) = 3.4 coins, second before first 0.2 x 2 + 0.8 x (3 + 2) = 4.4 coins.

A box is a cause, to open it its remedy, a coin a minute.
"""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "diagnosis"))
from problems import catalogue, cause, tree

from faultdoc.diagnosis.belief import believe
from faultdoc.diagnosis.planner import Situation, crew, plan
from faultdoc.diagnosis.problem import pose
from faultdoc.library.load import load_plant, load_unit
from faultdoc.model.safety import PlantState, Qualification


def test_two_boxes_as_published():
    proof = {"text": "t", "points": ["water_flow"], "minutes": 0.0, "state": {}, "who": "caller"}
    # Prior odds of 4 to 1, with odds = r / (1 - r) and r = rate / 1000.
    boxes = [
        cause("first_box", 1000 * 0.8 / 10.8, minutes=3.0, holds=1.0, proof=proof),
        cause("second_box", 1000 * 0.2 / 10.2, minutes=2.0, holds=1.0, proof=proof),
    ]
    made = tree([{"id": "top_event", "title": "t", "any": ["first_box", "second_box"]}], boxes, [])
    sheet = load_unit("bluff_30")
    problem = pose([made], catalogue(made), sheet, {}, 1)
    belief = believe(problem.sets, [])
    team = crew(problem, load_plant(), frozenset(Qualification), 60.0)
    ready = PlantState(
        supply="energised", panel="closed", pump="stopped", water="pressurised", compressors="stopped", oil="warm"
    )
    found = plan(problem, belief.weights, team, Situation(ready), [])
    assert dict(zip(problem.sets.causes, belief.marginal, strict=True)) == pytest.approx(
        {"first_box": 0.8, "second_box": 0.2}
    )
    assert [(one.id, one.expected_minutes) for one in found.options] == [
        ("first_box", pytest.approx(3.4)),
        ("second_box", pytest.approx(4.4)),
    ]
    assert found.repair_now == pytest.approx(3.4)
