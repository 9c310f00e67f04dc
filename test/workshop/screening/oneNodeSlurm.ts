import { execFileSync, spawnSync } from "node:child_process";
import { randomBytes } from "node:crypto";
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { hostname, tmpdir, userInfo } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";

const programs = ["/usr/sbin/munged", "/usr/sbin/slurmctld", "/usr/sbin/slurmd", "/usr/bin/sbatch"];

/** Debian's packages slurm-wlm and munge are there, and the daemons may start: a node needs root. */
export const hasSlurm = programs.every((program) => existsSync(program)) && userInfo().uid === 0;

/** A Slurm of one node, with everything of its own in one folder. */
export interface OneNodeSlurm {
  readonly env: NodeJS.ProcessEnv;
  /** Waits until no job is left in the queue. */
  idle(): Promise<void>;
  stop(): Promise<void>;
}

/** Starts the three daemons on ports of their own; none of the machine's own is touched. */
export async function startSlurm(cpus: number): Promise<OneNodeSlurm> {
  const folder = mkdtempSync(join(tmpdir(), "slurm-"));
  const inside = (name: string): string => join(folder, name);
  for (const name of ["state", "spool"]) mkdirSync(inside(name));
  // The daemon of the credentials refuses a folder that others could write to.
  chmodSync(folder, 0o755);
  writeFileSync(inside("munge.key"), randomBytes(128), { mode: 0o400 });
  const node = hostname().split(".")[0];
  const port = 20_000 + (process.pid % 20_000);
  const settings = {
    ClusterName: "test",
    SlurmctldHost: `${node}(127.0.0.1)`,
    SlurmctldPort: port,
    SlurmdPort: port + 1,
    SlurmUser: userInfo().username,
    SlurmdUser: userInfo().username,
    AuthType: "auth/munge",
    AuthInfo: `socket=${inside("munge.socket")}`,
    CredType: "cred/munge",
    StateSaveLocation: inside("state"),
    SlurmdSpoolDir: inside("spool"),
    SlurmctldPidFile: inside("slurmctld.pid"),
    SlurmdPidFile: inside("slurmd.pid"),
    SlurmctldLogFile: inside("slurmctld.log"),
    SlurmdLogFile: inside("slurmd.log"),
    ProctrackType: "proctrack/pgid",
    TaskPlugin: "task/none",
    MpiDefault: "none",
    SelectType: "select/cons_tres",
    SelectTypeParameters: "CR_Core",
    SchedulerParameters: "sched_interval=1,bf_interval=1,batch_sched_delay=0",
    ReturnToService: 2,
  };
  writeFileSync(
    inside("slurm.conf"),
    [
      ...Object.entries(settings).map(([name, value]) => `${name}=${value}`),
      `NodeName=${node} NodeAddr=127.0.0.1 CPUs=${cpus} State=UNKNOWN`,
      `PartitionName=all Nodes=${node} Default=YES State=UP`,
      "",
    ].join("\n"),
  );
  const env = { ...process.env, SLURM_CONF: inside("slurm.conf") };
  const start = (program: string, ...words: string[]): void => {
    execFileSync(program, words, { env, stdio: "pipe" });
  };
  const stop = async (): Promise<void> => {
    for (const name of ["slurmd", "slurmctld", "munged"]) await end(inside(`${name}.pid`));
    rmSync(folder, { recursive: true, force: true });
  };
  try {
    start(
      "/usr/sbin/munged",
      `--key-file=${inside("munge.key")}`,
      `--socket=${inside("munge.socket")}`,
      `--pid-file=${inside("munged.pid")}`,
      `--log-file=${inside("munged.log")}`,
      `--seed-file=${inside("munged.seed")}`,
    );
    start("/usr/sbin/slurmctld", "-f", inside("slurm.conf"));
    start("/usr/sbin/slurmd", "-f", inside("slurm.conf"));
    await until(
      () => /idle/.test(spawnSync("sinfo", ["-h", "-o", "%T"], { env, encoding: "utf8" }).stdout),
      "an idle node",
    );
  } catch (error) {
    const logs = ["munged", "slurmctld", "slurmd"].map((name) =>
      readIfThere(inside(`${name}.log`)).slice(-2000),
    );
    await stop();
    throw new Error(`Slurm did not start.\n${logs.join("\n")}`, { cause: error });
  }
  return {
    env,
    idle: () =>
      until(
        () => spawnSync("squeue", ["-h"], { env, encoding: "utf8" }).stdout.trim() === "",
        "an empty queue",
      ),
    stop,
  };
}

const readIfThere = (path: string): string => (existsSync(path) ? readFileSync(path, "utf8") : "");

async function until(holds: () => boolean, what: string): Promise<void> {
  const last = Date.now() + 90_000;
  while (!holds()) {
    if (Date.now() > last) throw new Error(`${what} did not come within 90 s.`);
    await pause(200);
  }
}

/** Ends the daemon whose number stands in the file, and waits until it has gone. */
async function end(pidFile: string): Promise<void> {
  const pid = Number(readIfThere(pidFile).trim());
  if (!(pid > 0)) return;
  const runs = (): boolean => {
    try {
      process.kill(pid, 0);
      return true;
    } catch {
      return false; // no such process
    }
  };
  if (!runs()) return;
  process.kill(pid, "SIGTERM");
  await until(() => !runs(), `the end of process ${pid}`);
}
