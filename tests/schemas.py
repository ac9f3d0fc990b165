"""The printed JSON Schemas accept every record of the examples and refuse spoiled ones.

    python3 tests/schemas.py PROGRAM
"""
import copy
import json
import pathlib
import subprocess
import sys

import jsonschema
import yaml


def shown(part):
    """Every schema inside a schema that shows what may stand there."""
    if isinstance(part, dict):
        if "examples" in part:
            yield part
        part = list(part.values())
    if isinstance(part, list):
        for inner in part:
            yield from shown(inner)


def main():
    program, schemas = sys.argv[1], {}
    kinds = subprocess.run([program, "schema"], capture_output=True, text=True, check=True).stdout.split("\n")
    for kind in (line.split()[0] for line in kinds if line.strip()):
        text = subprocess.run([program, "schema", kind], capture_output=True, text=True, check=True).stdout
        schema = json.loads(text)
        jsonschema.Draft202012Validator.check_schema(schema)
        schemas[kind] = jsonschema.Draft202012Validator(schema)
        for part in shown(schema):
            for example in part["examples"]:
                assert jsonschema.Draft202012Validator(part).is_valid(example), f"{kind}: {example} does not fit {part}"
    accepted = refused = 0
    for path in sorted(pathlib.Path("example-dossier").rglob("*.yaml")):
        for record in yaml.safe_load_all(path.read_text()):
            kind = record["kind"]
            errors = list(schemas[kind].iter_errors(record))
            assert not errors, f"{path}: {errors[0].json_path}: {errors[0].message}"
            accepted += 1
            spoiled = copy.deepcopy(record)
            spoiled["no_such_key"] = 1
            del spoiled["revision"]
            assert len(list(schemas[kind].iter_errors(spoiled))) >= 2, f"{path}: a spoiled {kind} was accepted"
            refused += 1
    assert accepted > 300
    print(f"{accepted} records accepted, {refused} spoiled ones refused, {len(schemas)} schemas")


if __name__ == "__main__":
    main()
