import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import decodeQR from 'qr/decode.js';
import sharp from 'sharp';
import { afterAll, describe, expect, it } from 'vitest';
import { loadLabels, readTag } from '../../src/record';

const POPPLER = spawnSync('pdftoppm', ['-v']).error === undefined;
if (!POPPLER) console.warn('poppler-utils is not installed: the printed labels are not read back');
const folder = mkdtempSync(join(tmpdir(), 'labels-'));
afterAll(() => rmSync(folder, { recursive: true }));

describe.skipIf(!POPPLER)('a sheet of labels', () => {
  it('printed and photographed askew, gives the place back', async () => {
    const { labelSheet } = await loadLabels();
    const place = { panel: 'LP1 "é"', space: 7, termination: 's1-2:1' };
    writeFileSync(join(folder, 'l.pdf'), await labelSheet([{ place, lines: ['LP1', '7', 'Invented pump 漢'] }]));
    execFileSync('pdftoppm', ['-r', '150', '-png', '-singlefile', join(folder, 'l.pdf'), join(folder, 'l')]);
    const text = execFileSync('pdftotext', [join(folder, 'l.pdf'), '-'], { encoding: 'utf8' });
    expect(text).toContain('LP1');
    const image = sharp(join(folder, 'l.png'))
      .extract({ left: 60, top: 60, width: 420, height: 260 })
      .rotate(8, { background: '#999' })
      .blur(1)
      .modulate({ brightness: 0.7 });
    const { data, info } = await image.ensureAlpha().raw().toBuffer({ resolveWithObject: true });
    expect(readTag(decodeQR({ width: info.width, height: info.height, data }))).toEqual(place);
  });

  it('twenty-two places need a second page', async () => {
    const { labelSheet } = await loadLabels();
    const labels = Array.from({ length: 22 }, (_, k) => ({ place: { panel: 'P', space: k + 1 }, lines: ['P'] }));
    const pages = async (count: number): Promise<string | undefined> => {
      const path = join(folder, `${count}.pdf`);
      writeFileSync(path, await labelSheet(labels.slice(0, count)));
      return /Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', [path], { encoding: 'utf8' }))?.[1];
    };
    expect([await pages(21), await pages(22)]).toEqual(['1', '2']);
  });
});
