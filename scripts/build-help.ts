import fs from "node:fs";
import path from "node:path";
import examples from "../src/functions/generated/examples.json";
import metadata from "../src/functions/generated/functions.json";
import { CONSTANTS } from "../src/science/constants/all";
import type { Constant } from "../src/science/constants/constant";
import { FOODS, type Ranged } from "../src/science/constants/foods";
import { SOURCES, type SourceKey } from "../src/science/constants/sources";
import { help } from "../src/words/help";
import { pane } from "../src/words/pane";

/** Writes the help page from the same data that calculates: functions, headings, constants with their sources, cautions. */
const TARGET = path.join(__dirname, "../src/functions/generated/help.html");

const plain = (text: string): string => text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");
const figure = (value: number): string => String(Number(value.toPrecision(6)));
const span = (range: Ranged | null): string => (range ? (range.low === range.high ? figure(range.value) : `${figure(range.value)} (${figure(range.low)} to ${figure(range.high)})`) : "");
const row = (cells: readonly string[], tag = "td"): string => `<tr>${cells.map((cell, place) => (tag === "td" && place === 0 ? `<th scope="row">${cell}</th>` : `<${tag}${tag === "th" ? ' scope="col"' : ""}>${cell}</${tag}>`)).join("")}</tr>`;
const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  `<div class="wide" tabindex="0" role="region" aria-label="${plain(head[0] ?? "")}"><table><thead>${row(head.map(plain), "th")}</thead><tbody>${rows.map((cells) => row(cells.map(plain))).join("\n")}</tbody></table></div>`;

/** What may be shown as a source: a value from memory or by habit names none. */
function sourceOf(mark: Constant["mark"], source: SourceKey): string {
  if (mark === "from memory") return "";
  return source === "judgement" || source === "memory" ? "" : SOURCES[source].citation;
}

export function helpPage(): string {
  const functions = metadata.functions.map((one) => {
    const example = (examples as Record<string, string>)[one.id];
    return `<section id="${one.id}"><h3>ALGAL.${one.id}</h3><p>${plain(one.description)}</p>${table(
      [help.argument, help.meaning],
      one.parameters.map((parameter) => [`${parameter.name}${"optional" in parameter ? ` (${help.optional})` : ""}`, parameter.description]),
    )}${example ? `<p>${help.example}: <code>${plain(example)}</code></p>` : ""}</section>`;
  });
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>${help.title}</title>
<style>
:root { color-scheme: light dark; }
body { font: 16px/1.5 system-ui, sans-serif; max-width: 60rem; margin: 0 auto; padding: 1.5rem; }
h1 { font-size: 1.6rem; } h2 { margin-top: 2.5rem; } h3 { margin: 2rem 0 .25rem; font-family: ui-monospace, monospace; }
table { border-collapse: collapse; font-size: .9rem; } .wide { overflow-x: auto; }
th, td { text-align: left; vertical-align: top; padding: .3rem .8rem .3rem 0; border-bottom: 1px solid color-mix(in srgb, currentColor 25%, transparent); font-weight: normal; }
thead th { font-weight: 600; } section:target h3 { text-decoration: underline; } code { font-family: ui-monospace, monospace; overflow-wrap: anywhere; }
nav a { margin-right: 1rem; }
</style>
</head>
<body>
<main>
<h1>${help.title}</h1>
<p>${plain(help.lead)}</p>
<nav>${[["functions", help.functions], ["log", help.logTitle], ["set-up", help.setUpTitle], ["constants", help.constants], ["foods", help.foods], ["care", pane.start.cautionsTitle]].map(([id, text]) => `<a href="#${id}">${text}</a>`).join("")}</nav>
<h2 id="functions">${help.functions}</h2>
${functions.join("\n")}
<h2 id="log">${help.logTitle}</h2><p>${plain(help.logLead)}</p>
${table([help.argument, help.meaning], help.log)}
<h2 id="set-up">${help.setUpTitle}</h2><p>${plain(help.setUpLead)}</p>
${table([help.argument, help.meaning], help.setUp)}
<h2 id="constants">${help.constants}</h2><p>${plain(help.constantsLead)}</p>
${table([help.constant, help.value, help.range, help.unit, help.mark, help.source], CONSTANTS.map((one) => [one.name, figure(one.value), `${figure(one.low)} to ${figure(one.high)}`, one.unit === "1" ? "" : one.unit, one.mark, [sourceOf(one.mark, one.source), one.note ?? ""].filter(Boolean).join(". ")]))}
<h2 id="foods">${help.foods}</h2><p>${plain(help.foodsLead)}</p>
${table(help.foodColumns, FOODS.map((food) => [food.name, span(food.proteinPercent), figure(food.factor), span(food.phosphorusMgPer100g), span(food.portionG), food.proteinMark === food.phosphorusMark ? food.proteinMark : `protein ${food.proteinMark}, P ${food.phosphorusMark}`, food.proteinMark === "from memory" ? "" : `${SOURCES[food.source].citation}; ${food.locator}`]))}
<h2 id="care">${pane.start.cautionsTitle}</h2>
<ul>${pane.start.cautions.map(({ title, text }) => `<li><strong>${plain(title)}</strong> ${plain(text)}</li>`).join("")}</ul>
<p>${plain(pane.start.privacy)}</p>
</main>
</body>
</html>
`;
}

if (process.argv[1]?.endsWith("build-help.ts")) {
  fs.writeFileSync(TARGET, helpPage());
  console.log("help page written");
}
