import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";

const root = fileURLToPath(new URL("../..", import.meta.url));

test("the top level holds what the guide for contributors lists, and nothing else that shows", () => {
  const tracked = execFileSync("git", ["ls-files"], { cwd: root, encoding: "utf8", maxBuffer: 1e8 }).split(
    "\n",
  );
  const visible = new Set(
    tracked.map((path) => path.split("/")[0]).filter((name) => name && !name.startsWith(".")),
  );
  expect([...visible].toSorted()).toEqual([
    "DEVELOPERS.md",
    "README.md",
    "data-demo",
    "kernel-helpers",
    "notebooks",
    "package-lock.json",
    "package.json",
    "test",
  ]);
});

test("the lock file names no registry host", () => {
  const lock = execFileSync("git", ["show", ":package-lock.json"], {
    cwd: root,
    encoding: "utf8",
    maxBuffer: 1e8,
  });
  const hosts = [...lock.matchAll(/"resolved": "(https?:[^"]*)"/g)].map(([, address]) => address);
  expect(hosts).toEqual([]);
});
