"""The stock file: whole, and it knows every part, tool and instrument of every tree."""

import pytest

from faultdoc.library.load import load_library
from faultdoc.library.problems import FileProblems
from faultdoc.library.stock import load_stock
from faultdoc.model.stock import Comes

SMALL = """\
basis: estimate
limits: {mass: 100 kg, volume: 200 L, items: 5, people: 1, who: [[technician]]}
tie: 0.01
kinds:
  - {id: valve, title: Valve, comes: store, mass: 1 kg, volume: 2 L, parts: [Valve], match: [connection]}
  - {id: wrench, title: Wrench, comes: van, mass: 1 kg, volume: 1 L, tools: [Wrench, Spanner]}
  - {id: unlisted, title: Anything else, comes: store, mass: 1 kg, volume: 1 L}
combined:
  - {part: Valve and wrench, all: [valve, wrench]}
  - {tool: Spanner or wrench, any: [wrench, valve]}
"""


@pytest.fixture(scope="module")
def library():
    return load_library(calibrated=False)


def test_every_part_and_tool_of_every_tree_is_known(library):
    stock = load_stock()
    texts = {
        (scope, text)
        for cause in library.causes.values()
        for scope in ("parts", "tools")
        for text in getattr(cause.remedy, scope)
    }
    assert len(texts) > 350
    assert {one for one in texts if stock.needs(*one) is None} == set()


def test_every_instrument_is_known(library):
    stock = load_stock()
    assert {
        one.instrument for one in library.points.values() if stock.needs("reads", one.instrument) is None
    } == set()
    assert {id for id in library.plant.instrument_ids if stock.instrument(id) is None} == set()


def test_nothing_in_the_stock_is_for_nobody(library):
    used = {("reads", one.instrument) for one in library.points.values()}
    for cause in library.causes.values():
        used |= {("parts", text) for text in cause.remedy.parts} | {("tools", text) for text in cause.remedy.tools}
    assert set(load_stock().names) - used == set()


def test_names_stand_for_kinds(write):
    stock = load_stock(write("stock.yaml", SMALL))
    assert stock.needs("tools", "Spanner") == (frozenset({"wrench"}),)
    assert stock.needs("parts", "Valve and wrench") == (frozenset({"valve"}), frozenset({"wrench"}))
    assert stock.needs("tools", "Spanner or wrench") == (frozenset({"wrench", "valve"}),)
    assert stock.needs("parts", "Spanner") is None  # a tool is no part
    assert stock.kinds["valve"].comes is Comes.STORE
    assert stock.kinds["valve"].volume == pytest.approx(0.002)


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("Spanner]", "Wrench]", 6, "'Wrench' again"),
        ("id: wrench", "id: valve", 6, "'valve' again"),
        ("all: [valve, wrench]", "all: [valve, wrensh]", 9, "did you mean 'wrench'?"),
        ("tool: Spanner or wrench, any", "any", 10, "give one of part, tool and reads"),
        ("any: [wrench, valve]", "any: [wrench], all: [valve]", 10, "either all: [...] or any: [...]"),
        ("comes: store, mass: 1 kg, volume: 2 L", "comes: store, mass: 1 kg", 5, "has a mass and a volume"),
        ("comes: van", "comes: lorry", 6, "lorry"),
        ("match: [connection]", "match: [colour]", 5, "colour"),
        ("mass: 100 kg", "mass: 100", 2, "100"),
        ("id: unlisted", "id: others", 5, "no kind 'unlisted'"),
    ],
)
def test_a_mistake_is_told_with_its_line(write, old, new, line, words):
    path = write("stock.yaml", SMALL.replace(old, new, 1))
    with pytest.raises(FileProblems) as found:
        load_stock(path)
    assert words in str(found.value)
    assert line in {problem.line for problem in found.value.problems}
