/**
 * The program that a front-end starts as the TypeScript kernel:
 * `node kernelProgram.js kernel --config-path=FILE`.
 *
 * It is tslab, repaired. How a cell sees the variables of earlier ones is mended in cellSpelling.ts; what a cell prints
 * by itself, in cellPrints.ts; how outputs are sent, here. tslab publishes them without waiting for each to be taken; from about 500 messages on, zeromq refuses
 * the second of two such messages, tslab prints the refusal, which is one more message, and so on for ever: the kernel
 * hangs for good, in any front-end. A send timeout of 0 lets zeromq take every message at once, and without a
 * high-water mark it drops none. What is sent while a socket is still being bound waits for it.
 */
import { createRequire } from "node:module";
import { join } from "node:path";
import { Worker } from "node:worker_threads";
import { tellError, tellValue, wholeErrors } from "./cellPrints";
import { type Converter, repairSpelling } from "./cellSpelling";
import { endWithParent } from "./kernelEnvironment";

/** The part of a zeromq socket that is repaired here. */
interface SendingSocket {
  sendTimeout: number;
  sendHighWaterMark: number;
  bind(address: string): Promise<void>;
  send(message: unknown): Promise<void>;
}

function repairSending(socketClass: { prototype: SendingSocket }): void {
  const { bind, send } = socketClass.prototype;
  const binding = new WeakMap<SendingSocket, Promise<void>>();
  // Defined, not assigned: the method that a socket inherits is read-only.
  Object.defineProperty(socketClass.prototype, "bind", {
    value: function (this: SendingSocket, address: string): Promise<void> {
      this.sendTimeout = 0;
      this.sendHighWaterMark = 0;
      const bound = bind.call(this, address).finally(() => binding.delete(this));
      binding.set(this, bound);
      return bound;
    },
  });
  // A request may come on one socket while another is still being bound, which refuses to send until then.
  Object.defineProperty(socketClass.prototype, "send", {
    value: function (this: SendingSocket, message: unknown): Promise<void> {
      const bound = binding.get(this);
      return bound === undefined ? send.call(this, message) : bound.then(() => send.call(this, message));
    },
  });
}

/** Where the kernel's executor prints a cell's value and its error. */
interface CellConsole {
  log(value: unknown): void;
  /** An error alone; or a format and its parts, for what the compiler refused. */
  error(...words: readonly unknown[]): void;
}

/** The part of tslab's executor that is repaired here. */
interface Executors {
  createExecutor(root: string, converters: unknown, print: CellConsole): unknown;
}

/** Lets a cell print its value and its error in words. `compiled` gives the cell that ran last. */
function repairPrints(executors: Executors, compiled: () => string): void {
  const { createExecutor } = executors;
  executors.createExecutor = (root, converters, print) =>
    createExecutor(root, converters, {
      log: (value) => print.log(tellValue(value)),
      error: (...words) => print.error(...(words.length === 1 ? [tellError(words[0], compiled())] : words)),
    });
}

/** Replaces how the kernel tells of errors in work that no cell awaited. */
function repairLateErrors(): void {
  for (const [event, title] of [
    ["uncaughtException", "UncaughtException"],
    ["unhandledRejection", "UnhandledPromiseRejection"],
  ] as const) {
    process.removeAllListeners(event);
    process.on(event, (reason: unknown) => console.error(`${title}:`, tellError(reason, "")));
  }
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
  let compiled = "";
  converters.createConverter = (options) => {
    const converter = repairSpelling(compiler, createConverter(options));
    const { convert } = converter;
    converter.convert = (previousDeclarations, source) => {
      const conversion = convert(previousDeclarations, source);
      compiled = conversion.output ?? "";
      return conversion;
    };
    return converter;
  };
  const whole = process.env[wholeErrors] !== undefined;
  if (!whole) repairPrints(require("tslab/dist/executor.js"), () => compiled);
  if (process.env[endWithParent] !== undefined) {
    delete process.env[endWithParent];
    new Worker(join(__dirname, "parentWatch.js")).unref();
  }
  require(main).main();
  if (!whole) repairLateErrors();
}

startKernel();
