import type { Host, OutputBundle } from "../host";
import { findDataFile } from "./dataFiles";
import { kernelDisplay } from "./kernelDisplay";

/** Node, with or without a notebook kernel around it. */
export const nodeHost: Host = {
  emit(bundle: OutputBundle): void {
    const display = kernelDisplay();
    if (display !== undefined) {
      display({ data: bundle, metadata: {}, transient: {} }, false);
      return;
    }
    const text = bundle["text/plain"];
    process.stdout.write(`${typeof text === "string" ? text : JSON.stringify(text)}\n`);
  },
  readFile: findDataFile,
  async drawSvg(drawing) {
    const { drawSvg } = await import("./drawFigure.js");
    return drawSvg(drawing);
  },
};
