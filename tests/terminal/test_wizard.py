import re
import tempfile
from functools import cache
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from faultdoc.diagnosis.assess import Step, assess, bench_for
from faultdoc.library.load import load_case, load_library, load_unit
from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Conclusion
from faultdoc.model.safety import PlantState, Qualification, StateNeed, may, possible, satisfies
from faultdoc.quantities import System
from faultdoc.record import moves
from faultdoc.record.casebook import CaseBook
from faultdoc.record.session import replay
from faultdoc.record.settings import Settings
from faultdoc.terminal.wizard import Wish, run

READY = {
    "supply": "energised",
    "panel": "closed",
    "pump": "stopped",
    "water": "pressurised",
    "compressors": "stopped",
    "oil": "warm",
}
SETUP = ["1", "1"]
"""The plant is as is usual, and has been energised long enough."""


@cache
def small_library():
    return load_library(Path(__file__).parents[1] / "record" / "valves.yaml")


@pytest.fixture
def library():
    return small_library()


@pytest.fixture(autouse=True)
def home(tmp_path, monkeypatch):
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


@pytest.fixture
def book(home):
    opened = CaseBook.open()
    yield opened
    opened.dispose()


class Person:
    """Types the lines given, then nothing more; keeps what was said."""

    def __init__(self, lines):
        self.lines, self.said, self.prompts = list(lines), [], []

    def ask(self, prompt):
        self.prompts.append(prompt)
        self.said.append(prompt)
        if not self.lines:
            raise EOFError
        line = self.lines.pop(0)
        self.said.append(f"> {line}")
        return line

    def tell(self, text):
        self.said.append(text)

    @property
    def heard(self):
        return " ".join(" ".join(self.said).split())


@pytest.fixture
def talk(library, book):
    """Return (lines, wish) -> the person after the talk, and the case left."""

    def run_with(lines, **wish):
        person = Person(lines)
        asked = {"unit": "bluff_30", "symptoms": ("valves",), "who": (Qualification.TECHNICIAN,), **wish}
        if asked.get("case"):
            asked = {"case": asked["case"], "save": wish.get("save")}
        case = run(person.ask, person.tell, library, book, Settings.load(), Wish(**asked))
        return person, case

    return run_with


QUESTIONS = ("valve_look", "drop_read", "pump_sound", "contact_read")


def start(*, asked=None, who=(Qualification.TECHNICIAN,), **state):
    """A case in which only the question `asked` is open, so that it comes next whatever else would be better."""
    case = Case(
        unit="bluff_30", symptoms=("valves",), state=PlantState.model_validate({**READY, **state}), who=who
    )
    for id in QUESTIONS:
        if asked and id != asked:
            case = moves.answer(case, id, "not_sure")
    return case


def at_the_valve():
    return start(asked="valve_look")


def since(case, before):
    """What was answered since."""
    return {id: said for id, said in case.answers.items() if before.answers.get(id) != said}


class Guide(Person):
    """Answers by what is asked, not in a fixed order: the valve is shut, all else is in order."""

    ANSWERS = (
        ("Which unit?", "1"),
        ("What is seen?", "1"),
        ("Who is on the job?", "3"),
        ("Is it so now?", "1"),
        ("energised without a break", "1"),
        ("How does the valve in the supply stand?", "3"),
        ("Pressure drop across the strainer [psi]", "0.1 psi"),
        ("How does the pump sound?", "1"),
        ("Type 'understood'", "understood"),
        ("type 'done'", "done"),
        ("Pressure drop across the evaporator barrel [psi]", "5.6 psi"),
        ("Close the case as fixed?", "1"),
        ("A last word", "Key left with the site"),
    )

    def __init__(self, report):
        super().__init__([])
        self.report, self.remedy = report, ""

    def ask(self, prompt):
        self.prompts.append(prompt)
        asked = " ".join([*self.said[-4:], prompt])
        if "REMEDY" in asked:
            self.remedy = asked
        self.said.append(prompt)
        if "Does the proof hold?" in asked:
            line = "1" if "Open the valve in the supply" in self.remedy else "2"
        elif "File for the report" in prompt:
            line = self.report
        else:
            line = max(self.ANSWERS, key=lambda pair: asked.rfind(pair[0]))[1]
        self.said.append(f"> {line}")
        return line


def test_from_the_first_choice_to_the_closed_and_reported_case(library, book, tmp_path):
    report, saved = tmp_path / "case.html", tmp_path / "case.yaml"
    person = Guide(str(report))
    case = run(person.ask, person.tell, library, book, Settings.load(), Wish(save=saved))
    proof = "Pressure drop across the evaporator barrel: 5.6 psi"
    assert case.conclusion == Conclusion(
        outcome="fixed", cause="valve_shut", proof=proof, note="Key left with the site"
    )
    assert case.readings["supply_valve_position"] == "shut"
    assert case.state.compressors.value == "running"
    (tried,) = case.tried
    assert (tried.cause, tried.proved, tried.note) == ("valve_shut", True, proof)
    assert set(tried.known) == {*case.readings, *case.answers}
    assert book.unfinished() == ()
    html = report.read_text(encoding="utf-8")
    assert "Key left with the site" in html
    assert "Start the pump: done" in html
    assert Settings.load().last_unit == "bluff_30"
    assert load_case(saved, library) == case
    # The proof's reading was of the mended unit: held against what is expected, and no evidence of the fault.
    assert "Water flow" in person.heard
    assert "barrel_pressure_drop" not in case.readings


def test_cautions_come_before_the_step_and_wait_to_be_understood(talk, library):
    person, case = talk(
        ["done", "yes", "understood", "done"], case=moves.answer(start(), "valve_look", "not_sure")
    )
    caution = library.plant.changes
    change = next(one for one in caution if one.id == "start_pump")
    heard = person.heard
    assert heard.index(change.cautions[0].text) < heard.index(change.title) < heard.index("type 'done'")
    assert heard.count("It goes on only after 'understood'.") == 2
    assert case.state.pump.value == "running"


def test_a_caution_understood_once_is_asked_again_the_next_time(talk):
    case = start(asked="drop_read")
    person, case = talk(["understood", "done", "undo", "done", "understood", "done"], case=case)
    assert case.state.pump.value == "running"
    assert person.heard.count("Type 'understood' when") == 3


def test_no_step_is_asked_of_people_who_may_not(talk):
    person, _ = talk([], case=start(asked="drop_read", who=(Qualification.CALLER,)))
    assert "HAND OVER" in person.heard
    assert "type 'done'" not in person.heard


@pytest.fixture
def at_the_strainer():
    return start(asked="drop_read", pump="running")


def test_readings_are_echoed_in_both_systems_and_checked(talk, at_the_strainer):
    person, case = talk(["8.2 ± 0.5"], case=at_the_strainer)
    # 8.2 psi is 56.5 kPa (1 psi = 6.894757 kPa, NIST SP 811 appendix B)
    assert "understood as 8.2 ± 0.5 psi = 56.5 ± 3.4 kPa" in person.heard
    reading = case.readings["strainer_pressure_drop"]
    assert reading.value == pytest.approx(8.2 * 6894.757, rel=1e-6)
    assert "12.0 standard uncertainties: high." in person.heard
    assert "check strainer_drop" in person.heard


def test_what_is_no_reading_is_refused_with_what_is_wanted(talk, at_the_strainer):
    person, case = talk(["much", "12 psig", "8 psi"], case=at_the_strainer)
    assert "'much' has no number in it" in person.heard
    assert "that is a gauge pressure" in person.heard
    assert case.readings["strainer_pressure_drop"].text == "8 psi"


def test_a_reading_in_doubt_is_kept_only_when_it_was_read_twice(talk, at_the_strainer):
    person, case = talk(["900 psi", "1", "800 psi", "2"], case=at_the_strainer)
    assert person.heard.count("Check the unit and read it again.") == 2
    assert case.readings["strainer_pressure_drop"].text == "800 psi"


def test_a_reading_that_cannot_be_is_refused(talk):
    person, case = talk(["change standing_pressure", "-20 psig", "3 psig"], case=start())
    assert "below a perfect vacuum" in person.heard
    assert "That cannot be: it is not kept." in person.heard
    assert case.readings["standing_pressure"].text == "3 psig"


@pytest.mark.parametrize(
    ("typed", "answer"), [("cannot", "could_not_measure"), ("unsure", "not_sure"), ("UNSURE", "not_sure")]
)
def test_no_answer_is_an_answer(talk, typed, answer):
    _, case = talk([typed], case=at_the_valve())
    assert since(case, at_the_valve()) == {"valve_look": answer}


def test_a_question_left_for_later_comes_back_when_asked_for(talk):
    person, case = talk(["skip", "change valve_look", "1"], case=at_the_valve())
    assert case.set_aside == ()
    assert case.readings == {"supply_valve_position": "open"}
    assert "'change valve_look' takes it up again" in person.heard


def test_a_question_nobody_here_may_answer_is_not_asked_on_wish(talk):
    person, case = talk(["change contact_read"], case=start())
    assert "Needs: qualified electrical worker." in person.heard
    assert case == start()


def test_a_question_on_wish_comes_only_after_its_state_and_its_cautions(talk, library):
    case = start(who=(Qualification.ELECTRICAL_WORKER,))
    lines = ["change contact_read", *["understood", "done"] * 2, "understood", "3"]
    person, after = talk(lines, case=case)
    assert after.readings == {"flow_switch_contact": "open"}
    assert after.state == start(pump="running", panel="open").state
    caution = library.questions["contact_read"].cautions[0].text
    assert caution in person.heard.partition("Closed (flow proved)")[0]


def test_a_question_left_for_later_is_taken_up_on_wish(talk):
    case = start(asked="contact_read", panel="open", pump="running", who=(Qualification.ELECTRICAL_WORKER,))
    _, after = talk(["change contact_read", "cannot"], case=moves.set_aside(case, "contact_read"))
    assert after.set_aside == ()
    assert since(after, case) == {"contact_read": "could_not_measure"}


def test_handing_over_says_what_could_still_be_asked(talk, monkeypatch):
    hand_over = Step("hand_over", "nothing_left", "Hand it over.", 0.0, StateNeed(), Qualification.CALLER)
    monkeypatch.setattr("faultdoc.terminal.wizard.shown_step", lambda *_: hand_over)
    person, _ = talk([], case=start(who=(Qualification.CALLER,)))
    assert "How does the lever on the outlet pipe stand? [change valve_look]" in person.heard
    assert "contact_read" not in person.heard


def test_an_answer_that_stops_the_work_shows_what_to_do_and_asks_no_more(book):
    """Cautions come first, then the text of the stop; only that answer is offered to be given anew."""
    shipped = load_library()
    case = Case(unit="bluff_30", symptoms=("unit_dead",), state=PlantState.model_validate(READY),
                who=(Qualification.CALLER,))  # fmt: skip
    person = Person(["understood", "2", "change ud_neighbours", "change ud_hurt_signs", "1"])
    left = run(person.ask, person.tell, shipped, book, Settings.load(), Wish(case=case))
    question = shipped.questions["ud_hurt_signs"]
    stop = question.outcomes[1].stop
    heard = person.heard
    told = heard[heard.index("STOP DANGER") :]
    assert told.index(question.cautions[0].text) < told.index(stop) < told.index("Nothing more is asked.")
    assert "'change ud_hurt_signs' answers anew" in told
    assert "could still be asked" not in heard
    assert "An answer has ended the work." in told
    assert left.answers == {"ud_hurt_signs": "none"}
    assert told.count("STOP DANGER") == 2


def test_undo_and_redo(talk, book):
    person, case = talk(["3", "undo", "redo", "undo", "undo", "1"], case=at_the_valve())
    assert case.readings == {"supply_valve_position": "open"}
    assert "There is nothing to take back." in person.heard
    assert [entry.move for entry in book.load(1)[1]] == ["do", "undo", "redo", "undo", "do"]


def test_a_changed_answer_replaces_the_one_before(talk):
    _, case = talk(["1", "change supply_valve_position", "3"], case=at_the_valve())
    assert case.readings == {"supply_valve_position": "shut"}
    _, case = talk(["1", "change valve_look", "unsure"], case=at_the_valve())
    assert case.readings == {}
    assert since(case, at_the_valve()) == {"valve_look": "not_sure"}


def test_a_check_question_is_asked_again_by_name(talk, at_the_strainer):
    _, case = talk(["8 psi", "change drop_read", "2 psi"], case=at_the_strainer)
    assert case.readings["strainer_pressure_drop"].text == "2 psi"


def test_enter_leaves_a_reading_as_it_is(talk, at_the_strainer):
    _, case = talk(["8 psi", "change drop_read", ""], case=at_the_strainer)
    assert case.readings["strainer_pressure_drop"].text == "8 psi"


def test_without_a_reading_the_check_says_what_it_wants(talk, at_the_strainer):
    person, case = talk(["", "cannot"], case=at_the_strainer)
    assert "Still wanted: strainer_pressure_drop." in person.heard
    assert case.answers["drop_read"] == "could_not_measure"


def test_commands_that_tell(talk, library, at_the_strainer):
    lines = ["8 psi", "why", "causes", "readings", "check", "check strainer_drop", "stops", "help"]
    person, case = talk(lines, case=at_the_strainer)
    heard = person.heard
    assert "expected" in heard
    assert "The strainer is dirty (water) [" in heard
    assert "How often it is the cause of this symptom" in heard
    assert "Pressure drop across the strainer: 8.0 psi [strainer_pressure_drop]" in heard
    assert "How does the valve in the supply stand? Not sure [valve_look]" in heard
    assert "Checks made: strainer_drop" in heard
    assert "Formula:" in heard
    for stop in library.plant.stops:
        assert f"{stop.signal.value.upper()}: {stop.text}" in heard
    assert "Emergency number: the site's own" in heard
    assert case.readings["strainer_pressure_drop"].text == "8 psi"


def test_units_are_switched_and_kept(talk, at_the_strainer):
    person, case = talk(["units", "55"], case=at_the_strainer)
    assert case.readings["strainer_pressure_drop"].value == pytest.approx(55e3)
    assert "[psi]" in person.prompts[0]
    assert "[kPa]" in person.prompts[1]
    assert Settings.load().system is System.SI


def test_state_and_people_are_put_right(talk):
    lines = ["state", "2", "", "", "2", "", "", "", "", "people", "1,4", "state", "1"]
    _, case = talk(lines, case=start())
    assert case.state == start(pump="running").state
    assert case.who == (Qualification.CALLER, Qualification.ELECTRICAL_WORKER)


def test_a_state_that_cannot_be_is_asked_again(talk):
    # Supply locked out and pump running; then all as it was.
    lines = ["state", "2", "2", "", "2", "", "", "", "", *[""] * 7]
    person, case = talk(lines, case=start())
    assert "The pump cannot run with the supply locked out." in person.heard
    assert case.state == start().state


def test_notes_save_and_report_on_the_way(talk, library, tmp_path):
    lines = [
        "note Smell of glycol",
        f"save {tmp_path / 'c.yaml'}",
        f"report {tmp_path / 'r.html'}",
        f"report {tmp_path / 'r.docx'}",
        f"save {tmp_path / 'no' / 'c.yaml'}",
        "save",
    ]
    person, case = talk(lines, case=start())
    assert load_case(tmp_path / "c.yaml", library) == case
    assert case.notes == ("Smell of glycol",)
    assert "Smell of glycol" in (tmp_path / "r.html").read_text(encoding="utf-8")
    assert "a report is written as .html or .pdf" in person.heard
    assert "c.yaml cannot be written" in person.heard
    assert "Type the file's name behind it" in person.heard


def test_a_case_is_closed_when_it_cannot_be_finished(talk, book):
    person, case = talk(["close", "2", "valves stay shut", ""], case=start())
    assert case.conclusion == Conclusion(outcome="made_safe", note="valves stay shut")
    assert book.unfinished() == ()
    assert "Made safe" in person.heard


def test_hand_over_is_offered_and_people_may_arrive(talk):
    case = start(asked="drop_read", who=(Qualification.CALLER,))
    _, case = talk(["2", "3"], case=case)
    assert case.who == (Qualification.TECHNICIAN,)
    assert case.conclusion is None


@pytest.mark.parametrize("proof", ["2", "1"])
def test_a_proof_that_does_not_hold_is_evidence(talk, library, proof):
    case = moves.repaired(start(pump="running"), "valve_shut")
    _, case = talk(["1 psi", proof], case=case)
    assert case.tried[0].proved is (proof == "1")
    bench = bench_for(library, load_unit("bluff_30"), ("valves",))
    before = assess(bench, start(pump="running")).belief.marginal
    after = assess(bench, case).belief.marginal
    place = bench.problem.sets.causes.index("valve_shut")
    assert bool(after[place] > before[place]) is (proof == "1")


def test_end_of_input_keeps_the_case_and_the_next_start_offers_it(talk, book):
    person, _ = talk(["3"], case=at_the_valve())
    assert "The case is kept as number 1" in person.heard
    waiting = book.unfinished()
    assert [one.id for one in waiting] == [1]

    again, resumed = talk(["2", "undo", "quit"], unit=None, symptoms=(), who=())
    assert "Case 1, bluff_30: valves" in again.heard
    assert resumed == at_the_valve()
    assert [entry.move for entry in book.load(1)[1]] == ["do", "undo"]


def test_a_new_case_may_be_begun_beside_a_waiting_one(talk, book):
    talk(["3"], case=at_the_valve())
    talk(["1", "1", "1", "3", *SETUP], unit=None, symptoms=(), who=())
    assert len(book.unfinished()) == 2


def test_end_of_input_before_anything_was_begun(talk, book):
    person, case = talk(["1"], unit=None, symptoms=(), who=())
    assert case is None
    assert "Nothing was begun" in person.heard
    assert book.unfinished() == ()


def test_quit_at_the_first_prompt(talk, book):
    person, case = talk(["help", "stops", "units", "quit"], unit=None, symptoms=(), who=())
    assert case is None
    assert "STOP work at once" in person.heard


def test_a_case_that_no_longer_fits_is_told_and_left(talk, book):
    book.start(start().model_copy(update={"symptoms": ("gone",)}))
    person, case = talk(["2"], unit=None, symptoms=(), who=())
    assert "Case 1 does not fit the trees and data sheets there are now" in person.heard
    assert case is None
    assert len(book.unfinished()) == 1


def test_numbers_that_are_none(talk):
    person, case = talk(["0", "9", "open", "1 2", "", "1"], case=at_the_valve())
    assert person.heard.count("type a number from 1 to 3") == 5
    assert case.readings == {"supply_valve_position": "open"}


def test_oil_is_warm_only_where_that_is_known(talk):
    _, case = talk(["1", "2"])
    assert case.state.oil.value == "cold"
    _, case = talk(["1", "1"])
    assert case.state.oil.value == "warm"


def test_lines_that_are_not_utf8_do_not_stop_the_journal(talk, book):
    _, case = talk(["note caf\udce9"], case=start())
    assert case.notes == ("caf?",)
    assert book.load(1)[1][0].case == case


def test_every_line_fits_eighty_columns(talk, at_the_strainer):
    person, _ = talk(
        ["8 psi", "why", "causes", "readings", "check strainer_drop", "help", "stops"], case=at_the_strainer
    )
    told = [
        line for text in person.said for line in text.splitlines() if not re.match(r"  [^ ]+:|.*[a-z_]{60}", line)
    ]
    assert [line for line in told if len(line) > 80 and "Source" not in line] == []


def test_a_failing_case_book_takes_no_move_and_goes_on(talk, book, monkeypatch):
    from faultdoc.record.casebook import CaseBookError

    real, calls = CaseBook.add, []

    def add(self, case_id, seq, entry):
        calls.append(entry.what)
        if len(calls) == 1:
            raise CaseBookError("The case book is locked by another program.")
        real(self, case_id, seq, entry)

    monkeypatch.setattr(CaseBook, "add", add)
    person, case = talk(["3", "1"], case=at_the_valve())
    assert "locked by another program" in person.heard
    assert case.readings == {"supply_valve_position": "open"}
    assert len(book.load(1)[1]) == 1


def test_measured_readings_of_the_proof_are_in_the_words_of_the_units(talk):
    case = moves.repaired(start(pump="running"), "valve_shut")
    _, case = talk(["units", "38", "1"], case=case)
    assert case.tried[0].note == "Pressure drop across the evaporator barrel: 38.0 kPa"
    assert not any(isinstance(one, Measured) for one in case.readings.values())


ODD = (
    *("1", "3", "", "done", "understood", "undo", "redo", "skip", "cannot", "unsure", "state", "people", "1,3"),
    *("why", "causes", "readings", "check", "units", "stops", "help", "change valve_look", "change drop_read"),
    *("change contact_read", "change supply_valve_position", "change standing_pressure", "900 psi", "-20 psig"),
    *("much", "note said", "close", "change nowhere", "save", "report", "check strainer_drop", "?"),
)


class Wanderer(Person):
    """Mostly does what is asked, and now and then something else."""

    def __init__(self, chance, prompts):
        super().__init__([])
        self.chance, self.left = chance, prompts

    def ask(self, prompt):
        if not self.left:
            raise EOFError
        self.left -= 1
        self.said.append(prompt)
        if self.chance.random() < 0.15:
            return self.chance.choice(ODD)
        for asked, answers in (
            ("'understood'", ["understood"]),
            ("'done'", ["done"]),
            ("[psi]", ["8 psi", "0.1", "1.2 psi ± 0.2"]),
            ("[kPa]", ["8 psi", "8"]),
            ("Numbers", ["3", "1,4", "4,5"]),
            ("Number", ["1", "2", "3"]),
        ):
            if asked in prompt:
                return self.chance.choice(answers)
        return ""


@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(chance=st.randoms(use_true_random=False), who=st.sampled_from(Qualification))
def test_whatever_is_typed_the_journal_holds_the_case_and_nobody_does_what_they_may_not(chance, who):
    library = small_library()  # no fixture: hypothesis would print all of it
    with tempfile.TemporaryDirectory() as folder:
        book = CaseBook.open(Path(folder) / "cases.sqlite")
        person = Wanderer(chance, 70)
        case = run(person.ask, person.tell, library, book, Settings(), Wish(case=start(who=(who,))))
        first, entries = book.load(1)
        session = replay(bench_for(library, load_unit("bluff_30"), ("valves",)), first, entries)
        assert session.case == case
        before = first
        for entry in entries:
            now, people = entry.case, frozenset(before.who)
            assert possible(now.state)
            if entry.move == "do" and now.unproved and now.unproved != before.unproved:
                remedy = library.causes[now.unproved].remedy
                assert may(people, remedy.who)
                assert satisfies(before.state, remedy.state)
            if entry.move == "do" and entry.what.endswith(": done") and now.state != before.state:
                change = next(one for one in library.plant.changes if entry.what == f"{one.title}: done")
                assert may(people, change.who)
                assert satisfies(before.state, change.when)
            before = now
        book.dispose()
