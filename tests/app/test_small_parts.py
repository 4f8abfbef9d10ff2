"""The pure parts of the window, and those that need no case."""

import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PySide6.QtWidgets import QLineEdit

from faultdoc.app.startlist import list_of, remember, remembered
from faultdoc.library.vocabulary import load_points
from faultdoc.quantities import Kind, System, display_unit, parse
from faultdoc.record.typed import understand, with_unit

ROOT = Path(__file__).resolve().parents[2]
KINDS = [kind for kind in Kind if kind not in (Kind.CHOICE, Kind.NUMBER)]


@given(st.sampled_from(KINDS), st.sampled_from(System), st.floats(1.0, 900.0), st.booleans())
@settings(deadline=None, max_examples=80)
def test_bare_number_with_its_unit_means_the_same(kind, system, number, limited):
    text = f"{number:.2f}" + (" ± 1" if limited else "")
    bare, full = parse(text, kind, system), parse(with_unit(text, display_unit(kind, system)), kind, system)
    assert full.value == pytest.approx(bare.value, rel=1e-12)
    assert full.limit == (None if bare.limit is None else pytest.approx(bare.limit, rel=1e-12))
    other = system.other
    assert parse(with_unit(text, display_unit(kind, system)), kind, other).value == pytest.approx(full.value)


def test_what_was_typed_is_kept_with_the_unit_that_was_meant():
    point = load_points()["barrel_in_pressure"]
    found = understand("62", point, System.US)
    assert found.measured.text == "62 psig"
    # 62 psi x 6894.757 Pa (NIST SP 811, B.8)
    assert found.measured.value == pytest.approx(62 * 6894.757, rel=1e-6)
    assert understand("sixty", point, System.US).problem is not None
    assert understand("  ", point, System.US) == understand("", point, System.SI)


def test_start_list_is_remembered_until_a_file_changes(shipped_shelf, monkeypatch, tmp_path):
    assert remembered() is None
    made = list_of(shipped_shelf)
    remember(made)
    assert remembered() == made
    assert [unit.id for unit in made.units] == list(shipped_shelf.sheets)
    tree = tmp_path / "new.yaml"
    tree.write_text("id: new\n", encoding="utf-8")
    monkeypatch.setattr("faultdoc.app.startlist.trees_folder", lambda: tmp_path)
    assert remembered() is None


def test_broken_start_list_is_passed_over():
    from faultdoc.app.startlist import _path

    _path().parent.mkdir(parents=True)
    for words in ("", "[]", "{", '{"stamp": 3}'):
        _path().write_text(words, encoding="utf-8")
        assert remembered() is None


@pytest.mark.slow
def test_light_coolprop_gives_the_same_numbers_and_fills_itself_on_demand():
    code = """
import sys
from faultdoc.physics.coolprop import light_coolprop
light_coolprop()
from faultdoc.physics import fluid
print(fluid.density(293.15))
assert "CoolProp.HumidAirProp" not in sys.modules
from CoolProp import AbstractState
assert "CoolProp.HumidAirProp" in sys.modules
import CoolProp
print(CoolProp.__version__, CoolProp.CoolProp.PropsSI("D", "T", 293.15, "P", 101325.0, "Water"))
"""
    said = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT, timeout=120
    )
    density, _, full = said.stdout.split()
    # IAPWS-95: 998.2 kg/m³ at 20 °C and one atmosphere (NIST webbook)
    assert float(full) == pytest.approx(998.2, abs=0.1)
    assert float(density) == pytest.approx(998.2, abs=0.5)


def test_pdf_is_made_without_an_application(tmp_path):
    code = "import sys; from pathlib import Path; from faultdoc.app.pdf import html_to_pdf; " \
        "html_to_pdf('<h1>x</h1>', Path(sys.argv[1]), paper='Letter')"  # fmt: skip
    path = tmp_path / "x.pdf"
    subprocess.run([sys.executable, "-c", code, str(path)], check=True, cwd=ROOT, timeout=60)
    data = path.read_bytes()
    assert data.startswith(b"%PDF-")
    assert b"612" in data  # US Letter is 612 points wide


@pytest.mark.skipif(sys.version_info >= (3, 12), reason="None cannot die from Python 3.12 on (PEP 683)")
def test_qt_does_not_wear_out_none(qtbot):
    """PySide6 6.12.0 takes a reference of None's away with every call, and after some thousands Python aborts."""
    line = QLineEdit()
    qtbot.addWidget(line)
    line.setText("a")
    before = sys.getrefcount(None)
    for _ in range(100):
        line.setText("a")
    assert sys.getrefcount(None) > before - 50
