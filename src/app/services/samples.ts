import type { SampleScene } from './types';

interface ManifestScene {
  readonly id: string;
  readonly file: string;
  readonly title: string;
  readonly description: string;
}

const MANIFESTS = import.meta.glob<{ readonly scenes: readonly ManifestScene[] }>('/sample-images/manifest.json', {
  eager: true,
  import: 'default',
});
const PICTURES = import.meta.glob<string>('/sample-images/*.{jpg,png,webp}', {
  eager: true,
  query: '?url',
  import: 'default',
});

const SMALL = import.meta.glob<string>('/sample-images/small/*.{jpg,png,webp}', {
  eager: true,
  query: '?url',
  import: 'default',
});

/** The invented scenes that come with the tool. */
export function sampleScenes(): readonly SampleScene[] {
  const scenes = Object.values(MANIFESTS).flatMap((m) => m.scenes);
  return scenes.flatMap(({ id, file, title, description }) => {
    const url = PICTURES[`/sample-images/${file}`];
    const small = SMALL[`/sample-images/small/${file}`] ?? url;
    return url && small ? [{ id, file, title, description, url, small }] : [];
  });
}
