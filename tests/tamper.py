"""Tampers with a compiled dossier, one random change at a time: `verify` must notice each, name the file, and name no other.

    python3 tests/tamper.py SEALFOLIO [N]      N changes, 1500 unless said

Changes are made in blocks, each from a seed of its own, so that a fault that is found can be made again; every core takes blocks.
"""
import collections
import concurrent.futures
import json
import os
import pathlib
import random
import re
import shutil
import subprocess
import sys
import tempfile

program = pathlib.Path(sys.argv[1]).resolve()
MANY = int(sys.argv[2]) if len(sys.argv) > 2 else 1500
BLOCK = 250


def verified(folder):
    done = subprocess.run([program, "verify", folder, "--bytes", "--json"], capture_output=True, text=True)
    if done.returncode not in (0, 1) or "panicked" in done.stderr:
        sys.exit(f"verify failed: {done.returncode} {done.stderr[-500:]}")
    return json.loads(done.stdout)


def block(source, number, many):
    """One block of changes of a copy of `source`: how many of which sort were tried, and what was missed or misnamed."""
    dice = random.Random(f"block {number} of a dossier of tests/sound")
    tried, wrong = collections.Counter(), []
    with tempfile.TemporaryDirectory() as work:
        folder = pathlib.Path(work) / "out"
        shutil.copytree(source, folder)
        files = sorted(path for path in folder.rglob("*") if path.is_file())
        kept = {path: path.read_bytes() for path in files}
        digest = verified(folder)["digest"]

        def flip(path):
            data = bytearray(kept[path])
            data[dice.randrange(len(data))] ^= 1 << dice.randrange(8)
            path.write_bytes(data)
            return [path]

        def truncate(path):
            path.write_bytes(kept[path][: dice.randrange(len(kept[path]))])
            return [path]

        def append(path):
            path.write_bytes(kept[path] + dice.choice([b"\n", b" ", b"\0", b"<!-- -->", kept[path]]))
            return [path]

        def delete(path):
            path.unlink()
            return [path]

        def rename(path):
            to = path.with_name(dice.choice(["x", path.name.upper() + "1", path.name + " ", "." + path.name]))
            path.rename(to)
            return [path, to]

        def swap(path):
            other = dice.choice([one for one in files if kept[one] != kept[path]])
            path.write_bytes(kept[other])
            other.write_bytes(kept[path])
            return [path, other]

        def duplicate(path):
            to = path.parent / dice.choice(["copy.html", "zz", "index2.html", path.stem + "-2" + path.suffix])
            to.write_bytes(kept[path])
            return [to]

        for _ in range(many):
            path, way = dice.choice(files), dice.choice([flip, truncate, append, delete, rename, swap, duplicate])
            touched = way(path)
            name = " and ".join(one.relative_to(folder).as_posix() for one in touched)
            found = verified(folder)
            tried[way.__name__] += 1
            if found["holds"] and found["digest"] == digest:
                wrong.append(f"block {number}: {way.__name__} {name}: not noticed")
            # A list that was changed says wrong things of others, and without its bag-info.txt a bag is nobody's; of all else
            # only what was touched is named.
            lists = any(re.search(r"(manifest-sha256|bagit|bag-info)\.txt", one.name) for one in touched)
            if not lists:
                named = {re.match(r"\w+: (.+?) (has|is|holds|differs) ", line) for line in found["whole"]["differences"]}
                named = {one and one[1] for one in named}
                wanted = {one.relative_to(folder).as_posix() for one in touched}
                if named != wanted:
                    wrong.append(f"block {number}: {way.__name__} {name}: {found['whole']['differences'][:4]}")
            for one in touched:
                one.unlink(missing_ok=True)
            for one in touched:
                if one in kept:
                    one.write_bytes(kept[one])
        if not verified(folder)["holds"]:
            wrong.append(f"block {number}: what was put back does not hold")
    return tried, wrong


def main():
    tried, wrong = collections.Counter(), []
    with tempfile.TemporaryDirectory() as work, concurrent.futures.ProcessPoolExecutor(os.cpu_count()) as pool:
        source = pathlib.Path(work) / "out"
        subprocess.run([program, "compile", "tests/sound", "--into", source, "--quiet"], check=True)
        sizes = [BLOCK] * (MANY // BLOCK) + [MANY % BLOCK] * (MANY % BLOCK > 0)
        blocks = [pool.submit(block, source, number, many) for number, many in enumerate(sizes)]
        for one in concurrent.futures.as_completed(blocks):
            more, missed = one.result()
            tried += more
            wrong += missed
            for line in missed:
                print(line, flush=True)
            if sys.stderr.isatty() or MANY > 5000:
                print(f"{sum(tried.values())} of {MANY}, {len(wrong)} missed or misnamed", file=sys.stderr, flush=True)
        files = sum(path.is_file() for path in source.rglob("*"))
    counts = ", ".join(f"{way} {count}" for way, count in sorted(tried.items()))
    print(f"{sum(tried.values())} random changes of {files} files ({counts}), {len(wrong)} missed or misnamed")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
