import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

export default defineConfig({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    include: ["test/**/*.test.ts"],
    testTimeout: 60_000,
    hookTimeout: 120_000,
  },
  resolve: {
    // Tests read the source, so that a failing line is a line of src/.
    alias: { "kernel-helpers": fileURLToPath(new URL("../kernel-helpers/src/index.ts", import.meta.url)) },
  },
});
