import pytest

from faultdoc.library.load import load_library, load_plant, load_trees, load_unit, units
from faultdoc.library.places import resources_folder
from faultdoc.library.problems import FileProblems
from faultdoc.quantities import Kind, parse


@pytest.fixture
def problems(write, tree_text):
    """Return a function that spoils the good tree and gives what is then said of it."""

    def spoil(*changes: tuple[str, str]):
        text = tree_text
        for old, new in changes:
            assert text.count(old) >= 1, old
            text = text.replace(old, new, 1)
        path = write("trees/no_flow.yaml", text)
        with pytest.raises(FileProblems) as caught:
            load_trees(path)
        return text, caught.value.problems

    return spoil


def test_the_good_tree_loads(write, tree_text) -> None:
    catalogue = load_trees(write("trees/no_flow.yaml", tree_text).parent)
    assert list(catalogue.trees) == ["no_flow"]
    assert list(catalogue.causes) == ["strainer_clogged", "valve_shut", "contact_open"]
    assert list(catalogue.questions) == ["valve_position", "strainer_drop"]
    assert catalogue.defined_in["valve_shut"] == "no_flow"
    assert catalogue.causes["strainer_clogged"].rate == 80


@pytest.mark.parametrize(
    ("old", "new", "marked", "key", "found", "allowed", "remedy"),
    [
        (
            "minutes: 25",
            "minutes: ten",
            "minutes: ten",
            "causes[0] (strainer_clogged).remedy.minutes",
            "'ten'",
            "a number from 0 to 10000",
            "write 10",
        ),
        (
            "minutes: 25",
            "minutes: 25 min",
            "25 min",
            "causes[0] (strainer_clogged).remedy.minutes",
            "'25 min'",
            "a number from 0 to 10000",
            "write 25 alone, without a unit",
        ),
        (
            "rate: 80",
            "rate: '80'",
            "rate: '80'",
            "causes[0] (strainer_clogged).rate",
            "'80'",
            "a number above 0 and below 1000",
            "write 80 without quotation marks",
        ),
        (
            "rate: 80",
            "rate: 0",
            "rate: 0",
            "causes[0] (strainer_clogged).rate",
            "0",
            "a number above 0 and below 1000",
            "write a number in that range",
        ),
        (
            "rate: 80",
            "rate: yes",
            "rate: yes",
            "causes[0] (strainer_clogged).rate",
            "'yes'",
            "a number above 0 and below 1000",
            "write such a number",
        ),
        (
            "rate: 80",
            "rate: true",
            "rate: true",
            "causes[0] (strainer_clogged).rate",
            "true",
            "a number above 0 and below 1000",
            "write a number in that range",
        ),
        (
            "shift: 0.0",
            "shift: .nan",
            "shift: .nan",
            "questions[1] (strainer_drop).given.default.shift",
            "'.nan'",
            "a number",
            "write such a number",
        ),
        (
            "rate: 80",
            "rates: 80",
            "rates: 80",
            "causes[0] (strainer_clogged).rates",
            "the unknown key 'rates'",
            "id, title, system, rate, basis, source, mechanism, customer, remedy, same_as, only_with",
            "did you mean 'rate'?",
        ),
        (
            "system: control",
            "system: contrl",
            "contrl",
            "causes[2] (contact_open).system",
            "'contrl'",
            "one of water, refrigerant, electrical, control, site",
            "did you mean 'control'?",
        ),
        (
            "id: valve_shut\n",
            "id: Valve shut\n",
            "Valve shut",
            "causes[1] (Valve shut).id",
            "'Valve shut'",
            "a name of lower-case letters, digits and _",
            "write valve_shut",
        ),
        (
            "steps: [Open it fully.]",
            "steps: Open it fully.",
            "steps: Open",
            "causes[1] (valve_shut).remedy.steps",
            "'Open it fully.'",
            "a list, each item text, not empty, of at most 4000 characters",
            "write a list: [Open it fully.]",
        ),
        (
            "steps: [Open it fully.]",
            "steps: []",
            "steps: []",
            "causes[1] (valve_shut).remedy.steps",
            "a list of 0",
            "a list, each item text, not empty, of at most 4000 characters",
            "add what is missing",
        ),
        (
            "title: Clean the strainer",
            "title: 12",
            "title: 12",
            "causes[0] (strainer_clogged).remedy.title",
            "12",
            "text, not empty, of at most 4000 characters",
            'put it in quotes: "12"',
        ),
        (
            "title: Clean the strainer",
            "title:",
            "title:\n",
            "causes[0] (strainer_clogged).remedy.title",
            "nothing",
            "text, not empty, of at most 4000 characters",
            "write that",
        ),
        (
            "state: {pump: running}",
            "state: running",
            "state: running",
            "causes[0] (strainer_clogged).remedy.proof.state",
            "'running'",
            "a map with the keys supply, panel, pump, water, compressors, oil, refrigerant",
            "write 'key: value' lines below it, further to the right",
        ),
        (
            "signal: danger, text: Live parts kill. Prove",
            "signal: dangr, text: Live parts kill. Prove",
            "dangr",
            "causes[2] (contact_open).remedy.cautions[0].signal",
            "'dangr'",
            "one of danger, warning, caution, notice",
            "did you mean 'danger'?",
        ),
    ],
)
def test_one_mistake(problems, old, new, marked, key, found, allowed, remedy) -> None:
    text, (problem,) = problems((old, new))
    assert problem.line == text[: text.index(marked)].count("\n") + 1
    assert (problem.key, problem.found, problem.allowed, problem.remedy) == (key, found, allowed, remedy)


def test_a_cause_without_remedy_or_proof_is_told_what_they_are_for(problems, tree_text, line) -> None:
    proof = tree_text[tree_text.index("      proof:\n") : tree_text.index("  - id: valve_shut")]
    _, (problem,) = problems((proof, ""))
    assert problem.key == "causes[0] (strainer_clogged).remedy"
    assert problem.line == line(tree_text, "id: strainer_clogged") + 6
    assert problem.found == "no 'proof'"
    assert "text, points" in problem.allowed
    assert problem.remedy == "add 'proof:' here (The reading that shows a remedy has fixed the cause)"
    remedy = tree_text[tree_text.index("    remedy:\n") : tree_text.index("  - id: valve_shut")]
    _, (problem,) = problems((remedy, ""))
    assert (problem.key, problem.found) == ("causes[0] (strainer_clogged)", "no 'remedy'")
    assert problem.line == line(tree_text, "id: strainer_clogged")
    assert problem.remedy == "add 'remedy:' here (How a cause is put right)"


def test_rows_are_measured_against_the_sort_that_was_meant(problems, line) -> None:
    text, found = problems(
        (
            "default: {shift: 0.0, spread: 0.3, basis: estimate}",
            "default: {shift: 0.0, sprad: 0.3, basis: estimate}",
        ),
        ("valve_shut: {p: {open: 0.02", "valve_shut: {p: {open: 1.02"),
    )
    where = [(problem.line, problem.key.partition("given.")[2], problem.found) for problem in found]
    row = line(text, "sprad")
    assert where == [
        (line(text, "1.02"), "valve_shut.p.open", "1.02"),
        (row, "default.sprad", "the unknown key 'sprad'"),
    ]
    assert found[0].allowed == "a number from 0 to 1"
    assert found[1].remedy == "did you mean 'spread'?"


def test_a_row_of_the_wrong_sort_is_told_at_the_row(problems, line) -> None:
    text, (problem,) = problems(
        (
            "strainer_clogged: {shift: 4.0, spread: 2.0, basis: estimate}",
            "strainer_clogged: {p: {}, basis: estimate}",
        )
    )
    assert problem.line == line(text, "strainer_clogged: {p")
    assert problem.key == "questions[1] (strainer_drop).given.strainer_clogged"
    assert "must be {shift, spread, basis}" in problem.allowed
    assert problem.remedy == "write the row in that form"


def test_a_row_that_is_no_map(problems, line) -> None:
    text, (problem,) = problems(
        ("valve_shut: {p: {open: 0.02, part_open: 0.08, shut: 0.9}, basis: estimate}", "valve_shut: 0.9")
    )
    assert problem.line == line(text, "valve_shut: 0.9")
    assert problem.key == "questions[0] (valve_position).given.valve_shut"
    assert problem.found == "0.9"
    assert problem.remedy


def test_a_gate_of_two_kinds(problems, line) -> None:
    text, (problem,) = problems(
        ("any: [strainer_clogged, valve_shut]", "any: [strainer_clogged], all: [valve_shut, contact_open]")
    )
    assert problem.line == line(text, "all: [valve_shut")
    assert problem.key == "events[2] (restriction).any"
    assert problem.allowed.startswith("a gate has exactly one of")
    assert problem.remedy.startswith("change any or all")


def test_a_question_of_two_kinds(problems, line) -> None:
    text, found = problems(("    check: strainer_drop\n", ""))
    assert [problem.line for problem in found] == [line(text, "id: strainer_drop")]
    assert found[0].allowed == "a question has either outcomes or a check, and exactly one of them"
    assert found[0].remedy == "add outcomes or check"


def test_the_same_id_twice_in_a_file_names_the_other_line(problems, line) -> None:
    text, (problem,) = problems(("  - id: valve_shut", "  - id: strainer_clogged"))
    first = line(text, "title: The strainer is clogged") - 1
    assert problem.key == "causes[1] (strainer_clogged).id"
    assert problem.line == line(text, "title: A valve is shut") - 1
    assert problem.remedy.startswith(f"line {first} has it already")


def test_a_cause_with_the_id_of_a_gate_and_outcomes_twice(problems) -> None:
    _, found = problems(("  - id: valve_shut", "  - id: restriction"), ("{id: part_open,", "{id: open,"))
    found = [problem.found for problem in found]
    # The model refuses the outcomes as well, as a list of three.
    assert found == ["the id 'restriction' again", "a list of 3", "the id 'open' again"]


def test_a_cause_and_a_question_are_defined_in_one_file(write, tree_text, line) -> None:
    first = write("trees/a_first.yaml", tree_text)
    second = write("trees/b_second.yaml", tree_text.replace("id: no_flow\n", "id: low_flow\n"))
    with pytest.raises(FileProblems) as caught:
        load_trees(first.parent)
    found = caught.value.problems
    assert {problem.file for problem in found} == {str(second)}
    assert [problem.found for problem in found] == [
        f"the {what} again"
        for what in (
            "cause 'strainer_clogged'",
            "cause 'valve_shut'",
            "cause 'contact_open'",
            "question 'valve_position'",
            "question 'strainer_drop'",
        )
    ]
    assert found[0].remedy.startswith(f"{first}:{line(tree_text, '  - id: strainer_clogged')} defines it")


def test_a_tree_may_refer_to_causes_of_another(write, tree_text) -> None:
    write("trees/a.yaml", tree_text)
    other = (
        "id: freeze_trip\ntitle: T\nsymptom: S\ntop: too_cold\n"
        "events: [{id: too_cold, title: Too cold, any: [strainer_clogged, valve_shut]}]\n"
        "causes: []\nquestions: []\n"
    )
    catalogue = load_trees(write("trees/b.yaml", other).parent)
    assert list(catalogue.trees) == ["no_flow", "freeze_trip"]
    assert catalogue.defined_in["strainer_clogged"] == "no_flow"


def test_every_mistake_is_told_at_once_in_the_order_of_lines(problems) -> None:
    _, found = problems(
        ("rate: 80", "rate: many"),
        ("system: site", "system: stie"),
        ("minutes: 60", "minuts: 60"),
        ("signal: warning", "signal: warn"),
        ("check: strainer_drop", "check: Strainer Drop"),
        ("open: 0.97", "open: 97"),
        ("title: No water flow", "title: {a: 1}"),
    )
    assert [problem.line for problem in found] == sorted(problem.line for problem in found)
    assert {problem.key.split(".")[-1] for problem in found} == {
        "title",
        "rate",
        "system",
        "signal",
        "minuts",
        "check",
        "open",
    }
    assert all(problem.remedy for problem in found)


def test_mistakes_of_all_files_are_told_at_once(write, tree_text) -> None:
    write("trees/a.yaml", tree_text.replace("rate: 80", "rate: x"))
    write("trees/b.yaml", "a: [\n")
    with pytest.raises(FileProblems) as caught:
        load_library(write("trees/c.yaml", "[]\n").parent)
    assert [problem.file[-6:] for problem in caught.value.problems if problem.file.endswith("a.yaml")] == [
        "a.yaml"
    ]
    assert {problem.file[-6:] for problem in caught.value.problems} == {"a.yaml", "b.yaml", "c.yaml"}


def test_a_folder_without_trees_is_told(tmp_path) -> None:
    with pytest.raises(FileProblems, match="no fault trees"):
        load_trees(tmp_path)


def test_own_data_sheets_load_and_mean_what_they_say() -> None:
    assert {"bluff_30", "marten_60"} <= set(units())
    for unit in units():
        assert load_unit(unit).id == unit
    sheet = load_unit("bluff_30")
    assert sheet.water.design_flow == pytest.approx(parse("72 gpm", Kind.VOLUME_FLOW).value)
    # 54 °F = 12.222 °C, 44 °F = 6.667 °C: by hand, (F - 32) / 1.8.
    assert sheet.water.design_entering - 273.15 == pytest.approx(22 / 1.8)
    assert sheet.water.design_leaving - 273.15 == pytest.approx(12 / 1.8)


def test_an_unknown_unit_is_told_which_there_are() -> None:
    with pytest.raises(FileProblems) as caught:
        load_unit("bluf_30")
    (problem,) = caught.value.problems
    assert "bluff_30" in problem.allowed
    assert problem.remedy == "did you mean 'bluff_30'?"


def test_a_data_sheet_by_path_reports_quantities_and_its_own_rules(write, line) -> None:
    good = (resources_folder() / "units" / "bluff_30.yaml").read_text(encoding="utf-8")
    assert load_unit(write("mine.yaml", good.replace("id: bluff_30", "id: mine"))).id == "mine"
    text = (
        good.replace("cooling_capacity: 105 kW", "cooling_capacity: 105")
        .replace("relief_pressure: 100 psig", "relief_pressure: 100 psia")
        .replace("volume: 45 gal", "volume: 45 galons")
    )
    with pytest.raises(FileProblems) as caught:
        load_unit(write("mine.yaml", text))
    capacity, volume, relief = caught.value.problems
    assert (capacity.line, capacity.key) == (line(text, "cooling_capacity"), "cooling_capacity")
    assert (capacity.found, capacity.remedy) == ("105", "write it with its unit, such as 105 kW")
    assert capacity.allowed == "a power in kW, tons, Btu/h, hp"
    assert volume.remedy.startswith("'galons' is not a unit of volume")
    assert relief.line == line(text, "relief_pressure")
    assert relief.remedy.startswith("that is an absolute pressure, and a gauge pressure is wanted")
    assert relief.allowed == "a gauge pressure in psi, psig, kPa, bar, barg"

    text = good.replace("minimum_flow: 43 gpm", "minimum_flow: 73 gpm").replace(
        "features: [own_pump, ", "features: ["
    )
    with pytest.raises(FileProblems) as caught:
        load_unit(write("mine.yaml", text))
    flow, features = caught.value.problems
    assert (flow.line, flow.key, flow.found) == (line(text, "minimum_flow"), "water.minimum_flow", "'73 gpm'")
    assert flow.allowed == "water.minimum_flow must be below water.design_flow"
    assert (features.line, features.key) == (line(text, "features:"), "features")


def test_the_plant_loads() -> None:
    plant = load_plant()
    assert {"isolate_supply", "start_pump", "warm_oil"} <= {change.id for change in plant.changes}
    (warm,) = (change for change in plant.changes if change.id == "warm_oil")
    assert warm.minutes == "oil_warm_up"


def test_mistakes_in_the_plant_are_told(write, line) -> None:
    good = (resources_folder() / "plant.yaml").read_text(encoding="utf-8")
    text = good.replace("    minutes: oil_warm_up", "    minutes: until warm").replace(
        "id: start_pump", "id: stop_pump"
    )
    with pytest.raises(FileProblems) as caught:
        load_plant(write("plant.yaml", text))
    again, minutes = caught.value.problems
    assert (again.key, again.found) == ("changes[3] (stop_pump).id", "the id 'stop_pump' again")
    assert minutes.line == line(text, "until warm")
    assert minutes.allowed == "a number from 0 to 10000 or 'oil_warm_up'"
