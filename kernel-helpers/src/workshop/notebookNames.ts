/** Which notebook files a name on the command line means. */
import { existsSync, readdirSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { inOrder } from "./order";

const extension = ".ipynb";

/** The root of the repository; this file stands three folders below it, compiled or not. */
export const repositoryRoot = resolve(__dirname, "..", "..", "..");

/** Returns the paths of the course: the notebooks in reading order, their solutions, the worked example of a project. */
export function courseNotebooks(root = repositoryRoot): string[] {
  const notebooks = join(root, "notebooks");
  return [notebooks, join(notebooks, "solutions"), join(notebooks, "projects", "example")].flatMap(
    notebooksIn,
  );
}

/** Returns the name by which a notebook is called: its path below `notebooks/`, without the ending. */
export function notebookName(path: string, root = repositoryRoot): string {
  const name = relative(join(root, "notebooks"), resolve(path));
  const inside = !name.startsWith("..") && name !== "";
  return (inside ? name : relative(root, resolve(path))).replaceAll("\\", "/").replace(/\.ipynb$/, "");
}

/**
 * Finds the notebooks that names stand for: "00", "00-start-here", "solutions/00", "projects/NAME" (all of an
 * adapted copy) or the path of a file. Without names, the whole course.
 *
 * Returns their paths, each once, in the order of the names. Throws a `RangeError` in a sentence for a name
 * that means nothing.
 */
export function findNotebooks(
  names: readonly string[],
  root = repositoryRoot,
  from = process.cwd(),
): string[] {
  if (names.length === 0) return courseNotebooks(root);
  return [...new Set(names.flatMap((name) => findByName(name, root, from)))];
}

function findByName(name: string, root: string, from: string): string[] {
  if (name.endsWith(extension)) {
    for (const folder of [from, root, join(root, "notebooks")]) {
      const path = resolve(folder, name);
      if (existsSync(path)) return [path];
    }
  }
  const wanted = name.replace(/^notebooks\//, "").replace(/\.ipynb$/, "");
  const course = courseNotebooks(root);
  const called = course.filter((path) => {
    const own = notebookName(path, root);
    return own === wanted || own.startsWith(`${wanted}-`);
  });
  if (called.length > 0) return called;
  const projects = projectNotebooks(root);
  const inProject = projects.filter((path) => {
    const own = notebookName(path, root);
    return own === wanted || own.startsWith(`${wanted}/`) || own.startsWith(`${wanted}-`);
  });
  if (wanted !== "projects" && inProject.length > 0) return inProject;
  const allowed = [...course, ...projects].map((path) => notebookName(path, root)).join(", ");
  throw new RangeError(
    `There is no notebook "${name}". Allowed are a number such as 00, the path of an ${extension} file, or: ` +
      `${allowed === "" ? "(notebooks/ is empty)" : allowed}.`,
  );
}

function projectNotebooks(root: string): string[] {
  const folder = join(root, "notebooks", "projects");
  if (!existsSync(folder)) return [];
  const projects = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory());
  return inOrder(projects.map((entry) => join(folder, entry.name))).flatMap(notebooksIn);
}

function notebooksIn(folder: string): string[] {
  if (!existsSync(folder)) return [];
  const names = readdirSync(folder).filter((name) => name.endsWith(extension));
  return inOrder(names).map((name) => join(folder, name));
}
