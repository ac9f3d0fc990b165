"""What the pages of a compiled dossier weigh, and how soon each kind of page is painted first.

    python3 tests/weights.py DOSSIER...

One row a kind of page and dossier: how many, bytes in the median and at most, milliseconds to the first
contentful paint in the median of five openings of the heaviest, from file:// in headless Chromium.
"""
import pathlib
import statistics
import sys
import tempfile
import time

from browser import driver

PAINT = "const p = performance.getEntriesByName('first-contentful-paint')[0]; return p ? p.startTime : null;"


def painted(browser, page):
    browser.get(page.as_uri())
    for _ in range(100):
        at = browser.execute_script(PAINT)
        if at is not None:
            return at
        time.sleep(0.02)
    return float("nan")


def main():
    print(f"{'dossier':<20} {'kind of page':<16} {'pages':>6} {'median KB':>10} {'most KB':>9} {'first paint ms':>15}")
    for folder in sys.argv[1:]:
        root = pathlib.Path(folder).resolve()
        kinds = {}
        for page in sorted((root / "data").rglob("*.html")):
            parts = page.relative_to(root / "data").parts
            kinds.setdefault(parts[0] if len(parts) > 1 else "single pages", []).append(page)
        with tempfile.TemporaryDirectory() as profile:
            browser = driver(profile)
            for kind, pages in kinds.items():
                sizes = [page.stat().st_size / 1000 for page in pages]
                heaviest = max(pages, key=lambda page: page.stat().st_size)
                first = statistics.median(painted(browser, heaviest) for _ in range(5))
                print(f"{root.name:<20} {kind:<16} {len(pages):>6} {statistics.median(sizes):>10.1f} {max(sizes):>9.1f} {first:>15.0f}")
            browser.quit()
        files = [file for file in root.rglob("*") if file.is_file()]
        print(f"{root.name:<20} {'whole':<16} {len(files):>6} files, {sum(file.stat().st_size for file in files) / 1e6:.1f} MB")


if __name__ == "__main__":
    main()
