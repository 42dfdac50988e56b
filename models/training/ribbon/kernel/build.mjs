// Builds kernel.ts into src/color/ribbon/kernel-code.ts. Run `npm run build:kernel`; needs the registry once, for the
// compiler, which is not installed with the project because nothing else uses it.
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const COMPILER = 'assemblyscript@0.28.20';
const here = import.meta.dirname;
const out = join(mkdtempSync(join(tmpdir(), 'kernel-')), 'kernel.wasm');
const options = ['-O3', '--noAssert', '--enable', 'simd', '--runtime', 'stub', '--initialMemory', '1', '-o', out];
execFileSync('npx', ['--yes', '-p', COMPILER, 'asc', join(here, 'kernel.ts'), ...options], { stdio: 'inherit' });
const code = readFileSync(out).toString('hex');
const target = join(here, '../../../../src/color/ribbon/kernel-code.ts');
writeFileSync(
  target,
  `/** models/training/ribbon/kernel/kernel.ts as WebAssembly, hexadecimal; made by build.mjs beside it; do not edit. */\nexport const KERNEL_CODE =\n  '${code}';\n`,
);
console.log(`${target}: ${readFileSync(out).length} bytes of code`);
