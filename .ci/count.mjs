// Adds up what the test runners reported and prints "N passed, N failed" as the last line.
// Usage: node count.mjs FAILED_STEPS VITEST.json PLAYWRIGHT.json...
// A missing report counts as one failure, unless the step that should have written it is counted already; so does a
// runner that failed without naming a test (REPORT.failed lies beside its report).
import { existsSync, readFileSync } from 'node:fs';

const [steps, unitPath, ...browserPaths] = process.argv.slice(2);
let passed = 0;
let failed = Number(steps);

const read = (path) => {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return undefined;
  }
};

const failedSilently = (path, named) => (named === 0 && existsSync(`${path}.failed`) ? 1 : 0);

const unit = read(unitPath);
if (unit) {
  passed += unit.numPassedTests;
  // A file that fails to load has no tests in it: it counts as one failure.
  const unloaded = unit.testResults.filter((file) => file.status === 'failed' && file.assertionResults.length === 0);
  const named = unit.numFailedTests + unloaded.length;
  failed += named + failedSilently(unitPath, named);
  for (const file of unit.testResults)
    for (const test of file.assertionResults)
      if (test.status === 'failed') console.log(`failed: ${file.name.split('/test/').pop()}: ${test.fullName}`);
  for (const file of unloaded) console.log(`failed to load: ${file.name.split('/test/').pop()}: ${file.message}`);
} else if (failed === 0) failed += 1;

for (const path of browserPaths) {
  const browser = read(path);
  if (browser) {
    passed += browser.stats.expected + browser.stats.flaky;
    const named = browser.stats.unexpected + browser.errors.length;
    failed += named + failedSilently(path, named);
  } else if (failed === 0) failed += 1;
}

// Nothing ran is a failure, whatever the steps said.
if (passed === 0 && failed === 0) failed = 1;
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed > 0 ? 1 : 0;
