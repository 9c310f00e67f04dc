/** The environment variables of a kernel. */

/** Set for a kernel that must end when its parent does, even if the parent is killed. */
export const endWithParent = "NOTEBOOK_KERNEL_ENDS_WITH_PARENT";

/** Returns an environment in which a cell prints the same text on every machine. */
export function kernelEnvironment(): NodeJS.ProcessEnv {
  const environment: NodeJS.ProcessEnv = {
    ...process.env,
    NO_COLOR: "1",
    TZ: "UTC",
    LC_ALL: "en_US.UTF-8",
    [endWithParent]: "1",
  };
  delete environment["FORCE_COLOR"];
  delete environment["NODE_ENV"];
  return environment;
}
