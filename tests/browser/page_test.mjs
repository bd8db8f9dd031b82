// The HTML page as a phone and a printer see it. Run by tests/browser/run, which gives the folder
// with the pages: PAGES/NAME/brief.html.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, readdirSync, rmSync, existsSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const pages = process.env.PAGES;
const names = readdirSync(pages).filter((name) => existsSync(join(pages, name, "brief.html")));
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const flags = [
  "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
  "--disable-background-networking", "--disable-component-update", "--disable-sync",
];

let folder;
let browser;

before(async () => {
  folder = mkdtempSync(join(tmpdir(), "passage-brief-browser-"));
  browser = await chromium.launchPersistentContext(folder, {
    executablePath: process.env.CHROMIUM, args: flags, headless: true,
    viewport: { width: 360, height: 740 }, deviceScaleFactor: 2,
  });
});

after(async () => {
  await browser?.close(); // ends the browser it started, and no other
  rmSync(folder, { recursive: true, force: true });
});

async function opened(name) {
  const page = await browser.newPage();
  const asked = [];
  page.on("request", (request) => asked.push(request.url()));
  await page.goto(`file://${join(pages, name, "brief.html")}`);
  return { page, asked };
}

test("there are pages to look at", () => assert.ok(names.length >= 6));

for (const name of names) {
  test(`${name}: 360 px wide, nothing to either side, nothing fetched, no script`, async () => {
    const { page, asked } = await opened(name);
    const seen = await page.evaluate(() => {
      const beyond = [...document.querySelectorAll("body *")].filter((element) => {
        const box = element.getBoundingClientRect();
        return box.width > 0 && (box.right > 360.5 || box.left < -0.5);
      });
      return {
        scroll: document.documentElement.scrollWidth,
        beyond: beyond.map((element) => element.outerHTML.slice(0, 120)),
        scripts: document.scripts.length,
      };
    });
    assert.equal(seen.scroll, 360);
    assert.deepEqual(seen.beyond, []);
    assert.equal(seen.scripts, 0);
    assert.equal(asked.length, 1, asked.join(" "));
    await page.screenshot({ path: join(pages, name, "phone.png") });
    await page.close();
  });

  test(`${name}: letters of 16 px and more, those of the drawings too`, async () => {
    const { page } = await opened(name);
    const small = await page.evaluate(() => {
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      const found = [];
      while (walker.nextNode()) {
        const element = walker.currentNode.parentElement;
        if (!walker.currentNode.data.trim() || element.closest("title, desc")) continue;
        if (getComputedStyle(element).display === "none") continue;
        const inDrawing = element.closest("svg");
        const scale = inDrawing ? element.getScreenCTM().a : 1;
        const size = parseFloat(getComputedStyle(element).fontSize) * scale;
        if (size < 15.99) found.push(`${size}: ${walker.currentNode.data.trim()}`);
      }
      return found;
    });
    assert.deepEqual(small, []);
    await page.close();
  });

  test(`${name}: axe-core finds nothing, contrast 7:1`, async () => {
    const { page } = await opened(name);
    await page.evaluate(axe);
    const result = await page.evaluate(() =>
      axe.run(document, {
        runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
        rules: { "color-contrast-enhanced": { enabled: true } },
      }));
    const said = result.violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(" ")}`);
    assert.deepEqual(said, []);
    assert.ok(result.passes.some((rule) => rule.id === "color-contrast-enhanced"));
    await page.close();
  });

  test(`${name}: every drawing has its words`, async () => {
    const { page } = await opened(name);
    const drawings = await page.evaluate(() =>
      [...document.querySelectorAll("svg")].map((svg) => ({
        role: svg.getAttribute("role"),
        words: svg.getAttribute("aria-labelledby").split(" ")
          .map((id) => document.getElementById(id).textContent.length),
      })));
    assert.ok(drawings.length >= 1);
    for (const drawing of drawings) {
      assert.equal(drawing.role, "img");
      for (const length of drawing.words) assert.ok(length > 20);
    }
    await page.close();
  });

  test(`${name}: prints on one sheet, letters of 8 pt and more`, async () => {
    const { page } = await opened(name);
    const file = join(pages, name, "printed.pdf");
    await page.pdf({ path: file, preferCSSPageSize: true });
    const info = execFileSync("pdfinfo", [file], { encoding: "utf8" });
    const sheets = Number(/Pages:\s+(\d+)/.exec(info)[1]);
    if (name.startsWith("instructor")) assert.ok(sheets >= 2);
    else assert.equal(sheets, 1);
    assert.match(info, name.endsWith("a4") ? /59[45][.\d]* x 84[12]/ : /612 x 792/);
    await page.emulateMedia({ media: "print" });
    const small = await page.evaluate(() =>
      [...document.querySelectorAll("body *")].filter((element) =>
        !element.closest("svg") && parseFloat(getComputedStyle(element).fontSize) < 10.66)
        .map((element) => element.outerHTML.slice(0, 80)));
    assert.deepEqual(small, []);
    await page.close();
  });
}
