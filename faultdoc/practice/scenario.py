"""Practice scenarios: a unit with hidden faults, and how a dispatcher tells of it.

FaultDoc's own lie in resources/scenarios; an instructor may write more, and a seed gives one that nobody wrote.
Every mistake in a file is told with its line and what to do.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache, lru_cache
from pathlib import Path
from typing import Annotated, Any

import numpy as np
from pydantic import Field

from faultdoc.diagnosis.assess import Bench, bench_for
from faultdoc.library.load import Library, load_library, load_unit, units
from faultdoc.library.places import resources_folder
from faultdoc.library.problems import FileProblems, Problem, as_found, choose, listed
from faultdoc.library.source import Source, read, read_text
from faultdoc.library.translate import build, quantity_problem
from faultdoc.library.whole import write_whole
from faultdoc.library.written import yaml_text
from faultdoc.model.base import Id, Minutes, Model, Text
from faultdoc.model.safety import TRIPPED, PlantState, Qualification, possible
from faultdoc.model.tree import Tree
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, QuantityError, System, parse, show
from faultdoc.simulator.condition import Site
from faultdoc.simulator.faults import FAULTS
from faultdoc.simulator.unit import usual_site
from faultdoc.words import say

__all__ = [
    "LEVELS",
    "SITE_KINDS",
    "Scenario",
    "bench_of",
    "brings_about",
    "by_hand",
    "load_scenarios",
    "random_scenario",
    "read_scenario",
    "save_scenario",
    "site_of",
]

LEVELS: Mapping[int, str] = {
    1: say("one plain fault"),
    2: say("one fault that looks like others"),
    3: say("wrong instruments, faults that come and go, two faults at once"),
}

SITE_KINDS: Mapping[str, Kind] = {
    "ambient": Kind.TEMPERATURE,
    "elevation": Kind.LENGTH,
    "high_point": Kind.LENGTH,
    "hose_length": Kind.LENGTH,
    "hose_bore": Kind.BORE,
    "load_drop": Kind.PRESSURE_DIFFERENCE,
    "added_volume": Kind.VOLUME,
    "load": Kind.RATIO,
    "glycol_fraction": Kind.MASS_FRACTION,
    "standing_pressure": Kind.GAUGE_PRESSURE,
    "source_voltage": Kind.VOLTAGE,
    "feeder_length": Kind.LENGTH,
    "generator_rating": Kind.CURRENT,
    "lowest_air": Kind.TEMPERATURE,
    "energised": Kind.TIME,
}
"""What a scenario may say of the site, and in what kind of quantity."""

_HOUR = 60
"""Minutes of par that every level adds where nobody has played the call before."""

Severity = Annotated[float, Field(gt=0.0, le=1.0)]


class Scenario(Model):
    """One hidden case to practise on.

    `faults` gives the severity by cause, `site` fields of the simulator's site as text with their units,
    `state` how the plant is found, `teaches` one line for the list and the debrief, `minutes` what is par,
    `seed` the instruments' errors and what people say, so that a call is the same for everyone who takes it.
    """

    id: Id
    title: Text
    level: Annotated[int, Field(ge=1, le=3)]
    unit: str
    tree: Id
    faults: dict[Id, Severity] = Field(min_length=1, max_length=3)
    site: dict[Id, str] = Field(default_factory=dict)
    briefing: Text
    who: tuple[Annotated[Qualification, Field(strict=False)], ...] = Field(
        default=(Qualification.ELECTRICAL_WORKER, Qualification.REFRIGERANT_HANDLER), strict=False, min_length=1
    )
    state: PlantState = TRIPPED
    teaches: Text
    minutes: Minutes
    seed: Annotated[int, Field(ge=0)] = 1


def site_of(scenario: Scenario, sheet: DataSheet) -> Site:
    """Return where a scenario's unit stands, in health.

    Raises:
        QuantityError: for a value that is no quantity of its kind.
        KeyError: for a field that no scenario may set.
    """
    return usual_site(
        sheet,
        **{name: parse(text, SITE_KINDS[name], need_unit=True).value for name, text in scenario.site.items()},
    )


@lru_cache(maxsize=128)
def bench_of(unit: str, tree: str) -> Bench:
    """Return the engine's bench for a unit with a symptom, made once."""
    return bench_for(_library(), load_unit(unit), (tree,))


@cache
def _library() -> Library:
    return load_library(learned=False)


@cache
def load_scenarios() -> Mapping[str, Scenario]:
    """Return FaultDoc's own scenarios by id, easier ones first.

    Raises:
        FileProblems: with every mistake in every file.
    """
    problems: list[Problem] = []
    found: list[Scenario] = []
    for path in sorted((resources_folder() / "scenarios").glob("*.yaml")):
        try:
            one = _understood(read(path), _library())
        except FileProblems as wrong:
            problems.extend(wrong.problems)
            continue
        if one.id != path.stem:
            problems.append(
                Problem(
                    path.name,
                    0,
                    0,
                    "id",
                    f"'{one.id}'",
                    say("'{stem}', as the file is named", stem=path.stem),
                    say("rename one"),
                )
            )
        found.append(one)
    if problems:
        raise FileProblems(problems)
    return {one.id: one for one in sorted(found, key=lambda one: (one.level, one.id))}


def read_scenario(path: Path) -> Scenario:
    """Return a scenario read from a file, its faults known to bring the symptom about.

    Raises:
        FileProblems: with every mistake in the file.
    """
    return _proved(read(path))


def _proved(source: Source) -> Scenario:
    """Return the scenario of a file as read, its faults known to bring the symptom about."""
    scenario = _understood(source, _library())
    if not brings_about(scenario):
        found = say(
            "{listed}, which together do not bring '{tree}' about on this unit",
            listed=listed(scenario.faults),
            tree=scenario.tree,
        )
        allowed = say("causes that do, none of them to spare")
        remedy = say("'faultdoc tree {tree} --cut-sets' lists what does", tree=scenario.tree)
        raise FileProblems([source.problem(("faults",), found, allowed, remedy, at_value=False)])
    return scenario


def brings_about(scenario: Scenario) -> bool:
    """Return whether a scenario's faults together bring its symptom about by the tree's logic."""
    bench = bench_for(_library(), load_unit(scenario.unit), (scenario.tree,), max(len(scenario.faults), 1))
    sets = bench.problem.sets
    wanted = set(scenario.faults)
    return any({sets.causes[i] for i in members if i < len(sets.causes)} == wanted for members in sets.members)


def _understood(source: Source, library: Library) -> Scenario:
    problems = list(_wrong(source, library)) if isinstance(source.data, dict) else []
    return build(Scenario, source, known=problems)


def _wrong(source: Source, library: Library) -> Iterator[Problem]:
    """Yield what is wrong with a file beside the form of its fields."""
    unit, tree, state = (source.data.get(name) for name in ("unit", "tree", "state"))
    known = units()
    if isinstance(unit, str) and unit not in known:
        yield source.problem(
            ("unit",), f"'{unit}'", say("one of {listed}", listed=listed(known)), choose(unit, known)
        )
    if isinstance(tree, str):
        if tree not in library.trees:
            remedy = choose(tree, library.trees)
            yield source.problem(
                ("tree",), say("the unknown fault tree '{tree}'", tree=tree), listed(library.trees), remedy
            )
        elif isinstance(unit, str) and unit in known:
            lacking = set(library.trees[tree].applies_to) - set(load_unit(unit).features)
            if lacking:
                found = say(
                    "'{tree}', which is for units with {listed}", tree=tree, listed=listed(sorted(lacking))
                )
                yield source.problem(
                    ("tree",), found, say("a tree for this unit"), say("name another unit or tree")
                )
    yield from _wrong_faults(source, library.trees.get(tree) if isinstance(tree, str) else None)
    yield from _wrong_site(source)
    try:
        found_state = PlantState.model_validate(state)
    except ValueError:
        return  # left out, or told by the model itself
    if not possible(found_state):
        remedy = say("compressors run only with the pump, the pump only with power; write what can be")
        yield source.problem(
            ("state",), say("a state that cannot be"), say("a possible one"), remedy, at_value=False
        )


def _wrong_faults(source: Source, tree: Tree | None) -> Iterator[Problem]:
    faults = source.data.get("faults")
    for id, severity in faults.items() if isinstance(faults, dict) else ():
        at = ("faults", id)
        if id not in FAULTS:
            remedy = choose(id, FAULTS, otherwise=say("take a cause that the simulator knows"))
            yield source.problem(
                at, say("'{id}', which is not simulated", id=id), say("a simulated cause"), remedy, at_value=False
            )
        elif tree is not None and id not in _named_in(tree):
            possible_ones = sorted(_named_in(tree) & set(FAULTS))
            found = say("'{id}', which is no cause of '{id_2}'", id=id, id_2=tree.id)
            yield source.problem(at, found, listed(possible_ones), choose(id, possible_ones), at_value=False)
        elif isinstance(severity, (int, float)) and not FAULTS[id].mildest <= severity <= 1.0:
            allowed = say("{mildest:g} to 1", mildest=FAULTS[id].mildest)
            yield source.problem(at, f"{severity:g}", allowed, say("below that nobody would notice it"))


def _named_in(tree: Tree) -> set[str]:
    gates = {gate.id for gate in tree.events}
    return {child for gate in tree.events for child in gate.children} - gates


def _wrong_site(source: Source) -> Iterator[Problem]:
    site = source.data.get("site")
    for name, text in site.items() if isinstance(site, dict) else ():
        at = ("site", name)
        if name not in SITE_KINDS:
            found = f"'{name}'"
            yield source.problem(at, found, listed(SITE_KINDS), choose(name, SITE_KINDS), at_value=False)
            continue
        try:
            parse(text if isinstance(text, str) else as_found(text), SITE_KINDS[name], need_unit=True)
        except QuantityError:
            yield quantity_problem(source, at, text, SITE_KINDS[name])


# --- writing ---


def by_hand(
    unit: str, tree: str, faults: Mapping[str, float], *, id: str = "by_hand", level: int = 2, briefing: str = ""
) -> Scenario:
    """Return a scenario with faults set by an instructor.

    Args:
        unit, tree: ids.
        faults: severity by cause.
        id: of the scenario.
        level: 1 to 3.
        briefing: what the trainee is told; the symptom's own words where it is empty.

    Raises:
        FileProblems: for an id that is not known, a severity that is out of range, or faults that do not bring the
            symptom about on the unit.
    """
    symptom = _library().trees[tree].symptom if tree in _library().trees else tree
    data = {
        "id": id,
        "title": say("Set by hand: {tree}", tree=tree),
        "level": level,
        "unit": unit,
        "tree": tree,
        "faults": dict(faults),
        "briefing": briefing or say("A call came in. They say: {symptom}", symptom=symptom),
        "teaches": say("What the instructor has chosen."),
        "minutes": float(_HOUR * (1 + level)),
    }
    try:
        return _proved(read_text(yaml_text(data), "set by hand"))
    except FileProblems as wrong:
        # Nobody has seen its lines.
        raise FileProblems(replace(problem, line=0, column=0) for problem in wrong.problems) from None


def save_scenario(scenario: Scenario, path: Path) -> None:
    """Write a scenario to a file, whole or not at all.

    Raises:
        OSError: when the folder cannot be written.
    """
    data: dict[str, Any] = scenario.model_dump(mode="json")
    if not data["site"]:
        del data["site"]
    write_whole(yaml_text(data), path)


# --- by seed ---

_COMES_AND_GOES = tuple(id for id, fault in FAULTS.items() if fault.comes_and_goes)


def random_scenario(seed: int, level: int | None = None) -> Scenario:
    """Return a scenario that nobody wrote; the same for a seed and a level on every machine.

    Args:
        seed: zero or more.
        level: 1 to 3; drawn as well where it is left out.

    Raises:
        ValueError: for a seed below zero, or a level that there is not.
    """
    from faultdoc.practice.closed_loop import draw

    if seed < 0:
        raise ValueError(f"the seed is {seed}; it must be zero or more")
    if level is not None and level not in LEVELS:
        raise ValueError(f"the level is {level}; it must be 1, 2 or 3")
    rng = np.random.default_rng([seed, 20_417])
    level = int(rng.integers(1, 4)) if level is None else level
    two = level == 3 and bool(rng.integers(0, 2))
    for attempt in range(200):
        setting = draw(int(rng.integers(0, 2**31)), faults=2 if two else 1)
        goes = any(id in _COMES_AND_GOES for id in setting.faults)
        hard = two or goes or setting.tree == "sensor_untrue"
        if (level == 3) == hard or attempt == 199:
            break
    low = {1: 0.8, 2: 0.0, 3: 0.3}[level]
    faults = {id: round(float(rng.uniform(max(FAULTS[id].mildest, low), 1.0)), 2) for id in sorted(setting.faults)}
    sheet, tree = load_unit(setting.unit), _library().trees[setting.tree]
    site = {
        "ambient": f"{setting.site.ambient - 273.15:.1f} °C",
        "elevation": f"{setting.site.elevation:.0f} m",
        "high_point": f"{setting.site.high_point:.1f} m",
        "hose_length": f"{setting.site.hose_length:.0f} m",
        "load": f"{100.0 * setting.site.load:.0f} %",
    }
    return Scenario(
        id=f"random_{level}_{seed}",
        title=say("Call {seed}: {title}", seed=seed, title=tree.title),
        level=level,
        unit=setting.unit,
        tree=setting.tree,
        faults=faults,
        site=site,
        briefing=_told(rng, sheet, tree, site),
        teaches=say("A call that nobody has prepared."),
        minutes=float(_HOUR * (1 + level)),
        seed=seed,
    )


_CALLERS = (
    say("the plant's engineer"),
    say("the site's foreman"),
    say("a process plant's operator"),
    say("the hall's caretaker"),
)
_PRESSED = (
    say("They want it back before the shift ends."),
    say("Their load holds for an hour or two."),
    say("They have people waiting."),
    say("There is no second unit."),
)


def _told(rng: np.random.Generator, sheet: DataSheet, tree: Tree, site: Mapping[str, str]) -> str:
    caller, pressed = (str(words[int(rng.integers(0, len(words)))]) for words in (_CALLERS, _PRESSED))
    air = show(parse(site["ambient"], Kind.TEMPERATURE, need_unit=True).value, Kind.TEMPERATURE, System.US)
    return say(
        "Call from {caller}. The unit is a {title}. They say: {symptom} It is {air} outside. {pressed}",
        caller=caller,
        title=sheet.title,
        symptom=tree.symptom,
        air=air,
        pressed=pressed,
    )
