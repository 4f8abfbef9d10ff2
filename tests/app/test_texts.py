"""Every text that the window shows goes through say(), and every one of them is said in Spanish."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

import pytest
from PySide6.QtWidgets import QApplication

from faultdoc import words
from faultdoc.app.tr import CONTEXT, TsTranslator, read_ts, ts_file
from faultdoc.library.languages import ENGLISH, languages

PACKAGE = Path(words.__file__).parent
SHOWN_BY = {
    "label",
    "button",
    "setText",
    "setPlaceholderText",
    "setToolTip",
    "setAccessibleName",
    "setWindowTitle",
}
SAME_EVERYWHERE = {"FaultDoc", "PDF", "HTML", "FAULTDOC1:..."}
OTHERS = [one for one in languages() if one != ENGLISH]


def said() -> Iterator[str]:
    """Yield every English text in a say() of the package and of the report's templates."""
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            is_say = isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "say"
            if is_say and node.args and isinstance(node.args[0], ast.Constant):
                yield node.args[0].value
    for path in sorted((ts_file("es").parents[1] / "report").glob("*.j2")):
        for text in re.findall(r'say\("((?:[^"\\]|\\.)*)"\)', path.read_text(encoding="utf-8")):
            yield text.replace('\\"', '"')


def names(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name}


def bare(tree: ast.AST) -> Iterator[ast.AST]:
    """Yield the literals that are handed to something that shows them, and are not in a say()."""
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call):
            continue
        called = node.func.id if isinstance(node.func, ast.Name) else getattr(node.func, "attr", "")
        if called in SHOWN_BY and node.args:
            first = node.args[0]
            text = first.value if isinstance(first, ast.Constant) and isinstance(first.value, str) else ""
            if isinstance(first, ast.JoinedStr):
                text = "".join(one.value for one in first.values if isinstance(one, ast.Constant))
            if re.search(r"[A-Za-z]{3}", text) and not text.startswith("<") and text not in SAME_EVERYWHERE:
                yield first


def test_no_literal_is_shown_without_say() -> None:
    found = [
        f"{path.relative_to(PACKAGE)}:{node.lineno}"
        for path in sorted((PACKAGE / "app").rglob("*.py"))
        for node in bare(ast.parse(path.read_text(encoding="utf-8")))
    ]
    assert found == []


def test_a_bare_literal_would_be_found() -> None:
    assert list(bare(ast.parse('box.add(label("Plain words"))')))
    assert list(bare(ast.parse('line.setToolTip(f"{count} words")')))
    assert not list(bare(ast.parse('label(say("Plain words"))')))


@pytest.mark.parametrize("language", OTHERS)
def test_every_text_is_said_in_every_language(language) -> None:
    texts = read_ts(ts_file(language))
    assert sorted(set(said()) - set(texts)) == []


@pytest.mark.parametrize("language", OTHERS)
def test_no_language_puts_in_a_value_that_english_has_not(language) -> None:
    """A value may be left out (the s of a plural, mostly), never made up: that would end in an error."""
    for english, text in read_ts(ts_file(language)).items():
        assert names(text) <= names(english), english


def test_qt_asks_the_file(qapp: QApplication) -> None:
    translator = TsTranslator(ts_file("es"))
    assert not translator.isEmpty()
    assert translator.translate(CONTEXT, "Undo") == "Deshacer"
    assert translator.translate(CONTEXT, "Nobody says this") is None
    assert translator.translate("Other", "Undo") is None
    assert qapp.installTranslator(translator)
    assert QApplication.translate(CONTEXT, "Undo") == "Deshacer"
    qapp.removeTranslator(translator)
    assert QApplication.translate(CONTEXT, "Undo") == "Undo"
