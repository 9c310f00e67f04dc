import { u } from "../../quantity/u";
import type { Screened } from "./sweep";

/** The columns of the results, in order. */
export const resultHeads = [
  "plant",
  "species",
  "survival",
  "lower",
  "upper",
  "worstLength [mm]",
  "worstSurvival",
] as const;

const quoted = (text: string): string => (/[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);

/** One line of the results, without the line's end. Digits are fixed, so that equal results have equal bytes. */
export const resultLine = (one: Screened): string =>
  [
    quoted(one.plant),
    quoted(one.species),
    one.survival.toFixed(6),
    one.lower.toFixed(6),
    one.upper.toFixed(6),
    u.to.mm(u.m(one.worstLength)).toFixed(1),
    one.worstSurvival.toFixed(6),
  ].join(",");
