"""Calibration files: read, refused with a line, and laid over estimates only."""

import pytest

from faultdoc.library.calibration import calibration_text, laid_over, load_calibrations, save_calibration
from faultdoc.library.lint import stats
from faultdoc.library.load import load_library, load_trees
from faultdoc.library.problems import FileProblems
from faultdoc.model.tree import Basis

FILE = """\
tree: no_flow
seed: 1
draws: 8
left_out:
  - {question: strainer_drop, cause: contact_open, reason: No physics.}
questions:
  valve_position:
    given:
      valve_shut: {p: {open: 0.1, part_open: 0.2, shut: 0.7}, draws: 24, basis: simulated}
  strainer_drop:
    check: strainer_drop
    given:
      default: {shift: 0.02, spread: 0.1, draws: 24, basis: simulated}
      strainer_clogged: {shift: 5.5, spread: 1.25, draws: 20, basis: simulated}
      valve_shut: {shift: -1, spread: 0.1, draws: 24, basis: simulated}
"""


@pytest.fixture
def catalogue(write, tree_text):
    return load_trees(write("trees/no_flow.yaml", tree_text))


@pytest.fixture
def read(write, catalogue):
    def load(text: str):
        return load_calibrations(catalogue, write("calibration/no_flow.yaml", text).parent)

    return load


def test_simulated_rows_stand_in_for_estimates(catalogue, read):
    over = laid_over(catalogue, read(FILE))
    given = over.questions["strainer_drop"].given
    assert (given["strainer_clogged"].shift, given["strainer_clogged"].spread) == (5.5, 1.25)
    assert given["strainer_clogged"].basis is Basis.SIMULATED
    assert given["valve_shut"].shift == -1.0, "a row that the tree lacks is added"
    assert over.trees["no_flow"].questions == tuple(over.questions.values())
    assert over.questions["valve_position"].given["valve_shut"].p["shut"] == 0.7
    assert (
        over.questions["valve_position"].given["default"] == catalogue.questions["valve_position"].given["default"]
    )


@pytest.mark.parametrize("basis", ["published, source: A handbook", "fleet"])
def test_rows_with_a_source_are_never_covered(write, tree_text, basis):
    text = tree_text.replace(
        "{shift: 4.0, spread: 2.0, basis: estimate}", f"{{shift: 4.0, spread: 2.0, basis: {basis}}}"
    )
    catalogue = load_trees(write("trees/no_flow.yaml", text))
    folder = write("calibration/no_flow.yaml", FILE).parent
    over = laid_over(catalogue, load_calibrations(catalogue, folder))
    assert over.questions["strainer_drop"].given["strainer_clogged"].shift == 4.0


@pytest.mark.parametrize(
    ("old", "new", "marked", "found", "remedy"),
    [
        ("tree: no_flow", "tree: no_flaw", "tree: no_flaw", "tree 'no_flaw'", "no_flow"),
        ("  valve_position:", "  valve_positon:", "  valve_positon:", "'valve_positon'", "valve_position"),
        (
            "strainer_clogged: {shift",
            "strainer_cloged: {shift",
            "strainer_cloged",
            "the cause 'strainer_cloged'",
            "strainer_clogged",
        ),
        ("shut: 0.7}", "shutt: 0.7}", "shutt", "the outcome 'shutt'", "shut"),
        ("shut: 0.7}", "shut: 0.9}", "shut: 0.9}", "add up to 1.2", "calibrate --write"),
        ("check: strainer_drop", "check: barrel_flow", "check: barrel_flow", "check 'barrel_flow'", "calibrate"),
        (
            "{p: {open: 0.1, part_open: 0.2, shut: 0.7}, ",
            "{shift: 1, spread: 1, ",
            "valve_shut: {shift: 1, ",
            "a row with shift",
            "calibrate",
        ),
        ("spread: 1.25", "spread: 0", "spread: 0,", "0", "range"),
        ("draws: 20, basis: simulated", "draws: 20, basis: fleet", "basis: fleet", "'fleet'", "simulated"),
        ("seed: 1", "sead: 1", "sead: 1", "sead", "seed"),
    ],
)  # fmt: skip
def test_mistakes_are_refused_with_file_line_and_remedy(read, line, old, new, marked, found, remedy):
    text = FILE.replace(old, new, 1)
    with pytest.raises(FileProblems) as caught:
        read(text)
    first = caught.value.problems[0]
    assert first.line == line(text, marked)
    assert first.file.endswith("no_flow.yaml")
    assert found in str(first)
    assert remedy in str(first)


def test_a_file_is_named_after_its_tree(write, catalogue):
    folder = write("calibration/other.yaml", FILE).parent
    with pytest.raises(FileProblems, match="name the file after the tree"):
        load_calibrations(catalogue, folder)


def test_what_is_written_is_read_back(read, catalogue, tmp_path):
    calibration = read(FILE)["no_flow"]
    save_calibration(calibration, tmp_path / "new")
    assert load_calibrations(catalogue, tmp_path / "new") == {"no_flow": calibration}
    assert "do not edit" in calibration_text(calibration)


def test_trees_of_another_folder_are_taken_as_written(write, tree_text):
    folder = write("trees/no_flow.yaml", tree_text).parent
    assert load_library(folder).questions == load_library(folder, calibrated=False).questions


def test_shipped_rows_are_those_of_the_files_and_nothing_else():
    """What the engine knows of the simulator is what stands in these files."""
    authored, library = load_library(calibrated=False), load_library()
    files = load_calibrations(authored.catalogue)
    for id, tree in library.trees.items():
        for question, old in zip(tree.questions, authored.trees[id].questions, strict=True):
            rows = files[id].questions.get(question.id) if id in files else None
            for cause, row in question.given.items():
                if row.basis is Basis.SIMULATED:
                    written = rows.given[cause].model_dump(exclude={"draws", "basis"})
                    assert row.model_dump(exclude={"basis", "source"}) == written
                else:
                    assert row == old.given[cause]
    assert library.causes == authored.causes


def test_stats_count_simulated_rows():
    library = load_library()
    counts = stats(library, [])
    rows = [row for question in library.questions.values() for row in question.given.values()]
    assert sum(one.simulated for one in counts.values()) == sum(row.basis is Basis.SIMULATED for row in rows)
    assert sum(one.rows for one in counts.values()) == len(rows)
