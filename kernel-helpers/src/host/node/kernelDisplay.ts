import { createRequire } from "node:module";
import { join } from "node:path";

/** What the kernel takes to show one output: a bundle of forms, and whether it updates an earlier output. */
type WriteDisplayData = (
  content: { readonly data: object; readonly metadata: object; readonly transient: object },
  update: boolean,
) => void;

const kernelFile = join("tslab", "dist", "jupyter.js");

/**
 * Returns the function that shows an output in the notebook kernel around this process, or undefined without one.
 *
 * The kernel is looked up among the modules already loaded, so that it is found wherever it is installed and never
 * loaded by accident. Its public `display` takes one form at a time; a figure needs several in one output.
 */
export function kernelDisplay(): WriteDisplayData | undefined {
  const loaded = createRequire(__filename).cache;
  const path = Object.keys(loaded).find((name) => name.endsWith(kernelFile));
  if (path === undefined) return undefined;
  // The kernel's own module; it sets this function while a cell runs.
  const kernel = loaded[path]?.exports as { readonly lastWriteDisplayData: WriteDisplayData | null };
  return kernel.lastWriteDisplayData ?? undefined;
}
