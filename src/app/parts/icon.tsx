/** Line drawings on a 24 x 24 grid, drawn for this tool. Always beside a word, so hidden from screen readers. */
const PATHS = {
  panel: 'M4 3h16v18H4z M9 7h2 M13 7h2 M9 11h2 M13 11h2 M9 15h2 M13 15h2 M12 3v18',
  strand: 'M3 17c6 0 5-10 11-10h7 M3 21c9 0 8-10 13-10h5',
  sheet: 'M5 3h10l4 4v14H5z M15 3v4h4 M8 12h8 M8 16h8',
  lens: 'M3 8h4l2-3h6l2 3h4v12H3z M12 17a3.5 3.5 0 1 0 0-7 3.5 3.5 0 0 0 0 7z',
  file: 'M3 6h7l2 3h9v11H3z',
  sun: 'M12 8a4 4 0 1 0 0 8 4 4 0 0 0 0-8z M12 2v3 M12 19v3 M2 12h3 M19 12h3 M5 5l2 2 M17 17l2 2 M19 5l-2 2 M7 17l-2 2',
  dark: 'M19 15A8 8 0 0 1 9 5a8 8 0 1 0 10 10z',
  back: 'M15 4l-8 8 8 8',
  torch: 'M8 3h8v4l-2 4v10h-4V11L8 7z M8 7h8',
  picture: 'M3 4h18v16H3z M3 17l6-6 5 5 3-3 4 4 M16 9h1',
  map: 'M5 4v16 M12 4v16 M19 4v16 M5 8h7 M12 16h7',
  meter: 'M5 2h14v20H5z M8 5h8v5H8z M12 14v4 M10 16h4',
  keep: 'M5 3h14v18H5z M8 3v7h8V3 M9 17l2 2 4-4',
  draw: 'M4 20l1-5L16 4l4 4L9 19z',
  paper: 'M6 3h12v18H6z M9 7h6',
  length: 'M3 6v12 M21 6v12 M3 12h18 M9 10v4 M15 10v4',
  outline: 'M4 8c5-5 11 5 16 0 M4 16c5-5 11 5 16 0',
  undo: 'M9 5L4 10l5 5 M4 10h10a5 5 0 0 1 0 10h-3',
  redo: 'M15 5l5 5-5 5 M20 10H10a5 5 0 0 0 0 10h3',
  split: 'M3 12h6 M15 12h6 M12 4v3 M12 17v3 M12 10v4',
  join: 'M3 12h18 M8 8l4 4-4 4',
  discard: 'M5 5l14 14 M19 5L5 19',
  plus: 'M12 4v16 M4 12h16',
  minus: 'M4 12h16',
  whole: 'M4 9V4h5 M20 9V4h-5 M4 15v5h5 M20 15v5h-5',
  open: 'M9 4l8 8-8 8',
  check: 'M4 12l5 6L20 5',
  warn: 'M12 3l10 18H2z M12 10v5 M12 18v.5',
  stop: 'M8 2h8l6 6v8l-6 6H8l-6-6V8z M12 7v6 M12 16v.5',
  eye: 'M2 12c5-8 15-8 20 0-5 8-15 8-20 0z M12 10v4',
  needle: 'M3 18a9 9 0 0 1 18 0z M12 18l5-8',
  clash: 'M3 7h7l-2 4h8l-2 4h7 M5 21L19 3',
} as const;

export type IconName = keyof typeof PATHS;

export function Icon({ name }: { readonly name: IconName }) {
  return (
    <svg className="icon" viewBox="0 0 24 24" aria-hidden="true">
      <path d={PATHS[name]} />
    </svg>
  );
}
