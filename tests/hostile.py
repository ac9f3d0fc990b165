"""Text that would like to be more than text: markup, scripts, template syntax, overlong words, in every free text of every record
kind and in every construct of a chapter. Opened in a browser nothing of it runs, loads, links out or becomes an element, and all of
it can be read.

    python3 tests/hostile.py SEALFOLIO
"""
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import yaml

from browser import driver, opened, too_wide

PAYLOADS = [
    "<script data-hostile>hit()</script>",
    "<img src=x data-hostile onerror=hit()>",
    "<svg/onload=hit() data-hostile><a href=javascript:hit()>x</a>",
    "\"><iframe data-hostile srcdoc='<script>parent.hit()</script>'>",
    "' onmouseover='hit()' data-hostile='",
    "\" autofocus onfocus=hit() data-hostile=\"",
    "</title></style></textarea></script><script data-hostile>hit()</script>",
    "--><!--><b data-hostile>",
    "{{ 7 * 7 }}{% raw %}{# gone #}{{ page.title }}",
    "\\u003cscript\\u003e \\x3c ${7*7} `x` \\' \\\"",
    "]]>&lt;b&gt; &amp; &#60;i&#62; &nbsp;",
    "*/ } body { display: none } @import 'x'; /*",
    "javascript:hit()//",
    "=HYPERLINK(\"x\") +1 @sum",
    "[link](javascript:hit()) ![i](x) <b> [[bubble-point@x]]",
    "../../../etc/passwd\\..\\x%2e%2e%00",
    "W" * 300,
]
# Names of files, and what is looked up in a table of the program; a wrong one is another test's business.
NOT_THESE = {"kind", "file", "sha256", "photo", "decimal_separator", "field_separator", "chapters", "display_units", "digest"}
CHAPTER = """# Chapter <script data-hostile>hit()</script>

<script data-hostile>hit()</script>

<div data-hostile onclick="hit()">

raw <b data-hostile onmouseover=hit()>inline</b> &#106;avascript:hit() &lt;b&gt;

</div>

[a](javascript:hit()) [b](JaVaScRiPt:hit()) [c](&#106;avascript:hit()) [d](data:text/html,<script>hit()</script>) [e](vbscript:x "t\\" onclick=hit()")
[f](//example.org/x) [g](https://example.org/x) ![h](https://example.org/x.png) ![i](x" onerror="hit()) <javascript:hit()> <https://example.org>
[j][k] [l](<a" onclick="hit()>) [m](file:///etc/passwd) [n](..\\\\..\\\\x) [o](\x2e\x2e/\x2e\x2e/x)

[k]: javascript:hit() "title' onclick='hit()"

| <b data-hostile>t</b> | {{ 7*7 }} |
|---|---|
| <img src=x data-hostile onerror=hit()> | `<script data-hostile>hit()</script>` |

```html" onclick="hit()
<script data-hostile>hit()</script>
```

[[bubble-point@<img src=x data-hostile onerror=hit()>]] [[" onclick="hit()]] {{ site.title }} {% include "x" %}

- [ ] <input data-hostile autofocus onfocus=hit()>
- ~~gone~~ <!-- <script data-hostile>hit()</script> --> <![CDATA[<b data-hostile>]]> <?x hit() ?>

[^1]: note <b data-hostile>

Text[^1] """ + "V" * 5000 + "\n"
# A web address in a chapter is the author's own and stays a link.
LOOK = """
const out = [];
if (window.wasHit) out.push('a script ran');
for (const e of document.querySelectorAll('[data-hostile], iframe, object, embed, img, base, form, template, script:not([src]), style, svg script, foreignObject'))
  out.push('element ' + e.outerHTML.slice(0, 90));
for (const e of document.querySelectorAll('*')) for (const a of e.attributes)
  if (/^on/i.test(a.name) || (/^(href|src|xlink:href|action|formaction)$/i.test(a.name) && /^\\s*([a-z][a-z0-9+.-]*:|[\\/\\\\]{2})/i.test(a.value) && !/^https:[/][/]example[.]org/.test(a.value)))
    out.push('attribute ' + a.name + '=' + a.value.slice(0, 90));
const policy = document.querySelector('head > meta[http-equiv="Content-Security-Policy"]');
if (!policy || !/^default-src 'none';/.test(policy.content) || /unsafe|\\*|https?:/.test(policy.content)) out.push('no strict policy');
return [out, document.documentElement.textContent, getComputedStyle(document.body).display];
"""


def resolved(schema, data):
    """The part of a schema that speaks of this value."""
    for choice in schema.get("anyOf", schema.get("oneOf", [])):
        kind = choice.get("type")
        if (isinstance(data, dict) and kind == "object") or (isinstance(data, list) and kind == "array") or (isinstance(data, str) and kind == "string"):
            return choice
    return schema


def spoiled(data, schema, put, key=""):
    """The same value with every free text of it spoiled."""
    schema = resolved(schema, data)
    if isinstance(data, dict):
        known = schema.get("properties", {})
        return {name: spoiled(value, known.get(name, {}), put, name) for name, value in data.items()}
    if isinstance(data, list):
        return [spoiled(value, schema.get("items", {}), put, key) for value in data]
    free = schema.get("type") == "string" and not {"pattern", "enum", "const", "format"} & set(schema)
    if isinstance(data, str) and free and key not in NOT_THESE:
        return put(data)
    return data


def main():
    program = pathlib.Path(sys.argv[1]).resolve()
    kinds = subprocess.run([program, "schema"], capture_output=True, text=True, check=True).stdout.splitlines()
    schemas = {kind: json.loads(subprocess.run([program, "schema", kind], capture_output=True, text=True, check=True).stdout)
               for kind in (line.split()[0] for line in kinds if line.strip())}
    wrong, leaves, seen_kinds, looked = [], 0, set(), 0
    with tempfile.TemporaryDirectory() as work:
        work = pathlib.Path(work)
        shutil.copytree("example-dossier/released", work / "records")
        told = set()

        def put(text):
            # The same text becomes the same text, so that records still speak of one another.
            nonlocal leaves
            leaves += 1
            payload = PAYLOADS[sum(text.encode()) % len(PAYLOADS)]
            told.add(payload)
            return f"{text} {payload}"

        for path in sorted((work / "records").rglob("*.yaml")):
            records = []
            for record in yaml.safe_load_all(path.read_text()):
                seen_kinds.add(record["kind"])
                records.append(spoiled(record, schemas[record["kind"]], put))
            path.write_text(yaml.safe_dump_all(records, allow_unicode=True, sort_keys=False, width=10**9))
        # Files whose names would like to be more than names.
        for name in ("lots.yaml", "claims.yaml"):
            (work / "records" / name).rename(work / "records" / f"{name[:-5]}\"><img src=x data-hostile onerror=hit()>{{{{ 7 * 7 }}}}.yaml")
        for chapter in (work / "records").rglob("*.md"):
            chapter.write_text(CHAPTER)
        out = work / "out"
        done = subprocess.run([program, "compile", work / "records", "--into", out, "--draft"], capture_output=True, text=True)
        if not out.exists():
            print(done.stdout[-2000:], done.stderr[-4000:])
            sys.exit("nothing was compiled")
        if "panicked" in done.stderr:
            wrong.append("a panic")
        missing = set(PAYLOADS) - told
        if missing or len(seen_kinds) < 26:
            wrong.append(f"not everything was tried: {missing}, {len(seen_kinds)} kinds")
        pages, read = [out / "START-HERE.html", *sorted((out / "data").rglob("*.html"))], {payload: 0 for payload in PAYLOADS}
        with tempfile.TemporaryDirectory() as profile:
            browser = driver(profile)
            browser.execute_cdp_cmd("Page.enable", {})
            browser.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": "window.hit = window.alert = function () { window.wasHit = true; };"})
            for page in pages:
                opened(browser, page.as_uri())
                faults, text, display = browser.execute_script(LOOK)
                name = page.relative_to(out)
                wrong += [f"{name}: {fault}" for fault in faults]
                if wide := too_wide(browser):
                    wrong.append(f"{name}: wider than its window by {wide}")
                if display == "none":
                    wrong.append(f"{name}: hidden by a style from a record")
                for entry in browser.get_log("browser"):
                    wrong.append(f"{name}: {entry['message'][:160]}")
                for payload in PAYLOADS:
                    read[payload] += payload in text
                looked += 1
            browser.quit()
        for payload, count in read.items():
            if count < 3:
                wrong.append(f"{payload!r} can be read on {count} pages only")
    for line in wrong[:40]:
        print(line)
    print(f"{leaves} free texts of {len(seen_kinds)} kinds and a chapter spoiled in {len(PAYLOADS)} ways; {looked} pages opened, {len(wrong)} complaints")
    sys.exit(bool(wrong))


if __name__ == "__main__":
    main()
