"""Finding cases: by words and by what they are."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from faultdoc.model.case import Conclusion, Tried
from faultdoc.record import moves
from faultdoc.record.casebook import Wanted
from faultdoc.record.casebook.searchwords import words_of


def ids(found):
    return [one.id for one in found]


@pytest.fixture
def three(book, start, noted):
    """Return the ids of three cases: a strainer proved, one handed over and closed, one open."""
    first = book.start(start.model_copy(update={"title": "Hôtel du Port, roof"}))
    fixed = start.model_copy(
        update={
            "tried": (Tried(cause="strainer_clogged", proved=True, note="Sand in the basket"),),
            "conclusion": Conclusion(outcome="fixed", cause="strainer_clogged", note="Rinsed"),
        }
    )
    book.journal(first).append(noted("came at nine", case=fixed, at=datetime(2026, 3, 1, 9, tzinfo=UTC)))
    second = book.start(start.model_copy(update={"unit": "coast_60", "symptoms": ("low_oil", "no_flow")}))
    over = moves.conclude(start, Conclusion(outcome="handed_over"))
    over = over.model_copy(update={"unit": "coast_60", "symptoms": ("low_oil", "no_flow")})
    book.journal(second).append(noted("belt, squeals!", case=over, at=datetime(2026, 3, 3, 9, tzinfo=UTC)))
    book.close(second)
    third = book.start(start)
    book.journal(third).append(noted("Pump is warm", at=datetime(2026, 3, 2, 9, tzinfo=UTC)))
    return first, second, third


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        (Wanted(), (1, 2, 0)),
        (Wanted(limit=2), (1, 2)),
        (Wanted(text="hotel PORT"), (0,)),
        (Wanted(text="strain"), (0,)),
        (Wanted(text="sand rinsed nine"), (0,)),
        (Wanted(text="pump"), (2,)),
        (Wanted(text="pump belt"), ()),
        (Wanted(text="coast_60"), (1,)),
        (Wanted(text="  ,;  "), (1, 2, 0)),
        (Wanted(unit="coast_60"), (1,)),
        (Wanted(symptom="no_flow"), (1, 2, 0)),
        (Wanted(symptom="low_oil"), (1,)),
        (Wanted(symptom="low%oil"), ()),
        (Wanted(symptom="low"), ()),
        (Wanted(cause="strainer_clogged"), (0,)),
        (Wanted(outcome="handed_over"), (1,)),
        (Wanted(outcome="fixed"), (0,)),
        (Wanted(open=True), (2, 0)),
        (Wanted(open=False), (1,)),
        (Wanted(since=datetime(2026, 3, 2, 9, tzinfo=UTC)), (1, 2)),
        (Wanted(since=date(2026, 3, 4)), ()),
        (Wanted(until=date(2026, 3, 1)), ()),
        (Wanted(since=date(2026, 3, 1), text="warm", open=True, unit="bluff_30"), (2,)),
    ],
)
def test_cases_are_found(book, three, wanted, found):
    assert ids(book.cases(wanted)) == [three[place] for place in found]


def test_a_day_counts_whole_to_its_end(book, three):
    today = datetime.now().astimezone().date()
    assert len(book.cases(Wanted(until=today))) == 3
    assert book.cases(Wanted(until=today - timedelta(days=1))) == ()


def test_a_summary_tells_the_case(book, three):
    (one,) = book.cases(Wanted(cause="strainer_clogged"))
    assert one.title == "Hôtel du Port, roof" or one.title == "bluff_30: no flow"
    assert (one.outcome, one.cause, one.entries, one.last) == (
        "fixed",
        "strainer_clogged",
        1,
        "Note: came at nine",
    )
    assert one.updated == datetime(2026, 3, 1, 9, tzinfo=UTC)
    assert one.case == book.load(one.id)[1][-1].case
    assert one.uid == book.uid(one.id)
    assert one.closed is False


def test_the_cause_of_a_proved_remedy_counts_before_the_case_is_concluded(book, start, noted):
    case = start.model_copy(
        update={"tried": (Tried(cause="valve_shut", proved=False), Tried(cause="pump_blocked", proved=True))}
    )
    id = book.start(start)
    book.journal(id).append(noted("x", case=case))
    assert ids(book.cases(Wanted(cause="pump_blocked"))) == [id]
    assert book.cases(Wanted(cause="valve_shut")) == ()


def test_what_was_taken_back_is_still_found(book, start, noted):
    id = book.start(start)
    journal = book.journal(id)
    journal.append(noted("magpie"))
    journal.append(noted("x", move="undo"))
    assert ids(book.cases(Wanted(text="magpie"))) == [id]


@settings(deadline=None, max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=st.text(max_size=30) | st.text("\"'*():^-+~&|!<>\\%_ \0aNEAROT", max_size=20))
def test_any_text_may_be_looked_for(book, text):
    # FTS5's and tsquery's own operators are among the signs; none of them may be one.
    assert book.cases(Wanted(text=text)) == ()


@settings(max_examples=2000)
@given(st.text(max_size=20))
@example("ᴰ ſ İ ŉ")
def test_words_are_as_plain_as_they_can_be(text):
    words = words_of(text)
    assert words_of(" ".join(words)) == words
    assert all(word.isalnum() for word in words)


@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    text=st.text(st.characters(codec="utf-8", categories=["L", "N", "P", "Zs"]), min_size=1, max_size=30).filter(
        str.strip
    )
)
def test_what_was_noted_is_found_by_its_words(book, start, noted, text):
    id = book.start(start)
    book.journal(id).append(noted(text))
    for word in words_of(text):
        # SQLite's tokens are of Unicode 6.1: what is a letter since then is found by its neighbours only.
        if word.isascii():
            assert id in ids(book.cases(Wanted(text=word, limit=None)))
