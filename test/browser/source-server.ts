import { createServer, type ViteDevServer } from 'vite';

/** Its own port: these specs import sources one by one and run beside the built app. */
const PORT = 5191;

/** A server of the sources, without the app's configuration. Close it after the spec. */
export async function serveSources(): Promise<ViteDevServer> {
  const server = await createServer({
    configFile: false,
    cacheDir: 'node_modules/.vite-source-specs',
    optimizeDeps: { include: ['exifr', 'idb', 'valibot'], entries: [] },
    server: { host: '127.0.0.1', port: PORT, strictPort: true, hmr: false },
    logLevel: 'error',
  });
  return server.listen();
}

export const sourceUrl = (path: string): string => `http://127.0.0.1:${PORT}/${path}`;
