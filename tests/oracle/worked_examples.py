"""A second computation of every worked example, written apart from the program.

Each figure's law stands here once more in plain Python; slopes come from central differences, so
that neither the program's formula tree nor its differentiation takes part. Inputs and the printed
result are read from the figure's file. The Poisson bound comes from scipy's chi-squared quantile,
the fits from numpy, the properties of water from
the formulation IAPWS-95 in the package iapws (the program uses the supplementary release SR6-08).

    python3 tests/oracle/worked_examples.py src/figures
"""
import math
import pathlib
import re
import sys

import numpy as np
from iapws import IAPWS95
from scipy.optimize import brentq
from scipy.stats import beta, chi2, f, t

UNIT = {
    "bar": 1e5, "mbar": 1e2, "mbar_abs": 1e2, "um": 1e-6, "mm": 1e-3, "mL/min": 1e-6 / 60, "L": 1e-3, "mL": 1e-6, "s": 1.0, "min": 60.0,
    "L/min": 1e-3 / 60, "mbar/(L/min)": 6e6, "mbar/(L/min)²": 3.6e11, "1/K": 1.0,
    "%": 0.01, "cm2": 1e-4, "N": 1.0, "N per 15 mm": 1 / 0.015, "CFU": 1.0, "K": 1.0, "degC": 1.0, "J/(mol·K)": 1.0, "kg/mol": 1.0, "": 1.0,
}
PRINTED = {"µm": 1e-6, "µm²": 1e-12, "mL/min/cm²": 1e-2 / 60, "m²": 1.0, "CFU/cm²": 1e4, "°C": 1.0, "%": 0.01, **UNIT}


def read(text):
    number, _, unit = text.partition(" ")
    return float(number) * UNIT[unit] + (273.15 if unit == "degC" else 0.0)


def width(text):
    number, _, unit = text.partition(" ")
    return float(number) * UNIT[unit]


def mean(x):
    return sum(x) / len(x)


def spread(x):
    return math.sqrt(sum((v - mean(x)) ** 2 for v in x) / (len(x) - 1))


def crossing(p, q, k, below):
    fit = [(a, b) for a, b in zip(p, q) if a < below]
    slope, level = np.polyfit([a for a, _ in fit], [b for _, b in fit], 1)
    ratio = [b / (level + slope * a) for a, b in zip(p, q)]
    i = next(i for i in range(len(p)) if p[i] >= below and ratio[i] > k)
    return p[i - 1] + (k - ratio[i - 1]) / (ratio[i] - ratio[i - 1]) * (p[i] - p[i - 1])


def lethal(dt, a, b, reference, z):
    total = 0.0
    for d, x, y in zip(dt, a, b):
        fine = np.linspace(x, y, 20001)
        total += d * np.trapezoid(10 ** ((fine - reference) / z), dx=1 / 20000)
    return total


def warmer(readings, v):
    """What it was where the recorder read too low by its error."""
    return [reading + v["δ_T"][0] for reading in readings]


def above(dt, a, b, hold):
    total = 0.0
    for d, x, y in zip(dt, a, b):
        low, high = min(x, y), max(x, y)
        total += d * (1.0 if low >= hold else 0.0 if high < hold else (high - hold) / (high - low))
    return total


def flow(v):
    t, p, temperature = np.array(v["t"]), np.array(v["p"]) + v["p_amb"][0], np.array(v["T"])
    slope = np.polyfit(t, p / temperature, 1)[0]
    correction = (v["δ_p"][0] + v["δ_s"][0] - p.mean() * v["δ_T"][0] / temperature.mean()) / (temperature.mean() * v["t_m"][0])
    return v["V"][0] * v["T_ref"][0] / v["p_ref"][0] * (correction - slope)


def leak(v):
    rate = v["r"][0] * v["p_ref"][0] / (v["R"][0] * v["T_ref"][0]) * v["M"][0]
    area = rate * math.sqrt(v["R"][0] * v["T"][0] / v["M"][0]) / (v["C_d"][0] * v["p_u"][0] * v["ψ"][0])
    return math.sqrt(4 * area / math.pi)


def grows(v):
    warm = v["T"][0] - v["T_0"][0]
    return v["D_o"][0] * (1 + v["α_o"][0] * warm) - v["D_i"][0] * (1 + v["α_i"][0] * warm)


def through_origin(q, dp):
    a, b = np.linalg.lstsq(np.array([[x, x * x] for x in q]) * [1, 1], np.array(dp), rcond=None)[0]
    return a, b


def water(temperature):
    return IAPWS95(T=temperature, P=0.1)


def supported(v):
    x, y, n = np.array(v["c"]), np.array(v["P"]), len(v["c"])
    (b, a), sxx = np.polyfit(x, y, 1), ((x - x.mean()) ** 2).sum()
    s = math.sqrt(((y - a - b * x) ** 2).sum() / (n - 2))
    bound = lambda c: a + b * c - t.ppf(v["1−α"][0], n - 2) * s * math.sqrt(1 / n + (c - x.mean()) ** 2 / sxx) - v["P_min"][0]
    met = brentq(bound, 0, 1000) if bound(1000) < 0 else math.inf
    return math.floor(min(met, v["n_r"][0]))


def within(y, cells):
    groups = {}
    for value, cell in zip(y, cells):
        groups.setdefault(cell, []).append(value)
    return math.sqrt(sum(np.var(g) * len(g) for g in groups.values()) / sum(len(g) - 1 for g in groups.values()))


def single(y, items, operators):
    a, b = sorted(set(items)), sorted(set(operators))
    cube = np.array([[[x for x, i, j in zip(y, items, operators) if (i, j) == (p, o)] for o in b] for p in a])
    n = cube.shape[2]
    fitted = np.add.outer(cube.mean(axis=(1, 2)), cube.mean(axis=(0, 2))) - cube.mean()
    both = n * ((cube.mean(axis=2) - fitted) ** 2).sum() / ((len(a) - 1) * (len(b) - 1))
    repeats = ((cube - cube.mean(axis=2, keepdims=True)) ** 2).sum() / (len(a) * len(b) * (n - 1))
    operator = len(a) * n * ((cube.mean(axis=(0, 2)) - cube.mean()) ** 2).sum() / (len(b) - 1)
    freedom = ((len(a) - 1) * (len(b) - 1), len(a) * len(b) * (n - 1))
    if f.sf(both / repeats, *freedom) > 0.25:
        pooled = (both * freedom[0] + repeats * freedom[1]) / sum(freedom)
        return math.sqrt(pooled + max(0, (operator - pooled) / (len(a) * n)))
    return math.sqrt(repeats + max(0, (operator - both) / (len(a) * n)) + max(0, (both - repeats) / n))


LAWS = {
    "bubble_point_decline": lambda v: np.polyfit(v["c"], v["P"], 1)[0],
    "clearance_cold": grows,
    "clearance_hot": grows,
    "collapse_margin": lambda v: v["p_w"][0] / v["p_c"][0],
    "cycle_reliability": lambda v: beta.ppf(1 - v["1−α"][0], v["n"][0] - v["n_f"][0], v["n_f"][0] + 1),
    "cycles_supported": lambda v: min(v["n_e"]),
    "element_cycles_supported": supported,
    "flow_recovery": lambda v: v["Q_a"][0] / v["Q_n"][0],
    "flow_resistance": lambda v: (through_origin(v["Q"], v["ΔP"])[0] + v["δ_a"][0] - through_origin(v["Q_b"], v["ΔP_b"])[0] - v["δ_ab"][0]) * water(v["T_20"][0]).mu / water(v["T_w"][0]).mu,
    "flow_resistance_quadratic": lambda v: (through_origin(v["Q"], v["ΔP"])[1] - v["δ_s"][0] + v["δ_o"][0] - through_origin(v["Q_b"], v["ΔP_b"])[1] + v["δ_sb"][0] - v["δ_ob"][0]) * water(v["T_20"][0]).rho / water(v["T_w"][0]).rho,
    "pleat_room": lambda v: math.pi * v["D_c"][0] / v["N"][0] - 2 * sum(v["t_i"]),
    "repeatability": lambda v: within(v["y"], v["k"]) / mean(v["y"]),
    "reproducibility": lambda v: single(v["y"], v["i"], v["j"]) / mean(v["y"]),
    "ring_clearance_hot": lambda v: 2 * v["s"][0] + (v["D_o"][0] * v["α_o"][0] - v["D_i"][0] * v["α_i"][0]) * (v["T"][0] - v["T_0"][0]),
    "water_flow": lambda v: max(np.roots([v["b"][0], v["a"][0], -v["ΔP_0"][0]]).real),
    "bubble_point": lambda v: crossing(v["p"], v["q"], v["k"][0], v["p_fit"][0]),
    "bubble_point_drop": lambda v: min(v["P_mod"]) - v["P_asm"][0],
    "challenge_density": lambda v: v["N_0"][0] / v["A"][0],
    "cycles_left": lambda v: v["n_0"][0] - v["n_u"][0],
    "cycles_proven": lambda v: sum(v["n_c"]) + sum(v["n_i"]),
    "cycles_used": lambda v: sum(v["n_c"]) + sum(v["n_i"]),
    "diffusive_flow": flow,
    "f0_full": lambda v: lethal(v["Δt"], warmer(v["T_a"], v), warmer(v["T_b"], v), v["T_ref"][0], v["z"][0]),
    "f0_proven": lambda v: lethal(v["Δt"], warmer(v["T_a"], v), warmer(v["T_b"], v), v["T_ref"][0], v["z"][0]),
    "hold_time_full": lambda v: above(v["Δt"], v["T_a"], v["T_b"], v["T_hold"][0]),
    "hold_time_proven": lambda v: above(v["Δt"], v["T_a"], v["T_b"], v["T_hold"][0]),
    "joining_loss": lambda v: (v["l_b"][0] - v["l_a"][0]) / v["n_j"][0],
    "straightness": lambda v: v["e_m"][0],
    "join_residual": lambda v: v["Q_asm"][0] - sum(q * f for q, f in zip(v["Q_mod"], v["φ"])),
    "leak_diameter": leak,
    "log_reduction_bound": lambda v: math.log10(v["N_0"][0] * v["f"][0] / (v["N_1"][0] * chi2.ppf(v["1−α"][0], 2 * (v["n"][0] + 1)) / 2)),
    "membrane_bubble_point": lambda v: mean(v["P"]) + v["δ_s"][0],
    "membrane_thickness": lambda v: mean(v["t"]) + v["δ_s"][0],
    "membrane_water_flux": lambda v: v["V"][0] / v["t"][0] / v["A"][0],
    "peel_force": lambda v: mean([f / b for f, b in zip(v["F_i"], v["b_i"])]),
    "peel_force_quality": lambda v: (mean([f / b for f, b in zip(v["F_i"], v["b_i"])]) - v["F_min"][0]) / spread([f / b for f, b in zip(v["F_i"], v["b_i"])]),
    "pleat_count": lambda v: v["N_p"][0],
    "pleated_area": lambda v: 2 * v["N"][0] * v["h"][0] * v["w"][0],
    "pull_force_quality": lambda v: (mean(v["F_i"]) - v["F_min"][0]) / spread(v["F_i"]),
    "smallest_margin": lambda v: min(v["m_i"]),
    "slit_width": lambda v: mean(v["w_i"]),
    "slit_width_deviation": lambda v: max(abs(w - v["w_0"][0]) for w in v["w_i"]),
    "slit_width_spread": lambda v: spread(v["w_i"]),
}


def check(path):
    text = path.read_text()
    # A figure may take inputs from the files that it imports.
    texts = [path.with_name(name + ".rs").read_text() for name in re.findall(r"(\w+)::", text) if path.with_name(name + ".rs").exists()]
    symbols = {}
    for source in [*texts, text]:
        symbols.update(re.findall(r'const (\w+): Input = Input \{\s*symbol: "([^"]+)"', source))
    example = text[text.index("example: Example"):]
    given = re.findall(r'\(\s*(\w+),\s*"([^"]+)",\s*"([^"]+)",?\s*\)', example[: example.index("gives:")])
    gives = re.search(r'gives: "([^"]+)"', example).group(1)
    names = [symbols[const] for const, _, _ in given]
    values = [read(value) for _, value, _ in given]
    doubts = [width(u) for _, _, u in given]

    def law(numbers):
        bound = {}
        for name, number in zip(names, numbers):
            bound.setdefault(name, []).append(number)
        return LAWS[path.stem](bound)

    value, variance = law(values), 0.0
    for i, u in enumerate(doubts):
        if u:
            h = abs(values[i]) * 1e-6 or 1e-9
            moved = [values[:i] + [values[i] + s * h] + values[i + 1:] for s in (1, -1)]
            variance += ((law(moved[0]) - law(moved[1])) / (2 * h) * u) ** 2
    printed = re.match(r"([−\d.]+)(?: ± ([\d.]+))?(?: (.*))?$", gives)
    factor = PRINTED[printed.group(3) or ""]
    places = len(printed.group(1).partition(".")[2])
    shown, u = value / factor, math.sqrt(variance) / factor
    step = 10.0 ** -places if places else 1.0
    if not places and u >= 100:
        step = 10.0 ** (math.floor(math.log10(u)) - 1)
    good = abs(shown - float(printed.group(1).replace("−", "-"))) <= 0.5001 * step
    good &= printed.group(2) is None or abs(u - float(printed.group(2))) <= 0.5001 * step
    print(f"{'inside ' if good else 'OUTSIDE'} {path.stem}: {shown:.6g} ± {u:.3g}, printed {gives}")
    return good


def main():
    files = sorted(path for path in pathlib.Path(sys.argv[1]).glob("*.rs") if path.stem != "mod")
    missing = [path.stem for path in files if path.stem not in LAWS]
    results = [check(path) for path in files if path.stem in LAWS]
    print(f"{sum(results)} inside, {len(results) - sum(results)} outside, {len(missing)} without a second law {missing}")
    return 0 if all(results) and not missing and results else 1


if __name__ == "__main__":
    sys.exit(main())
