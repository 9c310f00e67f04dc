import type { AnyFormula } from "../../formula/catalogue";
import { describeLimits, type InputSpec, type Kind, printValue, shownUnit, words } from "../../formula/input";
import { provenanceMarks } from "../../formula/source";
import { escapeHtml } from "../../notebook/emit";
import { type UnitName, units } from "../../quantity/unit";
import { constantCautions } from "./constantCautions";
import type { Heading } from "./headings";
import type { Page } from "./shell";
import { renderTex } from "./tex";
import { tied } from "./ties";

const topicTitles: Readonly<Record<string, string>> = {
  river: "River",
  rack: "Rack: geometry, velocities, loads",
  rackLoss: "Head loss of racks",
  fish: "Fish",
  protection: "Protection",
  turbine: "Turbine passage",
  survival: "Survival",
};

/** Returns the formula sheet: every formula of the catalogue, topic by topic. */
export function formulaSheet(formulas: readonly AnyFormula[]): Page {
  const contents: Heading[] = [];
  const heading = (level: 2 | 3, text: string, id: string): string => {
    contents.push({ level, id, html: escapeHtml(text) });
    return `<h${level} id="${id}">${escapeHtml(text)}</h${level}>\n`;
  };
  const topics = [...new Set(formulas.map(({ topic }) => topic))];
  const parts = topics.map((topic) => {
    const name = topicTitles[topic] ?? words(topic).replace(/^./, (first) => first.toUpperCase());
    const entries = formulas.filter((formula) => formula.topic === topic);
    // A formula's place is its id, so that a notebook's list of sources can lead there.
    return (
      heading(2, name, topic) +
      entries.map((entry) => heading(3, entry.title, entry.id) + entryHtml(entry)).join("")
    );
  });
  return {
    file: "formula-sheet.html",
    title: "Formula sheet",
    titleHtml: "Formula sheet",
    contents,
    body: `<div class="sheet">\n${introduction(formulas)}${parts.join("")}</div>\n`,
  };
}

function introduction(formulas: readonly AnyFormula[]): string {
  const used = new Set<string>(formulas.map(({ source }) => source.provenance));
  const legend = Object.entries(provenanceMarks)
    // No formula of the module rests on a reader's word; a reader's own may.
    .filter(([mark]) => mark !== "stated" || used.has(mark))
    .map(([, mark]) => mark)
    .map(({ word, meaning }) => `<dt>${markHtml(word)}</dt><dd>${escapeHtml(meaning)}</dd>`)
    .join("");
  return (
    `<p>The ${formulas.length} equations of the helper module, generated from its catalogue. A cell calls each by the name under its title. ` +
    `Outside what is allowed a formula refuses the input; outside the tested or the usual range it answers with a caution. ` +
    `Every input is a quantity with its unit; the units here are those that values are shown in.</p>\n` +
    `<p>How each equation is known:</p>\n<dl class="marks">${legend}</dl>\n`
  );
}

const markHtml = (word: string): string =>
  `<span class="mark mark-${word.replaceAll(" ", "-")}">${word}</span>`;

function entryHtml(formula: AnyFormula): string {
  const { id, equation, stepEquations, inputs, source, validity } = formula;
  const equations = [
    ...stepEquations.map(
      (step) => `<p class="step">${escapeHtml(step.title)}</p>\n${equationHtml(step.equation)}`,
    ),
    equationHtml(equation),
  ];
  const cautions = constantCautions(formula);
  return [
    `<p class="id"><code>${id}</code></p>\n`,
    ...equations,
    symbolsHtml(formula, Object.entries(inputs)),
    validity === undefined ? "" : `<p><strong>Where it holds.</strong> ${escapeHtml(validity)}</p>\n`,
    `<p class="source"><strong>Source.</strong> ${escapeHtml(source.text)} ${markHtml(provenanceMarks[source.provenance].word)}</p>\n`,
    cautions.length === 0
      ? ""
      : `<ul class="cautions">${cautions.map((caution) => `<li class="caution">⚠ ${escapeHtml(caution)}</li>`).join("")}</ul>\n`,
  ].join("");
}

const equationHtml = (latex: string): string => `<div class="equation">${renderTex(latex, true)}</div>\n`;

function symbolsHtml(formula: AnyFormula, inputs: readonly (readonly [string, InputSpec])[]): string {
  const rows = inputs.map(([name, spec]) => {
    const meaning = `${words(name)}${spec.many === true ? " (a list)" : ""}`;
    const note = spec.note === undefined ? "" : `<small>${escapeHtml(spec.note)}</small>`;
    const otherwise =
      spec.default === undefined
        ? ""
        : `; ${escapeHtml(printValue(spec.default, spec.kind, spec.unit))} unless given`;
    return (
      `<tr><th scope="row">${renderTex(spec.symbol, false)}</th><td>${escapeHtml(meaning)}${note}</td>` +
      `<td>${unitOf(spec.kind, spec.unit)}</td><td>${escapeHtml(tied(describeLimits(spec)))}${otherwise}</td><td>${testedHtml(spec)}</td></tr>`
    );
  });
  const results = resultRows(formula);
  return (
    `<div class="scroll"><table class="symbols"><thead><tr><th scope="col">Symbol</th><th scope="col">Meaning</th><th scope="col">Unit</th>` +
    `<th scope="col">Allowed</th><th scope="col">Tested</th></tr></thead>\n<tbody>${rows.join("\n")}</tbody>\n<tbody class="result">${results}</tbody></table></div>\n`
  );
}

/** A formula gives one value, named by its title, or several, each with a name. */
function resultRows({ result, symbol, title, unit }: AnyFormula): string {
  const parts =
    typeof result === "string"
      ? [[title, result] as const]
      : Object.entries(result).map(([name, kind]) => [words(name), kind] as const);
  return parts
    .map(([name, kind], at) => {
      const sign = at === 0 ? renderTex(symbol, false) : "";
      return `<tr><th scope="row">${sign}</th><td>${escapeHtml(name)}<small>the result</small></td><td>${unitOf(kind, unit)}</td><td></td><td></td></tr>`;
    })
    .join("\n");
}

function unitOf(kind: Kind, unit: UnitName | undefined): string {
  const name = shownUnit(kind, unit);
  const symbol = name === undefined ? "" : units[name].symbol;
  return symbol === "" ? '<span class="none" title="a plain number">–</span>' : escapeHtml(symbol);
}

function testedHtml({ tested, usual, kind, unit }: InputSpec): string {
  if (tested === undefined && usual !== undefined)
    return `usual, common practice: ${rangeOf(usual, kind, unit)}`;
  if (tested === undefined) return '<span class="none" title="no range stated">–</span>';
  return rangeOf(tested, kind, unit);
}

function rangeOf(range: readonly [number, number], kind: Kind, unit: UnitName | undefined): string {
  const [low, high] = range.map((value) => escapeHtml(tied(printValue(value, kind, unit))));
  return `${low} to ${high}`;
}
