/// <reference lib="webworker" />
import { Problem } from '../flow';
import { decodePhoto } from '../photo/decode.browser';
import type { Segmenter } from '../vision';
import { rastersOf } from './bitmap-raster';
import { glanceAt } from './glance';
import { holdLife } from './life.browser';
import { OpenPhoto } from './open-photo';
import type { Answers, Call, Reply, Request } from './protocol';
import { ribbonPicture } from './ribbon-picture';
import { openSegmenter } from './segmenter.browser';

declare const self: DedicatedWorkerGlobalScope;

let photo: OpenPhoto | undefined;
let segmenter: Promise<Segmenter> | undefined;

/** Opened once, at the first call that needs it. */
function engine(): Promise<Segmenter> {
  segmenter ??= openSegmenter();
  return segmenter;
}

const reply = (message: Reply, transfer: Transferable[] = []): void => self.postMessage(message, transfer);

holdLife((life) => reply({ life }));

self.onmessage = (event: MessageEvent<Request>) => {
  void handle(event.data);
};

async function handle({ id, call }: Request): Promise<void> {
  try {
    const answer = await answerTo(id, call);
    reply({ id, answer }, call.do === 'ribbon' ? [(answer as Answers['ribbon']).data.buffer] : []);
  } catch (error) {
    const problem = error instanceof Problem ? error : new Problem('engine failed', undefined, error);
    if (!(error instanceof Problem)) console.error(error);
    reply({
      id,
      problem: problem.kind,
      ...(problem.what.values ? { values: problem.what.values } : {}),
    });
  }
}

async function answerTo(id: number, call: Call): Promise<Answers[keyof Answers]> {
  if (call.do === 'warm up') {
    await engine();
    return null;
  }
  if (call.do === 'open') {
    photo = undefined;
    const chosen = await engine();
    photo = await OpenPhoto.open(() => decodePhoto(call.bytes, call.name), chosen, {
      ...(call.knowledge ? { knowledge: call.knowledge } : {}),
      onStage: (stage, share) => reply({ id, stage, share }),
    });
    return photo.findings;
  }
  if (call.do === 'glance') {
    const { width, height, aim } = call.frame;
    const frame = { width, height, ...(aim && { aim }), ...rastersOf(call.frame) };
    return glanceAt(frame, await engine());
  }
  if (!photo) throw new Problem('engine failed');
  switch (call.do) {
    case 'trace':
      return photo.trace(call.at);
    case 'traceStroke':
      return photo.traceStroke(call.stroke);
    case 'reread':
      return photo.reread(call.references, call.conductors);
    case 'hue':
      return photo.hue(call.references, call.conductor, call.other);
    case 'ribbon':
      return ribbonPicture(photo.ribbon(call.conductor));
  }
}
