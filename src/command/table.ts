import { type Findings, type Message, message, type NamedConductor, type Point } from '../flow';
import { say, sayAll } from '../words';
import type { ProbeAnswer } from './json-line';

const word = (code: string, values?: Message['values']): string => say(message(code, values));

const percent = (share: number): string => `${Math.round(share * 100)} %`;

function columns(rows: readonly (readonly string[])[]): string[] {
  const widths: number[] = [];
  for (const row of rows) for (const [k, cell] of row.entries()) widths[k] = Math.max(widths[k] ?? 0, cell.length);
  return rows.map((row) => `  ${row.map((cell, k) => cell.padEnd(widths[k] ?? 0)).join('  ')}`.trimEnd());
}

function roleText(findings: Findings, id: string): string {
  const best = findings.map.assignments.find((a) => a.conductor === id)?.roles[0];
  if (!best || best.role === 'unassigned') return word('command.role.open');
  return word('command.role', {
    role: best.role,
    system: `identify.system.${best.system}`,
    percent: Math.round(best.probability * 100),
  });
}

/** Every name that cannot be ruled out, most probable first; never one name where there is doubt. */
function colorText(c: NamedConductor): string {
  return c.covering === 'bare' ? word('command.bare') : c.insulation.set.join(word('command.or'));
}

function conductorRow(findings: Findings, c: NamedConductor, scale: number): string[] {
  const middle: Point = c.centerline[Math.floor(c.centerline.length / 2)] ?? [0, 0];
  const marks = [
    ...(c.stripe ? [word('command.stripe', { name: c.stripe.name, layout: c.stripe.layout })] : []),
    ...c.tape.map((t) => word('command.tape', { name: t.name })),
  ];
  return [
    c.id,
    colorText(c),
    percent(c.covering === 'bare' ? c.coveringConfidence : c.insulation.confidence),
    marks.join(', ') || '-',
    roleText(findings, c.id),
    String(Math.round(c.widthPx * scale)),
    `${Math.round(middle[0] * scale)},${Math.round(middle[1] * scale)}`,
  ];
}

const HEAD = ['id', 'color', 'sure', 'marks', 'role', 'width', 'at'].map((k) => `command.head.${k}`);

/** One photo's findings for a person at a terminal. Ends with the reminder that color proves nothing. */
export function table(findings: Findings, probes: readonly ProbeAnswer[] = []): string {
  const { photo, capture, light } = findings;
  const scale = photo.width / findings.workingWidth;
  const head = HEAD.map((code) => word(code));
  const lines = [
    word('command.photo', {
      name: photo.name,
      width: photo.width,
      height: photo.height,
      ms: Math.round(findings.elapsedMs),
    }),
    word(`command.capture.${capture.verdict}`),
    ...sayAll(capture.reasons).map((reason) => `  ${reason}`),
    word('command.light', {
      basis: light.basis,
      x: light.xy[0].toFixed(3),
      y: light.xy[1].toFixed(3),
      deg: Math.round(light.errorDeg),
    }),
    ...(light.flash ? [`  ${say(message('photo.light.flash'))}`] : []),
    ...(findings.conductors.length > 0
      ? columns([head, ...findings.conductors.map((c) => conductorRow(findings, c, scale))])
      : [word('command.none')]),
  ];
  for (const { at, conductor } of probes) {
    lines.push(word('command.probe', { x: at[0], y: at[1] }));
    if (!conductor) lines.push(`  ${word('command.probe.none')}`);
    else lines.push(...columns([head, conductorRow(findings, conductor, scale)]));
    if (conductor) lines.push(...sayAll(conductor.insulation.doubts).map((doubt) => `  ${doubt}`));
  }
  for (const finding of findings.map.findings)
    if (finding.severity !== 'note') lines.push(word('command.warning', { text: say(finding.message) }));
  return [...lines, word('command.proof'), ''].join('\n');
}
