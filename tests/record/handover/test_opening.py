import re
from datetime import timedelta

import pytest
from machines import STATE, Machine

from faultdoc.library.load import load_unit, units
from faultdoc.library.ownunits import keep_unit
from faultdoc.model.base import Measured
from faultdoc.model.case import Conclusion
from faultdoc.model.safety import PlantState
from faultdoc.quantities import Kind, parse
from faultdoc.record import moves
from faultdoc.record.casebook import Contact
from faultdoc.record.handover.file import code_texts, hand_over_text, understand
from faultdoc.record.handover.merge import UnsettledError
from faultdoc.record.handover.opening import OpeningError
from faultdoc.record.handover.packing import chosen_photos, is_own


def reading(text, kind=Kind.PRESSURE_DIFFERENCE):
    return Measured.from_quantity(parse(text, kind, need_unit=True))


def plant(**state):
    return PlantState.model_validate({**STATE, **state})


@pytest.fixture
def desk(tmp_path, monkeypatch):
    return Machine(tmp_path, "desk-1", monkeypatch).begin(title="Noon call")


@pytest.fixture
def tech(tmp_path, monkeypatch):
    return Machine(tmp_path, "tech-2", monkeypatch, minute=30)


def test_a_case_goes_to_the_tech_and_comes_back_with_all_that_was_done(desk, tech):
    desk.do(moves.read, "supply_valve_position", "open", what="Supply valve: open").do(moves.note, "Hums")
    desk.session().undo()
    taken = tech.take(desk.send())
    assert taken.moves == 3
    assert tech.book.load(tech.case_id) == desk.book.load(desk.case_id)
    assert tech.book.uid(tech.case_id) == desk.book.uid(desk.case_id)
    assert tech.session().redo() == "A move"
    tech.do(moves.read, "strainer_pressure_drop", reading("8.2 psi ± 0.5 psi"))
    assert desk.take(tech.send()).moves == 2
    assert desk.book.load(desk.case_id) == tech.book.load(tech.case_id)
    assert [entry.by for entry in desk.book.load(desk.case_id)[1]] == ["desk-1"] * 3 + ["tech-2"] * 2


def test_opened_twice_nothing_is_added(desk, tech):
    desk.do(moves.note, "Hums")
    sent = desk.send()
    tech.take(sent)
    assert tech.take(sent).moves == 0
    assert "just as it came" in tech.told(sent)["The copy that is here"]
    tech.do(moves.note, "Wet")
    assert "further on" in tech.told(sent)["The copy that is here"]


def test_a_head_for_people(desk, tech):
    desk.do(moves.set_state, plant(supply="isolated", panel="open"))
    desk.do(moves.repaired, "valve_shut")
    about = desk.send().about
    assert about.seen == (
        "The pump runs and flow is not proved: The pump turns, and the unit stops for want of water flow.",
    )
    assert about.proved == ("Open the valve in the supply: carried out, and NOT proved yet.",)
    assert "nobody takes off another's lock" in about.dangers[0].text
    assert about.dangers[0].signal == "danger"
    text = hand_over_text(desk.send())
    assert text.index("dangers:") < text.index("journal:") < text.index("prints:")


SOMEBODY = Contact(role="site", name="Jo Example", phone="555 010 0199")
SAID = "Jo Example, 555 010 0199, says it hums"


def test_nobody_is_named_unless_asked_for(desk, tech):
    desk.book.set_contacts(desk.case_id, [SOMEBODY])
    desk.do(moves.note, SAID, what=f"Note: {SAID}").do(moves.repaired, "valve_shut").do(moves.proved, False, SAID)
    text = hand_over_text(desk.send())
    assert "Example" not in text
    assert "0199" not in text
    assert "[name], [phone number], says it hums" in text
    tech.take(desk.send(named=True))
    assert tech.book.contacts(tech.case_id) == (SOMEBODY,)
    assert tech.case.notes == (SAID,)
    tech.take(desk.send(named=True))
    assert tech.book.contacts(tech.case_id) == (SOMEBODY,)


def test_names_left_out_on_the_way_are_not_lost_at_home(desk, tech):
    desk.book.set_contacts(desk.case_id, [SOMEBODY])
    tech.take(desk.do(moves.note, SAID).send())
    assert tech.case.notes == ("[name], [phone number], says it hums",)
    tech.do(moves.note, "Wet")
    assert "is added to it" in desk.told(tech.send())["The copy that is here"]
    desk.take(tech.send())
    assert desk.case.notes == (SAID, "Wet")
    desk.do(moves.note, "Dry")
    tech.do(moves.note, "Cold").take(desk.send())
    assert sorted(tech.case.notes) == ["Cold", "Dry", "Wet", "[name], [phone number], says it hums"]


def test_people_that_were_forgotten_do_not_come_back(desk, tech):
    desk.book.set_contacts(desk.case_id, [SOMEBODY])
    desk.do(moves.note, SAID)
    tech.take(desk.send(named=True))
    desk.book.erase(desk.case_id)
    tech.do(moves.note, "Wet")
    sent = tech.send()  # with nobody's name, and then with them in the notes
    desk.take(sent)
    assert desk.case.notes == ("[name], [phone number], says it hums", "Wet")
    tech.book.set_contacts(tech.case_id, [])
    tech.do(moves.note, "Cold")
    named = tech.send(named=True)
    assert "Example" in hand_over_text(named)
    desk.do(moves.note, "Dry").take(named)
    assert "Example" not in str(desk.book.load(desk.case_id))
    assert sorted(desk.case.notes)[0] == "Cold"


def test_photos_go_along_up_to_their_limit(desk, tech, monkeypatch):
    photo = b"\xff\xd8\xff\xe0" + bytes(range(256)) * 4
    desk.book.attach(desk.case_id, "plate.jpg", photo)
    desk.book.attach(desk.case_id, "pump.jpg", photo + b"more")
    kept = [(one, desk.book.content(one.id)) for one in desk.book.attachments(desk.case_id)]
    tech.take(desk.send(attachments=chosen_photos(kept).attachments))
    assert [(one.name, one.sha256) for one in tech.book.attachments(tech.case_id)] == [
        (one.name, one.sha256) for one, _ in kept
    ]
    monkeypatch.setattr("faultdoc.record.handover.packing.MOST_ATTACHED", 1500)
    assert chosen_photos(kept).left_out == ("pump.jpg",)


def test_an_own_data_sheet_goes_along(desk, tech, tmp_path, monkeypatch):
    desk.at_home()
    sheet = load_unit("bluff_30").model_copy(update={"id": "yard_30", "title": "The one in the yard"})
    keep_unit(sheet)
    desk.begin("yard_30")
    sent = desk.send()
    assert is_own(sent.start.unit)
    told = tech.told(sent)
    assert "kept here as 'yard_30'" in told["What came"]
    tech.take(sent)
    assert load_unit("yard_30") == sheet
    assert tech.case.unit == "yard_30"
    # Where another unit has that name, it stays what it is.
    third = Machine(tmp_path, "tech-3", monkeypatch)
    keep_unit(sheet.model_copy(update={"title": "Another"}))
    assert "Another unit here is called 'yard_30'" in third.told(sent)["What came"]
    third.take(sent)
    assert (third.case.unit, load_unit("yard_30").title) == ("yard_30_2", "Another")
    assert load_unit("yard_30_2").title == "The one in the yard"
    # Sent back and forth, it is known again.
    third.do(moves.note, "Seen")
    desk.take(third.send())
    assert (desk.case.unit, desk.case.notes) == ("yard_30", ("Seen",))
    third.begin("yard_30_2")
    desk.take(third.send())
    assert desk.case.unit == "yard_30"
    assert "yard_30_2" not in units()


def test_a_unit_named_by_its_path_goes_by_its_id(desk, tech):
    desk.at_home()
    path = desk.home / "mine.yaml"
    path.write_text(
        re.sub("^id: .*", "id: mine_30", _shipped_text("bluff_30"), flags=re.MULTILINE), encoding="utf-8"
    )
    desk.begin(str(path)).do(moves.note, "Hums")
    sent = desk.send()
    assert str(desk.home) not in hand_over_text(sent)
    tech.take(sent)
    assert tech.case.unit == "mine_30"
    desk.take(tech.do(moves.note, "Wet").send())
    assert (desk.case.unit, desk.case.notes) == (str(path), ("Hums", "Wet"))


def _shipped_text(unit):
    from faultdoc.library.places import resources_folder

    return (resources_folder() / "units" / f"{unit}.yaml").read_text(encoding="utf-8")


def test_a_code_needs_the_data_sheet_to_be_here(desk, tech):
    desk.at_home()
    keep_unit(load_unit("bluff_30").model_copy(update={"id": "yard_30"}))
    desk.begin("yard_30")
    short = understand("".join(code_texts(desk.send(), own_sheet=False)), "x").hand_over
    with pytest.raises(OpeningError, match="'yard_30' is not known here"):
        tech.take(short)
    whole = understand("".join(code_texts(desk.send(), own_sheet=True)), "x").hand_over
    tech.take(whole)
    assert tech.case.unit == "yard_30"


# --- other trees here than there ---

CHANGED = (
    ("    rate: 30\n", "    rate: 90\n"),
    ("  - id: strainer_dirty\n", "  - id: strainer_blocked\n"),
    ("strainer_dirty", "strainer_blocked"),
    ("Open it slowly.", "Open it very slowly."),
)


@pytest.fixture
def newer(tmp_path, monkeypatch):
    return Machine(tmp_path, "tech-9", monkeypatch, changes=CHANGED, minute=30)


def test_the_same_trees_have_nothing_to_tell(desk, tech):
    told = tech.told(desk.send())
    assert "What is not the same here as where it was sent from" not in told
    assert "(moved)" not in told["Likely causes, then and now"]


def test_what_changed_in_the_trees_is_told_part_by_part(desk, newer):
    told = newer.told(desk.send())
    lines = told["What is not the same here as where it was sent from"]
    assert "Cause: weighted otherwise here and needs or warns of something else here. The valve" in lines
    assert "Cause: new here. The strainer is dirty" in lines
    assert "Cause: not there here. The strainer is dirty" in lines
    moved = told["Likely causes, then and now"]
    assert re.search(r"The valve in the supply is shut: \d+ % then, \d+ % now  \(moved\)", moved)
    assert "not a cause here" in moved
    assert newer.look(desk.send()).hand_over.belief == desk.send().belief


def test_a_code_tells_that_the_tree_is_another_one(desk, newer):
    sent = desk.send()
    told = newer.told(sent, "\n".join(code_texts(sent, own_sheet=False)))
    assert "Fault tree: not the same here" in told["What is not the same here as where it was sent from"]


def test_answers_that_no_longer_fit_are_told_and_kept_and_replay(desk, tmp_path, monkeypatch):
    question = next(iter(desk.library.questions.values()))
    choice = next(q for q in desk.library.questions.values() if q.outcomes)
    gone = choice.outcomes[-1].id
    desk.do(moves.answer, choice.id, gone).do(moves.set_aside, question.id)
    desk.do(moves.read, "strainer_pressure_drop", reading("8.2 psi"))
    desk.do(moves.repaired, "strainer_dirty")
    text = [(f"  - id: {choice.id}\n", "  - id: another_question\n"), *CHANGED]
    newer = Machine(tmp_path, "tech-9", monkeypatch, changes=text, minute=30)
    sent = desk.send()
    lost = newer.told(sent)["Answers and readings that no longer fit"]
    assert choice.ask.tech in lost
    assert choice.outcomes[-1].title in lost
    assert "waits for its proof: The strainer is dirty" in lost
    assert newer.take(sent).moves == 5
    assert choice.id not in newer.case.answers
    assert newer.case.unproved is None
    assert newer.case.readings == desk.case.readings
    assert choice.outcomes[-1].title in newer.case.notes[-1]
    # Undone, the case is the one that came; whatever it says that is not known here says nothing.
    session = newer.session()
    assert session.undo() == "Fitted to the fault trees here"
    assert session.case == desk.case
    session.undo()
    assert session.assessment.next
    session.redo()
    session.redo()
    # Sent back to where everything fits, the note comes along, and nothing was lost there.
    newer.do(moves.note, "Seen")
    desk.take(newer.send())
    assert desk.book.load(desk.case_id)[1][0].case.answers == {choice.id: gone}
    assert choice.outcomes[-1].title in desk.case.notes[0]


def test_a_tree_that_is_not_here_is_refused_with_what_helps(desk, tmp_path, monkeypatch):
    older = Machine(tmp_path, "tech-0", monkeypatch, changes=[("id: valves\n", "id: other\n")])
    with pytest.raises(OpeningError, match="no fault tree for 'The pump runs and flow is not proved'"):
        older.take(desk.send())


# --- two copies worked on apart ---


def test_copies_worked_on_apart_are_put_together_and_both_stations_agree(desk, tech):
    tech.take(desk.do(moves.note, "Hums").send())
    desk.do(moves.note, "Caller says wet")
    tech.do(moves.read, "strainer_pressure_drop", reading("8.2 psi"))
    desk.take(tech.send())
    tech.take(desk.send())
    assert desk.case == tech.case
    assert desk.case.notes == ("Hums", "Caller says wet")
    assert "strainer_pressure_drop" in desk.case.readings
    assert "Nothing is added" in desk.told(tech.send())["The copy that is here"]


def test_conflicts_are_told_decided_and_kept(desk, tech):
    tech.take(desk.send())
    desk.do(moves.read, "supply_valve_position", "open")
    desk.do(moves.set_state, plant(pump="running"))
    tech.do(moves.read, "supply_valve_position", "shut")
    sent = tech.send()
    before = desk.book.load(desk.case_id)
    with pytest.raises(UnsettledError):
        desk.take(sent, state="mine")
    assert desk.book.load(desk.case_id) == before
    desk.take(sent, state="theirs", reading__supply_valve_position="theirs")
    assert desk.case.state.pump == "stopped"
    assert desk.case.readings == {"supply_valve_position": "shut"}
    pump, valve = desk.case.notes
    assert pump.startswith("Two copies of this case differed. The state of the plant: Chilled-water pump: Stopped")
    assert "Shut (tech-2, 2026-07-01 12:" in valve
    assert "Fully open (desk-1, 2026-07-01 12:" in valve
    tech.take(desk.send())
    assert tech.case == desk.case


def test_a_case_handed_over_is_open_again_where_it_is_taken(desk, tech):
    desk.do(moves.note, "Hums").do(moves.conclude, Conclusion(outcome="handed_over"))
    assert tech.take(desk.send()).moves == 3
    assert tech.case.conclusion is None
    assert [entry.what for entry in tech.book.load(tech.case_id)[1]][-1] == "Taken over"
    tech.do(moves.conclude, Conclusion(outcome="made_safe"))
    desk.take(tech.send())
    assert desk.case.conclusion == Conclusion(outcome="made_safe")


def test_a_plant_that_cannot_be_is_refused(desk, tech):
    text = hand_over_text(desk.send()).replace("supply: energised", "supply: isolated")
    with pytest.raises(OpeningError, match="The pump cannot run"):
        tech.look(None, text.replace("pump: stopped", "pump: running"))


def test_a_case_closed_at_the_desk_and_opened_again_by_the_tech_is_on_the_list_again(desk, tech):
    desk.do(moves.conclude, Conclusion(outcome="handed_over"))
    desk.book.close(desk.case_id)
    assert desk.book.unfinished() == ()
    tech.take(desk.send())
    tech.now += timedelta(days=400)  # the case book marks the closing with its own clock
    tech.do(moves.reopen)
    desk.take(tech.send())
    assert [one.id for one in desk.book.unfinished()] == [desk.case_id]


def test_another_case_under_the_same_number_is_refused(desk, tech):
    sent = desk.send()
    other = tech.begin("bluff_30", symptoms=["valves"])
    forged = sent.model_copy(update={"uid": other.book.uid(other.case_id)})
    start = forged.start.model_copy(update={"symptoms": ("other",)})
    with pytest.raises(OpeningError):
        tech.take(forged.model_copy(update={"start": start}))
