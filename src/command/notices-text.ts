export interface PackageNotice {
  readonly name: string;
  readonly version: string;
  /** SPDX expression, as far as the package says one. */
  readonly licence: string;
  /** The licence file's text; empty where the package ships none. */
  readonly text: string;
}

const HEAD = `# Third-party notices

Made by \`npm run notices\` from the packages that are installed; do not edit. Prebuilt binaries for one kind of machine
(sharp with libvips, LGPL-3.0-or-later, and esbuild, MIT) are installed by npm on the machine and not part of this
project or its built pages; sharp serves the command line only. opencv-ts carries OpenCV compiled to WebAssembly, which
is under the Apache License 2.0.
`;

const byName = (a: PackageNotice, b: PackageNotice): number =>
  a.name < b.name ? -1 : a.name > b.name ? 1 : a.version < b.version ? -1 : 1;

/** Licences as one Markdown text: same packages, same text. Packages with the same licence text share it. */
export function noticesText(packages: readonly PackageNotice[]): string {
  const groups = new Map<string, PackageNotice[]>();
  for (const each of [...packages].sort(byName)) {
    const key = each.text.trim().replaceAll('\r\n', '\n') || `no licence file: ${each.licence}`;
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  const parts = [...groups].map(([text, members]) => {
    const list = members.map((p) => `- ${p.name} ${p.version} (${p.licence})`).join('\n');
    const fence = '~~~~';
    const body = text.startsWith('no licence file: ')
      ? 'The package ships no licence file.'
      : `${fence}\n${text}\n${fence}`;
    return `${list}\n\n${body}\n`;
  });
  return [HEAD, ...parts].join('\n');
}
