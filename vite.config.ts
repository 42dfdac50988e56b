import react from '@vitejs/plugin-react';
import type { Plugin } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';

/**
 * Content security policy of the page, written into the built index.html so that it holds on any server. Nothing may
 * be asked of another origin, no script but the built ones runs, no form is sent, and `eval` is refused. React sets
 * styles through the object model, which needs no 'unsafe-inline'.
 */
const PAGE_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "media-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ');

/**
 * The policy to send as a header with every file; a worker is held by the header of its own script, never by the
 * page's. OpenCV's bindings are made with `new Function` and so need 'unsafe-eval' there; tfjs needs
 * 'wasm-unsafe-eval'. The page stays under both policies, and so without `eval`.
 */
const SERVED_POLICY = [
  "default-src 'self'",
  "script-src 'self' 'unsafe-eval' 'wasm-unsafe-eval'",
  "img-src 'self' blob: data:",
  "media-src 'self' blob:",
  "connect-src 'self'",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

const SERVED_HEADERS = {
  'Content-Security-Policy': SERVED_POLICY,
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
  'Permissions-Policy': 'camera=(self), microphone=(), geolocation=()',
};

const writePolicy: Plugin = {
  name: 'write-content-security-policy',
  // The server of `npm start` puts scripts and styles into the page, which the policy refuses.
  apply: 'build',
  transformIndexHtml: () => [
    { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: PAGE_POLICY }, injectTo: 'head-prepend' },
  ],
};

export default defineConfig({
  base: './',
  plugins: [
    react(),
    writePolicy,
    VitePWA({
      // A newer version waits until it is asked for; src/app/services/offline registers and asks.
      registerType: 'prompt',
      injectRegister: null,
      includeManifestIcons: false,
      manifest: {
        name: 'Hueproof',
        short_name: 'Hueproof',
        description: 'From a photo of conductors to a phase map that the meter has proved or refuted.',
        lang: 'en',
        display: 'standalone',
        background_color: '#0a0b0d',
        theme_color: '#0a0b0d',
        categories: ['utilities', 'productivity'],
        icons: [
          { src: 'icons/icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: 'icons/icon-512.png', sizes: '512x512', type: 'image/png' },
          { src: 'icons/maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
        ],
      },
      workbox: {
        // All that the built page can ask for, the 8.5 MB of OpenCV included.
        globPatterns: ['**/*.{html,js,css,wasm,json,bin,jpg,png,webp,svg,woff2}'],
        maximumFileSizeToCacheInBytes: 12 * 2 ** 20,
        // Routes lie behind the hash, so that there is one page; whatever follows a `?` asks for that page too.
        navigateFallback: null,
        ignoreURLParametersMatching: [/./],
        clientsClaim: true,
        inlineWorkboxRuntime: true,
        sourcemap: false,
      },
    }),
  ],
  worker: { format: 'es' },
  build: { target: 'es2022', chunkSizeWarningLimit: 9000 },
  server: { host: '127.0.0.1', port: 5173 },
  preview: { host: '127.0.0.1', port: 4173, headers: SERVED_HEADERS },
  test: {
    include: ['test/**/*.test.ts', 'test/**/*.test.tsx'],
    exclude: ['test/browser/**'],
    // opencv-ts has a `then`; with interop on, importing it never resolves.
    deps: { interopDefault: false },
    testTimeout: 30_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
    // Files share a process: fresh ones took as long as the tests themselves. What a test changes outside itself it puts back.
    isolate: false,
    // `npm run cover`: the pure rooms, whose branches no screen test can be counted on to reach.
    coverage: {
      include: ['src/{flow,color,identify,verify}/**/*.ts'],
      reporter: ['text-summary', 'json-summary', 'text'],
    },
  },
});
