import react from '@vitejs/plugin-react';
import { VitePWA } from 'vite-plugin-pwa';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  base: './',
  plugins: [
    react(),
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
  preview: { host: '127.0.0.1', port: 4173 },
  test: {
    include: ['test/**/*.test.ts', 'test/**/*.test.tsx'],
    exclude: ['test/browser/**'],
    // opencv-ts has a `then`; with interop on, importing it never resolves.
    deps: { interopDefault: false },
    testTimeout: 30_000,
    hookTimeout: 60_000,
    maxWorkers: 2,
  },
});
