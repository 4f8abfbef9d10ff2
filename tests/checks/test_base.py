"""The frame: propagation of uncertainty against sums done by hand, stand-ins, refusals."""

from math import hypot, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from faultdoc.checks import base
from faultdoc.checks.base import Check, CheckResult, Comparison, Missing, Need, Sense, Verdict, evaluate
from faultdoc.model.base import Measured
from faultdoc.quantities import Kind, System

LENGTH = Kind.LENGTH


def measured(value, u=None, kind=LENGTH):
    return Measured(kind=kind, value=value, standard_uncertainty=u, text=str(value))


def check(compute, needs, **more):
    options = {"scale": 1.0, "floor": None, "sense": Sense.BOTH} | more
    return Check("a_check", "A check", LENGTH, needs, compute, formula="f", source="s", **options)


def difference(values, sheet):
    return Comparison(values["a"], values["b"])


TWO = (Need("a", LENGTH, "a"), Need("b", LENGTH, "b"))


def no_limit(point, value):
    raise AssertionError(f"no usual limit was wanted for {point}")


@given(st.floats(-5, 5), st.floats(-5, 5), st.floats(1e-3, 2), st.floats(1e-3, 2))
@settings(deadline=None)
def test_a_difference_has_the_root_sum_of_squares(a, b, ua, ub):
    result = evaluate(check(difference, TWO), None, {"a": measured(a, ua), "b": measured(b, ub)}, no_limit)
    assert result.uncertainty == pytest.approx(hypot(ua, ub))
    assert result.expected_uncertainty == pytest.approx(ua)
    assert result.effects == pytest.approx({"a": -ua, "b": ub})
    assert result.residual == pytest.approx(b - a)
    assert result.residual_uncertainty == pytest.approx(hypot(ua, ub))


def test_a_product_has_relative_uncertainties_in_quadrature():
    # JCGM 100:2008, 5.1.6: for a product the relative variances add (to first order).
    def compute(values, sheet):
        return Comparison(0.0, values["a"] * values["b"])

    result = evaluate(check(compute, TWO), None, {"a": measured(10.0, 0.1), "b": measured(20.0, 0.4)}, no_limit)
    assert result.uncertainty / 200.0 == pytest.approx(hypot(0.01, 0.02))


def test_an_input_on_both_sides_is_counted_once():
    def compute(values, sheet):
        return Comparison(values["a"], values["a"] + values["b"])

    result = evaluate(check(compute, TWO), None, {"a": measured(1.0, 5.0), "b": measured(0.5, 0.1)}, no_limit)
    assert result.uncertainty == pytest.approx(0.1)
    assert result.effects["a"] == pytest.approx(0.0, abs=1e-12)
    assert result.verdict is Verdict.HIGH


def test_a_reading_without_limit_has_the_usual_one_as_a_rectangle():
    asked = []

    def usual(point, value):
        asked.append((point, value))
        return 0.3

    result = evaluate(check(difference, TWO), None, {"a": measured(1.0), "b": measured(2.0, 0.0)}, usual)
    assert asked == [("a", 1.0)]
    assert result.uncertainty == pytest.approx(0.3 / sqrt(3.0))


def test_two_points_stand_in_for_their_difference():
    needs = (Need("drop", Kind.PRESSURE_DIFFERENCE, "drop", instead=("high", "low")),)

    def compute(values, sheet):
        return Comparison(1000.0, values["drop"])

    one = check(compute, needs, scale="expected")
    pair = {
        "high": measured(5000.0, 30.0, Kind.GAUGE_PRESSURE),
        "low": measured(3000.0, 40.0, Kind.GAUGE_PRESSURE),
    }
    result = evaluate(one, None, pair, no_limit)
    assert result.measured == 2000.0
    assert result.uncertainty == pytest.approx(50.0)
    assert result.points == {"high", "low"}
    both = pair | {"drop": measured(1500.0, 10.0, Kind.PRESSURE_DIFFERENCE)}
    assert evaluate(one, None, both, no_limit).measured == 1500.0
    missing = evaluate(one, None, {"high": pair["high"]}, no_limit)
    assert missing == Missing("a_check", "A check", ("drop or high and low",))


def test_a_reading_of_another_kind_is_refused_in_words():
    readings = {"a": measured(1.0, 0.1, Kind.TEMPERATURE), "b": measured(1.0, 0.1)}
    result = evaluate(check(difference, TWO), None, readings, no_limit)
    assert isinstance(result, Missing)
    assert result.reason == "a is a temperature, and a length is wanted"


def test_what_the_data_sheet_lacks_is_a_reason_and_no_reading():
    needs = (*TWO, Need("sheet.curve", LENGTH, "pump's curve", default=lambda sheet: None))
    result = evaluate(check(difference, needs), None, {"a": measured(1.0, 0.1)}, no_limit)
    assert result == Missing("a_check", "A check", ("b",), reason="the data sheet does not give the pump's curve")


def test_at_the_edge_of_the_range_one_side_serves():
    def compute(values, sheet):
        if values["a"] < 0.0:
            raise ValueError("a below zero")
        return Comparison(0.0, 2.0 * values["a"])

    result = evaluate(check(compute, TWO[:1]), None, {"a": measured(0.0, 0.5)}, no_limit)
    assert result.uncertainty == pytest.approx(1.0)
    refused = evaluate(check(compute, TWO[:1]), None, {"a": measured(-0.1, 0.5)}, no_limit)
    assert refused == Missing("a_check", "A check", (), reason="a below zero")


def test_a_range_narrower_than_the_uncertainty_still_counts_it():
    def compute(values, sheet):
        if abs(values["a"]) > 0.1:
            raise ValueError("out of range")
        return Comparison(0.0, 3.0 * values["a"])

    result = evaluate(check(compute, TWO[:1]), None, {"a": measured(0.0, 0.9)}, no_limit)
    assert result.uncertainty == pytest.approx(2.7)

    def needle(values, sheet):
        if values["a"] != 0.0:
            raise ValueError("out of range")
        return Comparison(0.0, 0.0)

    refused = evaluate(check(needle, TWO[:1]), None, {"a": measured(0.0, 0.9)}, no_limit)
    assert isinstance(refused, Missing)
    assert "wider than the range" in refused.reason


def test_no_result_without_a_number():
    def compute(values, sheet):
        return Comparison(1.0, float("nan"))

    refused = evaluate(check(compute, TWO[:1]), None, {"a": measured(0.0, 0.1)}, no_limit)
    assert isinstance(refused, Missing)
    zero = evaluate(
        check(lambda values, sheet: Comparison(0.0, 1.0), TWO[:1], scale="expected"),
        None, {"a": measured(0.0, 0.1)}, no_limit,
    )  # fmt: skip
    assert "zero" in zero.reason


@pytest.mark.parametrize(
    ("sense", "off", "verdict"),
    [
        (Sense.BOTH, 0.21, Verdict.HIGH),
        (Sense.BOTH, -0.21, Verdict.LOW),
        (Sense.BOTH, 0.19, Verdict.AS_EXPECTED),
        (Sense.AT_LEAST, 0.5, Verdict.AS_EXPECTED),
        (Sense.AT_LEAST, -0.21, Verdict.LOW),
        (Sense.AT_MOST, -0.5, Verdict.AS_EXPECTED),
        (Sense.AT_MOST, 0.21, Verdict.HIGH),
    ],
)
def test_verdict_at_two_standard_uncertainties_on_the_wrong_side(sense, off, verdict):
    readings = {"a": measured(1.0, 0.0), "b": measured(1.0 + off, 0.1)}
    result = evaluate(check(difference, TWO, sense=sense), None, readings, no_limit)
    assert result.verdict is verdict
    assert result.deviation == pytest.approx(off / 0.1)


def test_sentence():
    readings = {"a": measured(1.0, 0.05), "b": measured(1.5, 0.0)}
    result = evaluate(check(difference, TWO), None, readings, no_limit)
    assert isinstance(result, CheckResult)
    assert result.sentence(System.SI) == (
        "A check: 1.50 m, expected 1.00 ± 0.10 m; off by 0.50 m, 10.0 standard uncertainties: high."
    )


def test_an_id_is_registered_once():
    base.registered(id="for_this_test", title="t", kind=LENGTH, needs=TWO, formula="f", source="s")(difference)
    try:
        with pytest.raises(ValueError, match="registered twice"):
            base.registered(id="for_this_test", title="t", kind=LENGTH, needs=TWO, formula="f", source="s")(
                difference
            )
    finally:
        del base.registry["for_this_test"]


def test_a_division_by_zero_is_refused_like_any_other_result_that_is_no_number():
    def compute(values, sheet):
        return Comparison(1.0 / values["a"], values["b"])

    result = evaluate(check(compute, TWO), None, {"a": measured(0.0, 0.1), "b": measured(1.0, 0.1)}, no_limit)
    assert isinstance(result, Missing)
    assert result.reason == "these readings lead to no finite result"
