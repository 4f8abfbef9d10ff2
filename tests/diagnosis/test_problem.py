from problems import catalogue, cause, check_question, tree

from faultdoc.checks.all import registry
from faultdoc.diagnosis.problem import pose
from faultdoc.library.load import load_unit

SHEET = load_unit("bluff_30")


def test_a_check_knows_the_rows_of_every_tree_in_play():
    """One check, asked in two trees: whichever question counts it, causes of both trees move it."""
    one = tree(
        [{"id": "top_one", "title": "t", "any": ["ca", "shared"]}],
        [cause("ca", 10.0), cause("shared", 10.0)],
        [check_question("q1x", "water_flow_check", {"default": (0.1, 0.1), "ca": (-0.5, 0.2)})],
    )
    two = tree(
        [{"id": "top_two", "title": "t", "any": ["cb", "shared"]}],
        [cause("cb", 10.0)],
        [check_question("q2x", "water_flow_check", {"default": (0.3, 0.1), "cb": (0.9, 0.3), "ca": (9.0, 1.0)})],
    )
    two = two.model_copy(update={"id": "other_tree"})
    checks = {"water_flow_check": registry["flow_from_barrel_drop"]}
    problem = pose([one, two], catalogue(one) | catalogue(two), SHEET, checks, 2)
    first, second = problem.questions["q1x"].given, problem.questions["q2x"].given
    assert first["ca"].shift == -0.5  # its own row wins
    assert first["cb"].shift == 0.1 + 0.9 - 0.3
    assert first["cb"].spread == 0.3
    assert second["cb"].shift == 0.9
    alone = pose([one], catalogue(one), SHEET, checks, 1)
    assert set(alone.questions["q1x"].given) == {"default", "ca"}
