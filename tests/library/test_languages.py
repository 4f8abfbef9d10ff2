"""The words of other languages: laid over by id, refused with their line, and never a number touched."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from pydantic import BaseModel

from faultdoc.diagnosis.assess import assess, bench_for
from faultdoc.diagnosis.planner import Plan
from faultdoc.library.languages import ENGLISH, TEXTS, count_texts, languages, load_words, mark
from faultdoc.library.lint import lint, stats
from faultdoc.library.load import load_case, load_library, load_unit
from faultdoc.library.places import resources_folder, trees_folder
from faultdoc.library.problems import FileProblems
from faultdoc.record.handover.prints import prints_of

CASES = sorted((resources_folder() / "cases").glob("*.yaml"))
COMPLETE = ("flow_proving_trip", "freeze_protection", "high_head", "low_suction", "unit_dead")

WORDS = """\
tree: no_flow
title: No circula agua
symptom: La unidad dice que no tiene caudal de agua.
events: {no_flow_proved: Caudal no comprobado, too_little_water: Se mueve poca agua, restriction: Algo estorba}
conditions: {cold_weather: Hace frío}
causes:
  strainer_clogged:
    english: "@strainer_clogged@"
    title: El filtro está tapado
    mechanism: La suciedad llena la canasta y frena el agua.
    remedy:
      title: Limpiar el filtro
      steps: [Saque la canasta., Lávela., Póngala otra vez.]
      proof: La caída en el filtro volvió a la de limpio.
phrases:
  - {en: See the gauge at zero before you loosen the cover., text: Vea el manómetro en cero antes de abrir.}
"""


@pytest.fixture(scope="module")
def both():
    return load_library(learned=False), load_library(learned=False, language="es")


@pytest.fixture
def laid(write, tree_text):
    """Return a function that writes the small tree with spoilt Spanish words; gives words and folder."""

    def lay(*changes: tuple[str, str]) -> tuple[str, Path]:
        folder = write("trees/no_flow.yaml", tree_text).parent
        english = load_library(folder)
        text = WORDS.replace("@strainer_clogged@", mark(english.causes["strainer_clogged"]))
        for old, new in changes:
            assert old in text
            text = text.replace(old, new, 1)
        write("trees/es/no_flow.yaml", text)
        return text, folder

    return lay


def skeleton(value: Any, name: str = "") -> Any:
    """Return a value without any text for people."""
    if isinstance(value, BaseModel):
        texts = TEXTS.get(type(value), ())
        return {
            field: skeleton(getattr(value, field), field if field in texts else "")
            for field in type(value).model_fields
        }
    if isinstance(value, dict):
        return {key: skeleton(one, name) for key, one in value.items()}
    if isinstance(value, (tuple, list)):
        return [skeleton(one, name) for one in value]
    return "text" if name and isinstance(value, str) else value


def texts(value: Any, name: str = "") -> Iterator[str]:
    """Yield every text for people in a value."""
    if isinstance(value, BaseModel):
        for field in TEXTS.get(type(value), ()):
            yield from texts(getattr(value, field), field)
    elif isinstance(value, dict):
        for one in value.values():
            yield from texts(one, name)
    elif isinstance(value, (tuple, list)):
        for one in value:
            yield from texts(one, name)
    elif isinstance(value, str):
        yield value


def test_words_are_laid_over_and_what_is_left_out_stays_english(laid) -> None:
    _, folder = laid()
    library = load_library(folder, language="es")
    assert library.language == "es"
    assert library.english.language == ENGLISH
    cause = library.causes["strainer_clogged"]
    assert cause.remedy.steps == ("Saque la canasta.", "Lávela.", "Póngala otra vez.")
    assert cause.remedy.cautions[0].text == "Vea el manómetro en cero antes de abrir."
    assert library.trees["no_flow"].conditions[0].title == "Hace frío"
    assert library.causes["valve_shut"] == library.english.causes["valve_shut"]
    assert library.points["suction_pressure_b"].title == "Presión de succión, circuito B"


@pytest.mark.parametrize(
    ("old", "new", "key", "words"),
    [
        (
            "  strainer_clogged:",
            "  strainer_cloged:",
            "causes.strainer_cloged",
            "did you mean 'strainer_clogged'?",
        ),
        ("cold_weather: Hace", "cold_wether: Hace", "conditions.cold_wether", "did you mean 'cold_weather'?"),
        ("Lávela., ", "", "causes.strainer_clogged.remedy.steps", "2 texts"),
        ("title: El filtro está tapado", 'title: ""', "causes.strainer_clogged.title", "found ''"),
        ("    mechanism:", "    mechanics:", "causes.strainer_clogged.mechanics", "mechanism"),
        ("tree: no_flow", "tree: no_fluid", "tree", "'no_flow', as the file is named"),
    ],
)
def test_mistakes_are_refused_with_their_line(laid, old, new, key, words) -> None:
    text, folder = laid((old, new))
    with pytest.raises(FileProblems) as refused:
        load_library(folder, language="es")
    (problem,) = refused.value.problems
    assert problem.file.endswith("es/no_flow.yaml")
    line = text[: text.index(new if new else "steps:")].count("\n") + 1
    assert problem.line == line
    assert problem.key == key
    assert words in str(problem)


def test_a_language_that_is_not_there_is_refused() -> None:
    with pytest.raises(FileProblems, match="en, es"):
        load_library(language="ess")


def test_a_file_of_words_without_its_tree_is_refused(laid, write) -> None:
    _, folder = laid()
    write("trees/es/other.yaml", "tree: other\ntitle: Otro\n")
    with pytest.raises(FileProblems, match="'other'"):
        load_library(folder, language="es")


def test_lint_tells_every_text_that_is_missing_and_its_place(laid, tree_text) -> None:
    _, folder = laid()
    library = load_library(folder)
    found = [one for one in lint(library, {}) if one.rule == "text-missing-in-es"]
    told = {one.key for one in found}
    assert "causes[1] (valve_shut).title" in told
    assert "causes[0] (strainer_clogged).title" not in told
    line = tree_text[: tree_text.index("title: A valve is shut")].count("\n") + 1
    assert line in {one.line for one in found if one.key == "causes[1] (valve_shut).title"}
    counts = stats(library, [])["no_flow"]
    assert counts.texts == count_texts(library.trees["no_flow"])
    assert counts.said["es"] == counts.texts - len(found)


def test_lint_tells_an_entry_made_from_other_english(laid) -> None:
    text, folder = laid()
    tree = folder / "no_flow.yaml"
    tree.write_text(tree.read_text().replace("Wash it.", "Wash it twice."))
    (found,) = [one for one in lint(load_library(folder), {}) if one.rule == "text-stale-in-es"]
    assert found.key == "causes.strainer_clogged.english"
    assert found.line == text[: text.index("english:")].count("\n") + 1
    assert mark(load_library(folder).causes["strainer_clogged"]) in found.remedy


def test_nothing_but_texts_differs(both) -> None:
    english, spanish = both
    for id, tree in english.trees.items():
        assert skeleton(spanish.trees[id]) == skeleton(tree), id
    assert skeleton(spanish.plant) == skeleton(english.plant)
    for id, point in english.points.items():
        assert skeleton(spanish.points[id]) == skeleton(point), id


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_belief_checks_and_plan_are_the_same_in_both(both, path) -> None:
    found = []
    for library in both:
        case = load_case(path, library)
        bench = bench_for(library, load_unit(case.unit), case.symptoms)
        found.append(assess(bench, case))
    english, spanish = found
    assert np.array_equal(english.belief.marginal, spanish.belief.marginal)
    assert english.checks == spanish.checks
    assert said_of(english.plan) == said_of(spanish.plan)
    assert (english.next.kind, english.next.id) == (spanish.next.kind, spanish.next.id)
    assert prints_of(english.bench) == prints_of(spanish.bench)


def said_of(plan: Plan) -> Any:
    """Return a plan without its words."""
    return plan.repair_now, plan.give_up, [(one.kind, one.id, one.expected_minutes) for one in plan.options]


@pytest.mark.parametrize("language", [one for one in languages() if one != ENGLISH])
def test_finished_trees_lack_nothing(both, language) -> None:
    counts = stats(both[0], [])
    for id in COMPLETE:
        assert counts[id].said[language] == counts[id].texts, id
    for point in both[1].points.values():
        own = both[0].points[point.id]
        assert point.title != own.title
        assert point.where != own.where


def test_a_text_keeps_its_numbers(both) -> None:
    """Every figure of an English text stands in the Spanish one too: a slip there could hurt someone."""
    english, spanish = both
    for id in COMPLETE:
        for one, other in zip(texts(english.trees[id]), texts(spanish.trees[id]), strict=True):
            numbers = [sorted(re.findall(r"\d+(?:[.,]\d+)?", text)) for text in (one, other)]
            assert numbers[0] == numbers[1], (one, other)


def test_what_has_two_names_in_english_has_two_in_spanish() -> None:
    """Parts and tools are told apart by their words, so two of them may not become one."""
    words = load_words("es", trees_folder())
    said = [(text, english) for english, text in words.phrases.items()]
    for _, (tree, _) in words.trees.items():
        said += [(phrase.text, phrase.en) for phrase in tree.phrases]
    english: dict[str, set[str]] = {}
    for text, one in said:
        english.setdefault(text, set()).add(one)
    assert {text: sorted(ones) for text, ones in english.items() if len(ones) > 1} == {}
