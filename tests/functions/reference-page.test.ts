import { describe, expect, it } from "vitest";
import { catalogue, offered } from "../../src/functions/catalogue";
import { referencePage, referencePageWithCommas } from "../../src/functions/reference-page";

const page = referencePage();

/** The text of the page as a reader sees it. */
const text = page
  .replace(/<[^>]*>/g, " ")
  .replaceAll("&lt;", "<")
  .replaceAll("&gt;", ">")
  .replaceAll("&quot;", '"')
  .replaceAll("&amp;", "&");

describe("referencePage", () => {
  it.each(catalogue.map((fn) => [fn.name, fn] as const))("has everything about %s", (name, fn) => {
    expect(page).toContain(`id="${name}"`);
    expect(page.includes(`href="#${name}"`)).toBe(offered.includes(fn));
    for (const part of [fn.text, fn.source, fn.caution ?? "", fn.limits ?? "", fn.result.text])
      expect(text).toContain(part);
    for (const example of fn.examples) expect(text).toContain(example.working);
    for (const param of fn.params) expect(text).toContain(param.text);
  });

  it("exists with the formulas of a reader whose decimal mark is the comma, each page leading to the other", () => {
    const commas = referencePageWithCommas();
    expect(page).toContain("<code>=BLN.COUNT_COLUMN(1.8, 10)</code>");
    expect(commas).toContain("<code>=BLN.COUNT_COLUMN(1,8; 10)</code>");
    expect(commas).not.toContain("BLN.COUNT_COLUMN(1.8, 10)");
    expect(page).toContain('href="reference-comma.html"');
    expect(commas).toContain('href="reference.html"');
    for (const { name } of catalogue) expect(commas).toContain(`id="${name}"`);
  });

  it("opens and closes every element", () => {
    const open: string[] = [];
    const isVoid = new Set(["meta", "link", "br", "!doctype"]);
    for (const [, slash, name = ""] of page.matchAll(/<(\/?)([!a-z0-9]+)[^>]*>/gi)) {
      if (isVoid.has(name.toLowerCase())) continue;
      if (slash === "/") expect(open.pop()).toBe(name);
      else open.push(name);
    }
    expect(open).toEqual([]);
  });

  it("holds no script and no style of its own", () => {
    expect(page).not.toMatch(/<script|<style|<[^>]* style=|javascript:/i);
  });
});
