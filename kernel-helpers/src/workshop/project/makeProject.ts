/** A folder of its own for a plant: its note, its trial, and what its records look like. */
import { existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import {
  type Cell,
  isCodeCell,
  type Notebook,
  readNotebook,
  sourceText,
  writeNotebook,
} from "../notebookFile";
import { repositoryRoot } from "../notebookNames";
import { withoutExercises } from "../note/sections";

/** The records that note and trial read; data-demo has each, and readers look there for the meaning of its columns. */
export const recordFiles = [
  "daily-flow",
  "efficiency",
  "fish-lengths",
  "migration-timing",
  "trial-runs",
] as const;

const allowedName = /^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$/;
const longestName = 40;

/** Refuses a name that is no name of a project, in a sentence. */
export function checkProjectName(name: string): void {
  if (allowedName.test(name) && name.length <= longestName) return;
  throw new RangeError(
    `The name is "${name}"; it must be small letters and digits with single hyphens between them, begin with a letter ` +
      `and be at most ${longestName} characters long, such as my-plant.`,
  );
}

/** Returns the folder of a project. */
export const projectFolder = (name: string, root = repositoryRoot): string =>
  join(root, "notebooks", "projects", name);

/**
 * Makes the folder of a new project: the note from notebook 17 without its exercises, the trial notebook of the worked
 * example, an example of every record, and a page that says what is what.
 *
 * Returns the names of its files. Throws a RangeError for a name that is not allowed and for a project that exists; a
 * failure half-way leaves nothing.
 */
export function makeProject(name: string, root = repositoryRoot): readonly string[] {
  checkProjectName(name);
  const folder = projectFolder(name, root);
  if (existsSync(folder)) {
    throw new RangeError(
      `notebooks/projects/${name} exists already; choose another name, or go on in that folder.`,
    );
  }
  const projects = join(root, "notebooks", "projects");
  const unfinished = join(projects, `.${name}.${process.pid}.unfinished`);
  try {
    mkdirSync(unfinished, { recursive: true });
    const files = write(name, unfinished, root);
    renameSync(unfinished, folder);
    return files;
  } catch (error) {
    rmSync(unfinished, { recursive: true, force: true });
    throw error;
  }
}

function write(name: string, folder: string, root: string): readonly string[] {
  const notebooks = join(root, "notebooks");
  const note = withoutExercises(readNotebook(join(notebooks, "17-design-note.ipynb")));
  const trial = readNotebook(join(notebooks, "projects", "example", "trial.ipynb"));
  writeNotebook(join(folder, "design-note.ipynb"), ofProject(note, name));
  writeNotebook(join(folder, "trial.ipynb"), ofProject(trial, name));
  const examples = recordFiles.map((record) => {
    const [heads, row] = readFileSync(join(root, "data-demo", `${record}.csv`), "utf8").split("\n");
    const file = `${record}.example.csv`;
    writeFileSync(join(folder, file), `${heads}\n${row}\n`);
    return file;
  });
  writeFileSync(join(folder, "README.md"), readme(name));
  return ["design-note.ipynb", "trial.ipynb", ...examples, "README.md"];
}

/** The notebook as the project begins with it: named, without stored outputs, on the records of the course's plant. */
function ofProject(notebook: Notebook, name: string): Notebook {
  return { ...notebook, cells: notebook.cells.map((cell) => cellOfProject(cell, name)) };
}

function cellOfProject(cell: Cell, name: string): Cell {
  const text = sourceText(cell);
  if (!isCodeCell(cell)) {
    const source = text
      .replace(/^# 17 /, "# ")
      .replaceAll(/projects\/(?:NAME|example)\//g, `projects/${name}/`);
    return { ...cell, source };
  }
  const source = text
    .replaceAll('"projects/example/', '"')
    .replace(/\bexercise, /, "")
    .replace(/^const project = ".*";/m, `const project = "${name}";`);
  // A code cell's outputs are those of another plant.
  return { ...cell, source, outputs: [], execution_count: null } as Cell;
}

const readme = (name: string): string => `# ${name}

- \`design-note.ipynb\`: the note. Replace what stands under Project and Inputs; run it from the top.
- \`trial.ipynb\`: reads a live-fish trial and says how well the rack guides and protects.
- \`*.example.csv\`: what each record looks like: its heads with units, and one row of an invented plant as an example. Nothing reads these files.

Until you replace them, all numbers and records are those of the course's invented plant. Save your own record beside its
example, as \`daily-flow.csv\`, and name it in the notebook: \`"projects/${name}/daily-flow.csv"\`. The columns are explained in
\`data-demo/README.md\`.

    npm run notebooks -- refresh projects/${name}     runs both, stores their results, prints old → new
    npm run note -- ${name}                           writes design-note.html, which prints on A4
`;
