"""The safeties and the timers of a case on the command line."""

import sys

import pytest

from faultdoc import cli

CASE = """\
unit: bluff_30
symptoms: [flow_proving_trip]
state: {{supply: {supply}, panel: closed, pump: running, water: pressurised, compressors: stopped, oil: warm}}
who: [technician]
readings:
{readings}
"""


@pytest.fixture
def run(capsys, monkeypatch):
    def run_with(*arguments):
        monkeypatch.setattr(sys, "argv", ["faultdoc", *map(str, arguments)])
        code = 0
        try:
            cli.main()
        except SystemExit as gone:
            code = gone.code or 0
        said = capsys.readouterr()
        return code, " ".join(said.out.split()), said.err

    return run_with


@pytest.fixture
def case(tmp_path):
    """Return (name, supply, **readings) -> path of a case file."""

    def write(name="case.yaml", supply="energised", **readings):
        path = tmp_path / name
        lines = "\n".join(f'  {id}: "{text}"' for id, text in readings.items())
        text = CASE.format(supply=supply, readings=lines)
        path.write_text(text if readings else text.replace("readings:\n\n", ""), encoding="utf-8")
        return path

    return write


def test_every_safety_with_its_setting_margin_trip_and_test(run, case):
    path = case(barrel_pressure_drop="4 psi ± 0.1 psi", voltage_l1_l2="455 V")
    code, out, err = run("safeties", path)
    assert (code, err) == (0, "")
    assert (
        "setting acts below 2.2 psi, give or take 0.2 psi, after 5 s; lets go at 2.6 psi; resets by itself" in out
    )
    assert "reading Pressure drop across the evaporator barrel: 4.0 ± 0.1 psi" in out
    # Margin 4 - 2.2 = 1.8 psi; its uncertainty by JCGM 100:2008, 4.3.7 and 5.1.2:
    # sqrt(0.1**2 + 0.2**2) / sqrt(3) = 0.1291 psi; 1.8 / 0.1291 = 13.9.
    assert "margin 1.8 ± 0.3 psi left (13.9 standard uncertainties)" in out
    assert "test trips between 2.0 psi and 2.4 psi, falling" in out
    assert "close the valve in the supply slowly" in out
    assert "Never bypass a safety" in out
    # A safety whose point was not read says so, and is not left out.
    assert "High pressure switch setting acts above 620 psig ± 10 psi; reset by hand reading none yet" in out
    assert "drift" not in out


def test_a_reading_past_a_setting_is_told(run, case):
    code, out, _ = run("safeties", case(discharge_pressure_a="660 psig ± 5 psi"))
    assert code == 0
    assert "past its setting by 40.0 ±" in out
    assert "it should have acted" in out
    assert "do not bypass it" in out


def test_a_reading_at_a_setting_is_told(run, case):
    code, out, _ = run("safeties", case(barrel_pressure_drop="2.35 psi ± 0.1 psi"))
    assert code == 0
    # 0.15 psi against 0.1291 psi.
    assert "at its setting as far as can be told" in out
    assert "psi left (1.2 standard uncertainties); it may act at any moment" in out


def test_drift_since_an_earlier_case(run, case):
    before = case("before.yaml", barrel_pressure_drop="5.2 psi ± 0.1 psi", voltage_l1_l2="455 V")
    now = case(barrel_pressure_drop="4 psi ± 0.1 psi", voltage_l1_l2="456 V", discharge_pressure_a="480 psig")
    code, out, err = run("safeties", now, "--before", before, "--apart", "30 days")
    assert (code, err) == (0, "")
    # The setting drops out: 1.2 psi against sqrt(2) * 0.1 / sqrt(3) = 0.0816 psi.
    # 1.8 psi are left; at 1.2 psi in 30 days that is 45 days.
    assert "the margin has shrunk by 1.2 ± 0.2 psi (14.7 standard uncertainties)" in out
    assert "at this rate it is used up in about 45 days" in out
    assert "no change beyond the meters' own (1.0 ±" in out
    assert "not known: not read in the earlier case" in out
    without = run("safeties", now, "--before", before)[1]
    assert "used up" not in without


def test_two_units_are_not_compared(run, case, tmp_path):
    other = tmp_path / "other.yaml"
    now = case(barrel_pressure_drop="4 psi")
    other.write_text(now.read_text(encoding="utf-8").replace("bluff_30", "marten_60"), encoding="utf-8")
    code, _, err = run("safeties", now, "--before", other)
    assert code == 1
    assert "compare two of one unit" in err


def test_a_time_between_without_an_earlier_case_is_refused(run, case):
    assert run("safeties", case(barrel_pressure_drop="4 psi"), "--apart", "30 days")[0] == 2
    before = case("before.yaml", barrel_pressure_drop="4 psi")
    code, _, err = run("safeties", before, "--before", before, "--apart", "30")
    assert code == 1
    assert "unit" in err


def test_timers_from_the_readings(run, case):
    path = case(hours_energised_since_power_up="6 h", time_since_stop_2="2 min", starts_in_last_hour_2="6")
    code, out, err = run("timers", path)
    assert (code, err) == (0, "")
    # bluff_30: 8 h of warm-up, 5 min of anti-recycle, 6 starts an hour.
    assert "Oil warm-up: 2 h left of 8 h. Yet the plant's state says that the oil is warm" in out
    assert "Any break in power, however short, starts it again." in out
    assert "Anti-recycle, compressor 2: 3 min left of 5 min" in out
    assert "Starts in the last hour, compressor 2: 6 of at most 6: no other start in this hour" in out
    assert "compressor 1" not in out


def test_timers_without_supply_have_the_whole_warm_up_to_come(run, tmp_path, case):
    path = case(hours_energised_since_power_up="20 h")
    text = path.read_text(encoding="utf-8").replace("supply: energised", "supply: isolated")
    path.write_text(text.replace("pump: running", "pump: stopped"), encoding="utf-8")
    code, out, _ = run("timers", path)
    assert code == 0
    assert "Oil warm-up: the supply is off: 8 h from when it comes back" in out


def test_timers_without_readings_say_what_is_wanted(run, case):
    code, out, _ = run("timers", case())
    assert code == 0
    assert "no reading of time energised" in out
    assert "--log" in out


LOG = """\
time,supply,compressor_1,compressor_2
2026-03-01 06:00,on,off,off
2026-03-01 12:00,off,,
2026-03-01 12:01,on,,
2026-03-01 14:00,,on,
2026-03-01 14:20,,off,on
2026-03-01 14:22,,,
"""


@pytest.fixture
def log(tmp_path):
    def write(text=LOG):
        path = tmp_path / "log.csv"
        path.write_text(text, encoding="utf-8")
        return path

    return write


def test_timers_from_a_log(run, case, log):
    code, out, err = run("timers", case(), "--log", log())
    assert (code, err) == (0, "")
    # On without a break since 12:01: 2 h 21 min at 14:22, so that 5 h 39 min of 8 h are left.
    assert "Oil warm-up: 5 h 39 min left of 8 h; energised for 2 h 21 min" in out
    first, second = out.split("Compressor 2")
    assert "Anti-recycle: 3 min left of 5 min" in first
    assert "Starts in the last hour: 1 of at most 6" in first
    assert "Start allowed: in 5 h 39 min" in first
    assert "Anti-recycle: over" in second


def test_timers_from_a_log_at_a_later_time(run, case, log):
    code, out, _ = run("timers", case(), "--log", log(), "--now", "2026-03-01 20:10")
    assert code == 0
    assert "Oil warm-up: over: 8 h have passed" in out
    assert "Starts in the last hour: 0 of at most 6" in out
    assert "Start allowed: now" in out
    code, _, err = run("timers", case(), "--log", log(), "--now", "2026-03-01 10:00")
    assert code == 1
    assert "before the log's last line" in err
    code, _, err = run("timers", case(), "--log", log(), "--now", "2026-03-01 20:10+00:00")
    assert code == 1
    assert "time zone" in err
    assert run("timers", case(), "--now", "2026-03-01 20:10")[0] == 2


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("time,supply,compressor\n", "no rows"),
        ("time,supply,motor\n2026-03-01 06:00,on,on\n", "the column 'motor'"),
        ("time,compressor\n2026-03-01 06:00,on\n", "the columns time, compressor"),
        ("time,supply,compressor\n06:00,on,on\n", ":2:1: found '06:00'; allowed: a time such as"),
        ("time,supply,compressor\n2026-03-01 06:00,on,perhaps\n", "'perhaps'; allowed: on, off"),
        ("time,supply,compressor\n2026-03-01 06:00,on,on\n2026-03-01 05:00,off,\n", "sort the lines"),
        ("time,supply,compressor\n2026-03-01 06:00,on\n", "2 cells; allowed: 3"),
        ("time,supply,compressor\n2026-03-01 06:00,on,on\n2026-03-01 07:00Z,off,\n", "time zone in every line"),
        ("time,supply,compressor_8\n2026-03-01 06:00,on,on\n", "has compressor 8"),
    ],
)
def test_a_log_with_mistakes_is_told(run, case, log, text, told):
    code, out, err = run("timers", case(), "--log", log(text))
    assert (code, out) == (1, "")
    assert told in err


def test_a_log_that_is_not_there_is_told(run, case, tmp_path):
    code, _, err = run("timers", case(), "--log", tmp_path / "none.csv")
    assert code == 1
    assert "no such file" in err
