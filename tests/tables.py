#!/usr/bin/env python3
"""Questions over many dossiers, put to Apache DataFusion over their figures.parquet, and answered a second time from their
figures.json. Usage: tables.py PROGRAM PLANT; both built with what `cargo build --features parquet` builds.

The questions are those of handbook/many-dossiers.md, read from there.
"""

import json
import math
import re
import statistics
import subprocess
import sys
import tempfile
from collections import defaultdict
from pathlib import Path

import datafusion

program, plant = (str(Path(word).resolve()) for word in sys.argv[1:3])
here = Path(__file__).resolve().parent.parent
page = (here / "handbook/many-dossiers.md").read_text()
opened, made, *asked = re.findall(r"```sql\n(.*?)```", page, re.S)
assert made.startswith("create") and len(asked) == 5, f"{len(asked)} questions in the handbook"


def run(*words):
    done = subprocess.run(words, capture_output=True, text=True)
    assert done.returncode in (0, 1), done.stderr
    return done


work = Path(tempfile.mkdtemp(prefix="tables-"))
run(plant, "6", str(work / "plant"))
sources = {"one": here / "example-dossier/released", "two": here / "example-dossier/as-found", "three": work / "plant"}
(work / "figures").mkdir()
for name, folder in sources.items():
    run(program, "compile", str(folder), "--into", str(work / "figures" / name), "--draft", "--parquet", "--quiet")
    assert (work / "figures" / name / "data/figures.parquet").exists(), name

figures = []
for folder in sorted((work / "figures").iterdir()):
    info = (folder / "bag-info.txt").read_text()
    dossier = re.search(r"External-Identifier: (.*) revision", info)[1]
    for figure in json.loads((folder / "data/figures.json").read_text())["figures"]:
        figures.append({**figure, "dossier": dossier})

engine = datafusion.SessionContext()
engine.sql(opened)
engine.sql(made.replace("out/", f"{work}/figures/"))
counted = engine.sql("select count(*) as n from figures").to_pylist()[0]["n"]
assert counted == len(figures) > 1000, (counted, len(figures))


def ask(n):
    return engine.sql(asked[n]).to_pylist()


def same(n, got, want):
    """Rows as sets: an order among equals says nothing."""
    assert len(want) > 0, f"question {n + 1} asks for nothing that is there"

    def key(row):
        return tuple(str(value) if not isinstance(value, float) else f"{value:.9e}" for value in row)

    got, want = sorted((tuple(row.values()) for row in got), key=key), sorted(want, key=key)
    assert len(got) == len(want), f"question {n + 1}: {len(got)} rows, {len(want)} from figures.json"
    for a, b in zip(got, want):
        for x, y in zip(a, b):
            alike = math.isclose(x, y, rel_tol=1e-9) if isinstance(y, float) else str(x) == str(y)
            assert alike, f"question {n + 1}: {a} and {b}"
    print(f"question {n + 1}: {len(got)} rows, the same from figures.json")


# 1: verdicts by dossier.
counts = defaultdict(int)
for f in figures:
    if f["verdict"] not in ("no limit", "not evaluated"):
        counts[f["dossier"], f["verdict"]] += 1
same(0, ask(0), [(dossier, verdict, n) for (dossier, verdict), n in counts.items()])

# 2: modules' diffusive flow by month.
months = defaultdict(list)
for f in figures:
    if f["figure"] == "diffusive-flow" and f["kind"] == "module_test" and f["value"] is not None:
        months[f["day"][:7]].append(f["value"])
same(1, ask(1), [(month, len(v), statistics.fmean(v), statistics.stdev(v)) for month, v in months.items() if len(v) > 1])

# 3: everything that an instrument measured in a period.
used = {(f["dossier"], f["lot"] or "", f["element"]) for f in figures if f["instrument"] == "IT-11" and "2026-03-01" <= f["day"] <= "2026-03-31"}
same(2, ask(2), sorted(used))

# 4: the least room to a limit, in standard uncertainties.
room = []
for f in figures:
    if f["verdict"] == "conforms" and f["standard_uncertainty"]:
        sides = [f["limit_high"] - f["value"] if f["limit_high"] is not None else None, f["value"] - f["limit_low"] if f["limit_low"] is not None else None]
        sides = [side for side in sides if side is not None]
        if sides:
            room.append((min(sides) / f["standard_uncertainty"], f))
room.sort(key=lambda pair: pair[0])
got = ask(3)
assert len(got) == 20 and len(room) > 20
known = {(f["dossier"], f["figure"], f["record"]): margin for margin, f in room}
for row, (margin, _) in zip(got, room):
    # Of several with one room any may stand at the end of the list.
    assert math.isclose(row["room"], margin, rel_tol=1e-9), (row, margin)
    assert math.isclose(row["room"], known[row["dossier"], row["figure"], row["record"]], rel_tol=1e-9), row
print("question 4: 20 rows, the same from figures.json")

# 5: lots whose modules' bubble points lie lowest.
lots = defaultdict(list)
for f in figures:
    if f["figure"] == "bubble-point" and f["kind"] == "module_test" and f["lot"] and f["value"] is not None:
        lots[f["dossier"], f["lot"]].append(f["value"])
same(4, ask(4), [(dossier, lot, len(v), min(v), statistics.fmean(v)) for (dossier, lot), v in lots.items()])

whole = run(program, "verify", str(work / "figures/one"))
assert whole.returncode == 0, whole.stdout
table = work / "figures/one/data/figures.parquet"
bytes_ = bytearray(table.read_bytes())
bytes_[len(bytes_) // 2] ^= 1
table.write_bytes(bytes_)
assert run(program, "verify", str(work / "figures/one")).returncode == 1
print("verify computes figures.parquet again, and sees a changed byte of it")
