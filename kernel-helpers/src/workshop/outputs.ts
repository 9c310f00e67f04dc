/** The outputs of a cell, in the form in which a notebook file stores them. */
import { isJsonObject, type JsonObject } from "./json";

export interface StreamOutput {
  output_type: "stream";
  name: "stdout" | "stderr";
  text: string[];
}

export interface DisplayOutput {
  output_type: "display_data";
  data: JsonObject;
  metadata: JsonObject;
}

export interface ResultOutput {
  output_type: "execute_result";
  execution_count: number | null;
  data: JsonObject;
  metadata: JsonObject;
}

export interface ErrorOutput {
  output_type: "error";
  ename: string;
  evalue: string;
  traceback: string[];
}

export type Output = StreamOutput | DisplayOutput | ResultOutput | ErrorOutput;

/** Returns the text of a stored string, which may be one string or a list of lines. */
export function joined(text: unknown): string {
  if (typeof text === "string") return text;
  return Array.isArray(text) ? text.join("") : "";
}

/** Returns the lines of a text, each with its line end, as a notebook file stores them. */
export function lines(text: string): string[] {
  return text === "" ? [] : text.split(/(?<=\n)/);
}

/** Returns everything that the outputs printed to stderr. */
export function stderrText(outputs: readonly Output[]): string {
  return outputs
    .filter((output) => output.output_type === "stream" && output.name === "stderr")
    .map((output) => (output.output_type === "stream" ? joined(output.text) : ""))
    .join("");
}

/** More than this from one cell is a cell that prints without end, not a result (in characters). */
export const largestCellOutput = 20_000_000;

/**
 * Collects the outputs of one cell, message by message. A kernel sends text in pieces of any size: pieces of
 * one stream in a row become one output, as notebook programs store them.
 */
export class OutputCollector {
  readonly outputs: Output[] = [];
  private characters = 0;

  /** `displays` is shared by all cells of a kernel: a later cell may update what an earlier one displayed. */
  constructor(private readonly displays: Map<string, DisplayOutput>) {}

  /** Whether the cell has sent more than {@link largestCellOutput}; what came after that is not kept. */
  get overflowed(): boolean {
    return this.characters > largestCellOutput;
  }

  add(type: string, content: JsonObject): void {
    if (this.overflowed) return;
    this.characters += sizeOf(content);
    switch (type) {
      case "stream":
        this.addStream(content);
        break;
      case "display_data":
      case "update_display_data":
        this.addDisplay(type, content);
        break;
      case "execute_result":
        this.outputs.push({
          output_type: "execute_result",
          execution_count: typeof content["execution_count"] === "number" ? content["execution_count"] : null,
          data: storedData(content["data"]),
          metadata: objectOr(content["metadata"]),
        });
        break;
      case "error":
        this.outputs.push({
          output_type: "error",
          ename: String(content["ename"]),
          evalue: String(content["evalue"]),
          traceback: Array.isArray(content["traceback"]) ? content["traceback"].map(String) : [],
        });
        break;
    }
  }

  private addStream(content: JsonObject): void {
    const name = content["name"] === "stderr" ? "stderr" : "stdout";
    const text = joined(content["text"]);
    if (text === "") return;
    const last = this.outputs.at(-1);
    if (last?.output_type !== "stream" || last.name !== name) {
      this.outputs.push({ output_type: "stream", name, text: lines(text) });
      return;
    }
    // Only the last line can be unfinished: joining the whole text again would make long prints quadratic.
    const unfinished = last.text.at(-1)?.endsWith("\n") === false ? last.text.pop() : undefined;
    for (const line of lines((unfinished ?? "") + text)) last.text.push(line);
  }

  private addDisplay(type: string, content: JsonObject): void {
    const data = storedData(content["data"]);
    const metadata = objectOr(content["metadata"]);
    const id = objectOr(content["transient"])["display_id"];
    const earlier = typeof id === "string" ? this.displays.get(id) : undefined;
    if (type === "update_display_data") {
      if (earlier !== undefined) Object.assign(earlier, { data, metadata });
      return;
    }
    const display: DisplayOutput = { output_type: "display_data", data, metadata };
    this.outputs.push(display);
    if (typeof id === "string") this.displays.set(id, display);
  }
}

/** Returns a kernel's mime bundle as a notebook file stores it: text in lines, JSON as it is. */
function storedData(bundle: unknown): JsonObject {
  const stored: JsonObject = {};
  for (const [type, value] of Object.entries(objectOr(bundle))) {
    const isJson = type === "application/json" || type.endsWith("+json");
    stored[type] = typeof value === "string" && !isJson ? lines(value) : value;
  }
  return stored;
}

function objectOr(value: unknown): JsonObject {
  return isJsonObject(value) ? value : {};
}

function sizeOf(content: JsonObject): number {
  if (typeof content["text"] === "string") return content["text"].length;
  let size = 0;
  for (const value of Object.values(objectOr(content["data"])))
    size += typeof value === "string" ? value.length : 1000;
  return size;
}
