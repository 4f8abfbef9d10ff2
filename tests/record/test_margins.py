"""The safeties in words: their numbers are those of the checks, and past a setting nothing is played down."""

import pytest

from faultdoc.library.load import load_unit
from faultdoc.library.vocabulary import load_points
from faultdoc.model.base import Measured
from faultdoc.quantities import System, parse
from faultdoc.record.margins import drift_words, margin_words, setting_words, trip_words, watches

POINTS = load_points()


def read(**texts):
    return {id: Measured.from_quantity(parse(text, POINTS[id].kind)) for id, text in texts.items()}


def test_only_what_was_read_is_watched_smallest_margin_first() -> None:
    sheet = load_unit("bluff_30")
    assert watches(sheet, {"sight_glass_a": "clear"}, POINTS) == ()
    found = watches(sheet, read(voltage_l1_l2="455 V", barrel_pressure_drop="2.4 psi ± 0.1 psi"), POINTS)
    assert [one.title for one in found] == ["Flow proving switch", "Voltage monitor, low", "Voltage monitor, high"]
    assert all(one.first for one in found)


def test_settings_and_trips_are_shown_in_either_system() -> None:
    (one,) = watches(load_unit("bluff_30"), read(discharge_pressure_a="480 psig"), POINTS)
    # 620 psig and 10 psi; 1 psi is 6.894757 kPa (NIST SP 811, B.8).
    assert setting_words(one.margin, System.US).startswith("acts above 620.0 psig, give or take 10.0 psi")
    assert setting_words(one.margin, System.SI).startswith("acts above 4275 kPa gauge, give or take 68.9 kPa")
    assert trip_words(one.margin, System.US) == "between 610.0 psig and 630.0 psig, rising"


@pytest.mark.parametrize(
    ("drop", "told"),
    [("4 psi", "1.8 ± 0.3 psi left"), ("2.35 psi", "may act at any moment"), ("1.5 psi", "it should have acted")],
)
def test_the_margin_in_words(drop, told) -> None:
    # Acts below 2.2 ± 0.2 psi; with ± 0.1 psi of reading: u = 0.13 psi (JCGM 100:2008, 4.3.7).
    (one,) = watches(load_unit("bluff_30"), read(barrel_pressure_drop=f"{drop} ± 0.1 psi"), POINTS)
    words = margin_words(one.margin, System.US)
    assert told in words
    assert ("do not bypass it" in words) == one.margin.should_have_acted


def test_drift_in_words() -> None:
    sheet = load_unit("bluff_30")
    before, now = read(barrel_pressure_drop="5.2 psi ± 0.1 psi"), read(barrel_pressure_drop="4 psi ± 0.1 psi")
    day = 86400.0
    (one,) = watches(sheet, now, POINTS, before, 30 * day)
    # 1.8 psi left, 1.2 psi gone in 30 days: 45 days.
    assert drift_words(one.drift, one.margin, System.US).endswith("used up in about 45 days")
    (one,) = watches(sheet, now, POINTS, before, 30 * 3600.0)
    assert drift_words(one.drift, one.margin, System.US).endswith("used up in about 45 hours")
    (one,) = watches(sheet, before, POINTS, now, day)
    assert "grown by 1.2 ± 0.2 psi" in drift_words(one.drift, one.margin, System.US)
    (one,) = watches(sheet, now, POINTS, now)
    assert drift_words(one.drift, one.margin, System.US).startswith("no change beyond the meters' own")
    (one,) = watches(sheet, now, POINTS, {})
    assert one.drift is None
