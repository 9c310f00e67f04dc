/** The kernel's operating-system process: started for one connection, and never left behind. */
import { spawn, type ChildProcess } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Connection } from "./connection";
import { kernelEnvironment } from "./kernelEnvironment";

// Compiled: the kernel runs outside the tests' transpiler.
const kernelProgram = join(__dirname, "..", "..", "dist", "workshop", "kernelProgram.js");

export class KernelProcess {
  /** Settles when the process has ended, with a sentence that says how. */
  readonly ended: Promise<string>;
  private readonly folder: string;
  private readonly child: ChildProcess;
  private complaints = "";

  /** Starts the kernel in `workingFolder`, listening where `connection` says. */
  constructor(connection: Connection, workingFolder: string) {
    this.folder = mkdtempSync(join(tmpdir(), "notebook-kernel-"));
    const connectionFile = join(this.folder, "connection.json");
    // The key lets anyone on the machine run code as this user: nobody else may read it.
    writeFileSync(connectionFile, JSON.stringify(connection), { mode: 0o600 });
    this.child = spawn(process.execPath, [kernelProgram, "kernel", `--config-path=${connectionFile}`], {
      cwd: workingFolder,
      env: kernelEnvironment(),
      stdio: ["pipe", "pipe", "pipe"],
      // A group of its own: Ctrl-C in the terminal reaches us alone, and one signal ends all it started.
      detached: true,
    });
    for (const pipe of [this.child.stdout, this.child.stderr]) {
      pipe?.setEncoding("utf8").on("data", (text: string) => {
        this.complaints = (this.complaints + text).slice(-4000);
      });
    }
    this.ended = new Promise((resolve) => {
      this.child.once("error", (error) => resolve(`The kernel could not be started: ${error.message}`));
      this.child.once("close", (code, signal) => {
        this.removeFolder();
        const how = signal === null ? `ended with exit code ${code}` : `was ended by ${signal}`;
        resolve(`The kernel ${how}${this.lastWords === "" ? "." : `; it said: ${this.lastWords}`}`);
      });
    });
  }

  get id(): number {
    return this.child.pid ?? 0;
  }

  /** What the process itself printed last (not a cell: a cell's text comes as messages). */
  get lastWords(): string {
    return this.complaints.trim();
  }

  /** Deletes the connection file; a kernel that is ready has read it. */
  removeFolder(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }

  interrupt(): void {
    this.child.kill("SIGINT");
  }

  /** Ends the kernel and everything it started, at once. */
  async kill(): Promise<void> {
    this.killGroup();
    await this.ended;
  }

  private killGroup(): void {
    if (this.child.pid === undefined) return;
    try {
      process.kill(-this.child.pid, "SIGKILL");
    } catch {
      // No such group: it has ended already, or the system has no process groups and only the child is left.
      this.child.kill("SIGKILL");
    }
  }
}
