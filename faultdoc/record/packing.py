"""The best load for a van: which things serve the most likely jobs within the room there is.

A job is done when, of each of its needs, at least one thing is there. A wish is a set of jobs with
the probability that it is these that must be done; it is served when all its jobs can be. Wanted is
the greatest probability that the wish is served, within mass, volume, number of things and number of
people: a maximum coverage problem with four budgets, solved exactly as a mixed integer program
(HiGHS: Huangfu and Hall 2018, through scipy.optimize.milp). Loads whose chances differ by no more
than `tie` count as equal; of these the one with the fewest people goes, then the lightest, then that
with the fewest things, then the smallest.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

__all__ = ["Cost", "Job", "Packing", "PackingError", "Room", "Thing", "Wish"]

Floats = NDArray[np.float64]
Mask = NDArray[np.bool_]

SHARP = 1e3
"""Chances are multiplied by this before the solver sees them: its tolerances are then 1e-9 of a chance."""

SLACK = 1e-9
"""What sums of floating point numbers may be over a limit."""


class PackingError(RuntimeError):
    """The solver gave no answer."""


@dataclass(frozen=True)
class Thing:
    """Something or somebody that can go: mass in kg, volume in m3; a person takes a seat and no room."""

    id: str
    mass: float = 0.0
    volume: float = 0.0
    person: bool = False


@dataclass(frozen=True)
class Job:
    """Work that can be done when of each of its needs at least one thing is there."""

    id: str
    needs: tuple[frozenset[str], ...]


@dataclass(frozen=True)
class Wish:
    """Jobs that must all be done, and the probability that it is these."""

    weight: float
    jobs: tuple[str, ...]


@dataclass(frozen=True)
class Room:
    """The limits: mass in kg, volume in m3, number of things, number of people."""

    mass: float
    volume: float
    items: int
    people: int


@dataclass(frozen=True, order=True)
class Cost:
    """What a load costs, in the order in which ties are broken."""

    people: int
    mass: float
    items: int
    volume: float

    def over(self, room: Room) -> tuple[str, ...]:
        """Return the limits it breaks, by name."""
        return tuple(
            name
            for name in ("mass", "volume", "items", "people")
            if getattr(self, name) > getattr(room, name) + SLACK
        )


@dataclass(frozen=True)
class Packing:
    """Things, jobs and wishes; a job's needs may name only things that are here.

    Raises:
        KeyError: when a need names no thing, or a wish no job.
    """

    things: tuple[Thing, ...]
    jobs: tuple[Job, ...]
    wishes: tuple[Wish, ...]

    def __post_init__(self) -> None:
        # Needs, jobs and wishes are looked up now: a name that is not known shows at once.
        _ = self._offers, self._calls

    @cached_property
    def place(self) -> dict[str, int]:
        """Place of each thing."""
        return {thing.id: place for place, thing in enumerate(self.things)}

    @cached_property
    def _needs(self) -> tuple[frozenset[str], ...]:
        return tuple(dict.fromkeys(need for job in self.jobs for need in job.needs))

    @cached_property
    def _offers(self) -> Floats:
        """Shape (needs, things): 1 where the thing meets the need."""
        made = np.zeros((len(self._needs), len(self.things)))
        for row, need in enumerate(self._needs):
            for id in need:
                made[row, self.place[id]] = 1.0
        return made

    @cached_property
    def _asks(self) -> Floats:
        """Shape (jobs, needs): 1 where the job has the need."""
        column = {need: place for place, need in enumerate(self._needs)}
        made = np.zeros((len(self.jobs), len(self._needs)))
        for row, job in enumerate(self.jobs):
            for need in job.needs:
                made[row, column[need]] = 1.0
        return made

    @cached_property
    def _calls(self) -> Floats:
        """Shape (wishes, jobs): 1 where the wish has the job."""
        column = {job.id: place for place, job in enumerate(self.jobs)}
        made = np.zeros((len(self.wishes), len(self.jobs)))
        for row, wish in enumerate(self.wishes):
            for job in wish.jobs:
                made[row, column[job]] = 1.0
        return made

    @cached_property
    def _weights(self) -> Floats:
        return np.array([wish.weight for wish in self.wishes], dtype=np.float64)

    def mask(self, taken: Collection[str]) -> Mask:
        """Return which things are taken, shape (things,)."""
        return np.array([thing.id in taken for thing in self.things], dtype=np.bool_)

    def jobs_done(self, masks: Mask) -> Mask:
        """Return which jobs can be done with each of some loads; shape (loads, things) to (jobs, loads)."""
        lacking = (self._offers @ masks.T.astype(np.float64)) < 0.5
        return np.asarray((self._asks @ lacking) < 0.5, dtype=np.bool_)

    def served(self, masks: Mask) -> Mask:
        """Return which wishes are served by each of some loads; shape (loads, things) to (wishes, loads)."""
        undone = ~self.jobs_done(masks)
        return np.asarray((self._calls @ undone) < 0.5, dtype=np.bool_)

    def chances(self, loads: Sequence[Collection[str]]) -> Floats:
        """Return the probability that the wish is served, for each of some loads."""
        if not loads:
            return np.zeros(0)
        return np.asarray(self._weights @ self.served(np.array([self.mask(load) for load in loads])))

    def chance(self, taken: Collection[str]) -> float:
        """Return the probability that the wish is served by a load."""
        return float(self.chances([taken])[0])

    def cost(self, taken: Iterable[str]) -> Cost:
        """Return what a load costs."""
        things = [self.things[self.place[id]] for id in dict.fromkeys(taken)]
        return Cost(
            people=sum(thing.person for thing in things),
            mass=sum(thing.mass for thing in things if not thing.person),
            items=sum(not thing.person for thing in things),
            volume=sum(thing.volume for thing in things if not thing.person),
        )

    def best(self, room: Room, tie: float = 0.0, without: Collection[str] = ()) -> frozenset[str]:
        """Return the best load.

        Args:
            room: the limits.
            tie: chances that differ by no more than this count as equal.
            without: things that cannot go.

        Raises:
            PackingError: when the solver gives no answer.
        """
        useful = self._offers.any(axis=0) if len(self._needs) else np.zeros(len(self.things), dtype=bool)
        free = np.array([thing.id not in without for thing in self.things], dtype=np.bool_) & useful
        within = self._program(room, free)
        if within is None:
            return frozenset()
        first = within.most()
        floor = self.chance(first) - tie
        lightest = within.least(lambda cost: cost.people * within.heavy + cost.mass, floor)
        cost = self.cost(lightest)
        smallest = within.least(lambda one: one.items * within.large + one.volume, floor, cost)
        return self._lean(smallest, floor)

    def _lean(self, taken: frozenset[str], floor: float) -> frozenset[str]:
        """Return a load without what adds nothing above the floor, heaviest first."""
        order = sorted(taken, key=lambda id: (self.cost([id]), id), reverse=True)
        for id in order:
            if self.chance(taken - {id}) >= floor - SLACK:
                taken = taken - {id}
        return taken

    def _program(self, room: Room, free: Mask) -> _Program | None:
        """Return the mixed integer program over what can be served at all; None where nothing can."""
        all_of_it = free[None, :]
        doable = self.jobs_done(all_of_it)[:, 0]
        servable = self.served(all_of_it)[:, 0] & (self._weights > 0.0)
        if not servable.any():
            return None
        return _Program(self, room, free, doable, servable)


class _Program:
    """Variables: things (whole), needs met, jobs done, wishes served (between 0 and 1)."""

    def __init__(self, packing: Packing, room: Room, free: Mask, doable: Mask, servable: Mask) -> None:
        self._packing, self._room = packing, room
        self._wishes = np.flatnonzero(servable)
        wanted = packing._calls[self._wishes].any(axis=0) & doable
        self._jobs = np.flatnonzero(wanted)
        self._needs = (
            np.flatnonzero(packing._asks[self._jobs].any(axis=0)) if len(self._jobs) else np.zeros(0, int)
        )
        self._things = len(packing.things)
        counts = self._things, len(self._needs), len(self._jobs), len(self._wishes)
        self._starts = np.concatenate([[0], np.cumsum(counts)])
        self._free = free
        self._persons = np.array([thing.person for thing in packing.things], dtype=np.bool_)
        self._mass = np.array([0.0 if thing.person else thing.mass for thing in packing.things])
        self._volume = np.array([0.0 if thing.person else thing.volume for thing in packing.things])
        self.heavy = float(self._mass.sum()) + 1.0
        self.large = float(self._volume.sum()) + 1.0
        self._logic = self._links()

    def _links(self) -> LinearConstraint:
        """A need is met at most as far as its things are there, a job as its needs, a wish as its jobs."""
        rows: list[NDArray[np.intp]] = []
        columns: list[NDArray[np.intp]] = []
        values: list[Floats] = []
        count = 0

        def link(
            upper: NDArray[np.intp], lower: Floats, start_upper: int, start_lower: int, *, summed: bool
        ) -> None:
            """Add: each of `upper` is at most the sum (or every single one) of what its row of `lower` marks."""
            nonlocal count
            if summed:
                row, column = np.nonzero(lower)
                number = len(upper)
                rows.extend([np.arange(number) + count, row + count])
                columns.extend([upper + start_upper, column + start_lower])
                values.extend([np.ones(number), -np.ones(len(row))])
                count += number
                return
            row, column = np.nonzero(lower)
            number = len(row)
            rows.extend([np.arange(number) + count] * 2)
            columns.extend([upper[row] + start_upper, column + start_lower])
            values.extend([np.ones(number), -np.ones(number)])
            count += number

        p, at = self._packing, self._starts
        link(np.arange(len(self._needs)), p._offers[self._needs], int(at[1]), 0, summed=True)
        link(
            np.arange(len(self._jobs)),
            p._asks[np.ix_(self._jobs, self._needs)],
            int(at[2]),
            int(at[1]),
            summed=False,
        )
        link(
            np.arange(len(self._wishes)),
            p._calls[np.ix_(self._wishes, self._jobs)],
            int(at[3]),
            int(at[2]),
            summed=False,
        )
        matrix = coo_array(
            (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))), shape=(count, int(at[4]))
        ).tocsr()
        return LinearConstraint(matrix, -np.inf, 0.0)

    def _row(self, over_things: Floats) -> Floats:
        return np.concatenate([over_things, np.zeros(int(self._starts[4]) - self._things)])

    def _weights(self) -> Floats:
        row = np.zeros(int(self._starts[4]))
        row[int(self._starts[3]) :] = SHARP * self._packing._weights[self._wishes]
        return row

    def _solve(self, objective: Floats, floor: float | None, most: Cost | None) -> frozenset[str]:
        room = self._room
        mass, people = room.mass + SLACK, float(room.people)
        if most is not None:
            mass, people = min(mass, most.mass + SLACK), min(people, float(most.people))
        limits = np.array([mass, room.volume + SLACK, float(room.items), people])
        things = np.array([self._mass, self._volume, (~self._persons).astype(float), self._persons.astype(float)])
        rows = [self._logic, LinearConstraint(np.array([self._row(row) for row in things]), -np.inf, limits)]
        if floor is not None:
            rows.append(LinearConstraint(self._weights()[None, :], SHARP * floor - SLACK, np.inf))
        upper = np.ones(int(self._starts[4]))
        upper[: self._things] = self._free
        whole = np.zeros(int(self._starts[4]), dtype=np.intp)
        whole[: self._things] = 1
        found = milp(
            objective,
            integrality=whole,
            bounds=Bounds(0.0, upper),
            constraints=rows,
            options={"mip_rel_gap": 0.0, "presolve": True},
        )
        if found.x is None:
            raise PackingError(f"the best load was not found: {found.message}")
        return frozenset(
            thing.id for thing, share in zip(self._packing.things, found.x, strict=False) if share > 0.5
        )

    def most(self) -> frozenset[str]:
        """Return a load with the greatest chance."""
        return self._solve(-self._weights(), None, None)

    def least(self, price: Callable[[Cost], float], floor: float, most: Cost | None = None) -> frozenset[str]:
        """Return the load of the least price whose chance is not below the floor.

        Args:
            price: of one thing, by its cost.
            floor: of the chance.
            most: people and mass that it may not go beyond.
        """
        prices = np.array([price(self._packing.cost([thing.id])) for thing in self._packing.things])
        return self._solve(self._row(prices), floor, most)
