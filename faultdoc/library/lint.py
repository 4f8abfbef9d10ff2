"""Looks for what is wrong with fault trees although each file by itself is well formed.

One rule is one function: it takes a `Subject` and yields warnings. What a check needs is told
from outside (`CheckFacts`), as the library knows nothing of checks.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from math import hypot
from statistics import NormalDist

import networkx as nx

from faultdoc.library.languages import ENGLISH, Laid, Words, count_texts, languages, load_words
from faultdoc.library.load import Library
from faultdoc.library.problems import choose, listed
from faultdoc.library.source import KeyPath, Source
from faultdoc.library.stock import load_stock
from faultdoc.library.vocabulary import choice_point
from faultdoc.model.safety import (
    Panel,
    PlantFile,
    PlantState,
    Qualification,
    Refrigerant,
    StateNeed,
    after,
    all_states,
    hazardous,
    may,
    possible,
    satisfies,
)
from faultdoc.model.stock import Scope
from faultdoc.model.tree import Basis, Gate, Proof, Question, Remedy, Shift, Tree, Weights

__all__ = [
    "MOVES",
    "TOLD_APART",
    "CheckFacts",
    "LintWarning",
    "TreeStats",
    "distance",
    "lint",
    "reachable_states",
    "render",
    "stats",
]

TOLD_APART = 0.1
"""Two causes are told apart by a question when its answers differ by more than this (see `distance`)."""
MOVES = 0.01
"""A question moves something when any two of its rows differ by more than this."""

Row = Weights | Shift


@dataclass(frozen=True)
class CheckFacts:
    """What a check wants, as far as a fault tree's author must know it.

    Attributes:
        required: the readings it cannot do without. Each entry is one need: a set of
            alternatives, each of them the set of points that together serve.
        optional: points it uses when they are read.

    >>> drop = frozenset({"barrel_pressure_drop"})
    >>> gauges = frozenset({"barrel_in_pressure", "barrel_out_pressure"})
    >>> CheckFacts(required=(frozenset({drop, gauges}),)).missing({"barrel_in_pressure"})
    ['barrel_pressure_drop or barrel_in_pressure with barrel_out_pressure']
    """

    required: tuple[frozenset[frozenset[str]], ...]
    optional: frozenset[str] = frozenset()

    @property
    def points(self) -> frozenset[str]:
        """Every point the check can use."""
        return self.optional.union(*(points for need in self.required for points in need))

    def missing(self, points: Iterable[str]) -> list[str]:
        """Return in words the needs that a set of points leaves open."""
        given = frozenset(points)
        return [
            " or ".join(
                " with ".join(sorted(one)) for one in sorted(need, key=lambda one: (len(one), sorted(one)))
            )
            for need in self.required
            if not any(alternative <= given for alternative in need)
        ]


@dataclass(frozen=True, order=True)
class LintWarning:
    """Something in a fault tree that is likely a mistake.

    Attributes:
        file, line: where.
        key: where in the file, such as `causes[3] (strainer_clogged).same_as`.
        rule: the rule's name.
        what: what is wrong.
        remedy: what to do.
    """

    file: str
    line: int
    key: str
    rule: str
    what: str
    remedy: str

    def __str__(self) -> str:
        """Return the warning on one line."""
        return f"{self.file}:{self.line}: {self.key}: {self.what}; {self.remedy} [{self.rule}]"


@dataclass(frozen=True)
class TreeStats:
    """What a tree has. `told_apart` counts the pairs of its causes that some question tells apart, of `pairs`.

    `simulated` counts the rows, of `rows`, that were derived from simulated units; `helped` the questions, of the
    `caller` ones that a caller may answer, that say what to read aloud when the caller hesitates. `said` counts
    how many of its `texts` each other language has.
    """

    causes: int
    questions: int
    readings: int
    told_apart: int
    pairs: int
    rows: int
    simulated: int
    caller: int
    helped: int
    texts: int
    said: dict[str, int]
    warnings: int


@dataclass(frozen=True)
class Subject:
    """One tree with all that its rules look at."""

    tree: Tree
    source: Source
    library: Library
    checks: Mapping[str, CheckFacts]
    reachable: frozenset[PlantState]
    words: tuple[Words, ...] = ()

    @cached_property
    def reached(self) -> frozenset[str]:
        """Everything the top event reaches, itself included."""
        return reached(self.tree)

    @cached_property
    def causes(self) -> tuple[str, ...]:
        """The causes the top event reaches, of this file or of another, in the catalogue's order."""
        return tuple(id for id in self.library.causes if id in self.reached)

    def warn(self, rule: str, path: KeyPath, what: str, remedy: str) -> LintWarning:
        """Return a warning at a place in the tree's file."""
        line, _ = self.source.place(path)
        return LintWarning(self.source.file, line, self.source.key(path), rule, what, remedy)

    def works(self) -> Iterator[tuple[KeyPath, Question | Remedy | Proof]]:
        """Yield everything that a person does, and where it stands."""
        for index, question in enumerate(self.tree.questions):
            yield ("questions", index), question
        for index, cause in enumerate(self.tree.causes):
            yield ("causes", index, "remedy"), cause.remedy
            yield ("causes", index, "remedy", "proof"), cause.remedy.proof

    def rows(self) -> Iterator[tuple[KeyPath, Question, str, Row]]:
        """Yield every row of every question's `given`, and where it stands."""
        for index, question in enumerate(self.tree.questions):
            for name, row in question.given.items():
                yield ("questions", index, "given", name), question, name, row


def gate_graph(tree: Tree) -> nx.DiGraph[str]:
    """Return the tree's gates with an edge to each of their children, whatever those are."""
    graph: nx.DiGraph[str] = nx.DiGraph()
    graph.add_node(tree.top)
    for gate in tree.events:
        graph.add_edges_from((gate.id, child) for child in gate.children)
    return graph


def reached(tree: Tree) -> frozenset[str]:
    """Return the id of everything the tree's top event leads to, its own included."""
    return frozenset({tree.top} | nx.descendants(gate_graph(tree), tree.top))


def distance(one: Row, other: Row, meter: float) -> float:
    """Return how much the answers under two rows differ: their total variation distance, 0 to 1.

    With equal odds before, whoever sees the answer guesses the right row of the two with
    probability (1 + distance) / 2. For shifts it is one less the overlap of the two normal
    distributions (`statistics.NormalDist.overlap`), the meters' share in.

    >>> a = Weights(p={"yes": 1.0}, basis=Basis.ESTIMATE)
    >>> b = Weights(p={"yes": 0.25, "no": 0.75}, basis=Basis.ESTIMATE)
    >>> distance(a, b, 0.05)
    0.75
    """
    if one is other:
        return 0.0
    if isinstance(one, Weights) and isinstance(other, Weights):
        return 0.5 * sum(abs(one.p.get(id, 0.0) - other.p.get(id, 0.0)) for id in one.p.keys() | other.p.keys())
    if isinstance(one, Shift) and isinstance(other, Shift):
        if (one.shift, one.spread) == (other.shift, other.spread):
            return 0.0
        normal, against = (NormalDist(row.shift, hypot(row.spread, meter)) for row in (one, other))
        return 1.0 - normal.overlap(against)
    return 1.0


def told_apart(one: str, other: str, questions: Iterable[Question]) -> bool:
    """Return whether some question's answer differs enough between two causes."""
    return any(
        distance(
            question.given.get(one, question.given["default"]),
            question.given.get(other, question.given["default"]),
            question.meter,
        )
        > TOLD_APART
        for question in questions
    )


def reachable_states(plant: PlantFile) -> frozenset[PlantState]:
    """Return the plant states that the plant's changes lead to, by whomever, from one ready for service."""
    graph: nx.DiGraph[PlantState] = nx.DiGraph()
    states = all_states()
    graph.add_nodes_from(states)
    for state in states:
        for change in plant.changes:
            if not satisfies(state, change.when):
                continue
            then = after(state, change)
            if possible(then):
                graph.add_edge(state, then)
    ready = [state for state in states if satisfies(state, plant.ready)]
    return frozenset(ready).union(*(nx.descendants(graph, state) for state in ready))


# --- rules: the graph ---


def undefined_ids(subject: Subject) -> Iterator[LintWarning]:
    """Yield ids in `top`, gates, `given` rows and `same_as` that nothing defines."""
    tree, causes = subject.tree, subject.library.causes
    gates = {gate.id for gate in tree.events}
    known = [*gates, *(condition.id for condition in tree.conditions), *causes]
    if tree.top not in gates:
        remedy = choose(tree.top, gates, otherwise="name one of the tree's events")
        yield subject.warn("undefined-id", ("top",), f"no event has the id '{tree.top}'", remedy)
    for index, gate in enumerate(tree.events):
        for child in gate.children:
            if child not in known:
                what = f"'{child}' is no event or condition of this tree, and no cause of any"
                remedy = choose(child, known, otherwise="define it, or take it out")
                yield subject.warn("undefined-id", ("events", index, _list_of(gate)), what, remedy)
    for path, _, name, _ in subject.rows():
        if name != "default" and name not in causes:
            remedy = choose(name, causes, otherwise="define it, or take the row out")
            yield subject.warn("undefined-id", path, f"no tree defines the cause '{name}'", remedy)
    for index, cause in enumerate(tree.causes):
        for name in cause.same_as:
            if name not in causes or name == cause.id:
                what = f"'{name}' is no other cause of any tree"
                remedy = choose(name, causes.keys() - {cause.id}, otherwise="take it out")
                yield subject.warn("undefined-id", ("causes", index, "same_as", name), what, remedy)


def _list_of(gate: Gate) -> str:
    return "any" if gate.any else "all" if gate.all else "of"


def unreached(subject: Subject) -> Iterator[LintWarning]:
    """Yield causes that no tree's top event reaches, and events and conditions that this one's does not."""
    anywhere = frozenset[str]().union(*(reached(tree) for tree in subject.library.trees.values()))
    for index, cause in enumerate(subject.tree.causes):
        if cause.id not in anywhere:
            remedy = "name it in the gate it belongs to, or take it out"
            yield subject.warn("unreached", ("causes", index), "no gate leads to this cause", remedy)
    inner: list[tuple[KeyPath, str]] = [
        *((("events", index), gate.id) for index, gate in enumerate(subject.tree.events)),
        *((("conditions", index), item.id) for index, item in enumerate(subject.tree.conditions)),
    ]
    for path, id in inner:
        if id not in subject.reached:
            what = f"the top event '{subject.tree.top}' does not lead here"
            yield subject.warn("unreached", path, what, "name it in a gate, or take it out")


def single_children(subject: Subject) -> Iterator[LintWarning]:
    """Yield gates with one child, which say nothing that the child does not."""
    for index, gate in enumerate(subject.tree.events):
        if len(gate.children) == 1:
            what = f"the gate has one child only, '{gate.children[0]}'"
            remedy = f"name '{gate.children[0]}' where '{gate.id}' is named, or add what is missing"
            yield subject.warn("single-child", ("events", index), what, remedy)


def cycles(subject: Subject) -> Iterator[LintWarning]:
    """Yield gates that bring about themselves: one cycle of each knot of gates."""
    place = {gate.id: index for index, gate in enumerate(subject.tree.events)}
    graph = gate_graph(subject.tree)
    for knot in nx.strongly_connected_components(graph):
        part = graph.subgraph(knot)
        if len(knot) == 1 and not any(nx.selfloop_edges(part)):
            continue
        edges = nx.find_cycle(part, min(knot, key=lambda id: place[id]))
        around = [edges[0][0], *(edge[1] for edge in edges)]
        path: KeyPath = ("events", min(place[id] for id in around))
        yield subject.warn("cycle", path, f"a cycle: {' -> '.join(around)}", "take one of these out of its gate")


# --- rules: what the questions tell ---


def alike(subject: Subject) -> Iterator[LintWarning]:
    """Yield the pairs of causes that no question of the tree tells apart, unless `same_as` says why not."""
    place = {cause.id: index for index, cause in enumerate(subject.tree.causes)}
    for one, other in combinations(subject.causes, 2):
        if told_apart(one, other, subject.tree.questions) or _declared(subject.library, one, other):
            continue
        path: KeyPath = (
            ("causes", place[other]) if other in place else ("causes", place[one]) if one in place else ()
        )
        what = f"no question tells '{one}' from '{other}'"
        remedy = "add a question or rows that do, or say under same_as why none is wanted"
        yield subject.warn("alike", path, what, remedy)


def _declared(library: Library, one: str, other: str) -> bool:
    return other in library.causes[one].same_as or one in library.causes[other].same_as


def stale_same_as(subject: Subject) -> Iterator[LintWarning]:
    """Yield `same_as` entries for causes that a question does tell apart."""
    for index, cause in enumerate(subject.tree.causes):
        for other in cause.same_as:
            if other not in subject.library.causes or other == cause.id:
                continue
            asking = [
                question.id
                for question in subject.library.questions.values()
                if told_apart(cause.id, other, [question])
            ]
            if asking:
                what = f"'{asking[0]}' tells '{cause.id}' from '{other}'"
                path: KeyPath = ("causes", index, "same_as", other)
                yield subject.warn("stale-same-as", path, what, "take the entry out, or mend the question's rows")


def idle_questions(subject: Subject) -> Iterator[LintWarning]:
    """Yield questions whose answer changes nothing."""
    for index, question in enumerate(subject.tree.questions):
        rows = [row for name, row in question.given.items() if name == "default" or name in subject.library.causes]
        if not any(distance(one, other, question.meter) > MOVES for one, other in combinations(rows, 2)):
            remedy = "add rows for the causes that move it, or take the question out"
            yield subject.warn("idle-question", ("questions", index), "no answer to it moves any cause", remedy)


def nothing_to_watch_for(subject: Subject) -> Iterator[LintWarning]:
    """Yield questions that do not say what usually makes their answer wrong."""
    for index, question in enumerate(subject.tree.questions):
        if not subject.library.watch_for(question):
            what = "it does not say what usually makes its answer wrong"
            remedy = "add wrong_readings to it, or in points.yaml to a point it reads"
            yield subject.warn("nothing-to-watch-for", ("questions", index), what, remedy)


def sums(subject: Subject) -> Iterator[LintWarning]:
    """Yield rows whose probabilities do not add up to one."""
    for path, _, _, row in subject.rows():
        if isinstance(row, Weights) and abs((total := sum(row.p.values())) - 1.0) > 1e-6:
            what = f"the probabilities add up to {total:.10g}"
            yield subject.warn("sum", (*path, "p"), what, "change them to add up to 1")


def unknown_outcomes(subject: Subject) -> Iterator[LintWarning]:
    """Yield outcomes in rows that the question does not have."""
    for path, question, _, row in subject.rows():
        outcomes = [outcome.id for outcome in question.outcomes]
        for name in row.p if isinstance(row, Weights) else ():
            if name not in outcomes:
                remedy = choose(name, outcomes, otherwise=f"write one of {listed(outcomes)}")
                yield subject.warn("unknown-outcome", (*path, "p", name), f"no outcome '{name}'", remedy)


def unsourced(subject: Subject) -> Iterator[LintWarning]:
    """Yield numbers that are said to be published without saying where."""
    tree = subject.tree
    based: list[tuple[KeyPath, Basis, str | None]] = [
        *((("causes", index), cause.basis, cause.source) for index, cause in enumerate(tree.causes)),
        *((("conditions", index), item.basis, item.source) for index, item in enumerate(tree.conditions)),
        *((path, row.basis, row.source) for path, _, _, row in subject.rows()),
    ]
    for path, basis, source in based:
        if basis is Basis.PUBLISHED and source is None:
            remedy = "add 'source:' with title, edition and page, or write basis: estimate"
            yield subject.warn("unsourced", (*path, "basis"), "basis: published, but no source", remedy)


# --- rules: safety ---


def no_cautions(subject: Subject) -> Iterator[LintWarning]:
    """Yield work in a hazardous plant state that says nothing of the hazard."""
    for path, work in subject.works():
        if hazardous(work.state) and not work.cautions:
            what = f"no cautions, though it needs {_in_words(work.state)}"
            yield subject.warn("no-cautions", path, what, "add cautions: what can hurt, and how not to be hurt")


def _in_words(need: StateNeed) -> str:
    return ", ".join(f"{name}: {value}" for name, value in need.model_dump(exclude_none=True).items())


def underqualified(subject: Subject) -> Iterator[LintWarning]:
    """Yield work given to people who may not do it in the plant state it needs.

    An open panel, live or isolated, is for an electrical worker; an open refrigerant circuit for a
    refrigerant handler.
    """
    for path, work in subject.works():
        for open_here, needed, what in (
            (work.state.panel is Panel.OPEN, Qualification.ELECTRICAL_WORKER, "an open panel"),
            (work.state.refrigerant is Refrigerant.OPENED, Qualification.REFRIGERANT_HANDLER, "an open circuit"),
        ):
            if open_here and not may(frozenset({work.who}), needed):
                yield subject.warn(
                    "underqualified",
                    (*path, "who"),
                    f"{what} is not for a {work.who}",
                    f"write who: {needed}, or part the work in two",
                )


_NO_TOOL = frozenset(
    {
        "eye", "eyes", "ear", "ears", "nose", "hand", "hands", "none", "nothing", "no", "tool", "tools",
        "and", "or", "watch", "log", "clock", "phone", "question", "a", "the",
    }
)  # fmt: skip
"""Words of an instrument that is none."""


def caller_limits(subject: Subject) -> Iterator[LintWarning]:
    """Yield work for a caller that asks for tools, an instrument or an open panel."""
    for path, work in subject.works():
        if work.who is not Qualification.CALLER:
            continue
        remedy = "ask for what can be seen or heard, or write who: crew or above"
        if work.state.panel is Panel.OPEN:
            yield subject.warn("caller", (*path, "state"), "a caller opens no panel", remedy)
        if isinstance(work, Remedy) and work.tools:
            yield subject.warn("caller", (*path, "tools"), f"a caller has no tools ({listed(work.tools)})", remedy)
        if isinstance(work, Question) and set(re.findall(r"[a-z]+", work.instrument.lower())) - _NO_TOOL:
            what = f"a caller has no instrument ('{work.instrument}')"
            yield subject.warn("caller", (*path, "instrument"), what, remedy)


def impossible_needs(subject: Subject) -> Iterator[LintWarning]:
    """Yield plant states that cannot be, or that no change of the plant leads to."""
    for path, work in subject.works():
        if any(satisfies(state, work.state) for state in subject.reachable):
            continue
        if any(satisfies(state, work.state) for state in all_states()):
            what = f"no change of the plant leads to {_in_words(work.state)}"
            remedy = "add a change to resources/plant.yaml, or ask for less"
        else:
            what = f"no plant can be in {_in_words(work.state)}"
            remedy = "leave out what the work does not need"
        yield subject.warn("impossible-state", (*path, "state"), what, remedy)


def unknown_places(subject: Subject) -> Iterator[LintWarning]:
    """Yield places, instruments and protective devices that resources/plant.yaml lacks."""
    plant = subject.library.plant
    for path, work in subject.works():
        if isinstance(work, Proof):
            continue
        named: list[tuple[KeyPath, str, str, Iterable[str]]] = []
        if work.place is not None:
            named.append(((*path, "place"), "place", work.place, plant.places))
        if isinstance(work, Question):
            named += [
                ((*path, "bring", index), "instrument", id, plant.instrument_ids)
                for index, id in enumerate(work.bring)
            ]
        elif work.resets is not None:
            named.append(((*path, "resets"), "protective device", work.resets, plant.reset_limits))
        for at, what, id, known in named:
            if id not in known:
                remedy = choose(id, known, otherwise=f"write one of {listed(known)}")
                yield subject.warn("unknown-place", at, f"no {what} '{id}' in resources/plant.yaml", remedy)


# --- rules: points and checks ---


def unknown_points(subject: Subject) -> Iterator[LintWarning]:
    """Yield measuring points that the vocabulary lacks."""
    for path, work in subject.works():
        for index, id in enumerate(() if isinstance(work, Remedy) else work.points):
            if id not in subject.library.points:
                remedy = choose(id, subject.library.points, otherwise="take its name from resources/points.yaml")
                yield subject.warn("unknown-point", (*path, "points", index), f"no measuring point '{id}'", remedy)


def check_needs(subject: Subject) -> Iterator[LintWarning]:
    """Yield checks that nobody registered, and questions that do not ask for what their check needs."""
    for index, question in enumerate(subject.tree.questions):
        path: KeyPath = ("questions", index)
        if question.check is None:
            continue
        facts = subject.checks.get(question.check)
        if facts is None:
            remedy = choose(question.check, subject.checks, otherwise=f"write one of {listed(subject.checks)}")
            yield subject.warn("unknown-check", (*path, "check"), f"no check '{question.check}'", remedy)
            continue
        for need in facts.missing(question.points):
            what = f"the check '{question.check}' needs {need}"
            yield subject.warn("check-needs", (*path, "points"), what, "add it to the points")
        for place, id in enumerate(question.points):
            if id in subject.library.points and id not in facts.points:
                what = f"the check '{question.check}' makes no use of '{id}'"
                yield subject.warn("check-needs", (*path, "points", place), what, "take it out of the points")


def choice_outcomes(subject: Subject) -> Iterator[LintWarning]:
    """Yield questions about one choice point whose outcomes are not that point's choices."""
    for index, question in enumerate(subject.tree.questions):
        point = choice_point(question, subject.library.points)
        if point is None or not question.outcomes:
            continue
        wanted = [choice.id for choice in point.choices]
        if {outcome.id for outcome in question.outcomes} != set(wanted):
            what = f"the outcomes are not the choices of the point '{point.id}'"
            remedy = f"use the outcome ids {listed(wanted)}"
            yield subject.warn("choice-outcomes", ("questions", index, "outcomes"), what, remedy)


def unknown_stock(subject: Subject) -> Iterator[LintWarning]:
    """Yield parts and tools that the stock does not know: nobody can say what they weigh and where they are."""
    stock = load_stock()
    scopes: tuple[Scope, ...] = ("parts", "tools")
    for index, cause in enumerate(subject.tree.causes):
        for scope in scopes:
            for place, text in enumerate(getattr(cause.remedy, scope)):
                if stock.needs(scope, text) is None:
                    what = f"the stock does not know '{text}'"
                    at = ("causes", index, "remedy", scope, place)
                    yield subject.warn("unknown-stock", at, what, stock.closest(scope, text))


# --- rules: other languages ---


def texts_missing(subject: Subject) -> Iterator[LintWarning]:
    """Yield texts that a language lacks which has begun this tree."""
    for words in subject.words:
        if subject.tree.id not in words.trees:
            continue
        laid = Laid()
        words.tree(subject.tree, laid)
        file = words.trees[subject.tree.id][1].file
        for path, text in laid.missing:
            what = f"no words in '{words.language}' for '{text if len(text) <= 60 else text[:57] + '...'}'"
            yield subject.warn(f"text-missing-in-{words.language}", path, what, f"say it in {file}")


def texts_stale(subject: Subject) -> Iterator[LintWarning]:
    """Yield entries of another language that were made from English that has changed since."""
    for words in subject.words:
        if subject.tree.id not in words.trees:
            continue
        laid = Laid()
        words.tree(subject.tree, laid)
        source = words.trees[subject.tree.id][1]
        for path, mark in laid.stale:
            remedy = f'compare the two, then write english: "{mark}"'
            line, _ = source.place(path)
            rule = f"text-stale-in-{words.language}"
            yield LintWarning(source.file, line, source.key(path), rule, "the English has changed since", remedy)


RULES: tuple[Callable[[Subject], Iterator[LintWarning]], ...] = (
    undefined_ids,
    unreached,
    single_children,
    cycles,
    alike,
    stale_same_as,
    idle_questions,
    nothing_to_watch_for,
    sums,
    unknown_outcomes,
    unsourced,
    no_cautions,
    underqualified,
    caller_limits,
    impossible_needs,
    unknown_places,
    unknown_points,
    unknown_stock,
    check_needs,
    choice_outcomes,
    texts_missing,
    texts_stale,
)


def lint(library: Library, known_checks: Mapping[str, CheckFacts]) -> list[LintWarning]:
    """Return what every rule has to say of every tree, in the order of files and lines.

    Args:
        library: the trees and what they refer to.
        known_checks: what every registered check needs, by its id.
    """
    return sorted(
        {warning for subject in _subjects(library, known_checks) for rule in RULES for warning in rule(subject)}
    )


def _subjects(library: Library, known_checks: Mapping[str, CheckFacts]) -> list[Subject]:
    reachable = reachable_states(library.plant)
    words = tuple(load_words(one, library.catalogue.folder) for one in languages() if one != ENGLISH)
    return [
        Subject(tree, library.sources[id], library, known_checks, reachable, words)
        for id, tree in library.trees.items()
    ]


def _said(subject: Subject, words: Words) -> int:
    """Return how many of a tree's texts a language has; those it has a common phrase for do not begin a tree."""
    if subject.tree.id not in words.trees:
        return 0
    laid = Laid()
    words.tree(subject.tree, laid)
    return laid.texts - len(laid.missing)


def stats(library: Library, warnings: Sequence[LintWarning]) -> dict[str, TreeStats]:
    """Return what each tree has, by its id.

    Args:
        library: the trees.
        warnings: what `lint` said of them, to be counted.
    """
    found: dict[str, TreeStats] = {}
    for subject in _subjects(library, {}):
        tree = subject.tree
        pairs = list(combinations(subject.causes, 2))
        rows = [row for _, _, _, row in subject.rows()]
        asked = [question for question in tree.questions if question.who is Qualification.CALLER]
        found[tree.id] = TreeStats(
            causes=len(subject.causes),
            questions=len(tree.questions),
            readings=sum(question.check is not None for question in tree.questions),
            told_apart=sum(told_apart(one, other, tree.questions) for one, other in pairs),
            pairs=len(pairs),
            rows=len(rows),
            simulated=sum(row.basis is Basis.SIMULATED for row in rows),
            caller=len(asked),
            helped=sum(question.ask.hesitates is not None for question in asked),
            texts=count_texts(tree),
            said={words.language: _said(subject, words) for words in subject.words},
            warnings=sum(warning.file == subject.source.file for warning in warnings),
        )
    return found


def render(warnings: Sequence[LintWarning]) -> str:
    """Return warnings as lines of text, one a warning, with a count at the end.

    >>> render([])
    'no warnings'
    """
    if not warnings:
        return "no warnings"
    count = f"{len(warnings)} warning{'s' if len(warnings) > 1 else ''}"
    return "\n".join([*map(str, warnings), count])
