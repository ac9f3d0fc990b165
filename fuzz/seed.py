"""Writes the seeds of the fuzzing targets from the records of the tests: `python3 seed.py` in this folder."""
import pathlib

here = pathlib.Path(__file__).resolve().parent
sound = here.parent / "tests/sound"
sealed = sorted((here.parent / "tests/sealed").glob("*/"))[-1]
CHAPTER = """# Title <b onclick=x()>

[[bubble-point@AT-26-2101-1]] [a](https://example.org "t") [b](javascript:x()) <https://example.org> ![c](d)

| a | b |
|:--|--:|
| 1 | `2` |

- [x] done
1. ~~old~~ **new** *and* [^1]

[^1]: note

```yaml
a: 1
```
"""
QUANTITIES = ["8.40 mL/min", ">= 2.40 bar", "<= 14.0 mL/min", "0.020 bar", "1.0 U", "0.014", "2 %", "1.5e-3 m", "-12 degC", "28.5 µm", "20 mbar ± 4 mbar (k = 2)",
              "2026-03-20T09:56:00+01:00", "2026-03-20", "between 1 mm and 2 mm", "0.1 mm/m"]


def put(target, name, data):
    folder = here / "corpus" / target
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(data)


def main():
    for path in sorted(sound.rglob("*.yaml")):
        # One record of each file: small seeds are tried often.
        record = path.read_text().split("\n---\n")[0][:3000]
        put("records", path.stem, record.encode())
    for path in sorted(sound.glob("traces/*.csv"))[:4]:
        rows = b"\n".join(path.read_bytes().splitlines()[:12]) + b"\n"
        put("traces", path.stem, b"," + rows)
    put("traces", "decimal-comma", b";" + rows.replace(b",", b";").replace(b".", b","))
    put("traces", "quoted", b"\t" + rows.replace(b",", b'"\t"').replace(b"\n", b'"\r\n"').join([b'"', b'"']))
    for n, text in enumerate(QUANTITIES):
        put("quantities", f"{n:02}", text.encode())
    put("chapters", "constructs", CHAPTER.encode())
    put("chapters", "sound", (sound / "narrative/01-what-this-is.md").read_bytes()[:2000])
    digest = b"ca978112ca1bbdcafac231b39a23dc4da786eff8147c4e72b9807785afee48bb"
    empty = b"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    tags = [b"BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n", b"Payload-Oxum: 1.1\nContact-Name: a\n b\n", digest + b"  data/a\n", b"", b"", empty + b"  x\n", b"", b"a"]
    put("bags", "small", b"\0".join(tags))
    put("bags", "two", b"\0".join([tags[0], b"", digest + b"  data/a\n" + digest + b"  data/b%20c\n", b"", b"", b"", b"http://x 1 data/a\n", b"a", b"a"]))
    dossier = next(path for path in [sealed, *sorted(sealed.rglob("*"))] if (path / "signatures").is_dir())
    signed = sorted((dossier / "signatures").glob("*.json"))
    signers = (sealed / "allowed_signers").read_bytes()
    for path in signed:
        put("statements", path.stem, b"\0".join([path.read_bytes(), path.with_name(path.name + ".sig").read_bytes(), b"", signers]))


if __name__ == "__main__":
    main()
