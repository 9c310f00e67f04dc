/** What the commands of this folder share: how a signal stops them, and their exit codes. */
import { constants } from "node:os";
import { messageOf } from "./failureText";

/** A command line that means nothing; the usage is printed below its sentence. */
export class UsageError extends Error {}

/**
 * Carries a command out. `act` gets the words of the command line and a signal that aborts when the person stops it;
 * `whenStopped` says what then holds.
 *
 * Returns the exit code: that of `act`, 2 for a `UsageError`, 1 for any other error, and 128 plus a signal's number where
 * one stopped it. Errors are printed.
 */
export async function runCommand(
  usage: string,
  act: (words: readonly string[], signal: AbortSignal) => Promise<number>,
  whenStopped = "every kernel has ended",
): Promise<number> {
  const stop = new AbortController();
  let stoppedBy: NodeJS.Signals | undefined;
  for (const name of ["SIGINT", "SIGTERM", "SIGHUP"] as const) {
    process.once(name, () => {
      stoppedBy = name;
      stop.abort(new Error(`stopped by ${name}`));
    });
  }
  try {
    return await act(process.argv.slice(2), stop.signal);
  } catch (error) {
    if (stoppedBy !== undefined) {
      console.error(`Stopped by ${stoppedBy}; ${whenStopped}.`);
      return 128 + constants.signals[stoppedBy];
    }
    console.error(messageOf(error));
    if (!(error instanceof UsageError)) return 1;
    console.error(`\n${usage}`);
    return 2;
  }
}
