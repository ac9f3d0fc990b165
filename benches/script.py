#!/usr/bin/env python3
"""What a well-written script does instead: the same records read with PyYAML's C loader in two processes, traces fitted with
numpy and scipy, verdicts grouped with pandas; with PAGES also a page a fifty assemblies with Jinja2 and two matplotlib charts,
and a manifest of digests. It does a fraction of the work: three figures without uncertainties, no rules, no genealogy, no places.

Usage: script.py FOLDER [PAGES]
"""

import hashlib
import multiprocessing
import sys
from pathlib import Path

import numpy as np
import pandas as pd
import yaml
from scipy import stats


def number(text):
    return float(str(text).split()[0])


def trace(folder, name):
    with open(folder / name) as lines:
        next(lines)
        return np.loadtxt(lines, delimiter=",", ndmin=2)


def tests_of(job):
    folder, path = job
    rows, kinds = [], {}
    with open(path, "rb") as text:
        documents = list(yaml.load_all(text, Loader=yaml.CSafeLoader))
    for record in documents:
        kinds[record["kind"]] = kinds.get(record["kind"], 0) + 1
        if record["kind"] not in ("module_test", "assembly_test"):
            continue
        element = record.get("module_id") or record.get("assembly_id")
        for measured in record["measurements"]:
            if "trace" not in measured:
                continue
            table = trace(folder, measured["trace"]["file"])
            if measured["quantity"] == "diffusive_flow":
                fit = stats.linregress(table[:, 0], table[:, 1])
                value = -fit.slope * 60 * number(measured["upstream_volume"]) * 1000 / number(measured["atmospheric_pressure"])
            else:
                slope, level = np.polyfit(table[:10, 1], table[:10, 2], 1)
                above = table[:, 2] > 1.5 * (level + slope * table[:, 1])
                value = float(table[np.argmax(above), 1]) if above.any() else float("nan")
            rows.append((record["kind"], element, record["recorded_at"][:10], measured["quantity"], value))
    return rows, kinds


def main():
    folder = Path(sys.argv[1])
    jobs = [(folder, path) for path in sorted(folder.rglob("*.yaml"))]
    with multiprocessing.Pool(2) as pool:
        read = pool.map(tests_of, jobs, chunksize=16)
        table = pd.DataFrame([row for rows, _ in read for row in rows], columns=["kind", "element", "day", "quantity", "value"])
        limits = {("module_test", "diffusive_flow"): 12.0, ("assembly_test", "diffusive_flow"): 48.0}
        table["limit"] = [limits.get(pair, np.nan) for pair in zip(table["kind"], table["quantity"])]
        table["passes"] = ~(table["value"] > table["limit"])
        summary = table.groupby(["kind", "quantity"])["value"].describe()
        if len(sys.argv) > 2:
            out = Path(sys.argv[2])
            out.mkdir()
            assemblies = table[table["kind"] == "assembly_test"]["element"].unique()
            groups = [assemblies[i : i + 50] for i in range(0, len(assemblies), 50)]
            own = [(out, i, table[table["element"].isin(group)]) for i, group in enumerate(groups)]
            digests = pool.map(page, own)
            (out / "manifest-sha256.txt").write_text("".join(sorted(digests)))
    records = sum(sum(kinds.values()) for _, kinds in read)
    print(records, "records", len(table), "values", int((~table["passes"]).sum()), "beyond")
    summary.to_csv(sys.stdout)


def page(job):
    out, i, table = job
    import jinja2
    import matplotlib

    matplotlib.use("svg")
    from matplotlib import pyplot

    charts = []
    for quantity, own in table.groupby("quantity"):
        figure, axes = pyplot.subplots()
        axes.plot(own["value"].to_numpy(), "o-")
        axes.set_title(quantity)
        name = f"{i}-{quantity}.svg"
        figure.savefig(out / name)
        pyplot.close(figure)
        charts.append(name)
    template = jinja2.Environment(autoescape=True).from_string(
        "<!DOCTYPE html><title>{{ i }}</title>{% for c in charts %}<img src='{{ c }}'>{% endfor %}<table>{% for row in rows %}<tr>{% for cell in row %}<td>{{ cell }}</td>{% endfor %}</tr>{% endfor %}</table>"
    )
    (out / f"{i}.html").write_text(template.render(i=i, charts=charts, rows=table.itertuples(index=False)))
    names = [f"{i}.html", *charts]
    return "".join(f"{hashlib.sha256((out / name).read_bytes()).hexdigest()}  {name}\n" for name in names)


if __name__ == "__main__":
    main()
