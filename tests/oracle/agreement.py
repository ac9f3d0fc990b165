"""The program's physics beside general-purpose libraries of the Python package index, over a grid.

Each family below computes expectations with a library that shares no code with the program, writes
them as rows of the check file's form, has the program compute the same rows, and prints how far the
two are apart. A tolerance is what the library's own formulation or its numerical method allows; the
reason stands beside it.

    python3 tests/oracle/agreement.py target/release/examples/outside [tests/data/reference.csv]

With a second path the rows are kept there, so that the tests of the program hold them without Python.
"""
import csv
import importlib.metadata
import math
import pathlib
import re
import subprocess
import sys
import tempfile

import fluids
import iapws
import numpy as np
from iapws import IAPWS95, IAPWS97
from scipy import integrate, interpolate, optimize, stats
from uncertainties import correlated_values, ufloat

FAMILIES = {}


def family(name, library, relative, why):
    """Registers a function that yields (inputs, expected, unit)."""
    def register(function):
        FAMILIES[name] = (function, library, relative, why)
        return function
    return register



def row(fields, expected, unit):
    """Inputs as pairs of name with unit and value; a list is written with strokes between."""
    text = ";".join(f"{name}={'|'.join(repr(float(x)) for x in value) if isinstance(value, (list, np.ndarray)) else value}" for name, value in fields)
    return text, expected, unit


@family("water.surface_tension", "iapws", 1e-12, "the same published formula, R1-76(2014)")
def _():
    for t in np.linspace(274, 370, 25):
        yield row([("T[K]", t)], iapws._iapws._Tension(t) * 1e3, "mN/m")


@family("water.density", "iapws", 2e-6, "SR6-08 beside IAPWS-95, of which it is a fit")
def _():
    for t in np.linspace(274, 370, 25):
        yield row([("T[K]", t), ("p[Pa]", 100000)], IAPWS95(T=t, P=0.1).rho, "kg/m3")


@family("water.viscosity", "iapws", 1.7e-3, "SR6-08 beside R12-08, whose own uncertainty is 0.17 % at 20 degC")
def _():
    for t in np.linspace(274, 370, 25):
        yield row([("T[K]", t), ("p[Pa]", 100000)], IAPWS95(T=t, P=0.1).mu * 1e6, "uPa*s")


@family("water.saturation_pressure", "iapws", 1e-9, "the same published formula, R7-97(2012)")
def _():
    for t in np.linspace(274, 420, 25):
        yield row([("T[K]", t)], IAPWS97(T=t, x=0).P, "MPa")


@family("water.saturation_temperature", "iapws", 1e-9, "the same published formula, R7-97(2012)")
def _():
    for p in np.linspace(2e3, 4e5, 25):
        yield row([("p_abs[Pa]", p)], IAPWS97(P=p / 1e6, x=0).T, "K")


@family("henry.ln_kH", "iapws", 1e-9, "the same published formula, G7-04")
def _():
    for gas in ("N2", "O2"):
        for t in np.linspace(280, 360, 9):
            yield row([("T[K]", t), ("gas", gas)], math.log(iapws._iapws._Henry(t, gas) / 1e3), "ln(kH/GPa)")


@family("leak.orifice_diameter_choked", "fluids", 1e-4, "API 520 in the library, with its rounded constants")
def _():
    for flow in (0.1, 0.84, 5.0, 40.0):
        for up in (230e3, 271325.0, 400e3):
            mass = flow * 1e-6 / 60 * 101325 / (8.31446261815324 * 293.15) * 0.0280134
            area = fluids.API520_A_g(m=mass, T=293.15, Z=1.0, MW=28.0134, k=1.4, P1=up, P2=101325.0, Kd=1.0, Kb=1.0, Kc=1.0)
            yield row([("Q_leak[mL/min]", flow), ("p_ref[Pa]", 101325), ("T_ref[K]", 293.15), ("p_up_abs[Pa]", up), ("p_down_abs[Pa]", 101325), ("T[K]", 293.15), ("M[kg/mol]", 0.0280134), ("gamma_gas[-]", 1.4), ("Cd[-]", 1)],
                      math.sqrt(4 * area / math.pi) * 1e6, "um")


@family("pressure_hold.fit_time_constant", "scipy", 1e-6, "least squares by another algorithm")
def _():
    dice = np.random.default_rng(7)
    for tau in (2e4, 5.2e4, 1.5e5):
        t = np.arange(0, 601, 60.0)
        p = 170000 * np.exp(-t / tau) + dice.normal(0, 3, len(t))
        fit, _ = optimize.curve_fit(lambda x, a, b: a * np.exp(-x / b), t, p, p0=(170000, tau), xtol=1e-14, ftol=1e-14)
        yield row([("t[s]", t), ("dP_gauge[Pa]", p)], fit[1], "s")


@family("water_flow.fit_a", "numpy", 1e-9, "linear least squares by singular values")
def _():
    yield from parts_of_flow(0, "Pa*s/m3")


@family("water_flow.fit_b", "numpy", 1e-9, "linear least squares by singular values")
def _():
    yield from parts_of_flow(1, "Pa*s2/m6")


def parts_of_flow(which, unit):
    dice = np.random.default_rng(11)
    for a, b in ((1.8e7, 2.9e9), (5e6, 8e9), (6e7, 1e9)):
        q = np.linspace(0.0004, 0.0026, 8)
        dp = a * q + b * q * q + dice.normal(0, 30, len(q))
        fit = np.linalg.lstsq(np.column_stack((q, q * q)), dp, rcond=None)[0]
        yield row([("Q[m3/s]", q), ("dP[Pa]", dp)], fit[which], unit)


@family("retention.poisson_upper", "scipy", 1e-9, "chi-squared quantile")
def _():
    for n in (0, 1, 2, 5, 17, 120):
        yield row([("n", n), ("confidence_two_sided[-]", 0.95)], stats.chi2.ppf(0.975, 2 * n + 2) / 2, "CFU")


@family("lethality.F0_trapezoid", "scipy", 1e-9, "trapezoids of the rate")
def _():
    dice = np.random.default_rng(3)
    for _ in range(5):
        t = np.cumsum(dice.uniform(0.3, 1.5, 20))
        temperature = dice.uniform(100, 124, 20)
        yield row([("t[min]", t), ("T[degC]", temperature), ("T_ref[degC]", 121.1), ("z[K]", 10)], integrate.trapezoid(10 ** ((temperature - 121.1) / 10), t), "min")


@family("pressure_hold.flow_u", "uncertainties", 1e-6, "first-order propagation of correlated inputs, slopes by the library")
def _():
    for drop, r_p, r_t in ((680.0, 0.9, 0.8), (2400.0, 0.0, 0.0), (300.0, 0.99, 0.5)):
        p1, p2 = correlated_values([271325, 271325 - drop], [[400, r_p * 400], [r_p * 400, 400]])
        t1, t2 = correlated_values([293.15, 293.15], [[0.0025, r_t * 0.0025], [r_t * 0.0025, 0.0025]])
        volume, dt = ufloat(0.00235, 1.2e-5), ufloat(300, 0.5)
        flow = volume * (p1 / t1 - p2 / t2) / dt * 293.15 / 101325 * 6e7
        yield row([("V_up[m3]", 0.00235), ("u_V[m3]", 1.2e-5), ("p1_abs[Pa]", 271325), ("p2_abs[Pa]", 271325 - drop), ("u_p[Pa]", 20), ("r_p12[-]", r_p), ("T1[K]", 293.15), ("T2[K]", 293.15), ("u_T[K]", 0.05), ("r_T12[-]", r_t), ("dt[s]", 300), ("u_dt[s]", 0.5), ("p_ref[Pa]", 101325), ("T_ref[K]", 293.15)],
                  flow.std_dev, "mL/min")


@family("uncertainty.t_factor", "scipy", 1e-9, "quantile of Student's t")
def _():
    for nu in (1, 2, 3, 7, 30, 200):
        yield row([("nu", nu), ("p[-]", 0.95)], stats.t.ppf(0.975, nu), "-")


@family("conformity.probability_upper", "scipy", 1e-9, "normal distribution function")
def _():
    for y in (-5.6, -5.47, -5.4, -5.3):
        yield row([("y[V]", y), ("u[V]", 0.05), ("T_U[V]", -5.4)], stats.norm.cdf((-5.4 - y) / 0.05), "-")


# Ethanol and 2-propanol with water at 25 degC, mass fraction and mN/m, as the program has them (from memory).
TABLES = {
    "ethanol": [72.01, 55.73, 47.53, 42.08, 37.97, 35.51, 32.98, 30.16, 27.96, 26.23, 25.01, 23.82, 22.72, 21.82],
    "2-propanol": [72.01, 49.58, 40.42, 34.63, 30.57, 28.28, 26.82, 25.27, 24.26, 23.51, 22.68, 22.14, 21.69, 21.22],
}
SHARES = [0.0, 0.05, 0.10, 0.15, 0.20, 0.25, 0.30, 0.40, 0.50, 0.60, 0.70, 0.80, 0.90, 1.0]


@family("liquid.surface_tension", "scipy", 1e-12, "monotone cubic through the same table, ends of the table apart")
def _():
    for liquid, column in TABLES.items():
        curve = interpolate.PchipInterpolator(SHARES, column)
        for x in (0.06, 0.1, 0.13, 0.24, 0.37, 0.41, 0.55, 0.68, 0.85):
            yield row([("liquid", liquid + "-water"), ("mass_fraction[-]", x), ("T[K]", 298.15)], float(curve(x)), "mN/m")


@family("water.viscosity_r1208", "iapws", 1e-9, "the same published formula, R12-08 without the critical term")
def _():
    for t in (275.0, 310.0, 365.0, 420.0):
        for rho in (920.0, 990.0, 1040.0):
            yield row([("T[K]", t), ("rho[kg/m3]", rho)], iapws._iapws._Viscosity(rho, t) * 1e6, "uPa*s")


@family("pressure_hold.fit_time_constant_u", "scipy", 1e-4, "standard error of the fitted parameter")
def _():
    dice = np.random.default_rng(17)
    for tau in (900.0, 2e4, 1.5e5):
        t = np.arange(0, 601, 30.0)
        p = 170000 * np.exp(-t / tau) + dice.normal(0, 5, len(t))
        _, spread = optimize.curve_fit(lambda x, a, b: a * np.exp(-x / b), t, p, p0=(170000, tau), xtol=1e-14, ftol=1e-14)
        yield row([("t[s]", t), ("dP_gauge[Pa]", p)], math.sqrt(spread[1, 1]), "s")


@family("retention.LRV_lower_bound_both_counts", "scipy", 1e-9, "quantile of the beta distribution")
def _():
    for n, share, plated, diluted in ((0, 1.0, 40, 1e-7), (3, 0.25, 88, 1e-8), (12, 0.5, 300, 1e-6)):
        p = stats.beta.ppf(0.95, n + 1, plated)
        yield row([("filtrate_count[CFU]", n), ("assayed_fraction[-]", share), ("challenge_plate_count[CFU]", plated), ("plated_fraction_of_challenge[-]", diluted), ("confidence_one_sided[-]", 0.95)],
                  -math.log10(p / (1 - p) * diluted / share), "log10")


@family("conformity.global_consumer_risk", "scipy", 1e-6, "adaptive quadrature")
def _():
    for mean, sd, u, low, high, guard in ((10.0, 0.5, 0.2, 9.0, 11.2, 0.1), (0.0, 4.0, 1.0, -6.0, 7.0, -0.5), (1500.0, 0.12, 0.04, 1499.8, 1500.2, 0.02)):
        process, a, b = stats.norm(mean, sd), low + guard, high - guard
        accepted = lambda x: process.pdf(x) * (stats.norm.cdf((b - x) / u) - stats.norm.cdf((a - x) / u))
        risk = integrate.quad(accepted, mean - 14 * sd, low, epsabs=1e-13, limit=400, points=[low - u])[0] + integrate.quad(accepted, high, mean + 14 * sd, epsabs=1e-13, limit=400, points=[high + u])[0]
        yield row([("process[ohm]", f"N({mean},{sd})"), ("u_m[ohm]", u), ("T_L[ohm]", low), ("T_U[ohm]", high), ("A_L[ohm]", a), ("A_U[ohm]", b)], risk, "-")


@family("conformity.process_nonconforming", "scipy", 1e-9, "distribution function")
def _():
    for shape, scale, high in ((4.0, 0.25, 2.0), (2.0, 3.0, 11.0)):
        yield row([("prior", f"gamma(shape={shape},scale={scale})"), ("T_U[um]", high * 1.0)], stats.gamma.sf(high, shape, scale=scale), "-")


@family("upstream_volume.gas_expansion", "scipy", 1e-9, "root of the mole balance")
def _():
    for vessel, full, begin, end in ((0.001, 301325.0, 101325.0, 160125.0), (0.0025, 250000.0, 99000.0, 101000.0)):
        root = optimize.brentq(lambda v: vessel * full + v * begin - (vessel + v) * end, 1e-6, 10, xtol=1e-16)
        yield row([("V_ref[m3]", vessel), ("p_ref_vessel_abs[Pa]", full), ("p_up_initial_abs[Pa]", begin), ("p_final_abs[Pa]", end)], root, "m3")


@family("lethality.F0_logmean", "scipy", 1e-9, "adaptive quadrature of the straight pieces")
def _():
    dice = np.random.default_rng(23)
    for z in (7.0, 10.0):
        t = np.cumsum(dice.uniform(0.3, 1.5, 8))
        temperature = dice.uniform(100, 124, 8)
        whole = sum(integrate.quad(lambda x, i=i: 10 ** ((np.interp(x, t, temperature) - 121.1) / z), t[i], t[i + 1], epsabs=1e-14)[0] for i in range(7))
        yield row([("t[min]", t), ("T[degC]", temperature), ("T_ref[degC]", 121.1), ("z[K]", z)], whole, "min")


def main(program, write=None):
    print(f"{'figure':<34}{'rows':>5}  {'largest difference':>19}  {'allowed':>8}  library")
    bad, kept = 0, []
    with tempfile.TemporaryDirectory() as folder:
        for name, (function, library, relative, why) in FAMILIES.items():
            rows = list(function())
            path = pathlib.Path(folder) / "rows.csv"
            with path.open("w", newline="") as file:
                out = csv.writer(file)
                out.writerow(["figure", "inputs", "expected", "unit", "tolerance", "source", "kind", "recheck"])
                for text, expected, unit in rows:
                    fields = [name, text, repr(float(expected)), unit, f"rel {relative}", f"{library} {importlib.metadata.version(library)}", "reference-library", ""]
                    out.writerow(fields)
                    kept.append(fields)
            ran = subprocess.run([program, "physics", str(path)], capture_output=True, text=True)
            said = [line for line in ran.stdout.splitlines() if name in line]
            if len(said) != len(rows) or any(line.startswith("not supported") for line in said):
                sys.exit(f"{name}: {len(rows)} rows given, and the program said\n{ran.stdout}{ran.stderr}")
            worst = 0.0
            for line, (_, expected, _) in zip(said, rows):
                got = float(re.search(r"  (\S+) \S+, expected", line).group(1))
                worst = max(worst, abs(got / expected - 1))
            outside = sum(line.startswith("OUTSIDE") for line in said)
            bad += outside
            version = importlib.metadata.version(library)
            print(f"{name:<34}{len(rows):>5}  {worst:>19.1e}  {relative:>8.0e}  {library} {version}: {why}{'  OUTSIDE' if outside else ''}")
            if outside:
                print(*[line for line in said if line.startswith("OUTSIDE")], sep="\n")
    if write:
        with open(write, "w", newline="") as file:
            out = csv.writer(file, lineterminator="\n")
            out.writerow(["figure", "inputs", "expected", "unit", "tolerance", "source", "kind", "recheck"])
            out.writerows(kept)
    if bad:
        sys.exit(f"{bad} rows differ by more than allowed")


if __name__ == "__main__":
    main(*sys.argv[1:])
