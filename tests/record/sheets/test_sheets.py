"""Many readings at once: rows, pasted tables, loggers' files. Made-up logs only."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.library.load import load_unit
from faultdoc.library.problems import FileProblems
from faultdoc.library.vocabulary import load_points
from faultdoc.model.case import Case
from faultdoc.model.safety import TRIPPED, Qualification
from faultdoc.quantities import Kind, System, parse
from faultdoc.record.sheets import log as log_module
from faultdoc.record.sheets.log import read_log, read_log_text
from faultdoc.record.sheets.mapping import Column, before, guessed, recalled, remember, series, trip
from faultdoc.record.sheets.rows import look, named, pasted, taken

POINTS = load_points()
SHEET = load_unit("bluff_30")
CASE = Case(unit="bluff_30", symptoms=("flow_proving_trip",), state=TRIPPED, who=(Qualification.TECHNICIAN,))


def test_rows_are_understood_doubted_or_refused() -> None:
    texts = {
        "water_flow": "58 gpm", "suction_pressure_a": "lots", "standing_pressure": "-40 psi",
        "supply_valve_position": "part", "ambient_air_temperature": " ",
    }  # fmt: skip
    rows = look(texts, SHEET, POINTS, CASE, System.US)
    assert set(rows) == set(texts) - {"ambient_air_temperature"}
    assert rows["water_flow"].echo.startswith("understood as 58 gpm")
    assert rows["suction_pressure_a"].problem
    assert rows["standing_pressure"].impossible
    assert "vacuum" in " ".join(rows["standing_pressure"].doubts)
    assert rows["supply_valve_position"].reading == "part_open"
    after = taken(CASE, rows)
    assert set(after.readings) == {"water_flow", "standing_pressure", "supply_valve_position"}
    assert look({"sight_glass_a": "foam"}, SHEET, POINTS, CASE, System.US)["sight_glass_a"].problem.startswith(
        "one of"
    )


@pytest.mark.parametrize("id", POINTS)
def test_every_point_is_found_by_its_id_and_its_title(id: str) -> None:
    assert named(id, POINTS) == id
    assert named(POINTS[id].title.upper(), POINTS) == id


@pytest.mark.parametrize(
    ("name", "point"),
    [
        ("Suction pressure A", "suction_pressure_a"),
        ("Discharge Pressure, circuit B", "discharge_pressure_b"),
        ("water flow", "water_flow"),
        ("temperature", None),
        ("", None),
        ("no such thing", None),
    ],
)
def test_names_stand_for_one_point_or_none(name: str, point: str | None) -> None:
    assert named(name, POINTS) == point


def test_tables_are_pasted_whichever_way_they_lie() -> None:
    down = pasted("Water flow\t58\tgpm\nstanding pressure\t22 psi\nunknown\t3\n\n", POINTS)
    assert [(one.point, one.text) for one in down] == [
        ("water_flow", "58 gpm"), ("standing_pressure", "22 psi"), (None, "3")
    ]  # fmt: skip
    across = pasted("water flow\tstanding pressure\tfrequency\n58 gpm\t22 psi\t60 Hz", POINTS)
    assert [one.point for one in across] == ["water_flow", "standing_pressure", "frequency"]
    bare = pasted("58\n22", POINTS, below=("water_flow",))
    assert [(one.point, one.text) for one in bare] == [("water_flow", "58"), (None, "22")]


AMERICAN = """Logger export
Site,none
Date,Time,Suction pressure circuit A (psig),Pump current L1 [A],Water entering the unit (°F),remark
07/14/2026,13:00:00,62.0,7.5,54.0,
07/14/2026,13:00:10,61.8,7.6,54.1,
07/14/2026,13:00:20,62.2,7.5,54.1,ok
07/14/2026,13:00:30,95.0,0.0,54.2,
07/14/2026,13:00:40,99.0,0.0,54.4,
"""
EUROPEAN = """Zeit time;Suction pressure A;Water flow
;bar;L/s
14.07.2026 13:00:00;4,27;3,6
14.07.2026 13:01:00;4,30;3,7
"""


def test_an_american_and_a_european_log_are_read() -> None:
    log = read_log_text(AMERICAN, "a.csv")
    assert log.columns == (
        "Suction pressure circuit A (psig)", "Pump current L1 [A]", "Water entering the unit (°F)",
    )  # fmt: skip
    assert log.times.tolist() == [0.0, 10.0, 20.0, 30.0, 40.0]
    assert log.timed
    assert log.start == "07/14/2026 13:00:00"
    other = read_log_text(EUROPEAN, "b.csv")
    assert other.columns == ("Suction pressure A (bar)", "Water flow (L/s)")
    assert other.values.tolist() == [[4.27, 3.6], [4.30, 3.7]]
    assert other.times.tolist() == [0.0, 60.0]
    columns = guessed(other, POINTS, System.US)
    found = series(other, columns, POINTS)
    assert found["suction_pressure_a"] == pytest.approx([427e3, 430e3])
    assert found["water_flow"] == pytest.approx([3.6e-3, 3.7e-3])


def test_columns_are_guessed_the_trip_found_and_the_readings_before_it_taken() -> None:
    log = read_log_text(AMERICAN, "a.csv")
    columns = guessed(log, POINTS, System.US)
    assert {one.point for one in columns.values()} == {
        "suction_pressure_a", "pump_current_l1", "water_in_temperature",
    }  # fmt: skip
    found = series(log, columns, POINTS)
    assert found["water_in_temperature"][0] == pytest.approx(parse("54 °F", Kind.TEMPERATURE).value)
    row = trip(found)
    assert row == 3
    texts = before(log, found, row, 60.0, POINTS, System.US)
    suction = parse(texts["suction_pressure_a"], Kind.GAUGE_PRESSURE)
    assert suction.value == pytest.approx(parse("62 psi", Kind.GAUGE_PRESSURE).value, rel=1e-3)
    assert suction.limit is not None
    rows = look(texts, SHEET, POINTS, CASE, System.US)
    assert all(one.reading is not None for one in rows.values())
    # Ten seconds hold one row only, so nothing wandered.
    assert "±" not in before(log, found, row, 10.0, POINTS, System.US)["suction_pressure_a"]


def test_midnight_elapsed_hours_and_no_times_at_all() -> None:
    night = read_log_text("Time,A,B\n23:59:00,1,2\n23:59:30,1,2\n00:00:30,1,3\n", "n.csv")
    assert night.times.tolist() == [0.0, 30.0, 90.0]
    hours = read_log_text("time (h),A,B\n0.0,1,2\n0.5,1,2\n1.0,1,3\n", "h.csv")
    assert hours.times.tolist() == [0.0, 1800.0, 3600.0]
    bare = read_log_text("A,B\n1,2\n1,2\n", "b.csv")
    assert not bare.timed
    assert bare.times.tolist() == [0.0, 1.0]


def test_a_logger_is_known_again_by_its_columns(tmp_path, monkeypatch) -> None:
    monkeypatch.setenv("FAULTDOC_HOME", str(tmp_path))
    log = read_log_text(AMERICAN, "a.csv")
    assert recalled(log) == {}
    columns = {log.columns[1]: Column(point="pump_current_l2", unit="A")}
    remember(log, columns)
    again = read_log_text(AMERICAN.replace("62.0", "63.0"), "later.csv")
    assert recalled(again) == columns
    assert recalled(read_log_text(EUROPEAN, "b.csv")) == {}
    (tmp_path / "loggers.json").write_text("{]")
    assert recalled(log) == {}
    remember(log, columns)
    assert recalled(log) == columns


@pytest.mark.parametrize("text", ["", "words only\nand more\n", "a,b\n", "\0\0", "x;y\nq;w\ne;r\n"])
def test_what_is_no_table_is_refused_with_its_name(text: str) -> None:
    with pytest.raises(FileProblems, match=r"x\.csv"):
        read_log_text(text, "x.csv")


def test_large_files_are_refused(tmp_path, monkeypatch) -> None:
    path = tmp_path / "big.csv"
    path.write_text("a,b\n" + "1,2\n" * 100)
    monkeypatch.setattr(log_module, "LARGEST", 50)
    with pytest.raises(FileProblems, match="more than"):
        read_log(path)
    monkeypatch.setattr(log_module, "LARGEST", 50_000)
    monkeypatch.setattr(log_module, "MOST_ROWS", 10)
    with pytest.raises(FileProblems, match="rows"):
        read_log(path)
    with pytest.raises(FileProblems, match="no file that can be read"):
        read_log(tmp_path / "none.csv")


@settings(max_examples=200, deadline=None, derandomize=True)
@given(st.text(alphabet="0123456789.,;\t\n\"'ab:-/ \r", max_size=400))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        log = read_log_text(text, "x.csv")
    except FileProblems:
        return
    assert log.values.shape == (len(log.times), len(log.columns))
    assert len(set(log.columns)) == len(log.columns)
    assert (np.diff(log.times) >= 0.0).all()
