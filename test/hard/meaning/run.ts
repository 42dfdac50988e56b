import { appendFileSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { parseArgs } from 'node:util';
import { openInspector } from '../../../src/inspect/inspect.node.ts';
import { TRANSFORMS } from '../images/transforms';
import { practiceScenes } from './practice-scenes';
import { type Labelled, type Outcome, rates, readChanged } from './read-changed';

/**
 * The changes that must not change what a photo means, over the whole way.
 * Usage: npm run hard:meaning -- [--index INDEX.json] [--from N] [--to N] [--only TEXT] [--log FILE]
 * Without an index the practice scenes are read. --log adds every outcome as a line of JSON; --sum LOG prints the
 * table of such a log, so that long runs can be made in pieces.
 */
const { values } = parseArgs({
  options: {
    index: { type: 'string' },
    from: { type: 'string', default: '0' },
    to: { type: 'string', default: '1000' },
    only: { type: 'string', default: '' },
    log: { type: 'string' },
    sum: { type: 'string' },
  },
});

interface Index {
  readonly images: readonly {
    readonly file: string;
    readonly points?: readonly {
      readonly x: number;
      readonly y: number;
      readonly color: string;
      readonly tape?: boolean;
    }[];
  }[];
}

function labelled(path: string): Labelled[] {
  const { images } = JSON.parse(readFileSync(path, 'utf8')) as Index;
  return images.slice(Number(values.from), Number(values.to)).map(({ file, points = [] }) => ({
    file,
    bytes: readFileSync(join(dirname(path), file)),
    places: points.map((p) => ({
      at: [p.x, p.y] as const,
      truth: p.color === 'bare-copper' ? 'bare' : p.color,
    })),
  }));
}

function tell(outcomes: readonly Outcome[]): void {
  for (const o of outcomes)
    if (o.change === 'confidently different')
      console.log(
        `${o.file.slice(0, 30)} [${o.at.map(Math.round)}] ${o.way}, ${o.transform}: ${o.before.name} ${o.before.confidence.toFixed(2)} -> ${o.after.name} ${o.after.confidence.toFixed(2)}${o.truth ? ` (truth ${o.truth})` : ''}`,
      );
  console.table(rates(outcomes).map((r) => ({ ...r, rate: `${(100 * r.rate).toFixed(2)} %` })));
}

if (values.sum) {
  const lines = readFileSync(values.sum, 'utf8').trim().split('\n');
  tell(lines.map((line) => JSON.parse(line) as Outcome));
} else {
  const photos = values.index ? labelled(values.index) : practiceScenes().slice(Number(values.from), Number(values.to));
  const transforms = TRANSFORMS.filter((t) => t.name.includes(values.only));
  const inspector = await openInspector();
  const all: Outcome[] = [];
  for (const photo of photos) {
    const outcomes = await readChanged(inspector, photo, transforms);
    if (values.log) appendFileSync(values.log, outcomes.map((o) => `${JSON.stringify(o)}\n`).join(''));
    all.push(...outcomes);
  }
  inspector.dispose();
  tell(all);
}
