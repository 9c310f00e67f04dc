/**
 * How a formula is known:
 * `published`: read in the cited text or in a text that quotes it;
 * `memory`: written from memory of the cited source, not re-read;
 * `derived`: follows from continuity, energy or geometry;
 * `practice`: common practice, no source;
 * `stated`: stated by the reader, whose word it is.
 */
export type Provenance = "published" | "memory" | "derived" | "practice" | "stated";

/** Where a formula or a limit comes from. */
export interface Source {
  readonly provenance: Provenance;
  readonly text: string;
}

/** Read in the cited text, or in a text that quotes it. */
export const published = (citation: string): Source => ({ provenance: "published", text: citation });

/** Written from memory of the cited source, not re-read. */
export const memory = (citation: string): Source => ({ provenance: "memory", text: citation });

/** Follows from continuity, energy or geometry; the text says from what. */
export const derived = (from: string): Source => ({ provenance: "derived", text: from });

/** Common practice without a source. */
export const practice = (what: string): Source => ({ provenance: "practice", text: what });

/** Stated by the reader: a limit of the local code, a number of the permit. */
export const stated = (from: string): Source => ({ provenance: "stated", text: from });

const marks: Readonly<Record<Provenance, string>> = {
  published: "published",
  memory: "from memory, not re-read",
  derived: "derived",
  practice: "common practice, no source",
  stated: "stated by the reader",
};

/** Prints a source with its provenance mark, as in "Kirschmer 1926, … (published)". */
export const printSource = (source: Source): string => `${source.text} (${marks[source.provenance]})`;
