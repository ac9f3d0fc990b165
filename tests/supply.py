"""What the program is built from, held against `deny.toml`: licences, sources, what must not come in; and what comes in two versions.

    python3 tests/supply.py

The file is that of cargo-deny, which looks at advisories too when a version is released. Licences are read as SPDX expressions
by license-expression (PyPI); packages come from `cargo metadata`, all features and targets.
"""
import collections
import json
import pathlib
import subprocess
import sys
import tomllib

import boolean
import license_expression

here = pathlib.Path(__file__).resolve().parent.parent
REGISTRY = "registry+https://github.com/rust-lang/crates.io-index"


def packages(manifest):
    told = subprocess.run(
        ["cargo", "metadata", "--format-version", "1", "--locked", "--all-features", "--manifest-path", manifest],
        capture_output=True, text=True, check=True)
    return json.loads(told.stdout)["packages"]


def allows(expression, allowed):
    """Whether the terms of one side of every "or" and of all sides of every "and" are allowed."""
    sides = [allows(side, allowed) for side in expression.args if isinstance(side, boolean.Expression)]
    match expression:
        case license_expression.LicenseSymbol() | license_expression.LicenseWithExceptionSymbol():
            return expression.render() in allowed
        case boolean.OR():
            return any(sides)
        case boolean.AND():
            return all(sides)
    raise AssertionError(f"{expression!r} is no part of a licence")


def faults(all_packages, rules, spdx):
    allowed = set(rules["licenses"]["allow"])
    banned = {ban["crate"]: ban["reason"] for ban in rules["bans"]["deny"]}
    for package in all_packages:
        name = f"{package['name']} {package['version']}"
        if package["source"] not in (None, REGISTRY):
            yield f"{name} comes from {package['source']}"
        if package["name"] in banned:
            yield f"{name}: {banned[package['name']]}"
        # A slash is an "or" of old (Cargo reference, "The license and license-file fields").
        text = (package["license"] or "").replace("/", " OR ")
        if not text and package["source"]:
            yield f"{name} states no licence"
        elif text and not allows(spdx.parse(text, validate=True, strict=True), allowed):
            yield f"{name}: {text}"


def main():
    rules = tomllib.loads((here / "deny.toml").read_text())
    spdx = license_expression.get_spdx_licensing()
    found = packages(here / "Cargo.toml")
    wrong = list(faults(found, rules, spdx))
    # The test can fail: each of these is one that it must name.
    bad = dict(name="x", version="1", source=REGISTRY, license="MIT")
    for change in [{"license": "GPL-3.0-only"}, {"license": "MIT AND GPL-3.0-only"}, {"license": None}, {"source": "git+https://example.org/x"}, {"name": "serde_yml"}]:
        assert len(list(faults([bad | change], rules, spdx))) == 1, change
    assert not list(faults([bad, bad | {"license": "MIT OR GPL-3.0-only"}, bad | {"license": "MIT/Apache-2.0"}], rules, spdx))
    if wrong:
        sys.exit("\n".join(wrong))
    versions = collections.Counter(package["name"] for package in found)
    twice = sorted(name for name, n in versions.items() if n > 1)
    print(f"{len(found)} packages: licences, sources and bans as deny.toml has them; in more than one version: {', '.join(twice) or 'none'}")


main()
