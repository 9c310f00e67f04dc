import { afterEach, beforeEach, vi } from "vitest";
import { host } from "../../kernel-helpers/src/host/current";
import type { OutputBundle } from "../../kernel-helpers/src/host/host";

/** Collects what cells would show; call inside a describe block or at a file's top. */
export function collectOutputs(): { readonly all: readonly OutputBundle[]; last: (mime: string) => string } {
  const all: OutputBundle[] = [];
  beforeEach(() => {
    all.length = 0;
    vi.spyOn(host, "emit").mockImplementation((bundle) => {
      all.push(bundle);
    });
  });
  afterEach(() => {
    vi.restoreAllMocks();
  });
  return {
    all,
    last(mime) {
      const form = all.at(-1)?.[mime];
      if (typeof form !== "string") throw new Error(`the last output has no text of type ${mime}`);
      return form;
    },
  };
}
