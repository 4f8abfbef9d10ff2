from copy import deepcopy

import pytest
from pydantic import ValidationError

from faultdoc.library.places import resources_folder
from faultdoc.library.source import read
from faultdoc.model.unit import DataSheet

GOOD = read(resources_folder() / "units" / "bluff_30.yaml").data


def sheet(*changes: tuple[str, object]) -> dict[str, object]:
    """Return the demo unit's data with the value at each dotted path changed, or taken out if `...`."""
    data = deepcopy(GOOD)
    for path, value in changes:
        *above, last = path.split(".")
        part = data
        for step in above:
            part = part[int(step) if step.isdigit() else step]
        if value is ...:
            part.pop(last, None)
        else:
            part[int(last) if last.isdigit() else last] = value
    return data


def refusal(*changes: tuple[str, object]) -> str:
    with pytest.raises(ValidationError) as caught:
        DataSheet.model_validate(sheet(*changes))
    return str(caught.value)


def test_the_demo_unit_is_good() -> None:
    assert DataSheet.model_validate(sheet()).id == "bluff_30"


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ([("features", [])], "features say own_pump exactly when water.pump is given"),
        ([("water.pump", ...)], "features say own_pump exactly when water.pump is given"),
        ([("water.strainer", ...)], "features say strainer exactly when water.strainer is given"),
        ([("water.flow_proving.makes_at_drop", ...)], "needs makes_at_drop and breaks_at_drop"),
        ([("features", ["own_pump", "strainer", "paddle_flow_switch"])], "needs makes_at_flow and breaks_at_flow"),
        ([("water.minimum_flow", "72 gpm")], "water.minimum_flow must be below water.design_flow"),
        ([("water.design_leaving", "54 °F")], "water.design_leaving must be colder"),
        ([("water.barrel.points.1.drop", "0.72 ft water")], "the barrel's points must rise"),
        ([("water.barrel.points.1.flow", "90 gpm")], "the barrel's points must rise"),
        ([("water.barrel.points.0.flow", "0 gpm")], "above zero at every point"),
        ([("water.pump.points.0.flow", "1 gpm")], "shut-off head, at zero flow"),
        ([("water.pump.points.2.head", "110 ft")], "must rise in flow and not rise in head"),
        ([("water.pump.points", GOOD["water"]["pump"]["points"][:2])], "at least 3 items"),
        ([("compressors", [])], "at least 1 item"),
        ([("compressors.0.circuit", "e")], "compressors.0.circuit"),
        ([("oil_warm_up", "8")], "has no unit"),
        ([("electrical.voltage", 460)], "460 has no unit"),
        ([("water.usual_glycol", "methanol")], "water.usual_glycol"),
        ([("id", ...)], "Field required"),
        ([("assumed", ["water.barrell"])], "assumed names 'water.barrell', where the sheet has nothing"),
        ([("assumed", ["compressors.7.type"])], "assumed names 'compressors.7.type'"),
        ([("oil_sump", ...), ("assumed", ["oil_sump.heater_power"])], "assumed names 'oil_sump.heater_power'"),
        ([("assumed", ["compressors.first"])], "assumed names 'compressors.first'"),
        ([("assumed", ["title.text"])], "assumed names 'title.text'"),
        ([("oil_sump", ...), ("assumed", ["oil_sump"])], "assumed names 'oil_sump'"),
    ],
)  # fmt: skip
def test_what_a_data_sheet_may_not_say(changes: list[tuple[str, object]], words: str) -> None:
    assert words in refusal(*changes)


def test_several_disagreements_are_told_together() -> None:
    said = refusal(("features", []), ("water.minimum_flow", "80 gpm"))
    assert "own_pump" in said
    assert "features say strainer" in said
    assert "water.minimum_flow" in said


def test_what_a_nameplate_lacks_may_be_left_out() -> None:
    for path in (
        "refrigerant_side.superheat",
        "water.usual_glycol_fraction",
        "electrical.minimum_circuit_ampacity",
        "compressors.0.locked_rotor_current",
    ):
        assert DataSheet.model_validate(sheet((path, ...)))


def test_what_is_assumed_is_named_by_its_path() -> None:
    paths = ["water.barrel", "compressors.0.type", "water.barrel.points.1.drop", "cooling_capacity"]
    assert DataSheet.model_validate(sheet(("assumed", paths))).assumed == tuple(paths)
