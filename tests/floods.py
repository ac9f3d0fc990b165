"""Files that nobody writes by accident: bombs, floods, links, devices, names. Each is refused or borne with a message that names it,
in bounded memory and time, and nothing is written.

    python3 tests/floods.py SEALFOLIO
"""
import os
import pathlib
import resource
import shutil
import subprocess
import sys
import tempfile

program = pathlib.Path(sys.argv[1]).resolve()
MEMORY, SECONDS = 3 << 30, 60
HEAD = "kind: requirement\nrecord_id: RQ-{n}\nrevision: 1\nrecorded_at: 2026-03-20T09:56:00+01:00\nrecorded_by: P-06\n"


def of_text(name, text):
    return lambda folder: (folder / name).write_bytes(text if isinstance(text, bytes) else text.encode())


def large(name, pieces):
    """A file too large to build in memory at once."""
    def write(folder):
        with open(folder / name, "wb") as file:
            for piece in pieces():
                file.write(piece)
    return write


def linked(folder):
    (folder / "out.yaml").symlink_to("/etc/passwd")


def circle(folder):
    (folder / "circle").symlink_to(folder)


def pipe(folder):
    os.mkfifo(folder / "pipe.yaml")


def unreadable(folder):
    (folder / "locked.yaml").write_text("kind: x\n")
    (folder / "locked.yaml").chmod(0)


def climbing(folder):
    path = next(folder.glob("module-tests/*.yaml"))
    path.write_text(path.read_text().replace("traces/mt", "../../../traces/mt", 1))


def twins(folder):
    (folder / "Claims.yaml").write_text((folder / "claims.yaml").read_text())


LAUGHS = "a: &a [x,x,x,x,x,x,x,x,x]\n" + "".join(f"{b}: &{b} [{','.join(['*' + a] * 9)}]\n" for a, b in zip("abcdefgh", "bcdefghi"))
# What is put into a sound folder; what must be said; whether it is bad at all.
CASES = {
    "an alias bomb": (of_text("bomb.yaml", LAUGHS), "bomb.yaml", True),
    "lists in lists": (of_text("deep.yaml", "[" * 1_000_000), "deep.yaml", True),
    "maps in maps": (of_text("deep.yaml", "".join(" " * n + "a:\n" for n in range(3000))), "deep.yaml", True),
    "flow maps in maps": (of_text("deep.yaml", "{a: " * 500_000), "deep.yaml", True),
    "a text of 100 MB": (large("text.yaml", lambda: [b"kind: requirement\nrecord_id: \"", *[b"x" * (1 << 20)] * 100, b"\"\n"]), "text.yaml", True),
    "a key of 2 MB": (of_text("key.yaml", "x" * (2 << 20) + ": 1\n"), "key.yaml", True),
    "a file of 300 MB": (large("large.yaml", lambda: [b"# a remark\n" * 100_000] * 290), "large.yaml", True),
    "an attachment of 300 MB": (large("attachments/large.bin", lambda: [bytes(1 << 20)] * 300), "large.bin", True),
    "thirty million items": (large("items.yaml", lambda: [b"- 1\n" * 1_000_000] * 30), "items.yaml", True),
    "thirty million nothings in a row": (large("items.yaml", lambda: [b"[", *[b",1" * 1_000_000] * 30]), "items.yaml", True),
    "a million numbers in one line": (of_text("line.yaml", "kind: requirement\nx: [" + "1, " * 1_000_000 + "1]\n"), "line.yaml", True),
    "a hundred thousand umlauts in one line": (of_text("line.yaml", "kind: requirement\nx: [" + "Ü, " * 100_000 + "1]\n"), "line.yaml", True),
    "a map of a hundred thousand keys": (of_text("keys.yaml", "kind: requirement\n" + "".join(f"k{n}: 1\n" for n in range(100_000))), "keys.yaml", True),
    "a map of a hundred thousand keys in one line": (of_text("keys.yaml", "{" + ", ".join(f"k{n}: 1" for n in range(100_000)) + "}\n"), "keys.yaml", True),
    "a million records in one file": (large("million.yaml", lambda: (("---\n" + HEAD.format(n=n)).encode() for n in range(1_000_000))), "million.yaml", True),
    "a million documents of nothing": (of_text("nothing.yaml", "---\n" * 1_000_000), "nothing.yaml", True),
    "twice the same key": (of_text("twice.yaml", "kind: requirement\nkind: requirement\n"), "twice.yaml", True),
    "no UTF-8": (of_text("latin.yaml", b"kind: requirement\nrecord_id: \xe9\n"), "latin.yaml", True),
    "a NUL": (of_text("nul.yaml", b"kind: requirement\0\n"), "nul.yaml", True),
    "an override of direction": (of_text("turned.yaml", "kind: requirement\nrecord_id: A\u202eB\n"), "U+202E", True),
    "a chapter with a blank of no width": (of_text("narrative/hidden.md", "# A\u200bB\n"), "U+200B", True),
    "UTF-16": (of_text("wide.yaml", "kind: requirement\n".encode("utf-16")), "wide.yaml", True),
    "a link out of the folder": (linked, "out.yaml", True),
    "a link to itself": (circle, "circle", True),
    "a pipe that nobody writes to": (pipe, "pipe.yaml", True),
    "a trace outside the folder": (climbing, "../../../traces/", True),
    "names that differ in their capitals": (twins, "Claims.yaml", True),
    "ten million columns": (of_text("traces/mt-26-3101-1-df.csv", "time_s" + "," * 10_000_000 + "\n"), "mt-26-3101-1-df.csv", True),
    "ten million rows": (large("traces/mt-26-3101-1-df.csv", lambda: [b"time_s,pressure_mbar_gauge\n", *[b"1,1\n" * 1_000_000] * 10]), "mt-26-3101-1-df.csv", True),
    "one line of 100 MB in a trace": (large("traces/mt-26-3101-1-df.csv", lambda: [b"9" * (1 << 20)] * 100), "mt-26-3101-1-df.csv", True),
    "a chapter of brackets": (of_text("narrative/01-what-this-is.md", "# A\n" + "[[x]]" * 200_000 + "[" * 200_000 + "\n"), "01-what-this-is.md", True),
    "a chapter of quotes": (of_text("narrative/01-what-this-is.md", "# A\n" + ">" * 200_000 + " x\n" + "* " * 100_000), "", False),
    "a mark of byte order": (lambda folder: (folder / "claims.yaml").write_bytes(b"\xef\xbb\xbf" + (folder / "claims.yaml").read_bytes()), "", False),
    "line ends of another system": (lambda folder: (folder / "claims.yaml").write_bytes((folder / "claims.yaml").read_bytes().replace(b"\n", b"\r\n")), "", False),
    "names for other systems": (of_text("attachments/CON", "x"), "", False),
    "a name with a line end": (of_text("attachments/a\nb\u202e.txt", "x"), "attachments/a\\u{a}b\\u{202e}.txt", True),
    "a name of 200 characters": (of_text("attachments/" + "n" * 200 + ".txt", "x"), "", False),
}
if os.geteuid():
    CASES["a file that nobody may read"] = (unreadable, "locked.yaml", True)


def bounded():
    resource.setrlimit(resource.RLIMIT_DATA, (MEMORY, MEMORY))
    resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def main():
    wrong, most = [], (0, "")
    with tempfile.TemporaryDirectory() as work:
        work = pathlib.Path(work)
        for name, (spoil, says, bad) in CASES.items():
            folder, out, told = work / "records", work / "out", work / "told"
            shutil.copytree("tests/sound", folder)
            spoil(folder)
            with open(told, "wb") as file:
                process = subprocess.Popen([program, "compile", folder, "--into", out], stdout=file, stderr=file, preexec_fn=bounded)
                _, status, used = os.wait4(process.pid, 0)
            process.returncode = code = os.waitstatus_to_exitcode(status)
            text = told.read_bytes()[:20_000_000].decode(errors="replace")
            peak, seconds = used.ru_maxrss / 1024, used.ru_utime + used.ru_stime
            most = max(most, (peak, name))
            if code not in ((1, 2) if bad else (0,)):
                wrong.append(f"{name}: exit code {code}: {text[-300:]}")
            if says not in text:
                wrong.append(f"{name}: not a word of {says}: {text[:300]}")
            if "panicked" in text or "\x00" in text or "\u202e" in text:
                wrong.append(f"{name}: {text[-300:]}")
            if len(text) > 200_000:
                wrong.append(f"{name}: {len(text)} characters of messages")
            if bad and out.exists():
                wrong.append(f"{name}: a dossier was written")
            if seconds > 30:
                wrong.append(f"{name}: {seconds:.0f} s")
            for left in (folder, out):
                shutil.rmtree(left, ignore_errors=True)
    for line in wrong:
        print(line)
    print(f"{len(CASES)} floods and bombs, {len(wrong)} complaints; at most {most[0]:.0f} MiB ({most[1]})")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
