/** The command `npm run new -- NAME`: a folder of its own for a plant. */
import { parseArgs } from "node:util";
import { runCommand, UsageError } from "./command";
import { messageOf } from "./failureText";
import { repositoryRoot } from "./notebookNames";
import { makeProject } from "./project/makeProject";

const usage = `Usage: npm run new -- NAME

  Makes notebooks/projects/NAME/ with a design note, a trial notebook and an example of every record. NAME is made
  of small letters, digits and hyphens, such as my-plant.`;

/** Returns the name on the command line. Throws a `UsageError` in a sentence when there is none, or more than one. */
function readName(words: readonly string[]): string {
  let names: string[];
  try {
    names = parseArgs({ args: [...words], allowPositionals: true, options: {} }).positionals;
  } catch (cause) {
    throw new UsageError(messageOf(cause), { cause });
  }
  const [name] = names;
  if (name === undefined) throw new UsageError("No name is given.");
  if (names.length > 1) throw new UsageError(`${names.length} names are given; a project has one.`);
  return name;
}

/** Makes the project below `root` and says what to do next. Returns the exit code. */
export function makeNew(words: readonly string[], root = repositoryRoot): number {
  const name = readName(words);
  let files: readonly string[];
  try {
    files = makeProject(name, root);
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
    throw new UsageError(cause.message, { cause });
  }
  console.log(`notebooks/projects/${name}/ is made:`);
  for (const file of files) console.log(`  ${file}`);
  console.log(`
Next:
  1. npm run jupyter (or VS Code), open projects/${name}/design-note.ipynb and replace what stands under Project and
     Inputs. Until then all numbers are those of the course's invented plant.
  2. Save your records beside the examples, daily-flow.csv for daily-flow.example.csv, and name them in the
     notebook: "projects/${name}/daily-flow.csv".
  3. npm run note -- ${name}
     runs the note and writes design-note.html, which prints on A4.`);
  return 0;
}

if (require.main === module) {
  void runCommand(usage, (words) => Promise.resolve(makeNew(words))).then((code) => {
    process.exitCode = code;
  });
}
