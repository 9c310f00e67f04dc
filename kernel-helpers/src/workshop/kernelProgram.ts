/**
 * The program that a front-end starts as the TypeScript kernel:
 * `node kernelProgram.js kernel --config-path=FILE`.
 *
 * It is tslab, repaired. How a cell sees the variables of earlier ones is mended in cellSpelling.ts; how outputs are
 * sent, here. tslab publishes them without waiting for each to be taken; from about 500 messages on, zeromq refuses
 * the second of two such messages, tslab prints the refusal, which is one more message, and so on for ever: the kernel
 * hangs for good, in any front-end. A send timeout of 0 lets zeromq take every message at once, and without a
 * high-water mark it drops none.
 */
import { createRequire } from "node:module";
import { join } from "node:path";
import { Worker } from "node:worker_threads";
import { endWithParent } from "./kernelEnvironment";
import { type Converter, repairSpelling } from "./cellSpelling";

/** The part of a zeromq socket that is repaired here. */
interface SendingSocket {
  sendTimeout: number;
  sendHighWaterMark: number;
  bind(address: string): Promise<void>;
}

function repairSending(socketClass: { prototype: SendingSocket }): void {
  const { bind } = socketClass.prototype;
  // Defined, not assigned: the method that a socket inherits is read-only.
  Object.defineProperty(socketClass.prototype, "bind", {
    value: function (this: SendingSocket, address: string): Promise<void> {
      this.sendTimeout = 0;
      this.sendHighWaterMark = 0;
      return bind.call(this, address);
    },
  });
}

function startKernel(): void {
  const main = require.resolve("tslab/dist/main.js");
  // The very copy of zeromq that the kernel loads, wherever it is installed.
  const { Publisher, Router } = createRequire(main)("zeromq");
  repairSending(Publisher);
  repairSending(Router);
  const converters: { createConverter: (options: unknown) => Converter } = require("tslab/dist/converter.js");
  const { createConverter } = converters;
  const compiler = createRequire(main)("@tslab/typescript-for-tslab");
  converters.createConverter = (options) => repairSpelling(compiler, createConverter(options));
  if (process.env[endWithParent] !== undefined) {
    delete process.env[endWithParent];
    new Worker(join(__dirname, "parentWatch.js")).unref();
  }
  require(main).main();
}

startKernel();
