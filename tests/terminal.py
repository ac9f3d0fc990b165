"""A long run as somebody sees it on a terminal: progress while it lasts, a clean last screen, Ctrl-C.

    python3 tests/terminal.py SEALFOLIO PLANT

PLANT is the example `plant`. The terminal is a pseudo-terminal of 80 columns, its screen the one that pyte emulates.
"""
import fcntl
import os
import pathlib
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import tempfile
import termios
import time

import pyte

own, plant = (pathlib.Path(word).resolve() for word in sys.argv[1:3])
WIDE, HIGH = 80, 24


def run(*words, at=None, then=None, **environment):
    """Exit code, every line that the screen ever showed, and the last screen; `then(pid)` once the screen shows `at`."""
    pid, terminal = pty.fork()
    if pid == 0:
        os.environ.update({"TERM": "xterm-256color", **environment})
        os.execv(own, [str(own), *map(str, words)])
    fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", HIGH, WIDE, 0, 0))
    screen = pyte.Screen(WIDE, HIGH)
    stream, seen = pyte.ByteStream(screen), set()
    end = time.monotonic() + 300
    while time.monotonic() < end:
        if not select.select([terminal], [], [], 1)[0]:
            continue
        try:
            told = os.read(terminal, 4096)
        except OSError:
            break
        if not told:
            break
        stream.feed(told)
        seen.update(line.rstrip() for line in screen.display)
        if then and any(at in line for line in seen):
            then(pid)
            then = None
    else:
        os.kill(pid, signal.SIGKILL)
    status = os.waitpid(pid, 0)[1]
    os.close(terminal)
    return os.waitstatus_to_exitcode(status), seen, [line.rstrip() for line in screen.display]


wrong = []


def check(what, holds, told=""):
    if not holds:
        wrong.append(f"{what}: {told}")


with tempfile.TemporaryDirectory() as work:
    work = pathlib.Path(work)
    subprocess.run([plant, "300", work / "plant"], check=True)
    # One thread, so that it takes more than a moment on any machine.
    code, seen, last = run("compile", work / "plant", "--into", work / "out", RAYON_NUM_THREADS="1")
    # A screen may be seen while a line is being drawn: only whole lines count.
    drawn = [line for line in seen if re.match(r"[a-z][a-z ]*[a-z] \d+/\d+ \[[=> ]{24}\]( about \d+ (s|min) left)?$", line)]
    check("the work is drawn, how far it is and how much is left", code == 0 and len(drawn) > 3 and any("left" in line for line in drawn), (code, sorted(seen)))
    check("nobody knows how long what is not begun takes", not any(" 0/" in line and "left" in line for line in drawn), drawn)
    stages = {re.match(r"\D*", line)[0].strip() for line in drawn}
    check("more than one stage is named", len(stages) > 1, stages)
    check("nothing of it stays", not any("[" in line or "left" in line for line in last), last)
    check("the last screen says what to open", any("START-HERE.html" in line for line in last), last)
    stopped, _, last = run("compile", work / "plant", "--into", work / "never", at="/", then=lambda pid: os.kill(pid, signal.SIGINT))
    left = sorted(path.name for path in work.iterdir())
    check("Ctrl-C while it is drawn ends the run and leaves nothing", stopped == 130 and left == ["out", "plant"], (stopped, left, last))
    piped = subprocess.run([own, "compile", work / "plant", "--into", work / "piped"], capture_output=True, text=True)
    check("a pipe sees none of it", piped.returncode == 0 and "[" not in piped.stdout + piped.stderr and "\x1b" not in piped.stdout + piped.stderr, piped)

for line in wrong:
    print(line)
print(f"a terminal: {len(drawn)} pictures of progress in {len(stages)} stages, {len(wrong)} complaints")
sys.exit(bool(wrong))
