"""Every page of a compiled dossier through an HTML parser that names each error, and its ids counted.

    python3 tests/markup.py DOSSIER
"""
import collections
import pathlib
import sys

import html5lib

root = pathlib.Path(sys.argv[1])
wrong, pages = [], sorted(root.rglob("*.html"))
for page in pages:
    parser = html5lib.HTMLParser()
    document = parser.parse(page.read_text())
    wrong += [f"{page.relative_to(root)} line {at[0]}: {code} {data}" for at, code, data in parser.errors]
    ids = collections.Counter(element.get("id") for element in document.iter() if element.get("id"))
    wrong += [f"{page.relative_to(root)}: id {name} stands {n} times" for name, n in ids.items() if n > 1]

# It must be able to fail.
probe = html5lib.HTMLParser()
probe.parse("<!DOCTYPE html><title>x</title><p><b></p>")
assert probe.errors, "the parser names no error"
for line in wrong:
    print(line)
print(f"{len(pages)} pages parsed, {len(wrong)} complaints")
sys.exit(1 if wrong else 0)
