import { readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import { describe, expect, test } from "vitest";

const source = fileURLToPath(new URL("../../kernel-helpers/src", import.meta.url));

const ground = ["quantity", "schema", "formula"];
const topics = [
  "river",
  "rack",
  "fish",
  "protection",
  "turbine",
  "survival",
  "energy",
  "velocity",
  "bypass",
  "trial",
  "movement",
  "monitoring",
  "uncertainty",
  "chain",
];

/** Libraries of pure functions that a topic may call. */
const topicLibraries: Readonly<Record<string, readonly string[]>> = { velocity: ["delaunator"] };

/** Which rooms a room may import from. A new room enters here first. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  quantity: [],
  schema: ["quantity"],
  formula: ["quantity"],
  statistics: ["quantity"],
  river: ground,
  rack: [...ground, "statistics"],
  fish: [...ground, "statistics"],
  protection: [...ground, "fish", "statistics"],
  turbine: ground,
  survival: [...ground, "statistics", "fish", "protection", "turbine"],
  energy: [...ground, "statistics", "river", "rack", "bypass", "fish", "protection", "turbine", "survival"],
  uncertainty: [...ground, "statistics", "fish", "protection", "turbine", "survival", "energy"],
  chain: [...ground, "statistics", "fish", "protection", "turbine", "survival"],
  velocity: [...ground, "statistics"],
  bypass: [...ground, "statistics"],
  trial: [...ground, "fish", "statistics"],
  movement: [...ground, "fish", "statistics"],
  monitoring: [...ground, "fish", "statistics"],
  host: [],
  records: [...ground, ...topics, "statistics", "host"],
  figures: [...ground, ...topics, "statistics", "host"],
  notebook: [...ground, ...topics, "statistics", "host", "records", "figures"],
  workshop: [...ground, ...topics, "statistics", "host", "records", "figures", "notebook"],
};

const filesBelow = (folder: string): string[] =>
  readdirSync(folder).flatMap((name) => {
    const path = join(folder, name);
    return statSync(path).isDirectory() ? filesBelow(path) : [path];
  });

const roomOf = (path: string): string => relative(source, path).split(sep)[0];

const importsOf = (path: string): readonly string[] =>
  ts.preProcessFile(readFileSync(path, "utf8"), true, true).importedFiles.map(({ fileName }) => fileName);

describe("the rooms of kernel-helpers", () => {
  const files = filesBelow(source);

  test("every folder of src is a room with its allowed imports listed", () => {
    const rooms = [...new Set(files.map(roomOf))].filter((room) => !room.endsWith(".ts"));
    expect(rooms.filter((room) => !Object.hasOwn(mayImport, room))).toEqual([]);
  });

  test("dependencies point one way", () => {
    const wrong = files.flatMap((path) => {
      const room = roomOf(path);
      if (room === "index.ts") return [];
      return importsOf(path)
        .filter((name) => name.startsWith("."))
        .map((name) => roomOf(join(dirname(path), name)))
        .filter((other) => other !== room && !mayImport[room].includes(other))
        .map((other) => `${relative(source, path)} imports from ${other}`);
    });
    expect(wrong).toEqual([]);
  });

  test("no topic and no formula reaches a file, the network or the screen", () => {
    const wrong = files
      .filter((path) => [...ground, ...topics].includes(roomOf(path)))
      .flatMap((path) =>
        importsOf(path)
          .filter((name) => !name.startsWith(".") && !(topicLibraries[roomOf(path)] ?? []).includes(name))
          .map((name) => `${relative(source, path)} imports ${name}`),
      );
    expect(wrong).toEqual([]);
  });

  test("only the host and the workshop import from Node", () => {
    const wrong = files
      .filter((path) => !["host", "workshop"].includes(roomOf(path)))
      .flatMap((path) =>
        importsOf(path)
          .filter((name) => name.startsWith("node:"))
          .map((name) => `${relative(source, path)} imports ${name}`),
      );
    expect(wrong).toEqual([]);
  });

  test("no file is longer than 300 lines", () => {
    const long = files
      .filter((path) => path.endsWith(".ts"))
      .map((path) => ({ path: relative(source, path), lines: readFileSync(path, "utf8").split("\n").length }))
      .filter(({ lines }) => lines > 300);
    expect(long).toEqual([]);
  });
});
