#!/usr/bin/env python3
"""Speed at growing size, in one run: time by stage, exponent of growth, memory, bytes and files an assembly; then the same
work as whole processes beside a script on general-purpose libraries and beside sha256sum, pair by pair.

Usage: scale.py [--lots 350,1000,3500] [--pairs 3] [--work FOLDER]     a lot has two assemblies and about thirty records

Wants what tests/requirements.txt and benches/requirements.txt name. Prints Markdown.
"""

import argparse
import json
import math
import os
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

here = Path(__file__).resolve().parent
target = here.parent / "target/release"
words = argparse.ArgumentParser()
words.add_argument("--lots", default="350,1000,3500")
words.add_argument("--pairs", type=int, default=3)
words.add_argument("--work")
words = words.parse_args()
work = Path(words.work or tempfile.mkdtemp(prefix="scale-"))
work.mkdir(exist_ok=True)
STAGES = ["read", "plant", "figures", "rules", "trends", "root", "pages"]
fresh = iter(range(10**6))


def place():
    """A name that nothing had before: a file system is slow where much was just deleted."""
    return str(work / f"out-{os.getpid()}-{next(fresh)}")


def plant(lots):
    folder = work / f"plant-{lots}"
    if not folder.exists():
        subprocess.run([target / "examples/plant", str(lots), folder], check=True)
    return folder


def timed(*command):
    begun = time.perf_counter()
    done = subprocess.run([str(word) for word in command], capture_output=True, text=True)
    seconds = time.perf_counter() - begun
    assert done.returncode == 0, (command, done.stdout[-300:], done.stderr[-600:])
    return seconds, done.stdout


def exponent(sizes, values):
    """Slope of the logarithms from the smallest to the largest size."""
    return math.log(values[-1] / values[0]) / math.log(sizes[-1] / sizes[0])


subprocess.run(["cargo", "build", "-q", "--release", "--example", "plant", "--example", "stages", "--bin", "sealfolio"], cwd=here.parent, check=True)
rows = []
for lots in map(int, words.lots.split(",")):
    into = place()
    row = json.loads(timed(target / "examples/stages", plant(lots), into)[1])
    row["whole"] = sum(row["seconds"].values())
    rows.append((lots, into, row))
    print(f"{row['records']} records done", file=sys.stderr)

print("| records | " + " | ".join(STAGES) + " | all, s | peak MiB, reviewed | compiled | KiB a record beyond 200 MiB | files an assembly | of them records | KB an assembly | pages MB/s |")
print("|---" * (len(STAGES) + 9) + "|")
for lots, into, row in rows:
    made = row["assemblies"]
    copies = sum(1 for _ in plant(lots).rglob("*") if _.is_file())
    beyond = (row["peak_kib"] - 200 * 1024) / row["records"]
    print(f"| {row['records']} | " + " | ".join(f"{row['seconds'][stage]:.2f}" for stage in STAGES) + f" | {row['whole']:.1f} | {row['peak_kib_of_review'] / 1024:.0f} | {row['peak_kib'] / 1024:.0f} | {beyond:.1f} | {row['files'] / made:.1f} | {copies / made:.1f} | {row['bytes'] / made / 1000:.0f} | {row['bytes'] / 1e6 / row['seconds']['pages']:.0f} |")
if len(rows) > 1:
    sizes = [row["records"] for _, _, row in rows]
    parts = [f"{exponent(sizes, [row['seconds'][stage] for _, _, row in rows]):.2f}" for stage in STAGES]
    print("| exponent | " + " | ".join(parts) + f" | {exponent(sizes, [row['whole'] for _, _, row in rows]):.2f} | | | | | | | |")

lots, into, row = rows[-1]
own, script = target / "sealfolio", [sys.executable, here / "script.py", plant(lots)]
pairs = {
    "review / script": (lambda: [own, "review", plant(lots), "--quiet"], lambda: script),
    "compile / script with a fiftieth of the pages": (lambda: [own, "compile", plant(lots), "--into", place(), "--quiet"], lambda: [*script, place()]),
    "verify --bytes / sha256sum -c": (lambda: [own, "verify", into, "--bytes", "--quiet"], lambda: ["sh", "-c", f"cd {into} && sha256sum -c --quiet manifest-sha256.txt tagmanifest-sha256.txt"]),
}
print(f"\n| whole processes, {row['records']} records | ours, s | theirs, s | ratio, median of {words.pairs} pairs |\n|---|---|---|---|")
for name, (ours, theirs) in pairs.items():
    found = [(timed(*ours())[0], timed(*theirs())[0]) for _ in range(words.pairs)]
    middle = [statistics.median(values) for values in zip(*found)]
    ratio = statistics.median(a / b for a, b in found)
    print(f"| {name} | {middle[0]:.2f} | {middle[1]:.2f} | {ratio:.2f} |", flush=True)
if not words.work:
    shutil.rmtree(work)
