import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';

/** An origin of its own that hands on the built page, can be shut, and can pretend that a newer version was put up. */
export interface Door {
  readonly url: string;
  /** From now on `sw.js` differs by a comment, which is a newer version to every browser. */
  readonly putUpNewer: () => void;
  /** From now on the page itself is another one to the service worker too, which it has to fetch. */
  readonly putUpNewerPage: () => void;
  /**
   * Lets what the service worker asks for by such a path wait, once it has begun to come.
   * @returns resolves when that has been asked for
   */
  readonly hold: (path: RegExp) => Promise<void>;
  /** Ends every held answer in its middle, as a network does that breaks off, and holds no more. */
  readonly breakOff: () => void;
  readonly shut: () => Promise<void>;
}

/** @param behind URL of the server of the built page. */
export async function openDoor(behind: string): Promise<Door> {
  let suffix = '';
  let newerPage = false;
  let held: { readonly path: RegExp; readonly asked: () => void } | undefined;
  const waiting = new Set<ServerResponse>();

  const script = (body: Buffer): Buffer => {
    const text = body.toString('utf8') + suffix;
    if (!newerPage) return Buffer.from(text);
    // The list of what is stored names the page with the hash of its content.
    const changed = text.replace(/(url:"index\.html",revision:")[0-9a-f]{32}/, '$1newer');
    if (changed === text) throw new Error('the list of stored files has another form');
    return Buffer.from(changed);
  };

  async function pass(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const path = request.url ?? '/';
    const answer = await fetch(new URL(path, behind));
    const body = Buffer.from(await answer.arrayBuffer());
    response.writeHead(answer.status, { 'content-type': answer.headers.get('content-type') ?? 'text/plain' });
    if (held?.path.test(path) && request.headers.referer?.endsWith('/sw.js')) {
      response.write(body.subarray(0, body.length / 2));
      waiting.add(response);
      held.asked();
      return;
    }
    response.end(path.endsWith('/sw.js') ? script(body) : body);
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
    putUpNewerPage: () => {
      newerPage = true;
    },
    hold: (path) =>
      new Promise((asked) => {
        held = { path, asked };
      }),
    breakOff: () => {
      held = undefined;
      for (const response of waiting) response.destroy();
      waiting.clear();
    },
    shut: async () => {
      if (!server.listening) return;
      server.closeAllConnections();
      await new Promise<void>((resolve) => server.close(() => resolve()));
    },
  };
}
