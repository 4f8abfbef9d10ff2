"""What to send, as text; and what the command line says of limits and people."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from faultdoc.library.problems import choose
from faultdoc.library.stock import load_stock
from faultdoc.model.safety import Qualification
from faultdoc.quantities import System
from faultdoc.record.kit import (
    TOLD,
    Kit,
    KitError,
    Limits,
    addition_words,
    article_words,
    default_limits,
    load_words,
    lost_words,
    remarks,
    standing_words,
    worth_words,
)
from faultdoc.record.words import chance
from faultdoc.terminal.text import numbered, paragraph

__all__ = ["asked_limits", "kit_text"]


def asked_limits(
    kg: float | None,
    litres: float | None,
    items: int | None,
    people: int | None,
    who: Sequence[str],
    have: Sequence[str],
) -> Limits:
    """Return the limits of the stock file with what somebody wishes otherwise.

    Args:
        kg, litres, items, people: of all that goes.
        who: one text a person, its qualifications joined by '+'.
        have: ids of kinds that must be ordered or hired and have come.

    Raises:
        KitError: for a qualification that there is not.
    """
    usual = default_limits(load_stock())
    return replace(
        usual,
        mass=usual.mass if kg is None else kg,
        volume=usual.volume if litres is None else litres / 1e3,
        items=usual.items if items is None else items,
        people=usual.people if people is None else people,
        who=tuple(map(_person, who)) or usual.who,
        have=frozenset(have),
    )


def _person(text: str) -> frozenset[Qualification]:
    known = [one.value for one in Qualification]
    named = [one.strip() for one in text.split("+")]
    for one in named:
        if one not in known:
            otherwise = f"there are: {', '.join(known)}"
            raise KitError(f"'{one}' is no qualification; {choose(one, known, otherwise=otherwise)}")
    return frozenset(map(Qualification, named))


def kit_text(kit: Kit, system: System) -> str:
    """Return what to send: the chance, people, things with what to match, what to add, and what is not served."""
    case = kit.sending
    parts = [paragraph(f"Chance of a fix on the first visit: {chance(kit.chance)}")]
    who = [f"{one.title}. {worth_words(kit, one.id)}" for one in kit.people]
    parts.append(f"Send\n{numbered(who)}" if who else "Nobody need be sent.")
    take = [article_words(kit, article, system) for article in kit.articles]
    parts.append(f"Take\n{numbered(take)}" if take else "Take nothing beyond what is on every van.")
    room = load_words(case.limits.cost, system)
    parts.append(paragraph(f"Together: {load_words(kit.cost, system)}. Limits: {room}."))
    if standing := standing_words(case):
        parts.append(paragraph(f"See that these are on the van: {'; '.join(standing)}."))
    for title, lines in (
        ("Next best to add", [addition_words(case, one) for one in kit.additions]),
        ("Not served by this visit", [lost_words(one) for one in kit.lost if one.probability >= TOLD]),
    ):
        if lines:
            parts.append("\n".join([title, *(paragraph(line, "  - ") for line in lines)]))
    parts += [paragraph(line) for line in remarks(kit)]
    return "\n\n".join(parts)
