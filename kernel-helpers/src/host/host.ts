import type { Drawing } from "./drawing";

/** One output of a cell in several forms, by mime type; a front-end shows the richest it knows. */
export type OutputBundle = Readonly<Record<string, string | Readonly<Record<string, unknown>>>>;

/** A file that a notebook asked for, with the place where it was found. */
export interface FoundFile {
  /** The path as a reader would write it, for messages. */
  readonly place: string;
  readonly bytes: Uint8Array;
}

/** The few things that differ between the notebook kernel and a page. */
export interface Host {
  /** Emits one output under the running cell; without a kernel, its plain text goes to standard output. */
  emit(bundle: OutputBundle): void;
  /** Finds a data file by name. Throws an Error that says where it looked and which names there are. */
  readFile(name: string): Promise<FoundFile>;
  /** Draws a figure as a self-contained SVG image. */
  drawSvg(drawing: Drawing): Promise<string>;
}
