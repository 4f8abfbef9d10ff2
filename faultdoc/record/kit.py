"""What to send: the parts, tools and people with the best chance of a fix on the first visit.

From the belief's sets of causes, not the likeliest alone. A set is fixed on the first visit when for
every cause in it all parts and tools of its remedy are there, the instruments of its proof, people who
may do the work and bring the plant into the state for it, and when the remedies hold. What is on every
van costs nothing; what comes from the shelf counts against the van's limits; what must be ordered or
hired is there only when somebody says so (`Limits.have`).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property
from itertools import chain, combinations
from typing import Any

import numpy as np

from faultdoc import __version__
from faultdoc.diagnosis.assess import Assessment, situation
from faultdoc.diagnosis.planner import Situation
from faultdoc.library.problems import choose
from faultdoc.library.stock import Stock, load_stock
from faultdoc.model.safety import (
    Panel,
    PlantFile,
    PlantState,
    Qualification,
    StateNeed,
    Supply,
    after,
    may,
    possible,
    satisfies,
)
from faultdoc.model.stock import Comes, Match, Scope, StockKind
from faultdoc.model.tree import Cause
from faultdoc.model.unit import DataSheet
from faultdoc.quantities import Kind, System, show
from faultdoc.record.matching import Machine, machine_of, match_words
from faultdoc.record.packing import Cost, Job, Packing, Room, Thing, Wish
from faultdoc.record.template import template
from faultdoc.record.words import PEOPLE, chance
from faultdoc.words import say

__all__ = [
    "TOLD",
    "Addition",
    "Article",
    "Kit",
    "KitError",
    "Limits",
    "Lost",
    "Person",
    "Sending",
    "addition_words",
    "article_words",
    "best_kit",
    "default_limits",
    "kit_html",
    "kit_json",
    "kit_lines",
    "kit_with",
    "load_words",
    "lost_words",
    "person_words",
    "remarks",
    "sending",
    "standing_words",
    "worth_words",
]

NEGLIGIBLE = 1e-6
"""Total weight of the least believed sets, which are not looked at."""

SUGGESTED = 5
"""Additions that are named."""

UNLISTED = "unlisted"
"""The kind that stands in for what the stock does not have."""

TOLD = 0.005
"""Least part of the chance whose loss is told."""

FOR = 3
"""Causes named beside an article."""

COUNTED = {
    "mass": "weight",
    "volume": "room",
    "items": say("number of special items"),
    "people": say("number of people"),
}


class KitError(ValueError):
    """What was asked cannot be reckoned; the message says why and what helps."""


@dataclass(frozen=True)
class Limits:
    """What one visit may bring: kg, m3, things beyond those on every van, people; who, and what is there anyway.

    Attributes:
        mass, volume, items, people: of all that goes; a person is no item.
        who: one entry for each person who may be sent, with all that the person is qualified for.
        have: ids of kinds that must be ordered or hired and have come.
    """

    mass: float
    volume: float
    items: int
    people: int
    who: tuple[frozenset[Qualification], ...]
    have: frozenset[str] = frozenset()

    @property
    def room(self) -> Room:
        """The limits as the packing takes them."""
        return Room(self.mass, self.volume, self.items, self.people)

    @property
    def cost(self) -> Cost:
        """What a load that uses them up comes to."""
        return Cost(self.people, self.mass, self.items, self.volume)


def default_limits(stock: Stock) -> Limits:
    """Return the limits of the stock file."""
    given = stock.limits
    return Limits(given.mass, given.volume, given.items, given.people, tuple(map(frozenset, given.who)))


@dataclass(frozen=True)
class Article:
    """One thing that could go: a kind, and for parts of motors the motor they are for.

    Attributes:
        id: of the kind, with the motor behind a full stop where it matters.
        title: its name, with the motor it is for.
        mass, volume: kg, m3; nothing for what is hired in.
        free: whether it may go without being ordered or hired first, or is there.
    """

    id: str
    title: str
    kind: StockKind
    machine: Machine
    mass: float
    volume: float
    free: bool


@dataclass(frozen=True)
class Person:
    """Somebody who may be sent."""

    id: str
    held: frozenset[Qualification]

    @property
    def title(self) -> str:
        """What the person is."""
        return person_words(self.held)


def person_words(held: Collection[Qualification]) -> str:
    """Return a person's qualifications in words.

    >>> person_words({Qualification.ELECTRICAL_WORKER})
    'Qualified electrical worker'
    """
    named = [PEOPLE[one][0] for one in Qualification if one in held]
    return " and ".join([named[0], *(one[0].lower() + one[1:] for one in named[1:])])


@dataclass(frozen=True)
class Addition:
    """Something that would raise the chance, and what stands against it.

    Attributes:
        ids: of articles and people.
        chance: with it.
        over: the limits it would break, in words; none where it only has to be ordered or hired.
        first: ids of those that must be ordered or hired.
    """

    ids: tuple[str, ...]
    chance: float
    over: tuple[str, ...]
    first: tuple[str, ...]


@dataclass(frozen=True)
class Lost:
    """Part of the chance that this visit does not serve: why, what is lacking, and how much it is."""

    why: str
    what: tuple[str, ...]
    probability: float


@dataclass(frozen=True)
class Sending:
    """A case made ready for choosing what to send.

    Attributes:
        assessment, stock, limits: as given.
        articles, people: by id, all that could go.
        standing: ids of the kinds on every van, and of those at the site, that some remedy or proof wants.
        wanted: article or person id -> causes that want it, likeliest first.
        blocked: cause -> why nobody can put it right on a first visit, whatever is sent.
        packing: the same as a problem of packing.
        weights: per wish of the packing, the probability of its causes (the wish's weight has the
            chance that their remedies hold in it too).
        beyond: probability of sets too unlikely to be looked at.
    """

    assessment: Assessment
    stock: Stock
    limits: Limits
    articles: Mapping[str, Article]
    people: Mapping[str, Person]
    standing: tuple[str, ...]
    wanted: Mapping[str, tuple[str, ...]]
    blocked: Mapping[str, str]
    packing: Packing
    weights: tuple[float, ...]
    beyond: float

    @property
    def not_free(self) -> frozenset[str]:
        """Articles that must be ordered or hired first."""
        return frozenset(id for id, article in self.articles.items() if not article.free)

    def title(self, id: str) -> str:
        """Return the name of an article or a person."""
        return self.people[id].title if id in self.people else self.articles[id].title


def sending(assessment: Assessment, stock: Stock | None = None, limits: Limits | None = None) -> Sending:
    """Return a case made ready for choosing what to send.

    Args:
        assessment: of the case as it is.
        stock: FaultDoc's own when left out.
        limits: of the visit; those of the stock file when left out.

    Raises:
        KitError: for a case that is closed as fixed; for people who are nobody, or more than eight; for
            things said to be there that the stock does not know, or that need not be ordered or hired.
    """
    stock = stock or load_stock()
    limits = limits or default_limits(stock)
    case = assessment.case
    if case.conclusion is not None and case.conclusion.outcome == "fixed":
        raise KitError("the case is closed as fixed: there is nothing to send for")
    _check(limits, stock)
    people = {f"person.{place}": Person(f"person.{place}", held) for place, held in enumerate(limits.who, start=1)}
    return _Builder(assessment, stock, limits, people).made()


def _check(limits: Limits, stock: Stock) -> None:
    if not limits.who or not all(limits.who):
        raise KitError("nobody may be sent: name at least one person by what the person is qualified for")
    if len(limits.who) > 8:
        raise KitError("more than eight people who may be sent: name those who are near")
    for id in sorted(limits.have):
        if id not in stock.kinds:
            offered = [kind.id for kind in stock.kinds.values() if kind.comes in (Comes.ORDER, Comes.HIRE)]
            remedy = choose(id, offered, otherwise=say("see resources/stock.yaml"))
            raise KitError(f"'{id}' is nothing that the stock knows; {remedy}")
        if stock.kinds[id].comes not in (Comes.ORDER, Comes.HIRE):
            raise KitError(f"'{id}' need not be ordered or hired; leave it out")


class _Builder:
    """Puts the packing together, cause by cause."""

    def __init__(self, assessment: Assessment, stock: Stock, limits: Limits, people: Mapping[str, Person]) -> None:
        self.assessment, self.stock, self.limits, self.people = assessment, stock, limits, people
        self.case = assessment.case
        self.sheet = assessment.bench.sheet
        # The stock knows things by the words of the trees, which are English.
        self.english = assessment.bench.library.english
        self.reach = _Reach(assessment.bench.library.plant, self.case.state)
        self.now: Situation = situation(assessment.bench.problem, self.case)
        self.articles: dict[str, Article] = {}
        self.standing: dict[str, None] = {}
        self.wanted: dict[str, list[str]] = {}
        self.blocked: dict[str, str] = {}
        # People who stay at the site whoever comes; others who are there now are taken to have left.
        self.there = frozenset(self.case.who) & {Qualification.CALLER, Qualification.CREW}

    def made(self) -> Sending:
        belief = self.assessment.belief
        order = np.argsort(-belief.weights)
        sums = np.cumsum(belief.weights[order])
        looked_at = order[: int(np.searchsorted(sums, 1.0 - NEGLIGIBLE)) + 1]
        ids = belief.sets.causes
        sets = [tuple(ids[i] for i in belief.sets.members[row] if i < len(ids)) for row in looked_at]
        catalogue = self.assessment.bench.problem.causes
        likely = dict(zip(ids, belief.marginal, strict=True))
        causes = sorted({cause for one in sets for cause in one}, key=lambda id: (-float(likely[id]), id))
        jobs = tuple(Job(id, self._needs(catalogue[id])) for id in causes)
        weights = tuple(float(belief.weights[row]) for row in looked_at)
        wishes = tuple(
            Wish(weight * float(np.prod([catalogue[id].remedy.holds for id in one])), one)
            for weight, one in zip(weights, sets, strict=True)
        )
        things = [Thing(one.id, one.mass, one.volume) for one in self.articles.values()]
        things += [Thing(one.id, person=True) for one in self.people.values()]
        # What cannot be done at all has a need that nothing meets.
        served = tuple(
            replace(job, needs=(*job.needs, frozenset())) if job.id in self.blocked else job for job in jobs
        )
        return Sending(
            assessment=self.assessment,
            stock=self.stock,
            limits=self.limits,
            articles=self.articles,
            people=self.people,
            standing=tuple(self.standing),
            wanted={id: tuple(found) for id, found in self.wanted.items()},
            blocked=self.blocked,
            packing=Packing(tuple(things), served, wishes),
            weights=weights,
            beyond=max(1.0 - sum(weights), 0.0),
        )

    def _needs(self, cause: Cause) -> tuple[frozenset[str], ...]:
        """Return what one cause needs; what stands in its way whatever is sent goes into `blocked`."""
        remedy = cause.remedy
        if self.now.used_up(remedy, self.assessment.bench.library.plant):
            self.blocked[cause.id] = say("its protection has been reset as often as it may be: safety")
        elif cause.id in self.now.tried and self.case.unproved != cause.id:
            self.blocked[cause.id] = say("its remedy has been carried out already, and did not hold")
        needs = [*self._people(cause)]
        machine = machine_of(self.english.causes[cause.id])
        named, points = self.english.causes[cause.id].remedy, self.english.points
        texts: list[tuple[Scope, str]] = [("parts", text) for text in named.parts]
        texts += [("tools", text) for text in named.tools]
        texts += [("reads", points[id].instrument) for id in named.proof.points if id in points]
        for scope, text in texts:
            kinds = self.stock.needs(scope, text)
            if kinds is None:
                needs.append(self._unlisted(text))
                continue
            for entry in kinds:
                needs.extend(self._article(entry, machine))
        for need in needs:
            for id in need:
                known = self.wanted.setdefault(id, [])
                if cause.id not in known:
                    known.append(cause.id)
        return tuple(dict.fromkeys(needs))

    def _article(self, entry: frozenset[str], machine: Machine) -> Iterator[frozenset[str]]:
        """Yield the need for one of some kinds, unless one of them is on the van or at the site anyway."""
        kinds = [self.stock.kinds[id] for id in sorted(entry)]
        at_hand = [kind for kind in kinds if kind.comes in (Comes.VAN, Comes.SITE)]
        if at_hand:
            self.standing.setdefault(at_hand[0].id)
            return
        ids = []
        for kind in kinds:
            of_motor = Match.MOTOR in kind.match and machine != "unit"
            id = f"{kind.id}.{machine}" if of_motor else kind.id
            if id not in self.articles:
                told = not of_motor or machine in kind.title.lower()
                title = kind.title if told else say("{title} for the {machine}", title=kind.title, machine=machine)
                self.articles[id] = _article_of(id, title, kind, machine, self.sheet, self.limits)
            ids.append(id)
        yield frozenset(ids)

    def _unlisted(self, text: str) -> frozenset[str]:
        """Return the need for something that a tree names and the stock does not."""
        id = f"{UNLISTED}.{text}"
        title = say("{what} (not in the stock list: weight guessed)", what=text)
        self.articles[id] = _article_of(id, title, self.stock.kinds[UNLISTED], "unit", self.sheet, self.limits)
        return frozenset({id})

    def _people(self, cause: Cause) -> Iterator[frozenset[str]]:
        """Yield what a cause needs of people, as sets of which at least one must go.

        Whoever is added, nothing becomes impossible; so the people who do not suffice are told by the
        largest such groups, and of everyone outside each of these at least one must go.
        """
        everyone = frozenset(self.people)
        groups = chain.from_iterable(combinations(sorted(everyone), size) for size in range(len(everyone), -1, -1))
        largest: list[frozenset[str]] = []
        for group in map(frozenset, groups):
            if not any(group <= one for one in largest) and not self._suffice(cause, group):
                largest.append(group)
        if everyone in largest:
            lacking = self._lacking(cause)
            self.blocked.setdefault(cause.id, lacking)
            return
        for group in largest:
            yield everyone - group

    def _suffice(self, cause: Cause, group: frozenset[str]) -> bool:
        """Return whether some people may do a cause's remedy and its proof, and may bring the plant there."""
        held = self.there.union(*(self.people[id].held for id in group))
        company = len(group) + (Qualification.CREW in self.there)
        works = [(cause.remedy.state, cause.remedy.who), (cause.remedy.proof.state, cause.remedy.proof.who)]
        if self.case.unproved == cause.id:
            works = works[1:]
        return all(
            may(held, who) and self.reach.can(held, state) and (company > 1 or not _live(state))
            for state, who in works
        )

    def _lacking(self, cause: Cause) -> str:
        """Return why nobody who may be sent can do it."""
        held = self.there.union(*(one.held for one in self.people.values()))
        wanted = (cause.remedy.who, cause.remedy.proof.who)
        lacking = next((who for who in wanted if not may(held, who)), None)
        if lacking is not None:
            return say("nobody who may be sent is qualified: {lower}", lower=PEOPLE[lacking][0].lower())
        if not all(self.reach.can(held, state) for state in (cause.remedy.state, cause.remedy.proof.state)):
            return say("nobody who may be sent may bring the plant into the state for it")
        return say("work at live parts is never done alone, and only one person may be sent: safety")


def _live(state: StateNeed) -> bool:
    """Return whether work in a state is at live parts, which nobody does alone (see resources/plant.yaml)."""
    return state.supply is Supply.ENERGISED and state.panel is Panel.OPEN


def _article_of(
    id: str, title: str, kind: StockKind, machine: Machine, sheet: DataSheet, limits: Limits
) -> Article:
    hired = kind.comes is Comes.HIRE
    charge = sheet.refrigerant_side.charge if kind.charge else None
    return Article(
        id=id,
        title=title,
        kind=kind,
        machine=machine,
        mass=0.0 if hired else (kind.mass or 0.0) + (charge or 0.0),
        volume=0.0 if hired else kind.volume or 0.0,
        free=kind.comes is Comes.STORE or kind.id in limits.have,
    )


@dataclass
class _Reach:
    """Which plant states some people can reach from where the plant stands.

    Every change of state can be taken back by those who made it, so remedies can follow one another in any order.
    """

    plant: PlantFile
    start: PlantState
    _found: dict[frozenset[Qualification], frozenset[PlantState]] = field(default_factory=dict)
    _meets: dict[tuple[frozenset[Qualification], StateNeed], bool] = field(default_factory=dict)
    _edges: dict[PlantState, list[tuple[Qualification, PlantState]]] = field(default_factory=dict)

    def can(self, held: frozenset[Qualification], need: StateNeed) -> bool:
        """Return whether people with these qualifications can bring the plant into a state that meets `need`."""
        key = held, need
        if key not in self._meets:
            if held not in self._found:
                self._found[held] = self._walk(held)
            self._meets[key] = any(satisfies(state, need) for state in self._found[held])
        return self._meets[key]

    def _walk(self, held: frozenset[Qualification]) -> frozenset[PlantState]:
        seen, waiting = {self.start}, [self.start]
        while waiting:
            for who, state in self._ways(waiting.pop()):
                if state not in seen and may(held, who):
                    seen.add(state)
                    waiting.append(state)
        return frozenset(seen)

    def _ways(self, state: PlantState) -> list[tuple[Qualification, PlantState]]:
        if state not in self._edges:
            self._edges[state] = [
                (change.who, then)
                for change in self.plant.changes
                if satisfies(state, change.when) and possible(then := after(state, change))
            ]
        return self._edges[state]


@dataclass(frozen=True)
class Kit:
    """What is sent, and what comes of it; everything but the chance is worked out when it is first looked at.

    Attributes:
        sending: the case.
        taken: ids of the articles and people that go.
        chance: of a fix on the first visit.
    """

    sending: Sending
    taken: frozenset[str]
    chance: float

    @property
    def people(self) -> tuple[Person, ...]:
        """Who goes."""
        return tuple(one for id, one in self.sending.people.items() if id in self.taken)

    @cached_property
    def articles(self) -> tuple[Article, ...]:
        """What goes, by what it is worth."""
        worth = self.without
        found = [one for id, one in self.sending.articles.items() if id in self.taken]
        return tuple(sorted(found, key=lambda one: (worth[one.id], one.id)))

    @cached_property
    def cost(self) -> Cost:
        """What it weighs, how much room it takes, how many things and people it is."""
        return self.sending.packing.cost(self.taken)

    @property
    def over(self) -> tuple[str, ...]:
        """The limits it breaks, in words."""
        return tuple(COUNTED[name] for name in self.cost.over(self.sending.limits.room))

    @cached_property
    def without(self) -> Mapping[str, float]:
        """The chance without each thing or person that goes, by id."""
        ids = sorted(self.taken)
        loads = [self.taken - {id} for id in ids]
        return dict(zip(ids, map(float, self.sending.packing.chances(loads)), strict=True))

    @cached_property
    def additions(self) -> tuple[Addition, ...]:
        """What would raise the chance most for each thing that is added, best first."""
        packing = self.sending.packing
        tried = self._lacking()
        loads = [self.taken | bundle for bundle in tried]
        better = []
        for bundle, load, found in zip(tried, loads, map(float, packing.chances(loads)), strict=True):
            if found > self.chance + max(self.sending.stock.tie, 1e-9):
                over = tuple(COUNTED[name] for name in packing.cost(load).over(self.sending.limits.room))
                first = tuple(sorted(bundle & self.sending.not_free))
                better.append(Addition(tuple(sorted(bundle)), found, over, first))
        # What a single thing brings counts: five things for one point more are no good advice.
        better.sort(key=lambda one: ((self.chance - one.chance) / len(one.ids), one.ids))
        chosen: list[Addition] = []
        for one in better:
            if not any(set(known.ids) <= set(one.ids) for known in chosen):
                chosen.append(one)
        return tuple(chosen[:SUGGESTED])

    def _lacking(self) -> list[frozenset[str]]:
        """Return for every wish that this kit does not serve and another could, the least that it lacks."""
        packing = self.sending.packing
        needs = {job.id: job.needs for job in packing.jobs}
        bundles: dict[frozenset[str], None] = {}
        for wish, served in zip(
            packing.wishes, packing.served(packing.mask(self.taken)[None, :])[:, 0], strict=True
        ):
            if served or any(job in self.sending.blocked for job in wish.jobs):
                continue
            bundle: frozenset[str] = frozenset()
            for need in dict.fromkeys(need for job in wish.jobs for need in needs[job]):
                if not need & (self.taken | bundle):
                    bundle |= {self._easiest(need)}
            bundles.setdefault(bundle)
        return list(bundles)

    def _easiest(self, need: frozenset[str]) -> str:
        """Return of the things that meet a need the one that is free before one to be ordered, and light."""
        bound = self.sending.not_free
        return min(need, key=lambda id: (id in bound, self.sending.packing.cost([id]), id))

    @cached_property
    def lost(self) -> tuple[Lost, ...]:
        """The rest of the chance, by why it is lost, most first; with `chance` it adds up to one."""
        sums: dict[tuple[str, tuple[str, ...]], float] = {}
        packing = self.sending.packing
        served = packing.served(packing.mask(self.taken)[None, :])[:, 0]
        needs = {job.id: job.needs for job in packing.jobs}
        for wish, weight, is_served in zip(packing.wishes, self.sending.weights, served, strict=True):
            if is_served:
                key: tuple[str, tuple[str, ...]] = (say("the remedy may not hold"), ())
                sums[key] = sums.get(key, 0.0) + weight - wish.weight
                continue
            key = self._why(wish, needs)
            sums[key] = sums.get(key, 0.0) + weight
        rest = (say("several faults at once, each set too unlikely to be looked at"), ())
        sums[rest] = sums.get(rest, 0.0) + self.sending.beyond
        found = [Lost(*reason, probability) for reason, probability in sums.items() if probability > 0.0]
        return tuple(sorted(found, key=lambda each: (-each.probability, each.why, each.what)))

    def _why(self, wish: Wish, needs: Mapping[str, Sequence[frozenset[str]]]) -> tuple[str, tuple[str, ...]]:
        """Return why a wish is not served: safety before things, what must be got before what is left."""
        for job in wish.jobs:
            if job in self.sending.blocked:
                return self.sending.blocked[job], ()
        open_needs = [need for job in wish.jobs for need in needs[job] if not need & self.taken]
        lacking = dict.fromkeys(self._easiest(need) for need in open_needs)
        titles = {id: self.sending.title(id) for id in lacking}
        for comes, why in (
            (Comes.HIRE, say("must be hired in first")),
            (Comes.ORDER, say("must be ordered first")),
        ):
            what = [
                titles[id]
                for id in lacking
                if id in self.sending.not_free and self.sending.articles[id].kind.comes is comes
            ]
            if what:
                return why, tuple(sorted(what))
        someone = [titles[id] for id in lacking if id in self.sending.people]
        if someone:
            return say("not sent"), tuple(sorted(set(someone)))
        return say("left behind"), tuple(sorted(titles.values()))


def best_kit(case: Sending) -> Kit:
    """Return the kit with the best chance within the limits; of equal ones the lighter."""
    taken = case.packing.best(case.limits.room, case.stock.tie, case.not_free)
    best = case.packing.chance(taken)
    # Where another person would do as well, the one who is named first goes.
    for gone in [id for id in reversed(list(case.people)) if id in taken]:
        for other in case.people:
            if other == gone:
                break
            swapped = taken - {gone} | {other}
            if other not in taken and case.packing.chance(swapped) >= best:
                taken = swapped
                break
    return Kit(case, taken, case.packing.chance(taken))


def kit_with(case: Sending, taken: Iterable[str]) -> Kit:
    """Return any other kit, whether or not it keeps to the limits.

    Raises:
        KeyError: for what is nothing that could go.
    """
    chosen = frozenset(taken)
    if unknown := chosen - set(case.articles) - set(case.people):
        raise KeyError(f"'{sorted(unknown)[0]}' is nothing that could go")
    return Kit(case, chosen, case.packing.chance(chosen))


def _instruments_to_ask(case: Sending) -> tuple[StockKind, ...]:
    """Return the instruments of the questions still open that are not on every van."""
    assessment = case.assessment
    settled = {*assessment.case.answers, *assessment.counted_once, *(one.id for one in assessment.checks)}
    wanted = dict.fromkeys(
        instrument
        for id, question in assessment.bench.problem.questions.items()
        if id not in settled and question.check not in settled
        for instrument in question.bring
    )
    kinds = (case.stock.instrument(id) for id in wanted)
    return tuple(kind for kind in kinds if kind is not None and kind.comes not in (Comes.VAN, Comes.SITE))


def standing_words(case: Sending) -> tuple[str, ...]:
    """Return what is wanted of the things on every van."""
    kinds = (case.stock.kinds[id] for id in case.standing)
    return tuple(kind.title for kind in kinds if kind.comes is Comes.VAN)


def load_words(cost: Cost, system: System) -> str:
    """Return what a load comes to, in words."""
    mass, volume = show(cost.mass, Kind.MASS, system), show(cost.volume, Kind.VOLUME, system)
    things = say("1 special item") if cost.items == 1 else say("{what} special items", what=cost.items or "no")
    return f"{things}, {mass}, {volume}"


def addition_words(case: Sending, one: Addition) -> str:
    """Return what could be added, what the chance would be, and what stands against it."""
    words = f"{', '.join(case.title(id) for id in one.ids)}: {chance(one.chance)}"
    if one.first:
        comes = {case.articles[id].kind.comes for id in one.first}
        words += say(", to be hired in first") if comes == {Comes.HIRE} else say(", to be ordered first")
    if one.over:
        words += say(", over the {join}", join=" and the ".join(one.over))
    return words


def lost_words(one: Lost) -> str:
    """Return why part of the chance is lost."""
    why = one.why[0].upper() + one.why[1:]
    return f"{chance(one.probability)}: {why}" + (f": {', '.join(one.what)}" if one.what else "")


def article_words(kit: Kit, article: Article, system: System) -> str:
    """Return an article with what to match and what the chance would be without it."""
    case = kit.sending
    causes = case.assessment.bench.problem.causes
    match = match_words(article.kind, article.machine, case.assessment.bench.sheet, system)
    words = article.title + (say("; match {join}", join="; ".join(match)) if match else "")
    named = [causes[id].title for id in case.wanted.get(article.id, ())]
    words += say(". For: {join}", join=", ".join(named[:FOR])) + (
        say(" and {what} more", what=len(named) - FOR) if len(named) > FOR else ""
    )
    return f"{words}. {worth_words(kit, article.id)}"


def worth_words(kit: Kit, id: str) -> str:
    """Return what the chance would be without something that goes."""
    without, now = chance(kit.without[id]), chance(kit.chance)
    return (
        say("Without: {without} instead of {now}.", without=without, now=now)
        if without != now
        else say("Worth less than one in a hundred.")
    )


def remarks(kit: Kit) -> tuple[str, ...]:
    """Return what must be known beside the list."""
    case = kit.sending
    said = []
    if case.assessment.next.stops:
        said.append(
            say("An answer has stopped the work: whoever comes makes it safe before anything else is done.")
        )
    ask = [one.title for one in _instruments_to_ask(case) if one.id not in kit.taken]
    if ask:
        said.append(say("To find out which it is, useful and not counted here: {join}.", join=", ".join(ask)))
    if case.assessment.belief.left_out >= 0.01:
        said.append(
            say(
                "Up to {chance} is for more faults at once than were looked at.",
                chance=chance(case.assessment.belief.left_out),
            )
        )
    said.append(say("Masses, room and what is on a van are estimates: resources/stock.yaml."))
    return tuple(said)


def kit_lines(assessment: Assessment, system: System, limits: Limits | None = None) -> tuple[str, ...]:
    """Return what to send in lines of text, for the report of a case that is handed over.

    Args:
        assessment: of the case.
        system: units.
        limits: of the visit; those of the stock file when left out.

    Raises:
        KitError: as `sending` does.
    """
    kit = best_kit(sending(assessment, None, limits))
    case = kit.sending
    who = ", ".join(one.title for one in kit.people) or say("nobody: it can be done by those who are there")
    lines = [
        say("Chance of a fix on the first visit: {chance}.", chance=chance(kit.chance)),
        say("Send: {who}.", who=who),
    ]
    lines += [
        say("Take: {article_words}", article_words=article_words(kit, article, system)) for article in kit.articles
    ]
    lines.append(say("Together: {load_words}.", load_words=load_words(kit.cost, system)))
    if standing := standing_words(case):
        lines.append(say("See that these are on the van: {join}.", join="; ".join(standing)))
    lines += [
        say("Next best to add: {addition_words}.", addition_words=addition_words(case, one))
        for one in kit.additions[:2]
    ]
    lines += [
        say("Not served: {lost_words}.", lost_words=lost_words(one)) for one in kit.lost if one.probability >= TOLD
    ]
    return (*lines, *remarks(kit))


def kit_html(kit: Kit, system: System, made_at: datetime) -> str:
    """Return what to send as one page of HTML to print; every text in it is escaped.

    Args:
        kit: the best, or any other.
        system: units.
        made_at: when it is made; UTC where it has no zone.
    """
    case = kit.sending
    sheet = case.assessment.bench.sheet
    causes = case.assessment.bench.problem.causes
    return template("kit.html.j2").render(
        title=case.assessment.case.title or sheet.title,
        sheet=sheet,
        version=__version__,
        made_at=f"{made_at:%Y-%m-%d %H:%M} {made_at.tzname() or 'UTC'}",
        chance=chance(kit.chance),
        people=[(one.title, worth_words(kit, one.id)) for one in kit.people],
        take=[
            (
                one.title,
                match_words(one.kind, one.machine, sheet, system),
                [causes[id].title for id in case.wanted.get(one.id, ())[:FOR]],
                worth_words(kit, one.id),
            )
            for one in kit.articles
        ],
        load=load_words(kit.cost, system),
        over=kit.over,
        standing=standing_words(case),
        additions=[addition_words(case, one) for one in kit.additions],
        lost=[lost_words(one) for one in kit.lost if one.probability >= TOLD],
        remarks=remarks(kit),
    )


def kit_json(kit: Kit, system: System) -> dict[str, Any]:
    """Return the kit for machines; a promise, added to and never changed (see DEVELOPERS.md)."""
    case = kit.sending
    sheet = case.assessment.bench.sheet

    def load(cost: Cost) -> dict[str, Any]:
        return {
            "kg": round(cost.mass, 3),
            "litres": round(1e3 * cost.volume, 3),
            "items": cost.items,
            "people": cost.people,
        }

    return {
        "chance": kit.chance,
        "limits": load(case.limits.cost),
        "load": load(kit.cost),
        "people": [
            {"id": one.id, "who": sorted(one.held), "title": one.title, "without": kit.without[one.id]}
            for one in kit.people
        ],
        "take": [
            {
                "id": one.id,
                "title": one.title,
                "comes": one.kind.comes.value,
                "kg": round(one.mass, 3),
                "litres": round(1e3 * one.volume, 3),
                "match": list(match_words(one.kind, one.machine, sheet, system)),
                "for": list(case.wanted.get(one.id, ())),
                "without": kit.without[one.id],
            }
            for one in kit.articles
        ],
        "on_van": [id for id in case.standing if case.stock.kinds[id].comes is Comes.VAN],
        "next": [
            {
                "add": list(one.ids),
                "titles": [case.title(id) for id in one.ids],
                "chance": one.chance,
                "over": list(one.over),
                "first": list(one.first),
            }
            for one in kit.additions
        ],
        "lost": [{"why": one.why, "what": list(one.what), "probability": one.probability} for one in kit.lost],
        "remarks": list(remarks(kit)),
    }
