import re
from types import SimpleNamespace

import pytest

from faultdoc.library.load import load_library, load_unit
from faultdoc.model.case import Case, Conclusion, Tried
from faultdoc.model.safety import PlantState, Qualification
from faultdoc.record.customer import customer_words

TRADE = re.compile(
    r"strainer|barrel|evaporator|condenser|contactor|overload|\blugs?\b|winding|relays?\b|solenoid|superheat|subcool|"
    r"glycol|\bloop|set point|suction|discharge|refrigerant|transducer|interlock|\bcoil|impeller|lock-?out|rotor|"
    r"nameplate|torque|phases?\b|approach|enthalpy|psi|kPa|decibans",
    re.IGNORECASE,
)
"""Words of the trade, chosen from the trees' own titles: nobody outside it must know them."""


@pytest.fixture(scope="module")
def library():
    return load_library()


@pytest.fixture(scope="module")
def sheet():
    return load_unit("bluff_30").model_copy(update={"title": "Unit seven"})


def state(**changes):
    usual = {"supply": "energised", "panel": "closed", "pump": "running", "water": "pressurised"}
    usual |= {"compressors": "running", "oil": "warm"}
    return PlantState.model_validate({**usual, **changes})


@pytest.fixture
def words(library, sheet):
    """(cause, case's own fields) -> the paragraph, for a case in which nothing but these matters."""

    def said(cause, **fields):
        tree = next(tree for tree in library.trees.values() if any(one.id == cause for one in tree.causes))
        usual = {"unit": "bluff_30", "symptoms": (tree.id,), "state": state(), "who": (Qualification.TECHNICIAN,)}
        problem = SimpleNamespace(causes=library.causes, trees=[tree])
        # With one cause, all but sure: what the belief would hold.
        belief = SimpleNamespace(sets=SimpleNamespace(causes=(cause,)), marginal=(fields.pop("likely", 0.9),))
        bench = SimpleNamespace(sheet=sheet, problem=problem, library=library)
        return customer_words(SimpleNamespace(case=Case(**{**usual, **fields}), bench=bench, belief=belief))

    return said


def test_every_cause_and_tree_has_words_without_the_trades(library):
    told = 0
    for tree in library.trees.values():
        sentences = [tree.customer]
        for cause in tree.causes:
            assert cause.customer is not None, cause.id
            sentences += [cause.customer.wrong, cause.customer.done, cause.customer.watch]
        for sentence in filter(None, sentences):
            assert TRADE.search(sentence) is None, sentence
            assert re.fullmatch(r"[A-Z].*\.", sentence), sentence
            assert len(sentence.split()) <= 30, sentence
            told += 1
        assert tree.customer
    assert told > 2 * len(library.causes)


def test_a_proved_fix_says_what_was_wrong_what_was_done_how_we_know_and_what_to_watch_for(words, library):
    said = words("strainer_clogged", tried=(Tried(cause="strainer_clogged", proved=True),))
    mine = library.causes["strainer_clogged"].customer
    order = [
        "What was seen: The unit stopped because it saw no water flowing.",
        f"What we found: {mine.wrong}",
        f"What was done: {mine.done}",
        "How we know that it is right: after the work we checked the water's pressure again",
        "the unit was running",
        mine.watch,
        "Please watch for water on the ground",
        "open nothing.",
    ]
    places = [said.index(part) for part in order]
    assert places == sorted(places)
    assert "\n" not in said


def test_no_word_of_the_trade_whatever_was_mended(words, library):
    for cause in library.causes:
        for fields in ({"tried": (Tried(cause=cause, proved=True),)}, {"unproved": cause}, {}):
            said = words(cause, **fields)
            assert TRADE.search(said) is None, said


def test_what_did_not_help_is_told_and_nothing_is_claimed(words, library):
    said = words("strainer_clogged", tried=(Tried(cause="strainer_clogged", proved=False),))
    assert f"it was not the reason: {library.causes['strainer_clogged'].customer.done}" in said
    assert "How we know" not in said
    assert "The reason is not proved yet" in said


@pytest.mark.parametrize(("likely", "told"), [(0.9, "most likely"), (0.3, "one possibility among others")])
def test_a_guess_is_called_one(words, likely, told):
    assert f"not proved yet; {told}: The sieve" in words("strainer_clogged", likely=likely)


def test_a_proof_still_to_come_is_not_called_a_fix(words):
    said = words("strainer_clogged", unproved="strainer_clogged")
    assert "Whether that was the reason must still be tested." in said
    assert "How we know" not in said


@pytest.mark.parametrize(
    ("outcome", "told"),
    [
        ("handed_over", "Somebody else will go on"),
        ("made_safe", "made safe, and the work goes on later"),
        ("not_found", "The reason was not found."),
    ],
)
def test_how_it_ended(words, outcome, told):
    assert told in words("strainer_clogged", conclusion=Conclusion(outcome=outcome))


def test_closed_as_fixed_without_a_proof_says_so(words):
    bare = Conclusion(outcome="fixed", cause="strainer_clogged")
    said = words("strainer_clogged", conclusion=bare)
    assert "What we found: The sieve" in said
    assert "a reading that proves it was not written down" in said
    noted = words("strainer_clogged", conclusion=bare.model_copy(update={"proof": "It runs."}))
    assert "in the technician's words: It runs." in noted


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({}, "the unit was running"),
        ({"compressors": "stopped"}, "please do not start it"),
        (
            {"compressors": "stopped", "pump": "stopped", "supply": "isolated", "oil": "cold"},
            "leave the lock where",
        ),
    ],
)
def test_how_the_unit_was_left(words, changes, told):
    assert told in words("strainer_clogged", state=state(**changes))
