/** Comparing a cell's fresh outputs with the stored ones, which are the golden results. */
import { inKeyOrder, type JsonObject } from "./json";
import { sameText } from "./numbers";
import { inOrder } from "./order";
import { joined, type Output } from "./outputs";

/**
 * Compares the outputs of one cell.
 *
 * Returns a sentence for each difference; empty when the outputs agree. Text must be the same character by
 * character, numbers to the digits shown; only beyond the twelfth digit may machines differ. Execution counts
 * and display ids are not compared.
 */
export function differences(stored: readonly Output[], fresh: readonly Output[]): string[] {
  if (stored.length === 0 && fresh.length > 0) {
    return [`has no stored output, and now gives ${counted(fresh.length)}.`];
  }
  if (stored.length !== fresh.length) {
    return [
      `has ${counted(stored.length)} stored, and now gives ${counted(fresh.length)}${firstNew(stored, fresh)}.`,
    ];
  }
  return fresh.flatMap((output, index) => {
    const where = fresh.length === 1 ? "output" : `output ${index + 1}`;
    const old = stored[index];
    return old === undefined ? [] : outputDifferences(old, output).map((what) => `${where}: ${what}`);
  });
}

function counted(count: number): string {
  if (count === 0) return "no output";
  return count === 1 ? "1 output" : `${count} outputs`;
}

function firstNew(stored: readonly Output[], fresh: readonly Output[]): string {
  const index = fresh.findIndex((output, at) => {
    const old = stored[at];
    return old === undefined || outputDifferences(old, output).length > 0;
  });
  const output = fresh[index];
  return output === undefined ? "" : `; from output ${index + 1} on they differ (${kindOf(output)})`;
}

function kindOf(output: Output): string {
  return output.output_type === "stream" ? output.name : output.output_type;
}

function outputDifferences(stored: Output, fresh: Output): string[] {
  if (kindOf(stored) !== kindOf(fresh)) return [`was ${kindOf(stored)}, is now ${kindOf(fresh)}.`];
  if (fresh.output_type === "stream" && stored.output_type === "stream") {
    return textDifference("text", joined(stored.text), joined(fresh.text));
  }
  if (fresh.output_type === "error" && stored.output_type === "error") {
    return textDifference("error", `${stored.ename}: ${stored.evalue}`, `${fresh.ename}: ${fresh.evalue}`);
  }
  if ("data" in fresh && "data" in stored) {
    return [
      ...bundleDifferences(stored.data, fresh.data),
      ...metadataDifference(stored.metadata, fresh.metadata),
    ];
  }
  return [];
}

function bundleDifferences(stored: JsonObject, fresh: JsonObject): string[] {
  const types = inOrder([...new Set([...Object.keys(stored), ...Object.keys(fresh)])]);
  return types.flatMap((type) => {
    const old = stored[type];
    const now = fresh[type];
    if (old === undefined) return [`${type} is new.`];
    if (now === undefined) return [`${type} is missing now.`];
    return textDifference(type, readable(old), readable(now));
  });
}

function metadataDifference(stored: JsonObject, fresh: JsonObject): string[] {
  return textDifference("metadata", readable(stored), readable(fresh));
}

/** Returns a value of a mime bundle as text of many lines, with SVG images in data URIs as their source. */
function readable(value: unknown): string {
  if (typeof value !== "string" && !isText(value)) return JSON.stringify(inKeyOrder(value), undefined, 1);
  return joined(value).replace(/data:image\/svg\+xml;base64,([A-Za-z0-9+/=]+)/g, (_, code: string) =>
    Buffer.from(code, "base64").toString("utf8").replaceAll("><", ">\n<"),
  );
}

function isText(value: unknown): value is string[] {
  return Array.isArray(value) && value.every((line) => typeof line === "string");
}

function textDifference(what: string, stored: string, fresh: string): string[] {
  if (stored === fresh) return [];
  const old = stored.split("\n");
  const now = fresh.split("\n");
  const length = Math.max(old.length, now.length);
  let differing = 0;
  let first: string | undefined;
  for (let index = 0; index < length; index++) {
    const before = old[index];
    const after = now[index];
    if (before !== undefined && after !== undefined && sameText(before, after)) continue;
    differing++;
    first ??= `line ${index + 1} was ${excerpt(before, after)}, is now ${excerpt(after, before)}`;
  }
  if (first === undefined) return [];
  const more = differing > 1 ? ` (${differing} lines differ in all)` : "";
  return [`${what}: ${first}${more}.`];
}

const excerptLength = 80;

/** Returns the part of a line around its first difference from another. */
function excerpt(line: string | undefined, other: string | undefined): string {
  if (line === undefined) return "missing";
  let at = 0;
  while (at < line.length && at < (other?.length ?? 0) && line[at] === other?.[at]) at++;
  const from = line.length <= excerptLength ? 0 : Math.max(0, at - excerptLength / 2);
  const part = line.slice(from, from + excerptLength);
  return `"${from > 0 ? "…" : ""}${part}${from + excerptLength < line.length ? "…" : ""}"`;
}
