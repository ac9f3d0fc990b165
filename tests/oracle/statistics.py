"""The program's statistics beside general-purpose libraries of the Python package index, on drawn data.

Each method below draws data, computes what a library says of them, writes it as cases of the check
file's form, has the program compute the same cases, and prints in how many digits both agree.

    python3 tests/oracle/statistics.py target/release/examples/outside [tests/data/reference.json]

With a second path the cases are kept there, so that the tests of the program hold them without Python.
"""
import importlib.metadata
import json
import math
import pathlib
import re
import subprocess
import sys
import tempfile
import warnings

import numpy as np
import statsmodels.api as sm
from lifelines import KaplanMeierFitter
from scipy import optimize, stats
from statsmodels.stats.anova import anova_lm
from statsmodels.stats.oneway import anova_oneway
from statsmodels.stats.outliers_influence import OLSInfluence
from statsmodels.stats.proportion import proportion_confint
from statsmodels.stats.weightstats import ttost_ind

warnings.filterwarnings("ignore")
METHODS = {}


def method(name, library, relative, why=""):
    """Registers a function that yields (inputs, expected)."""
    def register(function):
        METHODS[name] = (function, library, relative, why)
        return function
    return register


def dice(seed):
    return np.random.default_rng(seed)


def listed(x):
    return [float(v) for v in x]


@method("summary", "numpy", 1e-12)
def _():
    for n in (3, 20, 400):
        x = dice(n).normal(3500, 40, n)
        d = x - x.mean()
        yield {"x": listed(x)}, {"mean": x.mean(), "sd": x.std(ddof=1), "lag1_autocorrelation": (d[1:] * d[:-1]).sum() / (d * d).sum()}


@method("linear_fit", "statsmodels", 1e-8, "pseudo-inverse in single arithmetic")
def _():
    for n, degree in ((12, 1), (40, 2), (25, 3)):
        x = dice(n).uniform(0, 3, n)
        y = 4 - 0.3 * x + dice(n + 1).normal(0, 0.1, n)
        fit = sm.OLS(y, np.vander(x, degree + 1, increasing=True)).fit()
        expected = {f"b{i}": b for i, b in enumerate(fit.params)} | {f"se_b{i}": b for i, b in enumerate(fit.bse)}
        yield {"x": listed(x), "y": listed(y), "degree": degree}, expected | {"r_squared": fit.rsquared, "f_statistic": fit.fvalue}


@method("line_prediction", "statsmodels", 1e-9)
def _():
    x = np.arange(0, 21, 2.0)
    y = 3500 - 2.5 * x + dice(5).normal(0, 6, len(x))
    fit = sm.OLS(y, sm.add_constant(x)).fit()
    frame = fit.get_prediction([[1, 30.0]]).summary_frame(alpha=0.05).iloc[0]
    yield {"x": listed(x), "y": listed(y), "x0": 30.0, "confidence": 0.95}, {"fit": frame["mean"], "mean_lower": frame["mean_ci_lower"], "mean_upper": frame["mean_ci_upper"], "prediction_lower": frame["obs_ci_lower"], "prediction_upper": frame["obs_ci_upper"]}


@method("tolerance_factor_normal", "scipy", 1e-7, "quantile of the non-central t")
def _():
    for n, p, c in ((3, 0.9, 0.9), (12, 0.99, 0.95), (60, 0.95, 0.99), (300, 0.9, 0.95)):
        yield {"n": n, "coverage": p, "confidence": c, "sides": 1}, {"k": stats.nct.ppf(c, n - 1, stats.norm.ppf(p) * math.sqrt(n)) / math.sqrt(n)}


@method("capability_normal", "scipy", 1e-7, "root in the non-centrality of t")
def _():
    for mean, n in ((16.0, 50), (12.0, 12), (19.0, 200)):
        index = (20 - mean) / 6
        root = optimize.brentq(lambda c: stats.nct.cdf(3 * index * math.sqrt(n), n - 1, 3 * c * math.sqrt(n)) - 0.95, -1, index, xtol=1e-13)
        yield {"mean": mean, "sd": 2.0, "n": n, "usl": 20.0, "confidence": 0.95}, {"cpk": index, "cpk_one_sided_exact_lower": root}


@method("proportion_ci", "statsmodels", 1e-9)
def _():
    for x, n in ((0, 20), (3, 80), (79, 80), (400, 1000)):
        low, high = proportion_confint(x, n, 0.05, "beta")
        wilson = proportion_confint(x, n, 0.05, "wilson")
        expected = {"upper": high, "wilson_upper": wilson[1]} | ({"lower": low, "wilson_lower": wilson[0]} if x else {})
        yield {"x": x, "n": n, "confidence": 0.95, "sides": 2}, expected


@method("oc_probability", "scipy", 1e-10)
def _():
    for n, c in ((13, 0), (125, 5), (800, 21)):
        for p in (0.004, 0.03, 0.09):
            yield {"n": n, "c": c, "p": p, "model": "binomial"}, {"pa": stats.binom.cdf(c, n, p)}
            yield {"n": n, "c": c, "p": p, "model": "poisson"}, {"pa": stats.poisson.cdf(c, n * p)}
    for lot, bad, n, c in ((60, 4, 13, 1), (3000, 90, 125, 5), (20, 19, 5, 2)):
        yield {"n": n, "c": c, "lot_size": lot, "nonconforming": bad, "model": "hypergeometric"}, {"pa": stats.hypergeom.cdf(c, lot, bad, n)}


@method("poisson_ci", "scipy", 1e-9)
def _():
    for count in (1, 4, 30, 250):
        yield {"count": count, "confidence": 0.95, "sides": 2}, {"lower": stats.chi2.ppf(0.025, 2 * count) / 2, "upper": stats.chi2.ppf(0.975, 2 * count + 2) / 2}


def lots(seed, slopes, starts):
    out = []
    for i, (slope, start) in enumerate(zip(slopes, starts)):
        x = np.array([0, 5, 10, 20, 30, 40.0])
        out.append({"lot": str(i), "x": listed(x), "y": listed(start + slope * x + dice(seed + i).normal(0, 8, len(x)))})
    return out


@method("poolability", "statsmodels", 1e-8, "analysis of covariance")
def _():
    import pandas
    for seed, slopes, starts in ((1, (-2, -2, -2), (3500, 3500, 3500)), (2, (-2, -2.1, -2), (3500, 3560, 3450)), (3, (-2, -4, -1), (3500, 3500, 3500))):
        data = lots(seed, slopes, starts)
        frame = pandas.DataFrame([(lot["lot"], x, y) for lot in data for x, y in zip(lot["x"], lot["y"])], columns=["lot", "x", "y"])
        table = anova_lm(sm.OLS.from_formula("y ~ x + C(lot) + x:C(lot)", frame).fit(), typ=1)
        yield {"lots": data}, {"f_slopes": table.loc["x:C(lot)", "F"], "p_slopes": table.loc["x:C(lot)", "PR(>F)"], "f_intercepts": table.loc["C(lot)", "F"], "p_intercepts": table.loc["C(lot)", "PR(>F)"]}


@method("cycles_supported", "statsmodels", 1e-7, "root of the bound of the mean")
def _():
    for seed, slope in ((4, -3.0), (5, -1.5)):
        data = lots(seed, (slope,), (3500,))
        x, y = np.array(data[0]["x"]), np.array(data[0]["y"])
        fit = sm.OLS(y, sm.add_constant(x)).fit()
        low = lambda at: fit.get_prediction([[1, at]]).summary_frame(alpha=0.1)["mean_ci_lower"].iloc[0] - 3300
        yield {"lots": data, "limit": 3300.0, "side": "lower", "confidence": 0.95, "bound": "mean"}, {"per_lot": [optimize.brentq(low, 0, 1000, xtol=1e-12)]}


@method("theil_sen", "scipy", 1e-12, "slope and start")
def _():
    x = dice(8).uniform(0, 40, 30)
    y = 3 - 0.1 * x + dice(9).normal(0, 0.3, 30)
    found = stats.theilslopes(y, x)
    yield {"x": listed(x), "y": listed(y), "confidence": 0.95}, {"slope": found.slope, "intercept": found.intercept}


@method("weibull_mle", "scipy", 1e-5, "censored fit by a simplex search")
def _():
    for seed, n in ((1, 15), (2, 40)):
        t = dice(seed).weibull(2.2, n) * 300
        end = np.quantile(t, 0.7)
        events = t <= end
        data = stats.CensoredData.right_censored(np.minimum(t, end), ~events)
        shape, _, scale = stats.weibull_min.fit(data, floc=0, optimizer=lambda f, x0, args, disp: optimize.fmin(f, x0, args=args, disp=0, xtol=1e-11, ftol=1e-13))
        yield {"times": listed(np.minimum(t, end)), "events": [int(e) for e in events], "confidence": 0.95, "p": 0.1}, {"shape": shape, "scale": scale}


@method("kaplan_meier", "lifelines", 1e-10)
def _():
    t = np.ceil(dice(3).exponential(40, 30))
    events = dice(4).uniform(size=30) < 0.6
    table = KaplanMeierFitter().fit(t, events)
    at = table.event_table.index[table.event_table.observed > 0]
    yield {"times": listed(t), "events": [int(e) for e in events]}, {"times": listed(at), "survival": listed(table.survival_function_.loc[at, "KM_estimate"]), "median": float(table.median_survival_time_)}


def grouped(seed, sizes, shift=0.0):
    return [listed(dice(seed + i).normal(10 + shift * i, 1 + 0.3 * i, n)) for i, n in enumerate(sizes)]


@method("anova_oneway", "scipy", 1e-10)
def _():
    for groups in (grouped(1, (5, 6, 7)), grouped(9, (20, 20), 0.4)):
        found = stats.f_oneway(*groups)
        yield {"groups": groups}, {"f_statistic": found.statistic, "p_value": found.pvalue}


@method("welch_anova", "statsmodels", 1e-10)
def _():
    groups = grouped(4, (6, 9, 14), 0.5)
    found = anova_oneway(groups, use_var="unequal", welch_correction=True)
    yield {"groups": groups}, {"f_statistic": found.statistic, "p_value": found.pvalue}


@method("bartlett", "scipy", 1e-10)
def _():
    groups = grouped(5, (8, 9, 10))
    found = stats.bartlett(*groups)
    yield {"groups": groups}, {"statistic": found.statistic, "p_value": found.pvalue}


@method("levene", "scipy", 1e-10)
def _():
    for center in ("mean", "median"):
        groups = grouped(6, (8, 9, 11))
        found = stats.levene(*groups, center=center)
        yield {"groups": groups, "center": center}, {"statistic": found.statistic, "p_value": found.pvalue}


@method("kruskal_wallis", "scipy", 1e-10)
def _():
    groups = [[round(v, 1) for v in group] for group in grouped(7, (8, 9, 11), 0.3)]
    found = stats.kruskal(*groups)
    yield {"groups": groups}, {"h": found.statistic, "p_value": found.pvalue}


@method("two_sample_t", "scipy", 1e-10)
def _():
    a, b = grouped(8, (9, 14), 0.6)
    for equal in (True, False):
        found = stats.ttest_ind(a, b, equal_var=equal)
        interval = found.confidence_interval(0.95)
        yield {"a": a, "b": b, "equal_variance": equal}, {"t": found.statistic, "df": found.df, "p_value": found.pvalue, "lower": interval.low, "upper": interval.high}


@method("tost_welch", "statsmodels", 1e-10)
def _():
    a, b = grouped(11, (12, 15))
    p, low, high = ttost_ind(a, b, -1.5, 1.5, usevar="unequal")
    yield {"a": a, "b": b, "low": -1.5, "high": 1.5}, {"t_low": low[0], "t_high": high[0], "p_value": p}


@method("anderson_darling_normal", "statsmodels", 1e-7)
def _():
    from statsmodels.stats.diagnostic import normal_ad
    for x in (dice(1).normal(0, 1, 30), dice(2).exponential(1, 60)):
        a2, p = normal_ad(x)
        yield {"x": listed(x)}, {"a2": a2, "p_value": p}


@method("shapiro_wilk", "scipy", 1e-6)
def _():
    for n in (3, 4, 5, 6, 11, 12, 60, 900):
        x = dice(n).gamma(4, 1, n)
        found = stats.shapiro(x)
        yield {"x": listed(x)}, {"w": found.statistic, "p_value": found.pvalue}


@method("grubbs", "statsmodels", 1e-9, "through the studentised residual of a mean, Bonferroni")
def _():
    x = np.append(dice(12).normal(5, 1, 14), 9.0)
    t = np.max(np.abs(OLSInfluence(sm.OLS(x, np.ones(len(x))).fit()).resid_studentized_external))
    yield {"x": listed(x), "alpha": 0.05, "sides": 2}, {"p_value": min(1.0, 2 * len(x) * stats.t.sf(t, len(x) - 2))}


def main(program, write=None):
    print(f"{'method':<26}{'cases':>6}{'digits':>8}{'allowed':>9}  library")
    bad, kept = 0, []
    with tempfile.TemporaryDirectory() as folder:
        for name, (function, library, relative, why) in METHODS.items():
            cases = [{"id": f"{name}.{i}", "method": name, "inputs": inputs, "expected": {k: v.item() if hasattr(v, "item") else v for k, v in expected.items()}, "rel_tol": relative, "source": f"{library} {importlib.metadata.version(library)}", "kind": "reference-library"}
                     for i, (inputs, expected) in enumerate(function())]
            kept += cases
            path = pathlib.Path(folder) / "cases.json"
            path.write_text(json.dumps(cases))
            ran = subprocess.run([program, "statistics", str(path)], capture_output=True, text=True)
            lines = [line for line in ran.stdout.splitlines() if f" {name}." in line]
            inside = [line for line in lines if line.startswith("inside")]
            digits = min((float(re.search(r"  ([0-9.]+) digits", line).group(1)) for line in inside), default=0.0)
            print(f"{name:<26}{len(cases):>6}{digits:>8.1f}{-math.log10(relative):>9.0f}  {library} {importlib.metadata.version(library)}{': ' + why if why else ''}")
            if len(inside) != len(cases):
                bad += len(cases) - len(inside)
                print(*[line for line in lines if line not in inside], ran.stderr, sep="\n")
    if write:
        pathlib.Path(write).write_text("[\n" + ",\n".join(json.dumps(case) for case in kept) + "\n]\n")
    if bad:
        sys.exit(f"{bad} cases differ by more than allowed")


if __name__ == "__main__":
    main(*sys.argv[1:])
