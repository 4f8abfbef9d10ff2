"""Published fault signatures of the refrigerant circuit, and which causes of the catalogue each speaks of."""

# With an orifice; read in Braun and Li, Fault Detection and Diagnostics for Rooftop Air Conditioners.
RB = "Rossi and Braun 1997, as in Braun and Li, FDD for Rooftop Air Conditioners, table 1-1 (read)"
CB = "Comstock and Braun 1999, ASHRAE RP-1043, chiller faults (from memory)"
# A rig with an expansion valve, its faults imposed one at a time. The table was read as a public library of fault
# rules (fault cards of a unit's charge and of leakage past a valve) restates it, not in the report itself.
NI = "NIST SP 1087 (2008), table 5.2, expansion valve (second hand, from public fault cards)"
TU = "ACHR News, Troubleshooting a refrigerant undercharge: expansion valve, receiver (read)"
TR = "ACHR News, article 86873, restricted liquid line: expansion valve, receiver (read)"
TO = "ACHR News, article 115055, Checking on refrigerant overcharge: expansion valve, receiver (read)"
TC = "ACHR News, More refrigerant flow problems: worn compressor (read)"
# Its superheat moves as with an orifice, though it does not say so.
FO = "9 superheat and subcooling scenarios, refrigeration-engineer.com forum (read)"
TD = "What are the symptoms of a dirty or blocked condenser coil, greenyplace.com (read)"
IH = "How to diagnose non-condensables, iheatcool.com (read)"
BU = "Bulgurcu 2014, Int. J. Refrigeration 40 (second hand, from a public summary)"

# + up, - down, 0 unmoved; several signs where the source leaves it open.
PUBLISHED = {
    "low charge": [
        (RB, {"suction": "-", "superheat": "+", "subcooling": "-", "head": "-", "discharge temperature": "+"}),
        (TU, {"suction": "-", "superheat": "+", "subcooling": "-", "head": "-", "discharge temperature": "+",
              "current": "-"}),
        (FO, {"suction": "-", "superheat": "+", "subcooling": "-", "head": "-", "current": "-"}),
        (CB, {"suction": "-", "subcooling": "-", "approach": "+"}),
        # The valve holds the superheat until its inlet is no longer all liquid, then it rises.
        (NI, {"superheat": "0+", "subcooling": "-", "head": "-"}),
    ],
    "liquid line restriction": [
        (RB, {"suction": "-", "superheat": "+", "subcooling": "+", "head": "-", "discharge temperature": "+"}),
        (TR, {"suction": "-", "superheat": "+", "subcooling": "0+", "head": "-", "discharge temperature": "+",
              "current": "-"}),
        (FO, {"suction": "-", "superheat": "+", "subcooling": "0+", "head": "0-", "current": "-"}),
    ],
    "low evaporator flow or fouling": [
        (RB, {"suction": "-", "superheat": "-", "subcooling": "-", "head": "-", "discharge temperature": "-"}),
        (FO, {"suction": "-", "superheat": "-", "subcooling": "0+", "head": "0-", "current": "0"}),
        (CB, {"suction": "-"}),
    ],
    "condenser fouling or low air flow": [
        (RB, {"suction": "+", "superheat": "-", "subcooling": "-", "head": "+", "discharge temperature": "+",
              "air rise": "+"}),
        (FO, {"suction": "+", "superheat": "-", "subcooling": "-", "head": "+", "current": "0+"}),
        (TD, {"suction": "0+", "superheat": "0", "subcooling": "0+", "head": "+", "discharge temperature": "+",
              "current": "+"}),
        (BU, {"subcooling": "-", "head": "+", "discharge temperature": "+", "current": "+"}),
        (NI, {"suction": "+", "superheat": "0", "subcooling": "-", "head": "+", "discharge temperature": "+"}),
    ],
    "overcharge": [
        (TO, {"suction": "0+", "superheat": "0", "subcooling": "+", "head": "+", "discharge temperature": "+"}),
        (FO, {"suction": "+", "superheat": "-", "subcooling": "+", "head": "+", "current": "+"}),
        (CB, {"subcooling": "+", "head": "+", "current": "+"}),
        (NI, {"superheat": "0", "subcooling": "+", "head": "+", "discharge temperature": "+"}),
    ],
    "non-condensable gas": [
        (CB, {"subcooling": "+", "head": "+", "current": "+"}),
        (BU, {"subcooling": "+"}),
        (IH, {"subcooling": "-", "head": "+"}),
    ],
    "compressor leakage": [
        (RB, {"suction": "+", "superheat": "-", "subcooling": "-", "head": "-", "discharge temperature": "-"}),
        (TC, {"suction": "+", "superheat": "+", "subcooling": "0-", "head": "-", "current": "-"}),
        (FO, {"suction": "+", "superheat": "-", "subcooling": "+", "head": "-", "current": "-"}),
        (NI, {"suction": "+", "superheat": "0", "subcooling": "-", "head": "-", "discharge temperature": "+"}),
    ],
}  # fmt: skip

LEAKS = (
    "leak_service_port", "leak_valve_stem", "leak_flared_joint", "leak_pipe_cracked", "leak_capillary_rubbed",
    "leak_condenser_coil", "leak_compressor_seal", "refrigerant_relief_passing", "barrel_tubes_split",
)  # fmt: skip
CAUSES = {
    "low charge": ("charged_short", *LEAKS),
    "liquid line restriction": (
        "filter_drier_clogged", "liquid_solenoid_stuck_shut", "liquid_valve_part_shut",
        "expansion_valve_stuck_shut", "expansion_bulb_lost_charge", "expansion_screen_plugged",
    ),
    "low evaporator flow or fouling": (
        "strainer_clogged", "supply_valve_shut", "return_valve_shut", "load_valves_shut", "flow_throttled",
        "evaporator_fouled",
    ),
    "condenser fouling or low air flow": (
        "coil_dirty_outside", "coil_dirty_between_rows", "coil_inlet_covered", "coil_fins_flattened",
    ),
    "overcharge": ("circuit_overcharged",),
    "non-condensable gas": ("air_in_circuit",),
    "compressor leakage": ("compressor_valves_leaking",),
}  # fmt: skip

VALUE = {"+": 1, "0": 0, "-": -1}


def agrees(signs, ours):
    """Return whether our sign is one of those published."""
    return ours in {VALUE[sign] for sign in signs}
