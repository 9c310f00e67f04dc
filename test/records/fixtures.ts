import {
  checkRecords,
  type Offence,
  readTable,
  type Records,
  RecordsError,
} from "../../kernel-helpers/src/records";
import { defineSchema, type Schema } from "../../kernel-helpers/src/schema";

export const fish = defineSchema({
  title: "fish lengths",
  columns: {
    fishId: { kind: "text", unique: true },
    date: { kind: "day" },
    species: { kind: "choice", oneOf: ["roach", "grayling", "silver eel"] },
    totalLength: { kind: "quantity", unit: "mm", above: 0, atMost: 2000 },
    weight: { kind: "quantity", unit: "g", above: 0, optional: true },
    age: { kind: "number", whole: true, atLeast: 0, optional: true },
  },
});

export const fishHead = "fishId,date,species,totalLength [mm],weight [g],age";
export const fishRow = "F1,2022-04-02,roach,343,399.5,4";

/** Reads a CSV text, or bytes, as a file of the given name. */
export async function read<const S extends Schema>(
  content: string | Uint8Array,
  schema: S,
  name = "survey.csv",
): Promise<Records<S>> {
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  return checkRecords(await readTable(bytes, name), schema);
}

/** The error that reading throws; fails where it reads without one. */
export async function refusal(reading: Promise<unknown>): Promise<RecordsError> {
  try {
    await reading;
  } catch (error) {
    if (error instanceof RecordsError) return error;
    throw error;
  }
  throw new Error("the file was read without an offence");
}

/** The sentences of all offences of a CSV text. */
export async function sentences(content: string | Uint8Array, schema: Schema = fish): Promise<string[]> {
  const { offences } = await refusal(read(content, schema));
  return offences.map((offence: Offence) => offence.sentence);
}
