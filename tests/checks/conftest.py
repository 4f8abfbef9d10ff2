"""What the tests of the checks share: the demo unit, the vocabulary, and readings typed as text."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest

from faultdoc.library.load import load_unit
from faultdoc.library.vocabulary import load_points
from faultdoc.model.base import Measured
from faultdoc.model.points import Point
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import parse


@pytest.fixture(scope="session")
def points() -> Mapping[str, Point]:
    return load_points()


@pytest.fixture(scope="session")
def sheet() -> DataSheet:
    return load_unit("bluff_30")


@pytest.fixture(scope="session")
def read(points: Mapping[str, Point]) -> Callable[..., dict[str, Measured]]:
    """Return a function from point=text to readings."""

    def readings(**texts: str) -> dict[str, Measured]:
        return {
            name: Measured.from_quantity(parse(text, points[name].kind, need_unit=True))
            for name, text in texts.items()
        }

    return readings


@pytest.fixture(scope="session")
def changed() -> Callable[..., DataSheet]:
    """Return a function that gives a data sheet with some of its values changed: changed(sheet, **water)."""

    def change(sheet: DataSheet, **water: Any) -> DataSheet:
        return sheet.model_copy(update={"water": sheet.water.model_copy(update=water)})

    return change
