"""Cases and journals drawn at random, as people make them: for the tests of hand-overs."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from hypothesis import strategies as st

from faultdoc.model.base import Measured
from faultdoc.model.case import Case, Conclusion
from faultdoc.model.safety import TRIPPED, Qualification, all_states
from faultdoc.plain import plain
from faultdoc.quantities import Kind, parse
from faultdoc.record import moves
from faultdoc.record.session import Entry

KINDS = {
    "barrel_in_pressure": Kind.GAUGE_PRESSURE,
    "ambient_air_temperature": Kind.TEMPERATURE,
    "pump_current_l1": Kind.CURRENT,
    "power_indication": Kind.CHOICE,
}
parse("0 psi", Kind.GAUGE_PRESSURE)  # the units take a second to load, which is not to fall into the first draw
NOON = datetime(2026, 7, 1, 12, tzinfo=UTC)

texts = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=30).map(plain).filter(str.strip)
questions = st.sampled_from(["leak_seen", "pump_sound", "vents_tried", "recent_work"])
outcomes = st.sampled_from(["dry", "wet", "not_sure", "could_not_measure"])
causes = st.sampled_from(["strainer_clogged", "pump_blocked"])
written = {
    "barrel_in_pressure": ["34 psi ± 1.5 psi", "2,3 bar", "-9 psi", "1/2 psi"],
    "ambient_air_temperature": ["42F", "31 °C", "88.5 °F ± 2"],
    "pump_current_l1": ["7.5 A", "11 A ± 2 %"],
    "power_indication": ["lit", "dark"],
}


@st.composite
def readings(draw):
    """Return a point and what was read there: as typed, or a number that no typed text has (a simulated one)."""
    point = draw(st.sampled_from(sorted(written)))
    text = draw(st.sampled_from(written[point]))
    if KINDS[point] is Kind.CHOICE:
        return point, text
    measured = Measured.from_quantity(parse(text, KINDS[point], need_unit=True))
    if draw(st.booleans()):
        return point, measured
    value = draw(st.floats(1e-9, 1e9))
    return point, measured.model_copy(update={"value": value, "text": draw(st.text(max_size=8).map(plain))})


@st.composite
def steps(draw, case):
    """Return what was done in words, and the case after it."""
    kinds = [
        "read",
        "answer",
        "note",
        "state",
        "aside",
        "back",
        "people",
        "repair",
        "proof",
        "clear",
        "go",
        "close",
    ]
    kind = draw(st.sampled_from(kinds))
    if kind == "read":
        return moves.read(case, *draw(readings()))
    if kind == "answer":
        return moves.answer(case, draw(questions), draw(outcomes))
    if kind == "note":
        return moves.note(case, draw(texts).strip())
    if kind == "state":
        return moves.set_state(case, draw(st.sampled_from(all_states())))
    if kind == "aside":
        return moves.set_aside(case, draw(questions))
    if kind == "back":
        return moves.bring_back(case, draw(questions))
    if kind == "people":
        return moves.people(case, draw(st.lists(st.sampled_from(list(Qualification)), min_size=1, unique=True)))
    if kind == "repair":
        return moves.repaired(case, draw(causes))
    if kind == "proof" and case.unproved:
        return moves.proved(case, draw(st.booleans()), draw(st.none() | texts.map(str.strip)))
    if kind == "clear":
        return moves.clear_answer(moves.clear_reading(case, draw(st.sampled_from(sorted(KINDS)))), draw(questions))
    if kind == "go":
        return case.model_copy(
            update={"place": "panel", "at_hand": tuple(dict.fromkeys((*case.at_hand, "ladder")))}
        )
    ended = draw(st.sampled_from(["fixed", "handed_over", "made_safe"]))
    return moves.reopen(case) if case.conclusion else moves.conclude(case, Conclusion(outcome=ended))


@st.composite
def starts(draw):
    case = Case(unit="bluff_30", symptoms=("flow_proving_trip",), state=TRIPPED, who=(Qualification.CALLER,))
    for _ in range(draw(st.integers(0, 3))):
        case = draw(steps(case))
    return case


@st.composite
def journals(draw, start, by="desk-1", most=8, minute=0):
    """Return a journal from a case on: moves, undo and redo as a session makes them."""
    case, done, undone, entries = start, [], [], []
    for place in range(draw(st.integers(0, most))):
        at = NOON + timedelta(minutes=minute + 2 * place, microseconds=draw(st.integers(0, 999_999)))
        way = draw(st.sampled_from(["do", "do", "do", "do", "undo", "redo"]))
        if way == "undo" and done:
            what, before = done.pop()
            undone.append((what, case))
            case = before
        elif way == "redo" and undone:
            what, after = undone.pop()
            done.append((what, case))
            case = after
        else:
            way, what, after = "do", draw(texts), draw(steps(case))
            done.append((what, case))
            undone.clear()
            case = after
        entries.append(Entry(way, what, case, at, by))
    return tuple(entries)


def later(entries, minutes):
    """Return entries as if they had been made some minutes later."""
    return tuple(replace(entry, at=entry.at + timedelta(minutes=minutes)) for entry in entries)
