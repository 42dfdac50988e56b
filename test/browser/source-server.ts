import { createServer } from 'vite';

export interface SourceServer {
  /** Address of a file of the project. */
  readonly url: (path: string) => string;
  readonly close: () => Promise<void>;
}

/** A server of the sources one by one, without the app's configuration, on any free port. Close it after the spec. */
export async function serveSources(): Promise<SourceServer> {
  const server = await createServer({
    configFile: false,
    // One for each of two tests that run side by side: they would write it at once.
    cacheDir: `node_modules/.vite-source-specs-${process.env.TEST_PARALLEL_INDEX ?? 0}`,
    // All that the harnesses import: one found later is made while their page waits, and the page is not loaded anew.
    optimizeDeps: { include: ['exifr', 'idb', 'papaparse', 'valibot'], entries: [] },
    server: { host: '127.0.0.1', port: 5191, hmr: false },
    logLevel: 'error',
  });
  await server.listen();
  const base = server.resolvedUrls?.local[0];
  if (!base) throw new Error('the source server has no address');
  return { url: (path) => new URL(path, base).href, close: () => server.close() };
}
