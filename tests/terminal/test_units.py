"""Units in the terminal: a new one from its nameplate, kept and found again; all listed, one shown."""

from functools import cache
from pathlib import Path

import pytest

from faultdoc.library.load import load_library, load_unit
from faultdoc.library.places import own_units_folder
from faultdoc.quantities import System
from faultdoc.record.plate import FIELDS, GROUPS
from faultdoc.record.settings import Settings
from faultdoc.terminal.units import new_unit

PLATE = {
    "title": "Yard unit 7",
    "refrigerant": "r410a",
    "capacity": "30",
    "voltage": "460",
    "compressor_count": "4",
    "compressor_rated_current": "15.8",
    "pump_power": "5",
    "pump_current": "6.6",
    "design_flow": "72",
}
SMALL = Path(__file__).parents[1] / "record" / "valves.yaml"
ORDER = [id for group in GROUPS for id in group.fields]


def lines(**answers):
    """Return what is typed for a nameplate, field by field; Enter where nothing is given."""
    return [answers.get(id, "") for id in ORDER]


@cache
def small_library():
    return load_library(SMALL)


class Person:
    def __init__(self, typed):
        self.typed, self.said = list(typed), []

    def ask(self, prompt):
        self.said.append(prompt)
        if not self.typed:
            raise EOFError
        return self.typed.pop(0)

    def tell(self, text):
        self.said.append(text)

    @property
    def heard(self):
        return " ".join(" ".join(self.said).split())


def enter(typed, system=System.US):
    person = Person(typed)
    return new_unit(person.ask, person.tell, small_library(), Settings(system=system)), person


def test_a_plausible_plate_is_kept_and_found_by_its_id():
    path, person = enter([*lines(**PLATE, flow_switch="1"), ""])
    assert path == own_units_folder() / "yard_unit_7.yaml"
    sheet = load_unit("yard_unit_7")
    assert [one.rated_current for one in sheet.compressors] == [15.8] * 4
    # 72 gpm: 1 gpm is 6.309020e-5 m3/s (NIST SP 811, B.8).
    assert sheet.water.design_flow == pytest.approx(72 * 6.309020e-5, rel=1e-6)
    assert "understood as 72 gpm = 4.54 L/s" in person.heard
    assert "Drop across the barrel: 40 kPa ± 60 %. At design flow; 20 to 80 kPa is usual" in person.heard
    assert "Is this right?" not in person.heard
    assert Settings.load().last_unit == "yard_unit_7"
    assert person.typed == []


def test_every_field_is_asked_with_its_help_within_the_width():
    _, person = enter([*lines(**PLATE), ""])
    for one in FIELDS.values():
        assert one.title in person.heard
        assert one.help in person.heard
    told = [line for text in person.said for line in text.splitlines() if str(own_units_folder()) not in line]
    assert max(map(len, told)) <= 80


def test_what_is_not_understood_is_asked_again():
    plate = lines(**PLATE)
    place = ORDER.index("voltage")
    path, person = enter([*plate[:place], "460 psi", *plate[place:], ""])
    assert path is not None
    assert "Not understood: '460 psi': 'psi' is not a unit of voltage" in person.heard


def test_what_is_needed_and_lacking_is_asked_again_at_the_end():
    typed = lines(**{**PLATE, "voltage": ""})
    path, person = enter([*typed, "460", ""])
    assert path is not None
    assert "This needs another look: 1. Voltage: this is needed" in person.heard


def test_a_doubt_is_not_kept_by_a_mere_enter_and_can_be_changed():
    typed = lines(**{**PLATE, "compressor_rated_current": "4 x 58"})
    change = str(ORDER.index("compressor_rated_current") + 1)
    path, person = enter([*typed, "", "2", change, "15.8", ""])
    assert path is not None
    assert "a ton is too high" in person.heard
    assert "'' is not understood: type a number from 1 to 2." in person.heard
    assert [one.rated_current for one in load_unit("yard_unit_7").compressors] == [15.8] * 4


def test_a_doubt_can_be_kept_knowingly():
    path, person = enter([*lines(**{**PLATE, "compressor_rated_current": "4 x 58"}), "1"])
    assert path is not None
    assert "All that is so: keep the unit" in person.heard


def test_back_goes_back_a_field_and_enter_keeps_what_was_typed():
    typed = lines(**PLATE)
    path, person = enter(["Yard 9", "back", "", *typed[1:], ""])
    assert path is not None
    assert path.name == "yard_9.yaml"
    assert "Enter keeps Yard 9" in person.heard


def test_a_bare_number_keeps_its_unit_when_the_units_are_switched():
    typed = lines(**PLATE)
    place = ORDER.index("minimum_flow")
    enter([*typed[:place], "units", *typed[place:], ""])
    assert load_unit("yard_unit_7").water.design_flow == pytest.approx(72 * 6.309020e-5, rel=1e-6)


@pytest.mark.parametrize("choice", ["both", "replace", "again"])
def test_nothing_is_written_over_without_saying_so(choice):
    path, _ = enter([*lines(**PLATE), ""])
    before = path.read_bytes()
    typed = [*lines(**{**PLATE, "voltage": "480"}), "", {"both": "1", "replace": "2", "again": "3"}[choice]]
    second, person = enter(typed)
    assert "There is 'yard_unit_7' already, one of your own units" in person.heard
    if choice == "both":
        assert second == own_units_folder() / "yard_unit_7_2.yaml"
        assert load_unit("yard_unit_7_2").electrical.voltage == 480.0
    if choice == "replace":
        assert load_unit("yard_unit_7").electrical.voltage == 480.0
    else:
        assert path.read_bytes() == before
    if choice == "again":
        assert second is None


def test_leaving_keeps_nothing():
    path, person = enter(["Yard unit 7", "quit"])
    assert path is None
    assert "Nothing was kept." in person.heard
    assert not own_units_folder().exists()


def test_help_is_that_of_the_form():
    _, person = enter(["help", "quit"])
    assert "the field before this one" in person.heard
    assert "causes" not in person.heard


def test_the_command_line_makes_lists_and_shows_units(run):
    code, out, err = run("unit", "new", typed=[*lines(**PLATE), ""])
    assert (code, err) == (0, "")
    assert "Kept as yard_unit_7" in out
    code, out, err = run("unit", "list")
    assert (code, err) == (0, "")
    assert out.splitlines()[0].split() == ["yard_unit_7", "Yard", "unit", "7", "(your", "own)"]
    assert any(line.startswith("bluff_30 ") for line in out.splitlines())
    code, out, err = run("unit", "show", "yard_unit_7")
    assert (code, err) == (0, "")
    assert "compressor 4      scroll, 15.8 A, circuit B" in out
    assert "Assumed: neither nameplate nor papers gave it" in out
    assert "  Drop across the barrel" in out
    assert "To be doubted" not in out
    code, out, _ = run("unit", "show", "bluff_30", "--si")
    assert "High pressure switch: acts above 620 psig" in out
    assert "105.0 kW" in out


def test_an_unknown_unit_is_refused_with_those_there_are(run):
    code, _, err = run("unit", "show", "bluf_30")
    assert code == 1
    assert "no such unit" in err
    assert "bluff_30" in err


def test_lint_takes_a_data_sheet_by_path_and_by_id(run, tmp_path):
    enter([*lines(**{**PLATE, "compressor_rated_current": "4 x 58"}), "1"])
    path = own_units_folder() / "yard_unit_7.yaml"
    for name in (path, "yard_unit_7"):
        code, out, err = run("lint", name)
        assert (code, err) == (1, "")
        assert "a ton is too high" in out
        assert f"{path}:" in out
    code, out, _ = run("lint", "bluff_30")
    assert (code, out) == (0, "no warnings\n")
    broken = tmp_path / "broken.yaml"
    broken.write_text("id: broken\nelectrical: {voltage: 460}\n", encoding="utf-8")
    code, _, err = run("lint", broken)
    assert code == 1
    assert "compressors" in err


def test_lint_of_everything_has_the_data_sheets_too(run, monkeypatch):
    monkeypatch.setattr("faultdoc.library.load.trees_folder", lambda: SMALL)
    before = run("lint")[1]
    enter([*lines(**{**PLATE, "compressor_rated_current": "4 x 58"}), "1"])
    code, out, _ = run("lint")
    assert code == 1
    assert "a ton is too high" not in before
    assert "a ton is too high" in out
    code, out, _ = run("lint", "--json")
    assert "yard_unit_7.yaml" in out


def test_a_broken_sheet_of_ones_own_is_named_and_the_rest_listed(run):
    own_units_folder().mkdir(parents=True)
    (own_units_folder() / "broken.yaml").write_text("id: broken\n", encoding="utf-8")
    code, out, _ = run("unit", "list")
    assert code == 0
    assert "bluff_30" in out
    assert "Left out:" in out
