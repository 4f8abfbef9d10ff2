"""How simulated rows are told beside the authored ones."""

from dataclasses import replace
from pathlib import Path

from faultdoc.library.load import load_library
from faultdoc.model.calibration import SimulatedShift, SimulatedWeights
from faultdoc.model.tree import Basis, Shift, Weights
from faultdoc.practice.calibrate import Drawn, Finding, Outcome
from faultdoc.practice.closed_loop import Score
from faultdoc.terminal import calibrate
from faultdoc.terminal.calibrate import difference_text, finding_text, score_text

OLD = Shift(shift=1.0, spread=0.1, basis=Basis.ESTIMATE)
NEW = SimulatedShift(shift=0.25, spread=0.3, draws=24, basis="simulated")
FOUND = Finding("drop", "strainer_clogged", Outcome.DIFFERS, NEW, OLD, 0.9, "two heaps")


def flat(text: str) -> str:
    return " ".join(text.split())


def test_a_row_is_told_in_words_and_numbers():
    said = flat(finding_text(FOUND))
    assert "authored 1 ± 0.1; simulated 0.25 ± 0.3 (24 draws): lower by 0.75, wider; two heaps" in said
    assert "hardly moves" in finding_text(replace(FOUND, outcome=Outcome.STILL))
    assert "does not say so" in flat(finding_text(replace(FOUND, outcome=Outcome.ADDED)))


def test_a_choice_is_told_by_what_it_shows_more_often():
    old = Weights(p={"open": 0.1, "shut": 0.9}, basis=Basis.ESTIMATE)
    new = SimulatedWeights(p={"open": 0.4, "shut": 0.6}, draws=24, basis="simulated")
    said = flat(finding_text(replace(FOUND, row=new, authored=old, remark="")))
    assert "authored open 10 %, shut 90 %; simulated open 40 %, shut 60 % (24 draws): more often 'open'" in said


def test_the_most_different_come_first_and_the_rest_are_counted():
    near = replace(FOUND, question="near", distance=0.2)
    text = difference_text("low_suction", [near, FOUND, replace(FOUND, outcome=Outcome.NO_WAY, row=None)], most=1)
    assert "low_suction: 3 rows: 2 differs, 1 the simulator knows no way" in flat(text)
    assert "drop, strainer_clogged" in text
    assert "near, strainer_clogged: authored" not in flat(text)
    assert "1 more that differ" in text


def test_figures_stand_before_and_after():
    before = Score(
        cases=200,
        stopped=2,
        first=0.5,
        first_three=0.75,
        solved=0.7,
        first_remedy_right=0.5,
        questions=9.0,
        wrong_fixes=1.0,
        minutes_mean=90.0,
        minutes_whole=95.0,
        minutes_best=40.0,
        minutes_simple={},
        brier=0.5,
        calibration_error=0.2,
        calibration_chance=0.04,
        turned_down=0.1,
        reliability=(),
        gave_up=0.0,
        unsafe_steps=0,
        drawn=0.3,
        lost=(),
    )
    text = score_text(before, replace(before, first=0.625, brier=0.4), 1_000_000)
    assert "200 cases, seeds from 1,000,000" in text
    assert "50.0%" in text
    assert "62.5%" in text
    assert flat(text).count("0.500 0.400") == 1


def test_run_writes_only_when_told(monkeypatch):
    drawn = {
        ("supply_phase_order", "phase_sequence"): {
            "default": [Drawn("bluff_30", 0.0, "forward", "forward")] * 10,
            "supply_phases_reversed": [Drawn("bluff_30", 1.0, "reversed", "forward")] * 10,
        }
    }
    written = []
    monkeypatch.setattr(calibrate, "gather", lambda *_: drawn)
    monkeypatch.setattr(calibrate, "save_calibration", _keep(written))
    told = []
    calibrate.run(told.append, load_library(calibrated=False), tree="supply_phase_order", draws=10)
    assert not written
    assert "supply_phase_order" in told[0]
    calibrate.run(told.append, load_library(calibrated=False), tree="supply_phase_order", draws=10, write=True)
    assert [one.tree for one in written] == ["supply_phase_order"]


def _keep(written):
    def save(one):
        written.append(one)
        return Path("calibration") / f"{one.tree}.yaml"

    return save
