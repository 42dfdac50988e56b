import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import type { Job, JobPlace, NamedConductor, SiteKnowledge } from '../../src/flow';
import { SAFETY_STEPS } from '../../src/verify';
import { findings } from '../app/fixtures/findings';
import { bringInFile } from './app-page';
import { exported } from './exported';
import { SCENE } from './scene';

const AT = '2026-11-25T12:00:00.000Z';
const WIDE = 1600;
const HIGH = 1200;

/** Conductors side by side down the picture, so that each can be seen and touched. */
const laid = (conductors: readonly NamedConductor[]): NamedConductor[] =>
  conductors.map((c, i) => {
    const x = ((i + 0.5) * WIDE) / conductors.length;
    const half = Math.min(14, (0.3 * WIDE) / conductors.length);
    return {
      ...c,
      widthPx: 2 * half,
      centerline: [
        [x, 0],
        [x, HIGH / 2],
        [x, HIGH],
      ],
      outlines: [
        [
          [x - half, 0],
          [x + half, 0],
          [x + half, HIGH],
          [x - half, HIGH],
        ],
      ],
    };
  });

interface Told {
  readonly conductors: readonly NamedConductor[];
  readonly site: SiteKnowledge;
  readonly place?: Partial<JobPlace>;
}

/** An invented job of one photo, its gate passed, as the file that an export writes. The map is left to be concluded. */
export async function proofFile({ conductors, site, place = {} }: Told): Promise<Buffer> {
  const bytes = readFileSync(SCENE.path);
  const sha256 = createHash('sha256').update(bytes).digest('hex');
  const found = findings(laid(conductors));
  const photo = { ...found.photo, sha256, byteLength: bytes.length, width: WIDE, height: HIGH };
  const job: Job = {
    id: 'proof',
    schema: 3,
    title: 'Invented proof',
    createdAt: AT,
    by: 'Invented Tester',
    site,
    photos: [
      {
        id: 'p1',
        findings: { ...found, photo, workingWidth: WIDE, workingHeight: HIGH },
        words: {},
        readings: [],
        note: '',
      },
    ],
    acknowledgements: SAFETY_STEPS.filter((s) => s.moment === 'before any reading').map((s, i) => ({
      step: s.id,
      by: 'Invented Tester',
      at: `2026-11-25T12:00:${String(i).padStart(2, '0')}.000Z`,
    })),
    meter: { category: 'III', ratedVolts: 1000, lowImpedance: true },
    place: { kind: 'panel', wetOrDamaged: false, motors: false, postedVolts: {}, way: 'supply on', ...place },
    demo: false,
  };
  return exported(job, AT, new Map([['p1', bytes]]));
}

/** Brings the file in and goes to its meter, as a user who was sent the job would. */
export async function openProof(page: Page, file: Buffer): Promise<void> {
  await page.goto('./');
  await bringInFile(page, { name: 'proof.json', mimeType: 'application/json', buffer: file });
  await page.waitForURL(/#\/job\//);
}
