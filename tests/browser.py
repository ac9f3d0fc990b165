"""Opens every page of a compiled dossier in headless Chromium, from file:// and without a server.

Asks of each page: nothing on the console, no request that leaves the folder, nothing wider than a
window of 320 pixels, nothing that the page's own content security policy had to stop. Then: do finding,
sorting and narrowing down work, does the page stand without them, and what does axe-core say.

    python3 tests/browser.py DOSSIER
"""
import json
import pathlib
import shutil
import sys
import tempfile

import axe_core_python
from selenium import webdriver
from selenium.webdriver.chrome.service import Service


def driver(profile):
    options = webdriver.ChromeOptions()
    options.binary_location = shutil.which("chromium") or shutil.which("chromium-browser")
    for flag in ("--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                 "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage", f"--user-data-dir={profile}"):
        options.add_argument(flag)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    return webdriver.Chrome(options=options, service=Service(shutil.which("chromedriver")))


def scripts(browser, root):
    """Finding, sorting and narrowing down; and the same page without scripts."""
    wrong = []
    browser.get((root / "data" / "find.html").as_uri() + "#q=" + "%20".join(("module", "RM-")))
    names = browser.execute_script("return Array.from(document.querySelectorAll('#found a')).map(a => a.textContent)")
    if not names or not all(name.startswith("M-") for name in names):
        wrong.append(f"find: a module of a roll is not found: {names[:3]}")
    took = browser.execute_script("""
        const box = document.getElementById('query'), before = performance.now();
        box.value = 'conforms nowhere'; box.dispatchEvent(new Event('input'));
        return [performance.now() - before, document.getElementById('said').textContent];""")
    if not took[1].startswith("0 found"):
        wrong.append(f"find: {took[1]}")
    browser.get((root / "data" / "trends.html").as_uri())
    column = "Array.from(document.querySelectorAll('tbody tr')).filter(r => !r.hidden).map(r => parseInt(r.cells[2].textContent))"
    click = "document.querySelectorAll('th button')[2].click(); return " + column
    rising, falling = browser.execute_script(click), browser.execute_script(click)
    if rising != sorted(rising) or falling != sorted(falling, reverse=True) or len(set(rising)) < 2:
        wrong.append(f"tables: not sorted by the head: {rising}")
    left = browser.execute_script("const box = document.querySelector('.narrow input'); box.value = 'peel'; box.dispatchEvent(new Event('input')); return " + column)
    if not 0 < len(left) < len(rising):
        wrong.append("tables: not narrowed down by a word")
    browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": True})
    browser.get((root / "data" / "find.html").as_uri())
    plain = browser.page_source
    if "a-to-z-1.html" not in plain or "<button" in plain:
        wrong.append("find: without a script there are no lists")
    browser.execute_cdp_cmd("Emulation.setScriptExecutionDisabled", {"value": False})
    return wrong


RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def accessible(browser, root, pages):
    """What axe-core says of pages of each kind, by day and by night."""
    script = pathlib.Path(axe_core_python.__file__).parent / "axe.min.js"
    kinds = {}
    for page in pages:
        kinds.setdefault(page.parent, []).append(page)
    chosen = [page for folder, own in kinds.items() for page in (own if folder == root / "data" else own[:3])]
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
    pages = [root / "START-HERE.html", *sorted((root / "data").rglob("*.html"))]
    wrong, requests = [], 0
    with tempfile.TemporaryDirectory() as profile:
        browser = driver(profile)
        try:
            browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {"width": 320, "height": 640, "deviceScaleFactor": 1, "mobile": True})
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
                wide = browser.execute_script("return document.documentElement.scrollWidth - window.innerWidth")
                if wide > 0:
                    wrong.append(f"{name}: {wide} pixels wider than a window of 320")
                if not browser.execute_script("return document.querySelector('h1') !== null && document.title.length > 3"):
                    wrong.append(f"{name}: has no heading or no title")
            browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {"width": 1100, "height": 900, "deviceScaleFactor": 1, "mobile": False})
            wrong += scripts(browser, root)
            wrong += accessible(browser, root, pages)
        finally:
            browser.quit()
    for line in wrong:
        print(line)
    assert requests >= len(pages), "the log of requests is empty: is the browser's log read at all?"
    print(f"{len(pages)} pages opened, {requests} requests, {len(wrong)} complaints")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
