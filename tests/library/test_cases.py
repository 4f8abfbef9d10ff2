import os
import stat

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.library.cases import save_case
from faultdoc.library.load import load_case, load_library
from faultdoc.library.places import resources_folder
from faultdoc.library.problems import FileProblems
from faultdoc.library.source import read
from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Conclusion, Tried
from faultdoc.model.safety import Qualification, all_states
from faultdoc.quantities import ACCEPTED, Kind, System, parse


@pytest.fixture(scope="module")
def library(tmp_path_factory, tree_text):
    folder = tmp_path_factory.mktemp("trees")
    (folder / "no_flow.yaml").write_text(tree_text, encoding="utf-8")
    return load_library(folder)


@pytest.fixture
def problems(write, case_text, library):
    """Return a function that spoils the good case and gives what is then said of it."""

    def spoil(*changes: tuple[str, str]):
        text = case_text
        for old, new in changes:
            assert text.count(old) == 1, old
            text = text.replace(old, new)
        with pytest.raises(FileProblems) as caught:
            load_case(write("case.yaml", text), library)
        return text, caught.value.problems

    return spoil


def test_the_good_case_loads(write, case_text, library) -> None:
    case = load_case(write("case.yaml", case_text), library)
    assert list(case.readings) == ["water_in_temperature", "strainer_pressure_drop", "pump_rotation"]
    drop = case.readings["strainer_pressure_drop"]
    assert isinstance(drop, Measured)
    # 1 psi = 6894.757 Pa (NIST SP 811, appendix B.8); ± 0.5 psi as a rectangle: over the root of 3.
    assert drop.value == pytest.approx(3.5 * 6894.757, rel=1e-6)
    assert drop.standard_uncertainty == pytest.approx(0.5 * 6894.757 / 3**0.5, rel=1e-6)
    assert drop.text == "3.5 psi ± 0.5"
    assert case.readings["pump_rotation"] == "forward"
    assert case.who == (Qualification.TECHNICIAN,)


@pytest.mark.parametrize(
    ("old", "new", "key", "found", "remedy"),
    [
        ("54 °F", "54", "readings.water_in_temperature", "54", "write it with its unit, such as 54 °F"),
        ("54 °F", "'54'", "readings.water_in_temperature", "'54'", "write it with its unit, such as 54 °F"),
        ("54 °F", "some", "readings.water_in_temperature", "'some'", "has no number in it"),
        ("54 °F", "[54]", "readings.water_in_temperature", "a list of 1", "write a number with its unit"),
        (
            "3.5 psi ± 0.5",
            "3.5 psig",
            "readings.strainer_pressure_drop",
            "'3.5 psig'",
            "that is a gauge pressure, and a pressure difference is wanted",
        ),
        (
            "pump_rotation: forward",
            "pump_rotation: foward",
            "readings.pump_rotation",
            "'foward'",
            "did you mean 'forward'?",
        ),
        ("pump_rotation: forward", "pump_rotation: true", "readings.pump_rotation", "true", "write one of these"),
        (
            "pump_rotation:",
            "pump_rotaton:",
            "readings.pump_rotaton",
            "the unknown point 'pump_rotaton'",
            "did you mean 'pump_rotation'?",
        ),
        ("[no_flow]", "[no_flo]", "symptoms[0]", "the unknown symptom 'no_flo'", "did you mean 'no_flow'?"),
        ("[no_flow]", "[]", "symptoms", "a list of 0", "add what is missing"),
        (
            "valve_position: open",
            "valve_positon: open",
            "answers.valve_positon",
            "the unknown question 'valve_positon'",
            "did you mean 'valve_position'?",
        ),
        (
            "valve_position: open",
            "valve_position: opened",
            "answers.valve_position",
            "'opened'",
            "did you mean 'open'?",
        ),
        (
            "strainer_drop: could_not_measure",
            "strainer_drop: high",
            "answers.strainer_drop",
            "'high'",
            "this question is measured: give readings of strainer_pressure_drop, water_flow",
        ),
        (
            "set_aside: [strainer_drop]",
            "set_aside: [strainer]",
            "set_aside[0]",
            "the unknown question 'strainer'",
            "did you mean 'strainer_drop'?",
        ),
        (
            "{cause: valve_shut,",
            "{cause: valve_sht,",
            "tried[0].cause",
            "the unknown cause 'valve_sht'",
            "did you mean 'valve_shut'?",
        ),
        (
            "cause: strainer_clogged",
            "cause: dirt",
            "conclusion.cause",
            "the unknown cause 'dirt'",
            "write one of these",
        ),
        ("unit: bluff_30", "unit: bluff30", "unit", "'bluff30'", "did you mean 'bluff_30'?"),
        ("unit: bluff_30", "unit: gone.yaml", "unit", "'gone.yaml'", "check the path"),
        ("pump: running", "pump: runing", "state.pump", "'runing'", "did you mean 'running'?"),
        (
            "supply: energised",
            "supply: isolated",
            "state",
            "supply isolated, panel closed, pump running",
            "look again, and write what is so",
        ),
        ("outcome: fixed", "outcome: done", "conclusion.outcome", "'done'", "write one of these"),
        ("proved: false", "proved: no", "tried[0].proved", "'no'", "write true or false"),
        ("who: [technician]", "who: technician", "who", "'technician'", "write a list: [technician]"),
        ("notes: [", "place: nowhere\nnotes: [", "place", "the unknown place 'nowhere'", "write one of these"),
        (
            "notes: [",
            "at_hand: [hammer]\nnotes: [",
            "at_hand[0]",
            "the unknown instrument 'hammer'",
            "did you mean 'ohmmeter'?",
        ),
        ("notes: [", "note: [", "note", "the unknown key 'note'", "did you mean 'notes'?"),
    ],
)
def test_one_mistake(problems, line, old, new, key, found, remedy) -> None:
    text, (problem,) = problems((old, new))
    assert problem.line == line(text, new.partition("\n")[0])
    assert problem.key == key
    assert problem.found.startswith(found)
    assert remedy in problem.remedy
    assert problem.allowed


def test_what_is_allowed_is_named(problems) -> None:
    assert (
        problems(("pump_rotation: forward", "pump_rotation: x"))[1][0].allowed == "one of forward, reversed, still"
    )
    assert problems(("[no_flow]", "[x]"))[1][0].allowed == "one of no_flow"
    _, (problem,) = problems(("valve_position: open", "valve_position: x"))
    assert problem.allowed == "one of open, part_open, shut, could_not_measure, not_sure"


def test_every_mistake_is_told_at_once(problems) -> None:
    _, found = problems(
        ("54 °F", "54"),
        ("pump_rotation:", "rotation:"),
        ("[no_flow]", "[flow]"),
        ("valve_position: open", "valve: open"),
        ("{cause: valve_shut,", "{cause: shut,"),
        ("unit: bluff_30", "unit: x"),
        ("pump: running", "pump: on"),
        ("title: Hotel", "titel: Hotel"),
    )
    assert [problem.line for problem in found] == [1, 2, 3, 4, 7, 9, 11, 15]


def test_a_reading_and_an_answer_that_contradict_each_other(problems, line) -> None:
    new = "pump_rotation: forward\n  supply_valve_position: shut"
    text, (problem,) = problems(("pump_rotation: forward", new))
    assert problem.line == line(text, "  valve_position: open")
    assert problem.key == "answers.valve_position"
    reading = line(text, "supply_valve_position")
    assert problem.found == f"'open', but the reading of supply_valve_position on line {reading} is 'shut'"
    assert problem.remedy == "keep the one that is true"


@pytest.mark.parametrize("answer", ["open", "not_sure"])
def test_a_reading_and_an_answer_that_agree_or_say_nothing(write, case_text, library, answer) -> None:
    text = case_text.replace("pump_rotation: forward", "pump_rotation: forward\n  supply_valve_position: open")
    case = load_case(
        write("case.yaml", text.replace("valve_position: open\n  st", f"valve_position: {answer}\n  st")), library
    )
    assert case.answers["valve_position"] == answer
    assert case.readings["supply_valve_position"] == "open"


def test_a_case_that_is_no_map(write, library) -> None:
    with pytest.raises(FileProblems, match="found a list of 1; allowed: a map with the keys title, unit"):
        load_case(write("case.yaml", "- a\n"), library)


def test_a_data_sheet_beside_the_case_is_found_from_anywhere(
    write, case_text, library, tmp_path, monkeypatch
) -> None:
    sheet = (resources_folder() / "units" / "bluff_30.yaml").read_text(encoding="utf-8")
    mine = write("cases/units/mine.yaml", sheet)
    case_path = write("cases/case.yaml", case_text.replace("unit: bluff_30", "unit: units/mine.yaml"))
    monkeypatch.chdir("/")
    case = load_case(case_path, library)
    assert case.unit == str(mine.resolve())
    save_case(case, case_path)
    assert read(case_path).data["unit"] == "units/mine.yaml"
    assert load_case(case_path, library) == case


# --- saving ---

_words = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cs", "Cc", "Cn", "Co"]), min_size=1, max_size=120
)
_texts = _words.map(str.strip).filter(bool) | st.sampled_from(
    ["12", "null", "true", "~", ".5e3", "- a", "a: b", "# c", "'", '"', "1e3", "0x10", "a\nb", "a #b"]
)
_numbers = st.floats(0.0, 900.0).map(lambda number: f"{number:.4g}".replace("e+", "e"))


@st.composite
def _readings(draw, library):
    points = draw(st.lists(st.sampled_from(sorted(library.points)), max_size=6, unique=True))
    readings = {}
    for id in points:
        point = library.points[id]
        if point.kind is Kind.CHOICE:
            readings[id] = draw(st.sampled_from([choice.id for choice in point.choices]))
            continue
        units = [unit for unit in ACCEPTED[point.kind] if unit[0].isalpha() or unit[0] in "°%"]
        unit = draw(st.sampled_from(units or [""]))  # a count has no unit
        glue = draw(st.sampled_from(["", " "]))
        limit = draw(st.sampled_from(["", " ± 0.5", " +/- 2", f" ± 1 {unit}" if "temp" not in point.kind else ""]))
        readings[id] = Measured.from_quantity(parse(f"{draw(_numbers)}{glue}{unit}{limit}", point.kind))
    return readings


@st.composite
def _cases(draw, library):
    questions = [question for question in library.questions.values() if question.outcomes]
    causes = st.sampled_from(sorted(library.causes))
    readings = draw(_readings(library))
    answers = {
        question.id: draw(st.sampled_from([outcome.id for outcome in question.outcomes]))
        for question in draw(st.lists(st.sampled_from(questions), unique_by=lambda question: question.id))
        if not set(question.points) & set(readings)
    }
    conclusions = st.builds(
        Conclusion,
        outcome=st.sampled_from(["fixed", "made_safe"]),
        cause=st.none() | causes,
        note=st.none() | _texts,
    )
    return Case(
        title=draw(st.none() | _texts),
        unit="bluff_30",
        symptoms=("no_flow",),
        state=draw(st.sampled_from(all_states())),
        who=tuple(draw(st.lists(st.sampled_from(Qualification), min_size=1, unique=True))),
        readings=readings,
        answers=answers,
        set_aside=tuple(draw(st.lists(st.sampled_from(sorted(library.questions)), unique=True))),
        tried=tuple(
            draw(
                st.lists(st.builds(Tried, cause=causes, proved=st.booleans(), note=st.none() | _texts), max_size=2)
            )
        ),
        unproved=draw(st.none() | causes),
        notes=tuple(draw(st.lists(_texts, max_size=3))),
        conclusion=draw(st.none() | conclusions),
    )


@settings(deadline=None, derandomize=True, max_examples=80)
@given(data=st.data())
def test_what_is_saved_is_loaded_again(library, tmp_path_factory, data) -> None:
    case = data.draw(_cases(library))
    path = tmp_path_factory.getbasetemp() / "round_trip.yaml"
    save_case(case, path)
    again = load_case(path, library)
    assert again == case
    assert list(again.readings) == list(case.readings)
    assert list(again.answers) == list(case.answers)


def _case(**changes):
    state = next(state for state in all_states())
    return Case(unit="bluff_30", symptoms=("no_flow",), state=state, who=(Qualification.CREW,), **changes)


def test_a_reading_is_saved_as_it_was_written(tmp_path) -> None:
    reading = Measured.from_quantity(parse("62,5 psi +/- 1", Kind.GAUGE_PRESSURE))
    save_case(_case(readings={"barrel_in_pressure": reading}), tmp_path / "a.yaml")
    assert "  barrel_in_pressure: 62,5 psi +/- 1\n" in (tmp_path / "a.yaml").read_text(encoding="utf-8")


@pytest.mark.parametrize("system", list(System))
def test_a_bare_number_is_saved_with_a_unit_and_keeps_its_value(tmp_path, library, system) -> None:
    quantity = parse("54.3 ± 0.5", Kind.TEMPERATURE, system)
    reading = Measured.from_quantity(quantity)
    save_case(_case(readings={"water_in_temperature": reading}), tmp_path / "a.yaml")
    again = load_case(tmp_path / "a.yaml", library).readings["water_in_temperature"]
    assert isinstance(again, Measured)
    assert again.value == reading.value
    assert again.standard_uncertainty == pytest.approx(reading.standard_uncertainty, rel=1e-12)


def test_a_file_that_is_there_survives_a_failed_save(tmp_path, monkeypatch) -> None:
    path = tmp_path / "a.yaml"
    save_case(_case(), path)
    before = path.read_bytes()

    def fail(*_: object) -> None:
        raise OSError("no space left")

    monkeypatch.setattr(os, "replace", fail)
    with pytest.raises(OSError, match="no space left"):
        save_case(_case(title="new"), path)
    assert path.read_bytes() == before
    assert [entry.name for entry in tmp_path.iterdir()] == ["a.yaml"]


def test_a_saved_file_is_plain_text_for_people(tmp_path) -> None:
    path = tmp_path / "a.yaml"
    save_case(_case(notes=("Größe ≥ 3 °C, schön",)), path)
    assert "  - Größe ≥ 3 °C, schön\n" in path.read_bytes().decode("utf-8")
    assert stat.S_IMODE(path.stat().st_mode) & stat.S_IRUSR
