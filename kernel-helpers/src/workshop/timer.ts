/** A timer that can be stopped and started again; only its last start counts. */
export interface Timer {
  start(seconds: number, action: () => void): void;
  stop(): void;
}

/** Returns a timer that is not running. */
export function timer(): Timer {
  let running: NodeJS.Timeout | undefined;
  return {
    start(seconds, action) {
      clearTimeout(running);
      running = setTimeout(action, seconds * 1000);
    },
    stop() {
      clearTimeout(running);
    },
  };
}
