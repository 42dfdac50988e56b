interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Processor time of the thread, microseconds. */
  readonly tdur?: number;
  readonly args?: { readonly name?: string };
}

/**
 * Longest task of any page's main thread in a Chromium trace, in milliseconds of processor time: unlike time on the
 * clock it does not grow when other programs keep the machine busy.
 */
export function longestTask(trace: Buffer): number {
  const { traceEvents } = JSON.parse(trace.toString()) as { readonly traceEvents: readonly TraceEvent[] };
  const thread = (e: TraceEvent): string => `${e.pid}/${e.tid}`;
  const mains = new Set(
    traceEvents.filter((e) => e.name === 'thread_name' && e.args?.name === 'CrRendererMain').map(thread),
  );
  const tasks = traceEvents.filter((e) => e.ph === 'X' && e.name.endsWith('RunTask') && mains.has(thread(e)));
  return Math.max(0, ...tasks.map((e) => e.tdur ?? 0)) / 1000;
}
