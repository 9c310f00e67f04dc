import { u } from "../../quantity/u";
import { defineSchema } from "../../schema";
import type { Questions } from "./question";

/**
 * The questionnaire on built racks: what is asked for, in which unit, how answers are understood.
 *
 * The ranges hold what can well be true of a run-of-river plant (common practice, no source). They are wide: a value
 * outside is more often a slip of the pen than a rack. `clean` takes other ranges, and other questions.
 */
export const builtRackQuestions = {
  yearBuilt: { kind: "whole", title: "year built", plausible: [1900, 2030] },
  designDischarge: {
    kind: "quantity",
    title: "design discharge",
    unit: "m3ps",
    plausible: [u.m3ps(0.05), u.m3ps(1500)],
  },
  head: { kind: "quantity", title: "head", unit: "m", plausible: [u.m(0.5), u.m(100)] },
  channelWidth: { kind: "quantity", title: "channel width", unit: "m", plausible: [u.m(0.5), u.m(200)] },
  channelDepth: { kind: "quantity", title: "channel depth", unit: "m", plausible: [u.m(0.3), u.m(15)] },
  rackAngle: {
    kind: "quantity",
    title: "rack angle",
    unit: "deg",
    plausible: [u.deg(10), u.deg(90)],
    orToNormal: true,
  },
  clearSpacing: { kind: "quantity", title: "clear spacing", unit: "mm", plausible: [u.mm(5), u.mm(150)] },
  barThickness: { kind: "quantity", title: "bar thickness", unit: "mm", plausible: [u.mm(2), u.mm(40)] },
  barDepth: { kind: "quantity", title: "bar depth", unit: "mm", plausible: [u.mm(10), u.mm(300)] },
  barShape: {
    kind: "choice",
    title: "bar shape",
    choices: {
      rectangular: ["rectangle", "flat bar", "flat bars", "flat steel", "square edges"],
      rounded: ["flat bar with round nose", "round nose", "round edges", "rounded edges"],
      foil: ["streamlined", "drop-shaped", "drop shaped", "hydrofoil"],
    },
  },
  bottomOverlay: {
    kind: "quantity",
    title: "bottom overlay",
    unit: "mm",
    plausible: [u.mm(0), u.m(2)],
    noneIsZero: true,
    atMost: "channelDepth",
  },
  topOverlay: {
    kind: "quantity",
    title: "top overlay",
    unit: "mm",
    plausible: [u.mm(0), u.m(2)],
    noneIsZero: true,
    atMost: "channelDepth",
  },
  bypass: {
    kind: "choice",
    title: "bypass",
    choices: { yes: ["x", "y", "there is one"], no: ["none", "n"] },
  },
  bypassDischarge: {
    kind: "quantity",
    title: "bypass discharge",
    unit: "m3ps",
    plausible: [u.m3ps(0.005), u.m3ps(100)],
    orShareOf: "designDischarge",
    atMost: "designDischarge",
    onlyIf: { question: "bypass", is: "yes" },
  },
  cleaning: {
    kind: "choice",
    title: "cleaning",
    choices: {
      "along the rack": ["along", "horizontal cleaner"],
      "up and down": ["vertical cleaner"],
      "by hand": ["manual", "manually", "hand rake"],
    },
  },
  cleaningTrigger: {
    kind: "quantity",
    title: "cleaning trigger",
    unit: "cm",
    plausible: [u.cm(0.5), u.m(1.5)],
    inWords: ["by the clock"],
  },
  experience: {
    kind: "choice",
    title: "experience",
    anywhere: true,
    choices: {
      leaves: ["foliage"],
      ice: ["frazil"],
      gravel: ["bed load"],
      wood: ["driftwood", "trunks"],
      "no trouble": ["good", "works well"],
    },
  },
} as const satisfies Questions;

const answer = (note: string) => ({ kind: "text", optional: true, note }) as const;

/** The answers to the questionnaire as they were written: one row a plant that was asked. */
export const answerRecord = defineSchema({
  title: "answers to the questionnaire on built racks",
  columns: {
    plantId: { kind: "text", unique: true, note: "the plant that was asked" },
    answered: { kind: "day", optional: true, note: "day of the answer; empty where none came" },
    yearBuilt: answer("year in which the rack was built"),
    designDischarge: answer("asked for in m³/s"),
    head: answer("asked for in m"),
    channelWidth: answer("of the approach channel, asked for in m"),
    channelDepth: answer("of the water there, asked for in m"),
    rackAngle: answer("in plan between rack and flow, asked for in degrees"),
    clearSpacing: answer("asked for in mm"),
    barThickness: answer("asked for in mm"),
    barDepth: answer("of the bars' section along the flow, asked for in mm"),
    barShape: answer("shape of the bars' section, in free words"),
    bottomOverlay: answer('height, or "none"; asked for in mm'),
    topOverlay: answer('height, or "none"; asked for in mm'),
    bypass: answer("whether there is a bypass, in free words"),
    bypassDischarge: answer("asked for in m³/s; empty where there is no bypass"),
    cleaning: answer("how the rack is cleaned, in free words"),
    cleaningTrigger: answer("head difference at which the cleaner starts, asked for in cm"),
    experience: answer("in free words"),
  },
});
