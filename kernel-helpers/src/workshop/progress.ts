/** Showing how far a run is: a bar where there is a terminal, nothing where not (lines are printed anyway). */
import { Presets, SingleBar } from "cli-progress";

export interface Progress {
  /** One more cell has run, or so many more things are done. */
  step(what: string, count?: number): void;
  /** Prints a line; above the bar's place where there is one. */
  line(text: string): void;
  stop(): void;
}

/** Returns a progress display for `total` cells, or other things: a bar on a terminal's stderr, lines on stdout. */
export function progress(
  total: number,
  { unit = "cells", first = "starting the kernel" }: { readonly unit?: string; readonly first?: string } = {},
): Progress {
  if (!process.stderr.isTTY || total === 0) {
    return { step: () => {}, line: (text) => console.log(text), stop: () => {} };
  }
  const bar = new SingleBar(
    {
      format: `{bar} {value}/{total} ${unit}  {what}`,
      stream: process.stderr,
      hideCursor: true,
      clearOnComplete: true,
      gracefulExit: false,
    },
    Presets.shades_classic,
  );
  // The bar redraws its own line: what is printed meanwhile waits until it is gone.
  const lines: string[] = [];
  bar.start(total, 0, { what: first });
  return {
    step: (what, count = 1) => bar.increment(count, { what }),
    line: (text) => lines.push(text),
    stop() {
      bar.stop();
      for (const text of lines.splice(0)) console.log(text);
    },
  };
}
