"""The words of another language for a fault tree, points and plant: texts only, by the ids.

What is left out stays English. Texts that have no id of their own and come again and again (cautions, parts,
tools, instruments, licences) are `phrases`, found by their English: said once, they are the same everywhere, and
one whose English has changed is no longer found rather than wrong.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, StringConstraints

from faultdoc.model.base import Id, Model, Text

__all__ = [
    "CauseWords",
    "Mark",
    "Phrase",
    "PhrasesFile",
    "PlantWords",
    "PointsWords",
    "QuestionWords",
    "TreeWords",
]

Mark = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{6}$")]
"""A mark of the English texts that an entry was made from; `faultdoc lint` tells when they have changed since."""
PointId = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_{}]{1,63}$")]


class Phrase(Model):
    """One English text, word for word as it stands in the file, and what it is in the other language."""

    en: Text
    text: Text


class _WithPhrases(Model):
    """A file of words. Its own phrases count in it alone, and before the common ones."""

    phrases: tuple[Phrase, ...] = Field(default=(), strict=False)


class PhrasesFile(_WithPhrases):
    """resources/languages/<language>/phrases.yaml: the phrases common to all files of the language."""


class CustomerWords(Model):
    """See `faultdoc.model.tree.PlainWords`."""

    wrong: Text | None = None
    done: Text | None = None
    watch: Text | None = None


class RemedyWords(Model):
    """Title and steps of a remedy, and what proves it; as many steps as the English has."""

    title: Text | None = None
    steps: tuple[Text, ...] | None = Field(default=None, strict=False)
    proof: Text | None = None


class CauseWords(Model):
    """The texts of one cause."""

    english: Mark
    title: Text | None = None
    mechanism: Text | None = None
    customer: CustomerWords | None = None
    remedy: RemedyWords | None = None
    same_as: dict[Id, Text] | None = None


class AskWords(Model):
    """The question in two registers, and the help for a caller who hesitates."""

    tech: Text | None = None
    caller: Text | None = None
    hesitates: Text | None = None


class QuestionWords(Model):
    """The texts of one question; `outcomes` and `stops` by the outcome's id."""

    english: Mark
    ask: AskWords | None = None
    how: Text | None = None
    where: Text | None = None
    instrument: Text | None = None
    wrong_readings: Text | None = None
    outcomes: dict[Id, Text] | None = None
    stops: dict[Id, Text] | None = None


class TreeWords(_WithPhrases):
    """trees/<language>/<tree>.yaml: the texts of one fault tree."""

    tree: Id
    title: Text | None = None
    symptom: Text | None = None
    customer: Text | None = None
    events: dict[Id, Text] | None = None
    conditions: dict[Id, Text] | None = None
    causes: dict[Id, CauseWords] | None = None
    questions: dict[Id, QuestionWords] | None = None


class PointWords(Model):
    """The texts of one entry of the vocabulary, families in braces and all; `choices` by their ids."""

    title: Text | None = None
    where: Text | None = None
    how: Text | None = None
    instrument: Text | None = None
    wrong_readings: Text | None = None
    choices: dict[Id, Text] | None = None


class PointsWords(_WithPhrases):
    """resources/languages/<language>/points.yaml."""

    points: dict[PointId, PointWords]


class ChangeWords(Model):
    """The texts of one change of the plant; as many steps as the English has."""

    title: Text | None = None
    steps: tuple[Text, ...] | None = Field(default=None, strict=False)
    resets: Text | None = None


class PlantWords(_WithPhrases):
    """resources/languages/<language>/plant.yaml."""

    changes: dict[Id, ChangeWords]
    instruments: dict[Id, Text]
