/** A running TypeScript kernel: code in, outputs in the form of a notebook file out. */
import { Channels } from "./channels";
import { newConnection } from "./connection";
import { isJsonObject } from "./json";
import { KernelProcess } from "./kernelProcess";
import { OutputCollector, type DisplayOutput, type Output } from "./outputs";
import { timer } from "./timer";

/** The kernel ended while something waited for its answer. */
export class KernelEnded extends Error {}

export interface CellRun {
  /**
   * The kernel's verdict: "ok", "error", or "abort" when it skipped the code without running it; "ended" when
   * the kernel ended before it gave one.
   */
  readonly status: string;
  /** How the kernel ended, when it did. */
  readonly ending: string | undefined;
  readonly executionCount: number | null;
  /** Live: what the code's unawaited work prints later is added here. */
  readonly outputs: readonly Output[];
  readonly seconds: number;
  /** Why the code was interrupted, if it was: it ran too long, or printed too much. */
  readonly interrupted: "time" | "output" | undefined;
}

export interface Completion {
  /** The range of the code that a match replaces, in characters. */
  readonly start: number;
  readonly end: number;
  readonly matches: readonly string[];
}

const readyWithinSeconds = 60;
const interruptedWithinSeconds = 3;
const attempts = 3;

export class Kernel {
  private readonly displays = new Map<string, DisplayOutput>();

  private constructor(
    private readonly process: KernelProcess,
    private readonly channels: Channels,
    /** Seconds from the start until the kernel answered. */
    readonly secondsToReady: number,
  ) {}

  /**
   * Starts a kernel whose cells run in `workingFolder`.
   *
   * Returns it when it is ready, after about 2 s. Throws `KernelEnded` if it ends before that, or does not
   * answer within a minute.
   */
  static async start(workingFolder: string): Promise<Kernel> {
    for (let attempt = 1; ; attempt++) {
      const started = performance.now();
      const connection = await newConnection();
      const process = new KernelProcess(connection, workingFolder);
      const channels = new Channels(connection);
      void process.ended.then((how) => channels.close(new KernelEnded(how)));
      try {
        await untilReady(channels);
        process.removeFolder();
        return new Kernel(process, channels, (performance.now() - started) / 1000);
      } catch (error) {
        await process.kill();
        // Another program may take one of the free ports before the kernel does.
        if (attempt === attempts || !/address already in use/i.test(process.lastWords)) throw error;
      }
    }
  }

  get processId(): number {
    return this.process.id;
  }

  /**
   * Runs code as one cell.
   *
   * Returns its verdict and outputs. Code that runs longer than `timeoutSeconds`, or prints without end, is
   * interrupted; if it does not stop then, its kernel is ended.
   */
  async execute(code: string, timeoutSeconds: number): Promise<CellRun> {
    const started = performance.now();
    const collector = new OutputCollector(this.displays);
    let interrupted: CellRun["interrupted"];
    const interrupt = (reason: "time" | "output"): void => {
      if (interrupted !== undefined) return;
      interrupted = reason;
      this.process.interrupt();
      // A loop that follows an await does not hear the interrupt.
      patience.start(interruptedWithinSeconds, () => void this.process.kill());
    };
    const patience = timer();
    const limit = timer();
    limit.start(timeoutSeconds, () => interrupt("time"));
    const content = { code, silent: false, store_history: true, user_expressions: {}, allow_stdin: false };
    const verdict = await this.channels
      .request("execute_request", content, (message) => {
        collector.add(message.header.msg_type, message.content);
        if (collector.overflowed) interrupt("output");
      })
      .then(
        (reply) => ({
          status: String(reply.content["status"]),
          count: reply.content["execution_count"],
          ending: undefined,
        }),
        (error: unknown) => {
          if (!(error instanceof KernelEnded)) throw error;
          return { status: "ended", count: null, ending: error.message };
        },
      )
      .finally(() => {
        limit.stop();
        patience.stop();
      });
    return {
      status: verdict.status,
      ending: verdict.ending,
      executionCount: typeof verdict.count === "number" ? verdict.count : null,
      outputs: collector.outputs,
      seconds: (performance.now() - started) / 1000,
      interrupted,
    };
  }

  /** Returns the documentation of the name at `cursor` in `code` (what Shift-Tab shows), or undefined. */
  async inspect(code: string, cursor: number): Promise<string | undefined> {
    const reply = await this.channels.request("inspect_request", {
      code,
      cursor_pos: cursor,
      detail_level: 0,
    });
    const data = reply.content["data"];
    const text = isJsonObject(data) ? data["text/plain"] : undefined;
    return typeof text === "string" ? text : undefined;
  }

  /** Returns what can complete `code` at `cursor` (what Tab offers). */
  async complete(code: string, cursor: number): Promise<Completion> {
    const reply = await this.channels.request("complete_request", { code, cursor_pos: cursor });
    const { cursor_start: start, cursor_end: end, matches } = reply.content;
    return {
      start: Number(start),
      end: Number(end),
      matches: Array.isArray(matches) ? matches.map(String) : [],
    };
  }

  /** Asks the running cell to stop. */
  interrupt(): void {
    this.process.interrupt();
  }

  /** Ends the kernel and everything that its cells started. Returns when the process is gone. */
  async shutdown(): Promise<void> {
    this.channels.close(new KernelEnded("The kernel was shut down."));
    await this.process.kill();
  }
}

/** Waits until the kernel answers and publishes to us: a publisher serves only those who have subscribed. */
async function untilReady(channels: Channels): Promise<void> {
  const late = timer();
  const again = timer();
  try {
    await new Promise<void>((resolve, reject) => {
      const ask = (): void => {
        channels.request("kernel_info_request", {}).then(() => resolve(), reject);
        again.start(0.1, ask);
      };
      late.start(readyWithinSeconds, () => {
        reject(new KernelEnded(`The kernel did not answer within ${readyWithinSeconds} s.`));
      });
      ask();
    });
  } finally {
    late.stop();
    again.stop();
  }
}
