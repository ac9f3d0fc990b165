"""A general BagIt reader checks a compiled dossier, and refuses it once a byte has changed.

    python3 tests/bag.py DOSSIER
"""
import pathlib
import sys

import bagit

root = pathlib.Path(sys.argv[1])
bagit.Bag(str(root)).validate(processes=1)
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
