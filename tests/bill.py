"""The program's software bill of materials, held against the published schema of CycloneDX 1.6, and named where it should be.

    python3 tests/bill.py PROGRAM COMPILED-DOSSIER
"""
import hashlib
import pathlib
import subprocess
import sys

from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator

program, dossier = sys.argv[1], pathlib.Path(sys.argv[2])
text = subprocess.run([program, "bill"], capture_output=True, check=True).stdout
error = JsonStrictValidator(SchemaVersion.V1_6).validate_str(text.decode())
if error:
    sys.exit(f"the bill is no CycloneDX 1.6: {error}")
if error is None and JsonStrictValidator(SchemaVersion.V1_6).validate_str(text.decode().replace('"library"', '"thing"')) is None:
    sys.exit("the validator would let anything pass")
digest = hashlib.sha256(text).hexdigest()
named = [page.name for page in dossier.glob("data/*.html") if digest in page.read_text()]
if named != ["index.html"]:
    sys.exit(f"pages that name the bill's digest: {named}")
print(f"  {text.count(b'library')} packages, as the schema wants them; the digest stands on {named[0]}")
