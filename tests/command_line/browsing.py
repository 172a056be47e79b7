#!/usr/bin/env python3
# browsing.py RULE FERRULE SOURCE: pages to send under a person's hands and eyes: keys pressed, sizes
# of a phone and a desk, light and dark, paper. Chromium driven by its own driver over the W3C's
# WebDriver protocol. Exits 77, "skipped", where one of them is missing or cannot start.
import base64
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request

RULE, FERRULE, SOURCE = sys.argv[1], sys.argv[2], pathlib.Path(sys.argv[3])
HOME, END, PAGE_UP, LEFT, RIGHT, TAB, ENTER = "\ue011", "\ue010", "\ue00e", "\ue012", "\ue014", "\ue004", "\ue007"
SIZES = {"phone": (390, 844, True), "desk": (1280, 900, False)}


def skip(why):
    print(why)
    sys.exit(77)


def expect(kept, what):
    if not kept:
        print("FAILED:", what)
        sys.exit(1)


class Browser:
    """A session of the driver, and the driver."""

    def __init__(self, folder):
        if not shutil.which("chromedriver") or not shutil.which("chromium"):
            skip("no chromium or no driver of it here")
        self.driver = subprocess.Popen(["chromedriver", "--port=0"], stdout=subprocess.PIPE, text=True)
        port = next((m[1] for line in self.driver.stdout if (m := re.search(r"successfully on port (\d+)", line))), None)
        self.base = f"http://127.0.0.1:{port}"
        options = {"binary": shutil.which("chromium"),
                   "args": ["--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
                            "--no-first-run", f"--user-data-dir={folder}/profile"]}
        try:
            session = self.call("POST", "/session", {"capabilities": {"alwaysMatch": {
                "goog:loggingPrefs": {"browser": "ALL"}, "goog:chromeOptions": options}}})
        except urllib.error.URLError:
            self.driver.kill()
            skip("chromium cannot start")
        self.base += "/session/" + session["sessionId"]

    def call(self, method, path, body=None):
        data = None if body is None else json.dumps(body).encode()
        request = urllib.request.Request(self.base + path, data, {"Content-Type": "application/json"}, method=method)
        with urllib.request.urlopen(request, timeout=120) as answer:
            return json.load(answer)["value"]

    def tell(self, command, **settings):
        return self.call("POST", "/goog/cdp/execute", {"cmd": command, "params": settings})

    def run(self, script, *given):
        return self.call("POST", "/execute/async" if "done(" in script else "/execute/sync",
                         {"script": script, "args": list(given)})

    def press(self, *keys):
        actions = [{"type": kind, "value": key} for key in keys for kind in ("keyDown", "keyUp")]
        self.call("POST", "/actions", {"actions": [{"type": "key", "id": "keys", "actions": actions}]})

    def show(self, page, size="desk", dark=False):
        width, height, phone = SIZES[size]
        self.tell("Emulation.setDeviceMetricsOverride", width=width, height=height, deviceScaleFactor=1, mobile=phone)
        self.tell("Emulation.setEmulatedMedia", media="screen",
                  features=[{"name": "prefers-color-scheme", "value": "dark" if dark else "light"}])
        self.call("POST", "/url", {"url": page.as_uri()})

    def close(self):
        try:
            self.call("DELETE", "")
        finally:
            self.driver.kill()


def page(folder, name, *files, accuracy="1e-1", **more):
    """A report of shipped cases, or of text; `more` are its options."""
    typed = [FERRULE, "report", "--quiet", "--accuracy", accuracy, "--out", str(folder / name)]
    for file in files:
        typed.append(str(file if isinstance(file, pathlib.Path) else SOURCE / "cases" / (file + ".toml")))
    for key, value in more.items():
        typed += ["--" + key, str(value)]
    subprocess.run(typed, check=True)
    return folder / name / "report.html"


def swept(folder):
    text = subprocess.run([FERRULE, "new", "rod"], check=True, capture_output=True, text=True).stdout
    for key, span in (("length", ("40 mm", "80 mm", 4)), ("diameter", ("4 mm", "8 mm", 3))):
        text += '\n[[sweep.vary]]\nkey = "parts.core.%s"\nfrom = "%s"\nto = "%s"\ncount = %d\n' % (key, *span)
    (folder / "swept.toml").write_text(text)
    return page(folder, "swept", folder / "swept.toml")


def pages(folder):
    """One of each kind: a case, several, a reading, a sweep over two keys, frequency, bias, heat."""
    yield page(folder, "solve", "powder-tube")
    yield page(folder, "compare", "sintered-rod", "powder-tube")
    yield page(folder, "fit", "powder-tube", reading=SOURCE / "cases/readings/tubes.toml")
    yield swept(folder)
    yield page(folder, "frequency", "canned-coil")
    yield page(folder, "bias", "pot-core-powder-gap")
    yield page(folder, "heat", "warm-choke")


def keyboard(browser, folder):
    """Tab reaches every slider; arrows, Page Up, Home and End move it, and what is told with it."""
    shown = "return document.querySelector('.whatif .said').textContent"
    state = """const a = document.activeElement, s = getComputedStyle(a);
      return {kind: a.dataset.kind || a.tagName, value: a.value, least: a.min, most: a.max,
              told: a.getAttribute('aria-valuetext'), outline: s.outlineStyle + s.outlineWidth}"""
    file = page(folder, "solve", "powder-tube", accuracy="1e-3")
    for size in SIZES:
        browser.show(file, size)
        first = browser.run(shown)
        met = []
        for _ in range(60):
            browser.press(TAB)
            at = browser.run(state)
            if at["kind"] not in ("permeability", "packing", "turns"):
                if met and at["kind"] == "BUTTON":
                    break
                continue
            met.append(at["kind"])
            expect(at["outline"] == "solid3px", f"{at['kind']}: the focus is not seen: {at['outline']}")
            results, told = [browser.run(shown)], [at["told"]]
            for key in (RIGHT, PAGE_UP, HOME, END, LEFT):
                browser.press(key)
                now = browser.run(state)
                results.append(browser.run(shown))
                told.append(now["told"])
                if key in (HOME, END):
                    end = float(now["least" if key == HOME else "most"])
                    expect(float(now["value"]) == end, f"{met[-1]}: not at its end: {now}")
            for list_ in (results, told):
                expect(all(a != b for a, b in zip(list_, list_[1:])), f"{met[-1]}: keys change nothing: {list_}")
        expect(sorted(met) == ["packing", "permeability", "turns"], f"{size}: Tab met {met}")
        expect(browser.run(shown) != first, "nothing was moved")
        browser.press(ENTER)
        expect(browser.run(shown) == first, "the button does not lead back")


# Contrast as WCAG 2.2 defines it (1.4.3: 4.5, or 3 for large text; 1.4.11: 3 for controls); from memory.
CONTRAST = r"""
const done = arguments[0];
const rgb = (text) => text.match(/[\d.]+/g).map(Number);
const light = (c) => { const l = c.slice(0, 3).map((v) => v / 255)
  .map((v) => v <= .04045 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4); return .2126 * l[0] + .7152 * l[1] + .0722 * l[2]; };
const contrast = (a, b) => { const [x, y] = [light(a), light(b)].sort((p, q) => q - p); return (x + .05) / (y + .05); };
const ground = (one) => { for (let at = one; at; at = at.parentElement) {
    const c = rgb(getComputedStyle(at).backgroundColor); if (c.length === 3 || c[3] === 1) return c; }
  return [255, 255, 255]; };
const said = [], low = [];
const judge = (what, ratio, least) => { said.push(ratio); if (!(ratio >= least)) low.push(what + ' ' + ratio.toFixed(2)); };
const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walk.nextNode()) {
  const one = walk.currentNode.parentElement, style = getComputedStyle(one), words = walk.currentNode.data.trim();
  if (!words || !one.getClientRects().length || ['SCRIPT', 'STYLE'].includes(one.tagName)) continue;
  const size = parseFloat(style.fontSize), large = size >= 24 || (size >= 18.66 && style.fontWeight >= 700);
  const svg = one.ownerSVGElement, ink = rgb(svg ? style.fill : style.color);
  judge('"' + words.slice(0, 30) + '"', contrast(ink, ground(one)), large ? 3 : 4.5);
}
for (const one of document.querySelectorAll('.whatif button, .whatif input')) {
  const style = getComputedStyle(one), around = ground(one.parentElement);
  const edge = one.tagName === 'BUTTON' ? style.borderTopColor : style.accentColor;
  judge(one.tagName, contrast(rgb(edge), around), 3);
}
const texts = said.length;
const painted = (canvas) => canvas.getContext('2d', { willReadFrequently: true });
const paper = rgb(getComputedStyle(document.body).backgroundColor);
async function picture(image) {
  const style = getComputedStyle(image);
  const filtered = (context, draw) => { context.filter = style.filter; draw(context); context.filter = 'none'; };
  const blended = (c) => style.mixBlendMode === 'lighten' ? c.map((v, i) => Math.max(v, paper[i])) : c;
  // Letters are drawn by reference to their outlines; the same sheet without them is what is behind.
  const text = new TextDecoder().decode(Uint8Array.from(atob(image.src.split(',')[1]), (c) => c.charCodeAt(0)));
  const sheet = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
  document.body.append(document.adoptNode(sheet));
  const [width, height] = [sheet.viewBox.baseVal.width, sheet.viewBox.baseVal.height];
  const frame = sheet.getScreenCTM().inverse();
  const words = [...sheet.querySelectorAll('g')].filter((g) => g.querySelector(':scope > use'));
  const spots = words.map((g) => { const b = g.getBoundingClientRect();
    const p = new DOMPoint(b.left, b.top).matrixTransform(frame), q = new DOMPoint(b.right, b.bottom).matrixTransform(frame);
    return { ink: rgb(getComputedStyle(g).fill), p, q }; });
  words.forEach((g) => g.remove());
  const bare = new Image();
  bare.src = 'data:image/svg+xml;base64,' + btoa(unescape(encodeURIComponent(new XMLSerializer().serializeToString(sheet))));
  await bare.decode();
  sheet.remove();
  const canvas = Object.assign(document.createElement('canvas'), { width, height }), context = painted(canvas);
  filtered(context, (c) => { c.fillStyle = '#fff'; c.fillRect(0, 0, width, height); c.drawImage(bare, 0, 0, width, height); });
  for (const { ink, p, q } of spots) {
    const [x, y] = [Math.floor(p.x), Math.floor(p.y)], [w, h] = [Math.ceil(q.x) - x, Math.ceil(q.y) - y];
    if (w < 1 || h < 1) continue;
    const behind = context.getImageData(x, y, w, h).data;
    const drop = painted(Object.assign(document.createElement('canvas'), { width: 1, height: 1 }));
    filtered(drop, (c) => { c.fillStyle = `rgb(${ink})`; c.fillRect(0, 0, 1, 1); });
    const letter = blended([...drop.getImageData(0, 0, 1, 1).data].slice(0, 3));
    const ratios = [];
    for (let i = 0; i < behind.length; i += 4) ratios.push(contrast(letter, blended([behind[i], behind[i + 1], behind[i + 2]])));
    ratios.sort((a, b) => a - b);
    judge(`letters at ${x},${y} of "${image.alt.slice(0, 40)}", rgb(${ink.map(Math.round)})`, ratios[Math.floor(ratios.length / 10)], 4.5);
  }
}
(async () => { for (const image of document.querySelectorAll('img')) await picture(image);
  done({ low: [...new Set(low)], texts, letters: said.length - texts, least: Math.min(...said) }); })();
"""


def contrast(browser, files):
    """Every piece of text and every control in the browser, letters of pictures against the pixels behind."""
    worst = 99.0
    for file in files:
        for dark in (False, True):
            browser.show(file, "desk", dark)
            got = browser.run(CONTRAST)
            expect(got["texts"] > 80 and got["letters"] >= 10, f"{file.parent.name}: little was judged: {got}")
            expect(not got["low"], f"{file.parent.name}, {'dark' if dark else 'light'}: too weak: {got['low']}")
            worst = min(worst, got["least"])
    print(f"least contrast {worst:.2f}")


def sizes(browser, files):
    """Phone and desk: nothing on the console, no page wider than the screen, words for each picture, and
    controls large enough (WCAG 2.2, 2.5.8: 24 px; links within text apart; from memory)."""
    script = r"""
const wordless = [...document.querySelectorAll('img')].filter((one) => !(one.alt.length > 25)).length +
  [...document.querySelectorAll('svg')].filter((one) => one.getAttribute('aria-hidden') !== 'true' &&
    !(one.getAttribute('role') === 'img' && (one.getAttribute('aria-label') || one.querySelector('title')))).length;
const small = [...document.querySelectorAll('nav a, button, input')].filter((one) => one.getClientRects().length)
  .filter((one) => { const b = one.getBoundingClientRect(); return b.width < 24 || b.height < 24; }).length;
const fine = [...document.querySelectorAll('p, td, li, pre, a')].filter((one) => parseFloat(getComputedStyle(one).fontSize) < 11).length;
const within = document.documentElement.scrollWidth <= innerWidth;
return { wordless, small, fine, within, pictures: document.querySelectorAll('img, svg').length,
  levels: [...document.querySelectorAll('h1, h2, h3')].map((one) => Number(one.tagName[1])), lang: document.documentElement.lang };"""
    for file in files:
        for size in SIZES:
            browser.show(file, size)
            got, name = browser.run(script), f"{file.parent.name} on a {size}"
            expect(got["within"], f"{name}: wider than the screen")
            expect(got["pictures"] >= 2 and got["wordless"] == 0, f"{name}: {got['wordless']} pictures without words")
            expect(got["small"] == 0, f"{name}: {got['small']} controls are small")
            expect(got["fine"] == 0, f"{name}: {got['fine']} texts are small")
            levels = got["levels"]
            expect(levels.count(1) == 1 and all(b <= a + 1 for a, b in zip(levels, levels[1:])), f"{name}: headings {levels}")
            expect(got["lang"] == "en", f"{name}: no language")
            expect(browser.call("POST", "/se/log", {"type": "browser"}) == [], f"{name}: the console is not empty")
    browser.run("console.error('seen')")
    expect(browser.call("POST", "/se/log", {"type": "browser"}), "an error on the console is not seen")


def looks(browser, folder):
    """Sizes and contrast, of the same pages."""
    files = list(pages(folder))
    sizes(browser, files)
    contrast(browser, files)


def words_of(pdf):
    """Pages of a PDF: its height and lines as (top, bottom, text), by Debian's pdftotext."""
    made = subprocess.run(["pdftotext", "-bbox-layout", str(pdf), "-"], check=True, capture_output=True, text=True).stdout
    for sheet in re.findall(r'<page width="[\d.]*" height="([\d.]*)">(.*?)</page>', made, re.S):
        lines = [(float(top), float(bottom), " ".join(re.findall(r">([^<>]+)</word>", body)))
                 for top, bottom, body in re.findall(r'<line [^>]*yMin="([\d.]*)"[^>]*yMax="([\d.]*)">(.*?)</line>', sheet[1], re.S)]
        yield float(sheet[0]), sorted(lines)


def paper(browser, folder):
    """On A4 and Letter no heading stands alone at a foot, and no picture, drawing or row is cut."""
    if not shutil.which("pdftotext"):
        skip("no pdftotext here")
    for file in (page(folder, "compare", "sintered-rod", "powder-tube"), page(folder, "frequency", "canned-coil"), swept(folder)):
        for sheet, (width, height) in {"A4": (8.27, 11.69), "Letter": (8.5, 11)}.items():
            browser.show(file)
            browser.tell("Emulation.setEmulatedMedia", media="print")
            heads = browser.run("return [...document.querySelectorAll('h2, h3')].map((one) => one.textContent)")
            taken = browser.run("return [...document.querySelectorAll('.taken')].map((one) => one.textContent)")
            # What may not be cut gets a word above and one below, which must come out on one page.
            kept = browser.run("""let n = 0;
const word = (text) => { const p = document.createElement('div'); p.textContent = text; p.style.cssText = 'font-size: 1px; line-height: 1px; height: 0; position: absolute'; return p; };
for (const one of document.querySelectorAll('figure, svg.parts, tr, .bar, .answer')) {
  const into = one.tagName === 'TR' ? [one.firstElementChild, one.lastElementChild] : [one, one];
  const box = (at, last) => { const m = word((last ? 'Ende' : 'Anfang') + n + 'x'); if (at.tagName === 'svg') { last ? at.after(m) : at.before(m); } else { last ? at.append(m) : at.prepend(m); } };
  box(into[0], false); box(into[1], true); ++n; }
return n;""")
            pdf = folder / "page.pdf"
            pdf.write_bytes(base64.b64decode(browser.tell("Page.printToPDF", paperWidth=width, paperHeight=height, printBackground=True)["data"]))
            name, sheets = f"{file.parent.name} on {sheet}", list(words_of(pdf))
            expect(4 <= len(sheets) <= 12, f"{name}: {len(sheets)} pages")
            places = {}
            for number, (tall, lines) in enumerate(sheets):
                last = next((line[2] for line in reversed(lines) if line[2] not in taken), "")
                expect(lines and last not in heads, f"{name}: page {number + 1} ends in a heading: {last}")
                for _, _, text in lines:
                    for mark in re.findall(r"(?:Anfang|Ende)\d+x", text):
                        places[mark] = number
                expect(lines[-1][1] < tall - 30, f"{name}: page {number + 1} runs over its foot")
            cut = [n for n in range(kept) if places.get(f"Anfang{n}x") != places.get(f"Ende{n}x")]
            expect(kept > 20 and len(places) == 2 * kept, f"{name}: {len(places)} marks of {kept} pieces")
            expect(not cut, f"{name}: cut in two: {cut}")


with tempfile.TemporaryDirectory() as made:
    work = pathlib.Path(made)
    used = Browser(work)
    try:
        {"keyboard": keyboard, "looks": looks, "paper": paper}[RULE](used, work)
    finally:
        used.close()
        time.sleep(0.2)  # the browser writes to its folder till it is gone
print("ok:", RULE)
