"""Plants that `examples/plant.rs` writes: a sound one has no finding, in another every planted fault is found under its rule and
nothing else; four times the plant takes about four times the work; and, on demand, a large dossier goes onto a stick formatted as FAT32 and comes back whole.

    python3 tests/plant.py SEALFOLIO PLANT                  the faults, the pages of a plant, the growth
    python3 tests/plant.py SEALFOLIO PLANT --stick LOTS     the stick too, with two assemblies a lot; wants dosfstools and mtools
"""
import html
import json
import os
import pathlib
import posixpath
import re
import subprocess
import sys
import tempfile

import fat32

program, plant = (str(pathlib.Path(word).resolve()) for word in sys.argv[1:3])


def run(*words, fine=(0,), **more):
    done = subprocess.run([str(word) for word in words], capture_output=True, text=True, **more)
    if done.returncode not in fine:
        sys.exit(f"{words}: {done.returncode} {done.stdout[-300:]} {done.stderr[-500:]}")
    return done.stdout


def findings(folder):
    found = json.loads(run(program, "review", folder, "--json", fine=(0, 1)))["findings"]
    return [one for one in found if one["severity"] != "note"]


def lot(text):
    """The number of the lot that a file or an id belongs to."""
    found = re.search(r"lots/0*(\d+)/|-(\d+)$", text)
    return int(found[1] or found[2]) if found else None


def faults(work):
    run(plant, 30, work / "sound")
    left = findings(work / "sound")
    assert not left, left[:3]
    run(plant, 30, work / "spoiled", 5)
    planted = json.loads((work / "spoiled.faults.json").read_text())
    assert len(planted) == 6 and len({one["rule"] for one in planted}) == 5, planted
    found = findings(work / "spoiled")
    for fault in planted:
        told = [one for one in found if one["rule"] == fault["rule"] and lot(one["file"]) == lot(fault["about"])]
        assert told, fault
    # What else is said is said of the same lots: a trace that is missing leaves a figure without a value.
    spoiled = {lot(fault["about"]) for fault in planted}
    others = [one for one in found if lot(one["file"]) not in spoiled]
    assert not others, others[:3]
    print(f"30 sound lots without a finding; {len(planted)} of {len(planted)} planted faults found, and nothing in the other lots")


def pages(work):
    """What takes several pages in a plant (runs of seals, cycles) is linked like the rest; every figure is shown once."""
    run(plant, 60, work / "many")
    out = work / "many-out"
    run(program, "compile", work / "many", "--into", out, "--quiet")
    data = out / "data"
    texts = {path.relative_to(data).as_posix(): path.read_text() for path in data.rglob("*.html")}
    anchors = {name: re.findall(r' id="([^"]+)"', text) for name, text in texts.items()}
    known = {name: set(ids) for name, ids in anchors.items()}
    links = 0
    for name, text in texts.items():
        for href in set(re.findall(r'href="([^"]+)"', text)):
            if re.match(r"[a-z]+:", href):
                continue
            to, _, anchor = html.unescape(href).partition("#")
            to = posixpath.normpath(posixpath.join(posixpath.dirname(name), to)) if to else name
            links += 1
            assert (data / to).exists(), (name, href)
            assert not anchor or anchor in known[to], (name, href)
    figures = json.loads((data / "figures.json").read_text())["figures"]
    shown = [(name, anchor) for name, ids in anchors.items() for anchor in ids]
    assert len(set(shown)) == len(shown), "an anchor stands twice"
    homes = {}
    for name, anchor in shown:
        homes.setdefault(anchor, []).append(name)
    for figure in figures:
        page, _, anchor = figure["page"].partition("#")
        assert homes[anchor] == [page], (figure["id"], homes.get(anchor), page)
    assert "cycles-002.html" in texts, "too few lots for a second page of cycles"
    print(f"60 lots: {len(texts)} pages, {links} links lead somewhere, each of {len(figures)} figures is shown once")


def user_seconds(*words):
    """What the processor did for a command: on a shared machine far steadier than the clock."""
    with open(os.devnull, "w") as nowhere:
        begun = subprocess.Popen([str(word) for word in words], stdout=nowhere, stderr=nowhere)
        _, status, used = os.wait4(begun.pid, 0)
    begun.returncode = os.waitstatus_to_exitcode(status)
    assert begun.returncode in (0, 1), (words, begun.returncode)
    return used.ru_utime


def growth(work):
    """Four times the plant, four times the work: what looks at every lot for every lot takes up to sixteen times as much."""
    few, factor, most = 200, 4, 5.5
    told = []
    for what, *every in (("sound",), ("spoiled", 5)):
        seconds = {}
        for lots in (few, few * factor):
            records, out = work / f"{what}-{lots}", work / f"{what}-{lots}-out"
            run(plant, lots, records, *every)
            seconds["review", lots] = user_seconds(program, "review", records)
            seconds["compile", lots] = user_seconds(program, "compile", records, "--draft", "--into", out)
            seconds["verify", lots] = user_seconds(program, "verify", out)
        for command in ("review", "compile", "verify"):
            grown = seconds[command, few * factor] / seconds[command, few]
            assert grown < most, f"{command} of {factor} times the {what} plant takes {grown:.1f} times as long: {seconds}"
            told.append(f"{command} of the {what} {grown:.1f}")
    print(f"{factor} times the plant takes so many times the processor: {', '.join(told)}")


def stick(work, lots):
    run(plant, lots, work / "plant")
    out = work / "out"
    run(program, "compile", work / "plant", "--into", out, "--quiet")
    files = [path for path in out.rglob("*") if path.is_file()]
    size = sum(path.stat().st_size for path in files)
    # A cluster of 32 KiB a file at most, and as much again for folders; smaller than 4 GiB it would have too few for FAT32.
    image = work / "stick.img"
    room = size + len(files) * 2 * 32768 + (4 << 30)
    with open(image, "wb") as made:
        made.truncate(room)
    env = {**os.environ, "PATH": f"{os.environ['PATH']}:/usr/sbin:/sbin"}
    run("mkfs.vfat", "-F", 32, "-s", 64, image, env=env)
    fat32.fill(image, out)
    run("fsck.fat", "-n", image, env=env)
    back = work / "back"
    back.mkdir()
    run("mcopy", "-s", "-Q", "-n", "-i", image, "::/out", back, env=env)
    told = json.loads(run(program, "verify", back / "out", "--bytes", "--json"))
    assert told["digest"] == json.loads(run(program, "verify", out, "--bytes", "--json"))["digest"]
    run("diff", "-r", out, back / "out")
    used = run("mdir", "-i", image, "::", env=env).strip().splitlines()[-1].strip()
    print(f"{2 * lots} assemblies, {len(files)} files, {size / 1e6:.0f} MB: onto FAT32 and back, every byte the same; of {room / 1e6:.0f} MB {used}")


with tempfile.TemporaryDirectory() as folder:
    folder = pathlib.Path(folder)
    faults(folder)
    pages(folder)
    growth(folder)
    if "--stick" in sys.argv:
        stick(folder, int(sys.argv[sys.argv.index("--stick") + 1]))
