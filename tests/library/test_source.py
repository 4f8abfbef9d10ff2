import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.library import source as source_module
from faultdoc.library.problems import FileProblems, Problem
from faultdoc.library.source import DEEPEST, read, read_text, scalar


def refused(text: str):
    with pytest.raises(FileProblems) as caught:
        read_text(text, "x.yaml")
    return caught.value.problems


# YAML 1.2.2, chapter 10.3.2 (core schema), the table of regular expressions and example 10.9's values.
@pytest.mark.parametrize(
    ("text", "meaning"),
    [
        ("null", None), ("~", None), ("", None), ("true", True), ("False", False), ("0", 0), ("0o7", 7),
        ("0x3A", 58), ("-19", -19), ("0.", 0.0), ("-0.0", -0.0), (".5", 0.5), ("+12e03", 12000.0),
        ("-2E+05", -200000.0), ("012", 12),
    ],
)  # fmt: skip
def test_scalars_of_the_core_schema(text: str, meaning: object) -> None:
    found = scalar(text)
    assert found == meaning
    assert type(found) is type(meaning)


@pytest.mark.parametrize(
    "text",
    ["yes", "no", "on", "off", "y", "N", "1:20", "2001-01-01", "1_000", "=", "<<", "62 psi", ".inf", ".nan"],
)
def test_what_older_yaml_took_for_something_else_stays_text(text: str) -> None:
    assert read_text(f"a: {text}", "x.yaml").data == {"a": text}


def test_quoted_numbers_are_text() -> None:
    assert read_text("a: '12'\nb: \"true\"\nc: |\n  12\n", "x.yaml").data == {"a": "12", "b": "true", "c": "12\n"}


def test_a_number_beyond_all_bounds_stays_text() -> None:
    assert scalar("1e999") == "1e999"
    assert scalar("9" * 5000) == "9" * 5000


json_values = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**15), 10**15) | st.floats(allow_nan=False, allow_infinity=False)
    | st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc", "Cn", "Co"]), max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text("abc_ é", min_size=1), inner, max_size=4),
    max_leaves=12,
)  # fmt: skip


@settings(deadline=None, derandomize=True, max_examples=60)
@given(json_values)
def test_json_means_in_yaml_what_it_means_in_json(value: object) -> None:
    # YAML 1.2.2, chapter 1.2: every JSON file is a YAML file; json is the reference here.
    text = json.dumps({"root": value}, ensure_ascii=False)
    assert read_text(text, "x.yaml").data == json.loads(text)


def test_places_of_keys_and_values() -> None:
    source = read_text("a: 1\nlist:\n  - {id: one, b: 2}\n  - x\n", "x.yaml")
    assert source.keys[("list",)] == (2, 1)
    assert source.values[("list", 0, "b")] == (3, 18)
    assert source.values[("list", 1)] == (4, 5)
    assert source.place(("list", 0, "gone", "deeper")) == (3, 5)
    assert source.key(("list", 0, "b")) == "list[0] (one).b"


def test_key_given_twice_names_both_lines() -> None:
    (problem,) = refused("a: 1\nb:\n  c: 1\n  d: 2\n  c: 3\n")
    assert (problem.line, problem.column, problem.key) == (5, 3, "b.c")
    assert "line 3" in problem.found
    assert problem.remedy == "keep line 3 or line 5"


def test_aliases_anchors_and_tags_are_refused_all_at_once() -> None:
    problems = refused("a: &x 1\nb: *x\nc: !!python/object:os.system 1\nd: !own 2\n")
    assert [problem.line for problem in problems] == [1, 2, 3, 4]
    words = [next(word for word in ("anchor", "alias", "tag") if word in problem.found) for problem in problems]
    assert words == ["anchor", "alias", "tag", "tag"]
    assert "write the value out" in problems[1].remedy


def test_a_billion_laughs_are_refused_unexpanded() -> None:
    text = "a0: &a0 [x]\n" + "".join(f"a{n}: &a{n} [{','.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 10))
    assert {problem.line for problem in refused(text)} == set(range(1, 11))


def test_a_merge_key_is_only_a_key() -> None:
    assert read_text("a:\n  <<: {b: 1}\n", "x.yaml").data == {"a": {"<<": {"b": 1}}}


@pytest.mark.parametrize("text", ["[" * 100_000, "a: " + "{a: " * 5000, "- " * 3000 + "x", "? " * 3000])
def test_deep_nesting_is_refused(text: str) -> None:
    assert f"deeper than {DEEPEST} levels" in refused(text)[-1].found


def test_nesting_up_to_the_limit_is_read() -> None:
    text = "[" * DEEPEST + "]" * DEEPEST
    assert read_text(text, "x.yaml").data
    assert refused(f"[{text}]")


def test_a_list_as_a_key_is_refused_and_reading_goes_on() -> None:
    problems = refused("? [a, {b: c}]\n: 1\nd: *x\n")
    assert [problem.line for problem in problems] == [1, 3]
    assert "in quotes" in problems[0].remedy


def test_several_documents_are_refused() -> None:
    (problem,) = refused("a: 1\n---\nb: 2\n")
    assert (problem.line, problem.remedy) == (2, "split the file")


def test_directives_are_refused() -> None:
    assert "%" in refused("%YAML 1.1\n---\na: yes\n")[0].found


@pytest.mark.parametrize("text", ["", "# only a comment\n"])
def test_an_empty_file_is_refused(text: str) -> None:
    assert refused(text)[0].found == "an empty file"


def test_tabs_are_refused_with_their_place() -> None:
    (problem,) = refused("a:\n  b: 1\n\tc: 2\n\td: 3\n")
    assert (problem.line, problem.column) == (3, 1)
    assert "1 more line" in problem.found
    assert "blanks" in problem.remedy


def test_characters_that_do_not_print_are_refused() -> None:
    (problem,) = refused("a: 1\nb: é\x07\n")
    assert (problem.line, problem.column, problem.remedy) == (2, 5, "remove it")
    assert "U+0007" in problem.found


@pytest.mark.parametrize(
    ("text", "line", "column", "words"),
    [
        ("a: 1\nb: c: d\n", 2, 5, "quotes"),
        ('a: 1\nb: "open\nc: d\n', 2, 4, "close it"),
        ("a: [1, 2\nb: 3\n", 2, 2, "]"),
        ("a: {b: 1\n", 2, 1, "}"),
        ("a: @home\n", 1, 4, "in quotes"),
        ("a:\n  b: 1\n c: 2\n", 3, 2, "same column"),
        ("a: 1\nfoo\nb: 2\n", 3, 1, "key: value"),
        ("a: - b\n", 1, 4, "next line"),
        ('a: "\\q"\n', 1, 5, "backslash"),
        ("a: 'it's'\n", 1, 8, "double a '"),
        ("a: *\n", 1, 5, "in quotes"),
        ("a: !e!x 1\n", 1, 4, "in quotes"),
    ],
)
def test_mistakes_in_yaml_itself_have_place_and_remedy(text: str, line: int, column: int, words: str) -> None:
    (problem,) = refused(text)
    assert (problem.file, problem.line, problem.column) == ("x.yaml", line, column)
    assert words in problem.remedy


def test_mistakes_before_a_mistake_in_yaml_are_told_too() -> None:
    assert [problem.line for problem in refused("a: 1\na: 2\nb: c: d\n")] == [2, 3]


def test_what_is_not_utf8_is_refused_with_its_place(tmp_path) -> None:
    path = tmp_path / "x.yaml"
    path.write_bytes("a: 1\nb: 20 é".encode() + b" \xb0C\n")
    with pytest.raises(FileProblems) as caught:
        read(path)
    (problem,) = caught.value.problems
    assert (problem.line, problem.column, problem.remedy) == (2, 9, "save the file as UTF-8")


def test_a_byte_order_mark_is_no_mistake(tmp_path) -> None:
    path = tmp_path / "x.yaml"
    path.write_bytes(b"\xef\xbb\xbfa: 1\n")
    assert read(path).data == {"a": 1}


def test_a_file_too_large_is_refused(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr(source_module, "LARGEST", 100)
    path = tmp_path / "x.yaml"
    path.write_text("a: " + "x" * 97)
    assert read(path).data
    path.write_text("a: " + "x" * 98)
    with pytest.raises(FileProblems, match="more than 100 bytes"):
        read(path)


def test_a_file_that_is_not_there_is_told(tmp_path) -> None:
    with pytest.raises(FileProblems, match=r"gone\.yaml: found no file that can be read"):
        read(tmp_path / "gone.yaml")


@settings(deadline=None, derandomize=True, max_examples=150)
@given(st.text(st.sampled_from("ab:{}[]-?!&*|>'\"%@` \n#,0.~=<"), max_size=30))
def test_any_text_is_read_or_refused_with_a_remedy(text: str) -> None:
    told: tuple[Problem, ...] = ()
    places: dict[tuple[str | int, ...], tuple[int, int]] = {}
    try:
        places = read_text(text, "x.yaml").values
    except FileProblems as refusal:
        told = refusal.problems
    assert bool(told) != (() in places)
    assert all(problem.remedy and problem.found for problem in told)
