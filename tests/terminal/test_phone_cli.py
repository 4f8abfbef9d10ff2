"""The call in the terminal: read-aloud words, a visit against asking, dangers, what the caller volunteers."""

import pytest
from typer.testing import CliRunner

from faultdoc.cli import app
from faultdoc.library.load import load_library
from faultdoc.model.case import Case
from faultdoc.model.safety import TRIPPED, Qualification
from faultdoc.record.casebook import CaseBook
from faultdoc.record.phone import danger_told, hesitates
from faultdoc.record.settings import Settings
from faultdoc.terminal.wizard import Wish, run

LIBRARY = load_library()


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


def call(lines, travel=60.0):
    """Return what was said in a call of these lines, in one line, and the case it left."""
    said = []

    def ask(prompt):
        said.append(prompt)
        if not lines:
            raise EOFError
        return lines.pop(0)

    case = Case(unit="bluff_30", symptoms=("start_held_back",), state=TRIPPED, who=("caller",))
    settings = Settings.load().model_copy(update={"travel_minutes": travel, "emergency_numbers": ("Gate: 4444",)})
    book = CaseBook.open()
    try:
        left = run(ask, said.append, LIBRARY, book, settings, Wish(case=case, by_phone=True))
    finally:
        book.dispose()
    return " ".join(" ".join(said).split()), left


def test_a_step_has_its_words_to_read_aloud_and_the_visit_beside_it():
    said, _ = call(["understood", "1", "quit"])
    first = LIBRARY.questions["sh_smell"]
    assert f"READ ALOUD: {first.ask.caller}" in said
    assert f"If the caller hesitates: {hesitates(first)}" in said
    assert said.count("READ ALOUD: ") == 2
    assert "* Ask on: the next" in said
    assert "* Asking on: about" in said
    assert "* Send someone now: 1 h travel" in said
    far, _ = call(["quit"], travel=120.0)
    assert "Send someone now: 2 h travel" in far


def test_what_the_caller_volunteers_is_listed_and_taken_up():
    said, left = call(["said", "said gauge", "said clock", "change sh_reacts", "1", "quit"])
    assert "Type a word or two" in said
    assert "not for a caller:" in said
    assert "[change sh_reacts]" in said
    answered = {**left.answers, **left.readings}
    assert set(answered) == {"sh_reacts"}


def test_a_danger_ends_the_call_with_its_words_and_is_in_the_record():
    said, left = call(["danger", "danger 9", "danger 3"])
    stop = LIBRARY.plant.stops[2].text.partition(": ")[2]
    assert stop[1:] in said
    assert "Call for help now: Gate: 4444." in said
    assert "from 1 to 5" in said
    assert "I hang up now" in said
    assert danger_told(left)
    assert said.endswith("'faultdoc ask' offers it again.")


def test_an_answer_that_stops_is_read_aloud():
    said, _ = call(["understood", "2", "quit"])
    assert "READ ALOUD, one after the other: Thank you for telling me." in said


def test_without_the_wish_nothing_of_it_is_shown():
    book = CaseBook.open()
    said = []

    def ask(_):
        raise EOFError

    case = Case(unit="bluff_30", symptoms=("start_held_back",), state=TRIPPED, who=(Qualification.CALLER,))
    try:
        run(ask, said.append, LIBRARY, book, Settings.load(), Wish(case=case))
    finally:
        book.dispose()
    assert "READ ALOUD" not in " ".join(said)


def test_the_command_takes_unit_symptom_and_travel():
    runner = CliRunner()
    arguments = ["phone", "--unit", "bluff_30", "--symptom", "start_held_back", "--travel", "30"]
    told = runner.invoke(app, arguments, input="1\n1\nquit\n")
    said = " ".join(told.output.split())
    assert told.exit_code == 0, told.output
    assert "READ ALOUD: Stand well back, please." in said
    assert "Send someone now: 30 min travel" in said
    assert Settings.load().travel_minutes == 60.0  # an option holds for one call
    wrong = runner.invoke(app, ["phone", "--symptom", "walrus"])
    assert wrong.exit_code != 0
    assert runner.invoke(app, ["phone", "--travel", "-1"]).exit_code == 2
