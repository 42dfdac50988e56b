import type { Findings, Job, JobPhoto, NamedConductor, Reading } from '../../src/flow';

export const PHOTO_BYTES = new TextEncoder().encode('invented photo bytes, not a picture');

export const conductor = (id: string): NamedConductor => ({
  id,
  origin: 'found',
  covering: 'insulated',
  coveringConfidence: 0.98,
  presence: 0.95,
  outlines: [
    [
      [1, 2],
      [3, 4.5],
      [5, 6],
    ],
  ],
  centerline: [
    [1, 2],
    [5, 6],
  ],
  widthPx: 12.25,
  ends: ['terminal', 'leaves the picture'],
  crossings: [{ at: [2, 3], with: 'c2', overProbability: 0.7, linkProbability: 0.9 }],
  insulation: {
    best: 'orange',
    confidence: 0.61,
    candidates: [
      { name: 'orange', probability: 0.61 },
      { name: 'brown', probability: 0.3 },
    ],
    set: ['orange', 'brown'],
    lab: [60.1, 40.2, -0],
    doubts: [{ code: 'color.doubt.example', values: { n: 1 } }],
  },
  stripe: { name: 'white', confidence: 0.8, layout: 'spiral' },
  hiddenStripe: 0.2,
  tape: [{ name: 'blue', confidence: 0.7, at: [3, 3] }],
});

export const findings = (sha256: string): Findings => ({
  photo: {
    name: '=photo "1", north.jpg',
    format: 'jpeg',
    byteLength: PHOTO_BYTES.length,
    sha256,
    width: 800,
    height: 600,
    orientation: 1,
    takenAt: '2026-03-04T05:06:07',
    flashFired: false,
  },
  workingWidth: 800,
  workingHeight: 600,
  capture: {
    verdict: 'limited',
    reasons: [{ code: 'photo.capture.blurred', values: { px: 2.4 } }],
    measures: {
      blurPx: 2.4,
      clippedShare: 0.01,
      medianLuminance: 0.2,
      litLuminance: 0.7,
      noiseLevel: 1.1,
      castDeg: 3,
      mixedLightDeg: 4,
    },
  },
  light: { mean: [1.1, 1, 0.9], xy: [0.33, 0.34], errorDeg: 4, basis: 'scene statistics' },
  conductors: [conductor('c1'), { ...conductor('c2'), covering: 'bare', stripe: null }],
  references: [{ at: [9, 9], kind: 'known color', name: 'white' }],
  map: {
    systems: [{ system: 'us-480y277', probability: 0.8 }],
    assignments: [
      {
        conductor: 'c1',
        roles: [{ system: 'us-480y277', role: 'phase B', probability: 0.7 }],
        because: [{ code: 'identify.example' }],
        space: 3,
      },
    ],
    eliminated: [{ system: 'us-120240', why: { code: 'identify.example' } }],
    findings: [
      { code: 'x', severity: 'warning', message: { code: 'identify.example' }, conductors: ['c1'], ruleStatus: 'read' },
    ],
  },
  segmenter: 'classical 1',
  elapsedMs: 812.5,
  stages: { decode: 40, segment: 500 },
});

export const reading = (id: string, value: Reading['value'] = 277.1): Reading => ({
  id,
  from: { kind: 'conductor', conductor: 'c1' },
  to: { kind: 'ground' },
  function: 'AC volts',
  value,
  at: '2026-03-04T06:00:00Z',
  by: 'Tech One',
});

export async function sampleJob(id = 'job-1'): Promise<Job> {
  const { createHash } = await import('node:crypto');
  const photo: JobPhoto = {
    id: 'p1',
    findings: findings(createHash('sha256').update(PHOTO_BYTES).digest('hex')),
    words: { c1: { name: 'orange', stripe: null, by: 'Tech One', at: '2026-03-04T05:30:00Z' } },
    readings: [reading('r1')],
    note: 'Invented, "quoted",\nand over two lines: Ω é 漢',
  };
  return {
    id,
    schema: 3,
    title: 'Invented gutter',
    createdAt: '2026-03-04T05:00:00Z',
    by: 'Tech One',
    site: {
      jurisdiction: 'US',
      systems: ['us-480y277'],
      legend: [{ system: 'us-480y277', role: 'phase B', color: 'orange', stripe: 'white' }],
      groups: [{ conductors: ['c1', 'c2'], kind: 'circuit' }],
      spaces: { c1: 3 },
      board: { order: 'upside down' },
    },
    photos: [photo],
    acknowledgements: [{ step: 'live-dead-live', by: 'Tech One', at: '2026-03-04T05:10:00Z' }],
    demo: true,
  };
}
