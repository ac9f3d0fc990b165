"""The whole life of a dossier, with general tools as second opinion: compiled, signed by three persons, stamped, carried
through a FAT image, spoiled in every way, copied for a customer, revised, compared.

    python3 tests/life.py PROGRAM

Needs ssh-keygen, openssl, sha256sum, mkfs.vfat, mcopy and the packages of tests/requirements.txt.
"""
import hashlib
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import bagit

PROGRAM = pathlib.Path(sys.argv[1]).resolve()
ROOT = pathlib.Path(__file__).resolve().parent.parent
SIGNERS = [("prepared", "P-06", "ed25519"), ("reviewed", "P-07", "ecdsa"), ("approved", "P-01", "rsa")]
wrong = []


def tool(*args, **more):
    return subprocess.run([str(arg) for arg in args], capture_output=True, text=True, **more)


def must(*args, **more):
    done = tool(*args, **more)
    if done.returncode:
        sys.exit(f"{' '.join(map(str, args))}: {done.stdout}{done.stderr}")
    return done.stdout


def check(what, holds):
    if not holds:
        wrong.append(what)
        print(f"  WRONG: {what}")


def report(folder, *more):
    done = tool(PROGRAM, "verify", folder, "--json", *more)
    return done.returncode, json.loads(done.stdout)


def signed(work, folder):
    for n, (meaning, person, kind) in enumerate(SIGNERS):
        must("ssh-keygen", "-q", "-N", "", "-t", kind, "-C", "", "-f", work / person)
        must(PROGRAM, "approve", folder, "--as", meaning, "--person", person, "--key", work / person, "--at", f"2026-10-06T1{n}:00:00+02:00")
    allowed = work / "allowed_signers"
    allowed.write_text("".join(f"{person} {(work / person).with_suffix('.pub').read_text().strip()}\n" for _, person, _ in SIGNERS))
    for statement in sorted((folder / "signatures").glob("*.json")):
        person = json.loads(statement.read_text())["person"]
        with open(statement) as text:
            must("ssh-keygen", "-Y", "verify", "-f", allowed, "-I", person, "-n", "dossier-approval", "-s", f"{statement}.sig", stdin=text)
    return allowed


def general_tools(folder):
    for name in ("manifest-sha256.txt", "tagmanifest-sha256.txt"):
        must("sha256sum", "-c", "--quiet", name, cwd=folder)
    bagit.Bag(str(folder)).validate()


def stamped(work, folder):
    """A time stamp by an authority made for this test (RFC 3161, by openssl)."""
    config = work / "tsa.conf"
    settings = f"""[req]
distinguished_name = name
prompt = no
x509_extensions = stamp
[name]
CN = An invented authority
[stamp]
extendedKeyUsage = critical,timeStamping
[tsa]
default_tsa = own
[own]
serial = {work}/serial
signer_cert = {work}/tsa.pem
signer_key = {work}/tsa.key
signer_digest = sha256
default_policy = 1.2.3.4.1
digests = sha256, sha512
accuracy = secs:1
"""
    config.write_text(settings)
    (work / "serial").write_text("01\n")
    must("openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", work / "tsa.key", "-out", work / "tsa.pem", "-days", "30", "-config", config)
    signatures = sorted((folder / "signatures").glob("*.sig"))
    tokens = []
    for n, (digest, token) in enumerate([("-sha256", False), ("-sha512", True)]):
        # The second clock tells fractions of a second, under a policy of two numbers: both as the standard allows.
        if token:
            config.write_text(settings.replace("1.2.3.4.1", "1.2") + "clock_precision_digits = 6\n")
        must("openssl", "ts", "-query", "-data", signatures[n], digest, "-cert", "-out", work / "query")
        out = pathlib.Path(f"{signatures[n]}{'.tst' if token else '.tsr'}")
        must("openssl", "ts", "-reply", "-config", config, "-queryfile", work / "query", "-out", out, *(["-token_out"] if token else []))
        tokens.append(out)
    code, found = report(folder)
    times = [len(one["time_stamps"]) for one in found["signed"]["statements"]]
    check("two time stamps are read", code == 0 and times == [1, 1, 0])
    kept = tokens[0].read_bytes()
    for what, spoiled in [("of another signature", tokens[1].read_bytes()), ("cut short", kept[:-40]), ("of nothing", b"")]:
        tokens[0].write_bytes(spoiled)
        code, found = report(folder)
        check(f"a time stamp {what} is refused", code == 1 and tokens[0].name in str(found["signed"]["statements"][0]["flaws"]))
    tokens[0].write_bytes(kept)


def through_fat(work, folder):
    image, back = work / "stick.img", work / "back"
    with open(image, "wb") as file:
        file.truncate(96 << 20)
    must("mkfs.vfat", "-F", "32", image)
    must("mcopy", "-s", "-Q", "-i", image, folder, "::")
    back.mkdir()
    must("mcopy", "-s", "-Q", "-n", "-m", "-i", image, f"::{folder.name}", back)
    copy = back / folder.name
    must("diff", "-r", folder, copy)
    for name in ("System Volume Information/IndexerVolumeGuid", "Thumbs.db", "data/.DS_Store", "data/lots/desktop.ini", "._index.html"):
        (copy / name).parent.mkdir(exist_ok=True)
        (copy / name).write_bytes(b"left by a system")
    return copy


def spoil(folder, allowed):
    """Every class of file in every way, one at a time; each must be noticed and named."""
    everything = sorted(path for path in folder.rglob("*") if path.is_file())
    everything = [path for path in everything if b"left by a system" != path.read_bytes()]
    # Nothing covers a time stamp but its own signature, which `openssl ts -verify` checks for who trusts the authority.
    everything = [path for path in everything if path.suffix not in (".tsr", ".tst")]
    classes = {}
    for path in everything:
        relative = path.relative_to(folder)
        inside = relative.parts[0] if len(relative.parts) > 1 else "top"
        kind = re.sub(r"\d+", "N", relative.name) if inside in ("signatures", "top") else relative.suffix
        group = relative.parts[1] if inside == "data" and len(relative.parts) > 2 else inside
        classes.setdefault((group, kind), []).append(path)
    ways = {
        "first byte": lambda data: bytes([data[0] ^ 1]) + data[1:] if data else b"x",
        "middle byte": lambda data: data[: len(data) // 2] + bytes([data[len(data) // 2] ^ 0x20]) + data[len(data) // 2 + 1 :] if data else b"y",
        "last byte": lambda data: data[:-1] + bytes([data[-1] ^ 1]) if data else b"z",
        "cut short": lambda data: data[:-1] if data else None,
        "emptied": lambda data: b"" if data else None,
        "a byte more": lambda data: data + b"\n",
    }
    tried = noticed = 0

    def look(what, path):
        nonlocal tried, noticed
        code, found = report(folder, "--allowed-signers", allowed)
        tried += 1
        name = path.relative_to(folder).as_posix()
        text = json.dumps([found["whole"], found["signed"], found["recomputed"]], ensure_ascii=False)
        # The last statement leaves no gap in the chain: that it was expected shows that it is gone.
        gone = bool(found["signed"]["expected_and_missing"])
        said = name in text or (name.startswith("signatures/") and (name.split("/")[1].removesuffix(".sig") in text or gone))
        # A list that still can be read says another file is wrong, or the statements do not speak of it any more.
        said = said or (name.endswith("manifest-sha256.txt") and ("another digest" in text or "changed: " in text))
        if (code == 1 or gone) and said:
            noticed += 1
        else:
            check(f"{what}: {name}", False)

    for members in classes.values():
        path = members[len(members) // 2]
        data = path.read_bytes()
        for what, change in ways.items():
            spoiled = change(data)
            if spoiled is None or spoiled == data:
                continue
            path.write_bytes(spoiled)
            look(what, path)
        path.unlink()
        look("removed", path)
        path.with_name("other-" + path.name).write_bytes(data)
        look("renamed", path)
        path.with_name("other-" + path.name).unlink()
        other = next((one for one in members if one != path and one.read_bytes() != data), None)
        if other is not None:
            swapped = other.read_bytes()
            path.write_bytes(swapped)
            other.write_bytes(data)
            look("swapped", path)
            other.write_bytes(swapped)
        path.write_bytes(data)
    for place in ("", "data/", "data/lots/", "signatures/"):
        path = folder / place / "added.txt"
        path.write_text("added")
        look("added", path)
        path.unlink()
    # A line taken out of a list, together with its file: the digest of the list tells.
    manifest = folder / "manifest-sha256.txt"
    text = manifest.read_text()
    line = next(line for line in text.splitlines() if line.endswith(".csv"))
    victim = folder / line.split("  ")[1]
    data = victim.read_bytes()
    victim.unlink()
    manifest.write_text(text.replace(line + "\n", ""))
    look("removed with its line", manifest)
    victim.write_bytes(data)
    manifest.write_text(text)
    code, _ = report(folder, "--allowed-signers", allowed)
    check("the copy is whole again after every change was undone", code == 0)
    print(f"tampering: {noticed} of {tried} noticed, {len(classes)} classes of files")
    check("all tampering is noticed", noticed == tried)


def tree(entries):
    """RFC 9162, 2.1.1, a second time."""
    if len(entries) == 1:
        return hashlib.sha256(b"\0" + entries[0]).digest()
    half = 1
    while half * 2 < len(entries):
        half *= 2
    return hashlib.sha256(b"\1" + tree(entries[:half]) + tree(entries[half:])).digest()


def root_again(copy):
    """The root from the pieces of a customer's copy, apart from the program."""
    data = copy / "data"
    proof = json.loads((data / "proof.json").read_text())
    sources = {name: path for path, name in json.loads((data / "sources.json").read_text()).items()}
    sealed = lambda salt, file, content: hashlib.sha256(bytes.fromhex(salt) + file.encode() + b"\0" + content).digest()

    def piece(file, part):
        content = (data / sources[file]).read_bytes()
        if not file.endswith((".yaml", ".yml")):
            return content
        begins = [0] + [match.start() for match in re.finditer(rb"(?m)^---(?=[ \t\r\n]|\Z)", content) if match.start()]
        return content[begins[part] : (begins + [len(content)])[part + 1]]

    heads = [bytes.fromhex(head) for head in proof["withheld"]]
    for group in proof["shown"]:
        entries = []
        for one in group["pieces"]:
            seal = bytes.fromhex(one["seal"]) if "seal" in one else sealed(one["salt"], one["file"], piece(one["file"], one["part"]))
            entries.append(one["kind"].encode() + b"\0" + bytes([one["customer"]]) + seal)
        first = b"group\0\0" + sealed(group["salt"], group["of"], group["name"].encode())
        heads.append(tree([first] + sorted(entries)))
    return tree(sorted(heads)).hex()


def extracted(work, folder, allowed):
    copy = work / "for-cu-34"
    must(PROGRAM, "extract", folder, "--customer", "CU-34", "--into", copy)
    general_tools(copy)
    code, found = report(copy, "--allowed-signers", allowed)
    check("the extract verifies", code == 0 and found["copy_of"]["holds"] and len(found["copy_of"]["signed"]["statements"]) == 3)
    stated = re.search(r"Dossier-Records-Root: sha256:(\w+)", (folder / "bag-info.txt").read_text())[1]
    check("the root comes out a second time", root_again(copy) == stated)
    must("sha256sum", copy / "data/signed-dossier/tagmanifest-sha256.txt")
    own = hashlib.sha256((copy / "data/signed-dossier/tagmanifest-sha256.txt").read_bytes()).hexdigest()
    check("the extract names its parent", found["copy_of"]["digest"] == "sha256:" + own)
    print(f"extract: root {stated[:12]} computed twice, {found['copy_of']['pieces_shown']} pieces shown, {found['copy_of']['pieces_sealed']} sealed")


def revised(work, folder):
    records = work / "revision-3"
    shutil.copytree(ROOT / "example-dossier/released", records)
    head = records / "dossier.yaml"
    digest = hashlib.sha256((folder / "tagmanifest-sha256.txt").read_bytes()).hexdigest()
    text = head.read_text().replace("\nrevision: 2\n", "\nrevision: 3\n")
    text = text.replace("supersedes: {id: QM-2026-3, revision: 1}", f'supersedes: {{id: QM-2026-3, revision: 2, digest: "sha256:{digest}"}}')
    head.write_text(text)
    out = work / "out-3"
    must(PROGRAM, "compile", records, "--into", out, "--supersedes", folder)
    said = must(PROGRAM, "compare", folder, out)
    check("nothing but the head changed", "Verdicts changed: none." in said and "by its digest" in said)
    code, found = report(out)
    check("the later one names the earlier by digest", code == 0 and found["succession"]["named"] == "by digest")
    print("revision 3 supersedes the signed copy by its digest; verdicts changed: none")


def main():
    with tempfile.TemporaryDirectory() as name:
        work = pathlib.Path(name)
        folder = work / "dossier"
        must(PROGRAM, "compile", ROOT / "example-dossier/released", "--into", folder)
        allowed = signed(work, folder)
        general_tools(folder)
        stamped(work, folder)
        copy = through_fat(work, folder)
        code, found = report(copy, "--allowed-signers", allowed)
        left = [one for one in found["whole"]["differences"] if "not part of the dossier" in one]
        check("a copy from a stick holds, and what systems left is named", code == 0 and len(left) == 5)
        print(f"signed by three, carried through FAT32: {found['whole']['files_as_listed']} files as listed, {len(left)} left by systems")
        for one in copy.rglob("*"):
            if one.is_file():
                one.chmod(0o444)
        code, _ = report(copy)
        check("a copy that cannot be written is verified", code == 0)
        for one in copy.rglob("*"):
            if one.is_file():
                one.chmod(0o644)
        spoil(copy, allowed)
        extracted(work, folder, allowed)
        revised(work, folder)
    sys.exit(1 if wrong else 0)


main()
