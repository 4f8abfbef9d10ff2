"""What to send, on shipped cases: limits, people, marginal values, what is lost and why."""

import json
from dataclasses import replace
from datetime import UTC, datetime
from itertools import combinations, pairwise

import pytest

from faultdoc.diagnosis.assess import assess, bench_for
from faultdoc.library.load import load_case, load_library, load_unit, shipped_units
from faultdoc.library.places import resources_folder
from faultdoc.library.stock import load_stock
from faultdoc.model.case import Case, Conclusion
from faultdoc.model.safety import TRIPPED, Qualification, may
from faultdoc.model.stock import Comes, Match
from faultdoc.quantities import System
from faultdoc.record.kit import (
    KitError,
    best_kit,
    default_limits,
    kit_html,
    kit_json,
    kit_lines,
    kit_with,
    person_words,
    sending,
)
from faultdoc.record.matching import machine_of, match_words

CASES = sorted(path.stem for path in (resources_folder() / "cases").glob("*.yaml"))
EW, RH, TECH = Qualification.ELECTRICAL_WORKER, Qualification.REFRIGERANT_HANDLER, Qualification.TECHNICIAN


@pytest.fixture(scope="module")
def library():
    return load_library()


@pytest.fixture(scope="module")
def looked_at(library):
    """Return a function that assesses a shipped case, once."""
    known = {}

    def look(name):
        if name not in known:
            case = load_case(resources_folder() / "cases" / f"{name}.yaml", library)
            known[name] = assess(bench_for(library, load_unit(case.unit), case.symptoms), case)
        return known[name]

    return look


def fresh(library, symptom, unit="bluff_30", **fields):
    case = Case(unit=unit, symptoms=(symptom,), state=TRIPPED, who=(Qualification.CALLER,)).model_copy(
        update=fields
    )
    return assess(bench_for(library, load_unit(unit), case.symptoms), case)


def limits(**fields):
    return replace(default_limits(load_stock()), **fields)


@pytest.mark.parametrize("name", CASES)
def test_the_chance_and_what_is_lost_add_up_to_one(looked_at, name):
    kit = best_kit(sending(looked_at(name)))
    assert kit.chance + sum(one.probability for one in kit.lost) == pytest.approx(1.0, abs=1e-9)
    assert kit.over == ()
    assert 0.5 < kit.chance < 1.0


def test_the_kit_of_a_fresh_case_for_every_tree(library):
    for symptom, tree in library.trees.items():
        unit = next(id for id in shipped_units() if all(one in load_unit(id).features for one in tree.applies_to))
        kit = best_kit(sending(fresh(library, symptom, unit)))
        assert 0.05 < kit.chance < 1.0, symptom
        assert kit.over == (), symptom
        assert kit.chance + sum(one.probability for one in kit.lost) == pytest.approx(1.0, abs=1e-9)


def test_no_swap_of_a_single_thing_does_better(looked_at):
    """A check that cannot share the solver's mistakes: everything near the optimum is tried."""
    case = sending(looked_at("demo"))
    kit = best_kit(case)
    free = [id for id in case.articles if id not in case.not_free]
    near = [kit.taken | {one} for one in free]
    near += [kit.taken - {out} | {one} for out in kit.taken for one in free if out in case.articles]
    near += [kit.taken - {out} | {one} for out, one in combinations(case.people, 2)]
    allowed = [load for load in near if not case.packing.cost(load).over(case.limits.room)]
    assert len(allowed) > 50
    assert max(map(float, case.packing.chances(allowed))) <= kit.chance + case.stock.tie + 1e-9


def test_what_is_said_to_be_worth_something_is(looked_at):
    kit = best_kit(sending(looked_at("fitters_on_the_pipework")))
    for id, without in kit.without.items():
        assert without == pytest.approx(kit_with(kit.sending, kit.taken - {id}).chance)
        assert without <= kit.chance
    for one in kit.additions:
        assert one.chance == pytest.approx(kit_with(kit.sending, kit.taken | set(one.ids)).chance)
        assert one.chance > kit.chance


def test_an_addition_tells_what_stands_against_it(looked_at):
    case = sending(looked_at("demo"), None, limits(items=3))
    kit = best_kit(case)
    assert kit.cost.items == 3
    assert kit.additions
    for one in kit.additions:
        assert one.over or one.first
        assert set(one.first) <= case.not_free


def test_limits_are_kept_and_more_is_never_worse(looked_at):
    chances = []
    for items in (0, 2, 5, 9, 14):
        kit = best_kit(sending(looked_at("demo"), None, limits(items=items)))
        assert kit.cost.items <= items
        chances.append(kit.chance)
    tie = load_stock().tie
    assert all(more >= less - tie for less, more in pairwise(chances))
    assert chances[-1] > chances[0] + 0.1
    light = best_kit(sending(looked_at("demo"), None, limits(mass=20.0)))
    assert light.cost.mass <= 20.0


def test_only_those_qualified_are_counted_on(library):
    for group in ((TECH,), (EW,), (RH,), (TECH, EW)):
        asked = limits(who=tuple(frozenset({one}) for one in group), people=len(group))
        kit = best_kit(sending(fresh(library, "supply_phase_order"), None, asked))
        held = frozenset(group) | {Qualification.CALLER}
        catalogue = library.causes
        for wish, served in zip(
            kit.sending.packing.wishes,
            kit.sending.packing.served(kit.sending.packing.mask(kit.taken)[None, :])[:, 0],
            strict=True,
        ):
            if served:
                assert all(may(held, catalogue[id].remedy.who) for id in wish.jobs)


def test_live_work_is_never_counted_on_for_one_alone(looked_at):
    alone = sending(looked_at("good_drop_no_proof"), None, limits(people=1, who=(frozenset({EW, RH}),)))
    causes = alone.assessment.bench.problem.causes
    live = [
        id
        for id in (job.id for job in alone.packing.jobs)
        for proof in (causes[id].remedy.proof.state,)
        if proof.supply == "energised" and proof.panel == "open"
    ]
    assert live
    assert all("never done alone" in alone.blocked[id] for id in live)
    two = sending(
        looked_at("good_drop_no_proof"), None, limits(people=2, who=(frozenset({EW}), frozenset({TECH})))
    )
    assert not set(live) & set(two.blocked)
    kit = best_kit(two)
    assert len(kit.people) == 2


def test_who_cannot_do_it_is_told(library):
    kit = best_kit(sending(fresh(library, "refrigerant_leak"), None, limits(who=(frozenset({TECH}),))))
    why = [one.why for one in kit.lost]
    assert any("nobody who may be sent is qualified: licensed refrigerant handler" in words for words in why)


def test_what_must_be_ordered_goes_only_when_it_has_come(library):
    before = best_kit(sending(fresh(library, "compressor_protection")))
    assert "compressor.compressor" in before.sending.not_free
    assert not before.taken & before.sending.not_free
    assert any(one.why == "must be ordered first" and "Compressor" in " ".join(one.what) for one in before.lost)
    room = limits(mass=400.0, volume=2.0, items=30, have=frozenset({"compressor"}))
    after = best_kit(sending(fresh(library, "compressor_protection"), None, room))
    assert "compressor.compressor" in after.taken
    assert after.chance > before.chance


def test_a_crane_is_hired(library):
    kit = best_kit(sending(fresh(library, "noise_and_vibration"), None, limits(items=40, mass=999.0, volume=9.0)))
    assert any(one.why == "must be hired in first" for one in kit.lost)


def test_what_is_on_every_van_costs_nothing(looked_at):
    case = sending(looked_at("demo"))
    assert "hand_tools" in case.standing
    assert not set(case.standing) & set(case.articles)
    assert all(case.stock.kinds[id].comes in (Comes.VAN, Comes.SITE) for id in case.standing)


def test_a_part_of_a_motor_is_matched_to_that_motor(looked_at):
    kit = best_kit(sending(looked_at("hums_and_gives_up")))
    contactor = next(one for one in kit.articles if one.kind.id == "contactor")
    assert contactor.id == "contactor.pump"
    words = match_words(contactor.kind, contactor.machine, kit.sending.assessment.bench.sheet, System.SI)
    assert words == (
        "pump motor 7.5 kW, 14.3 A", "control voltage 230.0 V", "type, size and setting marked on the old one",
    )  # fmt: skip


def test_nameplate_data_stand_where_the_sheet_has_them():
    sheet = load_unit("bluff_30")
    stock = load_stock()
    for kind in stock.kinds.values():
        for words in match_words(kind, "unit", sheet, System.US):
            assert words.strip()
    refrigerant = match_words(stock.kinds["refrigerant"], "unit", sheet, System.US)
    assert refrigerant == ("refrigerant R-410A, 21.0 lb a circuit",)
    guessed = sheet.model_copy(update={"assumed": ("electrical.control_voltage",)})
    assert "assumed: read it at the unit" in " ".join(
        match_words(stock.kinds["control_relay"], "unit", guessed, System.US)
    )


def test_every_motor_part_knows_its_motor_or_fits_several(library):
    stock = load_stock()
    unsure = {
        cause.id
        for cause in library.causes.values()
        for text in cause.remedy.parts
        for need in stock.needs("parts", text) or ()
        if any(Match.MOTOR in stock.kinds[id].match for id in need) and machine_of(cause) == "unit"
    }
    # Each of these is for the whole unit: a contactor in a panel that was shorted, a set of fuses, a soft starter.
    assert unsure <= {"panel_shorted", "fuses_wrong_kind", "soft_starter_failed", "crankcase_heater_unpowered"}


def test_a_charge_weighs_what_the_unit_holds(library):
    case = sending(fresh(library, "refrigerant_leak"))
    sheet = case.assessment.bench.sheet
    assert case.articles["refrigerant"].mass == pytest.approx(10.0 + sheet.refrigerant_side.charge)


def test_a_remedy_that_did_not_hold_is_not_sent_for_again(library):
    from faultdoc.model.case import Tried

    found = fresh(library, "flow_proving_trip", tried=(Tried(cause="strainer_clogged", proved=False),))
    assert "carried out already" in sending(found).blocked["strainer_clogged"]


def test_a_closed_case_has_nothing_to_send(library):
    found = fresh(library, "flow_proving_trip", conclusion=Conclusion(outcome="fixed", cause="strainer_clogged"))
    with pytest.raises(KitError, match="nothing to send"):
        sending(found)


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        ({"who": ()}, "nobody may be sent"),
        ({"who": (frozenset(),)}, "nobody may be sent"),
        ({"who": (frozenset({TECH}),) * 9}, "more than eight"),
        ({"have": frozenset({"compresor"})}, "did you mean 'compressor'"),
        ({"have": frozenset({"hand_tools"})}, "need not be ordered"),
    ],
)
def test_wrong_limits_are_refused(looked_at, wrong, words):
    with pytest.raises(KitError, match=words):
        sending(looked_at("demo"), None, limits(**wrong))


def test_a_kit_of_unknown_things_is_refused(looked_at):
    with pytest.raises(KeyError, match="ladder"):
        kit_with(sending(looked_at("demo")), {"ladder"})


def test_a_thing_that_the_stock_lacks_goes_with_a_guessed_weight(library):
    stock = load_stock()
    poorer = replace(stock, names={key: needs for key, needs in stock.names.items() if key[1] != "Flow switch"})
    case = sending(fresh(library, "flow_proving_trip"), poorer)
    article = case.articles["unlisted.Flow switch"]
    assert "weight guessed" in article.title
    assert article.mass == stock.kinds["unlisted"].mass
    assert "switch_failed" in case.wanted[article.id]


def test_lines_for_the_report(looked_at):
    lines = kit_lines(looked_at("hums_and_gives_up"), System.SI)
    assert lines[0].startswith("Chance of a fix on the first visit: ")
    assert any(line.startswith("Take: Contactor for the pump; match pump motor 7.5 kW, 14.3 A") for line in lines)
    assert "estimates" in lines[-1]


def test_the_printed_page_escapes_everything(looked_at):
    assessment = looked_at("demo")
    named = replace(assessment, case=assessment.case.model_copy(update={"title": "<script>alert(1)</script>"}))
    page = kit_html(best_kit(sending(named)), System.SI, datetime(2026, 1, 2, tzinfo=UTC))
    assert "<script" not in page
    assert "&lt;script&gt;" in page
    assert "2026-01-02 00:00 UTC" in page


def test_json_is_plain_and_whole(looked_at):
    kit = best_kit(sending(looked_at("demo")))
    found = json.loads(json.dumps(kit_json(kit, System.SI), allow_nan=False))
    assert set(found) >= {"chance", "limits", "load", "people", "take", "on_van", "next", "lost", "remarks"}
    assert found["chance"] == pytest.approx(kit.chance)
    assert {one["id"] for one in found["take"]} | {one["id"] for one in found["people"]} == kit.taken
    assert found["load"]["items"] == len(found["take"])
    assert sum(one["kg"] for one in found["take"]) == pytest.approx(found["load"]["kg"], abs=0.01)


def test_people_in_words():
    assert person_words({EW, RH}) == "Qualified electrical worker and licensed refrigerant handler"
