#!/usr/bin/env python3
"""Speed at growing size, in one run: time by stage, exponent of growth, memory, bytes and files an assembly; then the same
work as whole processes beside a script on general-purpose libraries and beside sha256sum, pair by pair, and pages beside those
of a general site generator.

Usage: scale.py [--lots 313,3135,31350] [--pairs 3] [--at 3135] [--work FOLDER] [--mdbook PROGRAM]

A lot has two assemblies and 31.9 records: the sizes are ten thousand, a hundred thousand and a million records. The largest
wants 17 GB of memory, 45 GB of disk, and an hour, part of which goes into deleting it; without it (`--lots 313,3135`) 2 GB and 6 GB. Pairs are run at one
size (--at). Wants what tests/requirements.txt and benches/requirements.txt name, and mdBook for its row. Prints Markdown.
"""

import argparse
import json
import math
import os
import re
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
words.add_argument("--lots", default="313,3135,31350")
words.add_argument("--pairs", type=int, default=3)
words.add_argument("--at", type=int, default=3135)
words.add_argument("--mdbook", default=shutil.which("mdbook"))
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
    row["copies"] = sum(1 for _ in plant(lots).rglob("*") if _.is_file())
    rows.append((lots, into, row))
    if lots != words.at:
        # A million records and what is made of them would fill a disk.
        shutil.rmtree(plant(lots))
        shutil.rmtree(into)
    print(f"{row['records']} records done", file=sys.stderr)

print("| records | " + " | ".join(STAGES) + " | all, s | peak MiB, reviewed | compiled | KiB a record beyond 200 MiB | files an assembly | of them records | KB an assembly | pages MB/s |")
print("|---" * (len(STAGES) + 9) + "|")
for lots, into, row in rows:
    made = row["assemblies"]
    beyond = (row["peak_kib"] - 200 * 1024) / row["records"]
    print(f"| {row['records']} | " + " | ".join(f"{row['seconds'][stage]:.2f}" for stage in STAGES) + f" | {row['whole']:.1f} | {row['peak_kib_of_review'] / 1024:.0f} | {row['peak_kib'] / 1024:.0f} | {beyond:.1f} | {row['files'] / made:.1f} | {row['copies'] / made:.1f} | {row['bytes'] / made / 1000:.0f} | {row['bytes'] / 1e6 / row['seconds']['pages']:.0f} |")
if len(rows) > 1:
    sizes = [row["records"] for _, _, row in rows]
    parts = [f"{exponent(sizes, [row['seconds'][stage] for _, _, row in rows]):.2f}" for stage in STAGES]
    print("| exponent | " + " | ".join(parts) + f" | {exponent(sizes, [row['whole'] for _, _, row in rows]):.2f} | | | | | | | |")

measured = [row for row in rows if row[0] == words.at]
if not measured:
    sys.exit(0)
lots, into, row = measured[0]
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


def book():
    """What stands on sheets of assemblies as chapters of a book, in plain Markdown: that is what such a generator is fastest at.

    A third of a thousand at most: it grows faster than they do."""
    folder = work / "book"
    shutil.rmtree(folder, ignore_errors=True)
    (folder / "src").mkdir(parents=True)
    (folder / "book.toml").write_text('[book]\ntitle = "Sheets"\n[output.html.search]\nenable = false\n')
    names = []
    for n, page in enumerate(sorted((Path(into) / "data/assemblies").rglob("*.html"))[:335]):
        main = page.read_text().split("<main", 1)[1].split(">", 1)[1].split("</main>")[0]
        said = re.sub(r"<[^>]+>", " ", re.sub(r"</(p|tr|li|h\d|caption|details|section|svg|math)>", "\n", main))
        paragraphs = "\n\n".join(" ".join(line.split()) for line in said.splitlines() if line.strip())
        (folder / f"src/sheet-{n}.md").write_text(f"# Sheet {n}\n\n{paragraphs}\n")
        names.append(f"- [Sheet {n}](sheet-{n}.md)")
    (folder / "src/SUMMARY.md").write_text("\n".join(names) + "\n")
    return folder


if words.mdbook:
    seconds, written = [], 0
    for _ in range(words.pairs):
        folder = book()
        seconds.append(timed(words.mdbook, "build", folder)[0])
        written = sum(page.stat().st_size for page in (folder / "book").rglob("sheet-*.html"))
    theirs = written / 1e6 / statistics.median(seconds)
    ours = row["bytes"] / 1e6 / row["seconds"]["pages"]
    print(f"\nPages, MB/s: {ours:.0f}, with every figure and chart on them made, hashed and bagged; mdBook {theirs:.0f} on 335 ready-made ones ({written / 1e6:.0f} MB); ratio {ours / theirs:.2f}")
if not words.work:
    shutil.rmtree(work)
