"""A small fault tree and case that have nothing wrong with them; tests spoil one thing at a time."""

from collections.abc import Callable
from pathlib import Path

import pytest

TREE = """\
id: no_flow
title: No water flow
symptom: The unit says it has no water flow.
top: no_flow_proved
events:
  - {id: no_flow_proved, title: Flow is not proved, any: [too_little_water, contact_open]}
  - {id: too_little_water, title: Too little water moves, all: [restriction, cold_weather]}
  - {id: restriction, title: Something is in the way, any: [strainer_clogged, valve_shut]}
conditions:
  - {id: cold_weather, title: It is cold, probability: 0.3, basis: estimate}
causes:
  - id: strainer_clogged
    title: The strainer is clogged
    system: water
    rate: 80
    basis: estimate
    mechanism: Dirt fills the basket and holds the water back.
    remedy:
      title: Clean the strainer
      minutes: 25
      state: {pump: stopped, water: depressurised}
      who: crew
      cautions:
        - {signal: warning, text: See the gauge at zero before you loosen the cover.}
      steps: [Take the basket out., Wash it., Put it back.]
      proof:
        text: The drop across the strainer is back to the clean one.
        points: [strainer_pressure_drop]
        minutes: 5
        state: {pump: running}
        who: crew
  - id: valve_shut
    title: A valve is shut
    system: site
    rate: 60
    basis: estimate
    mechanism: No water passes a shut valve.
    remedy:
      title: Open the valve
      minutes: 3
      state: {}
      who: crew
      steps: [Open it fully.]
      proof:
        text: The valve stands open.
        points: [supply_valve_position]
        minutes: 1
        state: {}
        who: crew
  - id: contact_open
    title: The flow switch's contact does not close
    system: control
    rate: 20
    basis: estimate
    mechanism: The unit sees no flow although there is enough.
    remedy:
      title: Replace the switch
      minutes: 60
      state: {supply: isolated, panel: open}
      who: electrical_worker
      cautions:
        - {signal: danger, text: Live parts kill. Prove dead first.}
      steps: [Replace it like for like.]
      proof:
        text: The contact closes with the pump running.
        points: [flow_switch_contact]
        minutes: 5
        state: {supply: energised, panel: open, pump: running}
        who: electrical_worker
        cautions:
          - {signal: danger, text: Live parts kill. Measure only.}
questions:
  - id: valve_position
    ask:
      tech: How does the supply valve stand?
      caller: Which way does the lever on the outlet pipe point?
    how: Along the pipe is open.
    where: At the water outlet
    instrument: Eye
    minutes: 2
    state: {}
    who: caller
    points: [supply_valve_position]
    outcomes:
      - {id: open, title: Open}
      - {id: part_open, title: Part open}
      - {id: shut, title: Shut}
    given:
      default: {p: {open: 0.97, part_open: 0.03}, basis: estimate}
      valve_shut: {p: {open: 0.02, part_open: 0.08, shut: 0.9}, basis: estimate}
  - id: strainer_drop
    ask:
      tech: What is the drop across the strainer?
      caller: Is there a gauge on the strainer?
    how: Read before and behind it.
    where: At the strainer
    instrument: Differential gauge
    minutes: 6
    state: {pump: running}
    who: technician
    points: [strainer_pressure_drop, water_flow]
    check: strainer_drop
    given:
      default: {shift: 0.0, spread: 0.3, basis: estimate}
      strainer_clogged: {shift: 4.0, spread: 2.0, basis: estimate}
"""

CASE = """\
title: Hotel, roof
unit: bluff_30
symptoms: [no_flow]
state: {supply: energised, panel: closed, pump: running, water: pressurised, compressors: stopped, oil: warm}
who: [technician]
readings:
  water_in_temperature: 54 °F
  strainer_pressure_drop: 3.5 psi ± 0.5
  pump_rotation: forward
answers:
  valve_position: open
  strainer_drop: could_not_measure
set_aside: [strainer_drop]
tried:
  - {cause: valve_shut, proved: false, note: It was open.}
notes: [Came at nine.]
conclusion: {outcome: fixed, cause: strainer_clogged}
"""


def line_of(text: str, part: str) -> int:
    """Return the number of the one line of `text` that has `part` in it."""
    (number,) = (number for number, line in enumerate(text.split("\n"), 1) if part in line)
    return number


@pytest.fixture(scope="session")
def tree_text() -> str:
    return TREE


@pytest.fixture
def case_text() -> str:
    return CASE


@pytest.fixture
def line() -> Callable[[str, str], int]:
    return line_of


@pytest.fixture
def write(tmp_path: Path) -> Callable[[str, str], Path]:
    """Return a function that writes a file below the test's folder and gives its path."""

    def write_file(name: str, text: str) -> Path:
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    return write_file
