"""The same records give the same bytes: in other time zones, languages of the system, rights, numbers of threads, orders and times of
files, folder names, working folders, with the clock set wrong (faketime).

    python3 tests/same.py SEALFOLIO
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

program = pathlib.Path(sys.argv[1]).resolve()
records = pathlib.Path("example-dossier/released").resolve()
PLAIN = {"PATH": os.environ["PATH"]}
LIAR = next(pathlib.Path("/usr/lib").glob("*/faketime/libfaketime.so.1"))


def clock(at):
    """Surroundings in which every program believes it is then, going on from there."""
    own = {"LD_PRELOAD": str(LIAR), "FAKETIME": f"@{at} 12:00:00"}
    said = subprocess.run(["date", "+%Y-%m-%d"], env={**PLAIN, **own}, capture_output=True, text=True).stdout.strip()
    if said != at:
        sys.exit(f"the clock cannot be set wrong: {said} for {at}")
    return own



def contents(folder):
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def another_copy(to, when, backwards):
    """The same files written in another order, with other times and rights."""
    for path in sorted(records.rglob("*"), reverse=backwards):
        if path.is_file():
            there = to / path.relative_to(records)
            there.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(path, there)
            os.utime(there, (when, when))
            there.chmod(0o600)
    return to


def main():
    with tempfile.TemporaryDirectory() as work:
        work = pathlib.Path(work)
        deep = work / "a folder of ours, (käse) #1%20" / "x" / "records"
        ways = {
            "as it is": (records, {}, None, 0o022),
            "Chatham": (records, {"TZ": "Pacific/Chatham"}, None, 0o022),
            "Turkish": (records, {"LC_ALL": "tr_TR.UTF-8", "LANG": "tr_TR.UTF-8", "LANGUAGE": "tr"}, None, 0o022),
            "C": (records, {"LC_ALL": "C"}, None, 0o022),
            "only mine": (records, {}, None, 0o077),
            "one thread": (records, {"RAYON_NUM_THREADS": "1"}, None, 0o022),
            "seven threads": (records, {"RAYON_NUM_THREADS": "7"}, None, 0o022),
            "of 1980, written backwards": (another_copy(work / "old", 315_532_800, True), {}, None, 0o022),
            "of 2037, elsewhere, from inside": (another_copy(deep, 2_114_380_800, False), {}, deep, 0o022),
            "the clock in 1990": (records, clock("1990-01-01"), None, 0o022),
            "the clock in 2090": (records, clock("2090-12-31"), None, 0o022),
            "no home, no terminal, a date to pretend": (records, {"HOME": "/nonexistent", "TERM": "dumb", "SOURCE_DATE_EPOCH": "1"}, None, 0o002),
        }
        first, wrong = None, []
        for n, (name, (folder, more, cwd, mask)) in enumerate(ways.items()):
            out = work / f"out{n}"
            words = [program, "compile", "." if cwd else folder, "--into", out]
            done = subprocess.run(words, env={**PLAIN, **more}, cwd=cwd, umask=mask, capture_output=True, text=True)
            if done.returncode:
                wrong.append(f"{name}: {done.stdout}{done.stderr}")
                continue
            made = contents(out)
            first = first or made
            different = sorted(path for path in first.keys() | made.keys() if first.get(path) != made.get(path))
            if different:
                wrong.append(f"{name}: {len(different)} files differ: {different[:3]}")
        for line in wrong:
            print(line)
        print(f"compiled in {len(ways)} ways, {len(first)} files each, {len(wrong)} differ")
        sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
