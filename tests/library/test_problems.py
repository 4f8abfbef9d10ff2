from faultdoc.library.problems import FileProblems, Problem, as_found, choose, listed


def test_a_problem_is_one_line_with_place_key_found_allowed_and_remedy() -> None:
    problem = Problem(
        "trees/x.yaml", 12, 5, "causes[3] (strainer_clogged).remedy.minutes", "'ten'", "a number from 0 to 10000",
        "write 10",
    )  # fmt: skip
    assert str(problem) == (
        "trees/x.yaml:12:5: causes[3] (strainer_clogged).remedy.minutes: found 'ten'; "
        "allowed: a number from 0 to 10000; write 10"
    )


def test_a_problem_of_a_whole_file_has_no_line() -> None:
    assert str(Problem("a.yaml", 0, 0, "", "nothing", "", "fill it in")) == "a.yaml: found nothing; fill it in"


def test_line_breaks_in_what_was_found_do_not_break_the_line() -> None:
    assert "\n" not in str(Problem("a.yaml", 1, 1, "", as_found("a\nb"), "text", "change it"))


def test_problems_come_in_the_order_of_lines_and_each_once() -> None:
    late, early = (Problem("a.yaml", line, 1, "", "x", "", "y") for line in (12, 3))
    assert FileProblems([late, early, late]).problems == (early, late)


def test_long_lists_and_texts_are_cut() -> None:
    assert listed(map(str, range(50)), at_most=3) == "0, 1, 2 and 47 more"
    assert as_found("x" * 100) == f"'{'x' * 57}...'"
    assert as_found(True) == "true"
    assert as_found({}) == "an empty map"


def test_only_close_spellings_are_offered() -> None:
    assert choose("strainer_cloged", ["strainer_clogged", "valve_shut"]) == "did you mean 'strainer_clogged'?"
    assert choose("zzz", ["strainer_clogged"]) == "write one of these"
