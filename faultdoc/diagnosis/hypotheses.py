"""Hypotheses: the sets of causes, up to a size, that would bring about what is seen.

Causes are independent. With prior odds o_c = p_c / (1 - p_c), a set S has prior weight
(product of o_c over S) x P(symptom | S), relative to nothing being wrong.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import combinations

import networkx as nx
import numpy as np
from numpy.typing import NDArray

from faultdoc.diagnosis.graph import causes_of, symptom_model, tops_of
from faultdoc.model.tree import Cause

__all__ = ["Floats", "Hypotheses", "enumerate_sets", "prior_odds", "tail_mass"]

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Hypotheses:
    """Cause sets and their prior weights.

    Attributes:
        causes: ids, n of them; a cause's place is its index.
        members: shape (H, K) of cause indices, padded with n.
        log_prior: shape (H,), natural log of the prior weight.
        odds: shape (n,), prior odds of each cause.
        size: K, the largest set size looked at.
    """

    causes: tuple[str, ...]
    members: NDArray[np.intp]
    log_prior: Floats
    odds: Floats
    size: int
    _less: dict[tuple[int, ...], Hypotheses] = field(default_factory=dict, repr=False, compare=False)

    def only(self, keep: NDArray[np.intp]) -> Hypotheses:
        """Return some of the sets, by their places."""
        return replace(self, members=self.members[keep], log_prior=self.log_prior[keep], _less={})

    def without(self, causes: tuple[int, ...]) -> Hypotheses:
        """Return the same sets, in the same places, with some causes (by index) taken out of each."""
        if causes not in self._less:
            mended = np.isin(self.members, causes)
            self._less[causes] = replace(self, members=np.where(mended, len(self.causes), self.members), _less={})
        return self._less[causes]

    def holding(self, cause: int) -> NDArray[np.bool_]:
        """Return which sets hold a cause (by index), shape (H,)."""
        return self.holding_any(np.arange(len(self.causes)) == cause)

    def holding_any(self, causes: NDArray[np.bool_]) -> NDArray[np.bool_]:
        """Return which sets hold at least one of some causes (a mask over n), shape (H,)."""
        holding = np.append(causes, False)[self.members].any(axis=1)
        return np.asarray(holding, dtype=np.bool_)

    @cached_property
    def sizes(self) -> NDArray[np.intp]:
        """Shape (H,): how many causes each set has."""
        sizes: NDArray[np.intp] = (self.members < len(self.causes)).sum(axis=1)
        return sizes

    def present(self, weights: Floats) -> Floats:
        """Return per cause the summed weight of the sets that hold it; shape (H,) to (n,)."""
        n = len(self.causes)
        every = np.tile(weights, self.members.shape[1])
        total = np.bincount(self._slots, weights=every, minlength=n + 1)
        return np.asarray(total[:n], dtype=np.float64)

    @cached_property
    def _slots(self) -> NDArray[np.intp]:
        """The members slot by slot, one after the other."""
        return self.members.ravel(order="F")

    @cached_property
    def log_total(self) -> float:
        """Log of the sum of the prior weights."""
        return float(np.logaddexp.reduce(self.log_prior))

    def singles_and_pairs(self, weights: Floats) -> tuple[Floats, Floats]:
        """Return the weights of the sets of one and of two causes; shapes (n,) and (n, n), symmetric.

        Larger sets are left out and the rest brought back to a sum of one.
        """
        n = len(self.causes)
        one, two = self._places
        singles, pairs = np.zeros(n), np.zeros((n, n))
        singles[self.members[one, 0]] = weights[one]
        if len(two):
            a, b = self.members[two, 0], self.members[two, 1]
            pairs[a, b] = pairs[b, a] = weights[two]
        total = singles.sum() + pairs.sum() / 2.0
        return singles / total, pairs / total

    @cached_property
    def _places(self) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
        return np.flatnonzero(self.sizes == 1), np.flatnonzero(self.sizes == 2)

    def add_up(self, per_cause: Floats) -> Floats:
        """Return per set the sum of a quantity given per cause; shape (n, ...) to (H, ...)."""
        padded = np.concatenate([per_cause, np.zeros((1, *per_cause.shape[1:]))])
        # Slot by slot: half the time of gathering all slots at once and summing over them.
        total: Floats = padded[self.members[:, 0]]
        for slot in range(1, self.members.shape[1]):
            total += padded[self.members[:, slot]]
        return total


def prior_odds(causes: tuple[str, ...], catalogue: Mapping[str, Cause]) -> Floats:
    """Return each cause's prior odds p / (1 - p) with p = rate / 1,000."""
    p = np.array([catalogue[cause].rate / 1000.0 for cause in causes])
    return p / (1.0 - p)


def enumerate_sets(graph: nx.DiGraph[str], odds: Floats, size: int, smallest: int = 1) -> Hypotheses:
    """Return every set of `smallest` to `size` causes that can bring all the symptoms about.

    Args:
        graph: from `faultdoc.diagnosis.graph.fault_graph`.
        odds: prior odds, in the order of `causes_of(graph)`.
        size: largest set; n for all of them.
        smallest: smallest set.

    Raises:
        ValueError: when no set explains the symptoms.
    """
    causes = causes_of(graph)
    n = len(causes)
    size = min(size, n)
    chance_of = symptom_model(graph)
    # Gates know no 'not': more causes never make the symptom less likely. So where one cause alone
    # makes it as likely as all together do, every set with that cause does; that spares most walks.
    most = chance_of(causes)
    enough = np.array([chance_of({cause}) == most for cause in causes])
    members, chances = [np.zeros((0, size), dtype=np.intp)], [np.zeros(0)]
    for k in range(smallest, size + 1):
        chosen = np.array(list(combinations(range(n), k)), dtype=np.intp).reshape(-1, k)
        chance = np.full(len(chosen), most)
        for row in np.flatnonzero(~enough[chosen].any(axis=1)):
            chance[row] = chance_of({causes[i] for i in chosen[row]})
        padded = np.full((len(chosen), size), n, dtype=np.intp)
        padded[:, :k] = chosen
        members.append(padded[chance > 0.0])
        chances.append(chance[chance > 0.0])
    all_members = np.concatenate(members)
    if not len(all_members):
        raise ValueError(f"no set of up to {size} causes brings about: {', '.join(tops_of(graph))}")
    log_prior = np.append(np.log(odds), 0.0)[all_members].sum(axis=1) + np.log(np.concatenate(chances))
    return Hypotheses(causes, all_members, log_prior, odds, size)


def tail_mass(weights: Floats, size: int) -> Floats:
    """Return the sum over all sets of more than `size` items of the product of their weights; (..., n) to (...).

    That is the product of (1 + w) less the elementary symmetric polynomials e_0 to e_size; the
    tail is built up directly, one item at a time, so that nothing cancels.

    Args:
        weights: shape (..., n), not negative.
        size: K; below zero all sets count.

    >>> float(tail_mass(np.array([1.0, 2.0, 3.0]), 1))  # 1*2 + 1*3 + 2*3 + 1*2*3
    17.0
    """
    if size < 0:
        return np.asarray(np.prod(1.0 + weights, axis=-1), dtype=np.float64)
    up_to = np.zeros((*weights.shape[:-1], size + 1))  # e_0 .. e_K of the items so far
    up_to[..., 0] = 1.0
    tail = np.zeros(weights.shape[:-1])
    for i in range(weights.shape[-1]):
        weight = weights[..., i]
        tail = tail * (1.0 + weight) + up_to[..., size] * weight
        up_to[..., 1:] += up_to[..., :-1] * weight[..., None]
    return tail
