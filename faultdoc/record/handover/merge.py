"""Puts two copies of a case together that were worked on apart, without losing what either has.

A move is known by when and at which station it was made, in whatever journal it stands. A copy that has all moves
of the other is simply ahead. Otherwise the two are compared with what both knew when they parted, field by field:
what only one of them changed is taken; what both changed differently is a conflict, which a person decides. The
plant's state and who is there are always asked for when the copies differ, as a mistake there can hurt someone.

Journals are only added to: the other copy's moves follow one's own, with their own times, and a last move holds
the case as it was put together. So undo goes back through all of it.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from hashlib import sha256
from typing import Any, Literal

from faultdoc.model.case import Case, Tried
from faultdoc.record import moves
from faultdoc.record.casebook.people import NAME, PHONE, in_case
from faultdoc.record.handover.change import NAMED, ROWS
from faultdoc.record.session import Entry

__all__ = [
    "CHOICES",
    "Choice",
    "Comparison",
    "Conflict",
    "Copy",
    "Gone",
    "Side",
    "UnsettledError",
    "compared",
    "joined",
]

Choice = Literal["mine", "theirs", "note"]
CHOICES: tuple[Choice, ...] = ("mine", "theirs", "note")
"""How a conflict is decided: one of the two values, or neither, with both kept in a note."""

MUST = ("state", "people")
"""Conflicts that one of the two values must decide: there is no case without it."""

_LONG_AGO = datetime.min.replace(tzinfo=UTC)
_SINGULAR = {"readings": "reading", "answers": "answer"}


@dataclass(frozen=True)
class Copy:
    """One copy of a case: as it was entered, and its journal."""

    start: Case
    entries: tuple[Entry, ...]

    @property
    def case(self) -> Case:
        """The case as it is now."""
        return self.entries[-1].case if self.entries else self.start


@dataclass(frozen=True)
class Side:
    """What one copy has: the value (None: nothing), and when and at which station it came to have it."""

    value: Any
    at: datetime | None = None
    by: str = ""


@dataclass(frozen=True)
class Conflict:
    """Something that both copies changed, each in its own way.

    Attributes:
        id: such as "reading:water_flow", "answer:pump_sound", "tried:strainer_clogged", "title", "unproved",
            "people", "state", "conclusion".
        mine, theirs: what the copies have.
    """

    id: str
    mine: Side
    theirs: Side

    @property
    def kind(self) -> str:
        """What sort of thing it is: the id up to its colon."""
        return self.id.partition(":")[0]

    @property
    def key(self) -> str:
        """Which of its sort: the id behind its colon."""
        return self.id.partition(":")[2]

    @property
    def choices(self) -> tuple[Choice, ...]:
        """The ways in which it may be decided."""
        return CHOICES[:2] if self.id in MUST else CHOICES


@dataclass(frozen=True)
class Gone:
    """A reading, an answer or a note that one copy still has and the other took back."""

    kind: Literal["reading", "answer", "note"]
    key: str
    value: Any
    taken_back: Side


@dataclass(frozen=True)
class Comparison:
    """How two copies stand to each other.

    Attributes:
        relation: "same"; "behind" when the other copy has nothing new; "ahead" when it has everything of this
            one and more; "apart" when both have something of their own.
        conflicts: to be decided, in a fixed order.
        gone: what one copy took back and the other left as it was: it is taken back.
    """

    relation: Literal["same", "behind", "ahead", "apart"]
    conflicts: tuple[Conflict, ...] = ()
    gone: tuple[Gone, ...] = ()


class UnsettledError(ValueError):
    """Conflicts are left undecided, or were decided in a way that they cannot be.

    Attributes:
        conflicts: these.
    """

    def __init__(self, conflicts: Iterable[Conflict]) -> None:
        self.conflicts = tuple(conflicts)
        super().__init__(f"to be decided: {', '.join(one.id for one in self.conflicts)}")


def compared(mine: Copy, theirs: Copy) -> Comparison:
    """Return how two copies of one case stand to each other, and the conflicts between them.

    Raises:
        ValueError: when they are for different units or symptoms, and so no copies of one case.
    """
    theirs = _as_here(mine, theirs)
    relation = _relation(mine, theirs)
    if relation != "apart":
        return Comparison(relation)
    merge = _Merge(mine, theirs)
    return Comparison(relation, merge.conflicts, merge.gone)


def joined(
    mine: Copy,
    theirs: Copy,
    choices: Mapping[str, Choice],
    *,
    at: datetime,
    by: str,
    say: Callable[[Conflict, Side], str] = lambda conflict, side: f"{conflict.id} = {side.value}",
) -> tuple[Entry, ...]:
    """Return the entries to add to this copy's journal, so that it holds the other copy too.

    Args:
        mine: this copy.
        theirs: the other.
        choices: how each conflict is decided, by its id.
        at: now, UTC.
        by: this station.
        say: a side of a conflict in words, for the note that keeps what was not taken.

    Raises:
        UnsettledError: when a conflict is undecided.
        ValueError: when they are no copies of one case.
    """
    theirs = _as_here(mine, theirs)
    relation = _relation(mine, theirs)
    if relation in ("same", "behind"):
        return ()
    if relation == "ahead":
        return _ahead(mine, theirs)
    merge = _Merge(mine, theirs)
    if undecided := [one for one in merge.conflicts if choices.get(one.id) not in one.choices]:
        raise UnsettledError(undecided)
    carried = _carried(mine, theirs, {conflict.id for conflict in merge.conflicts})
    station = next((entry.by for entry in reversed(theirs.entries) if entry.by), "")
    what = f"Put together with the copy from {station}" if station else "Put together with another copy"
    return (*carried, Entry("do", what, merge.case(choices, say), at, by))


# --- which moves, and what both knew ---


def _as_here(mine: Copy, theirs: Copy) -> Copy:
    """Return the other copy with the unit named as here, and what both know in the words that it has here.

    A unit may be named by a path that no other machine has. People's names and numbers were taken out of what was
    sent, or have been forgotten here since: either way what stands here stays.
    """
    if mine.start.symptoms != theirs.start.symptoms:
        raise ValueError("these are not two copies of one case: what was seen is not the same")
    words = _reworded(mine, theirs)

    def as_here(case: Case) -> Case:
        case = case.model_copy(update={"unit": mine.start.unit})
        return in_case(case, lambda text: words.get(text, text)) if words else case

    entries = (replace(entry, case=as_here(entry.case)) for entry in theirs.entries)
    return Copy(as_here(theirs.start), tuple(entries))


def _reworded(mine: Copy, theirs: Copy) -> dict[str, str]:
    """Return the other copy's texts that stand here with people in them, or without, and how they stand here."""
    here = dict(zip(_keys(mine.entries), _added_texts(mine), strict=True))
    there = dict(zip(_keys(theirs.entries), _added_texts(theirs), strict=True))
    pairs = [(_texts(mine.start), _texts(theirs.start))]
    pairs += [(here[key], there[key]) for key in there if key in here]
    words = {}
    for ours, others in pairs:
        if len(ours) == len(others):
            for own, other in zip(ours, others, strict=True):
                if own != other and (_blotted(own, other) or _blotted(other, own)):
                    words[other] = own
    return words


def _added_texts(copy: Copy) -> Iterator[list[str]]:
    """Yield for every move the texts that it added to the case."""
    before = copy.start
    for entry in copy.entries:
        yield _without(_texts(entry.case), _texts(before))
        before = entry.case


def _texts(case: Case) -> list[str]:
    """Return the free texts of a case, those that `in_case` changes."""
    ending = (case.conclusion.proof, case.conclusion.note) if case.conclusion else ()
    found = [case.title, *case.notes, *(one.note for one in case.tried), *ending]
    return [text for text in found if text is not None]


def _blotted(text: str, other: str) -> bool:
    """Say whether a text is another one with marks where people stood."""
    parts = _MARKS.split(text)
    return len(parts) > 1 and re.fullmatch("(?s:.+)".join(map(re.escape, parts)), other) is not None


_MARKS = re.compile("|".join(map(re.escape, (NAME, PHONE))))


def _keys(entries: Sequence[Entry]) -> list[tuple[object, ...]]:
    """Return by what each move is known: time and station; content where it has no time."""
    seen: Counter[tuple[object, ...]] = Counter()
    keys: list[tuple[object, ...]] = []
    for entry in entries:
        content = ""
        if entry.at is None:
            content = sha256(f"{entry.move} {entry.what} {entry.case.model_dump_json()}".encode()).hexdigest()
        key = (entry.at, entry.by, content)
        keys.append((*key, seen[key]))  # two moves in one microsecond, as only a program makes them
        seen[key] += 1
    return keys


def _relation(mine: Copy, theirs: Copy) -> Literal["same", "behind", "ahead", "apart"]:
    ours, others = _keys(mine.entries), _keys(theirs.entries)
    own, other = set(ours), set(others)
    together = zip(ours, others, mine.entries, theirs.entries, strict=False)
    edited = mine.start != theirs.start
    for one, two, entry, their in together:
        if one != two:
            break
        edited = edited or entry.case != their.case
    if edited or (own == other and mine.case != theirs.case):
        return "apart"  # somebody changed a file by hand
    if other <= own:
        return "same" if own == other else "behind"
    return "ahead" if own < other else "apart"


def _common(mine: Copy, theirs: Copy) -> tuple[Case, ...]:
    """Return the case as both knew it: two where each knows it in its own way, none where they never agreed."""
    if mine.start != theirs.start:
        return ()
    ours, others = _keys(mine.entries), _keys(theirs.entries)

    def known(copy: Copy, keys: list[tuple[object, ...]], to: set[tuple[object, ...]]) -> tuple[Case, set[Any]]:
        length = next((place for place, key in enumerate(keys) if key not in to), len(keys))
        return Copy(copy.start, copy.entries[:length]).case, set(keys[:length])

    here, seen_here = known(mine, ours, set(others))
    there, seen_there = known(theirs, others, set(ours))
    if seen_here > seen_there:
        return (here,)
    return (there,) if seen_there > seen_here else (here, there)


# --- taking over moves ---


def _ahead(mine: Copy, theirs: Copy) -> tuple[Entry, ...]:
    """Return the moves that the other copy has more, ending in its case."""
    ours, others = _keys(mine.entries), _keys(theirs.entries)
    if others[: len(ours)] == ours:
        return theirs.entries[len(ours) :]
    carried = _carried(mine, theirs, set())
    return (*carried[:-1], replace(carried[-1], case=theirs.case))


def _carried(mine: Copy, theirs: Copy, held: set[str]) -> tuple[Entry, ...]:
    """Return the other copy's moves of its own as moves on this case; conflicts are left as they are here."""
    own = set(_keys(mine.entries))
    case = mine.case
    before = theirs.start
    carried = []
    for key, entry in zip(_keys(theirs.entries), theirs.entries, strict=True):
        if key not in own:
            case = _moved(case, before, entry.case, held)
            what = {"do": "", "undo": "Undone: ", "redo": "Done again: "}[entry.move] + entry.what
            carried.append(replace(entry, move="do", what=what, case=case))
        before = entry.case
    return tuple(carried)


def _moved(case: Case, before: Case, after: Case, held: set[str]) -> Case:
    """Return a case with what changed between two others, but for conflicts."""
    update: dict[str, Any] = {}
    for name in NAMED:
        values = dict(getattr(case, name))
        old, new = getattr(before, name), getattr(after, name)
        for key in {**old, **new}:
            if old.get(key) == new.get(key) or f"{_SINGULAR[name]}:{key}" in held:
                continue
            if key in new:
                values[key] = new[key]
            else:
                values.pop(key, None)
        update[name] = values
    for name in ROWS:
        items = list(getattr(case, name))
        for item in _without(getattr(before, name), getattr(after, name)):
            if item in items:
                items.remove(item)
        added = _without(getattr(after, name), getattr(before, name))
        items += [one for one in added if not (isinstance(one, Tried) and f"tried:{one.cause}" in held)]
        update[name] = tuple(items)
    for name, id in (*_SINGLE.items(), ("place", "place")):
        if getattr(before, name) != getattr(after, name) and id not in held:
            update[name] = getattr(after, name)
    return case.model_copy(update=update)


def _without(items: Iterable[Any], others: Iterable[Any]) -> list[Any]:
    """Return the items that are not among the others, each as often as it is more often there."""
    rest = list(others)
    left = []
    for item in items:
        if item in rest:
            rest.remove(item)
        else:
            left.append(item)
    return left


_SINGLE = {"title": "title", "unproved": "unproved", "who": "people", "state": "state", "conclusion": "conclusion"}
"""Fields of one value, and the ids of their conflicts."""


# --- field by field ---


@dataclass
class _Record:
    """When things came into a copy: the move that first put them there, and the one that last changed them."""

    first: dict[tuple[object, ...], Entry] = field(default_factory=dict)
    last: dict[tuple[object, ...], Entry] = field(default_factory=dict)

    @classmethod
    def of(cls, copy: Copy) -> _Record:
        made = cls()
        before = copy.start
        for entry in copy.entries:
            old, new = dict(_things(before)), dict(_things(entry.case))
            for key, value in new.items():
                if key not in old:
                    made.first[key] = entry
                if key not in old or old[key] != value:
                    made.last[key] = entry
            for key in old:
                if key not in new:
                    made.last[key] = entry
                    made.first.pop(key, None)
            before = entry.case
        return made

    def side(self, value: Any, *key: object) -> Side:
        """Return a value with the move that it is from."""
        entry = self.last.get(key)
        return Side(value) if entry is None else Side(value, entry.at, entry.by)


def _things(case: Case) -> Iterator[tuple[tuple[object, ...], Any]]:
    """Yield everything in a case that has a time of its own, with a name for it."""
    for name in NAMED:
        for key, value in getattr(case, name).items():
            yield (name, key), value
    for name in ROWS:
        seen: Counter[object] = Counter()
        for item in getattr(case, name):
            shown = _bare(item)
            yield (name, shown, seen[shown]), None
            seen[shown] += 1
    for name in (*_SINGLE, "place"):
        yield (name,), getattr(case, name)


def _bare(item: Any) -> Any:
    """Return an item of a row without what is reckoned anew: of a remedy tried, what was known before it."""
    return (item.cause, item.proved, item.note) if isinstance(item, Tried) else item


@dataclass(frozen=True)
class _Held:
    """A remedy tried as one copy tells of it."""

    tried: Tried
    case: Case
    record: _Record


@dataclass(frozen=True)
class _Try:
    """A remedy tried, which of those alike it is, in which copy, by which move, and what each copy says of it."""

    bare: Any
    place: int
    way: str
    entry: Entry | None
    held: list[_Held]

    @property
    def time(self) -> tuple[datetime, str]:
        """When and where it was tried; long ago where it was so at the start."""
        return (_LONG_AGO, "") if self.entry is None else (self.entry.at or _LONG_AGO, self.entry.by)


_CONFLICT = object()


class _Merge:
    """Two copies laid side by side: their conflicts, and the case that they make once those are decided."""

    def __init__(self, mine: Copy, theirs: Copy) -> None:
        self._bases = _common(mine, theirs)
        self._mine, self._theirs = mine.case, theirs.case
        self._here, self._there = _Record.of(mine), _Record.of(theirs)
        self._start = mine.start
        self._moves = [{(entry.at, entry.by) for entry in copy.entries} for copy in (mine, theirs)]
        self._conflicts: dict[str, Conflict] = {}
        self._named = {name: self._by_name(name) for name in NAMED}
        self._single = {name: self._one(name, id) for name, id in _SINGLE.items()}
        self._tried_apart()
        self._proofs()

    @property
    def conflicts(self) -> tuple[Conflict, ...]:
        """The conflicts, those first that can hurt someone."""
        order = [*MUST, "conclusion", "unproved", "tried", "reading", "answer", "title"]
        return tuple(sorted(self._conflicts.values(), key=lambda one: (order.index(one.kind), one.key)))

    @property
    def gone(self) -> tuple[Gone, ...]:
        """What one copy took back and the other left as it was."""
        found = []
        for name in NAMED:
            ours, others = getattr(self._mine, name), getattr(self._theirs, name)
            for key in {**ours, **others}:
                if (key in ours) != (key in others) and self._named[name][key] is None:
                    record, value = (self._there, ours[key]) if key in ours else (self._here, others[key])
                    kind: Any = _SINGULAR[name]
                    found.append(Gone(kind, key, value, record.side(None, name, key)))
        kept = Counter(self._rows("notes"))
        for record, notes in ((self._there, self._mine.notes), (self._here, self._theirs.notes)):
            for text, count in (Counter(notes) - kept).items():
                found.append(Gone("note", "", text, record.side(None, "notes", text, count - 1)))
        return tuple(found)

    def case(self, choices: Mapping[str, Choice], say: Callable[[Conflict, Side], str]) -> Case:
        """Return the case as both copies make it."""
        update: dict[str, Any] = {}
        for name in NAMED:
            values = {}
            for key, value in self._named[name].items():
                if value is _CONFLICT:
                    conflict = self._conflicts[f"{_SINGULAR[name]}:{key}"]
                    value = _decided(conflict, choices)
                if value is not None:
                    values[key] = value
            update[name] = {key: values[key] for key in sorted(values, key=lambda key: self._order(name, key))}
        for name in ("set_aside", "at_hand", "notes"):
            update[name] = self._rows(name)
        for name, id in _SINGLE.items():
            value = self._single[name]
            if id in self._conflicts:
                value = _decided(self._conflicts[id], choices)
            update[name] = value
        update["place"] = self._place()
        case = self._mine.model_copy(update=update)
        case = case.model_copy(update={"tried": self._tries(case, choices)})
        for conflict in self.conflicts:
            case = moves.note(case, _note(conflict, choices[conflict.id], say))
        return case

    def _chosen(self, mine: Any, theirs: Any, bases: Sequence[Any]) -> Any:
        """Return what two values make of what they were before; _CONFLICT where that is for a person to say."""
        if mine == theirs:
            return mine
        if bases and all(base == bases[0] for base in bases):
            if theirs == bases[0]:
                return mine
            if mine == bases[0]:
                return theirs
        return _CONFLICT

    def _clash(self, id: str, mine: Side, theirs: Side) -> Any:
        self._conflicts[id] = Conflict(id, mine, theirs)
        return _CONFLICT

    def _by_name(self, name: str) -> dict[str, Any]:
        """Return every reading or answer of either copy: its value, None where it is taken back, or _CONFLICT."""
        ours, others = getattr(self._mine, name), getattr(self._theirs, name)
        found = {}
        for key in sorted({**ours, **others}):
            mine, theirs = ours.get(key), others.get(key)
            value = self._chosen(mine, theirs, [getattr(base, name).get(key) for base in self._bases])
            if value is _CONFLICT:
                here, there = self._here.side(mine, name, key), self._there.side(theirs, name, key)
                self._clash(f"{_SINGULAR[name]}:{key}", here, there)
            found[key] = value
        return found

    def _one(self, name: str, id: str) -> Any:
        mine, theirs = getattr(self._mine, name), getattr(self._theirs, name)
        if mine == theirs:
            return mine
        here, there = self._here.side(mine, name), self._there.side(theirs, name)
        bases = [getattr(base, name) for base in self._bases]
        if id in MUST:
            return self._clash(id, here, there)
        value = self._chosen(mine, theirs, bases)
        if name == "conclusion":
            handed = [one is not None and one.outcome == "handed_over" for one in (mine, theirs)]
            if handed[0] != handed[1]:
                # As it was meant: somebody else went on with it.
                return theirs if handed[0] else mine
            if value is not None:
                # One copy closed the case while something more was done with the other.
                value = _CONFLICT
        return self._clash(id, here, there) if value is _CONFLICT else value

    def _tried_apart(self) -> None:
        """Find the remedies of which each copy says something else."""
        ours, others = self._fresh()
        for cause in sorted(set(ours) & set(others)):
            if ours[cause].value[1] != others[cause].value[1]:
                self._clash(f"tried:{cause}", ours[cause], others[cause])

    def _fresh(self) -> tuple[dict[str, Side], dict[str, Side]]:
        """Return for each copy the remedies that it alone knows to have been tried, the last one of a cause."""
        found = []
        for copy, record in ((self._mine, self._here), (self._theirs, self._there)):
            bares = [_bare(one) for one in copy.tried]
            fresh: dict[str, Side] = {}
            for bare in _without(bares, self._tried_before()):
                fresh[bare[0]] = record.side(bare, "tried", bare, bares.count(bare) - 1)
            found.append(fresh)
        return found[0], found[1]

    def _tried_before(self) -> list[Any]:
        """Return the remedies that both know to have been tried."""
        bases = [[_bare(one) for one in base.tried] for base in self._bases] or [[]]
        return _without(bases[0], _without(bases[0], bases[-1]))

    def _proofs(self) -> None:
        """Find a remedy that waits for its proof in one copy, and has been proved or not in the other."""
        waiting = self._single["unproved"]
        if waiting in (_CONFLICT, None) or self._mine.unproved == self._theirs.unproved:
            return
        ours, others = self._fresh()
        if waiting in (others if waiting == self._mine.unproved else ours):
            here = self._here.side(self._mine.unproved, "unproved")
            self._clash("unproved", here, self._there.side(self._theirs.unproved, "unproved"))

    def _rows(self, name: str) -> tuple[Any, ...]:
        """Return the items of a row that both have, with what was added, without what was taken away."""
        mine, theirs = Counter(getattr(self._mine, name)), Counter(getattr(self._theirs, name))
        bases = [Counter(getattr(base, name)) for base in self._bases] or [Counter[Any]()]
        counts = {}
        for item in mine | theirs:
            counts[item] = _count(mine[item], theirs[item], min(base[item] for base in bases))
        items = [(item, place) for item, count in counts.items() for place in range(count)]
        return tuple(item for item, place in sorted(items, key=lambda one: self._order(name, *one)))

    def _tries(self, case: Case, choices: Mapping[str, Choice]) -> tuple[Tried, ...]:
        """Return the remedies tried in either copy, each with what was known before it."""
        before = self._tried_before()
        found: list[_Try] = []
        for way, copy, record in self._copies():
            seen: Counter[Any] = Counter()
            for one in copy.tried:
                bare = _bare(one)
                entry = record.first.get(("tried", bare, seen[bare]))
                held = _Held(one, copy, record)
                if seen[bare] < before.count(bare):
                    both = next((t for t in found if (t.bare, t.place) == (bare, seen[bare])), None)
                    if both is not None:
                        both.held.append(held)
                    else:
                        found.append(_Try(bare, seen[bare], "both", entry, [held]))
                elif (known := self._same_try(found, bare, way, entry)) is not None:
                    known.held.append(held)
                else:
                    # Two people may have done the same work, and resets are counted: neither is the other's.
                    found.append(_Try(bare, seen[bare], way, entry, [held]))
                seen[bare] += 1
        dropped = set()
        for conflict in self._conflicts.values():
            if conflict.kind == "tried":
                dropped |= {("mine", conflict.mine.value), ("theirs", conflict.theirs.value)}
                dropped.discard((choices[conflict.id], _decided(conflict, choices)))
        kept = [
            one
            for one in found
            if (one.way, one.bare) not in dropped and (one.way != "both" or len(one.held) == 2)
        ]
        places = {
            bare: place for place, bare in reversed(list(enumerate(_bare(one) for one in self._start.tried)))
        }
        kept.sort(key=lambda one: (*one.time, places.get(one.bare, len(places)), str(one.bare), one.place))
        return tuple(self._known_before(one, case) for one in kept)

    def _same_try(self, found: Sequence[_Try], bare: Any, way: str, entry: Entry | None) -> _Try | None:
        """Return the try of this copy that the other copy tells of too, knowing the move that it is from."""
        if way == "mine":
            return None
        here, there = self._moves
        for one in found:
            if one.way == "mine" and one.bare == bare and len(one.held) == 1:
                known = one.entry is not None and (one.entry.at, one.entry.by) in there
                if known or (entry is not None and (entry.at, entry.by) in here):
                    return one
        return None

    def _copies(self) -> tuple[tuple[str, Case, _Record], tuple[str, Case, _Record]]:
        return ("mine", self._mine, self._here), ("theirs", self._theirs, self._there)

    def _known_before(self, one: _Try, case: Case) -> Tried:
        """Return a remedy tried with what had been answered and read before it, in either copy.

        What a copy says of a remedy holds for the answers and readings that the copy has; of the other's, the time
        decides.
        """
        known = {id for held in one.held for id in held.tried.known if id not in case.answers}
        known = {id for id in known if id not in case.readings}
        for name in NAMED:
            for id, value in getattr(case, name).items():
                before = True
                for held in one.held:
                    if getattr(held.case, name).get(id) == value:
                        before = before and id in held.tried.known
                    else:
                        other = self._there if held.record is self._here else self._here
                        taken = other.last.get((name, id))
                        before = before and (taken is None or (taken.at or _LONG_AGO) <= one.time[0])
                if before:
                    known.add(id)
        return one.held[0].tried.model_copy(update={"known": tuple(sorted(known))})

    def _place(self) -> str | None:
        """Return where the people are: where they went last."""
        value = self._chosen(self._mine.place, self._theirs.place, [base.place for base in self._bases])
        if value is not _CONFLICT:
            return value  # type: ignore[no-any-return]
        sides = [self._here.side(self._mine.place, "place"), self._there.side(self._theirs.place, "place")]
        last = max(sides, key=lambda side: (side.at or _LONG_AGO, side.by, side.value or ""))
        return last.value  # type: ignore[no-any-return]

    def _order(self, name: str, *key: object) -> tuple[object, ...]:
        """Return by what things are put in order: when they first came, then where they stood."""
        found = []
        for record in (self._here, self._there):
            entry = record.first.get((name, *key))
            if entry is not None:
                found.append((entry.at or _LONG_AGO, entry.by, _standing(entry.case, name, key[0])))
        return (*min(found, default=(_LONG_AGO, "", _standing(self._start, name, key[0]))), str(key))


def _standing(case: Case, name: str, item: object) -> int:
    """Return at which place an item first stands in a field of a case; behind the last when it is not there."""
    items = list(getattr(case, name))
    return items.index(item) if item in items else len(items)


def _count(mine: int, theirs: int, known: int) -> int:
    """Return how often an item is there: the same one added in both copies is one; what one took away is gone."""
    added = mine - known, theirs - known
    if min(added) >= 0:
        return known + max(added)
    return max(0, known + (min(added) if max(added) <= 0 else sum(added)))


def _decided(conflict: Conflict, choices: Mapping[str, Choice]) -> Any:
    choice = choices[conflict.id]
    if choice == "note":
        return None
    return (conflict.mine if choice == "mine" else conflict.theirs).value


def _note(conflict: Conflict, choice: Choice, say: Callable[[Conflict, Side], str]) -> str:
    """Return the note that keeps what was not taken; the same at both stations."""
    sides = [conflict.mine, conflict.theirs]
    if choice == "theirs":
        sides.reverse()
    if choice == "note":
        sides.sort(key=lambda side: (side.at or _LONG_AGO, side.by))
    first, second = (say(conflict, side) for side in sides)
    ends = "Neither was taken." if choice == "note" else "The first was taken."
    return f"Two copies of this case differed. {first}; {second}. {ends}"[:4000]
