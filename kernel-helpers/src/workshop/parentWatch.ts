/**
 * A thread of the kernel that ends it together with its parent.
 *
 * The parent holds the other end of the kernel's standard input. When the parent dies in any way, even by
 * SIGKILL, that pipe closes. A thread of its own notices it while a cell in an endless loop blocks the others.
 */
import { Socket } from "node:net";

function endKernel(): void {
  try {
    // The group: the kernel and everything that its cells started.
    process.kill(-process.pid, "SIGKILL");
  } catch {
    // The kernel leads no group, or the system has none.
    process.kill(process.pid, "SIGKILL");
  }
}

new Socket({ fd: 0 }).on("error", endKernel).on("close", endKernel).resume();
