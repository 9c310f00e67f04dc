/** The sockets to a kernel: requests out on one, replies back on it, outputs in on the other. */
import { randomUUID } from "node:crypto";
import { Dealer, Subscriber } from "zeromq";
import { endpoint, type Connection } from "./connection";
import type { JsonObject } from "./json";
import { decode, encode, newHeader, type Message } from "./wire";

interface OpenRequest {
  reply: Message | undefined;
  idle: boolean;
  readonly answered: (reply: Message) => void;
  readonly refused: (reason: Error) => void;
  readonly onOutput: (message: Message) => void;
}

export class Channels {
  private readonly session = randomUUID();
  // A kernel's publisher drops what a slow reader leaves; without a limit our side never is the cause.
  private readonly iopub = new Subscriber({ receiveHighWaterMark: 0, linger: 0, reconnectInterval: 10 });
  private readonly shell = new Dealer({ linger: 0, reconnectInterval: 10 });
  private readonly requests = new Map<string, OpenRequest>();
  private closed: Error | undefined;

  constructor(private readonly connection: Connection) {
    this.iopub.connect(endpoint(connection, connection.iopub_port));
    this.iopub.subscribe();
    this.shell.connect(endpoint(connection, connection.shell_port));
    void this.listen(this.shell);
    void this.listen(this.iopub);
  }

  /**
   * Sends a request.
   *
   * Returns its reply when the kernel has both replied and said that it is idle again: the two travel on
   * different sockets, and the outputs come before the idle message only. `onOutput` goes on receiving what
   * the kernel publishes for this request later. Rejects with the reason when the channels are closed.
   */
  request(
    type: string,
    content: JsonObject,
    onOutput: (message: Message) => void = () => {},
  ): Promise<Message> {
    const header = newHeader(type, this.session);
    return new Promise((answered, refused) => {
      if (this.closed !== undefined) {
        refused(this.closed);
        return;
      }
      this.requests.set(header.msg_id, { reply: undefined, idle: false, answered, refused, onOutput });
      this.shell.send(encode(this.connection.key, header, content)).catch(refused);
    });
  }

  /** Closes the sockets; every request that still waits is rejected with the reason. */
  close(reason: Error): void {
    if (this.closed !== undefined) return;
    this.closed = reason;
    this.iopub.close();
    this.shell.close();
    for (const request of this.requests.values()) request.refused(reason);
  }

  private async listen(socket: AsyncIterable<Buffer[]>): Promise<void> {
    try {
      for await (const frames of socket) this.receive(decode(this.connection.key, frames));
    } catch (error) {
      // A message that cannot be read leaves its request without an answer: nothing after it can be trusted.
      this.close(error instanceof Error ? error : new Error(String(error)));
    }
  }

  private receive(message: Message): void {
    const request = this.requests.get(message.parentId);
    if (request === undefined) return;
    const type = message.header.msg_type;
    if (type.endsWith("_reply")) request.reply = message;
    else if (type === "status") request.idle ||= message.content["execution_state"] === "idle";
    else request.onOutput(message);
    if (request.reply !== undefined && request.idle) request.answered(request.reply);
  }
}
