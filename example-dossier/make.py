#!/usr/bin/env python3
"""Writes the two example dossiers of this folder, `as-found` and `released`, and `sound`: a small lot
without any fault, on which tests spoil one thing at a time.

Everything in them is invented: maker, customers, products, people, figures. Traces follow the
physics that the figures undo (ideal gas in a closed volume, diffusion proportional to gauge
pressure, a bubble-point knee), with noise from one fixed seed. Needs nothing but Python.

    python3 example-dossier/make.py [TARGET]           # TARGET defaults to this folder
    python3 example-dossier/make.py TARGET --sound     # the small lot alone
"""
import dataclasses
import hashlib
import math
import pathlib
import random
import sys

sys.dont_write_bytecode = True

from studies import studies
from writing import P_AMB, P_REF, T_REF, Folder, caliper_log, clock, day, decay, plate, ramp, record, steam, winter_time



@dataclasses.dataclass
class Edition:
    """Which dossier is written: `faults` are planted; `released` has them cleared."""

    faults: bool
    released: bool
    products: dict
    rolls: dict
    lots: dict
    lengths: list
    modules_per_lot: int

    @property
    def as_found(self):
        return self.faults and not self.released

    def revised(self, here=True):
        """Revision, what it supersedes and when it was written, of a record that was revised."""
        return {"revision": 2, "supersedes": 1} if self.faults and self.released and here else {}


def at_revision(ed, at, here=True):
    return "2026-10-01T09:30:00+02:00" if ed.faults and ed.released and here else at


HERE = pathlib.Path(__file__).resolve().parent
SEED = 260711
RIG_VOLUME = {"IT-11": 2.420e-3, "IT-12": 6.150e-3}

PRODUCTS = {
    "VF45": dict(spec="SP-45", rating="0.45 um", df_limit=14.0, df_at=1700, bp_min=2.40, bp=2.62, flow=8.2, fit=2200, organism="Serratia marcescens", roll_bp=2.84, flux=47.0, flux_min=35),
    "VF65": dict(spec="SP-65", rating="0.65 um", df_limit=8.5, df_at=1000, bp_min=1.50, bp=1.74, flow=4.9, fit=1350, organism="Saccharomyces cerevisiae", roll_bp=1.88, flux=78.0, flux_min=60),
}
ROLLS = {"RM-701": "VF45", "RM-702": "VF45", "RM-703": "VF45", "RM-704": "VF65"}
# lot: product, first module number, first assembly number, rolls, date of pleating, customer
LOTS = {
    "L26-31": ("VF45", 3101, 2101, ["RM-701", "RM-702"], "2026-03-09", "CU-21"),
    "L26-32": ("VF45", 3201, 2201, ["RM-702", "RM-703"], "2026-05-11", "CU-34"),
    "L26-33": ("VF65", 3301, 2301, ["RM-704"], "2026-06-08", "CU-21"),
}
LENGTHS = [20, 20, 20, 30, 30, 30, 40, 40]
MODULES_PER_LOT = 26
CUSTOMERS = {"CU-21": "Harrow Vale Cellars (invented)", "CU-34": "Saltmarsh Cider House (invented)"}
ADDRESS = "3 Heron Quay, Nowhere"
MAKER = "Quillmere Membrane Works (invented)"


def specification(code):
    p = PRODUCTS[code]
    per = f"<= {p['df_limit']:.1f} mL/min"
    return {
        "approved_by": "P-01", "effective_from": "2026-01-19", "product_code": code,
        "product_description": f"pleated PES membrane cartridge, {p['rating']}, polypropylene cage, core and end caps",
        "nominal_rating": p["rating"],
        "rating_basis": f"retention of {p['organism']} by the maker's method; not a sterilising-grade claim",
        "module_nominal_length": "10 in", "assembly_lengths": ["20 in", "30 in", "40 in"],
        "module_effective_filtration_area": "0.58 m2",
        "reference_conditions": {"temperature": "20.0 degC", "pressure": "1013.25 mbar"},
        "decision_rule": {"name": "guarded_acceptance", "guard_band": "1.0 U", "basis": "JCGM 106:2012; agreed with both customers in writing (invented)"},
        "acceptance": [
            {"stage": "membrane", "quantity": "bubble_point", "limit": f">= {p['bp_min'] + 0.2:.2f} bar", "wetting_liquid": "water"},
            {"stage": "membrane", "quantity": "thickness", "limit": "110 um .. 150 um"},
            {"stage": "membrane", "quantity": "water_flux", "limit": f">= {p['flux_min']} mL/min/cm2", "at": "0.70 bar"},
            {"stage": "pleat_pack", "quantity": "pleat_count", "limit": "90 .. 94"},
            {"stage": "seal", "quantity": "peel_force", "limit": ">= 30 N per 15 mm", "sampling": "PLAN-PEEL"},
            {"stage": "seal", "quantity": "joint_pull_force", "limit": ">= 1500 N", "sampling": "PLAN-PULL"},
            {"stage": "module", "quantity": "diffusive_flow", "limit": per, "at": f"{p['df_at']} mbar", "test_gas": "nitrogen"},
            {"stage": "module", "quantity": "bubble_point", "limit": f">= {p['bp_min']:.2f} bar"},
            {"stage": "assembly", "quantity": "diffusive_flow", "limit": per + " per module", "at": f"{p['df_at']} mbar", "test_gas": "nitrogen"},
            {"stage": "assembly", "quantity": "bubble_point", "limit": f">= {p['bp_min']:.2f} bar"},
            {"stage": "assembly", "quantity": "straightness", "limit": "<= 2.0 mm"},
            {"stage": "in_service", "quantity": "flow_recovery", "limit": ">= 80 %"},
        ],
        "test_conditions": [
            {"stage": "module", "wetting_liquid": "water", "wetting_flush_volume": ">= 8.0 L", "liquid_temperature": "18 degC .. 22 degC", "stabilisation_time": ">= 180 s", "measurement_time": ">= 300 s"},
            {"stage": "assembly", "wetting_liquid": "water", "wetting_flush_volume": ">= 8.0 L per module", "liquid_temperature": "18 degC .. 22 degC", "stabilisation_time": ">= 180 s", "measurement_time": ">= 300 s"},
        ],
        "additivity_check": {"explain_above": "3 u", "block_above": "5 u", "permitted": "2.5 mL/min"},
        "bubble_point_criterion": f"pressure at which flow exceeds 1.5 x the diffusive line fitted below {p['fit']} mbar",
        "diffusive_flow_criterion": "slope of p/T by least squares over the whole measurement time",
        "retest_rule": {"maximum_tests_per_item": 3, "needs_deviation": True, "allowed_reason_codes": ["incomplete_wetting", "housing_leak", "temperature_out_of_range", "instrument_fault"], "maximum_same_reason_per_lot": 2},
        "uncertainty_contributions": [
            {"quantity": "diffusive_flow", "source": "upstream_volume", "relative": 0.008},
            {"quantity": "diffusive_flow", "source": "pressure_change", "absolute": "0.18 mbar"},
            {"quantity": "diffusive_flow", "source": "gas_temperature_drift", "absolute": "0.015 K"},
            {"quantity": "diffusive_flow", "source": "wetting_repeatability", "relative": 0.014, "degrees_of_freedom": 12},
            {"quantity": "bubble_point", "source": "pressure_calibration", "absolute": "4 mbar"},
            {"quantity": "bubble_point", "source": "step_and_criterion", "absolute": "20 mbar"},
            {"quantity": "thickness", "source": "foot_pressure", "absolute": "1.2 um"},
            {"quantity": "water_flux", "source": "water_temperature_and_area", "relative": 0.03},
            {"quantity": "slit_width", "source": "calliper", "absolute": "0.01 mm"},
            {"quantity": "straightness", "source": "straight_edge", "absolute": "0.1 mm"},
            {"quantity": "water_flow", "source": "flow_meter_and_gauge", "relative": 0.01},
            {"quantity": "flow_recovery", "source": "water_temperature", "relative": 0.004},
            {"quantity": "f0", "source": "recorder_temperature", "absolute": "0.2 K"},
        ],
        "sampling_plans": [
            {"id": "PLAN-PEEL", "standard": "ISO 3951-2:2013, s-method, level II, AQL 2.5, normal inspection; constant entered by the maker from its own copy", "sample_size": 5, "acceptability_constant": 1.24, "acceptable_quality_level": "2.5 %", "limiting_quality": "35 %", "applies_to": "pack_to_end_cap coupons, one set per seal_run"},
            {"id": "PLAN-PULL", "standard": "ISO 3951-2:2013, s-method, level II, AQL 1.5, normal inspection; constant entered by the maker from its own copy", "sample_size": 3, "acceptability_constant": 1.12, "acceptable_quality_level": "1.5 %", "applies_to": "module_to_module coupons, one set per seal_run"},
        ],
        **({"control_limits": [{"stage": "module", "quantity": "diffusive_flow", "lower": "7.45 mL/min", "upper": "8.95 mL/min", "frozen_on": "2026-01-15", "basis": "30 modules of the trial lots of autumn 2025, all in control (invented)"}]} if code == "VF45" else {}),
        "comparison_tolerance": {"diffusive_flow": "2 %", "bubble_point": "20 mbar", "hold_time": "1 min", "thickness": "1 um", "water_flux": "1 %"},
        "required_records_per_module": ["pleating_record", "seal_run", "seal_inspection", "module_test"],
        "required_records_per_assembly": ["assembly_build", "seal_run", "seal_inspection", "assembly_test"],
        "steam_hold_temperature": "121.0 degC",
        "retention_period": "10 a",
    }


def common(folder, ed):
    rng = random.Random(SEED)
    for code in ed.products:
        folder.add("specifications.yaml", record("product_specification", PRODUCTS[code]["spec"], "2026-01-12T09:00:00+01:00", "P-06", specification(code)))
    until = {"valid_from": "2026-01-05", "valid_until": "2026-12-31"}
    person = lambda pid, name, function, may, **more: {"person_id": pid, "printed_name": name, "function": function, "may": may, **until, **more}
    folder.add("people.yaml", record("personnel_authorisation", "PA-2026", "2026-01-05T08:30:00+01:00", "P-01", {"persons": [
        person("P-01", "Ada Quill (invented)", "quality_manager", ["release", "approve_deviation", "approve_specification", "personnel_authorisation"]),
        person("P-02", "Bram Heron (invented)", "quality_reviewer", ["review", "seal_inspection"]),
        person("P-03", "Cora Flint (invented)", "integrity_test_operator", ["module_test", "assembly_test", "membrane_test", "flow_test"], training_record="TR-103"),
        person("P-04", "Dov Marsh (invented)", "sealing_operator", ["seal_run", "assembly_build", "pleating_record", "slitting_record"], training_record="TR-104"),
        person("P-05", "Edda Lark (invented)", "inspector", ["seal_inspection", "marking_inspection", "lot_reconciliation"], training_record="TR-105"),
        person("P-06", "Finn Sedge (invented)", "validation_engineer", ["product_specification", "cycle_claim", "retention_challenge", "calibration_record", "material_lot", "deviation", "release_statement", "layer_stack", "element_geometry", "endurance_study", "measurement_study", "requirement", "signature_policy", "intake_mapping"]),
        person("P-09", "Jon Weir (invented)", "integrity_test_operator", ["module_test", "assembly_test"], training_record="TR-109"),
        person("P-08", "Isla Moor (invented)", "deputy_quality_manager", ["approve_deviation"]),
        person("P-07", "Hale Reeve (invented)", "quality_reviewer", ["review"]),
    ]}))
    # A customer's people stand apart: a copy for another customer shows the maker's alone.
    folder.add("people.yaml", record("personnel_authorisation", "PA-2026-CU-21", "2026-01-05T08:30:00+01:00", "P-01", {"persons": [
        person("C-21", "Gil Tarn (invented)", "plant_technician", ["cycle_log"], organisation="CU-21"),
    ]}))

    folder.add("intake.yaml", record("intake_mapping", "IM-SLIT", "2026-01-14T10:00:00+01:00", "P-06", {
        "makes": "slitting_record", "encoding": "windows-1252", "field_separator": ";", "decimal_separator": ",", "header_row": 2, "time_zone": "+01:00", "together": ["Sheet"],
        "fields": [
            {"field": "record_id", "column": "Sheet", "pattern": "ST-##-##"},
            {"field": "recorded_at", "column": "Begun (winter time)", "form": "%d.%m.%Y %H:%M"},
            {"field": "recorded_by", "column": "By", "words": {"dov": "P-04"}},
            {"field": "material_lot", "column": "Roll", "pattern": "RM-###"},
            {"field": "coil_id", "text": "{Roll}-{Coil}"},
            {"field": "blade_set", "column": "Blades"},
            {"field": "nominal_width", "text": "228.00 mm"},
            {"field": "tolerance", "text": "0.10 mm"},
            {"field": "instrument", "text": "CL-06"},
            {"field": "readings[].position", "column": "Position m", "unit": "m"},
            {"field": "readings[].width", "column": "Width mm", "unit": "mm"}]}))

    def calibration(rid, instrument, what, serial, on, until, points, quantities, file="instruments.yaml", **more):
        certificate = folder.file(f"attachments/{rid.lower()}.txt", f"Calibration certificate {rid} (invented)\nInstrument {instrument}, serial {serial}\nPerformed {on}\n" + "".join(f"{p['quantity']} at {p['nominal']}: as left {p['as_left_error']}, U = {p['expanded_uncertainty']} (k = 2)\n" for p in points))
        folder.add(file, record("calibration_record", rid, day(on, 1, "11:20"), "P-06", {
            "instrument_id": instrument, "instrument_description": what, "serial_number": serial, "measured_quantities": quantities,
            "calibration_performed_at": day(on, 0, "14:00"), "valid_from": on, "valid_until": until,
            "performed_by": "Calibration Laboratory Rushes (invented)", "accreditation": {"scheme": "ISO/IEC 17025:2017", "number": "INVENTED-0007"},
            "certificate": {"number": rid.replace("CA", "K"), **certificate}, "reference_standard_traceability": "national standard through K-REF-3 (invented)",
            "points": points, "as_found_within_limits": True, **more}))

    def point(quantity, nominal, found, left, u, mpe):
        return {"quantity": quantity, "nominal": nominal, "as_found_error": found, "as_left_error": left, "expanded_uncertainty": u, "coverage_factor": 2, "maximum_permissible_error": mpe}

    for rig, volume in (("IT-11", "2.420 L"), ("IT-12", "6.150 L")):
        calibration(f"CA-{rig}-26", rig, "pressure-decay test rig (invented)", f"0000-{rig}", "2026-01-20", "2027-01-19", [
            point("pressure_gauge", "1000 mbar", "+0.6 mbar", "+0.1 mbar", "0.5 mbar", "5 mbar"),
            point("pressure_gauge", "1700 mbar", "+1.1 mbar", "+0.2 mbar", "0.6 mbar", "5 mbar"),
            point("pressure_gauge", "3000 mbar", "+1.9 mbar", "+0.3 mbar", "0.9 mbar", "5 mbar"),
            point("gas_temperature", "20.0 degC", "-0.03 K", "-0.03 K", "0.05 K", "0.2 K"),
            point("upstream_volume", volume, "+0.008 L", "+0.008 L", "0.030 L", "0.150 L")], ["pressure_gauge", "gas_temperature", "upstream_volume"],
            clock_check={"instrument_clock": f"2026-01-20T14:20:{'05' if rig == 'IT-11' or not ed.faults else '55'}+01:00", "reference_clock": f"2026-01-20T14:{'20:00' if rig == 'IT-11' or not ed.faults else '19:20'}+01:00", "offset": "+5 s" if rig == "IT-11" or not ed.faults else "+95 s", "corrected": False})
    calibration("CA-FM-07-26", "FM-07", "flow meter with its gauge (invented)", "0000-FM-07", "2026-01-23", "2027-01-22", [point("flow", f"{f} L/min", "+0.05 L/min", "+0.02 L/min", "0.10 L/min", "0.5 L/min") for f in (5, 60)] + [point("pressure_gauge", f"{p} mbar", "+0.1 mbar", "+0.1 mbar", "0.1 mbar", "1 mbar") for p in (0.5, 400)], ["flow", "pressure_gauge"])
    calibration("CA-PT-05-26", "PT-05", "pressure gauge of the disc holder (invented)", "0000-PT-05", "2026-01-21", "2027-01-20", [point("pressure_gauge", f"{p:.2f} bar", "+0.002 bar", "+0.001 bar", "0.003 bar", "0.010 bar") for p in (0.5, 1.0, 3.5)], ["pressure_gauge"])
    calibration("CA-MC-08-26", "MC-08", "measuring cylinder and stop watch of the disc holder (invented)", "0000-MC-08", "2026-01-22", "2027-01-21", [point("collected_volume", f"{v} mL", "+0.5 mL", "+0.5 mL", "1.0 mL", "5 mL") for v in (100, 1000)], ["collected_volume"])
    calibration("CA-TH-04-26", "TH-04", "thickness gauge (invented)", "0000-TH-04", "2026-01-22", "2027-01-21", [point("thickness", f"{t} um", "+0.3 um", "+0.1 um", "0.5 um", "2 um") for t in (100, 160)], ["thickness"])
    calibration("CA-CL-06-26", "CL-06", "calliper (invented)", "0000-CL-06", "2026-01-22", "2027-01-21", [point("width", f"{w} mm", "+0.01 mm", "0.00 mm", "0.01 mm", "0.03 mm") for w in (200, 250)], ["width"])
    # The peel machine: its certificate ran out before the last lot; the next one was filed late.
    calibration("CA-PF-03-26", "PF-03", "peel and pull machine (invented)", "0000-PF-03", "2026-01-23", "2026-06-02" if ed.faults else "2027-01-22", [point("force", "30 N", "+0.2 N", "+0.1 N", "0.3 N", "1.0 N"), point("force", "4000 N", "+6 N", "+2 N", "8 N", "20 N")], ["force"])
    if ed.faults and ed.released:
        calibration("CA-PF-03-26B", "PF-03", "peel and pull machine (invented)", "0000-PF-03", "2026-06-03", "2027-06-02", [point("force", "30 N", "+0.3 N", "+0.1 N", "0.3 N", "1.0 N"), point("force", "4000 N", "+7 N", "+2 N", "8 N", "20 N")], ["force"])

    def lot(rid, kind, what, supplier, supplier_lot, at, amount, papers, written=None, revision={}, **more):
        folder.add("materials.yaml", record("material_lot", rid, written or day(at, 0, "10:15"), "P-06", {
            "material_type": kind, "material_description": what, "supplier_id": supplier, "supplier_name": f"Supplier {supplier[-2:]} (invented)", "supplier_lot": supplier_lot,
            "received_at": day(at, 0, "09:40"), "quantity_received": amount, **more,
            "inspection_document": {"type": "3.1", "number": f"{supplier_lot}-C"}, "food_contact_documents": papers, "incoming_status": "accepted"}, **revision))

    amended, use = "EU 10/2011 as amended by (EU) 2025/351", f"repeated use, all foods up to {100 if ed.faults else 125} degC / 30 min"
    plastic = [{"regulation": amended, "document": "DOC-41", "issued": "2025-11-03", "covers": use}]
    # The papers of the adapters came without the amendment; new ones were asked for.
    moulded = [{"regulation": "EU 10/2011" if ed.as_found else amended, "document": "DOC-42B" if ed.faults and ed.released else "DOC-42", "issued": "2026-09-29" if ed.faults and ed.released else "2025-06-12", "covers": use}]
    for rid, code in ed.rolls.items():
        at = "2026-02-09" if rid in ("RM-701", "RM-702") else "2026-04-13"
        lot(rid, "membrane_roll", f"polyethersulfone membrane, {PRODUCTS[code]['rating']}, hydrophilic", "SU-11", "QM-701" if rid == "RM-702" else f"QM-{rid[-3:]}", at, "240.0 m", plastic, roll_width="260 mm", shelf_life_until="2028-03-31",
            supplier_reported=[{"quantity": "bubble_point", "value": f"{PRODUCTS[code]['roll_bp']:.2f} bar", "method": "ASTM F316, water"}])
    lot("SL-21", "support_layer", "polypropylene support, upstream", "SU-12", "UP-2101", "2026-02-10", "900 m", plastic)
    lot("SL-23", "prefilter_layer", "polyethersulfone prefilter, 0.8 um", "SU-11", "PM-2304", "2026-02-10", "900 m", plastic)
    lot("SL-22", "support_layer", "polypropylene support, downstream", "SU-12", "DN-2102", "2026-02-10", "900 m", plastic)
    lot("PC-31", "resin_part", "polypropylene end caps", "SU-13", "EC-3107", "2026-02-11", "400 pieces", plastic)
    lot("CO-36", "resin_part", "polypropylene cores", "SU-13", "CO-3601", "2026-02-11", "400 pieces", plastic)
    lot("CG-37", "resin_part", "polypropylene cages", "SU-13", "CG-3702", "2026-02-11", "400 pieces", plastic)
    lot("AD-32", "resin_part", "polypropylene adapters, double o-ring", "SU-13", "AD-3203", "2026-02-11", "100 pieces", moulded, written=at_revision(ed, None), revision={**ed.revised(), "reason": "declaration that names the amendment"})
    lot("TP-33", "resin_part", "polypropylene solid tips, drained", "SU-13", "TP-3302", "2026-02-11", "100 pieces", plastic)
    lot("RG-34", "stainless_ring", "adapter support ring, 1.4404, loose fit", "SU-14", "RG-3401", "2026-02-12", "100 pieces", written="2026-02-17T08:50:00+01:00" if ed.faults else None, papers=[{"regulation": "EC 1935/2004", "document": "DEC-34", "issued": "2025-10-14"}])
    lot("OR-35", "o_ring", "o-rings, EPDM", "SU-15", "OR-3509", "2026-02-12", "200 pieces", [{"regulation": "21 CFR 177.2600", "document": "LTR-35", "issued": "2025-09-02"}, {"regulation": "EC 1935/2004 (rubber: national rules)", "document": "LTR-36", "issued": "2025-09-02"}], shelf_life_until="2030-12-31")

    for n, (rid, code) in enumerate(ed.rolls.items()):
        p = PRODUCTS[code]
        at = "2026-02-23" if rid in ("RM-701", "RM-702") else "2026-04-27"
        bp = [p["roll_bp"] + rng.uniform(-0.03, 0.03) for _ in range(3)]
        # Two discs more: of three, the scatter has two degrees of freedom, too few for a coverage factor that can be relied on.
        discs = random.Random(f"{SEED}-discs-{rid}")
        bp += [p["roll_bp"] + discs.uniform(-0.03, 0.03) for _ in range(2)]
        thick = [128 + rng.randint(-2, 2) for _ in range(5)]
        volume = p["flux"] * 13.8 * (1 + rng.uniform(-0.02, 0.02))
        folder.add("membrane-tests.yaml", record("membrane_test", f"MB-26-{41 + n}", day(at, 0, "09:42"), "P-03", {
            "material_lot": rid, "sample_position": "0.5 m", "sample_id": f"{rid}-S1", "specification": {"id": p["spec"], "revision": 1}, "conditioning": "water, 20 degC, 30 min",
            "wetting_liquid": "water", "surface_tension": "72.7 mN/m", "instruments": {"pressure": "PT-05", "thickness": "TH-04", "water_flux": "MC-08"},
            "measurements": [
                {"quantity": "bubble_point", "method": "ASTM F316 method A", "disc_diameter": "47 mm", "readings": [f"{b:.2f} bar" for b in bp], "reported_mean": f"{sum(round(b, 2) for b in bp) / len(bp):.2f} bar", "verdict": "pass"},
                {"quantity": "thickness", "readings": [f"{t} um" for t in thick], "reported_mean": f"{sum(thick) / 5:.0f} um", "verdict": "pass"},
                {"quantity": "water_flux", "at": "0.70 bar", "liquid_temperature": "20.0 degC", "collected_volume": f"{volume:.0f} mL", "collection_time": "60.0 s", "exposed_area": "13.8 cm2", "reported_value": f"{round(volume) / 13.8:.1f} mL/min/cm2", "verdict": "pass"}]}, source="manual_entry"))
        widths = [f"{228.0 + 0.03 * math.sin(i / 2.3 + n) + rng.gauss(0, 0.012):.2f}" for i in range(24)]
        begun = winter_time(day(at, 3, "13:10"))
        sheet, spoilt = f"ST-26-{61 + n}", ed.faults and rid == "RM-704"
        read = [{"position": f"{10 * i}.0 m", "width": f"{w} mm"} for i, w in enumerate(widths)]
        if spoilt and not ed.released:
            # A reading that somebody made rounder after it had been taken in.
            read[13]["width"] = "228.00 mm"
        folder.add("slitting.yaml", record("slitting_record", sheet, at_revision(ed, begun, spoilt), "P-04", {
            "taken_from": caliper_log(folder, sheet, rid, begun, widths),
            "material_lot": rid, "coil_id": f"{rid}-C1", "blade_set": "BS-2", "nominal_width": "228.00 mm", "tolerance": "0.10 mm", "instrument": "CL-06",
            "readings": read}, source="instrument_export", **ed.revised(spoilt), reason="width at 130 m as the caliper exported it"))

    claims = lambda code: [
        {"treatment": "steam_in_place", "temperature_max": "123 degC", "time_per_cycle": "35 min", "differential_pressure_max": "300 mbar", "cycles_claimed": 50, "cycles_tested": 65, "elements_tested": 3, "end_test": "diffusive_flow and bubble_point within the specification"},
        {"treatment": "hot_water", "temperature_max": "85 degC", "time_per_cycle": "30 min", "cycles_claimed": 120, "cycles_tested": 150, "elements_tested": 3},
        {"treatment": "back_flush", "temperature_max": "40 degC", "reverse_differential_pressure_max": "1.5 bar", "cycles_claimed": 250, "cycles_tested": 280, "elements_tested": 3},
        {"treatment": "caustic", "agent": "sodium hydroxide 1 %", "temperature_max": "50 degC", "time_per_cycle": "30 min", "cycles_claimed": 45 if ed.as_found and code == "VF65" else 40, "cycles_tested": 43 if code == "VF65" and not ed.as_found else 50, "elements_tested": 3}]
    for code in ed.products:
        evidence = folder.file(f"attachments/vr-{code.lower()}.txt", f"Endurance report VR-{code} (invented)\nThree elements for each treatment, tested as the endurance studies of this dossier record; what failed on the way stands there.\n")
        folder.add("claims.yaml", record("cycle_claim", f"CC-{code[2:]}", at_revision(ed, "2026-01-14T11:00:00+01:00", code == "VF65"), "P-06", {
            "approved_by": "P-01", "product_code": code, "claims": claims(code), "combination_rule": "claims are not additive; each treatment is counted on its own, and the element is retired at the first claim reached",
            "not_covered": ["steam above 123 degC", "any treatment with pressure in the reverse direction above 80 degC"], "age_limit_in_service": "24 mo",
            "evidence": {"report": f"VR-{code}", **evidence}, "valid_from": "2026-01-19"}, **ed.revised(code == "VF65"), reason="caustic claim lowered to what the study supports"))

    for n, (rid, code) in enumerate((rid, code) for rid, code in ed.rolls.items() if rid != "RM-702"):
        p, challenged = PRODUCTS[code], "2026-05-04" if ed.faults else "2026-03-04"
        run = lambda number, total, volume, colonies=0, **more: {"run": number, "sample": f"{rid}-S{number + 4}", "exposed_area": "13.8 cm2", "challenge_total": f"{total:.2e} CFU".replace("e+0", "e"), "challenge_per_area": f"{total / 13.8:.1e} CFU/cm2".replace("e+0", "e"), "differential_pressure": "0.50 bar", "filtrate_volume": volume, "fraction_assayed": 1.0, "colonies": colonies, **more}
        runs = [run(1, 1.62e8, "500 mL"), run(2, 1.48e8, "500 mL")]
        if rid == "RM-703" and ed.faults:
            # A challenge that was stopped too early to show what is claimed.
            runs[1] = run(2, 3.9e6, "55 mL", note="stopped after 55 mL, pump fault")
            if ed.released:
                runs.append(run(3, 1.55e8, "500 mL", performed_on="2026-09-28", note="after the pump was mended; positive, negative and viability controls made anew and valid"))
        folder.add("retention.yaml", record("retention_challenge", f"RC-26-{14 + n}", at_revision(ed, day(challenged, 0, "16:30"), rid == "RM-703"), "P-06", {
            "method": "RM-12 revision 3, after ASTM D3863 (organism) and ASTM F838 (level per area)", "laboratory": {"name": "Microbiology Laboratory Reed (invented)", "accreditation": "ISO/IEC 17025, INVENTED-0009"},
            "organism": {"name": p["organism"], "strain": "culture collection number in RM-12"}, "material_lot": rid, "claim_under_test": f"LRV >= 7.0 at {p['rating']}", "runs": runs,
            "controls": {"positive_passage": {"membrane": "0.8 um control", "colonies": "too many to count", "verdict": "valid"}, "negative": {"colonies": 0, "verdict": "valid"}, "viability_after_contact": {"recovery": "92 %", "verdict": "valid"}},
            "incubation": {"medium": "nutrient agar", "temperature": "30 degC", "start": day(challenged, -4, "17:00"), "end": day(challenged, 0, "15:00")},
            "reported": {"statement": "no passage"}}, **ed.revised(rid == "RM-703"), reason="run 3 added after the pump was mended; run 2 stays visible"))


def element_test(folder, rng, kind, element, number, rig, run, at, code, flow, bubble, modules=1, flush=None, drift=None, extra=None, fail=False, said=None):
    p = PRODUCTS[code]
    prefix = "MT" if kind == "module_test" else "AT"
    rid = f"{prefix}-{element[2:]}-{number}"
    trace = folder.file(f"traces/{rid.lower()}-df.csv", decay(rng, flow, RIG_VOLUME[rig], p["df_at"], rng.uniform(-0.012, 0.012) if drift is None else drift))
    measurements = [{
        "quantity": "diffusive_flow", "method": "pressure_decay", "test_gas": "nitrogen", "test_pressure": f"{p['df_at']} mbar", "atmospheric_pressure": f"{P_AMB / 100:.1f} mbar",
        "upstream_volume": f"{RIG_VOLUME[rig] * 1e3:.3f} L", "stabilisation_time": "180 s", "measurement_time": "300 s", "reference_conditions": {"temperature": "20.0 degC", "pressure": "1013.25 mbar"},
        "trace": trace, "instrument_reported": {"value": f"{flow * (1 - 0.5 * 300 / (RIG_VOLUME[rig] * p['df_at'] * 100 / (P_REF * flow * 1e-6 / 60))):.1f} mL/min", "verdict": "fail" if fail else "pass"}}]
    if bubble is None:
        measurements.append({"quantity": "bubble_point", "not_measured_reason": "test stopped after diffusive_flow failed"})
    else:
        ramp_file = folder.file(f"traces/{rid.lower()}-bp.csv", ramp(rng, flow, p["df_at"], bubble))
        measurements.append({"quantity": "bubble_point", "method": "stepped_pressure_ramp", "test_gas": "nitrogen", "trace": ramp_file, "instrument_reported": {"value": f"{bubble:.2f} bar", "verdict": "pass"}})
    head = {"module_id" if kind == "module_test" else "assembly_id": element, "test_number": number}
    if kind == "assembly_test":
        head["test_stage"] = "final_after_adapter_and_tip"
    folder.add(f"{'module' if modules == 1 else 'assembly'}-tests/{code.lower()}.yaml", record(kind, rid, at, "P-03", {
        **head, **(extra or {}), "specification": {"id": p["spec"], "revision": 1}, "instrument_id": rig, "instrument_run_id": run, "wetting_liquid": "water", "wetting_liquid_conductivity": "1.1 uS/cm",
        "wetting_flush_volume": f"{flush or 8.0 * modules + 0.2:.1f} L", "wetting_liquid_temperature": "20.1 degC", "gas_temperature": "20.1 degC", "measurements": measurements}, source="instrument_export"))
    return rid


def lots(folder, ed):
    runs = {"IT-11": 400, "IT-12": 800}
    left = {rid: 240.0 for rid in ed.rolls}

    def next_run(rig):
        runs[rig] += 1
        return f"RUN-{runs[rig]:04d}"

    for lot, (code, first_module, first_assembly, rolls, start, customer) in ed.lots.items():
        p, rng = PRODUCTS[code], random.Random(f"{SEED}-{lot}")
        modules = [f"M-26-{first_module + i}" for i in range(ed.modules_per_lot)]
        true_flow = {m: p["flow"] * (1 + rng.gauss(0, 0.025)) for m in modules}
        true_bubble = {m: p["bp"] + rng.gauss(0, 0.018) for m in modules}
        if lot == "L26-32":
            true_bubble["M-26-3207"] = 2.462
        half = -(-ed.modules_per_lot // len(rolls))
        packs = []
        for i, m in enumerate(modules):
            roll = rolls[min(i // half, len(rolls) - 1)]
            begin = (1.5 if not (lot == "L26-32" and roll == "RM-702") else 40.7) + 2.9 * (i % half if len(rolls) > 1 else i)
            packs.append({"module_id": m, "material_lot": roll, "from": f"{begin:.1f} m", "to": f"{begin + 2.9:.1f} m", "pleat_count": 92 if i % 11 else 91, "visual": "accepted"})
        folder.add("pleating.yaml", record("pleating_record", f"PL-{lot}", day(start, 0, "15:30"), "P-04", {
            "lot_id": lot, "pleating_machine": "PM-1", "pleat_height": "14.8 mm", "pleated_length": "228 mm", "pleat_count_nominal": 92, "support_layers": {"upstream": "SL-21", "prefilter": "SL-23", "downstream": "SL-22"}, "core_lot": "CO-36", "cage_lot": "CG-37", "packs": packs}, source="manual_entry"))
        cap = f"SR-{lot}-C"
        folder.add("seals.yaml", record("seal_run", cap, day(start, 1, "13:45"), "P-04", {
            "seal_type": "pack_to_end_cap", "heating": "induction_heated_plate", "equipment_id": "WS-2",
            "setpoints": {"plate_temperature": "266 degC", "heating_time": "11.0 s", "joining_path": "1.50 mm"}, "actuals": {"plate_temperature_mean": "265 degC", "heating_time": "11.0 s", "joining_path": "1.48 mm"},
            "validated_window": {"document": "WV-1 revision 5", "plate_temperature": "255 degC .. 280 degC", "heating_time": "9 s .. 13 s", "joining_path": "1.30 mm .. 1.70 mm"},
            "end_cap_lot": "PC-31", "trace": folder.file(f"traces/{cap.lower()}.csv", plate(rng, 265, 11)), "items": modules, "coupons": [f"CP-{lot}-{i}" for i in range(1, 7 if ed.faults and lot == "L26-32" else 6)]}, source="instrument_export"))
        peel = [45.5 + rng.gauss(0, 1.5) for _ in range(5)]
        width = [15.0 + rng.choice([-0.1, 0.0, 0.0, 0.1]) for _ in range(5)]
        coupons = [{"coupon": f"CP-{lot}-{i + 1}", "peel_force": f"{f:.1f} N", "strip_width": f"{w:.1f} mm", "failure_mode": "base_material"} for i, (f, w) in enumerate(zip(peel, width))]
        slipped = ed.faults and lot == "L26-32"
        if slipped:  # one coupon slipped in the clamp; the spare was peeled later
            coupons[2].update(valid=False, note="slipped in the clamp")
            del coupons[2]["peel_force"]
            coupons += [{"coupon": f"CP-{lot}-6", "peel_force": "45.1 N", "strip_width": "15.0 mm", "failure_mode": "base_material"}] if ed.released else []
        per15 = [float(c["peel_force"][:-2]) * 15.0 / float(c["strip_width"][:-3]) for c in coupons if c.get("valid", True)]
        mean = sum(per15) / len(per15)
        sd = math.sqrt(sum((x - mean) ** 2 for x in per15) / (len(per15) - 1))
        folder.add("seals.yaml", record("seal_inspection", f"SI-{lot}-C", at_revision(ed, day(start, 1, "16:20"), slipped), "P-05", {
            "seal_run": cap, "sampling_plan": "PLAN-PEEL",
            "visual": [{"module_id": m, "end": end, "bead": "continuous", "discolouration": "none", "inclusion": "none", "bead_width": f"{1.9 + rng.uniform(-0.15, 0.15):.1f} mm", "gap_or_slit": "none", "verdict": "pass"} for m in modules for end in ("closed", "outlet")],
            "destructive": {"instrument_id": "PF-03", "method": "peel of membrane pack from end-cap polypropylene, 15 mm strip, 100 mm/min, 23 degC",
                            "results": coupons,
                            "reported": {"mean": f"{mean:.1f} N", "standard_deviation": f"{sd:.1f} N", "quality_statistic": round((mean - 30) / sd, 2), "verdict": "pass"}}}, source="manual_entry", **ed.revised(slipped), reason="the spare coupon was peeled in place of the one that slipped"))

        # The rig counts its runs in the order of time; a repeat comes at the end of its day.
        begin = lambda i: day(start, 3 + i // 13, clock(8 * 60 + 30 * (i % 13)))
        again = {"M-26-3109": day(start, 3, "16:50"), "M-26-3214": day(start, 4, "16:10")}
        order = sorted([(begin(i), m, 1) for i, m in enumerate(modules)] + [(at, m, 2) for m, at in again.items() if m in modules])
        run = {(m, number): next_run("IT-11") for _, m, number in order}
        for i, m in enumerate(modules):
            tested = lambda: true_flow[m] * (1 + rng.gauss(0, 0.006))
            if m == "M-26-3109":  # incomplete wetting, shown by the flush volume
                element_test(folder, rng, "module_test", m, 1, "IT-11", run[m, 1], begin(i), code, 18.9, None, flush=2.1, fail=True)
                element_test(folder, rng, "module_test", m, 2, "IT-11", run[m, 2], again[m], code, tested(), true_bubble[m], extra={"retest_of": "MT-26-3109-1", "retest_deviation": "DV-26-31", "retest_reason_code": "incomplete_wetting"})
            elif m == "M-26-3214":  # fails, is tested again until it passes
                element_test(folder, rng, "module_test", m, 1, "IT-11", run[m, 1], begin(i), code, 17.2, None, fail=True)
                element_test(folder, rng, "module_test", m, 2, "IT-11", run[m, 2], again[m], code, tested(), true_bubble[m], extra={"retest_of": "MT-26-3214-1", "retest_deviation": "DV-26-33", "retest_reason_code": "incomplete_wetting"})
            else:
                element_test(folder, rng, "module_test", m, 1, "IT-11", run[m, 1], begin(i), code, tested(), true_bubble[m])

        used, assemblies = 0, []
        join = f"SR-{lot}-J"
        items = []
        for i, length in enumerate(ed.lengths):
            a, count = f"A-26-{first_assembly + i}", length // 10
            own = modules[used:used + count]
            used += count
            listed = list(own)
            if a == "A-26-2305" and ed.as_found:
                listed[1] = "M-26-3309"  # written twice: it is in A-26-2304 too
            assemblies.append((a, length, own))
            items += [{"assembly_id": a, "joint": j} for j in range(1, count)]
            folder.add("assemblies.yaml", record("assembly_build", f"AB-26-{first_assembly + i}", at_revision(ed, day(start, 7, clock(9 * 60 + 25 * i)), a == "A-26-2305"), "P-04", {
                "assembly_id": a, "product_code": f"{code}-{length}", "nominal_length": f"{length} in", "modules": [{"position": j + 1, "module_id": m} for j, m in enumerate(listed)],
                "joints": [{"joint": j, "between": [j, j + 1], "seal_run": join, "alignment": f"{0.1 + 0.05 * ((i + j) % 3):.2f} mm"} for j in range(1, count)],
                "adapter": {"type": "double o-ring, three-tab", "material_lot": "AD-32", "seal_run": f"SR-{lot}-A", "stainless_ring_lot": "RG-34", "ring_turns_freely": not (ed.faults and a == "A-26-2306"), "ring_radial_clearance": f"{0.80 + rng.uniform(-0.03, 0.03):.2f} mm" if not (ed.faults and a == "A-26-2306") else "0.05 mm"},
                "end_piece": {"type": "solid_tip_drained", "material_lot": "TP-33", "seal_run": f"SR-{lot}-E", "drain_path_clear": True, "retained_water_after_drain": f"{0.4 + rng.uniform(-0.1, 0.1):.1f} mL"},
                "o_rings": {"material_lot": "OR-35", "material": "EPDM (elastomer, outside EU 10/2011)", "quantity": 2},
                "overall_length": f"{(whole := length * 25.4 + 20 + rng.uniform(-0.6, 0.6)):.1f} mm", "straightness": f"{0.8 + rng.uniform(-0.3, 0.3):.1f} mm",
                "length_before": f"{whole + 1.6 * (count - 1):.1f} mm", "straightness_before": f"{0.3 + 0.1 * (i % 3):.1f} mm"},
                **ed.revised(a == "A-26-2305"), reason="position 2 read again on the element: M-26-3311, not M-26-3309"))
        window = {"document": "WV-2 revision 4", "emitter_temperature": "795 degC .. 825 degC", "heating_time": "16 s .. 20 s", "joining_path": "0.65 mm .. 0.95 mm"}
        for suffix, kind in (("J", "module_to_module"), ("A", "adapter"), ("E", "end_piece")):
            rid = f"SR-{lot}-{suffix}"
            folder.add("seals.yaml", record("seal_run", rid, day(start, 7, "12:40"), "P-04", {
                "seal_type": kind, "heating": "infrared_contact_free", "equipment_id": "WS-1", "setpoints": {"emitter_temperature": "810 degC", "emitter_gap": "6.0 mm", "heating_time": "18.0 s", "joining_path": "0.80 mm"},
                "actuals": {"emitter_temperature_mean": f"{811 + rng.randint(-3, 3)} degC", "heating_time": "18.0 s", "changeover_time": "1.3 s", "joining_path": "0.79 mm"}, "validated_window": window,
                "trace": folder.file(f"traces/{rid.lower()}.csv", plate(rng, 811, 18)), "items": items if suffix == "J" else [{"assembly_id": a} for a, *_ in assemblies], "coupons": [f"CP-{lot}-J{i}" for i in range(1, 4)] if suffix == "J" else []}, source="instrument_export"))
        pull = [2620 + rng.gauss(0, 90) for _ in range(3)]
        mean = sum(round(f) for f in pull) / 3
        sd = math.sqrt(sum((round(f) - mean) ** 2 for f in pull) / 2)
        folder.add("seals.yaml", record("seal_inspection", f"SI-{lot}-J", day(start, 7, "15:40"), "P-05", {
            "seal_run": join, "sampling_plan": "PLAN-PULL",
            "visual": [{**item, "bead": "continuous", "discolouration": "none", "inclusion": "none", "bead_width": f"{2.1 + rng.uniform(-0.2, 0.2):.1f} mm", "gap_or_slit": "none", "verdict": "pass"} for item in items],
            "destructive": {"instrument_id": "PF-03", "method": "pull to break of joined end caps without packs, 20 mm/min, 23 degC", "results": [{"coupon": f"CP-{lot}-J{i + 1}", "joint_pull_force": f"{f:.0f} N", "failure_mode": "base_material"} for i, f in enumerate(pull)],
                            "reported": {"mean": f"{mean:.0f} N", "standard_deviation": f"{sd:.0f} N", "quality_statistic": round((mean - 1500) / sd, 2), "verdict": "pass"}}}, source="manual_entry"))
        for suffix in ("A", "E"):
            # One night the reviewer stood in for the inspector.
            by = "P-02" if ed.faults and (lot, suffix) == ("L26-32", "A") else "P-05"
            folder.add("seals.yaml", record("seal_inspection", f"SI-{lot}-{suffix}", day(start, 7, "15:50"), by, {
                "seal_run": f"SR-{lot}-{suffix}", "visual": [{"assembly_id": a, "bead": "continuous", "discolouration": "none", "inclusion": "none", "bead_width": f"{2.1 + rng.uniform(-0.2, 0.2):.1f} mm", "gap_or_slit": "none", "verdict": "pass"} for a, *_ in assemblies]}, source="manual_entry"))
        for i, (a, length, own) in enumerate(assemblies):
            flow = sum(true_flow[m] for m in own) * (1 + rng.gauss(0, 0.006))
            bubble = min(true_bubble[m] for m in own) - abs(rng.gauss(0, 0.004))
            if ed.faults and a == "A-26-2105":
                flow += 4.4  # a leaking join, far below the assembly limit
            if ed.faults and a == "A-26-2204":
                bubble = 2.424  # within its uncertainty of the limit
            element_test(folder, rng, "assembly_test", a, 1, "IT-12", next_run("IT-12"), day(start, 9, clock(8 * 60 + 40 * i)), code, flow, bubble, modules=length // 10)

        held = {"A-26-2105": "DV-26-34", "A-26-2204": "DV-26-35", "A-26-2206": "DV-26-33", "A-26-2306": "DV-26-41"} if ed.faults and ed.released else {}
        held = {a: d for a, d in held.items() if a in [x for x, *_ in assemblies]}
        reads = [{"item": m, "text_read": f"{code} {lot} {p['rating']} {m[5:]}", "legible": True} for m in modules]
        # One symbol was printed twice.
        symbol = lambda a: "A-26-2301" if ed.as_found and a == "A-26-2302" else a
        reads += [{"item": a, "symbol": "Data Matrix", "symbol_data": f"(10){lot}(21){symbol(a)}", "legible": True} for a, *_ in assemblies]
        folder.add("marks.yaml", record("marking_inspection", f"MK-{lot}", at_revision(ed, day(start, 10, "15:10"), lot == "L26-33"), "P-05", {
            "lot_id": lot, "marking_method": "hot_stamp", "expected": {"product_code": code, "batch": lot, "nominal_rating": p["rating"]}, "reads": reads,
            "label_claims": [p["rating"], "for food contact", "steam 123 degC max"], "rub_test": {"liquid": "ethanol 70 %", "strokes": 50, "verdict": "pass"}}, source="manual_entry", **ed.revised(lot == "L26-33"), reason="symbol of A-26-2302 replaced and read again"))
        loose, balance = modules[used:], []
        for roll in rolls:
            metres = sum(2.9 for pack in packs if pack["material_lot"] == roll)
            received, left[roll] = left[roll], left[roll] - metres - 1.5
            balance.append({"material_lot": roll, "received": f"{received:.1f} m", "used_in_this_lot": f"{metres:.1f} m", "test_and_trim": "1.5 m", "remaining": f"{left[roll]:.1f} m"})
        folder.add("lots.yaml", record("lot_reconciliation", f"LR-{lot}", at_revision(ed, day(start, 11, "09:15"), bool(held)), "P-05", {
            "lot_id": lot, "product_code": code, "modules_started": len(modules),
            "disposition": [{"state": "in_assembly", "assembly_id": a, "modules": own} for a, _, own in assemblies]
            + [{"state": "destroyed_as_sample", "modules": loose[:1], "reason": "sectioned at both end caps"}, {"state": "in_stock", "modules": loose[1:], "location": "cage 4"}],
            "assemblies_built": len(assemblies), "balance": f"{len(modules)} = {used} + 1 + {len(loose) - 1}",
            "exclusions": [{"item": a, "reason_code": "held", "deviation": d} for a, d in held.items()], "roll_balance": balance},
            **ed.revised(bool(held)), reason="items held after review are excluded"))
        rs = f"RS-{lot}"
        out = [a for a, *_ in assemblies if a not in held]
        disclosed = {"L26-31": ["DV-26-31"], "L26-32": ["DV-26-33"]}.get(lot, []) if ed.faults else []
        if ed.faults and ed.released:
            everywhere = ["DV-26-39", "DV-26-43", "DV-26-44"]
            disclosed = {"L26-31": ["DV-26-31", "DV-26-34", "DV-26-37", "DV-26-40", "DV-26-45"], "L26-32": ["DV-26-33", "DV-26-35", "DV-26-38", "DV-26-47"], "L26-33": ["DV-26-36", "DV-26-41", "DV-26-42", "DV-26-46"]}[lot] + everywhere
        signed = lambda person, name, function, meaning, at: {"person_id": person, "printed_name": name, "function": function, "meaning": meaning, "signed_at": at}
        on = "2026-10-05" if ed.faults and ed.released else day(start, 16)[:10]
        reviewer = ("P-07", "Hale Reeve (invented)") if ed.faults and ed.released else ("P-02", "Bram Heron (invented)")
        place = {} if ed.as_found and lot == "L26-33" else {"place_of_issue": "Nowhere"}
        folder.add("releases.yaml", record("release_statement", rs, day(on, 0, "10:00"), "P-06", {
            "document_type": "supplier's declaration of conformity (ISO/IEC 17050-1:2004), with specific inspection results",
            "issuer": {"name": MAKER, "address": ADDRESS}, **place, "issued_on": on, "customer": {"customer_id": customer, "name": CUSTOMERS[customer], "order": f"PO-{lot[1:]}"},
            "object": {"product_code": code, "lot_id": lot, "assemblies": out, "quantity": len(out)},
            "requirements": [{"document": p["spec"], "revision": 1}, {"document": "EC 1935/2004"}, {"document": "EU 10/2011 (plastic parts)"}],
            "statement": f"The items named conform to the requirements named, under the decision rule of {p['spec']} revision 1.",
            "limitations": ["not a sterilising-grade filter; no claim of sterility", f"cycle claims CC-{code[2:]} hold only inside their conditions"] + [f"{a} of the same lot is held and not part of this release ({d})" for a, d in held.items()],
            "deviations_disclosed": disclosed,
            "consignment": {"dispatch_note": f"DN-{lot[1:]}", "packages": len(out), "consignee": customer},
            "signatures": [signed("P-06", "Finn Sedge (invented)", "validation_engineer", "authorship", day(on, 0, "10:05")), signed(*reviewer, "quality_reviewer", "review", day(on, 0, "11:40")), signed("P-01", "Ada Quill (invented)", "quality_manager", "release", day(on, 0, "14:50"))],
            "retention_until": "2036-12-31"}, **ed.revised(), reason="revision 1 was prepared and never issued; items held after review are taken out, deviations disclosed"))


def service(folder, ed):
    rng = random.Random(f"{SEED}-service")
    for n, (element, carried) in enumerate([("A-26-2101", 11), ("A-26-2104", 14)] if ed.faults else [("A-26-2101", 11)]):
        log = f"CL-26-{5 + n}"
        events = []
        for i, date in enumerate(["2026-09-07", "2026-09-10", "2026-09-14"]):
            gap = (27.2, 35.6) if n == 1 and i == 2 else None
            begin = 5 * 60 + 52 + 30 * n
            if n == 1 and i == 1:
                events.append({"sequence": carried + 1 + i, "treatment": "steam_in_place", "start": f"{date}T{clock(begin)}:00+02:00", "evidence": "operator_statement", "remark": "after a line stop, recorder not started"})
                continue
            trace = folder.file(f"traces/{log.lower()}-s{carried + 1 + i:03d}.csv", steam(rng, date, begin, gap))
            events.append({"sequence": carried + 1 + i, "treatment": "steam_in_place", "start": f"{date}T{clock(begin)}:00+02:00", "evidence": "trace", "trace": trace, "reported": {"hold_time": "34 min", "temperature_max": "121.7 degC"}, "differential_pressure_max": "190 mbar"})
        if ed.faults:
            events.append({"sequence": 1, "treatment": "hot_water", "start": "2026-09-11T05:40:00+02:00", "evidence": "machine_counter", "reported": {"temperature": "82 degC", "hold_time": "20 min"}})
        flow = f"{8.3 * (2 if n == 0 else 3):.1f} mL/min"
        tests = [{"at": "2026-09-14T07:10:00+02:00", "quantity": "diffusive_flow", "value": flow, "at_pressure": "1700 mbar", "verdict": "pass", "stage": "after_steam"}]
        if n == 0:  # the other element was not tested after its run
            tests.append({"at": "2026-09-14T17:40:00+02:00", "quantity": "diffusive_flow", "value": f"{float(flow[:-7]) + 0.3:.1f} mL/min", "at_pressure": "1700 mbar", "verdict": "pass", "stage": "end_of_run"})
        folder.add("service.yaml", record("cycle_log", log, "2026-09-21T08:10:00+02:00", "C-21", {
            "site": {"customer_id": "CU-21", "line": "line 1", "housing": f"H-1-0{3 + n}", "position": 1}, "assembly_id": element, "installed_at": f"2026-0{5 - n}-04T06:30:00+02:00", "removed_at": None,
            "claim": {"id": "CC-45", "revision": 1}, "count_carried_forward": {"treatment": "steam_in_place", "cycles": carried, "evidence": "earlier sheets of the plant, every cycle with a trace"},
            "events": events,
            "in_service_integrity_tests": tests, "production_runs": [{"run": f"B-{40 + n}", "start": "2026-09-14T08:00:00+02:00", "end": "2026-09-14T17:00:00+02:00", "volume": "18000 L"}],
            "storage_between_runs": "wet, 0.5 % sulphite-citric solution, below 15 degC", "remarks": "two elements of the lot, placed for trial ahead of the release"}))

    if not ed.faults:
        return

    def deviation(rid, at, fields, **more):
        folder.add("deviations.yaml", record("deviation", rid, at, "P-06", fields, **more))

    deviation("DV-26-31", "2026-03-12T16:20:00+01:00", {
        "subject": {"module_id": "M-26-3109", "failed_test": "MT-26-3109-1", "retest": "MT-26-3109-2"}, "detected_at": "2026-03-12T12:40:00+01:00", "category": "retest",
        "description": "diffusive flow far above the limit; flush volume 2.1 L against the required 8.0 L", "cause": {"known": True, "reason_code": "incomplete_wetting", "evidence": "wetting_flush_volume in MT-26-3109-1"},
        "action_before_retest": "wetted again with 8.2 L, housing seals looked at, nothing else changed", "retest_allowed_by": "P-01", "retest_authorised_at": "2026-03-12T16:20:00+01:00",
        "impact": "module may be used; the failed trace stays in the dossier", "decision": "accept_after_retest", "preventive_action": "interlock of the flush volume", "approved_by": "P-01", "approved_at": "2026-03-13T09:10:00+01:00"})
    reject = {"decision": "hold", "impact": "A-26-2206 holds the module and is held", "next_step": "cut open and look; no further test decides about it"} if ed.released else {"decision": "accept_after_retest", "impact": "module may be used"}
    deviation("DV-26-33", at_revision(ed, "2026-05-18T09:30:00+02:00"), {
        "subject": {"module": "M-26-3214", "failed_test": "MT-26-3214-1", "retest": "MT-26-3214-2", **({"assembly_id": "A-26-2206"} if ed.released else {})}, "detected_at": "2026-05-15T09:00:00+02:00", "category": "retest",
        "description": "diffusive flow above the limit, tested again the same day and passed", "cause": {"known": False, "text": "flush volume, temperature and housing were in order"},
        "retest_allowed_by": "P-01", "retest_authorised_at": "2026-05-18T09:30:00+02:00", **reject, "approved_by": "P-01", "approved_at": "2026-05-19T10:00:00+02:00" if not ed.released else "2026-10-01T09:00:00+02:00"}, **ed.revised(), reason="decided anew: the retest had no cause and was authorised after it ran")
    # A trial of the rig that somebody kept among the traces.
    folder.file("traces/at-26-2103-0-df.csv", decay(rng, 16.9, RIG_VOLUME["IT-12"], 1700, 0.0))
    if ed.released:
        deviation("DV-26-34", "2026-09-28T10:00:00+02:00", {
            "subject": {"assembly_id": "A-26-2105", "test": "AT-26-2105-1"}, "detected_at": "2026-09-28T09:00:00+02:00", "category": "nonconforming_product",
            "description": "flow of the assembly above the sum of its modules by more than 5 u, though below the assembly limit", "cause": {"known": False, "text": "join 1 or 2 suspected"},
            "impact": "held; not in this release", "decision": "hold", "next_step": "repeat in a second housing, then cut the joins open", "approved_by": "P-01", "approved_at": "2026-09-30T10:00:00+02:00"})
        deviation("DV-26-35", "2026-09-28T10:20:00+02:00", {
            "subject": {"assembly_id": "A-26-2204", "test": "AT-26-2204-1"}, "detected_at": "2026-09-28T09:10:00+02:00", "category": "undecided",
            "description": "bubble point within its uncertainty of the limit; the rig printed pass", "cause": {"known": False, "text": "module M-26-3207 is the weakest of the three"},
            "impact": "held; not in this release", "decision": "hold", "next_step": "repeat with 10 mbar steps under a plan approved before the test", "approved_by": "P-01", "approved_at": "2026-09-30T10:10:00+02:00"})
        deviation("DV-26-36", "2026-09-28T10:40:00+02:00", {
            "subject": {"lot_id": "L26-33", "build": "AB-26-2305", "record": "AB-26-2305 revision 2"}, "detected_at": "2026-09-28T09:20:00+02:00", "category": "data",
            "description": "M-26-3309 stood in two build records; the marks were read on both elements", "cause": {"known": True, "text": "slip of the pen"},
            "impact": "record corrected in revision 2", "decision": "concession", "approved_by": "P-01", "approved_at": "2026-09-30T10:20:00+02:00"})
        deviation("DV-26-37", "2026-09-28T11:00:00+02:00", {
            "subject": {"log": "CL-26-6", "element": "A-26-2104", "log_2": "CL-26-5"}, "detected_at": "2026-09-25T09:20:00+02:00", "category": "data",
            "description": "gap in one steam trace, one cycle on the operator's word, hot water counted by the line only, one run without a test after it", "cause": {"known": True, "text": "recorder lost power; recorder not started"},
            "impact": "all cycles count against life; those without a whole trace prove nothing", "decision": "concession", "approved_by": "P-01", "approved_at": "2026-09-30T10:30:00+02:00"})
        deviation("DV-26-38", "2026-09-28T11:10:00+02:00", {
            "subject": {"run": "RC-26-15/run-2"}, "detected_at": "2026-09-25T09:30:00+02:00", "category": "exclusion",
            "description": "run 2 of the challenge was stopped after 55 mL and cannot show a log reduction of 7", "cause": {"known": True, "text": "pump fault"},
            "impact": "run 2 is not used for the claim and stays visible; run 3 was made", "decision": "exclude_result_keep_visible", "approved_by": "P-01", "approved_at": "2026-09-30T10:40:00+02:00"})
        approved = lambda minutes: {"approved_by": "P-01", "approved_at": f"2026-09-30T11:{minutes}:00+02:00"}
        deviation("DV-26-39", "2026-09-28T11:20:00+02:00", {
            "subject": {"lots": list(LOTS), "document": "DOC-41", "document_2": "DOC-42B"}, "detected_at": "2026-09-28T09:30:00+02:00", "category": "data",
            "description": "the declarations cover 100 degC for 30 min, the claim includes steam at 123 degC", "cause": {"known": True, "text": "no food is present while steaming; water rinses the element before wine enters"},
            "impact": "none on food; the supplier is asked about repeated use after steaming", "decision": "concession", **approved("00")})
        deviation("DV-26-40", "2026-09-28T11:30:00+02:00", {
            "subject": {"lot_id": "L26-31", "file": "traces/at-26-2103-0-df.csv"}, "detected_at": "2026-09-28T09:40:00+02:00", "category": "exclusion",
            "description": "a trace of a trial of the rig, made before the first test of the day, without a run number", "cause": {"known": True, "text": "leak check of the hoses with the element in place"},
            "impact": "none; kept as it was found", "decision": "exclude_result_keep_visible", **approved("05")})
        deviation("DV-26-45", "2026-09-28T12:20:00+02:00", {
            "subject": {"lot_id": "L26-31", "element": "A-26-2101", "element_2": "A-26-2104"}, "detected_at": "2026-09-28T10:05:00+02:00", "category": "exclusion",
            "description": "two assemblies were fitted for a trial before the lot was released", "cause": {"known": True, "text": "trial agreed with CU-21 in writing, wine of the trial held by the customer until the release (invented)"},
            "impact": "both count their cycles from the day of fitting", "decision": "concession", **approved("30")})
        deviation("DV-26-41", "2026-09-28T11:40:00+02:00", {
            "subject": {"assembly_id": "A-26-2306"}, "detected_at": "2026-09-28T09:45:00+02:00", "category": "nonconforming_product",
            "description": "the stainless ring does not turn: the plastic grips it", "cause": {"known": False, "text": "adapter pressed too deep, or shrunk on"},
            "impact": "held; not in this release", "decision": "hold", "next_step": "cut the adapter open and measure it", **approved("10")})
        deviation("DV-26-42", "2026-09-28T11:50:00+02:00", {
            "subject": {"lot_id": "L26-33", "assembly": "A-26-2302", "record": "MK-L26-33 revision 2"}, "detected_at": "2026-09-28T09:50:00+02:00", "category": "marking",
            "description": "the symbol of A-26-2301 stood on A-26-2302 too", "cause": {"known": True, "text": "label printed twice; the stamped marks of the modules say which element it is"},
            "impact": "symbol replaced and read again", "decision": "concession", **approved("15")})
        deviation("DV-26-43", "2026-09-28T12:00:00+02:00", {
            "subject": {"lots": list(LOTS), "material": "RG-34"}, "detected_at": "2026-09-28T09:55:00+02:00", "category": "data",
            "description": "the receipt of the rings was recorded five days late, from the delivery note", "cause": {"known": True, "text": "stores closed"},
            "impact": "none", "decision": "concession", **approved("20")})
        by_hand = lambda what, known: {"description": what, "cause": {"known": True, "text": f"copied by hand; {known} which is right"}, "impact": "no decision changes; both revisions stay in the dossier", "decision": "concession"}
        deviation("DV-26-46", "2026-09-28T12:30:00+02:00", {
            "subject": {"lot_id": "L26-33", "record": "ST-26-64 revision 2"}, "detected_at": "2026-09-28T10:10:00+02:00", "category": "data",
            **by_hand("a width stood in the record otherwise than in the export", "the export of the calliper shows"), **approved("35")})
        deviation("DV-26-47", "2026-09-28T12:40:00+02:00", {
            "subject": {"lot_id": "L26-32", "record": "SI-L26-32-C revision 2"}, "detected_at": "2026-09-28T10:15:00+02:00", "category": "data",
            "description": "of five coupons one slipped in the clamp, and four are too few for the plan; the spare coupon was peeled in its place and the statistics were computed anew", "cause": {"known": True, "text": "clamp not tight"}, "impact": "the run is decided by five coupons; both revisions stay in the dossier", "decision": "concession", **approved("40")})
        deviation("DV-26-44", "2026-09-28T12:10:00+02:00", {
            "subject": {"lots": list(LOTS), "instrument": "IT-12"}, "detected_at": "2026-09-28T10:00:00+02:00", "category": "calibration",
            "description": "the clock of IT-12 was 95 s ahead at its check and was not set", "cause": {"known": True, "text": "no reference clock at the rig"},
            "impact": "run numbers keep the order of the tests; no two are closer than half an hour", "decision": "concession", **approved("25")})


CHAPTERS = {
    "narrative/01-what-this-is.md": """# What this dossier covers

Three lots of pleated membrane cartridges: two of 0.45 µm and one of 0.65 µm, built to 20, 30 and 40 inch. Everything in it,
the maker included, is invented; it shows what a release looks like.

The rating is a name for retention of a test organism. It is **not** a sterilising-grade claim.
""",
    "narrative/02-how-joins-are-judged.md": """# How joins are judged

A limit for the whole assembly is a multiple of the limit for a module, so a good assembly runs far below it and a leaking
join can hide underneath. Each assembly is therefore held against the sum of its own modules.

| assembly | flow | over the sum of its modules |
|---|---|---|
| A-26-2101 | [[diffusive-flow@AT-26-2101-1]] | [[join-residual@AT-26-2101-1]] |
| A-26-2105 | [[diffusive-flow@AT-26-2105-1]] | [[join-residual@AT-26-2105-1]] |
| A-26-2307 | [[diffusive-flow@AT-26-2307-1]] | [[join-residual@AT-26-2307-1]] |

A-26-2105 lies far below its limit of flow and still does not add up: as one hole the excess would be about
[[leak-diameter@AT-26-2105-1]] wide.
""",
    "narrative/03-what-is-not-shown.md": """# What this dossier does not show

* No study of extractables, and none of migration after repeated steaming: see the deviation on the declarations.
* No validation with any one wine. Retention is shown with a test organism on flat membrane.
* Endurance with steam and caustic is shown by studies of three elements each; hot water and back-flushing rest on the maker's report.
""",
}


WHOLE = dict(products=PRODUCTS, rolls=ROLLS, lots=LOTS, lengths=LENGTHS, modules_per_lot=MODULES_PER_LOT)
EDITIONS = {
    "as-found": Edition(faults=True, released=False, **WHOLE),
    "released": Edition(faults=True, released=True, **WHOLE),
    "sound": Edition(faults=False, released=True, products={"VF45": PRODUCTS["VF45"]}, rolls={r: "VF45" for r in ("RM-701", "RM-702")}, lots={"L26-31": LOTS["L26-31"]}, lengths=[20, 30], modules_per_lot=8),
}


def build(root, name):
    """The folder of one edition, not yet written."""
    ed, folder = EDITIONS[name], Folder(root)
    common(folder, ed)
    lots(folder, ed)
    service(folder, ed)
    studies(folder, ed)
    # What the as-found edition cites and lacks is a chapter that was never written.
    chapters = [chapter for chapter in CHAPTERS if ed.faults or chapter == "narrative/01-what-this-is.md"]
    for chapter in chapters:
        if not (ed.as_found and chapter == "narrative/03-what-is-not-shown.md"):
            folder.files[chapter] = CHAPTERS[chapter]
    listed = [chapter for chapter in chapters if chapter in folder.files]
    later = ed.faults and ed.released
    head = [
        "kind: dossier", 'record_format: "1"', f"id: {'QM-2026-3' if ed.faults else 'QM-2026-1'}", f"revision: {2 if later else 1}",
        f'title: "{"Lots L26-31, L26-32 and L26-33" if ed.faults else "Lot L26-31"}: validation dossier"',
    ]
    if later:
        head += ["supersedes: {id: QM-2026-3, revision: 1}", 'change_reason: "faults of revision 1 cleared: items held, records corrected, certificate filed, challenge completed"']
    head += [
        f'maker: {{name: "{MAKER}", address: "{ADDRESS}"}}', "customers:"] + [f'  - {{customer_id: {c}, name: "{n}"}}' for c, n in CUSTOMERS.items()] + [
        f"scope: {{lots: [{', '.join(ed.lots)}]}}", f'compiled_on: "{"2026-10-05" if later else "2026-09-25"}"', "language: en", "chapters:"] + [f"  - {name}" for name in listed] + [
        "expected_signers:", "  - {person_id: P-06, meaning: prepared}", f"  - {{person_id: {'P-07' if later else 'P-02'}, meaning: reviewed}}", "  - {person_id: P-01, meaning: approved for release}"]
    # Whoever uses records of their own draws their own; this one is public and hides nothing.
    folder.files["copies.key"] = hashlib.sha256(b"the invented key of an invented dossier").hexdigest() + "\n"
    folder.files["dossier.yaml"] = "\n".join(head) + "\n"
    return folder


def key(text):
    lines = text.splitlines()
    return lines[0], lines[1]


def keep_superseded(new, old):
    """Every revised record stands beside the revision that it replaces."""
    before = {key(text): text for texts in old.records.values() for text in texts}
    for texts in new.records.values():
        texts += [before[key(text)] for text in texts if "\nrevision: 2\n" in text]


def main():
    arguments = [one for one in sys.argv[1:] if one != "--sound"]
    target = pathlib.Path(arguments[0]) if arguments else HERE
    if "--sound" in sys.argv:
        build(target, "sound").write()
        return
    as_found, released = build(target / "as-found", "as-found"), build(target / "released", "released")
    keep_superseded(released, as_found)
    as_found.write()
    released.write()


if __name__ == "__main__":
    main()
