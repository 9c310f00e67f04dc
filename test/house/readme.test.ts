import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { repositoryRoot } from "../../kernel-helpers/src/workshop/notebookNames";
import { readmePicturePath, storedPicture } from "../../kernel-helpers/src/workshop/readmePicture";

const readme = readFileSync(join(repositoryRoot, "README.md"), "utf8");
const manifest = JSON.parse(readFileSync(join(repositoryRoot, "package.json"), "utf8")) as {
  readonly scripts: Readonly<Record<string, string>>;
}; // our own file

test("README's picture is the figure stored in notebook 12", () => {
  const drawing = storedPicture(join(repositoryRoot, "notebooks", "12-survival-by-size-class.ipynb"));
  expect(readFileSync(readmePicturePath, "utf8")).toBe(drawing);
});

test("README names every notebook of the course, and no other", () => {
  const course = readdirSync(join(repositoryRoot, "notebooks")).filter((name) => name.endsWith(".ipynb"));
  const named = [...readme.matchAll(/^\| (\d\d-[a-z-]+|\d\d [a-z-]+) +\|/gm)].map(([, name]) =>
    name.replace(" ", "-"),
  );
  expect(named).toEqual(course.map((name) => name.replace(".ipynb", "")).toSorted());
});

test.each(["README.md", "DEVELOPERS.md"])(
  "every file that %s links to exists, and every npm script it names",
  (name) => {
    const text = readFileSync(join(repositoryRoot, name), "utf8");
    const links = [...text.matchAll(/\]\((?!https?:|#)([^)]+)\)/g)].map(([, path]) => path);
    expect(links.filter((path) => !existsSync(join(repositoryRoot, path)))).toEqual([]);
    const scripts = [...text.matchAll(/npm run (?:-s )?([a-z:]+)/g)].map(([, script]) => script);
    expect(scripts.filter((script) => !Object.hasOwn(manifest.scripts, script))).toEqual([]);
  },
);

test("README opens with the job and defers to codes, permits and licensed practice", () => {
  expect(readme).toMatch(/^# Bar Rack Notebooks\n\n[A-Z]/);
  expect(readme).toMatch(/local code.*permit.*licensed/s);
});
