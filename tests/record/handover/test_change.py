from hypothesis import given
from hypothesis import strategies as st
from journals import starts, steps

from faultdoc.model.safety import TRIPPED
from faultdoc.record import moves
from faultdoc.record.handover.change import applied, difference, same


@given(st.data())
def test_what_changed_leads_from_one_case_to_the_other(data):
    before = after = data.draw(starts())
    for _ in range(data.draw(st.integers(0, 4))):
        after = data.draw(steps(after))
    assert same(applied(before, difference(before, after)), after)
    assert same(applied(after, difference(after, before)), before)


@given(starts())
def test_no_change_is_nothing(case):
    assert difference(case, case).model_fields_set == set()


@given(starts())
def test_a_change_names_only_what_moved(case):
    quiet = case.model_copy(update={"state": TRIPPED, "notes": ()})
    noted = moves.note(quiet, "hums")
    assert difference(quiet, noted).model_fields_set == {"more"}
    running = moves.set_state(quiet, TRIPPED.model_copy(update={"pump": "running"}))
    change = difference(quiet, running)
    assert change.model_fields_set == {"state"}
    assert change.state.model_dump(exclude_none=True) == {"pump": "running"}


def test_every_field_of_a_case_is_cared_for():
    """A field added to the case later must not be lost on the way, nor when copies are put together."""
    from faultdoc.model.case import Case
    from faultdoc.record.handover.change import NAMED, ROWS, SINGLE
    from faultdoc.record.handover.merge import _SINGLE

    fixed = {"unit", "symptoms"}
    assert fixed | {*SINGLE, *NAMED, *ROWS, "state"} == set(Case.model_fields)
    assert fixed | {*_SINGLE, *NAMED, *ROWS, "place"} == set(Case.model_fields)
