/** Showing how far a run is: a bar where there is a terminal, nothing where not (lines are printed anyway). */
import { Presets, SingleBar } from "cli-progress";

export interface Progress {
  /** One more cell has run. */
  step(what: string): void;
  /** Prints a line; above the bar's place where there is one. */
  line(text: string): void;
  stop(): void;
}

/** Returns a progress display for `total` cells: a bar on a terminal's stderr, lines on stdout. */
export function progress(total: number): Progress {
  if (!process.stderr.isTTY || total === 0) {
    return { step: () => {}, line: (text) => console.log(text), stop: () => {} };
  }
  const bar = new SingleBar(
    {
      format: "{bar} {value}/{total} cells  {what}",
      stream: process.stderr,
      hideCursor: true,
      clearOnComplete: true,
      gracefulExit: false,
    },
    Presets.shades_classic,
  );
  // The bar redraws its own line: what is printed meanwhile waits until it is gone.
  const lines: string[] = [];
  bar.start(total, 0, { what: "starting the kernel" });
  return {
    step: (what) => bar.increment({ what }),
    line: (text) => lines.push(text),
    stop() {
      bar.stop();
      for (const text of lines.splice(0)) console.log(text);
    },
  };
}
