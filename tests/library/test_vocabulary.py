import pytest

from faultdoc.library.places import resources_folder
from faultdoc.library.problems import FileProblems
from faultdoc.library.vocabulary import believable, load_points, usual_limit
from faultdoc.quantities import Kind

ENTRY = """\
points:
  - id: pump_current_{line}
    kind: current
    title: Pump current
    where: At the contactor
    how: Jaw round one lead.
    instrument: Clamp meter
    limit_of_reading: 0.02
    least: 0 A
    most: 400 A
"""


def refused(path):
    with pytest.raises(FileProblems) as caught:
        load_points(path)
    return caught.value.problems


def test_families_are_written_out() -> None:
    points = load_points()
    assert {f"pump_current_l{n}" for n in (1, 2, 3)} <= set(points)
    assert "compressor_current_8_l3" in points
    assert "voltage_l2_l3" in points
    assert "voltage_l2_ground" in points
    assert not any("{" in id or "{" in point.title for id, point in points.items())
    # Every entry of the file, with braces times the members of its families.
    text = (resources_folder() / "points.yaml").read_text(encoding="utf-8")
    size = {"circuit": 4, "number": 8, "line": 3, "pair": 3}
    wanted = 0
    for row in text.splitlines():
        if row.startswith("  - id: "):
            times = 1
            for family, members in size.items():
                times *= members ** row.count("{" + family + "}")
            wanted += times
    assert len(points) == wanted


def test_titles_say_which_one() -> None:
    points = load_points()
    assert points["pump_current_l1"].title == "Pump current, L1"
    assert points["suction_pressure_b"].title == "Suction pressure, circuit B"
    assert points["voltage_l1_l2"].title == "Supply voltage between lines, L1-L2"
    assert points["fan_current_2_l3"].title == "Condenser fan current, number 2, L3"
    assert len({point.title for point in points.values()}) == len(points)


def test_points_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        load_points()["water_flow"] = None  # type: ignore[index]


def test_limits_are_differences() -> None:
    points = load_points()
    assert usual_limit(points["ambient_air_temperature"], 300.0) == pytest.approx(1.0)  # 1 °C is 1 K here
    assert usual_limit(points["barrel_in_pressure"], 5e5) == pytest.approx(7000.0)
    assert usual_limit(points["pump_current_l1"], 50.0) == pytest.approx(1.0)
    assert usual_limit(points["pump_current_l1"], -50.0) == pytest.approx(1.0)
    with pytest.raises(ValueError, match="choice"):
        usual_limit(points["pump_rotation"], 1.0)


def test_what_can_be_believed() -> None:
    point = load_points()["water_in_temperature"]  # -20 to 60 °C
    assert believable(point, 273.15 - 20.0)
    assert not believable(point, 273.15 - 20.1)
    assert not believable(point, 273.15 + 60.1)


@pytest.mark.parametrize(
    ("old", "new", "key", "words"),
    [
        ("least: 0 A", "least: 0", "points[0] (pump_current_{line}).least", "put it in quotes"),
        ("least: 0 A", "least: '0'", "points[0] (pump_current_{line}).least", "such as 0 A"),
        ("most: 400 A", "most: 400 V", "points[0] (pump_current_{line}).most", "'V' is not a unit of current"),
        ("limit_of_reading: 0.02", "limit: 0 A", "points[0] (pump_current_{line}).limit", "limit of error"),
        ("most: 400 A", "most: -1 A", "points[0] (pump_current_{line}).least", "exchange or correct them"),
        ("{line}", "{lines}", "points[0] (pump_current_{lines}).id", "name one of these families"),
    ],
)
def test_texts_must_mean_something_of_the_points_kind(write, line, old, new, key, words) -> None:
    text = ENTRY.replace(old, new)
    (problem,) = refused(write("points.yaml", text))
    assert problem.key == key
    assert words in problem.remedy
    assert problem.line == line(text, key.rpartition(".")[2] + ": ")


def test_the_limit_of_a_temperature_is_a_difference(write) -> None:
    entry = ENTRY.replace("kind: current", "kind: gauge pressure").replace(
        "limit_of_reading: 0.02", "limit: 1 psig"
    )
    entry = entry.replace("0 A", "0 psi", 1).replace("400 A", "400 psi")
    (problem,) = refused(write("points.yaml", entry))
    assert problem.allowed.startswith("a pressure difference in")
    assert problem.remedy.startswith("that is a gauge pressure, and a pressure difference is wanted")


def test_two_entries_for_one_point(write) -> None:
    text = ENTRY + ENTRY.removeprefix("points:\n").replace("{line}", "l2")
    (problem,) = refused(write("points.yaml", text))
    assert (problem.line, problem.key) == (11, "points[1] (pump_current_l2).id")
    assert "'pump_current_l2' is defined already" in problem.remedy


def test_choices_and_instruments_error_belong_to_their_kinds(write) -> None:
    text = ENTRY.replace("kind: current", "kind: choice")
    (problem,) = refused(write("points.yaml", text))
    assert problem.allowed == "choices are for points of kind 'choice', and those need them"
    text = ENTRY.replace("    limit_of_reading: 0.02\n", "")
    (problem,) = refused(write("points.yaml", text))
    assert problem.allowed.startswith("a measured point needs limit or limit_of_reading")
    assert problem.remedy == "add limit or limit_of_reading"
    text = ENTRY.replace("kind: current", "kind: choice\n    choices: [{id: aa, title: A}]")
    assert [problem.key.rpartition(".")[2] for problem in refused(write("points.yaml", text))] == [
        "limit_of_reading", "least", "most",
    ]  # fmt: skip


def test_every_kind_of_reading_has_a_point() -> None:
    assert {Kind.TEMPERATURE, Kind.GAUGE_PRESSURE, Kind.PRESSURE_DIFFERENCE, Kind.CHOICE} <= {
        point.kind for point in load_points().values()
    }
