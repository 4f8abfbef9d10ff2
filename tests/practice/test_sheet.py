"""The result sheet says everything of the debrief, in both systems of units, and nothing in it becomes markup."""

import re
from datetime import UTC, datetime

import pytest

from faultdoc.practice.debrief import debrief
from faultdoc.practice.scenario import load_scenarios
from faultdoc.practice.sheet import sheet_html
from faultdoc.practice.trainee import Turn
from faultdoc.quantities import Kind, System, show


@pytest.fixture(scope="module")
def found():
    turn = Turn.begin(load_scenarios()["valve_left_shut"])
    turn.measure("standing_pressure")
    turn.change("open_panel_dead")
    turn.mend("strainer_clogged")
    turn.give_up()
    return debrief(turn)


def test_sheet_has_score_path_readings_unsafe_acts_and_physics(found):
    html = sheet_html(found, trainee="Jo")
    assert f"{found.score} of 100" in html
    assert all(words.replace("'", "&#39;") in html for words, _ in found.parts)
    for event in (*found.path, *found.planner_path):
        assert event.text.split(":")[0].replace("'", "&#39;") in html
    assert all((event.why or "").split(".")[0].replace("'", "&#39;") in html for event in found.unsafe)
    assert found.unsafe
    assert html.count("It told nothing.") == len(found.told_nothing)
    assert "<td>Jo</td>" in html


@pytest.mark.parametrize("system", list(System))
def test_sheet_is_in_the_units_wanted(found, system):
    html = sheet_html(found, system)
    rows = [one for one in found.physics if isinstance(one.healthy, float)]
    assert rows
    for one in rows:
        assert f"<td>{show(one.healthy, one.kind, system)}</td>" in html
    assert any(one.kind is Kind.PRESSURE_DIFFERENCE or one.kind is Kind.TEMPERATURE for one in rows)


def test_nothing_typed_becomes_markup(found):
    html = sheet_html(found, trainee="<b>Jo</b>", made_at=datetime(2026, 1, 1, tzinfo=UTC))
    assert "<b>Jo</b>" not in html
    assert "&lt;b&gt;Jo" in html


def test_sheet_keeps_to_what_a_text_document_shows(found):
    tags = set(re.findall(r"<(\w+)", sheet_html(found)))
    assert tags <= {"html", "head", "meta", "title", "style", "body", "h1", "h2", "p", "table", "thead", "tr",
                    "th", "td", "b", "br"}  # fmt: skip
