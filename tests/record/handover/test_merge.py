from collections import Counter
from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from journals import NOON, journals, later, starts

from faultdoc.model.base import Measured
from faultdoc.model.case import Conclusion, Tried
from faultdoc.model.safety import Qualification
from faultdoc.quantities import Kind, parse
from faultdoc.record import moves
from faultdoc.record.handover.merge import Copy, UnsettledError, compared, joined
from faultdoc.record.session import Entry

NOW = NOON + timedelta(hours=5)
SOME = settings(deadline=None, max_examples=60)
OTHER = {"mine": "theirs", "theirs": "mine", "note": "note"}


@st.composite
def parted(draw):
    """Return two copies of a case that were worked on apart, on two stations at the same time."""
    start = draw(starts())
    common = draw(journals(start, most=4))
    last = Copy(start, common)
    pair = []
    for by in ("desk-1", "tech-2"):
        more = draw(journals(last.case, by=by, most=5, minute=60))
        pair.append(Copy(start, (*common, *more)))
    return pair


def chosen(draw, conflicts):
    return {one.id: draw(st.sampled_from(one.choices)) for one in conflicts}


def put_together(mine, theirs, choices, by="desk-1", minutes=0):
    added = joined(mine, theirs, choices, at=NOW + timedelta(minutes=minutes), by=by)
    return Copy(mine.start, (*mine.entries, *added))


@given(parted(), st.data())
@SOME
def test_the_case_put_together_is_the_same_at_both_stations(pair, data):
    mine, theirs = pair
    here, there = compared(mine, theirs), compared(theirs, mine)
    assert [(one.id, one.mine, one.theirs) for one in here.conflicts] == [
        (one.id, one.theirs, one.mine) for one in there.conflicts
    ]
    assert Counter(map(repr, here.gone)) == Counter(map(repr, there.gone))
    choices = chosen(data.draw, here.conflicts)
    mirrored = {id: OTHER[choice] for id, choice in choices.items()}
    one, other = put_together(mine, theirs, choices).case, put_together(theirs, mine, mirrored).case
    assert one == other
    if here.relation == "apart":
        assert [list(one.readings), list(one.answers)] == [list(other.readings), list(other.answers)]


@given(parted(), st.data())
@SOME
def test_put_together_again_nothing_is_new_and_the_other_station_follows(pair, data):
    mine, theirs = pair
    whole = put_together(mine, theirs, chosen(data.draw, compared(mine, theirs).conflicts))
    assert compared(whole, theirs).relation in ("same", "behind")
    assert joined(whole, theirs, {}, at=NOW, by="desk-1") == ()
    followed = put_together(theirs, whole, {}, by="tech-2")
    assert followed.case == whole.case
    assert compared(followed, whole).relation == "same"
    assert compared(whole, followed).relation == "same"


@given(starts().flatmap(lambda start: st.tuples(st.just(start), journals(start))), st.integers(0, 8))
def test_an_unedited_copy_changes_nothing_and_one_that_went_on_is_taken_as_it_is(case, length):
    start, entries = case
    whole, sent = Copy(start, entries), Copy(start, entries[:length])
    assert joined(whole, sent, {}, at=NOW, by="desk-1") == ()
    assert (*sent.entries, *joined(sent, whole, {}, at=NOW, by="desk-1")) == entries


@given(parted(), st.data())
@SOME
def test_no_reading_answer_note_or_remedy_of_either_copy_is_lost(pair, data):
    """Each stands in the case, in a conflict and its note, or was changed or taken back by one copy alone."""
    mine, theirs = pair
    found = compared(mine, theirs)
    whole = put_together(mine, theirs, chosen(data.draw, found.conflicts))
    if found.relation != "apart":
        longer = max(pair, key=lambda copy: len(copy.entries))
        assert whole.case == longer.case
        return
    conflicts = {one.id: one for one in found.conflicts}
    gone = {(one.kind, one.key) for one in found.gone}
    for copy, other in (pair, pair[::-1]):
        for name, kind in (("readings", "reading"), ("answers", "answer")):
            for key, value in getattr(copy.case, name).items():
                kept = getattr(whole.case, name).get(key)
                if kept == value:
                    continue
                if f"{kind}:{key}" in conflicts:
                    assert value in (
                        conflicts[f"{kind}:{key}"].mine.value,
                        conflicts[f"{kind}:{key}"].theirs.value,
                    )
                    assert any(f"{kind}:{key} = {value}"[:3900] in note for note in whole.case.notes)
                elif kept is None:
                    assert (kind, key) in gone
                else:
                    # Only the other copy changed it since they parted: it knew this value.
                    assert kept == getattr(other.case, name)[key]
                    assert key in getattr(common_case(pair), name)
        for text in copy.case.notes:
            assert text in whole.case.notes or text in [one.value for one in found.gone if one.kind == "note"]
        for one in copy.case.tried:
            alike = [(t.cause, t.proved, t.note) for t in whole.case.tried]
            in_common = one.cause in [t.cause for t in common_case(pair).tried]
            assert (one.cause, one.proved, one.note) in alike or f"tried:{one.cause}" in conflicts or in_common


def common_case(pair):
    length = 0
    for one, other in zip(pair[0].entries, pair[1].entries, strict=False):
        if one != other:
            break
        length += 1
    return Copy(pair[0].start, pair[0].entries[:length]).case


@given(parted(), st.data())
@SOME
def test_the_journal_replays_and_undo_goes_back_through_all_of_it(pair, data):
    mine, theirs = pair
    whole = put_together(mine, theirs, chosen(data.draw, compared(mine, theirs).conflicts))
    case, done, undone = whole.start, [], []
    for entry in whole.entries:
        if entry.move == "do":
            done.append(case)
            undone.clear()
            case = entry.case
        elif entry.move == "undo":
            undone.append(case)
            case = done.pop()
        else:
            done.append(case)
            case = undone.pop()
        assert case == entry.case
    assert whole.entries[: len(mine.entries)] == mine.entries
    stations = Counter(entry.by for entry in theirs.entries)
    assert stations <= Counter(entry.by for entry in whole.entries)


@given(parted(), st.data())
@SOME
def test_a_third_round_asks_only_for_what_is_new(pair, data):
    """Both put the copies together on their own and go on: what was decided alike is not asked again."""
    mine, theirs = pair
    found = compared(mine, theirs)
    if found.relation != "apart":
        return
    choices = chosen(data.draw, found.conflicts)
    mirrored = {id: OTHER[choice] for id, choice in choices.items()}
    one = put_together(mine, theirs, choices)
    other = put_together(theirs, mine, mirrored, by="tech-2", minutes=1)
    again = compared(one, other)
    assert again.conflicts == ()
    assert put_together(one, other, {}, minutes=2).case == one.case


# --- by example ---


def reading(text, kind=Kind.GAUGE_PRESSURE):
    return Measured.from_quantity(parse(text, kind, need_unit=True))


class Station:
    """A copy of a case, worked on by name."""

    def __init__(self, copy, by, minute=0):
        self.copy, self.by, self.minute = copy, by, minute

    def do(self, move, *args, what="A move"):
        self.minute += 1
        case = move(self.copy.case, *args)
        entry = Entry("do", what, case, NOON + timedelta(minutes=self.minute), self.by)
        self.copy = Copy(self.copy.start, (*self.copy.entries, entry))
        return self


@pytest.fixture
def pair():
    from test_file import START

    copy = Station(Copy(START, ()), "desk-1").do(moves.read, "barrel_in_pressure", reading("34 psi")).copy
    return Station(copy, "desk-1", 10), Station(copy, "tech-2", 15)


def ids(pair):
    return [one.id for one in compared(pair[0].copy, pair[1].copy).conflicts]


def whole(pair, minute=60, **choices):
    named = {id.replace("__", ":"): choice for id, choice in choices.items()}
    return put_together(pair[0].copy, pair[1].copy, named, minutes=minute)


def test_readings_of_both_are_there_in_the_order_of_time(pair):
    desk, tech = pair
    tech.do(moves.read, "pump_in_pressure", reading("2 psi"))
    desk.do(moves.answer, "leak_seen", "dry")
    tech.do(moves.answer, "pump_sound", "rattles")
    assert ids(pair) == []
    case = whole(pair).case
    assert list(case.readings) == ["barrel_in_pressure", "pump_in_pressure"]
    assert list(case.answers) == ["leak_seen", "pump_sound"]


def test_the_same_reading_taken_differently_is_asked_for(pair):
    desk, tech = pair
    desk.do(moves.read, "barrel_in_pressure", reading("30 psi"))
    tech.do(moves.read, "barrel_in_pressure", reading("12 psi"))
    (conflict,) = compared(desk.copy, tech.copy).conflicts
    assert conflict.id == "reading:barrel_in_pressure"
    assert (conflict.mine.by, conflict.theirs.by) == ("desk-1", "tech-2")
    assert conflict.theirs.at - conflict.mine.at == timedelta(minutes=5)
    with pytest.raises(UnsettledError, match="reading:barrel_in_pressure"):
        whole(pair)
    assert whole(pair, reading__barrel_in_pressure="theirs").case.readings["barrel_in_pressure"].text == "12 psi"
    neither = whole(pair, reading__barrel_in_pressure="note").case
    assert neither.readings == {}
    assert "30 psi" in neither.notes[0]
    assert "12 psi" in neither.notes[0]


def test_the_plant_is_never_taken_for_the_safer_of_two(pair):
    """One copy says locked out, the other knows nothing of it: a person has to look."""
    desk, tech = pair
    isolated = tech.copy.case.state.model_copy(update={"supply": "isolated"})
    tech.do(moves.set_state, isolated)
    desk.do(moves.note, "The caller waits")
    assert ids(pair) == ["state"]
    for wrong in ("note", "", "both"):
        with pytest.raises(UnsettledError):
            whole(pair, state=wrong)
    assert whole(pair, state="mine").case.state == desk.copy.case.state
    taken = whole(pair, state="theirs")
    assert taken.case.state.supply == "isolated"
    # Until it was decided, the moves carried over say nothing of the plant.
    assert taken.entries[-2].case.state == desk.copy.case.state


def test_who_is_there_is_asked_for(pair):
    desk, tech = pair
    tech.do(moves.people, [Qualification.ELECTRICAL_WORKER])
    desk.do(moves.note, "The caller waits")
    assert ids(pair) == ["people"]


def test_a_case_closed_in_one_copy_and_worked_on_in_the_other(pair):
    desk, tech = pair
    desk.do(moves.conclude, Conclusion(outcome="made_safe"))
    tech.do(moves.answer, "pump_sound", "rattles")
    assert ids(pair) == ["conclusion"]
    assert whole(pair, conclusion="theirs").case.conclusion is None
    assert whole(pair, conclusion="mine").case.conclusion == Conclusion(outcome="made_safe")


def test_a_case_handed_over_goes_on_with_whoever_took_it(pair):
    desk, tech = pair
    desk.do(moves.conclude, Conclusion(outcome="handed_over"))
    tech.do(moves.answer, "pump_sound", "rattles")
    assert ids(pair) == ids(pair[::-1]) == []
    assert whole(pair).case.conclusion is None
    tech.do(moves.conclude, Conclusion(outcome="fixed", cause="strainer_clogged"))
    assert whole(pair).case.conclusion.outcome == "fixed"
    assert whole(pair[::-1]).case.conclusion.outcome == "fixed"


def test_both_closed_it_differently(pair):
    desk, tech = pair
    desk.do(moves.conclude, Conclusion(outcome="made_safe"))
    tech.do(moves.conclude, Conclusion(outcome="fixed", cause="strainer_clogged"))
    assert ids(pair) == ["conclusion"]
    assert whole(pair, conclusion="note").case.conclusion is None


def test_a_case_opened_again_stays_open(pair):
    desk, tech = pair
    closed = desk.do(moves.conclude, Conclusion(outcome="made_safe")).copy
    tech.copy = closed
    desk.do(moves.note, "Somebody asks")
    tech.do(moves.reopen)
    assert ids(pair) == []
    assert whole(pair).case.conclusion is None


def test_one_proof_held_and_the_other_did_not(pair):
    desk, tech = pair
    for station, held in ((desk, False), (tech, True)):
        station.do(moves.repaired, "strainer_clogged").do(moves.proved, held)
    assert ids(pair) == ["tried:strainer_clogged"]
    assert [one.proved for one in whole(pair, tried__strainer_clogged="theirs").case.tried] == [True]
    assert [one.proved for one in whole(pair, tried__strainer_clogged="mine").case.tried] == [False]
    assert whole(pair, tried__strainer_clogged="note").case.tried == ()


def test_the_same_remedy_tried_twice_counts_twice(pair):
    """Resets of a protective device are limited: one is not dropped as the other's."""
    for station in pair:
        station.do(moves.repaired, "strainer_clogged").do(moves.proved, False)
    assert ids(pair) == []
    assert len(whole(pair).case.tried) == 2


def test_a_remedy_that_waits_for_its_proof_here_and_was_proved_there(pair):
    desk, tech = pair
    desk.do(moves.repaired, "strainer_clogged")
    tech.do(moves.repaired, "strainer_clogged").do(moves.proved, True)
    assert ids(pair) == ["unproved"]
    assert whole(pair, unproved="theirs").case.unproved is None
    assert whole(pair, unproved="mine").case.unproved == "strainer_clogged"


def test_what_the_other_read_before_a_remedy_speaks_of_the_fault_and_after_it_of_what_is_left(pair):
    desk, tech = pair
    desk.do(moves.answer, "leak_seen", "dry")  # minute 11, before
    tech.do(moves.repaired, "strainer_clogged").do(moves.proved, False)  # minutes 16 and 17
    desk.minute = 20
    desk.do(moves.read, "pump_in_pressure", reading("2 psi"))  # after
    (tried,) = whole(pair).case.tried
    assert tried == Tried(cause="strainer_clogged", proved=False, known=("barrel_in_pressure", "leak_seen"))


def test_a_reading_taken_again_after_a_remedy_is_no_longer_of_before(pair):
    desk, tech = pair
    both = desk.do(moves.repaired, "strainer_clogged").do(moves.proved, False).copy
    assert both.case.tried[0].known == ("barrel_in_pressure",)
    tech.copy, tech.minute = both, 30
    tech.do(moves.read, "barrel_in_pressure", reading("31 psi"))
    desk.do(moves.note, "Waiting")
    assert whole(pair).case.tried[0].known == ()


def test_a_note_made_in_both_is_one_and_one_undone_is_told(pair):
    desk, tech = pair
    both = desk.do(moves.note, "Hums").copy
    tech.copy = both
    desk.do(moves.note, "Wet floor")
    tech.do(moves.note, "Wet floor")
    undone = replace(tech.copy.entries[-1], case=tech.copy.case.model_copy(update={"notes": ("Wet floor",)}))
    tech.copy = Copy(tech.copy.start, (*tech.copy.entries[:-1], undone))
    assert whole(pair).case.notes == ("Wet floor",)
    (gone,) = compared(desk.copy, tech.copy).gone
    assert (gone.kind, gone.value, gone.taken_back.by) == ("note", "Hums", "tech-2")


def test_moves_of_old_that_have_no_time_are_known_by_what_they_are(pair):
    desk, tech = pair
    bare = tuple(replace(entry, at=None, by="") for entry in desk.copy.entries)
    mine = Copy(desk.copy.start, bare)
    theirs = Copy(tech.copy.start, (*bare, *later(tech.do(moves.note, "Hums").copy.entries[-1:], 1)))
    assert compared(mine, theirs).relation == "ahead"
    other = Copy(tech.copy.start, tuple(replace(entry, what="Another") for entry in bare))
    assert compared(mine, other).relation == "apart"


def test_a_file_edited_by_hand_is_laid_beside_it(pair):
    desk, tech = pair
    (entry,) = tech.copy.entries
    forged = moves.read(entry.case, "barrel_in_pressure", reading("99 psi"))
    tech.copy = Copy(tech.copy.start, (replace(entry, case=forged),))
    assert compared(desk.copy, tech.copy).relation == "apart"
    assert ids(pair) == ["reading:barrel_in_pressure"]


def test_the_unit_is_named_as_it_is_here_and_other_symptoms_are_another_case(pair):
    desk, tech = pair
    start = tech.copy.start.model_copy(update={"unit": "/elsewhere/unit.yaml"})
    moved = Copy(
        start, tuple(replace(e, case=e.case.model_copy(update={"unit": start.unit})) for e in tech.copy.entries)
    )
    assert compared(desk.copy, moved).relation == "same"
    other = Copy(start.model_copy(update={"symptoms": ("unit_dead",)}), ())
    with pytest.raises(ValueError, match="not two copies of one case"):
        compared(desk.copy, other)


def test_a_proof_decided_at_both_stations_alike_is_one(pair):
    desk, tech = pair
    for station, held in ((desk, False), (tech, True)):
        station.do(moves.repaired, "strainer_clogged").do(moves.proved, held)
    one = whole(pair, tried__strainer_clogged="mine")
    other = put_together(tech.copy, desk.copy, {"tried:strainer_clogged": "theirs"}, by="tech-2", minutes=61)
    assert compared(one, other).conflicts == ()
    assert put_together(one, other, {}, minutes=62).case == one.case
    assert len(one.case.tried) == 1
