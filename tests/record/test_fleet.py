"""The fleet on small case books counted by hand, and on made-up ones by seed."""

import csv
import sys
from datetime import UTC, date, datetime, timedelta
from io import StringIO
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

sys.path.insert(0, str(Path(__file__).parent))
from cases import FIRST, Story

from faultdoc.model.safety import Qualification
from faultdoc.record import moves
from faultdoc.record.casebook import Summary
from faultdoc.record.fleet import BINS, Fix, History, at_first_go, chosen, fixes, fleet_of, spread_of
from faultdoc.record.fleettables import Table, bin_words, csv_text, fleet_tables, harmless

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


def history(story, id=1, closed=True):
    case = story.case
    last = story.entries[-1] if story.entries else None
    cause = next((one.cause for one in reversed(case.tried) if one.proved), None)
    summary = Summary(
        id=id,
        uid=f"{id:032x}",
        title=story.title,
        unit=story.unit,
        symptoms=story.symptoms,
        opened=FIRST if not story.entries else story.began,
        updated=last.at if last else FIRST,
        closed=closed,
        outcome=case.conclusion.outcome if case.conclusion else None,
        cause=cause,
        entries=len(story.entries),
        last=last.what if last else "",
        case=case,
    )
    return History(summary, story.start, tuple(story.entries))


def story(day=0.0, unit="site_one", **more):
    made = Story(unit, at=FIRST + timedelta(days=day), **more)
    made.began = made.at
    return made


def fixed(day, cause="strainer_clogged", unit="site_one", **more):
    return history(story(day, unit, **more).fix(cause).conclude())


def test_open_cases_with_age_last_move_and_who_waits():
    phone = story(100.0, title="On the phone")
    phone.do("Caller alone", moves.people(phone.case, (Qualification.CALLER,)), by="desk-0002")
    proof = story(50.0, title="Mended")
    proof.do("Basket cleaned", moves.repaired(proof.case, "strainer_clogged"))
    closed = fixed(0.0)
    fleet = fleet_of([history(phone, 1, closed=False), history(proof, 2, closed=False), closed], NOW)
    assert [(one.id, one.last, one.by, one.waits) for one in fleet.open] == [
        (2, "Basket cleaned", "desk-0001", "a proof to be taken"),
        (1, "Caller alone", "desk-0002", "a caller on the phone"),
    ]
    first = fleet.open[0]
    assert first.age == NOW - (FIRST + timedelta(days=50))
    assert first.age - first.idle == timedelta(minutes=5)


def test_what_comes_back_counts_old_fixes_only():
    # Proved on days 0, 30, 200 (same cause); day 0 came back within 90 days, day 30 did not.
    # Day 200 is 68 days ago (of 2026-11-25): too young. Another cause on day 10 never came back.
    cases = [fixed(0.0), fixed(30.0), fixed(200.0), fixed(10.0, "air_in_loop"), fixed(0.0, unit="site_two")]
    one, two = fleet_of(cases, NOW).units
    assert (one.unit, one.cases, one.fixes) == ("site_one", 4, 4)
    assert (one.back.count, one.back.of) == (1, 3)
    assert one.causes == (("strainer_clogged", 2),)
    assert (two.unit, two.back.count, two.back.of, two.causes) == ("site_two", 0, 1, ())
    assert one.back.interval == pytest.approx(
        tuple(stats.binomtest(1, 3).proportion_ci(method="wilson")), abs=1e-12
    )


def test_causes_by_month_stack_to_all_that_were_proved():
    cases = [fixed(0.0), fixed(1.0), fixed(70.0, "air_in_loop"), fixed(71.0)]
    months = fleet_of(cases, NOW).months
    assert months.months == ("2026-03", "2026-04", "2026-05")
    assert months.counts == {"strainer_clogged": (2, 0, 1), "air_in_loop": (0, 0, 1)}
    many = [fixed(float(n), cause) for n, cause in enumerate(f"cause_{letter}" for letter in "abcdefgh")]
    some = fleet_of([*many, fixed(1.0, "cause_a")], NOW).months.counts
    assert list(some) == [*(f"cause_{letter}" for letter in "abcde"), "other"]
    assert sum(map(sum, some.values())) == 9
    assert sum(some["other"]) == 3


def test_minutes_run_to_the_proof_that_held_with_and_without_pauses():
    # 25 min remedy, 8 min proof that fails, a night of 14 h, 25 + 8 min again; closing it does not count.
    one = story(0.0).fix("air_in_loop", held=False)
    one.do("Next morning", moves.note(one.case, "Next morning"), 14 * 60.0)
    one.fix("strainer_clogged").conclude()
    (made,) = fixes([history(one)])
    assert (made.clock, made.work) == (25 + 8 + 840 + 25 + 8, 66)
    never = story(0.0).fix("strainer_clogged", held=False).conclude("handed_over")
    assert fixes([history(never)]) == []


def test_median_quartiles_and_bins_by_hand():
    some = [Fix(("t",), float(minutes), 10.0) for minutes in (5, 14, 15, 40, 59, 60, 61, 200, 2000)]
    spread = spread_of("all", some)
    assert (spread.count, spread.median) == (9, 59.0)
    assert spread.bins == (2, 1, 2, 2, 1, 0, 0, 1)
    assert (spread.quarter, spread.three_quarters) == tuple(np.quantile([f.clock for f in some], [0.25, 0.75]))
    # Conover, Practical Nonparametric Statistics (from memory), and any binomial table: of 9 values the second
    # and the eighth hold the median with 96.1 %.
    assert (spread.low, spread.high) == (14.0, 200.0)
    assert spread_of("all", some[:5]).low is None, "five values give no interval of 95 %"
    assert (spread_of("all", some[:6]).low, spread_of("all", some[:6]).high) == (5.0, 60.0)
    assert len(bin_words()) == len(BINS)


@given(st.integers(1, 60))
def test_the_medians_interval_is_the_narrowest_of_at_least_95_percent(n):
    spread = spread_of("all", [Fix(("t",), float(value), 1.0) for value in range(n)])
    if spread.low is None:
        assert 2 * 0.5**n > 0.05
        return
    rank = int(spread.low)
    assert int(spread.high) == n - 1 - rank
    assert 2 * stats.binom.cdf(rank, n, 0.5) <= 0.05 < 2 * stats.binom.cdf(rank + 1, n, 0.5) or rank == n // 2 - 1


def test_fixed_at_the_first_go():
    at_once = story(0.0).fix("strainer_clogged").conclude()
    handed = story(0.0).conclude("handed_over")
    came_back = story(0.0).conclude("handed_over")
    came_back.do("Opened again", moves.reopen(came_back.case)).fix("strainer_clogged").conclude()
    undone = story(0.0).conclude("handed_over").undo().fix("strainer_clogged").conclude()
    passed_on = story(0.0).answer("valves_at_unit", "both_open")
    passed_on.by = "van-0007"
    passed_on.fix("strainer_clogged").conclude()
    all_of_them = [history(one) for one in (at_once, handed, came_back, undone, passed_on)]
    assert [at_first_go(one) for one in all_of_them] == [True, False, False, True, False]
    ((name, share), (symptom, same)) = fleet_of(all_of_them, NOW).first
    assert (name, share.count, share.of) == ("all", 2, 5)
    assert (symptom, same) == ("flow_proving_trip", share)


def test_filters():
    cases = [fixed(0.0), fixed(10.0, unit="site_two"), fixed(20.0, symptoms=("high_head",))]
    assert chosen(cases, unit="site_two") == [cases[1]]
    assert chosen(cases, symptom="high_head") == [cases[2]]
    day = (FIRST + timedelta(days=10)).astimezone().date()
    assert chosen(cases, since=day) == cases[1:]
    assert chosen(cases, until=day) == cases[:2]
    assert chosen(cases, since=date(2030, 1, 1)) == []


@pytest.mark.parametrize("seed", range(5))
def test_the_parts_agree_with_each_other_on_made_up_case_books(seed):
    rng = np.random.default_rng(seed)
    cases, proved, closed_cases = [], 0, 0
    for _ in range(40):
        one = story(float(rng.uniform(0, 260)), f"site_{rng.integers(4)}")
        for _ in range(int(rng.integers(0, 3))):
            one.answer("valves_at_unit", "both_open")
        closed, held = bool(rng.random() < 0.8), bool(rng.random() < 0.7)
        if closed:
            one.fix(("strainer_clogged", "air_in_loop")[int(rng.integers(2))], held)
            one.conclude("fixed" if held else "handed_over")
            closed_cases += 1
            proved += held
        cases.append(history(one, len(cases) + 1, closed))
    fleet = fleet_of(cases, NOW)
    assert len(fleet.open) == 40 - closed_cases
    assert sum(one.cases for one in fleet.units) == 40
    assert sum(one.fixes for one in fleet.units) == proved
    assert sum(map(sum, fleet.months.counts.values())) == proved
    assert (
        fleet.minutes[0].count == sum(fleet.minutes[0].bins) == proved == sum(o.count for o in fleet.minutes[1:])
    )
    assert (fleet.first[0][1].count, fleet.first[0][1].of) == (proved, closed_cases)


def test_an_empty_case_book_says_so_in_words():
    tables = fleet_tables(fleet_of([], NOW), {})
    assert [table.rows for table in tables] == [()] * 5
    assert all(table.empty for table in tables)


@given(st.text())
def test_no_cell_is_taken_for_a_formula_and_csv_comes_back(text):
    table = Table("t", "T", "", ("a", "b"), ((text, -3),), "")
    _, row = list(csv.reader(StringIO(csv_text(table), newline="")))
    assert row[0] in (text, f"'{text}")
    assert row[0].lstrip(" \n")[:1] not in tuple("=+-@\t\r")
    assert row[1] == "-3"


def test_formulas_are_made_harmless():
    assert [harmless(text) for text in ("=1", "+1", "-1", "@x", "\t=1", " =1", "a=1", -1, None)] == [
        "'=1", "'+1", "'-1", "'@x", "'\t=1", "' =1", "a=1", -1, None,
    ]  # fmt: skip
