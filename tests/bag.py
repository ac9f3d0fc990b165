"""A general BagIt reader checks a compiled dossier, and refuses it once a byte has changed; its figures keep their schema.

    python3 tests/bag.py DOSSIER
"""
import json
import pathlib
import sys

import bagit
import jsonschema

root = pathlib.Path(sys.argv[1])
bagit.Bag(str(root)).validate(processes=1)
figures = json.loads((root / "data" / "figures.json").read_text())
schema = json.loads((root / "data" / "figures.schema.json").read_text())
jsonschema.validate(figures, schema)
print(f"{len(figures['figures'])} figures keep their own schema")
page = root / "data" / "index.html"
good = page.read_bytes()
page.write_bytes(good[:-1] + b"?")
try:
    bagit.Bag(str(root)).validate(processes=1)
except bagit.BagError:
    print("the bag is valid, and no longer valid with one byte changed")
else:
    sys.exit("the changed bag was accepted")
finally:
    page.write_bytes(good)
