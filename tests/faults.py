"""What is left when the machine fails: at each system call of a compile, an extraction, a signature and an intake the disk is full, over
its quota, read-only or broken, or the process is killed. Afterwards there is the whole dossier or none, never half; the records and an
older dossier are untouched; an intake is taken in whole when it is done again.

    python3 tests/faults.py SEALFOLIO [--long]      --long tries every call, else every few; wants strace and ssh-keygen
"""
import collections
import hashlib
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

program = pathlib.Path(sys.argv[1]).resolve()
LONG = "--long" in sys.argv
# System call -> what may befall it.
FAULTS = {
    "openat": ["error=ENOSPC", "error=EROFS", "error=EACCES", "error=EMFILE", "error=EIO", "signal=KILL"],
    "write": ["error=ENOSPC", "error=EDQUOT", "error=EIO", "signal=KILL"],
    "read": ["error=EIO", "error=EINTR", "signal=KILL"],
    "mkdir": ["error=ENOSPC", "error=EROFS", "signal=KILL"],
    "rename": ["error=EIO", "error=EROFS", "error=EXDEV", "signal=KILL"],
    "fsync": ["error=EIO", "signal=KILL"],
    "getdents64": ["error=EIO", "signal=KILL"],
    "statx": ["error=EACCES", "signal=KILL"],
    "chmod": ["error=EPERM", "signal=KILL"],
    "unlinkat": ["error=EIO", "signal=KILL"],
    "clone3": ["error=EAGAIN", "signal=KILL"],
}
# How many calls of each kind are tried at most, unless all are.
FEW = 8
ONE_THREAD = {**os.environ, "RAYON_NUM_THREADS": "1", "LC_ALL": "C"}
wrong, tried = [], collections.Counter()


def digest(folder):
    total = hashlib.sha256()
    for path in sorted(path for path in folder.rglob("*") if path.is_file()):
        total.update(str(path.relative_to(folder)).encode() + b"\0" + hashlib.sha256(path.read_bytes()).digest())
    return total.hexdigest()


def own(*words, **more):
    return subprocess.run([program, *map(str, words)], capture_output=True, text=True, env=ONE_THREAD, **more)


def whole(folder):
    return own("verify", folder, "--bytes").returncode == 0


def calls(words):
    """How often each system call is made in a run without faults."""
    with tempfile.NamedTemporaryFile() as told:
        subprocess.run(["strace", "-f", "-c", "-o", told.name, program, *map(str, words)], env=ONE_THREAD, capture_output=True, check=True)
        lines = pathlib.Path(told.name).read_text().splitlines()
    found = {line.split()[-1]: int(re.sub(r"\D", "", line.split()[3])) for line in lines if re.match(r"\s*\d+\.\d+ ", line) and line.split()[-1] != "total"}
    return {name: found[name] for name in FAULTS if name in found}


def points(count):
    """Which of so many calls are struck: the first, the last, and some between."""
    if LONG or count <= FEW:
        return range(1, count + 1)
    return sorted({1 + round(k * (count - 1) / (FEW - 1)) for k in range(FEW)})


def struck(words, name, fault, at):
    with open(os.devnull) as nothing:
        done = subprocess.run(
            ["strace", "-f", "-o", os.devnull, "-e", f"trace={name}", "-e", f"inject={name}:{fault}:when={at}", program, *map(str, words)],
            env=ONE_THREAD, capture_output=True, text=True, stdin=nothing)
    return done.returncode, done.stdout + done.stderr


def strike(what, words, judge, clear):
    """Every fault at every point; `judge(code, told, killed)` says what is wrong afterwards, `clear` sets back."""
    clear()
    counted = calls(words)
    clear()
    for name, count in counted.items():
        for fault in FAULTS[name]:
            for at in points(count):
                code, told = struck(words, name, fault, at)
                tried[what] += 1
                killed = fault.startswith("signal")
                faults = judge(code, told, killed)
                if "panicked" in told or (code < 0 and not killed):
                    faults.append(f"a panic or a crash ({code})")
                wrong.extend(f"{what}, {name} {fault} at {at} of {count}: {one}: {told[-300:]}" for one in faults)
                clear()


def main():
    if subprocess.run(["strace", "-f", "-o", os.devnull, "true"], capture_output=True).returncode:
        print("NOT RUN: this system lets no process trace another, and faults are made that way")
        return
    with tempfile.TemporaryDirectory() as work:
        work = pathlib.Path(work)
        records, out, older = work / "records", work / "place" / "out", work / "place" / "older"
        shutil.copytree("tests/sound", records)
        (work / "place").mkdir()
        assert own("compile", records, "--into", older).returncode == 0
        before, kept = digest(records), digest(older)

        def clear():
            for left in (work / "place").iterdir():
                if left != older:
                    shutil.rmtree(left)

        def there_or_not(code, told, killed):
            left = [path.name for path in (work / "place").iterdir() if path not in (out, older)]
            faults = []
            if out.exists() and not whole(out):
                faults.append("half a dossier has the name of a whole one")
            if code == 0 and not out.exists():
                faults.append("success, and no dossier")
            if code not in (0,) and not killed and left:
                faults.append(f"{left} was left")
            if code == 0 and out.exists() and digest(out) != wanted:
                faults.append("another dossier than without the fault")
            if digest(older) != kept:
                faults.append("an older dossier changed")
            return faults

        words = ["compile", records, "--into", out]
        assert own(*words).returncode == 0
        wanted = digest(out)
        strike("compile", words, there_or_not, clear)
        words = ["extract", older, "--lot", "L26-31", "--into", out]
        clear()
        done = own(*words)
        assert done.returncode == 0, done.stderr
        wanted = digest(out)
        strike("extract", words, there_or_not, clear)

        # A signature is added to a dossier: it is there whole, or not at all, or `verify` says what is there.
        signed, key = work / "signed", work / "key"
        subprocess.run(["ssh-keygen", "-q", "-t", "ed25519", "-N", "", "-C", "a test", "-f", key], check=True)
        words = ["approve", signed, "--as", "prepared", "--person", "P-06", "--key", key]

        def fresh():
            shutil.rmtree(signed, ignore_errors=True)
            shutil.copytree(older, signed)

        fresh()
        done = own(*words)
        if done.returncode:
            sys.exit(done.stdout + done.stderr)
        files = sum(1 for _ in (signed / "signatures").iterdir())

        def signature(code, told, killed):
            found = own("verify", signed, "--bytes")
            left = sorted(path.name for path in (signed / "signatures").iterdir()) if (signed / "signatures").exists() else []
            faults = []
            # What could not be said was done all the same.
            code = 0 if "signed as prepared" in told or "cannot write what was found" in told else code
            if code == 0 and (found.returncode or len(left) != files):
                faults.append(f"success, but: {found.stdout[-200:]} {left}")
            if code and not killed and left:
                faults.append(f"refused, but {left} was left")
            if found.returncode == 0 and left and len(left) != files:
                faults.append(f"{left} passes for a signature")
            for path in older.rglob("*"):
                if path.is_file() and path.read_bytes() != (signed / path.relative_to(older)).read_bytes():
                    faults.append(f"{path.name} changed")
            return faults

        strike("approve", words, signature, fresh)

        # Exports are taken in whole or not at all; after a kill some of their files may be there, each of them whole, and the same
        # command again brings the rest.
        lot, exports = work / "lot", []
        for kept_export in sorted((records / "exports").iterdir()):
            exports.append(work / (kept_export.name.rsplit("-", 1)[0] + ".csv"))
            shutil.copy(kept_export, exports[-1])
        words = ["intake", lot, "--mapping", "IM-SLIT", *exports, "--write"]

        def untaken():
            shutil.rmtree(lot, ignore_errors=True)
            shutil.copytree(records, lot)
            shutil.rmtree(lot / "exports")
            (lot / "slitting.yaml").unlink()

        def files_of(folder):
            return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}

        untaken()
        at_first = files_of(lot)
        done = own(*words)
        assert done.returncode == 0, done.stdout + done.stderr
        whole_intake = files_of(lot)
        assert len(whole_intake) == len(at_first) + 4, sorted(whole_intake.keys() - at_first.keys())

        def taken(code, told, killed):
            there, faults = files_of(lot), []
            left = {name for name in there if "/.sealfolio-" in name}
            if any(there.get(name) != data for name, data in at_first.items()):
                faults.append("a file that was there before changed")
            if any(whole_intake.get(name) != data for name, data in there.items() if name not in left):
                faults.append("a file is not what it should be")
            # It shows before it writes and after: what cannot be said stops it with nothing done, or all.
            mute = "cannot write what was found" in told
            if (code == 0 or "Wrote " in told) and there != whole_intake:
                faults.append("success, and files are missing or left over")
            if code and not killed and there != at_first and not (mute and there == whole_intake):
                faults.append(f"refused, but {sorted(there.keys() - at_first.keys())} was left")
            again = own(*words)
            if again.returncode or {name: data for name, data in files_of(lot).items() if name not in left} != whole_intake:
                faults.append(f"done again: {again.stdout[-200:]}{again.stderr[-200:]}")
            return faults

        strike("intake", words, taken, untaken)

        # Two at once: one of them wins, and what is there is whole.
        clear()
        for _ in range(20 if LONG else 4):
            pair = [subprocess.Popen([program, "compile", records, "--into", out], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE) for _ in range(2)]
            codes = sorted(one.wait() for one in pair)
            for one in pair:
                one.stderr.close()
            tried["two at once"] += 1
            if codes != [0, 2] or not whole(out) or sorted(path.name for path in (work / "place").iterdir()) != ["older", "out"]:
                wrong.append(f"two at once: {codes}")
            clear()

        # A slow disk gives the same bytes.
        code, told = struck(["compile", records, "--into", out], "write", "delay_enter=3ms", "1+")
        tried["slow"] += 1
        if code or digest(out) != kept:
            wrong.append(f"slow: {code} {told[-300:]}")
        clear()

        # A copy that was interrupted: some files, and half of the next.
        files = sorted(path for path in older.rglob("*") if path.is_file())
        stick = work / "stick"
        for upto in points(len(files)) if not LONG else range(len(files)):
            shutil.rmtree(stick, ignore_errors=True)
            for n, path in enumerate(files[:upto]):
                there = stick / path.relative_to(older)
                there.parent.mkdir(parents=True, exist_ok=True)
                data = path.read_bytes()
                there.write_bytes(data[: len(data) // 2] if n == upto - 1 else data)
            tried["interrupted copy"] += 1
            stick.mkdir(exist_ok=True)
            done = own("verify", stick)
            if done.returncode == 0 or "panicked" in done.stderr:
                wrong.append(f"a copy of {upto} files of {len(files)} passes: {done.stdout[-200:]}")
        if digest(records) != before:
            wrong.append("the records changed")
    for line in wrong[:30]:
        print(line)
    counts = ", ".join(f"{what} {count}" for what, count in tried.items())
    print(f"{sum(tried.values())} faults survived but for {len(wrong)} ({counts})")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
