/**
 * Waiting, after the last cell, for work that no cell awaited: a promise that is rejected later shows up under
 * no cell, and the notebook would pass as sound.
 */
import type { Kernel } from "./kernel";
import { joined, type Output } from "./outputs";

/** The kernel itself holds these open: its pipes, and the compiler's watch over the sources. */
const ownResources = ["PipeWrap", "TTYWrap", "FSEventWrap", "StatWatcher"];
const marker = "unawaited work:";

export interface Leftovers {
  /** What the leftover work printed. */
  readonly outputs: readonly Output[];
  /** Kinds of work still going on when the wait ended; empty when everything came to its end. */
  readonly unfinished: readonly string[];
  /** How the kernel ended during the wait, if it did. */
  readonly ending: string | undefined;
}

/**
 * Lets the work that the cells of a kernel left behind come to its end, for at most `limitSeconds`.
 *
 * Returns what it printed, and the kinds of work that were still going on then.
 */
export async function awaitLeftovers(kernel: Kernel, limitSeconds: number): Promise<Leftovers> {
  const run = await kernel.execute(waitingCode(limitSeconds), limitSeconds + 5);
  let unfinished: string[] =
    run.status === "ok" ? [] : [run.ending ?? `the wait itself (status ${run.status})`];
  const outputs = run.outputs.flatMap((output) => {
    if (output.output_type !== "stream" || output.name !== "stdout") return [output];
    const text = joined(output.text);
    const at = text.lastIndexOf(marker);
    if (at < 0) return [output];
    unfinished = text
      .slice(at + marker.length)
      .split(/[\s,]+/)
      .filter((kind) => kind !== "");
    return at === 0 ? [] : [{ ...output, text: [text.slice(0, at)] }];
  });
  if (run.interrupted !== undefined) unfinished = ["a loop that never ends"];
  return { outputs, unfinished, ending: run.ending };
}

/**
 * A cell that asks Node what keeps the process busy. It looks when its own timer is done, so that only the
 * timers of others are counted, and twice in a row, because one piece of work often starts the next.
 */
function waitingCode(limitSeconds: number): string {
  return `await new Promise<string>((resolve) => {
  const own = new Set(${JSON.stringify(ownResources)});
  const deadline = Date.now() + ${limitSeconds * 1000};
  let quiet = 0;
  const lookLater = () => setTimeout(() => setImmediate(look), 20);
  const look = () => {
    const busy = process.getActiveResourcesInfo().filter((kind) => !own.has(kind));
    quiet = busy.length === 0 ? quiet + 1 : 0;
    if (quiet < 2 && Date.now() < deadline) lookLater();
    else resolve("${marker} " + [...new Set(busy)].join(", "));
  };
  lookLater();
})`;
}
