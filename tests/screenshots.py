"""Pictures of each kind of page of a compiled dossier, for a person to look at.

    python3 tests/screenshots.py DOSSIER FOLDER

Each kind on a desk, on a phone, by night, and as it prints on A4 (the first sheet, which needs pypdfium2
and pillow; without them the print is kept as PDF).
"""
import base64
import pathlib
import sys
import tempfile

from browser import driver, of_each_kind, opened

LOOKS = {
    "desk": (1280, 900, False, "light"),
    "phone": (390, 844, True, "light"),
    "night": (1280, 900, False, "dark"),
}


def main():
    root, out = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2])
    out.mkdir(parents=True, exist_ok=True)
    pages = of_each_kind(root, [root / "START-HERE.html", *sorted((root / "data").rglob("*.html"))], 1)
    taken = 0
    with tempfile.TemporaryDirectory() as profile:
        browser = driver(profile)
        for page in pages:
            name = "-".join(page.relative_to(root).with_suffix("").parts).removeprefix("data-")
            for look, (width, height, mobile, scheme) in LOOKS.items():
                browser.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", {"width": width, "height": height, "deviceScaleFactor": 1, "mobile": mobile})
                browser.execute_cdp_cmd("Emulation.setEmulatedMedia", {"features": [{"name": "prefers-color-scheme", "value": scheme}]})
                opened(browser, page.as_uri())
                (out / f"{name}-{look}.png").write_bytes(base64.b64decode(browser.execute_cdp_cmd("Page.captureScreenshot", {"format": "png"})["data"]))
                taken += 1
            told = browser.execute_cdp_cmd("Page.printToPDF", {"paperWidth": 8.27, "paperHeight": 11.69})
            pdf = out / f"{name}-print.pdf"
            pdf.write_bytes(base64.b64decode(told["data"]))
            taken += 1
            try:
                import pypdfium2
            except ImportError:
                continue
            pypdfium2.PdfDocument(pdf)[0].render(scale=1.2).to_pil().save(pdf.with_suffix(".png"))
            pdf.unlink()
        browser.quit()
    print(f"{taken} pictures of {len(pages)} pages in {out}")


if __name__ == "__main__":
    main()
