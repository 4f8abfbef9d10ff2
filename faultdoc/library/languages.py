"""Lays the texts of another language over what was read in English. Ids, numbers and rows are never touched.

The words lie beside what they translate, one file a tree and language (`trees/es/high_head.yaml`), so that trees
stay readable for who writes them, a translator edits one file of his own, and only the language in use is read.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

from faultdoc.library.places import resources_folder, shown
from faultdoc.library.problems import FileProblems, Problem, choose, listed
from faultdoc.library.source import KeyPath, Source, read
from faultdoc.library.translate import build
from faultdoc.model.base import Model
from faultdoc.model.languages import Phrase, PhrasesFile, PlantWords, PointsWords, TreeWords
from faultdoc.model.points import Choice, Point
from faultdoc.model.safety import Caution, Instrument, PlantFile, StateChange
from faultdoc.model.tree import Ask, Cause, Condition, Gate, Outcome, PlainWords, Proof, Question, Remedy, Tree

__all__ = ["ENGLISH", "Laid", "Words", "count_texts", "languages", "load_words", "mark", "no_such_tree"]

ENGLISH = "en"

M = TypeVar("M", bound=Model)

TEXTS: Mapping[type[Model], tuple[str, ...]] = {
    Tree: ("title", "symptom", "customer", "events", "conditions", "causes", "questions"),
    Gate: ("title",),
    Condition: ("title",),
    Cause: ("title", "mechanism", "customer", "remedy", "same_as"),
    PlainWords: ("wrong", "done", "watch"),
    Remedy: ("title", "steps", "parts", "tools", "licence", "cautions", "proof"),
    Proof: ("text", "cautions"),
    Caution: ("text",),
    Question: ("ask", "how", "where", "instrument", "wrong_readings", "outcomes", "cautions"),
    Ask: ("tech", "caller", "hesitates"),
    Outcome: ("title", "stop"),
    Point: ("title", "where", "how", "instrument", "wrong_readings", "choices"),
    Choice: ("title",),
    PlantFile: ("changes", "instruments", "stops"),
    StateChange: ("title", "steps", "resets", "cautions"),
    Instrument: ("title",),
}
"""What of each model is words for a person. One text for a whole model is the first of these."""


def languages() -> tuple[str, ...]:
    """Return the languages there are, English first.

    >>> "es" in languages()
    True
    """
    folder = resources_folder() / "languages"
    return (ENGLISH, *sorted(path.name for path in folder.iterdir() if path.is_dir() and path.name != ENGLISH))


@dataclass
class Laid:
    """What came of laying words over one thing.

    Attributes:
        texts: how many texts it has.
        missing: where in the English file a text has no words, and the text.
        stale: where in the file of words an entry was made from other English, and the mark of today's.
        problems: what the words say of something that is not there.
    """

    texts: int = 0
    missing: list[tuple[KeyPath, str]] = field(default_factory=list)
    stale: list[tuple[KeyPath, str]] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)


@dataclass(frozen=True)
class Words:
    """All words of one language, as read.

    Attributes:
        language: such as "es".
        phrases: English text -> text, common to all files.
        points, plant: with their sources.
        trees: by the tree's id.
    """

    language: str
    phrases: Mapping[str, str]
    points: tuple[PointsWords, Source]
    plant: tuple[PlantWords, Source]
    trees: Mapping[str, tuple[TreeWords, Source]]

    def tree(self, tree: Tree, laid: Laid) -> Tree:
        """Return a tree with these words as far as there are any."""
        if tree.id not in self.trees:
            return tree
        words, source = self.trees[tree.id]
        data = words.model_dump(exclude_none=True, exclude={"tree", "phrases"})
        return self._laying(words.phrases, source, laid).over(tree, data, (), ())

    def point(self, entry: Point, index: int, laid: Laid) -> Point:
        """Return an entry of the vocabulary, the `index`-th, with these words."""
        words, source = self.points
        own = words.points.get(entry.id)
        data = own.model_dump(exclude_none=True) if own else {}
        laying = self._laying(words.phrases, source, laid)
        return laying.over(entry, data, ("points", index), ("points", entry.id))

    def unknown_points(self, known: list[str]) -> list[Problem]:
        """Return the problems of words for entries that the vocabulary does not have."""
        words, source = self.points
        laid = Laid()
        self._laying(words.phrases, source, laid).unknown(words.points, known, ("points",))
        return laid.problems

    def plant_file(self, plant: PlantFile, laid: Laid) -> PlantFile:
        """Return the plant file with these words."""
        words, source = self.plant
        data = words.model_dump(exclude_none=True, exclude={"phrases"})
        return self._laying(words.phrases, source, laid).over(plant, data, (), ())

    def _laying(self, own: tuple[Phrase, ...], source: Source, laid: Laid) -> _Laying:
        return _Laying({**self.phrases, **{phrase.en: phrase.text for phrase in own}}, source, laid)


def load_words(language: str, trees: Path) -> Words:
    """Return the words of a language for the points, the plant and the fault trees of a folder.

    Args:
        language: one of `languages`, not English.
        trees: the folder of the trees, or one tree in it; a sub-folder of the language's name has their words.

    Raises:
        FileProblems: with every mistake in every file, or when there is no such language.
    """
    if language == ENGLISH or language not in languages():
        remedy = choose(language, languages(), otherwise="name one of these")
        raise FileProblems([Problem("language", 0, 0, "", f"'{language}'", listed(languages()), remedy)])
    home = resources_folder() / "languages" / language
    folder = (trees.parent if trees.is_file() else trees) / language
    problems: list[Problem] = []

    def one(model: type[M], path: Path) -> tuple[M, Source] | None:
        try:
            source = read(path)
            return build(model, source, known=list(_phrases_twice(source))), source
        except FileProblems as found:
            problems.extend(found.problems)
            return None

    phrases = one(PhrasesFile, home / "phrases.yaml")
    points = one(PointsWords, home / "points.yaml")
    plant = one(PlantWords, home / "plant.yaml")
    paths = sorted(folder.glob("*.yaml"))
    found = {path: one(TreeWords, path) for path in paths}
    for path, read_one in found.items():
        if read_one is not None and read_one[0].tree != path.stem:
            remedy = "name the file after the tree"
            allowed = f"'{path.stem}', as the file is named"
            problems.append(read_one[1].problem(("tree",), f"'{read_one[0].tree}'", allowed, remedy))
    if problems or phrases is None or points is None or plant is None:
        raise FileProblems(problems)
    return Words(
        language,
        MappingProxyType({phrase.en: phrase.text for phrase in phrases[0].phrases}),
        points,
        plant,
        MappingProxyType({one[0].tree: one for one in found.values() if one is not None}),
    )


def no_such_tree(words: Words, trees: Mapping[str, Tree], folder: Path) -> Iterator[Problem]:
    """Yield a problem for each file of words whose tree is not among those of the folder it lies beside."""
    if folder.is_file():
        return
    for id, (_, source) in words.trees.items():
        if id not in trees:
            remedy = choose(id, trees, otherwise=f"{shown(folder)} has no such tree; delete or rename the file")
            yield source.problem(("tree",), f"'{id}'", "the id of a tree", remedy)


def _phrases_twice(source: Source) -> Iterator[Problem]:
    lines: dict[str, int] = {}
    items = source.get(("phrases",))
    for index, item in enumerate(items if isinstance(items, list) else ()):
        text = item.get("en") if isinstance(item, dict) else None
        at: KeyPath = ("phrases", index, "en")
        if not isinstance(text, str):
            continue
        if text in lines:
            remedy = f"line {lines[text]} has it already; keep one of the two"
            yield source.problem(at, "the same English again", "each text once", remedy)
        lines.setdefault(text, source.value_place(at)[0])


@dataclass(frozen=True)
class _Laying:
    phrases: Mapping[str, str]
    source: Source
    laid: Laid

    def over(self, thing: M, words: Any, at: KeyPath, words_at: KeyPath) -> M:
        """Return a model with its texts in the other language.

        Args:
            thing: as it is in English.
            words: its words as plain data; one text stands for the first of its texts.
            at, words_at: where the thing stands in its own file, and its words in theirs.
        """
        names = TEXTS[type(thing)]
        if isinstance(words, str):
            words = {names[0]: words}
        if isinstance(thing, Question):
            words = self._with_stops(thing, words or {}, words_at)
        words = words or {}
        found: dict[str, Any] = {}
        for name in names:
            value = getattr(thing, name)
            if value:
                found[name] = self._value(value, words.get(name), (*at, name), (*words_at, name))
        if isinstance(thing, (Cause, Question)) and words.get("english", mark(thing)) != mark(thing):
            self.laid.stale.append(((*words_at, "english"), mark(thing)))
        return thing.model_copy(update=found)

    def _value(self, value: Any, words: Any, at: KeyPath, words_at: KeyPath) -> Any:
        if isinstance(value, str):
            return self._text(value, words, at)
        if isinstance(value, Model):
            return self.over(value, words, at, words_at)
        if isinstance(value, Mapping):
            self.unknown(words or {}, value, words_at)
            return {key: self._text(text, (words or {}).get(key), (*at, key)) for key, text in value.items()}
        if value and isinstance(value[0], str):
            return self._texts(value, words, at, words_at)
        if hasattr(value[0], "id"):
            words = words or {}
            self.unknown(words, [item.id for item in value], words_at)
            return tuple(
                self.over(item, words.get(item.id), (*at, place), (*words_at, item.id))
                for place, item in enumerate(value)
            )
        return tuple(self.over(item, None, (*at, place), words_at) for place, item in enumerate(value))

    def _text(self, english: str, words: str | None, at: KeyPath) -> str:
        self.laid.texts += 1
        text = words or self.phrases.get(english)
        if text is None:
            self.laid.missing.append((at, english))
        return text or english

    def _texts(
        self, english: tuple[str, ...], words: tuple[str, ...] | None, at: KeyPath, words_at: KeyPath
    ) -> tuple[str, ...]:
        if words is not None and len(words) != len(english):
            remedy = "say each of them, in the same order"
            self.laid.problems.append(
                self.source.problem(words_at, f"{len(words)} texts", f"{len(english)}, as in English", remedy)
            )
            words = None
        said = words or (None,) * len(english)
        return tuple(
            self._text(text, one, (*at, place))
            for place, (text, one) in enumerate(zip(english, said, strict=True))
        )

    def unknown(self, words: Mapping[str, Any], known: Any, at: KeyPath) -> None:
        """Tell of words by ids that are not known."""
        for id in words:
            if id not in known:
                remedy = choose(id, known, otherwise="take it out, or write the id as the English file has it")
                self.laid.problems.append(
                    self.source.problem((*at, id), f"the unknown id '{id}'", listed(known), remedy, at_value=False)
                )

    def _with_stops(self, question: Question, words: Mapping[str, Any], words_at: KeyPath) -> dict[str, Any]:
        """Return a question's words with each outcome's title and stop put together."""
        titles, stops = words.get("outcomes", {}), words.get("stops", {})
        self.unknown(stops, [one.id for one in question.outcomes if one.stop], (*words_at, "stops"))
        both = {
            id: {name: texts[id] for name, texts in (("title", titles), ("stop", stops)) if id in texts}
            for id in dict.fromkeys(
                [*titles, *(id for id in stops if id in {one.id for one in question.outcomes})]
            )
        }
        return {**words, "outcomes": both}


def mark(thing: Cause | Question) -> str:
    """Return the mark of a cause's or a question's English texts: six hexadecimal digits.

    >>> from faultdoc.library.load import load_library
    >>> len(mark(load_library().causes["strainer_clogged"]))
    6
    """
    return f"{zlib.crc32(chr(10).join(_texts_of(thing)).encode()) & 0xFFFFFF:06x}"


def count_texts(tree: Tree) -> int:
    """Return how many texts for people a tree has."""
    return sum(1 for _ in _texts_of(tree))


def _texts_of(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, Model):
        for name in TEXTS[type(value)]:
            yield from _texts_of(getattr(value, name))
    elif isinstance(value, Mapping):
        for key in sorted(value):
            yield from _texts_of(value[key])
    else:
        for item in value or ():
            yield from _texts_of(item)
