from datetime import UTC, datetime

import pytest

from faultdoc.diagnosis.assess import assess, bench_for
from faultdoc.library.load import load_case, load_library, load_unit
from faultdoc.library.places import resources_folder
from faultdoc.model.case import Conclusion
from faultdoc.quantities import System
from faultdoc.record import moves
from faultdoc.record.kit import kit_lines
from faultdoc.record.pictures.gallery import worth_printing
from faultdoc.record.printing import full_report

NOON = datetime(2026, 3, 1, 12, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def open_case():
    library = load_library()
    case = load_case(resources_folder() / "cases" / "good_drop_no_proof.yaml", library)
    return assess(bench_for(library, load_unit(case.unit), case.symptoms), case)


def closed(assessment, outcome):
    return assess(assessment.bench, moves.conclude(assessment.case, Conclusion(outcome=outcome)))


def test_pictures_that_the_readings_allow_are_in_it(open_case):
    html = full_report(open_case, System.US, made_at=NOON)
    shown = worth_printing(open_case, System.US)
    assert shown
    for one in shown:
        assert f'alt="{one.title}"' in html


def test_whoever_takes_over_reads_what_to_bring_and_nobody_else_does(open_case):
    handed_over = closed(open_case, "handed_over")
    html = full_report(handed_over, System.US, made_at=NOON)
    assert "To bring" in html
    for line in kit_lines(handed_over, System.US):
        assert line.split("'")[0].split("&")[0] in html
    for outcome in ("fixed", "made_safe", "not_found"):
        assert "To bring" not in full_report(closed(open_case, outcome), System.US, made_at=NOON)


def test_customer_page_is_that_alone(open_case):
    html = full_report(open_case, System.US, made_at=NOON, customer=True)
    assert "In plain words" in html
    assert "Decibans" not in html
    assert "<img" not in html


def test_the_same_bytes_each_time(open_case):
    assert full_report(open_case, System.SI, made_at=NOON) == full_report(open_case, System.SI, made_at=NOON)
