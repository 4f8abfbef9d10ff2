"""What every question's answer would do to the belief, for all questions at once.

For planning, sets of one and of two causes are looked at. With s_a the weight of {a}, P_ab that of
{a, b} and M the causes that move a question, an outcome with default probability d, probability
r_a when a alone moves the question and L_ab when a and b both do has the joint weights

    with c outside M:  d (s_c + sum_U P_cb / 2) + sum_M r_a P_ac / 2
    with c inside M:   r_c (s_c + sum_U P_cb / 2) + sum_M L_cb P_cb / 2

each pair's weight being shared evenly between its two causes (U is what is not in M). So all
outcomes of all questions take a few matrix products of size n, not a walk over n² / 2 sets. For
noisy-max, L_cb is the difference of products of cumulative rows, and its sum is a product too.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from faultdoc.diagnosis.hypotheses import Floats
from faultdoc.diagnosis.likelihood import ChoiceModel, ResidualModel, residual_bins, residual_edges

__all__ = ["Outlook", "outlook"]


@dataclass(frozen=True)
class _Pairs:
    """Outcome probabilities of a residual question when two causes move it: shape (m, m, O)."""

    columns: slice
    causes: NDArray[np.intp]
    table: Floats


@dataclass(frozen=True)
class Outlook:
    """Outcome tables of Q questions, their B outcomes side by side, over n causes.

    Attributes:
        spans: question id -> slice of its outcomes.
        question: shape (B,), index of each outcome's question.
        default: shape (B,), probability when nothing moves the question.
        alone: shape (B, n), probability when one cause alone moves it; zero where it does not.
        cumulative: shape (B, n), cumulative rows of choice questions; zero where nothing moves.
        first: shape (B,), 0.0 at the first outcome of each question, else 1.0.
        moved: shape (Q, n), 1.0 where the cause moves the question.
        pairs: tables of the questions with a check.
    """

    spans: Mapping[str, slice]
    question: NDArray[np.intp]
    default: Floats
    alone: Floats
    cumulative: Floats
    first: Floats
    moved: Floats
    pairs: tuple[_Pairs, ...]

    def split(self, singles: Floats, pairs: Floats) -> tuple[Floats, Floats]:
        """Return each outcome's probability, and the weight it leaves on each cause.

        Args:
            singles: shape (n,), weights of the sets of one cause.
            pairs: shape (n, n), symmetric, weights of the sets of two.

        Returns:
            Shapes (B,) and (B, n); a row of the second sums to the first.
        """
        within = self.moved @ pairs
        half_outside = (pairs.sum(axis=1)[None, :] - within) / 2.0
        base = singles[None, :] + half_outside
        shared = (self.alone @ pairs) / 2.0
        both = self.cumulative * (self.cumulative @ pairs)
        both[1:] -= both[:-1] * self.first[1:, None]
        for entry in self.pairs:
            block = pairs[np.ix_(entry.causes, entry.causes)]
            both[entry.columns, entry.causes] = np.einsum("abo,ab->oa", entry.table, block)
        inside = self.moved[self.question]
        rows = base[self.question]
        left: Floats = (1.0 - inside) * (self.default[:, None] * rows + shared)
        left += inside * (self.alone * rows + both / 2.0)
        return left.sum(axis=1), left


def outlook(models: Mapping[str, ChoiceModel | ResidualModel], n: int) -> Outlook:
    """Return the outlook over n causes of some questions, by question id."""
    spans: dict[str, slice] = {}
    question, default, alone, cumulative, first, moved = [], [], [], [], [], []
    pairs = []
    start = 0
    for place, (id, model) in enumerate(models.items()):
        who = np.flatnonzero(model.moved)
        if isinstance(model, ChoiceModel):
            row = model.default
            cdf = np.exp(model.log_cdf.T) * model.moved
            single = np.diff(cdf, axis=0, prepend=0.0)
        else:
            edges = residual_edges(model)
            row = residual_bins(model, edges, model.default_mean, np.array(model.default_variance))
            single = np.zeros((len(row), n))
            mean = model.floored(model.default_shift + model.shift[who])
            single[:, who] = residual_bins(model, edges, mean, model.variance[who]).T
            cdf = np.zeros_like(single)
            both = model.floored(model.default_shift + model.shift[who][:, None] + model.shift[who][None, :])
            spread = model.variance[who][:, None] + model.variance[who][None, :]
            table = residual_bins(model, edges, both, spread)
            pairs.append(_Pairs(slice(start, start + len(row)), who, table))
        size = len(row)
        spans[id] = slice(start, start + size)
        start += size
        question += [place] * size
        default.append(row)
        alone.append(single)
        cumulative.append(cdf)
        first.append(np.append(0.0, np.ones(size - 1)))
        moved.append(model.moved.astype(float))
    if not models:
        nothing = np.zeros((0, n))
        return Outlook({}, np.zeros(0, dtype=np.intp), np.zeros(0), nothing, nothing, np.zeros(0), nothing, ())
    return Outlook(
        spans,
        np.array(question, dtype=np.intp),
        np.concatenate(default),
        np.concatenate(alone),
        np.concatenate(cumulative),
        np.concatenate(first),
        np.array(moved),
        tuple(pairs),
    )
