import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';

/** Stands between the browser and every address but the loopback one: notes what was asked for, and gives nothing. */
export interface Outside {
  readonly server: string;
  readonly asked: readonly string[];
  readonly close: () => void;
}

/**
 * Asked by Chromium itself, not by a page, wherever a form has a text box (even with the network of the page switched
 * off). Switching it off needs --disable-features, which would undo Playwright's own list of that name.
 */
const BROWSERS_OWN = 'content-autofill.googleapis.com:443';

export async function openOutside(): Promise<Outside> {
  const asked: string[] = [];
  const server = createServer((request, response) => {
    asked.push(request.url ?? '');
    response.writeHead(204).end();
  });
  server.on('connect', (request, socket) => {
    if (request.url !== BROWSERS_OWN) asked.push(request.url ?? '');
    socket.end('HTTP/1.1 502 Bad Gateway\r\n\r\n');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    server: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    asked,
    close: () => {
      server.closeAllConnections();
      server.close();
    },
  };
}
