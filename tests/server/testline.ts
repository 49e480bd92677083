/** A line that the test can cut, slow down or leave half open: TCP between a bench and its server. */
import { connect, createServer, type Server, type Socket } from 'node:net';

export class TestLine {
  port = 0;
  /** Bytes from the bench after which the line is cut; undefined: never. Counted over one connection. */
  cutAfter: number | undefined;
  /** Messages from the server after which it is cut. */
  cutAfterReplies: number | undefined;
  /** ms that every piece takes. */
  delay = 0;
  /** Whether what is sent vanishes, and nothing is ever said about it. */
  silent = false;
  readonly #pairs = new Set<readonly [Socket, Socket]>();
  #server!: Server;
  cuts = 0;

  #to = 0;

  static async to(port: number): Promise<TestLine> {
    const line = new TestLine();
    line.#to = port;
    line.#server = createServer((bench) => line.#join(bench, connect(line.#to, '127.0.0.1')));
    await new Promise<void>((done) => line.#server.listen(0, '127.0.0.1', done));
    line.port = (line.#server.address() as { port: number }).port;
    return line;
  }

  /** From now on to another server. */
  leadTo(port: number): void {
    this.#to = port;
    this.cut();
  }

  /** Every connection that stands is cut now. */
  cut(): void {
    for (const pair of this.#pairs) this.#end(pair);
  }

  close(): void {
    this.cut();
    this.#server.close();
  }

  #join(bench: Socket, server: Socket): void {
    const pair = [bench, server] as const;
    this.#pairs.add(pair);
    let sent = 0;
    let replies = 0;
    bench.on('data', (bytes) => {
      sent += bytes.length;
      if (this.cutAfter !== undefined && sent > this.cutAfter) {
        // What was sent up to there arrives.
        server.write(bytes.subarray(0, Math.max(0, bytes.length - (sent - this.cutAfter))));
        this.#end(pair);
      } else this.#pass(bytes, server);
    });
    server.on('data', (bytes) => {
      replies += 1;
      if (this.cutAfterReplies !== undefined && replies > this.cutAfterReplies) this.#end(pair);
      else this.#pass(bytes, bench);
    });
    for (const socket of pair) {
      socket.setNoDelay(true);
      socket.on('error', () => this.#end(pair));
      socket.on('close', () => this.#end(pair));
    }
  }

  #pass(bytes: Buffer, to: Socket): void {
    if (this.silent) return;
    if (this.delay === 0) to.write(bytes);
    else setTimeout(() => to.destroyed || to.write(bytes), this.delay);
  }

  #end(pair: readonly [Socket, Socket]): void {
    if (!this.#pairs.delete(pair)) return;
    this.cuts += 1;
    for (const socket of pair) socket.destroy();
  }
}
