import { createServer, type Server } from 'node:http';
import { connect, createServer as createRelay, type AddressInfo, type Socket } from 'node:net';
import { filesOf } from '../../../../src/serving/files.mjs';

/** An address of the pages, and how to end it. */
export interface Served {
  address: string;
  close(): Promise<void>;
}

/** Serves a built folder, and the bench's sounds under /sound/ by their number. */
export async function servePages(folder: string, sounds: Float32Array[]): Promise<Served> {
  const files = filesOf(folder);
  const server = createServer((request, response) => {
    const [, number] = /^\/sound\/(\d+)$/.exec(request.url ?? '') ?? [];
    const sound = number === undefined ? undefined : sounds[Number(number)];
    if (sound === undefined) return files(request, response);
    response.writeHead(200, { 'Content-Type': 'application/octet-stream' });
    response.end(Buffer.from(sound.buffer, sound.byteOffset, sound.byteLength));
  });
  const port = await listening(server);
  return { address: `http://localhost:${port}/`, close: () => closed(server) };
}

const TICK_MILLISECONDS = 10;
const PACKET_BYTES = 1460;
const READ_AHEAD_BYTES = 2 ** 18;

/** What one connection still has to let through. */
interface Queue {
  pieces: Buffer[];
  bytes: number;
  to: Socket;
  from: Socket;
}

/** The same address behind a line that lets so many bits a second through, all connections together. */
export async function slowed({ address }: Served, bitsASecond: number): Promise<Served> {
  const bytesATick = (bitsASecond / 8) * (TICK_MILLISECONDS / 1000);
  const queues = new Set<Queue>();
  let began = performance.now();
  let sent = 0;
  const send = (queue: Queue) => {
    const [first] = queue.pieces;
    if (first === undefined) return false;
    const packet = first.subarray(0, PACKET_BYTES);
    queue.to.write(packet);
    if (packet.length === first.length) queue.pieces.shift();
    else queue.pieces[0] = first.subarray(packet.length);
    queue.bytes -= packet.length;
    sent += packet.length;
    if (queue.bytes < READ_AHEAD_BYTES) queue.from.resume();
    return true;
  };
  const timer = setInterval(() => {
    if ([...queues].every(({ bytes }) => bytes === 0)) {
      // A line that was idle has saved nothing up.
      began = performance.now();
      sent = 0;
    }
    const due = ((performance.now() - began) / TICK_MILLISECONDS) * bytesATick;
    // In turn, so that no connection holds up another.
    for (let moved = true; moved && sent < due;) {
      moved = false;
      for (const queue of queues) moved = (sent < due && send(queue)) || moved;
    }
    for (const queue of queues)
      if (queue.bytes === 0 && queue.from.readableEnded) {
        queue.to.end();
        queues.delete(queue);
      }
  }, TICK_MILLISECONDS);
  const sockets = new Set<Socket>();
  const relay = createRelay((page) => {
    const server = connect(Number(new URL(address).port), '127.0.0.1');
    const queue: Queue = { pieces: [], bytes: 0, to: page, from: server };
    queues.add(queue);
    for (const socket of [page, server]) {
      sockets.add(socket);
      socket.setNoDelay(true);
      socket.on('error', () => socket.destroy());
      socket.on('close', () => sockets.delete(socket));
    }
    page.on('close', () => {
      queues.delete(queue);
      server.destroy();
    });
    page.pipe(server);
    server.on('data', (piece: Buffer) => {
      queue.pieces.push(piece);
      queue.bytes += piece.length;
      if (queue.bytes > READ_AHEAD_BYTES) server.pause();
    });
  });
  const port = await listening(relay);
  return {
    address: `http://localhost:${port}/`,
    close: () => {
      clearInterval(timer);
      for (const socket of sockets) socket.destroy();
      return closed(relay);
    },
  };
}

const listening = (server: Server | ReturnType<typeof createRelay>) =>
  new Promise<number>((resolve) =>
    server.listen(0, '127.0.0.1', () => resolve((server.address() as AddressInfo).port)),
  );

const closed = (server: Server | ReturnType<typeof createRelay>) =>
  new Promise<void>((resolve) => {
    server.close(() => resolve());
    if ('closeAllConnections' in server) server.closeAllConnections();
  });
