"""Opens every page of a compiled dossier in headless Chromium, from file:// and without a server.

Asks of each page: nothing on the console, no request that leaves the folder, nothing wider than a
window of 320 pixels or one zoomed to 200 %, nothing that the page's own content security policy had to
stop. Then of each kind of page: what axe-core says by day and by night, whether it stands without
scripts, whether the keyboard gets everywhere, whether anything moves for who wants no motion, and what
it prints on A4 and on Letter. Last: do finding, sorting and narrowing down work.

    python3 tests/browser.py DOSSIER
    python3 tests/browser.py DOSSIER --brief      # every page opened, and the one-sheet pages printed; nothing else
"""
import base64
import hashlib
import io
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time

import axe_core_python
import pypdf
from selenium import webdriver
from selenium.webdriver.chrome.service import Service
from selenium.webdriver.common.keys import Keys


def driver(profile):
    options = webdriver.ChromeOptions()
    options.binary_location = shutil.which("chromium") or shutil.which("chromium-browser")
    for flag in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                 "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage", f"--user-data-dir={profile}"):
        options.add_argument(flag)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    return webdriver.Chrome(options=options, service=Service(shutil.which("chromedriver")))


def opened(browser, address):
    """Opens a page and waits until it stands with its scripts: on a busy machine the driver may come back before."""
    browser.get(address)
    for _ in range(300):
        state, there = browser.execute_script("return [document.readyState, location.href]")
        if state == "complete" and there.split("#")[0] == address.split("#")[0]:
            return
        time.sleep(0.1)
    raise TimeoutError(address)


def scripts(browser, root):
    """Finding, sorting and narrowing down; and the same page without scripts."""
    wrong = []
    opened(browser, (root / "data" / "find.html").as_uri() + "#q=" + "%20".join(("module", "RM-")))
    names = browser.execute_script("return Array.from(document.querySelectorAll('#found a')).map(a => a.textContent)")
    if not names or not all(name.startswith("M-") for name in names):
        wrong.append(f"find: a module of a roll is not found: {names[:3]}")
    took = browser.execute_script("""
        const box = document.getElementById('query'), before = performance.now();
        box.value = 'conforms nowhere'; box.dispatchEvent(new Event('input'));
        return [performance.now() - before, document.getElementById('said').textContent];""")
    if not took[1].startswith("0 "):
        wrong.append(f"find: {took[1]}")
    link = "return Array.from(document.querySelectorAll('td a')).map(a => a.href).find(h => h.includes('#diffusive-flow--'))"
    opened(browser, next((root / "data" / "assemblies").glob("*.html")).as_uri())
    opened(browser, browser.execute_script(link))
    if not browser.execute_script("return document.querySelector(':target details').open"):
        wrong.append("proof: it stays closed when a number is followed to it")
    toggle = "document.querySelector('.together').click(); return Array.from(document.querySelectorAll('.entry details')).map(d => d.open)"
    first, second = browser.execute_script(toggle), browser.execute_script(toggle)
    if len(first) < 2 or not all(first) or any(second):
        wrong.append("proofs: they do not open and close together")
    opened(browser, (root / "data" / "trends.html").as_uri())
    column = "Array.from(document.querySelectorAll('tbody tr')).filter(r => !r.hidden).map(r => parseInt(r.cells[2].textContent))"
    click = "document.querySelectorAll('th button')[2].click(); return " + column
    rising, falling = browser.execute_script(click), browser.execute_script(click)
    if rising != sorted(rising) or falling != sorted(falling, reverse=True) or len(set(rising)) < 2:
        wrong.append(f"tables: not sorted by the head: {rising}")
    left = browser.execute_script("const box = document.querySelector('.narrow input'); box.value = 'VF65'; box.dispatchEvent(new Event('input')); return " + column)
    if not 0 < len(left) < len(rising):
        wrong.append("tables: not narrowed down by a word")
    browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    opened(browser, (root / "data" / "find.html").as_uri())
    plain = browser.page_source
    if "a-to-z-1.html" not in plain or "<button" in plain:
        wrong.append("find: without a script there are no lists")
    browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})
    return wrong


def too_wide(browser):
    """By how many pixels a page is wider than its window, once a window that was just opened has come to rest."""
    for _ in range(20):
        wide = browser.execute_script("return document.documentElement.scrollWidth - document.documentElement.clientWidth")
        if wide <= 0:
            return 0
        time.sleep(0.1)
    return wide


KINDS = ("ed25519", "ecdsa", "rsa")


def sign(copy, digest):
    """Three statements in one chain, each signed by another kind of key; form and order are those of the program."""
    folder, before = copy / "signatures", None
    folder.mkdir()
    for n, (kind, meaning, stem, name) in enumerate(zip(KINDS, ("prepared", "reviewed", "approved for release"), ("prepared", "reviewed", "approved"), ("One", "Two", "Three"))):
        key = copy.parent / f"key-{kind}"
        subprocess.run(["ssh-keygen", "-q", "-N", "", "-t", kind, "-C", "", "-f", key], check=True)
        own = {"format": 1, "dossier": "D", "digest": f"sha256:{digest}", "meaning": meaning, "person": name, "name": name, "role": "r", "time": "2026-10-06T10:00:00+02:00", "before": before}
        path = folder / f"{n + 1:02}-{stem}.json"
        path.write_text(json.dumps(own, indent=2) + "\n")
        before = "sha256:" + hashlib.sha256(path.read_bytes()).hexdigest()
        subprocess.run(["ssh-keygen", "-Y", "sign", "-q", "-n", "dossier-approval", "-f", key, path], check=True, capture_output=True)


def checked_here(browser, root, folder):
    """The page that checks a copy: a whole one, and one that was spoiled in every way."""
    copy = pathlib.Path(folder) / "copy"
    shutil.copytree(root, copy)

    def run():
        browser.get((copy / "data" / "check.html").as_uri())
        browser.find_element("id", "folder").send_keys(str(copy))
        for _ in range(300):
            time.sleep(0.1)
            if not browser.execute_script("return document.getElementById('digest').hidden"):
                break
        return browser.execute_script("""
            const text = id => document.getElementById(id).textContent;
            return [text('checked'), document.querySelector('#digest code').textContent,
                    Array.from(document.querySelectorAll('#differences li')).map(e => e.textContent)];""")

    wrong = []
    listed = sum(len((copy / name).read_text().splitlines()) for name in ("manifest-sha256.txt", "tagmanifest-sha256.txt"))
    said, digest, rows = run()
    own = hashlib.sha256((copy / "tagmanifest-sha256.txt").read_bytes()).hexdigest()
    if not said.startswith(f"{listed} files are as listed") or rows or digest.replace(" ", "") != own:
        wrong.append(f"check: a whole copy is not called whole: {said} {digest} {rows}")
    # Signatures of every kind of key, checked in the page: fitting ones, and one over other bytes.
    statements = lambda: browser.execute_script("return Array.from(document.querySelectorAll('#statements li')).map(e => e.textContent)")
    if statements() != ["Nobody has signed this copy."]:
        wrong.append(f"check: an unsigned copy: {statements()}")
    sign(copy, own)
    run()
    told = statements()
    fingerprints = [subprocess.run(["ssh-keygen", "-lf", copy.parent / f"key-{kind}.pub"], capture_output=True, text=True, check=True).stdout.split()[1] for kind in KINDS]
    if len(told) != 3 or any(f"the signature fits; key {mark}" not in line for line, mark in zip(told, fingerprints)):
        wrong.append(f"check: signed by three kinds of keys: {told} {fingerprints}")
    second = copy / "signatures" / "02-reviewed.json"
    second.write_text(second.read_text().replace("Two", "Too"))
    run()
    told = statements()
    if [("DOES NOT HOLD" in line) for line in told] != [False, True, True]:
        wrong.append(f"check: a changed statement: {told}")
    shutil.rmtree(copy / "signatures")
    (copy / "data" / "style.css").write_text("")
    (copy / "data" / "trends.html").unlink()
    (copy / "data" / "more.html").write_text("more")
    (copy / "Thumbs.db").write_text("")
    said, _, rows = run()
    wanted = {"changed: data/style.css", "missing: data/trends.html", "not listed: data/more.html", "left by an operating system, not part of the dossier: Thumbs.db"}
    if not said.startswith("3 differences") or set(rows) != wanted:
        wrong.append(f"check: {said} {rows}")
    return wrong


def large(browser, root, folder):
    """How long finding takes among as many things as ten thousand assemblies have; printed, not judged."""
    for name in ("find.html", "find.js", "tables.js", "style.css"):
        shutil.copy(root / "data" / name, folder)
    index = (root / "data" / "find-index.js").read_text()
    begin = index.index("[")
    things = json.loads(index[begin:index.rindex("]") + 1])
    own = [thing for thing in things if thing[1] in ("assembly", "module", "element in service") or "test" in thing[1]]
    wanted = 10_000 * len(own) // max(1, sum(thing[1] == "assembly" for thing in things))
    many = [[f"{thing[0]}-{i}", *thing[1:]] for i in range(wanted // len(own) + 1) for thing in own][:wanted]
    (folder / "find-index.js").write_text(index[:begin] + json.dumps(many) + ";\n")
    browser.get((folder / "find.html").as_uri())
    took = browser.execute_script("""
        const box = document.getElementById('query'), times = [];
        for (const text of arguments[0]) {
            box.value = text;
            const before = performance.now();
            box.dispatchEvent(new Event('input'));
            times.push(performance.now() - before);
        }
        return times;""", ["a", "a-26-2101-77", "module", "nowhere at all", "test vf45"])
    print(f"finding among {len(many)} things takes {max(took):.0f} ms at most of {len(took)} queries")


RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def of_each_kind(root, pages, n):
    """Every page of its own, and the first few of each folder."""
    kinds = {}
    for page in pages:
        kinds.setdefault(page.parent, []).append(page)
    return [page for folder, own in kinds.items() for page in (own if folder == root / "data" else own[:n])]


PAPER = {"A4": (8.27, 11.69), "Letter": (8.5, 11.0)}
ONE_SHEET = ("certificates", "service")


def printed(browser, root, pages):
    """What comes out of a printer: text that can be selected, identity and number on every sheet, one sheet where one is promised."""
    wrong, sheets = [], 0
    for page in of_each_kind(root, pages, 2):
        browser.get(page.as_uri())
        name = page.relative_to(root)
        heading = browser.execute_script("return document.querySelector('h1').textContent")
        words = browser.execute_script("return document.body.innerText").split()
        identity = browser.execute_script("const a = document.querySelector('.identity a'); return a ? a.textContent : '';")
        for paper, (width, height) in PAPER.items():
            told = browser.execute_cdp_cmd("Page.printToPDF", {"paperWidth": width, "paperHeight": height, "preferCSSPageSize": False, "printBackground": False})
            reader = pypdf.PdfReader(io.BytesIO(base64.b64decode(told["data"])))
            texts = [" ".join(sheet.extract_text().split()) for sheet in reader.pages]
            sheets += len(texts)
            size = reader.pages[0].mediabox
            if abs(float(size.width) / 72 - width) > 0.05 or abs(float(size.height) / 72 - height) > 0.05:
                wrong.append(f"{name}: asked for {paper}, got {float(size.width) / 72:.2f} by {float(size.height) / 72:.2f} inches")
            if "".join(heading.split()) not in "".join(texts[0].split()):
                wrong.append(f"{name}: the heading is not in the text of the print on {paper}")
            if len(" ".join(texts).split()) < 0.3 * len(words):
                wrong.append(f"{name}: most words are missing from the print on {paper}")
            if page.parent.name in ONE_SHEET and len(texts) != 1:
                wrong.append(f"{name}: {len(texts)} sheets of {paper}, and one is promised")
            for i, text in enumerate(texts):
                if identity not in text:
                    wrong.append(f"{name}: sheet {i + 1} of {paper} does not say what it belongs to")
                if page != root / "START-HERE.html" and page.parent.name not in ONE_SHEET and f"{i + 1} / {len(texts)}" not in text:
                    wrong.append(f"{name}: sheet {i + 1} of {paper} has no number")
    print(f"{sheets} printed sheets read, A4 and Letter, {len(wrong)} complaints")
    return wrong


def still_and_by_keyboard(browser, root, pages):
    """Nothing moves for who wants no motion; Tab begins at the way to the content and reaches every link and button in view; a proof opens by key."""
    wrong = []
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-reduced-motion", "value": "reduce"}]})
    for page in of_each_kind(root, pages, 1):
        browser.get(page.as_uri())
        name = page.relative_to(root)
        moving = browser.execute_script("""
            return Array.from(document.querySelectorAll('*')).filter(e => {
                const s = getComputedStyle(e);
                return s.scrollBehavior === 'smooth' || parseFloat(s.animationDuration) > 0 || parseFloat(s.transitionDuration) > 0;
            }).length""")
        if moving:
            wrong.append(f"{name}: {moving} things move although no motion is wanted")
        if page == root / "START-HERE.html":
            continue
        expected = browser.execute_script("""
            return Array.from(document.querySelectorAll('a[href], button, input, summary, [tabindex="0"]')).filter(e => e.checkVisibility()).length""")
        reached = set()
        # Who wants to find something begins in the box, in the middle of the page.
        if page.name == "find.html":
            expected = browser.execute_script("return document.querySelectorAll('main a[href]').length")
        for step in range(min(expected + 2, 60)):
            webdriver.ActionChains(browser).send_keys(Keys.TAB).perform()
            at = browser.execute_script("""
                const e = document.activeElement;
                if (!e || e === document.body) return null;
                const all = Array.from(document.querySelectorAll('a, button, input, summary, [tabindex]'));
                const s = getComputedStyle(e);
                return [all.indexOf(e), e.className.baseVal === undefined ? e.className : '', s.outlineStyle !== 'none' || s.outlineWidth !== '0px'];""")
            if step == 0 and (at is None or at[1] != "skip") and page.name != "find.html":
                wrong.append(f"{name}: the first Tab leads to {at}, not past the head")
            if at is None:
                break
            if not at[2]:
                wrong.append(f"{name}: nothing shows where the keyboard is, at thing {at[0]}")
                break
            reached.add(at[0])
        if len(reached) < min(expected, 58):
            wrong.append(f"{name}: the keyboard reaches {len(reached)} of {expected} things")
        if browser.execute_script("return document.querySelector('details') !== null"):
            browser.execute_script("document.querySelector('summary').focus()")
            webdriver.ActionChains(browser).send_keys(Keys.ENTER).perform()
            if not browser.execute_script("return document.querySelector('details').open"):
                wrong.append(f"{name}: a proof does not open by key")
    browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": []})
    return wrong


def without_scripts(browser, root, pages):
    """Every kind of page says as much without scripts."""
    wrong = []
    count = "return document.querySelector('main').innerText.length"
    for page in of_each_kind(root, pages, 1):
        if page.name in ("find.html", "check.html"):
            continue
        browser.get(page.as_uri())
        with_script = browser.execute_script("document.querySelectorAll('.narrow').forEach(e => e.remove()); " + count)
        browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
        browser.get(page.as_uri())
        browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})
        plain = browser.execute_script(count)
        if plain < 0.98 * with_script:
            wrong.append(f"{page.relative_to(root)}: {plain} characters without scripts, {with_script} with")
    return wrong


def accessible(browser, root, pages):
    """What axe-core says of pages of each kind, by day and by night."""
    script = pathlib.Path(axe_core_python.__file__).parent / "axe.min.js"
    chosen = of_each_kind(root, pages, 3)
    wrong = []
    browser.set_script_timeout(120)
    for scheme in ("light", "dark"):
        browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": scheme}]})
        for page in chosen:
            browser.get(page.as_uri())
            # Not as a script of the page, which its own policy would stop.
            browser.execute_cdp_cmd("Runtime.evaluate", {"expression": script.read_text()})
            found = browser.execute_async_script("""
                const done = arguments[1];
                axe.run(document, {runOnly: arguments[0]}).then(r => done(r.violations.map(v => v.id + ': ' + v.nodes[0].html)));""", RULES)
            wrong += [f"{page.relative_to(root)} ({scheme}): {line}" for line in found]
    print(f"{len(chosen)} pages looked at by axe-core, light and dark, {len(wrong)} complaints")
    return wrong


def main():
    root = pathlib.Path(sys.argv[1]).resolve()
    brief = "--brief" in sys.argv
    pages = [root / "START-HERE.html", *sorted((root / "data").rglob("*.html"))]
    wrong, requests = [], 0
    with tempfile.TemporaryDirectory() as profile:
        browser = driver(profile)
        try:
            # Not as a phone: that widens its window to whatever sticks out.
            browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {"width": 320, "height": 640, "deviceScaleFactor": 1, "mobile": False})
            # The browser's own first tab is not ours: leave it and forget what it asked for.
            browser.get("about:blank")
            browser.get_log("performance")
            browser.get_log("browser")
            for page in pages:
                browser.get(page.as_uri())
                name = page.relative_to(root)
                wrong += [f"{name}: console: {entry['message']}" for entry in browser.get_log("browser")]
                for entry in browser.get_log("performance"):
                    message = json.loads(entry["message"])["message"]
                    if message["method"] == "Network.requestWillBeSent":
                        requests += 1
                        url = message["params"]["request"]["url"]
                        if not url.startswith(root.as_uri() + "/"):
                            wrong.append(f"{name}: asks for {url}")
                wide = too_wide(browser)
                if wide > 0:
                    wrong.append(f"{name}: {wide} pixels wider than a window of 320")
                if not browser.execute_script("return document.querySelector('h1') !== null && document.title.length > 3"):
                    wrong.append(f"{name}: has no heading or no title")
            # A window of 1280 pixels zoomed to 200 % has room for 640.
            browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {"width": 640, "height": 450, "deviceScaleFactor": 2, "mobile": False})
            for page in of_each_kind(root, pages, 3):
                browser.get(page.as_uri())
                wide = too_wide(browser)
                if wide > 0:
                    wrong.append(f"{page.relative_to(root)}: {wide} pixels wider than a window at 200 %")
            browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {"width": 1100, "height": 900, "deviceScaleFactor": 1, "mobile": False})
            if brief:
                wrong += printed(browser, root, [page for page in pages if page.parent.name in ONE_SHEET])
            else:
                wrong += scripts(browser, root)
                with tempfile.TemporaryDirectory() as folder:
                    large(browser, root, pathlib.Path(folder))
                    wrong += checked_here(browser, root, folder)
                wrong += accessible(browser, root, pages)
                wrong += without_scripts(browser, root, pages)
                wrong += still_and_by_keyboard(browser, root, pages)
                wrong += printed(browser, root, pages)
        finally:
            browser.quit()
    for line in wrong:
        print(line)
    assert requests >= len(pages), "the log of requests is empty: is the browser's log read at all?"
    print(f"{len(pages)} pages opened, {requests} requests, {len(wrong)} complaints")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
