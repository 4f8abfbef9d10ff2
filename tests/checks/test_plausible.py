"""Doubts: the wrong reading is doubted in words, and what a fault of the plant can do is not."""

import pytest

from faultdoc.checks.plausible import doubts
from faultdoc.library.load import load_unit
from faultdoc.model.unit import Glycol
from faultdoc.quantities import System

HEALTHY = {
    "water_flow": "72 gpm", "barrel_in_pressure": "42 psi", "barrel_out_pressure": "35 psi",
    "barrel_pressure_drop": "7 psi", "strainer_pressure_drop": "1.3 psi", "pump_in_pressure": "12 psi",
    "pump_out_pressure": "49 psi", "standing_pressure": "25 psi", "water_in_temperature": "54 °F",
    "water_out_temperature": "44 °F", "glycol_fraction": "25 %", "site_elevation": "500 ft",
    "pump_current_l1": "5.2 A", "pump_current_l2": "5.1 A", "pump_current_l3": "5.3 A",
    "voltage_l1_l2": "462 V", "voltage_l2_l3": "460 V", "voltage_l3_l1": "458 V", "control_voltage": "114 V",
    "voltage_l1_ground": "266 V", "frequency": "60 Hz",
    "suction_pressure_a": "120 psi", "discharge_pressure_b": "400 psi",
    "compressor_current_4_l1": "15 A", "hours_energised_since_power_up": "30 h",
}  # fmt: skip


def texts(sheet, read, points, **readings):
    return {doubt.point: doubt.text for doubt in doubts(sheet, read(**readings), points)}


def test_a_healthy_unit_raises_no_doubt(sheet, read, points):
    assert doubts(sheet, read(**HEALTHY), points) == []


@pytest.mark.parametrize(
    "fault",
    [
        {"pump_out_pressure": "62 psi", "water_flow": "3 gpm", "barrel_pressure_drop": "0 psi",
         "barrel_in_pressure": "36 psi", "barrel_out_pressure": "36 psi"},  # a valve is shut
        {"voltage_l2_l3": "230 V", "voltage_l3_l1": "235 V"},  # a phase is lost, with backfeed
        {"pump_current_l2": "0 A", "pump_current_l1": "9 A", "pump_current_l3": "9 A"},  # single-phasing
        {"voltage_l1_l2": "0 V", "voltage_l2_l3": "0 V", "voltage_l3_l1": "0 V"},  # dead
        {"water_out_temperature": "54.5 °F"},  # not cooling, within the thermometers' errors
        {"pump_in_pressure": "-8 psi"},  # starved suction
        {"water_out_temperature": "20 °F"},  # cold, and 25 % glycol stands it
        {"pump_out_pressure": "12 psi", "pump_in_pressure": "12.5 psi", "barrel_pressure_drop": "0 psi",
         "barrel_in_pressure": "12 psi", "barrel_out_pressure": "12 psi"},  # pump stopped
        {"control_voltage": "60 V", "frequency": "50 Hz"},
    ],
)  # fmt: skip
def test_what_a_fault_can_do_is_no_doubt(sheet, read, points, fault):
    assert doubts(sheet, read(**HEALTHY | fault), points) == []


def test_out_of_the_points_bounds(sheet, read, points):
    found = texts(sheet, read, points, water_out_temperature="180 °F", water_flow="4000 gpm")
    assert "180.0 °F; more than 140.0 °F is not to be expected there" in found["water_out_temperature"]
    assert "water_flow" in found


def test_below_vacuum_is_impossible_at_the_sites_height(sheet, read, points):
    # At 9,000 ft the atmosphere is 10.5 psi: -13 psi is possible at the sea and not there.
    sea = doubts(sheet, read(pump_in_pressure="-13 psi"), points)
    assert not any(doubt.impossible for doubt in sea)
    high = doubts(sheet, read(pump_in_pressure="-13 psi", site_elevation="9000 ft"), points)
    assert high[0].impossible
    assert "below a perfect vacuum" in high[0].text
    assert "at the site's height" in high[0].text
    refrigerant = doubts(sheet, read(suction_pressure_a="-20 psi"), points)
    assert refrigerant[0].impossible
    assert "at sea level" in refrigerant[0].text


def test_colder_than_the_mix_can_be(sheet, changed, read, points):
    found = texts(sheet, read, points, water_out_temperature="0 °F", glycol_fraction="25 %")
    assert "25.0% of glycol, as read" in found["water_out_temperature"]
    plain = changed(sheet, usual_glycol=Glycol.NONE, usual_glycol_fraction=None)
    assert (
        "of glycol, the usual" in texts(plain, read, points, water_in_temperature="20 °F")["water_in_temperature"]
    )
    assert texts(plain, read, points, water_in_temperature="31 °F") == {}


def test_above_the_gauges_end(sheet, changed, read, points):
    found = texts(changed(sheet, gauge_top=689_476.0), read, points, standing_pressure="480 psi ± 1 psi")
    assert "480 psig on a gauge that ends at 100" in found["standing_pressure"].replace(".0", "")
    relief = changed(sheet, relief_pressure=344_738.0)
    assert "relief valve lifts" in texts(relief, read, points, standing_pressure="60 psi")["standing_pressure"]


def test_the_wrong_way_round(sheet, read, points):
    found = texts(sheet, read, points, barrel_in_pressure="35 psi", barrel_out_pressure="42 psi")
    assert "7.0 psi above water pressure entering the evaporator barrel" in found["barrel_out_pressure"]
    assert texts(sheet, read, points, barrel_in_pressure="35 psi", barrel_out_pressure="36 psi") == {}
    assert "pump_in_pressure" in texts(sheet, read, points, pump_in_pressure="50 psi", pump_out_pressure="12 psi")
    assert "below zero" in texts(sheet, read, points, barrel_pressure_drop="-2 psi")["barrel_pressure_drop"]


def test_two_ways_to_the_same_drop_must_agree(sheet, read, points):
    readings = {"barrel_pressure_drop": "1 psi", "barrel_in_pressure": "42 psi", "barrel_out_pressure": "34 psi"}
    assert "differ by 8.0 psi" in texts(sheet, read, points, **readings)["barrel_pressure_drop"]


def test_water_does_not_warm_up_in_a_chiller(sheet, read, points):
    found = texts(sheet, read, points, water_in_temperature="44 °F", water_out_temperature="54 °F")
    assert "10.0 °F warmer than the water entering" in found["water_out_temperature"]


def test_currents_far_above_rating_or_that_do_not_close(sheet, read, points):
    assert "rated 6.6 A" in texts(sheet, read, points, pump_current_l1="52 A")["pump_current_l1"]
    assert "rated 15.8 A" in texts(sheet, read, points, compressor_current_2_l3="158 A")["compressor_current_2_l3"]
    found = texts(sheet, read, points, pump_current_l1="10 A", pump_current_l2="2 A", pump_current_l3="2 A")
    assert "more than the other two together" in found["pump_current_l1"]


def test_the_current_of_a_motor_that_stands_still_is_no_doubt(sheet, read, points):
    # Rated 6.6 A: 5 to 6 times that in two lines and nothing in the third is a motor on two phases.
    two = {"pump_current_l1": "35 A", "pump_current_l2": "36 A", "pump_current_l3": "0.2 A"}
    assert texts(sheet, read, points, **two) == {}
    compressor = {"compressor_current_1_l1": "80 A", "compressor_current_1_l2": "81 A",
                  "compressor_current_1_l3": "0 A"}  # fmt: skip
    assert texts(sheet, read, points, **compressor) == {}
    # All three alike is a seized pump or a wrong range: it takes someone who saw the shaft stand still.
    three = dict.fromkeys(two, "35 A")
    assert set(texts(sheet, read, points, **three)) == set(three)
    assert doubts(sheet, read(**three), points, seen={"pump_rotation": "still"}) == []
    assert set(texts(sheet, read, points, **three)) == {
        doubt.point for doubt in doubts(sheet, read(**three), points, seen={"pump_rotation": "forward"})
    }


def test_the_case_of_the_humming_pump_is_believed(read, points):
    marten = load_unit("marten_60")
    hums = {"pump_current_l1": "68 A ± 5 A", "pump_current_l2": "69 A ± 5 A", "pump_current_l3": "0.3 A ± 0.1 A"}
    assert doubts(marten, read(**hums), points) == []


@pytest.mark.parametrize(
    "lone",
    [
        {"pump_current_l1": "35 A"},
        {"pump_current_l1": "35 A", "pump_current_l2": "5 A", "pump_current_l3": "5 A"},
        {"pump_current_l1": "70 A", "pump_current_l2": "71 A", "pump_current_l3": "0 A"},  # 10 times its rating
        {"pump_current_l1": "20 A", "pump_current_l2": "20 A", "pump_current_l3": "0 A"},  # 3 times: it would turn
    ],
)
def test_a_lone_impossible_current_is_still_doubted(sheet, read, points, lone):
    assert "pump_current_l1" in texts(sheet, read, points, **lone)


def test_voltages(sheet, read, points):
    to_ground = texts(sheet, read, points, voltage_l1_l2="266 V", voltage_l2_l3="265 V", voltage_l3_l1="267 V")
    assert "line to ground" in to_ground["voltage_l1_l2"]
    half = texts(sheet, read, points, voltage_l1_l2="208 V", voltage_l2_l3="208 V", voltage_l3_l1="209 V")
    assert "which supply this is" in half["voltage_l1_l2"]
    assert "keep the unit off" in texts(sheet, read, points, voltage_l1_ground="720 V")["voltage_l1_ground"]
    open_triangle = texts(sheet, read, points, voltage_l1_l2="460 V", voltage_l2_l3="100 V", voltage_l3_l1="100 V")
    assert "share three lines" in open_triangle["voltage_l1_l2"]
    assert "secondary" in texts(sheet, read, points, control_voltage="230 V")["control_voltage"]


def test_parts_the_unit_does_not_have(sheet, read, points):
    found = texts(sheet, read, points, suction_pressure_c="120 psi", compressor_current_5_l1="15 A")
    assert "circuits A, B only" in found["suction_pressure_c"]
    more = texts(sheet, read, points, fans_stopped_c="1", time_since_stop_6="5 min", fan_current_6_l1="3 A")
    assert "circuits A, B only" in more["fans_stopped_c"]
    assert "4 compressors only" in more["time_since_stop_6"]
    assert "fan_current_6_l1" not in more
    assert "4 compressors only" in found["compressor_current_5_l1"]


def test_texts_follow_the_units_of_the_reader(sheet, changed, read, points):
    (found,) = doubts(changed(sheet, gauge_top=689_476.0), read(standing_pressure="150 psi"), points, System.SI)
    assert "1034 kPa gauge on a gauge that ends at 689 kPa gauge" in found.text


def test_impossible_ones_come_first(sheet, read, points):
    found = doubts(sheet, read(standing_pressure="150 psi", pump_in_pressure="-30 psi"), points)
    assert [doubt.impossible for doubt in found] == sorted((doubt.impossible for doubt in found), reverse=True)
    assert found[0].point == "pump_in_pressure"
