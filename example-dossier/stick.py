#!/usr/bin/env python3
"""Writes what the handbook's tutorial takes in: the exports of a test rig and of a welding machine, as they would come on
a stick, with their traces.

Invented, like everything here; the physics and the noise are those of the example.

    python3 example-dossier/stick.py FOLDER
"""
import pathlib
import random
import sys

sys.dont_write_bytecode = True

from writing import decay, plate, ramp

# run, stage, what was tested, when, diffusive flow (mL/min), bubble point (bar), upstream volume (L), flush (L)
RUNS = [
    ("R-0101", "module", "M-0001", "09.03.2026 08:10", 8.1, 2.61, 2.420, 8.2),
    ("R-0102", "module", "M-0002", "09.03.2026 08:40", 8.3, 2.63, 2.420, 8.2),
    ("R-0103", "assembly", "A-0001", "11.03.2026 09:05", 16.4, 2.61, 6.150, 16.4),
]
# seal run, what it sealed
SEALS = [("SR-1", "module_to_module", "1"), ("SR-2", "adapter", ""), ("SR-3", "end_piece", "")]


def main():
    target, rng = pathlib.Path(sys.argv[1]), random.Random(260309)
    target.mkdir(parents=True, exist_ok=True)
    comma = lambda number: f"{number}".replace(".", ",")
    lines = ["Run;Stage;Element;Test;Begun;By;Liquid °C;Flush L;Volume L;Diffusion mL/min;Bubble point bar;Verdict"]
    for run, stage, element, begun, flow, bubble, volume, flush in RUNS:
        lines.append(f"{run};{stage};{element};1;{begun};cf;20,1;{comma(flush)};{comma(f'{volume:.3f}')};{comma(flow)};{comma(f'{bubble:.2f}')};pass")
        (target / f"{run}-decay.csv").write_bytes(decay(rng, flow, volume * 1e-3, 1700, rng.uniform(-0.01, 0.01)).encode())
        (target / f"{run}-ramp.csv").write_bytes(ramp(rng, flow, 1700, bubble).encode())
    (target / "rig.csv").write_bytes(("\r\n".join(lines) + "\r\n").encode("cp1252"))
    lines = ["Run,Seal,Element,Join,Begun,By,Mean temperature C,Heating s,Path mm"]
    for minute, (run, seal, join) in enumerate(SEALS):
        trace = plate(rng, 811, 18)
        readings = [float(row.split(",")[1]) for row in trace.split()[1:]]
        (target / f"{run}.csv").write_bytes(trace.encode())
        lines.append(f"{run},{seal},A-0001,{join},2026-03-10 13:4{minute},cf,{sum(readings) / len(readings):.0f},18.0,{rng.uniform(0.77, 0.82):.2f}")
    (target / "welder.csv").write_bytes(("\n".join(lines) + "\n").encode())


if __name__ == "__main__":
    main()
