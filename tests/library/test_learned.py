"""Learned files: read, laid over whatever was there, and told with their line where they no longer fit."""

import pytest

from faultdoc.library.learned import laid_over, learned_folder, load_learned, save_learned
from faultdoc.library.load import load_library, load_trees
from faultdoc.model.tree import Basis

FILE = """\
tree: no_flow
version: 1
faultdoc: 0.1.0
on: "2026-11-25"
own_cases: [0123456789abcdef0123456789abcdef]
rates:
  strainer_clogged: {on: "2026-11-25", basis: fleet, rate: 21.5, low: 12, high: 33, own: {found: 9, expected: 6.5, visits: 40}}
questions:
  valve_position:
    given:
      valve_shut: {on: "2026-11-25", basis: fleet, p: {open: 0.1, part_open: 0.2, shut: 0.7}, own: {counts: {shut: 7, part_open: 1}}}
  strainer_drop:
    check: strainer_drop
    given:
      strainer_clogged: {on: "2026-11-25", basis: fleet, shift: 5.5, spread: 1.25, own: {units: 4, mean: 5.8, squares: 3.1, meters: 0.01}}
"""  # noqa: E501


@pytest.fixture
def catalogue(write, tree_text):
    return load_trees(write("trees/no_flow.yaml", tree_text))


@pytest.fixture
def read(write, catalogue):
    def load(text: str):
        return load_learned(catalogue, write("learned/no_flow.yaml", text).parent)

    return load


def test_learned_values_stand_in_for_whatever_was_there(catalogue, read):
    learned, problems = read(FILE)
    assert problems == ()
    over = laid_over(catalogue, learned)
    cause = over.causes["strainer_clogged"]
    assert (cause.rate, cause.basis) == (21.5, Basis.FLEET)
    assert over.questions["strainer_drop"].given["strainer_clogged"].shift == 5.5
    assert over.questions["valve_position"].given["valve_shut"].p["shut"] == 0.7
    assert over.trees["no_flow"].questions == tuple(over.questions.values())
    assert over.trees["no_flow"].causes == tuple(over.causes.values())
    rest = {id: one for id, one in over.causes.items() if id != "strainer_clogged"}
    assert rest == {id: one for id, one in catalogue.causes.items() if id != "strainer_clogged"}


def test_a_published_value_is_in_it_as_its_prior_and_gives_way(write, tree_text, read):
    text = tree_text.replace(
        "{shift: 4.0, spread: 2.0, basis: estimate}", "{shift: 4.0, spread: 2.0, basis: published, source: A book}"
    )
    catalogue = load_trees(write("trees/no_flow.yaml", text))
    assert catalogue.questions["strainer_drop"].given["strainer_clogged"].basis is Basis.PUBLISHED
    learned, _ = load_learned(catalogue, write("learned/no_flow.yaml", FILE).parent)
    assert laid_over(catalogue, learned).questions["strainer_drop"].given["strainer_clogged"].shift == 5.5


@pytest.mark.parametrize(
    ("old", "new", "marked", "found", "lines"),
    [
        ("rates:\n  strainer_clogged", "rates:\n  strainer_gone", "strainer_gone", "the cause 'strainer_gone'", 2),
        ("  valve_position:", "  valve_gone:", "valve_gone", "the question 'valve_gone'", 2),
        ("check: strainer_drop", "check: barrel_flow", "check: barrel_flow", "another check", 2),
        ("shut: 0.7}", "gone: 0.7}", "      valve_shut", "the outcome 'gone'", 2),
        ("shut: 0.7}", "shut: 0.9}", "      valve_shut", "add up to 1.2", 2),
        ("      valve_shut: {on", "      no_such: {on", "no_such", "a row for 'no_such'", 2),
        ("tree: no_flow", "tree: no_flaw", "tree: no_flaw", "'no_flaw'", 0),
        ("rate: 21.5", "rate: -1", "rate: -1", "-1", 0),
        ("version: 1", "version: 2", "version: 2", "2", 0),
        ("own_cases:", "own_case:", "own_case:", "'own_case'", 0),
    ],
)  # fmt: skip
def test_what_no_longer_fits_is_told_with_its_line_and_passed_over(
    read, line, old, new, marked, found, lines
):  # fmt: skip
    text = FILE.replace(old, new, 1)
    learned, problems = read(text)
    assert found in str(problems[0])
    assert problems[0].line == line(text, marked)
    assert sum(tree.lines for tree in learned.values()) == lines


def test_what_is_written_is_read_back_and_nothing_left_means_no_file(read, catalogue, tmp_path):
    (learned,) = read(FILE)[0].values()
    path = save_learned(learned, tmp_path / "new")
    assert load_learned(catalogue, path.parent) == ({"no_flow": learned}, ())
    save_learned(learned.model_copy(update={"rates": {}, "questions": {}}), tmp_path / "new")
    assert not path.exists()


def test_a_stale_file_of_ones_own_does_not_stop_the_start(tmp_path):
    folder = learned_folder()
    folder.mkdir(parents=True)
    (folder / "flow_proving_trip.yaml").write_text(FILE.replace("no_flow", "flow_proving_trip"), encoding="utf-8")
    (folder / "high_head.yaml").write_text("tree: [", encoding="utf-8")
    library = load_library()
    said = [str(problem) for problem in library.left_out]
    assert len(said) == 2
    assert any("valve_position" in one and "flow_proving_trip.yaml:" in one for one in said)
    assert any("high_head.yaml" in one for one in said)
    # What fits holds; without it the trees are as shipped.
    assert library.causes["strainer_clogged"].rate == 21.5
    assert load_library(learned=False).causes["strainer_clogged"].basis is not Basis.FLEET
    assert load_library(calibrated=False).causes["strainer_clogged"].basis is not Basis.FLEET
