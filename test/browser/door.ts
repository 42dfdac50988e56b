import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** An origin of its own that hands on the built page, can be shut, and can pretend that a newer version was put up. */
export interface Door {
  readonly url: string;
  /** From now on `sw.js` differs by a comment, which is a newer version to every browser. */
  readonly putUpNewer: () => void;
  readonly shut: () => Promise<void>;
}

/** @param behind URL of the server of the built page. */
export async function openDoor(behind: string): Promise<Door> {
  let suffix = '';
  async function pass(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const path = request.url ?? '/';
    const answer = await fetch(new URL(path, behind));
    const body = Buffer.from(await answer.arrayBuffer());
    response.writeHead(answer.status, { 'content-type': answer.headers.get('content-type') ?? 'text/plain' });
    response.end(path.endsWith('/sw.js') ? Buffer.concat([body, Buffer.from(suffix)]) : body);
  }
  const server = createServer((request, response) => {
    pass(request, response).catch(() => response.destroy());
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    putUpNewer: () => {
      suffix = '\n// newer';
    },
    shut: async () => {
      if (!server.listening) return;
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
