import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';

type Place = readonly [number, number];

interface Scene {
  readonly file: string;
  readonly width: number;
  readonly height: number;
  readonly conductors: readonly { readonly color: string; readonly points: readonly Place[] }[];
}

const manifest = JSON.parse(readFileSync(join(import.meta.dirname, '../../sample-images/manifest.json'), 'utf8')) as {
  readonly scenes: readonly Scene[];
};
const scene = manifest.scenes.find((s) => s.file === 'gutter-208y120.jpg');
if (!scene) throw new Error('sample-images/manifest.json does not have the scene of the browser tests');
const { conductors } = scene;

function pointsOf(color: string): readonly [Place, Place] {
  const [first, second] = conductors.find((c) => c.color === color)?.points ?? [];
  if (!first || !second) throw new Error(`the scene has no ${color} conductor with two points`);
  return [first, second];
}

/** Places of the test scene, in pixels of the photo, from its own truth. */
export const SCENE_POINTS = { blackEnds: pointsOf('black'), blue: pointsOf('blue')[0] } as const;

/** Where a place of the photo lies on the page while the whole photo is shown. */
export async function placeOf(page: Page, [x, y]: Place): Promise<[number, number]> {
  const box = await page.getByRole('application').boundingBox();
  if (!box || !scene) throw new Error('no picture is shown');
  const scale = Math.min(box.width / scene.width, box.height / scene.height);
  return [
    box.x + (box.width - scene.width * scale) / 2 + x * scale,
    box.y + (box.height - scene.height * scale) / 2 + y * scale,
  ];
}
