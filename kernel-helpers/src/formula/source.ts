/** How a formula is known: the mark's word, and what it means. */
export const provenanceMarks = {
  published: { word: "published", meaning: "read in the cited text, or in a text that quotes it" },
  memory: { word: "from memory", meaning: "written from memory of the cited source, not re-read" },
  derived: { word: "derived", meaning: "follows from continuity, energy, geometry or probability" },
  practice: { word: "common practice", meaning: "common practice, no source" },
  stated: { word: "stated", meaning: "stated by the reader" },
} as const;

/** The name of a provenance mark. */
export type Provenance = keyof typeof provenanceMarks;

/** Where a formula or a limit comes from. */
export interface Source {
  readonly provenance: Provenance;
  readonly text: string;
}

/** Read in the cited text, or in a text that quotes it. */
export const published = (citation: string): Source => ({ provenance: "published", text: citation });

/** Written from memory of the cited source, not re-read. */
export const memory = (citation: string): Source => ({ provenance: "memory", text: citation });

/** Follows from continuity, energy, geometry or probability; the text says from what. */
export const derived = (from: string): Source => ({ provenance: "derived", text: from });

/** Common practice without a source. */
export const practice = (what: string): Source => ({ provenance: "practice", text: what });

/** Stated by the reader: a limit of the local code, a number of the permit. */
export const stated = (from: string): Source => ({ provenance: "stated", text: from });

/** Behind a source stands its mark's word, or the longer words where the short ones would flatter it. */
const printedMarks: Readonly<Record<Provenance, string>> = {
  published: provenanceMarks.published.word,
  memory: "from memory, not re-read",
  derived: provenanceMarks.derived.word,
  practice: provenanceMarks.practice.meaning,
  stated: provenanceMarks.stated.meaning,
};

/** Prints a source with its provenance mark, as in "Kirschmer 1926, … (published)". */
export const printSource = (source: Source): string => `${source.text} (${printedMarks[source.provenance]})`;
